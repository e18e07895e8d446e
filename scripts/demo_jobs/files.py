# SPDX-License-Identifier: GPL-2.0-or-later
"""The files of a job as text: logs, control, tapes, instruments, decisions."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

import numpy as np

from . import walker

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from .route import Route
    from .site import Site

INSTRUMENT = "demo-1"
SURVEY_DATE, PICTURE_DATE, ANSWER_DATE = "2026-05-12", "2026-04-28", "2026-05-12"
ANSWERED_BY = "demo"
LEADING = ("walk", "station", "x", "y", "z", "time")
CELLS = (
    "feature", "part", "geometry", "leg", "hole_in", "mark", "item", "side_item", "status", "surface",
    "width", "depth", "height", "stem_d",
)  # fmt: skip
INSTRUMENT_ROW = {
    "instrument": INSTRUMENT,
    "scale": walker.SCALE,
    "scale_shared": 0,
    "heading_rate_deg_per_min": walker.HEADING_DEG_MIN,
    "heading_walk_deg_per_sqrt_m": "",
    "leg_m": walker.LEG,
    "leg_m_per_s1_5": walker.LEG_TIME,
    "leg_m_per_sqrt_m": "",
    "stand_m": walker.STAND,
    "height_leg_m": walker.HEIGHT_LEG,
    "height_leg_m_per_s1_5": walker.HEIGHT_LEG_TIME,
    "height_leg_m_per_sqrt_m": "",
    "height_stand_m": walker.HEIGHT_STAND,
}


def number(value: float, digits: int | None) -> str:
    """A number with so many decimals, or (None) with every digit it has."""
    return repr(float(value)) if digits is None else f"{value:.{digits}f}"


def write_rows(header: Sequence[str], rows: Iterable[Sequence[object]], *keys: str) -> str:
    """A CSV file with its key lines."""
    text = io.StringIO()
    text.writelines(f"# {key}\n" for key in keys)
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(header)
    writer.writerows(rows)
    return text.getvalue()


def log_head(site: Site) -> str:
    """The key lines and the header row of a log."""
    keys = {"units": site.unit, "instrument": INSTRUMENT, "date": SURVEY_DATE, "site": site.name}
    lines = [f"# {key}: {value}\n" for key, value in keys.items()]
    return "".join(lines) + ",".join((*LEADING, "hold_s", *CELLS)) + "\n"


def row_tails(route: Route, arrival: np.ndarray, digits: int | None) -> list[str]:
    """What follows x, y, z in each row; the same in every draw, so it is made once."""
    tails = []
    for stop, time in zip(route.stops, arrival):
        cells = {**stop.cells, "leg": stop.leg}
        words = (cells.get(column, "") for column in CELLS)
        tails.append(",".join((number(time, digits), f"{stop.hold:g}", *words)))
    return tails


def write_log(head: str, name: str, shown: np.ndarray, tails: Sequence[str], digits: int | None) -> str:
    """One log: `shown` (n, 3) are its x, y, z."""
    form = "{!r}" if digits is None else f"{{:.{digits}f}}"
    line = f"{name},{{}},{form},{form},{form},{{}}\n".format
    rows = (line(i, *xyz, tail) for i, (xyz, tail) in enumerate(zip(shown.tolist(), tails), start=1))
    return head + "".join(rows)


def write_control(site: Site, shift: Sequence[float], picks: np.ndarray, digits: int | None) -> str:
    """The control file; every picked mark has the picture's shift and its own error, metres or feet as the site."""
    rows = []
    for point, error in zip(site.control, picks):
        x, y, z = site.marks[point.mark]
        east, north = site.to_map(x, y)
        place = ["", ""]
        if point.is_picked:
            place = [number(east + shift[0] + error[0], digits), number(north + shift[1] + error[1], digits)]
        level = [number(z, 3), str(site.level_sd)] if point.has_level else ["", ""]
        rows.append(
            (point.mark, *place, level[0], site.pick_sd if point.is_picked else "", level[1], point.use)
        )
    keys = [f"crs: {site.crs}", f"common-sd: {site.shift_sd}", "height-datum: site datum"]
    units = [] if site.unit == "m" else [f"units: {site.unit}"]
    header = ("mark", "x", "y", "z", "sd_xy", "sd_z", "use")
    return write_rows(header, rows, *keys, f"picture-date: {PICTURE_DATE}", *units)


def write_tapes(site: Site, errors: Sequence[float], digits: int | None) -> str:
    """The tapes, level, in the site's unit."""
    rows = []
    for (start, end), error in zip(site.tapes, errors):
        a, b = site.marks[start], site.marks[end]
        length = float(np.hypot(b[0] - a[0], b[1] - a[1])) + float(error)
        rows.append((start, end, number(length, digits), site.tape_sd, "no"))
    return write_rows(("from", "to", "distance", "sd", "slope"), rows, f"units: {site.unit}")


def write_instruments() -> str:
    """The instruments file: one row, with what the walker really does."""
    return write_rows(tuple(INSTRUMENT_ROW), [tuple(INSTRUMENT_ROW.values())])


def write_decisions(site: Site) -> str:
    """The answers of the clean job."""
    rows = [(*answer, ANSWERED_BY, ANSWER_DATE) for answer in site.answers]
    return write_rows(("finding", "place", "answer", "by", "when"), rows)
