# SPDX-License-Identifier: GPL-2.0-or-later
"""A point list before it is read: its first rows, what its columns are likely to be, and a sketch of its points."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING

from ..core.errors import GroundTallyError
from ..core.findings import Decisions
from ..core.read.cells import parse_number
from ..core.read.points.columns import CHOICE_WORDS, CHOSEN, OTHER, PLANS, Role, find_roles
from ..core.read.points.headers import find_names
from ..core.read.points.order import find_orders
from ..core.read.points.point_list import read_point_list
from ..core.read.points.text import Layout, read_text
from ..core.read.recorded import FileRead
from ..core.read.stated import Stated
from .heads import Head, read_head
from .text import explain, explain_finding, tr

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

SHOWN = 8
"""Rows of a list that are shown."""
SKETCHED = 500
"""Points of a sketch: more make a cloud."""
NAMED = 12
"""Points of a sketch that have their number beside them: the first ones."""
FINE_DECIMALS = 5
"""Of a degree: a metre. Nobody writes metres or feet so finely."""
GRID = ((1e5, 1e6), (1e6, 1e7))
"""Between which eastings and northings of the metric grids lie in most of the world."""
EXCHANGED = "PL-04"
"""The code of points that lie in their CRS only with northing and easting exchanged."""
UNREADABLE = "IN-01"
FEET = frozenset({"ft", "us-ft", "in"})
RIGHT_ANGLE_DEG = 90.0
SEA_MILE_M = 1852.0
SITE_DEG = 0.1
"""Degrees: ten kilometres, more than a site is wide; numbers of a plane differ by more than that from peg to peg."""


@dataclass(frozen=True)
class ListSample:
    """The first lines of a list, taken apart.

    Attributes:
        head: the lines.
        layout: how they are written, with their header where they have one.
        rows: the cells of the first rows, `width` each.
    """

    head: Head
    layout: Layout
    rows: tuple[tuple[str, ...], ...]

    @property
    def width(self) -> int:
        """How many columns there are."""
        return self.layout.width

    @property
    def header(self) -> tuple[str, ...] | None:
        """The names of the columns, None where the list has none."""
        return self.layout.header


@dataclass(frozen=True)
class Guess:
    """What the columns are likely to be, in the words of a choice, and what speaks for it."""

    words: tuple[str, ...]
    why: str


def column_label(word: str) -> str:
    """A word of a choice as the user reads it."""
    return {
        "number": tr("Number"),
        "northing": tr("Northing"),
        "easting": tr("Easting"),
        "elevation": tr("Elevation"),
        "description": tr("Description"),
        "longitude": tr("Longitude"),
        "latitude": tr("Latitude"),
        OTHER: tr("not used"),
    }[word]


CHOICES = (*CHOICE_WORDS, OTHER)
"""What a column can be, in the order in which it is offered."""


def read_sample(path: Path) -> ListSample:
    """The first lines of a list.

    Raises:
        BadInput: it cannot be read, is no text, or has no points.
    """
    head = read_head(path)
    layout = find_names(read_text(head.name, head.data)).layout
    rows = [(*row, *("",) * layout.width)[: layout.width] for row in layout.rows[:SHOWN]]
    return ListSample(head, layout, tuple(rows))


def guess_columns(sample: ListSample, crs: str = "", units: str = "") -> Guess:
    """What a list's columns are likely to be.

    Args:
        sample: the list.
        crs: what its coordinates are in, where that is known.
        units: of LOG_UNITS, where they are known.
    """
    named = _by_names(sample)
    if named:
        return named
    orders = [tuple(order.split(", ")) for order in find_orders(sample.layout)]
    if not orders:
        return Guess((OTHER,) * sample.width, tr("Nothing shows which columns give a place: choose them."))
    guesses = (_by_angles(orders), _by_crs(sample, orders, crs), _by_size(sample, orders, units))
    found = next(filter(None, guesses), None)
    usual = tr(
        "Nothing in the numbers tells northing from easting; northing first is usual. Hold the sketch against the site."
    )
    return found or Guess(orders[0], usual)


def _by_names(sample: ListSample) -> Guess | None:
    """By the header, where it names two columns that give a place."""
    if sample.header is None:
        return None
    roles = find_roles(sample.header)
    if not any(set(pair) <= set(roles) for pair in PLANS):
        return None
    words = [role.value if role and role.value in CHOSEN else OTHER for role in roles]
    return Guess(tuple(words), tr("As the names in its first line say."))


def _by_angles(orders: Sequence[tuple[str, ...]]) -> Guess | None:
    """By the values, where they are written as angles: no order has a northing then."""
    if any(Role.NORTHING.value in order for order in orders):
        return None
    return Guess(orders[0], tr("The values are written as angles."))


def _by_crs(sample: ListSample, orders: Sequence[tuple[str, ...]], crs: str) -> Guess | None:
    """By where the points come to lie: of northing and easting one order only lies where the CRS is used."""
    plain = [order for order in orders if Role.NORTHING.value in order]
    if not crs or not plain:
        return None
    wrong = [order for order in plain if _is_exchanged(sample, order, crs)]
    right = [order for order in plain if order not in wrong]
    if not wrong or not right:
        return None
    return Guess(right[0], tr("Only so do the points lie where {crs} is used.").format(crs=crs))


def _is_exchanged(sample: ListSample, words: Sequence[str], crs: str) -> bool:
    try:
        read = _read(sample, words, crs)
    except GroundTallyError:
        return False
    return any(finding.code == EXCHANGED for finding in read.findings)


def _by_size(sample: ListSample, orders: Sequence[tuple[str, ...]], units: str) -> Guess | None:
    """By how large the values are: degrees are small and fine, and metric grids have more digits to the north."""
    fine = [order for order in orders if Role.LATITUDE.value in order and _is_fine(sample, order)]
    if fine:
        fits = [order for order in fine if _largest(sample, order, Role.LATITUDE) <= RIGHT_ANGLE_DEG]
        words = tr(
            "Written so finely, and all so near together: these are degrees. Hold the sketch against the site."
        )
        return Guess((fits or fine)[0], words)
    if units in FEET:
        return None
    for order in orders:
        middles = (_middle(sample, order, Role.EASTING), _middle(sample, order, Role.NORTHING))
        if all(low <= middle < high for middle, (low, high) in zip(middles, GRID)):
            words = tr(
                "Northings of metric grids have seven digits, eastings six. Hold the sketch against the site."
            )
            return Guess(order, words)
    return None


def _cells(sample: ListSample, order: Sequence[str], role: Role) -> list[str]:
    if role.value not in order:
        return []
    at = order.index(role.value)
    return [row[at].strip().replace(",", ".") for row in sample.layout.fitting]


def _sizes(sample: ListSample, order: Sequence[str], role: Role) -> list[float]:
    numbers = [parse_number(cell) for cell in _cells(sample, order, role)]
    return [abs(number) for number in numbers if number is not None and math.isfinite(number)]


def _middle(sample: ListSample, order: Sequence[str], role: Role) -> float:
    sizes = _sizes(sample, order, role)
    return median(sizes) if sizes else math.nan


def _largest(sample: ListSample, order: Sequence[str], role: Role) -> float:
    return max(_sizes(sample, order, role), default=math.inf)


def _is_fine(sample: ListSample, order: Sequence[str]) -> bool:
    """Whether most latitudes and longitudes are written to FINE_DECIMALS or more, and none is far from the others."""
    roles = (Role.LATITUDE, Role.LONGITUDE)
    cells = [cell for role in roles for cell in _cells(sample, order, role)]
    fine = sum(len(cell.partition(".")[2]) >= FINE_DECIMALS for cell in cells)
    sizes = [_sizes(sample, order, role) for role in roles]
    is_near = all(one and max(one) - min(one) < SITE_DEG for one in sizes)
    return is_near and 2 * fine > len(cells)


def check_choice(words: Sequence[str]) -> str:
    """Why a choice of columns cannot be accepted; "" where it can."""
    for word, count in Counter(words).items():
        if count > 1 and word in CHOSEN:
            return tr("{column} is chosen twice.").format(column=column_label(word))
    chosen = {CHOSEN[word] for word in words if word in CHOSEN}
    if all(set(pair) & chosen for pair in PLANS):
        return tr("Choose northing and easting, or latitude and longitude, not some of both.")
    if not any(set(pair) <= chosen for pair in PLANS):
        return tr("Choose the column of the northing and that of the easting.")
    return ""


@dataclass(frozen=True)
class SketchPoint:
    """A point of a sketch: its number, "" for those that are not shown, and where it is, in pixels, y down."""

    name: str
    x: float
    y: float


@dataclass(frozen=True)
class Sketch:
    """A list's points as a choice of columns has them, to equal scale.

    Attributes:
        names: their numbers.
        places: east and north of each from their middle, in one unit.
        words: how many they are and how far they reach, or why there is nothing to see.
    """

    names: tuple[str, ...] = ()
    places: tuple[tuple[float, float], ...] = ()
    words: str = ""

    def placed(self, width: float, height: float, margin: float) -> tuple[SketchPoint, ...]:
        """The points in a window of so many pixels, north up; margin: pixels that are kept free at the edges."""
        reach_x, reach_y = (max((abs(place[axis]) for place in self.places), default=0.0) for axis in (0, 1))
        room = (max(width / 2 - margin, 1.0), max(height / 2 - margin, 1.0))
        scales = [size / reach for size, reach in zip(room, (reach_x, reach_y)) if reach > 0]
        scale = min(scales, default=0.0)
        return tuple(
            SketchPoint(name if k < NAMED else "", width / 2 + scale * east, height / 2 - scale * north)
            for k, (name, (east, north)) in enumerate(zip(self.names, self.places))
        )


def sketch_points(sample: ListSample, words: Sequence[str], crs: str = "", units: str = "") -> Sketch:
    """A sketch of a list's first points, read as a run would read them.

    Args:
        sample: the list.
        words: what its columns are.
        crs: what its coordinates are in, where that is known.
        units: for the words.
    """
    said = check_choice(words)
    if said:
        return Sketch(words=said)
    try:
        read = _read(sample, words, crs)
    except GroundTallyError as error:
        return Sketch(words=explain(error))
    lost = [finding for finding in read.findings if finding.code == UNREADABLE]
    if not read.walks:
        return Sketch(words=explain_finding(lost[0]) if lost else tr("No point can be read so."))
    walk = read.walks[0]
    is_round = Role.LONGITUDE.value in words
    places = _about_middle([(float(x), float(y)) for x, y in walk.xy[:SKETCHED]], is_round=is_round)
    told = _reach(places, units, is_round=is_round)
    if lost:
        told += " " + tr("Rows that cannot be read so: {count}.").format(count=len(lost))
    return Sketch(tuple(walk.station[:SKETCHED]), places, told)


def _read(sample: ListSample, words: Sequence[str], crs: str) -> FileRead:
    """The list read by a choice; its numbers as they stand, for one unit is as good as another for a sketch."""
    head = sample.head
    return read_point_list(
        head.name, head.data, Decisions(), tuple(words), Stated(units="m", crs=crs or None)
    )


def _about_middle(
    places: Sequence[tuple[float, float]], *, is_round: bool
) -> tuple[tuple[float, float], ...]:
    """Places from the middle of their box; of degrees, those of longitude as short as they are there."""
    east, north = ([place[axis] for place in places] for axis in (0, 1))
    middle = [min(values) / 2 + max(values) / 2 for values in (east, north)]
    shrink = math.cos(math.radians(middle[1])) if is_round else 1.0
    return tuple((shrink * (x - middle[0]), y - middle[1]) for x, y in places)


def _reach(places: Sequence[tuple[float, float]], units: str, *, is_round: bool) -> str:
    """How far the points reach; of degrees, in metres, as a minute of latitude is a sea mile."""
    sizes = [2 * max(abs(place[axis]) for place in places) for axis in (0, 1)]
    texts = [
        f"{SEA_MILE_M * 60 * size:.0f} m" if is_round else f"{size:.5g} {units}".strip() for size in sizes
    ]
    return tr("{count} points: {width} from west to east, {height} from south to north.").format(
        count=len(places), width=texts[0], height=texts[1]
    )


def exchange_words(words: Sequence[str]) -> tuple[str, ...]:
    """The same choice with northing and easting exchanged, and latitude and longitude."""
    pairs = [(east.value, north.value) for east, north in PLANS]
    other = {**dict(pairs), **{north: east for east, north in pairs}}
    return tuple(other.get(word, word) for word in words)
