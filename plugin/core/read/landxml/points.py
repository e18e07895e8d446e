# SPDX-License-Identifier: GPL-2.0-or-later
"""Coordinate texts of LandXML (north comes first), and the points that its elements refer to by name."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple, Union

import numpy as np

from ...findings import Finding, Severity
from ...quantity import Floats
from ..cells import LARGEST_LENGTH
from ..faults import MOST_FINDINGS
from ..recorded import Rows
from ..repeats import AS_RECORDED, unique_names
from ..xml_text import Element
from .faults import (
    NO_END,
    NO_SUCH_POINT,
    NOT_A_LIST,
    NOT_A_POINT,
    NOT_FINITE_POINT,
    OF_ITSELF,
    TOO_FAR,
    Bad,
    Told,
)
from .frame import Frame

KEPT = (
    "desc",
    "code",
    "state",
    "pointGeometry",
    "DTMAttribute",
    "featureRef",
    "role",
    "surveyOrder",
    "timeStamp",
    "oID",
)
"""Attributes of a point that are kept as columns."""
LARGEST = "1e9 m"


class Position(NamedTuple):
    """A place in the file's own units; `up` is NaN where it has no height."""

    east: float
    north: float
    up: float


class RawPoint(NamedTuple):
    """A CgPoint as it stands: its name, coordinates as text, the name it refers to, the cells of KEPT."""

    name: str
    text: str
    reference: str
    line: int
    group: str
    cells: tuple[str, ...]


Placed = Union[Position, Bad]


def raw_point(element: Element) -> RawPoint:
    """What is kept of the element CgPoint; its group is the innermost one with a name."""
    groups = [p.attributes.get("name", "") for p in element.parents if p.name == "CgPoints"]
    given = element.attributes
    return RawPoint(
        given.get("name", "").strip(),
        element.text,
        given.get("pntRef", "").strip(),
        element.line,
        next((name for name in reversed(groups) if name), ""),
        tuple(given.get(name, "") for name in KEPT),
    )


def read_number(word: str) -> float | None:
    """A number as XML writes it; None where it is none (`1_000` is none, though Python reads it)."""
    try:
        return None if "_" in word else float(word)
    except ValueError:
        return None


def read_position(text: str, line: int, frame: Frame) -> Placed:
    """The position in a text of two or three numbers, or why it has none."""
    numbers = [read_number(word) for word in text.split(None, 4)]
    if len(numbers) not in (2, 3) or None in numbers:
        return Bad(NOT_A_POINT, line, {"cell": text.strip()})
    north, east, *heights = (number for number in numbers if number is not None)
    up = heights[0] if heights else math.nan
    if not all(map(math.isfinite, (north, east, *heights))):
        return Bad(NOT_FINITE_POINT, line, {"cell": text.strip()})
    if (
        max(abs(north), abs(east)) * frame.unit_m > LARGEST_LENGTH
        or abs(up) * frame.height_m > LARGEST_LENGTH
    ):
        return Bad(TOO_FAR, line, {"cell": text.strip(), "largest": LARGEST})
    return Position(east, north, up)


def read_list(element: Element, size: int, frame: Frame) -> Floats | Bad:
    """(n, 3) east, north, height of a PntList of `size` numbers to a point, in the file's units."""
    words = element.text.split()
    start = {"cell": " ".join(words[:size])}
    try:
        values = np.array(words if "_" not in element.text else ["_"], dtype=float)
    except ValueError:
        bad = next((word for word in words if read_number(word) is None), "")
        return Bad(NOT_A_POINT, element.line, {"cell": bad})
    if not len(values) or len(values) % size:
        return Bad(NOT_A_LIST, element.line, {"element": element.name, "size": size, **start})
    rows = values.reshape(-1, size)
    if not np.isfinite(rows).all():
        return Bad(NOT_FINITE_POINT, element.line, start)
    if (
        np.abs(rows[:, :2]).max() * frame.unit_m > LARGEST_LENGTH
        or np.abs(rows[:, 2:]).max(initial=0.0) * frame.height_m > LARGEST_LENGTH
    ):
        return Bad(TOO_FAR, element.line, {**start, "largest": LARGEST})
    heights = rows[:, 2] if size == 3 else np.full(len(rows), np.nan)
    return np.column_stack([rows[:, 1], rows[:, 0], heights])


class PointBook:
    """The points of a file by name; of several by one name the first that has coordinates."""

    def __init__(self, points: Sequence[RawPoint], frame: Frame) -> None:
        """Index the points.

        Args:
            points: in the file's order.
            frame: tells the units, for what is too far.
        """
        self._frame = frame
        self._own: dict[str, RawPoint] = {}
        self._referring: dict[str, RawPoint] = {}
        self._ends: dict[str, tuple[str, bool]] = {}
        for point in points:
            if point.name:
                book = self._own if point.text.strip() else self._referring
                book.setdefault(point.name, point)

    def place(self, point: RawPoint) -> Placed:
        """Where a point lies: its own coordinates go before what it refers to."""
        if point.text.strip() or not point.reference:
            return read_position(point.text, point.line, self._frame)
        return self.find(point.reference, point.line)

    def find(self, name: str, line: int) -> Placed:
        """Where the point of a name lies; `line` is where it is referred to."""
        end, is_circle = self._end_of_chain(name)
        if is_circle:
            return Bad(OF_ITSELF, line, {"cell": name})
        own = self._own.get(end)
        return (
            read_position(own.text, own.line, self._frame) if own else Bad(NO_SUCH_POINT, line, {"cell": end})
        )

    def _end_of_chain(self, name: str) -> tuple[str, bool]:
        """The name at which a chain of references ends, and whether it never does; each step is walked once."""
        walked: list[str] = []
        seen: set[str] = set()
        at = name
        while at not in self._ends and at not in seen:
            seen.add(at)
            walked.append(at)
            referring = None if at in self._own else self._referring.get(at)
            if referring is None or not referring.reference:
                self._ends[at] = (at, False)
            else:
                at = referring.reference
        end = self._ends.get(at, (at, True))
        for passed in walked:
            self._ends[passed] = end
        return end

    def is_member(self, point: RawPoint) -> bool:
        """Whether a point only names another as a member of its group, and is none of its own."""
        if point.text.strip() or not point.reference:
            return False
        return not point.name or (point.name == point.reference and point.name in self._own)

    def end_of(self, element: Element, part: str) -> Placed:
        """Where a child such as Start lies, by its own coordinates or those of the point it refers to."""
        child = element.child(part)
        if child is None:
            return Bad(NO_END, element.line, {"element": element.name, "part": part})
        reference = child.attributes.get("pntRef", "").strip()
        if child.text.strip() or not reference:
            return read_position(child.text, child.line, self._frame)
        return self.find(reference, child.line)


def read_points(
    points: Sequence[RawPoint], book: PointBook, walk: str, frame: Frame, told: Told
) -> Rows | None:
    """The rows of the walk of all points that lie somewhere; None where there is none.

    A point that stands again at the same coordinates is taken once; at others it is told (IN-04).
    """
    placed = _place_all([point for point in points if not book.is_member(point)], book, walk, told)
    kept: list[tuple[RawPoint, Position]] = []
    first: dict[str, int] = {}
    again: list[tuple[int, int]] = []
    for point, place in placed:
        k = first.setdefault(point.name, len(kept)) if point.name else len(kept)
        if k < len(kept):
            if _is_same(kept[k][1], place):
                continue
            again.append((len(kept), k))
        kept.append((point, place))
    names = unique_names([point.name or str(k) for k, (point, _) in enumerate(kept, 1)])
    for k, i in again[:MOST_FINDINGS]:
        told.add(_again(told.file, walk, names[k], kept[k][0], kept[i][0]))
    if len(again) > MOST_FINDINGS:
        k = again[MOST_FINDINGS][0]
        told.add(_more_again(told.file, walk, names[k], kept[k][0], len(again) - MOST_FINDINGS))
    return _rows(kept, names, frame) if kept else None


def _place_all(
    points: Sequence[RawPoint], book: PointBook, walk: str, told: Told
) -> list[tuple[RawPoint, Position]]:
    """The points that lie somewhere; of the others it is told why not."""
    placed = []
    for point in points:
        place = book.place(point)
        if isinstance(place, Position):
            placed.append((point, place))
        elif point.name:
            told.bad(place, f"{walk}:{point.name}", walk=walk, station=point.name)
        else:
            told.bad(place)
    return placed


def _is_same(one: Position, other: Position) -> bool:
    same_height = one.up == other.up or (math.isnan(one.up) and math.isnan(other.up))
    return one[:2] == other[:2] and same_height


def _rows(kept: Sequence[tuple[RawPoint, Position]], names: tuple[str, ...], frame: Frame) -> Rows:
    at = np.array([place for _, place in kept], dtype=float).reshape(-1, 3)
    points = [point for point, _ in kept]
    columns = {name: [point.cells[k] for point in points] for k, name in enumerate(KEPT)}
    columns["group"] = [point.group for point in points]
    notes = [desc or code for desc, code in zip(columns["desc"], columns["code"])]
    return Rows(
        xy=at[:, :2] * frame.plan,
        z=at[:, 2] * frame.height_m,
        line=[point.line for point in points],
        station=names,
        texts={"note": notes},
        extra={name: cells for name, cells in columns.items() if any(cells) and name != "desc"},
    )


def _again(file: str, walk: str, station: str, point: RawPoint, first: RawPoint) -> Finding:
    return Finding(
        "IN-04",
        Severity.STOP,
        f"{walk}:{station}",
        template="{file}, line {line}: the point {name} stands here again at other coordinates, first in line {first}; "
        "it goes on as {station}.",
        remedy="Give it another name, or confirm with: as recorded. What refers to {name} means the first.",
        data={
            "file": file, "line": point.line, "name": point.name, "first": first.line, "station": station,
        },
        file=file,
        line=point.line,
        walk=walk,
        station=station,
        answers=AS_RECORDED,
    )  # fmt: skip


def _more_again(file: str, walk: str, station: str, point: RawPoint, count: int) -> Finding:
    return Finding(
        "IN-04",
        Severity.STOP,
        f"{walk}:{station}",
        template="{file}, from line {line} on: more points of a name that stands there already, at other coordinates: "
        "{count}.",
        remedy="Look first at those that are named, or confirm with: as recorded.",
        data={"file": file, "line": point.line, "count": count},
        file=file,
        line=point.line,
        walk=walk,
        station=station,
        answers=AS_RECORDED,
    )
