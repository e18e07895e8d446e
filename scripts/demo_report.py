#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-2.0-or-later
"""How close the demo came: every true size of both jobs beside the survey's and its ground takeoff's, the stated 95 %
figure, whether it covered the difference, and how many sigmas off it is; then the seeded faults, and the batch of 40 plots.
scripts/demo calls this; FOLDER holds the surveys and their takeoffs.

    scripts/demo_report.py FOLDER
"""

from __future__ import annotations

import json
import math
import sqlite3
import sys
import time
from contextlib import closing
from pathlib import Path

ROOT = Path(__file__).absolute().parent.parent
sys.path.insert(0, str(ROOT))

import numpy as np
from osgeo import ogr

from plugin.core.errors import GroundTallyError
from plugin.core.findings import Severity
from plugin.core.measure.chain import survey_files
from plugin.core.units import convert
from scripts.demo_jobs import FAULTS, SITES, faulty_job, find_site, make_batch
from scripts.demo_jobs.compare import COVER_95, Compared, Key, compare, figures_of_rows, tables_of
from scripts.demo_jobs.site import Site, Truth
from scripts.demo_takeoff import NOT_TAKEN, read_take_off, to_take_off

FAR = 3.5
"""Sigmas that no figure may be off (one in 2,000 is, in a right model)."""
COVER_95_PLANE = 2.4477
UNITS = {
    "m": {"m": "m", "m2": "m2", "m3": "m3"},
    "us-ft": {"m": "us-ft", "m2": "us-ft2", "m3": "us-ft3"},
}
TABLES = ("areas", "sides", "lengths", "spots", "marks")
ogr.UseExceptions()


def main() -> int:
    """Print the report; 1 where a figure is missing or more than 3.5 sigma off, or a fault is not found."""
    folder = Path(sys.argv[1])
    good = True
    for site in map(find_site, SITES):
        good &= report_site(site, folder / site.folder / f"{site.folder}.gpkg")
    good &= report_faults()
    good &= report_batch()
    return 0 if good else 1


def report_site(site: Site, path: Path) -> bool:
    """One job's sizes beside the truth."""
    truths = [Truth(**row) for row in read_truth(site)["sizes"]]
    rows = compare([t for t in truths if not t.column.startswith("map_")], read_figures(path))
    print(f"\n{site.name}: {path.relative_to(path.parent.parent)}")
    print(f"  {'what':<46}{'true':>11}{'found':>11}{'off':>9}{'95 %':>9}{'sigmas':>8}  covered")
    for row in rows:
        if row.truth.table != "spots" or not row.truth.feature.startswith("L"):
            print_row(row, site)
    print("  Ground takeoff:")
    taken = compare(to_take_off(truths), read_take_off(path.parent), ["takeoff"])
    for row in taken:
        print_row(row, site)
    report_not_taken(truths)
    rows += taken
    measured = [row for row in rows if row.ratio is not None]
    covered = sum(bool(row.is_covered) for row in measured)
    worst = max(measured, key=lambda row: abs(row.ratio or 0.0))
    print(
        f"  {covered} of {len(measured)} stated 95 % intervals cover the truth (spot levels of the grid "
        "and the takeoff counted in);"
    )
    if covered < len(measured):
        print(
            f"  {len(measured) - covered} do not; of {len(measured)} about {len(measured) / 20:.0f} are expected not to (one "
            "in twenty), and not one by one: figures of one shape err together;"
        )
    print(f"  the farthest is {abs(worst.ratio or 0.0):.2f} sigma off ({name_of(worst.truth)}).")
    good = all(row.found is not None for row in rows) and abs(worst.ratio or 0.0) < FAR
    return good & report_places(site, path, truths) & report_findings(path)


def report_not_taken(truths: list[Truth]) -> None:
    """True figures of the takeoff that nothing is held against."""
    why: dict[str, list[str]] = {}
    for t in truths:
        reason = NOT_TAKEN.get((t.feature, t.part, t.column)) if t.table == "takeoff" else None
        if reason is not None:
            why.setdefault(reason, []).append(name_of(t))
    for reason, names in why.items():
        print(f"  not compared: {'; '.join(names)} ({reason})")


def print_row(row: Compared, site: Site) -> None:
    """One line of the table, in the site's own unit."""
    if row.found is None:
        print(f"  {name_of(row.truth):<46}{'missing':>22}")
        return
    factor, unit, places = display(row.truth.column, site)
    half = "" if row.ratio is None else f"{COVER_95 * (row.found.sigma or 0.0) * factor:.{places}f}"
    mark = {True: "yes", False: "no", None: ""}[row.is_covered]
    sigmas = "" if row.ratio is None else f"{row.ratio:+.2f}"
    note = "  (recorded chords)" if row.truth.recorded is not None else ""
    print(
        f"  {name_of(row.truth):<46}{row.truth.value * factor:>11.{places}f}{row.found.value * factor:>11.{places}f}"
        f"{row.error * factor:>+9.{places}f}{half:>9}{sigmas:>8}  {mark:<4}{unit}{note}"
    )


def display(column: str, site: Site) -> tuple[float, str, int]:
    """Factor, unit and places in which a column is shown."""
    if column.endswith("_deg"):
        return 1.0, "deg", 2
    if column.endswith("_ratio"):
        return 1.0, "", 4
    kind = next((kind for kind in ("m2", "m3") if column.endswith(f"_{kind}")), "m")
    unit = UNITS[site.unit][kind]
    return convert(1.0, kind, unit), unit, 3


def name_of(truth: Truth) -> str:
    """What a true size is of."""
    part = f" {truth.part}" if truth.part else ""
    side = f" side {truth.side}" if truth.side else ""
    figure = truth.column.rsplit("_", 1)[0].replace("_", " ")
    return f"{truth.feature}{part}{side}, {'level' if truth.column == 'z_m' else figure}"


def read_truth(site: Site) -> dict:
    """truth.json of a site."""
    return json.loads((ROOT / "resources" / "demo" / site.folder / "truth.json").read_text("utf-8"))


def read_figures(path: Path) -> dict[Key, object]:
    """All figures of a survey GeoPackage, by key."""
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as database:
        database.row_factory = sqlite3.Row
        tables = {
            table: [dict(row) for row in database.execute(f"SELECT * FROM {table}")]  # noqa: S608 - one of TABLES
            for table in TABLES
        }
    return figures_of_rows(tables)


def report_places(site: Site, path: Path, truths: list[Truth]) -> bool:
    """Places on the map: marks, and the points named in truth.json, against their 95 % ellipses. They share the
    placement's error, so they are off together."""
    true = {}
    for t in truths:
        if t.column.startswith("map_"):
            true.setdefault((t.table, t.feature, t.part), {})[t.column] = t.value
    far = covered = 0
    lines = []
    for (table, name, part), xy in true.items():
        found = find_place(path, table, name, np.array([xy["map_x"], xy["map_y"]]))
        if found is None:
            continue
        gap = (np.array([xy["map_x"], xy["map_y"]]) - found[0]) * convert(1.0, site.unit, "m")
        ratio = sigmas_off(gap, *found[1:])
        covered += ratio < COVER_95_PLANE
        far += ratio > FAR
        label = f"{name} {part}".strip()
        lines.append(f"{label} {np.hypot(*gap):.3f} m off (95 % ellipse {COVER_95_PLANE * found[1]:.2f} m)")
    print(
        f"  Places on the map, {covered} of {len(lines)} inside their 95 % ellipse: " + "; ".join(lines) + "."
    )
    return far == 0


def find_place(path: Path, table: str, name: str, near: np.ndarray) -> tuple | None:
    """Map point, axes (metres) and bearing (degrees) of the ellipse of a mark, or of a feature's station nearest
    to a place (which corner is meant is known to some metres; how far off it is, is what is asked)."""
    source = ogr.Open(str(path))
    layer = source.GetLayerByName("marks" if table == "marks" else "stations")
    column = "mark" if table == "marks" else "feature"
    rows = [f for f in layer if f.GetField(column) == name]
    if not rows:
        return None
    points = np.array([(f.GetGeometryRef().GetX(), f.GetGeometryRef().GetY()) for f in rows])
    best = int(np.argmin(np.hypot(*(points - near).T)))
    fields = [rows[best].GetField(c) for c in ("sigma_major_m", "sigma_minor_m", "sigma_bearing_deg")]
    return (points[best], *fields)


def sigmas_off(gap: np.ndarray, major: float, minor: float, bearing_deg: float) -> float:
    """The gap in sigmas of the ellipse, in its own axes."""
    along = np.array([math.sin(math.radians(bearing_deg)), math.cos(math.radians(bearing_deg))])
    across = np.array([-along[1], along[0]])
    return float(np.hypot(gap @ along / major, gap @ across / minor))


def report_findings(path: Path) -> bool:
    """What the job's findings came to."""
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as database:
        counts = dict(
            database.execute("SELECT severity, count(*) FROM findings WHERE answer IS NULL GROUP BY 1")
        )
        status = database.execute("SELECT status FROM placement").fetchone()[0]
    words = ", ".join(f"{counts.get(s.value, 0)} {s.value}" for s in Severity)
    print(f"  Placement: {status}. Open findings: {words}.")
    return status == "placed" and not counts.get("stop")


def report_faults() -> bool:
    """Each seeded fault: whether it is found under its code at its place."""
    print("\nSeeded faults, each over the clean job:")
    good = True
    for name in FAULTS:
        files, expected = faulty_job(name)
        begun = time.perf_counter()
        try:
            survey = survey_files({file: text.encode() for file, text in files.items()})
            found = {(f.code, f.place): f.message for f in survey.findings}
        except GroundTallyError as error:
            found = {}
            print(f"  {name}: {error}")
        message = found.get((expected.code, expected.place))
        good &= message is not None
        took = time.perf_counter() - begun
        print(f"  {name:<17}{expected.code} at {expected.place}: {message or 'NOT FOUND'}  [{took:.2f} s]")
    return good


def report_batch() -> bool:
    """The forty plots: how the clean ones cover their truths, and whether each faulty one gives its finding."""
    begun, ratios, good = time.perf_counter(), [], True
    lines = []
    for plot in make_batch():
        survey = survey_files({file: text.encode() for file, text in plot.files.items()})
        open_ones = {(f.code, f.place) for f in survey.findings if f.is_open}
        if plot.expected is not None:
            is_found = (plot.expected.code, plot.expected.place) in open_ones
            good &= is_found
            words = "found" if is_found else "NOT FOUND"
            lines.append(f"  {plot.name}: {plot.expected.code} at {plot.expected.place} {words}")
            continue
        good &= not any(f.severity is Severity.STOP and f.is_open for f in survey.findings)
        truths = [t for t in plot.truth if t.recorded is None and not t.is_biased]
        rows = compare(truths, figures_of_rows(tables_of(survey)))
        ratios += [abs(row.ratio) for row in rows if row.ratio is not None]
    covered = np.mean(np.array(ratios) < COVER_95)
    took = time.perf_counter() - begun
    print(f"\nBatch of 40 plots, surveyed in the core in {took:.0f} s (drawing them counted in):")
    print(f"  34 without a fault: {covered:.1%} of {len(ratios)} stated 95 % intervals cover the truth.")
    print("\n".join(lines))
    return good


if __name__ == "__main__":
    sys.exit(main())
