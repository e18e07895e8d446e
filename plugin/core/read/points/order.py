# SPDX-License-Identifier: GPL-2.0-or-later
"""In which order do the columns of a point list without header stand? Asked, with the orders that its numbers allow."""

from __future__ import annotations

from collections.abc import Sequence

from ...findings import Finding, Severity
from ..cells import parse_number
from ..faults import LEFT_OUT, LONGEST_SHOWN
from .columns import OTHER, Role
from .degrees import LIMITS, is_degrees, parse_degrees
from .text import Layout, is_number, is_value

FEWEST, MOST = 3, 7
"""Columns of a table without header that is taken for a point list."""
_PLAN = ((Role.NORTHING, Role.EASTING), (Role.EASTING, Role.NORTHING))
_ANGLES = ((Role.LATITUDE, Role.LONGITUDE), (Role.LONGITUDE, Role.LATITUDE))


def is_list_without_header(layout: Layout) -> bool:
    """Whether the rows can be points: mostly of one width, two columns of numbers, and a name only in front."""
    rows = layout.fitting
    if layout.header is not None or not FEWEST <= layout.width <= MOST or 2 * len(rows) <= len(layout.rows):
        return False
    values = value_columns(layout)
    return len([i for i in values if i]) > 1 and (0 in values or _is_naming(layout))


def value_columns(layout: Layout) -> tuple[int, ...]:
    """The columns that hold a number or an angle, or nothing, in more than half of the rows."""
    rows = layout.fitting
    columns = list(zip(*rows)) if rows else []
    good = [sum(is_value(cell, layout.separator) for cell in column) for column in columns]
    filled = [sum(bool(cell.strip()) for cell in column) for column in columns]
    return tuple(i for i, (some, all_) in enumerate(zip(good, filled)) if 2 * some > all_ > 0)


def _is_naming(layout: Layout) -> bool:
    """Whether the first column tells the rows apart."""
    names = [row[0].strip() for row in layout.fitting]
    return len(set(names)) == len(names)


def _may_be_number(layout: Layout) -> bool:
    cells = [row[0].strip() for row in layout.fitting]
    return _is_naming(layout) and all(cell.isdigit() for cell in cells if is_number(cell, layout.separator))


def find_orders(layout: Layout) -> tuple[str, ...]:
    """The orders of columns that the numbers allow, in the words of a choice."""
    values = value_columns(layout)
    orders: dict[str, None] = {}
    for has_number in (True, False):
        places = _from_angles(layout, [i for i in values if i or not has_number])
        is_right = _may_be_number(layout) if has_number else 0 in values
        # four values or more with whole numbers in front: these are the points' numbers
        if not is_right or len(places) < 2 or (not has_number and _may_be_number(layout) and len(values) > 3):
            continue
        for pair in _pairs(layout, places):
            orders[_order(layout, values, places, pair, has_number=has_number)] = None
    return tuple(orders)


def _from_angles(layout: Layout, places: list[int]) -> list[int]:
    """The columns of values from the first of two that are written as angles on: these give the place."""
    rows = layout.fitting
    angles = [i for i in places if 2 * sum(is_degrees(row[i]) for row in rows) > len(rows)]
    return places if len(angles) != len(_PLAN[0]) else [*angles, *(i for i in places if i > angles[1])]


def _pairs(layout: Layout, places: Sequence[int]) -> tuple[tuple[Role, Role], ...]:
    """What the first two columns of values can be; degrees only where they are not beyond what degrees can be."""
    rows = [(row[places[0]].strip(), row[places[1]].strip()) for row in layout.fitting]
    cells = [cell for row in rows for cell in row]
    if any(map(is_degrees, cells)):
        fits = [sum(_are_degrees(row, pair) for row in rows) for pair in _ANGLES]
        return tuple(pair for pair, count in zip(_ANGLES, fits) if count == max(fits))
    numbers = [parse_number(cell.replace(",", ".")) for cell in cells]
    are_small = all(number is None or abs(number) <= LIMITS["EW"] for number in numbers)
    return (*_PLAN, *_ANGLES) if are_small else _PLAN


def _are_degrees(cells: Sequence[str], pair: Sequence[Role]) -> bool:
    """Whether two cells can be these; a letter N, S, E or W, or its size, says which of the two it is."""
    kinds = ["NS" if role is Role.LATITUDE else "EW" for role in pair]
    angles = [parse_degrees(cell, kind) for cell, kind in zip(cells, kinds)]
    return all(angle is not None and abs(angle) <= LIMITS[kind] for angle, kind in zip(angles, kinds))


def _order(
    layout: Layout, values: Sequence[int], places: Sequence[int], pair: tuple[Role, Role], *, has_number: bool
) -> str:
    words = [OTHER] * layout.width
    if has_number:
        words[0] = Role.NUMBER.value
    for i, role in zip(places, (*pair, Role.ELEVATION)):
        words[i] = role.value
    columns = list(zip(*layout.fitting))
    texts = [i for i, word in enumerate(words) if word == OTHER and i not in values and any(columns[i])]
    if texts:
        words[texts[-1]] = Role.DESCRIPTION.value
    return ", ".join(words)


def ask_order(file: str, line: int, walk: str, layout: Layout) -> Finding:
    """The IN-01 stop of a list whose columns nobody has named; an order answers it, or `left out`."""
    first = layout.fitting[0]
    station = first[0].strip() if _may_be_number(layout) else ""
    return Finding(
        "IN-01",
        Severity.STOP,
        f"{walk}:{station or 1}",
        template="{file}, line {line}: the point list has no column names; its first row is {row}.",
        remedy="Put a line with the names above it, or answer with the order of the columns; until then its points are "
        "not read.",
        data={
            "file": file, "line": line,
            "row": " | ".join(cell.strip()[:LONGEST_SHOWN] for cell in first[:MOST]),
        },
        file=file,
        line=line,
        walk=walk,
        station=station or "1",
        answers=(*find_orders(layout), LEFT_OUT),
    )  # fmt: skip
