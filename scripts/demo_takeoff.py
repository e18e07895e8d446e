#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-2.0-or-later
"""The ground takeoff of both demo surveys, by the toolbox's own algorithms: surface, volumes, sections, faces, walls,
slabs and trees. scripts/demo calls this after the surveys; scripts/demo_report.py holds the figures against the truth.

    scripts/demo_takeoff.py FOLDER

FOLDER holds NAME/NAME.gpkg of each site; beside it come ground.gpkg, volumes.gpkg, sections.gpkg and takeoff.json.
"""

from __future__ import annotations

import json
import math
import os
import sys
from collections.abc import Iterable
from pathlib import Path

ROOT = Path(__file__).absolute().parent.parent
sys.path.insert(0, str(ROOT))

from scripts.demo_jobs import find_site
from scripts.demo_jobs import marlisk_yard as yard
from scripts.demo_jobs import sorrelback_lane as lane
from scripts.demo_jobs.compare import Found, Key
from scripts.demo_jobs.site import Truth
from scripts.demo_jobs.truth import STRAIGHT
from scripts.demo_layers import Layers, Row, without_journals

SIGMA = 0.02
"""Metres: what a corner is taken to be worth where an algorithm asks; the demo's legs and stands come to 6 mm and its
scale to 15 mm on 10 m."""
STEM_SIGMA = {"marlisk_yard": 0.01 / math.sqrt(12.0), "sorrelback_lane": 0.0254 / math.sqrt(12.0)}
"""Metres: stems are noted to the centimetre in the one, to the inch in the other; the rounding's one-sigma."""
STONE, STONE_EXTRA = 0.20, 0.15
"""Metres: the court's stone, and how far it reaches past the paving."""
V_SHAPED = 1
"""Of the cross sections of trenches and swales."""
MAKE_UP = 0.290
"""Metres from the court's finished level down to its formation."""
Figures = dict[Key, Found]
NOT_TAKEN = {
    ("Paved court", "", "cut_m3"): "the levels end short of its curve's crown; its straight part is measured",
    ("Paved court", "", "fill_m3"): "the same",
}
"""True figures (feature, part, column) that are not held against a measured one, and why."""


def to_take_off(truths: Iterable[Truth]) -> list[Truth]:
    """The true figures of a site that its ground takeoff must have."""
    return [t for t in truths if t.table == "takeoff" and (t.feature, t.part, t.column) not in NOT_TAKEN]


def main() -> None:
    """Take off both sites and write what was found."""
    from scripts.bench_layers import start_host

    host = start_host()
    folder = Path(sys.argv[1]).absolute()
    for name in ("marlisk_yard", "sorrelback_lane"):
        print(f"\n== {find_site(name).name}, ground takeoff", flush=True)
        figures = take_off(name, folder / name)
        print(f"{len(figures)} figures in {folder.name}/{name}/takeoff.json", flush=True)
    sys.stdout.flush()
    del host
    os._exit(0)


def take_off(name: str, folder: Path) -> Figures:
    """All figures of a site's ground takeoff, which are also written to its folder."""
    without_journals()
    layers = Layers(folder / f"{name}.gpkg", folder)
    figures = _yard(layers) if name == "marlisk_yard" else _lane(layers)
    rows = [[*key, found.value, found.sigma] for key, found in figures.items()]
    (folder / "takeoff.json").write_text(json.dumps(rows, indent=0) + "\n", encoding="utf-8")
    return figures


def read_take_off(folder: Path) -> Figures:
    """What was found."""
    rows = json.loads((folder / "takeoff.json").read_text("utf-8"))
    return {tuple(key): Found(value, sigma) for *key, value, sigma in rows}


def _told(row: Row, column: str, feature: str, name: str = "", part: str = "") -> Figures:
    """A figure of a row under the name that the truth has for it."""
    ending = "_2" if column.endswith("_m_2") else ""  # the host's, where the layer had such a column
    value, sigma = row[column], row.get(f"{column[: len(column) - len(ending)]}_sigma{ending}")
    if not isinstance(value, float):
        raise SystemExit(f"{feature} has no {column}: {row.get('finding') or row.get('finding_2')}")
    found = Found(value, sigma if isinstance(sigma, float) else None)
    return {("takeoff", feature, part, name or column, 0): found}


def _yard(layers: Layers) -> Figures:
    ground = layers.surface("ground", SURVEY=str(layers.survey))
    layers.surface("finished", SURVEY=str(layers.survey))  # with the risers and the wall's face, which lean
    return {
        **_volumes(layers, ground),
        **_section(layers, ground, ("P", "C"), "Paved court"),
        **_stone(layers),
        **_walls(layers),
        **_faces(layers),
        **_swale(layers),
        **_circles(layers, "marlisk_yard", tuple(yard.TREES)),
        **_trees(layers),
    }


def _volumes(layers: Layers, ground: str) -> Figures:
    """Cut and fill to the formation, which lies under the court as it was walked: both surfaces count as independent, which
    is careful, for they err together."""
    court = layers.table("areas", "feature = 'Paved court'")
    formation = layers.run("native:translategeometry", INPUT=court, DELTA_Z=-MAKE_UP)
    worth = layers.height_sigma("stations", "z_m_sigma", "feature = 'Paved court'")
    below = layers.surface("formation", BREAKLINES=formation, BOUNDARY=formation, LINE_SIGMA=worth)
    areas = layers.straight_part(court)
    both = {"SURFACE": ground, "TO_SURFACE": below}
    (row,) = layers.rows("groundtally:measure_volumes", "volumes", AREAS=areas, **both)
    told = (_told(row, column, "Paved court", part=STRAIGHT) for column in ("cut_m3", "fill_m3"))
    return {key: found for figures in told for key, found in figures.items()}


def _stone(layers: Layers) -> Figures:
    """The court's stone, wider than the paving on its outer side."""
    court = layers.table("areas", "feature = 'Paved court'")
    sizes = {"THICKNESS": STONE, "EXTRA": STONE_EXTRA, "SIZE_SIGMA": 0.0}
    (row,) = layers.rows("groundtally:measure_slabs", INPUT=court, SIGMA=SIGMA, **sizes)
    return {
        **_told(row, "slab_m2", "Paved court", "stone_area_m2"),
        **_told(row, "concrete_m3", "Paved court", "stone_m3"),
    }


def _section(layers: Layers, ground: str, marks: tuple[str, str], crossed: str) -> Figures:
    """A section from mark to mark, and the ground's levels where it meets and leaves a feature."""
    name = " to ".join(marks)
    line = layers.line(name, marks)
    given = {"SURFACES": [ground], "LINES": line}
    given["FEATURES"] = layers.table("areas", f"feature = '{crossed}'")
    table, sections = layers.both("groundtally:cut_sections", ("OUTPUT", "SECTIONS"), "sections", **given)
    (way,) = sections
    met = [row for row in table if crossed in str(row["feature"] or "")]
    feature = f"Section {name}"
    figures = {**_told(way, "rise_m", feature), **_told(way, "gradient_ratio", feature)}
    for row, part in ((met[0], f"into {crossed}"), (met[-1], f"out of {crossed}")):
        figures.update(_told(row, "level_m", feature, part=part))
    return figures


def _walls(layers: Layers) -> Figures:
    seat = layers.table("lengths", "feature = 'Seat wall'")
    sizes = {"THICKNESS": yard.SEAT_THICK, "SIZE_SIGMA": 0.0}  # its height is the one noted on site
    # Its front is the court's curve, walked so that the back lies to the right.
    (row,) = layers.rows("groundtally:measure_walls", INPUT=seat, LIES=2, SIGMA=SIGMA, **sizes)
    figures = {}
    for column, name in (
        ("centre_m", "centre_length_m"),
        ("back_m", "back_length_m"),
        ("body_m3", "volume_m3"),
    ):
        figures.update(_told(row, column, "Seat wall", name))
    bed = layers.table("lengths", "feature = 'Bed 1 wall'")
    row = layers.with_figures(layers.rows("groundtally:measure_walls", INPUT=bed, SIGMA=SIGMA), "face_m2")
    return {**figures, **_told(row, "face_m2", "Bed 1 wall")}


def _faces(layers: Layers) -> Figures:
    """Developed faces; the same in plan, from the lines without their heights."""
    figures = {}
    for feature in ("Bank", "Dished face"):
        lines = layers.table("lengths", f"feature = '{feature}'")
        flat = layers.run("native:dropmzvalues", INPUT=lines, DROP_Z_VALUES=True)
        for some, name in ((lines, "developed_m2"), (flat, "plan_m2")):
            # The dished face takes the width that was noted on its profile.
            rows = layers.rows("groundtally:measure_faces", INPUT=some, SIGMA=SIGMA, SIZE_SIGMA=0.0)
            figures.update(_told(layers.with_figures(rows, "face_m2"), "face_m2", feature, name))
    return figures


def _swale(layers: Layers) -> Figures:
    """With the width and the depth that were noted on site."""
    lines = layers.table("lengths", "feature = 'Swale'")
    given = {"SECTION": V_SHAPED, "SIGMA": SIGMA, "SIZE_SIGMA": 0.0}
    (row,) = layers.rows("groundtally:measure_trenches", INPUT=lines, **given)
    told = [_told(row, column, "Swale") for column in ("plan_m2", "volume_m3", "face_m2")]
    return {key: found for figures in told for key, found in figures.items()}


def _circles(layers: Layers, name: str, trees: tuple[str, ...]) -> Figures:
    """The protected radii of trees, of the stems that were noted on site."""
    figures = {}
    for tree in trees:
        where = layers.table("spots", f"feature = '{tree}'")
        given = {"STEM_SIGMA": STEM_SIGMA[name], "SIGMA": SIGMA, "OVERLAPS": None}
        (row,) = layers.rows("groundtally:protect_trees", INPUT=where, **given)
        figures.update(_told(row, "radius_m", tree, "protected_radius_m"))
    return figures


def _trees(layers: Layers) -> Figures:
    """What the swale takes of the oak's circle and the paving of the young tree's."""
    strip = layers.run(
        "native:buffer",
        INPUT=layers.table("lengths", "feature = 'Swale'"),
        DISTANCE=yard.SWALE_WIDTH / 2.0 * find_site("marlisk_yard").scale,
        SEGMENTS=16,
        END_CAP_STYLE=1,
    )
    court = layers.table("areas", "feature = 'Paved court'")
    figures = {}
    for tree, works, name in (("T3", strip, "swale_overlap_m2"), ("T2", court, "paved_overlap_m2")):
        stem = {"STEM_SIGMA": 0.0, "SIGMA": SIGMA}  # of the stem noted on site
        where = layers.table("spots", f"feature = '{tree}'")
        (row,) = layers.rows("groundtally:protect_trees", INPUT=where, WORKS=works, **stem)
        figures.update(_told(row, "taken_m2", tree, name))
    return figures


def _lane(layers: Layers) -> Figures:
    ground = layers.surface("ground", SURVEY=str(layers.survey))
    wall = layers.table("lengths", "feature = 'Wall'")
    row = layers.with_figures(layers.rows("groundtally:measure_walls", INPUT=wall, SIGMA=SIGMA), "face_m2")
    return {
        **_section(layers, ground, ("A", "C"), "Patio"),
        **_told(row, "face_m2", "Wall"),
        **_drive(layers),
        **_circles(layers, "sorrelback_lane", ("Oak",)),
        **_oak(layers),
    }


def _drive(layers: Layers) -> Figures:
    """The slab, as thick as its depth was noted, with and without the thickened edges of its two long sides."""
    drive = layers.table("areas", "feature = 'Drive'")
    (slab,) = layers.rows("groundtally:measure_slabs", INPUT=drive, SIGMA=SIGMA, SIZE_SIGMA=0.0)
    sides = layers.table("sides", "feature = 'Drive' AND length_m > 10")
    sizes = {
        "EDGE_DEPTH": (lane.EDGE_DEEP - lane.DRIVE_THICK) * lane.FOOT,
        "EDGE_WIDTH": lane.EDGE_WIDE * lane.FOOT,
        "SIZE_SIGMA": 0.0,
    }
    (whole,) = layers.rows("groundtally:measure_slabs", INPUT=drive, EDGES=sides, SIGMA=SIGMA, **sizes)
    return {
        **_told(slab, "concrete_m3", "Drive", "slab_m3"),
        **_told(whole, "edge_m3", "Drive"),
        **_told(whole, "concrete_m3", "Drive"),
    }


def _oak(layers: Layers) -> Figures:
    """How much of the wall stands in the oak's circle."""
    where = layers.table("spots", "feature = 'Oak'")
    stem = {"STEM_SIGMA": 0.0, "SIGMA": SIGMA}  # of the stem noted on site
    circle = layers.run("groundtally:protect_trees", INPUT=where, OVERLAPS=None, **stem)
    foot = layers.table("lengths", "feature = 'Wall' AND part = 'foot'")
    inside = layers.run("native:clip", INPUT=foot, OVERLAY=circle)
    (row,) = layers.rows("groundtally:measure_lengths", INPUT=inside, SIGMA=SIGMA)
    return _told(row, next(c for c in ("length_m_2", "length_m") if c in row), "Oak", "wall_inside_m")


if __name__ == "__main__":
    main()
