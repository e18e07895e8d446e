# SPDX-License-Identifier: GPL-2.0-or-later
"""Draw the guide's pictures from its own examples: each algorithm is run, and what it gave is drawn.

Usage: make_guide_pictures.py [FOLDER]     by default resources/guide/pictures; needs QGIS and matplotlib
"""

from __future__ import annotations

import io
import json
import math
import os
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(ROOT))
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import matplotlib as mpl

mpl.use("Agg")
import matplotlib.pyplot as plt
from PIL import Image
from qgis.core import (
    QgsAbstractGeometry,
    QgsApplication,
    QgsFeature,
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsVectorLayer,
)

from plugin.processing.provider import Provider

EXAMPLES = ROOT / "resources" / "guide" / "examples"
DEMO = ROOT / "resources" / "demo" / "marlisk_yard"
COLOURS = json.loads((ROOT / "resources" / "palette.json").read_text(encoding="utf-8"))["colours"]
GREY = "#555555"
DPI, SHADES = 120, 96
"""Dots to an inch, and colours of a picture: a drawing needs no more, and the package stays small."""
P95 = 1.959963984540054
SAG = 0.001
"""Units of a layer that a drawn chord may lie off its arc."""
FOOT = 0.3048
LOOK = {"font.family": "DejaVu Sans", "font.size": 10, "axes.linewidth": 0.6, "hatch.linewidth": 0.5}


class Toolbox:
    """The algorithms, and a folder for what they write."""

    def __init__(self, folder: Path) -> None:
        """The folder is there and stays until the last picture is drawn."""
        self._provider, self._folder = Provider(), folder
        QgsApplication.processingRegistry().addProvider(self._provider)

    def run(self, name: str, output: str, table: str = "", **given: object) -> list[QgsFeature]:
        """The rows of one output of a run."""
        path = self.path(name, output)
        algorithm = self._provider.algorithm(name).create()
        words = {key: str(value) for key, value in given.items()}
        _, good = algorithm.run({**words, output: path}, QgsProcessingContext(), QgsProcessingFeedback())
        if not good:
            sys.exit(f"{name} failed.")
        return self.rows(name, output, table)

    def path(self, name: str, output: str) -> str:
        """Where a run writes an output."""
        return str(self._folder / f"{name}_{output}.gpkg")

    def rows(self, name: str, output: str, table: str = "") -> list[QgsFeature]:
        """The rows of a table that a run has written."""
        path = self.path(name, output)
        layer = QgsVectorLayer(f"{path}|layername={table}" if table else path, table, "ogr")
        return list(layer.getFeatures())


def chords(geometry: QgsGeometry) -> list[list[tuple[float, float]]]:
    """The runs of a geometry as points, arcs in fine chords."""
    shape = geometry.constGet().segmentize(
        SAG, QgsAbstractGeometry.SegmentationToleranceType.MaximumDifference
    )
    parts = shape.coordinateSequence()
    return [[(p.x(), p.y()) for p in ring] for part in parts for ring in part]


def sheet(width: float, height: float):
    """An empty sheet, as wide and high as inches, without axes, equal in both directions."""
    figure, axes = plt.subplots(figsize=(width, height), dpi=DPI, facecolor="white")
    axes.set_aspect("equal")
    axes.axis("off")
    return figure, axes


def north(axes, x: float, y: float, size: float) -> None:
    """A north arrow whose foot is at a place."""
    axes.annotate("", (x, y + size), (x, y), arrowprops={"arrowstyle": "-|>", "color": "black", "lw": 1.2})
    axes.annotate("N", (x, y + size), (0, 3), textcoords="offset points", ha="center", va="bottom")


def scale_bar(axes, x: float, y: float, length: float, words: str) -> None:
    """A scale bar of a length in the layer's units, half of it filled."""
    height = length / 30
    for k, fill in enumerate(("black", "white")):
        axes.add_patch(
            plt.Rectangle(
                (x + k * length / 2, y), length / 2, height, facecolor=fill, edgecolor="black", lw=0.8
            )
        )
    axes.text(x + length / 2, y - height, words, ha="center", va="top", fontsize=9)


def beside(axes, a, b, words: str, away: float) -> None:
    """Words along a side from a to b, so far to its right in the layer's units."""
    (ax, ay), (bx, by) = a, b
    length, angle = math.hypot(bx - ax, by - ay), math.degrees(math.atan2(by - ay, bx - ax))
    x, y = (ax + bx) / 2 + away * (by - ay) / length, (ay + by) / 2 - away * (bx - ax) / length
    turned = (angle + 90.0) % 180.0 - 90.0
    axes.text(x, y, words, rotation=turned, rotation_mode="anchor", ha="center", va="center", fontsize=9)


def number(row: QgsFeature, column: str) -> str:
    """A figure with its 95 %."""
    return f"{row[column]:,.1f} ± {P95 * row[column + '_sigma']:.1f}"


def draw_areas(toolbox: Toolbox, path: Path) -> None:
    """The lot of four sides."""
    (row,) = toolbox.run("measure_areas", "OUTPUT", INPUT=EXAMPLES / "measure_areas" / "lot.csv", SIGMA=0.01)
    (ring,) = chords(row.geometry())
    figure, axes = sheet(7.2, 5.4)
    axes.fill(*zip(*ring), facecolor="#DDEBF4", edgecolor=COLOURS["sky_blue"], hatch="///", lw=0)
    axes.plot(*zip(*ring), color=COLOURS["blue"], lw=2.2, solid_joinstyle="miter")
    axes.plot(*zip(*ring), ls="", marker="s", ms=6, mfc="white", mec=COLOURS["blue"], mew=1.6)
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:]))
    for a, b in zip(ring, ring[1:]):
        feet = math.dist(a, b)
        beside(axes, a, b, f"{feet * FOOT:.2f} m  ({feet:.2f} ft)", math.copysign(16.0, area))
    x, y = (sum(p[k] for p in ring[:-1]) / (len(ring) - 1) for k in (0, 1))
    acres = row["area_m2"] / FOOT**2 / 43_560
    words = f"{number(row, 'area_m2')} m²\n{acres:.5f} acres"
    box = {"facecolor": "white", "edgecolor": "none", "pad": 4}
    axes.text(x - 40, y + 5, words, ha="center", va="center", fontsize=13, bbox=box)
    axes.text(x - 40, y - 42, f"outline {row['perimeter_m']:.2f} m", ha="center", fontsize=10, bbox=box)
    north(axes, 1960, 620, 60)
    scale_bar(axes, 1830, 330, 50 / FOOT, "50 m")
    axes.margins(0.06)
    save(figure, path)


def draw_lengths(toolbox: Toolbox, path: Path) -> None:
    """Two lines of 100 map units, and what they are on the ground, about one middle and to one scale."""
    given = {"INPUT": EXAMPLES / "measure_lengths" / "lines.csv", "SIGMA": 0.02}
    rows = toolbox.run("measure_lengths", "OUTPUT", **given)
    figure, axes = sheet(7.2, 4.6)
    for row, (dx, dy) in zip(rows, ((0, 1), (1, 0))):
        (line,) = chords(row.geometry())
        half, true = math.dist(*line) / 2, row["length_m"] / 2
        axes.plot([-half * dx, half * dx], [-half * dy, half * dy], color=COLOURS["orange"], lw=9, alpha=0.45)
        ends = ([-true * dx, true * dx], [-true * dy, true * dy])
        axes.plot(*ends, color=COLOURS["blue"], lw=2.2, marker="|" if dx else "_", ms=16, mew=2.2)
        words = f"{row['name']}\n{2 * half:.0f} units on the map\n{row['length_m']:.2f} m on the ground"
        if dx:
            axes.text(half + 3, 0, words, va="center")
        else:
            axes.text(6, half - 2, words, va="top")
    for y, colour, width, alpha, words in (
        (-34, COLOURS["orange"], 9, 0.45, "as the web map draws it"),
        (-42, COLOURS["blue"], 2.2, 1.0, "as it lies on the ground"),
    ):
        axes.plot([16, 30], [y, y], color=colour, lw=width, alpha=alpha)
        axes.text(34, y, words, va="center", fontsize=9)
    north(axes, -44, 28, 14)
    axes.set_xlim(-56, 92)
    axes.set_ylim(-54, 54)
    save(figure, path)


NEAR = (18.45, 0.30, 1.2)
"""Metres: the lower left corner and the size of what is shown near by."""
KINDS = {"straight": ("blue", "-", 2.6), "arc": ("vermillion", (0, (5, 1.2)), 3.0)}


def draw_fit(toolbox: Toolbox, path: Path) -> None:
    """The plot with rounded corners: vertices, straights and arcs, and one corner near by."""
    sides = toolbox.run("fit_arcs", "SIDES", INPUT=EXAMPLES / "fit_arcs" / "plot.csv")
    given = QgsVectorLayer(str(EXAMPLES / "fit_arcs" / "plot.csv"), "plot", "ogr")
    (plot,) = given.getFeatures()
    (ring,) = chords(plot.geometry())
    words = {"width_ratios": (1.75, 1), "wspace": 0.06}
    figure, (whole, near) = plt.subplots(1, 2, figsize=(8.4, 3.4), dpi=DPI, gridspec_kw=words)
    for axes, more in ((whole, 0.0), (near, -1.0)):
        axes.set_aspect("equal")
        for side in sides:
            colour, dashes, width = KINDS[side["kind"]]
            (run,) = chords(side.geometry())
            axes.plot(*zip(*run), color=COLOURS[colour], ls=dashes, lw=width + more)
        axes.plot(
            *zip(*ring), ls="", marker="o", ms=4 - 2 * more, mfc="white", mec="black", mew=0.9, zorder=3
        )
    whole.axis("off")
    whole.margins(0.05)
    for side in sides:
        _tell_side(whole, side)
    arc = next(side for side in sides if side["kind"] == "arc")
    count = sum(side["kind"] == "arc" for side in sides)
    words = f"{count} roundings of\nR {arc['radius_m']:.3f} ± {P95 * arc['radius_m_sigma']:.3f} m"
    whole.text(10, 6, words, ha="center", va="center", fontsize=11)
    _draw_near(whole, near, ring, arc)
    save(figure, path)


def _draw_near(whole, near, ring: list[tuple[float, float]], arc: QgsFeature) -> None:
    """One chord of an arc near by, and where in the whole it lies."""
    left, low, size = NEAR
    near.plot(*zip(*ring), color=GREY, lw=1.2)
    near.set(xlim=(left, left + size), ylim=(low, low + size), xticks=[], yticks=[])
    whole.add_patch(plt.Rectangle((left, low), size, size, fill=False, ec=GREY, lw=0.8))
    near.text(left + 0.05, low + size - 0.06, f"sag of a chord {1000 * arc['largest_m']:.0f} mm", va="top")
    near.text(left + 0.05, low + size - 0.18, "(grey: the chords as drawn)", va="top", fontsize=9)
    near.text(left + 0.62, low + 0.22, "the arc", color=COLOURS["vermillion"], va="center")


def _tell_side(axes, side: QgsFeature) -> None:
    (run,) = chords(side.geometry())
    if side["kind"] == "straight":
        beside(axes, run[0], run[-1], f"{side['length_m']:.2f} m", -0.8)
        return
    centre = (side["centre_x"], side["centre_y"])
    axes.plot(*centre, marker="+", ms=9, mew=1.4, color=COLOURS["vermillion"])
    axes.plot(*zip(centre, run[len(run) // 2]), color=COLOURS["vermillion"], lw=0.9, ls=":")


ROOM = 4.5
"""Metres below the survey, for what its lines are."""
AREAS = {
    "Paved court": ("#F3E3C2", "orange", "..", (-1.0, 5.0)),
    "Ramp": ("#E6E6E6", "black", "xxx", (1.0, -4.9)),
    "Bed 1": ("#D5EBE2", "bluish_green", "\\\\", (-9.2, -0.8)),
    "Bed 2": ("#D5EBE2", "bluish_green", "//", (0.0, 0.0)),
}
"""Fill, edge and hatch of an area, and how far from its middle its label stands, metres."""
APART = ("Bed 1",)
"""Areas whose label stands outside, with a line to it."""
LEFT = ("A", "D")
"""Marks whose name stands to their left."""
OTHERS = "steps, walls, face"
LINES = {
    "Kerb": ("black", "-", 1.8),
    "Seat wall": ("vermillion", (0, (6, 1.5)), 2.6),
    "Swale": ("blue", (0, (4, 1.5, 1, 1.5)), 1.8),
    "Bank": ("reddish_purple", (0, (1, 1.2)), 1.8),
    OTHERS: ("black", (0, (2, 2)), 1.0),
}


def draw_survey(toolbox: Toolbox, path: Path) -> None:
    """The demo's survey: areas by hatch, lengths by line, marks, and the figures with their 95 %."""
    areas = toolbox.run("survey_walks", "OUTPUT", "areas", LOGS=DEMO)
    figure, axes = sheet(8.4, 6.6)
    for row in areas:
        _draw_area(axes, row)
    for row in toolbox.rows("survey_walks", "OUTPUT", "lengths"):
        colour, dashes, width = LINES.get(row["feature"], LINES[OTHERS])
        for run in chords(row.geometry()):
            axes.plot(*zip(*run), color=COLOURS[colour], ls=dashes, lw=width)
    for row in toolbox.rows("survey_walks", "OUTPUT", "marks"):
        place = row.geometry().constGet()
        axes.plot(place.x(), place.y(), marker="^", ms=8, mfc=COLOURS["yellow"], mec="black", zorder=5)
        away = (-8, 0, "right") if row["mark"] in LEFT else (7, 0, "left")
        axes.annotate(
            row["mark"],
            (place.x(), place.y()),
            away[:2],
            textcoords="offset points",
            ha=away[2],
            va="center",
            fontsize=9,
            fontweight="bold",
            zorder=6,
        )
    axes.margins(0.05)
    (left, right), (low, high) = axes.get_xlim(), axes.get_ylim()
    low -= ROOM
    axes.set_ylim(low, high)
    north(axes, left + 4, high - 9, 6)
    scale_bar(axes, right - 16, low + 3, 10, "10 m")
    _tell_lines(axes, left + 1, low + 1)
    save(figure, path)


def _draw_area(axes, row: QgsFeature) -> None:
    rings = chords(row.geometry())
    fill, colour, hatch, (dx, dy) = AREAS.get(row["feature"], ("white", "black", "", (0.0, 0.0)))
    axes.fill(*zip(*rings[0]), facecolor=fill, edgecolor=COLOURS[colour], hatch=hatch, lw=1.2)
    for hole in rings[1:]:
        axes.fill(*zip(*hole), facecolor="white", edgecolor=COLOURS[colour], lw=1.0)
    if row["feature"] not in AREAS:
        return
    place = row.geometry().centroid().asPoint()
    if row["feature"] in APART:
        axes.plot(
            [place.x() - 1.5 * (dx < -5), place.x() + dx], [place.y(), place.y() + dy], color=GREY, lw=0.7
        )
    words = f"{row['feature']}\n{number(row, 'area_m2')} m²"
    box = {"facecolor": "white", "edgecolor": "none", "pad": 1.5}
    axes.text(place.x() + dx, place.y() + dy, words, ha="center", va="center", fontsize=9, bbox=box, zorder=4)


def _tell_lines(axes, x: float, y: float) -> None:
    for k, (name, (colour, dashes, width)) in enumerate(LINES.items()):
        at = y + 1.8 * k
        axes.plot([x, x + 5], [at, at], color=COLOURS[colour], ls=dashes, lw=width)
        axes.text(x + 6, at, name, va="center", fontsize=9)


TAKEN_OFF = EXAMPLES / "first_takeoff" / "line.csv"
EVERY_M = 0.5
"""Metres of height between contours that have their level written beside them."""


def draw_takeoff(toolbox: Toolbox, path: Path) -> None:
    """The demo's ground: contours, weak triangles, the court, a section across it, and the circles of its trees."""
    areas = toolbox.run("survey_walks", "OUTPUT", "areas", LOGS=DEMO)
    survey = toolbox.path("survey_walks", "OUTPUT")
    triangles = toolbox.run("build_surface", "OUTPUT", SURVEY=survey)
    contours = toolbox.run("build_surface", "CONTOURS", SURVEY=survey)
    trees = f"{survey}|layername=spots|subset=status = 'retain'"
    figure, axes = sheet(8.4, 6.0)
    for row in triangles:
        ring = chords(row.geometry())[0]
        hatch = {"hatch": "xxxxx", "zorder": 3} if row["is_weak"] == "yes" else {}
        axes.fill(*zip(*ring), facecolor="none" if hatch else "white", edgecolor="#C4C4C4", lw=0.3, **hatch)
    _draw_area(axes, next(row for row in areas if row["feature"] == "Paved court"))
    for row in contours:
        _draw_contour(axes, row)
    for row in toolbox.run("protect_trees", "OUTPUT", INPUT=trees):
        _draw_circle(axes, row)
    (line,) = QgsVectorLayer(str(TAKEN_OFF), "line", "ogr").getFeatures()
    (run,) = chords(line.geometry())
    axes.plot(*zip(*run), color=COLOURS["vermillion"], lw=2.0, ls=(0, (8, 2)), zorder=5)
    for (x, y), name in zip((run[0], run[-1]), line["name"].split(" to ")):
        axes.annotate(name, (x, y), (9, 2), textcoords="offset points", fontweight="bold", zorder=6)
    axes.margins(0.05)
    (left, right), (low, high) = axes.get_xlim(), axes.get_ylim()
    north(axes, left + 2, high - 9, 6)
    scale_bar(axes, right - 16, low + 2, 10, "10 m")
    save(figure, path)


def _draw_contour(axes, row: QgsFeature) -> None:
    """Bold, with its level, at every half metre."""
    level = row["height_m"]
    is_bold = abs(level / EVERY_M - round(level / EVERY_M)) < 1e-9
    for run in chords(row.geometry()):
        axes.plot(*zip(*run), color="black", lw=1.1 if is_bold else 0.5)
        if is_bold and len(run) > 8:
            box = {"facecolor": "white", "edgecolor": "none", "pad": 0.8}
            axes.text(*run[len(run) // 3], f"{level:.1f}", fontsize=8, ha="center", va="center", bbox=box)


def _draw_circle(axes, row: QgsFeature) -> None:
    """A tree and its circle, with the radius."""
    for run in chords(row.geometry()):
        axes.plot(*zip(*run), color=COLOURS["bluish_green"], lw=1.8, ls=(0, (3, 1.5)))
    at = row.geometry().centroid().asPoint()
    axes.plot(at.x(), at.y(), marker="o", ms=6, mfc=COLOURS["bluish_green"], mec="black", zorder=5)
    words = f"{row['feature']}, r {row['radius_m']:.2f} m"
    box = {"facecolor": "white", "edgecolor": "none", "pad": 0.8}
    axes.annotate(
        words,
        (at.x(), at.y()),
        (0, 9),
        textcoords="offset points",
        fontsize=9,
        ha="center",
        zorder=6,
        bbox=box,
    )


def save(figure, path: Path) -> None:
    """Write a picture, in few colours."""
    drawn = io.BytesIO()
    figure.savefig(drawn, bbox_inches="tight", pad_inches=0.1)
    plt.close(figure)
    with Image.open(drawn) as picture:
        picture.convert("RGB").quantize(SHADES).save(path, optimize=True)


PICTURES = {
    "measure_areas": draw_areas,
    "measure_lengths": draw_lengths,
    "fit_arcs": draw_fit,
    "survey_walks": draw_survey,
    "first_takeoff": draw_takeoff,
}


def main() -> None:
    """Draw all and say how large each is."""
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "resources" / "guide" / "pictures"
    folder.mkdir(parents=True, exist_ok=True)
    host = QgsApplication([], False)
    host.initQgis()
    mpl.rcParams.update(LOOK)
    with tempfile.TemporaryDirectory() as scratch:
        toolbox = Toolbox(Path(scratch))
        for name, draw in PICTURES.items():
            path = folder / f"{name}.png"
            draw(toolbox, path)
            print(f"{path.name} {path.stat().st_size / 1000:.0f} kB")


if __name__ == "__main__":
    main()
