# SPDX-License-Identifier: GPL-2.0-or-later
"""A walk as it was recorded: stations in order, with the legs that lead to them. Columns, not objects:
a log can hold a million rows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from functools import cached_property
from typing import Any

import numpy as np
import numpy.typing as npt

from .accuracy import Accuracy
from .quantity import Floats, Ints
from .surface import TriangleSurface

Flags = npt.NDArray[np.bool_]


class Leg(Enum):
    """The way TO a station."""

    DIRECT = "direct"
    CURVE = "curve"
    """The station is a point passed on an arc."""
    CURVE_END = "curve-end"
    """The station is the arc's last point."""
    AS_WALKED = "as-walked"
    """Dense points, drawn as recorded."""
    CARRY = "carry"
    """Walked but not drawn."""


class Kind(Enum):
    """The three kinds of feature."""

    AREA = "area"
    LENGTH = "length"
    SPOT = "spot"


class SourceClass(Enum):
    """What recorded the walk."""

    INSTRUMENT = "instrument"
    PHONE = "phone"
    DIGITISED = "digitised"


class ErrorGrowth(Enum):
    """How the errors of a walk's stations hang together."""

    WALKED = "walked"
    """From row to row: each leg adds its own to what was there."""
    RECEIVER = "receiver"
    """Of a satellite receiver: each station has its own place, and stations near in time err alike."""
    POINTS = "points"
    """Each station errs by itself, in whatever order the rows stand: point lists, digitised drawings."""


@dataclass(frozen=True)
class LogKeys:
    """The `# key: value` lines at the head of a log; `None` where a key is not given.

    `unit_m` is the length of the log's unit in metres (1.0 where none is given, with `units` None).
    """

    units: str | None = None
    unit_m: float = 1.0
    crs: str | None = None
    instrument: str | None = None
    accuracy: Accuracy | None = None
    source_class: SourceClass = SourceClass.INSTRUMENT
    date: str | None = None
    surveyor: str | None = None
    site: str | None = None
    utc_offset: str | None = None
    growth: ErrorGrowth = ErrorGrowth.WALKED
    other: tuple[tuple[str, str], ...] = ()


SIZE_COLUMNS = ("width", "depth", "height", "stem_d", "spread", "invert")
TEXT_COLUMNS = (
    "item",
    "side_item",
    "status",
    "surface",
    "option",
    "phase",
    "photo",
    "note",
)


_BY_ROW = (
    "station", "line", "xy", "z", "time", "hold", "feature", "part", "kind", "leg", "hole_in", "mark",
    "offset", "pole", "sd_xy", "sd_z",
)  # fmt: skip
"""Fields of a walk that have a value for each row."""


@dataclass(frozen=True, eq=False)
class Walk:
    """One log, recorded without a break: n stations in order of recording.

    Lengths are metres whatever the log's unit. In number columns NaN stands for a blank cell, in text
    columns "" does.

    Attributes:
        name: of the walk.
        file: the log it came from, as the user knows it.
        keys: the log's key lines.
        station: (n,) names, unique within the walk; a tuple, or what is equal to one and becomes text when asked.
        line: (n,) line of each station in the file, from 1.
        xy: (n, 2) in the walk's own frame, or in `keys.crs` where that is given.
        z: (n,) height of the measuring point (the pole not yet taken off).
        time: (n,) seconds from the walk's start, on arrival.
        hold: (n,) seconds held still.
        feature, part, hole_in, mark: (n,) text.
        kind: (n,) kind of the feature, None where blank.
        leg: (n,) how the station was reached.
        offset: (n,) distance stood off the true edge, positive where the edge lies to the walker's LEFT
            (stood to its right), so an edge is the walked line moved by `offset` to the left.
        pole: (n,) height of the measuring point above the ground; 0 where blank.
        sd_xy, sd_z: (n,) one-sigma per axis relative to the walk's start.
        sizes: the columns of SIZE_COLUMNS that the log has, metres.
        texts: the columns of TEXT_COLUMNS that the log has.
        extra: unknown columns, kept as text.
        started: ISO 8601 time at which `time` is 0, with its zone where the log has one; "" where the log
            counts seconds.
        replaced: feature and part of what a later go has taken the place of, by decision.
    """

    name: str
    file: str
    keys: LogKeys
    station: Sequence[str]
    line: Ints
    xy: Floats
    z: Floats
    time: Floats
    hold: Floats
    feature: tuple[str, ...]
    part: tuple[str, ...]
    kind: tuple[Kind | None, ...]
    leg: tuple[Leg, ...]
    hole_in: tuple[str, ...]
    mark: tuple[str, ...]
    offset: Floats
    pole: Floats
    sd_xy: Floats
    sd_z: Floats
    sizes: Mapping[str, Floats]
    texts: Mapping[str, tuple[str, ...]]
    extra: Mapping[str, tuple[str, ...]]
    started: str = ""
    replaced: frozenset[tuple[str, str]] = frozenset()

    def __len__(self) -> int:
        """How many stations there are."""
        return len(self.station)

    @cached_property
    def is_dense(self) -> Flags:
        """(n,) whether each station was reached as walked."""
        return np.array([leg is Leg.AS_WALKED for leg in self.leg], dtype=bool)

    @cached_property
    def is_marked(self) -> Flags:
        """(n,) whether each station stands on a mark."""
        return np.array([bool(mark) for mark in self.mark], dtype=bool)

    @property
    def ground_z(self) -> Floats:
        """(n,) heights of the ground: the pole taken off."""
        return self.z - self.pole

    def text(self, column: str, i: int) -> str:
        """The cell of a text column, "" where the log has no such column."""
        cells = self.texts.get(column)
        return cells[i] if cells else ""

    def cut(self, start: int, end: int, name: str) -> Walk:
        """Rows `start` to `end` - 1 as a walk of their own; the times go on counting from where they did."""
        changed: dict[str, Any] = {column: getattr(self, column)[start:end] for column in _BY_ROW}
        for table in ("sizes", "texts", "extra"):
            columns = getattr(self, table)
            changed[table] = {column: cells[start:end] for column, cells in columns.items()}
        return replace(self, name=name, **changed)

    def scaled(self, factor: float) -> Walk:
        """The walk with every length times `factor`: it was read in the wrong unit."""
        lengths = ("xy", "z", "offset", "pole", "sd_xy", "sd_z")
        sizes = {name: cells * factor for name, cells in self.sizes.items()}
        return replace(self, **{name: getattr(self, name) * factor for name in lengths}, sizes=sizes)

    def with_marks_exchanged(self, one: str, other: str) -> Walk:
        """The walk with two marks' names exchanged."""
        names = {one: other, other: one}
        return replace(self, mark=tuple(names.get(mark, mark) for mark in self.mark))

    def place(self, i: int) -> str:
        """The key by which findings and decisions name station i."""
        return f"{self.name}:{self.station[i]}"


@dataclass(frozen=True)
class ControlPoint:
    """A mark and the map point it belongs to; any of the parts may be missing.

    `xy` as the file gives it: in the units and (east, north) order of its CRS, or longitude and latitude in
    degrees. `z` and the sigmas are metres.
    """

    mark: str
    xy: tuple[float, float] | None
    z: float | None
    sd_xy: float | None
    sd_z: float | None
    is_check: bool
    line: int | None = None


@dataclass(frozen=True)
class Control:
    """The control file: points, their CRS, and the shift that one picture's picks share (one-sigma, metres)."""

    points: tuple[ControlPoint, ...] = ()
    crs: str | None = None
    common_sd: float | None = None
    separation: float | None = None
    height_datum: str | None = None
    file: str = ""
    other: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class Tape:
    """A taped length in metres between two marks or `walk:station` places; `sd` is None where blank. `unit_m` is the
    unit it was given in, metres."""

    start: str
    end: str
    distance: float
    sd: float | None
    is_slope: bool
    file: str = ""
    line: int | None = None
    unit_m: float = 1.0


@dataclass(frozen=True)
class Instrument:
    """The one-sigma parts of the instrument model (formats.md, instruments), SI units.

    `heading_rate` rad/s; `heading_walk` rad/sqrt(m); `leg` m; `leg_time` m/s^1.5; `leg_length` m/sqrt(m);
    `stand` m; the same for heights. `assumed` tells that nothing was stated.
    """

    name: str
    scale: float = 0.0
    scale_shared: float = 0.0
    heading_rate: float = 0.0
    heading_walk: float = 0.0
    leg: float = 0.0
    leg_time: float = 0.0
    leg_length: float = 0.0
    stand: float = 0.0
    height_leg: float = 0.0
    height_leg_time: float = 0.0
    height_leg_length: float = 0.0
    height_stand: float = 0.0
    sigma_from: str = "instruments"


@dataclass(frozen=True)
class Job:
    """All that was read: the walks and what lies beside the logs."""

    walks: tuple[Walk, ...]
    control: Control = Control()
    tapes: tuple[Tape, ...] = ()
    instruments: Mapping[str, Instrument] | None = None
    surfaces: tuple[TriangleSurface, ...] = ()
