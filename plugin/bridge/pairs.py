# SPDX-License-Identifier: GPL-2.0-or-later
"""Control pairs as they are being picked, and the control file that they are kept in."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from ..core.errors import BadInput
from ..core.read.control import GEOGRAPHIC, read_control
from ..core.read.formats import TableKind
from ..core.read.table import read_table
from .kept_table import KeptTable, find_table, read_kept, write_kept

if TYPE_CHECKING:
    from pathlib import Path

NAME = "control.csv"
"""What a control file is called that is made here."""
COLUMNS = ("mark", "x", "y", "sd_xy", "use")
BASE = 2
"""Pairs that place a survey; what is picked after them tests it."""
DEGREE_PLACES, PLACES = 9, 4
"""Decimals that hold a tenth of a millimetre."""


@dataclass(frozen=True)
class Pick:
    """A mark and its map point: x and y in the pairs' CRS, one-sigma in metres (None: not told)."""

    mark: str
    x: float
    y: float
    sd: float | None
    is_check: bool = False


@dataclass(frozen=True)
class Pairs:
    """All pairs of a job.

    Attributes:
        crs: of their points, as a control file names it; "" where it is not known yet.
        picks: in the order in which they were made.
        common: metres, one-sigma each axis of the shift that all picks from the picture share; None: not told.
        picture_date: of the picture, ISO; "" where it is not known.
    """

    crs: str = ""
    picks: tuple[Pick, ...] = ()
    common: float | None = None
    picture_date: str = ""

    @property
    def base(self) -> tuple[Pick, ...]:
        """Those that the placement is fitted to."""
        return tuple(pick for pick in self.picks if not pick.is_check)

    @property
    def is_enough(self) -> bool:
        """Whether they place a survey."""
        return len(self.base) >= BASE

    @property
    def may_be_turned(self) -> bool:
        """Whether they are a base of two, which fits as well when it is turned by half."""
        return len(self.base) == BASE

    def of(self, mark: str) -> Pick | None:
        """The pick of a mark."""
        return next((pick for pick in self.picks if pick.mark == mark), None)

    def with_pick(self, mark: str, x: float, y: float, sd: float) -> Pairs:
        """One pick more, or another place of one: the first two are the base, the others check it."""
        old = self.of(mark)
        is_check = len(self.base) >= BASE if old is None else old.is_check
        return replace(self, picks=(*self.without(mark).picks, Pick(mark, x, y, sd, is_check)))

    def without(self, mark: str) -> Pairs:
        """One pick fewer."""
        return replace(self, picks=tuple(pick for pick in self.picks if pick.mark != mark))

    def used(self, mark: str, *, is_check: bool) -> Pairs:
        """The pick of a mark used for the fit, or kept to check it."""
        picks = (replace(p, is_check=is_check) if p.mark == mark else p for p in self.picks)
        return replace(self, picks=tuple(picks))

    def turned(self) -> Pairs:
        """With the two map points of the base exchanged: the survey turned by half."""
        first, second = self.base
        other = {first.mark: second, second.mark: first}
        picks = (
            replace(p, x=other[p.mark].x, y=other[p.mark].y, sd=other[p.mark].sd) if p.mark in other else p
            for p in self.picks
        )
        return replace(self, picks=tuple(picks))


def find_control(folder: Path) -> Path:
    """The control file of a job's folder; where there is none, the one to make."""
    return find_table(folder, TableKind.CONTROL, NAME)


def read_pairs(path: Path) -> Pairs:
    """The pairs that a control file holds; none where there is no such file.

    Raises:
        BadInput: it cannot be read.
    """
    if not path.is_file():
        return Pairs()
    control, _ = read_control(read_table(path.name, path.read_bytes()))
    picks = [Pick(p.mark, *p.xy, p.sd_xy, p.is_check) for p in control.points if p.xy is not None]
    date = dict(control.other).get("picture-date", "")
    return Pairs(control.crs or "", tuple(picks), control.common_sd, date)


def write_pairs(pairs: Pairs, path: Path, output: Path | None = None) -> None:
    """Write pairs into a control file, or a copy of it elsewhere. Rows of other marks, levels, columns and
    comments stay; the point of a mark that is no pair any more goes.

    Raises:
        BadInput: the file cannot be read or written, or its sigmas are in other units than metres.
    """
    table = read_kept(path, COLUMNS[:1])
    point = ("lon", "lat") if {"lon", "lat"} <= set(table.names) else ("x", "y")
    table = table.with_columns([{"x": point[0], "y": point[1]}.get(name, name) for name in COLUMNS])
    if any(line.replace(" ", "").lower().startswith("#units:") for line in table.comments):
        raise BadInput(
            "{file} has a line # units. Take it out and give its sigmas in metres, then pick again: picks are kept "
            "in metres.",
            file=path.name,
        )
    if pairs.crs and not (point == ("lon", "lat") and pairs.crs == GEOGRAPHIC):
        table = table.with_key("crs", pairs.crs)
    if pairs.common is not None:
        table = table.with_key("common-sd", f"{pairs.common:g}")
    if pairs.picture_date:
        table = table.with_key("picture-date", pairs.picture_date)
    write_kept(path if output is None else output, _with_rows(table, pairs, point))


def _with_rows(table: KeptTable, pairs: Pairs, point: tuple[str, str]) -> KeptTable:
    """The rows of marks with their points as picked; what is told of a mark by another row of it stays."""
    rows, left = [], {pick.mark: pick for pick in pairs.picks}
    for row in table.rows:
        has_point = any(row.get(name, "").strip() for name in point)
        pick = left.pop(row["mark"].strip(), None) if has_point else None
        if pick is not None:
            rows.append({**row, **_cells(pick, point, row, table.delimiter)})
        elif not has_point:
            rows.append(row)
        elif row.get("z", "").strip():
            rows.append({**row, point[0]: "", point[1]: "", "sd_xy": ""})
    rows += [{"mark": pick.mark, **_cells(pick, point, {}, table.delimiter)} for pick in left.values()]
    return replace(table, rows=tuple(rows))


def _cells(pick: Pick, point: tuple[str, str], old: dict[str, str], delimiter: str) -> dict[str, str]:
    """What stands in a pick's row: a point that did not move is left as it was written."""
    comma = "," if delimiter != "," and "," in "".join(old.get(name, "") for name in point) else "."
    places = DEGREE_PLACES if point[0] == "lon" else PLACES
    new = {point[0]: f"{pick.x:.{places}f}", point[1]: f"{pick.y:.{places}f}"}
    if pick.sd is not None:
        new["sd_xy"] = f"{pick.sd:.4g}"
    told = {
        name: old[name] if _same(old.get(name, ""), value, places) else value.replace(".", comma)
        for name, value in new.items()
    }
    return {**told, "use": "check" if pick.is_check else "fit"}


def _same(cell: str, value: str, places: int) -> bool:
    try:
        return abs(float(cell.replace(",", ".")) - float(value)) < 10.0**-places
    except ValueError:
        return False
