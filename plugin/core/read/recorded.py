# SPDX-License-Identifier: GPL-2.0-or-later
"""What a reader of other people's files gives back, and how it makes walks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from ..findings import Finding
from ..quantity import Floats
from ..surface import TriangleSurface
from ..walk import Kind, Leg, LogKeys, Walk


@dataclass(frozen=True, eq=False)
class FileRead:
    """Walks and surfaces of one file, and what was noticed."""

    walks: tuple[Walk, ...] = ()
    findings: tuple[Finding, ...] = ()
    surfaces: tuple[TriangleSurface, ...] = ()


@dataclass(frozen=True, eq=False)
class Rows:
    """The columns of a walk to be made: n rows; None is a blank column. Lengths in metres, times in seconds.

    `xy` (n, 2), in `keys.crs` where that is given; `line` (n,) in the file, from 1; `extra` text columns to keep.
    """

    xy: Floats
    line: Sequence[int]
    station: Sequence[str] | None = None
    z: Floats | None = None
    time: Floats | None = None
    hold: Floats | None = None
    feature: Sequence[str] | None = None
    part: Sequence[str] | None = None
    kind: Sequence[Kind | None] | None = None
    leg: Sequence[Leg] | None = None
    hole_in: Sequence[str] | None = None
    mark: Sequence[str] | None = None
    sd_xy: Floats | None = None
    sd_z: Floats | None = None
    texts: Mapping[str, Sequence[str]] = field(default_factory=dict)
    extra: Mapping[str, Sequence[str]] = field(default_factory=dict)


def make_walk(name: str, file: str, keys: LogKeys, rows: Rows, started: str = "") -> Walk:
    """A walk of these rows; stations without names are numbered from 1."""
    n = len(rows.xy)
    blank = ("",) * n

    def text(cells: Sequence[str] | None) -> tuple[str, ...]:
        return blank if cells is None else tuple(cells)

    def number(values: Floats | None, default: float = np.nan) -> Floats:
        return _frozen(np.full(n, default) if values is None else values)

    return Walk(
        name=name,
        file=file,
        keys=keys,
        station=tuple(map(str, range(1, n + 1))) if rows.station is None else tuple(rows.station),
        line=np.asarray(rows.line, dtype=np.int64),
        xy=_frozen(np.asarray(rows.xy, dtype=float).reshape(n, 2)),
        z=number(rows.z),
        time=number(rows.time),
        hold=number(rows.hold),
        feature=text(rows.feature),
        part=text(rows.part),
        kind=(None,) * n if rows.kind is None else tuple(rows.kind),
        leg=(Leg.DIRECT,) * n if rows.leg is None else tuple(rows.leg),
        hole_in=text(rows.hole_in),
        mark=text(rows.mark),
        offset=number(None, 0.0),
        pole=number(None, 0.0),
        sd_xy=number(rows.sd_xy),
        sd_z=number(rows.sd_z),
        sizes={},
        texts={column: tuple(cells) for column, cells in rows.texts.items()},
        extra={column: tuple(cells) for column, cells in rows.extra.items()},
        started=started,
    )


def _frozen(values: Floats) -> Floats:
    own = np.array(values, dtype=float)
    own.setflags(write=False)
    return own
