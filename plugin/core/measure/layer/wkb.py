# SPDX-License-Identifier: GPL-2.0-or-later
"""Well-known binary of many features at once, straight into flat arrays.

All features are read side by side: each step takes the next header of every feature that still has one, so that
the number of steps hangs on how deep and how many-ringed a feature is, not on how many features there are.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ...quantity import Floats, Ints
from .shapes import Flags, Kind, Shapes

Bytes = npt.NDArray[np.uint8]

LINE, POLYGON, ARCS, COMPOUND, TRIANGLE = 2, 3, 8, 9, 17
KINDS = {
    1: Kind.POINTS,
    LINE: Kind.LINES,
    POLYGON: Kind.AREAS,
    4: Kind.POINTS,
    5: Kind.LINES,
    6: Kind.AREAS,
    7: Kind.MIXED,
    ARCS: Kind.LINES,
    COMPOUND: Kind.LINES,
    10: Kind.AREAS,
    11: Kind.LINES,
    12: Kind.AREAS,
    15: Kind.FACES,
    16: Kind.FACES,
    TRIANGLE: Kind.AREAS,
}
"""Geometry codes of ISO/IEC 13249-3 (SQL/MM) and OGC 06-103r4, without their dimensions."""
HOLDS_RINGS = (POLYGON, TRIANGLE, 10)
HOLDS_PARTS = (5, 6, 11, 12)
MOST_CODE = 17
DEEPEST = 4
"""A multi-surface holds curve polygons, which hold compound curves, which hold circular strings."""
Z_FLAG, M_FLAG = 0x80000000, 0x40000000
"""How some writers mark z and m, where ISO adds 1000 and 2000 to the code."""
GEOPACKAGE_HEAD = 8
ENVELOPES = np.array([0, 32, 48, 48, 64, -1, -1, -1])
"""Bytes of the envelope by its code; the last three codes are not in use."""
SMALLEST = 9
"""Bytes of the shortest header with a count."""
_KIND_OF = np.full(MOST_CODE + 1, int(Kind.UNREADABLE))
for _code, _kind in KINDS.items():
    _KIND_OF[_code] = int(_kind)


@dataclass(frozen=True, eq=False)
class _Leaves:
    """Strings of points as they lie in the buffer: (l,) each."""

    feature: Ints
    at: Ints
    count: Ints
    width: Ints
    has_z: Flags
    is_arcs: Flags
    goes_on: Flags
    """Whether it goes on where the leaf before ended (a compound curve)."""
    part: Ints
    is_hole: Flags


class _Readers:
    """Where each feature's reading stands: one row a feature."""

    def __init__(self, data: Bytes, start: Ints, end: Ints) -> None:
        n = len(start)
        self.data = data
        self.at, self.end = start.copy(), end
        self.kind = np.zeros(n, np.int64)
        self.depth = np.zeros(n, np.int64)
        self.left = np.zeros((n, DEEPEST + 1), np.int64)
        """Things still to come in each container that is open."""
        self.inside = np.zeros((n, DEEPEST + 1), np.int64)
        """The code of that container."""
        self.has_z = np.zeros(n, bool)
        self.width = np.full(n, 2, np.int64)
        self.part = np.full(n, -1, np.int64)
        self.ring = np.zeros(n, np.int64)
        self.piece = np.zeros(n, np.int64)
        self.leaves: list[_Leaves] = []

    def number(self, who: Ints, offset: int) -> Ints:
        """The 32-bit number `offset` bytes on, for each of some features."""
        at = self.at[who] + offset
        a, b, c, d = (self.data[at + k].astype(np.int64) for k in range(4))
        return np.asarray(a | b << 8 | c << 16 | d << 24)

    def fail(self, who: Ints) -> None:
        self.kind[who] = Kind.UNREADABLE
        self.depth[who] = 0
        self.left[who] = 0


def read_shapes(data: bytes, start: Ints, end: Ints) -> Shapes:
    """Features from their well-known binary in one buffer.

    Args:
        data: the binaries, and whatever lies between them.
        start: (f,) where each begins.
        end: (f,) where each ends; an empty one is a NULL geometry.
    Returns:
        Every feature; one that is damaged has kind UNREADABLE and no runs. Big-endian binaries count as damaged:
        hosts and drivers hand out the machine's own order.
    """
    readers = _Readers(np.frombuffer(data, np.uint8), start, end)
    todo = np.flatnonzero(readers.end - readers.at >= SMALLEST)
    short = (readers.end > readers.at) & (readers.end - readers.at < SMALLEST)
    readers.fail(np.flatnonzero(short))
    first = True
    while len(todo):
        rings = readers.depth[todo] > 0
        rings &= np.isin(readers.inside[todo, readers.depth[todo]], (POLYGON, TRIANGLE))
        _read_ring(readers, todo[rings])
        _read_header(readers, todo[~rings], first=first)
        first = False
        _close_containers(readers, todo)
        todo = todo[readers.depth[todo] > 0]
    return _gather(readers)


def join_pieces(pieces: Sequence[bytes | None]) -> tuple[bytes, Ints, Ints]:
    """Binaries as one buffer, and where each begins and ends; None is a NULL geometry."""
    filled = [piece or b"" for piece in pieces]
    sizes = np.fromiter(map(len, filled), np.int64, len(filled))
    end = np.cumsum(sizes)
    return b"".join(filled), end - sizes, end


def read_geopackage_shapes(blobs: Sequence[bytes | None]) -> Shapes:
    """Features from GeoPackage binary: a header with an envelope of one of four sizes, then well-known binary.

    Source: OGC GeoPackage 1.3 (OGC 12-128r17), 2.1.3.
    """
    data, start, end = join_pieces(blobs)
    buffer = np.frombuffer(data, np.uint8)
    given = np.flatnonzero(end - start > GEOPACKAGE_HEAD)
    at = start[given]
    flags = buffer[at + 3]
    good = (buffer[at] == ord("G")) & (buffer[at + 1] == ord("P")) & (flags & 0x20 == 0)
    envelope = ENVELOPES[(flags >> 1) & 7]
    body = start.copy()
    # A header that is none leaves one byte, which is no geometry either.
    body[given] = np.where(good & (envelope >= 0), at + GEOPACKAGE_HEAD + envelope, end[given] - 1)
    return read_shapes(data, np.minimum(body, end), end)


def _read_ring(readers: _Readers, who: Ints) -> None:
    """A bare ring of a polygon: a count, then points."""
    room = readers.end[who] - readers.at[who] >= 4
    readers.fail(who[~room])
    who = who[room]
    _take_points(readers, who, readers.number(who, 0), 4, np.zeros(len(who), bool))


def _read_header(readers: _Readers, who: Ints, *, first: bool) -> None:
    """The next geometry of each feature: a string of points, or a container that opens."""
    room = readers.end[who] - readers.at[who] >= SMALLEST
    readers.fail(who[~room])
    who = who[room]
    code, width, has_z = _told(readers.number(who, 1))
    good = (readers.data[readers.at[who]] == 1) & (code <= MOST_CODE)
    code = np.where(good, code, 0)
    kind = _KIND_OF[code]
    if first:
        readers.kind[who] = kind
        readers.width[who], readers.has_z[who] = width, has_z
    else:
        good &= (width == readers.width[who]) & _belongs(readers, who, code)
    readers.fail(who[~good | (kind == Kind.UNREADABLE)])
    usable = good & ((kind == Kind.LINES) | (kind == Kind.AREAS))
    who, code = who[usable], code[usable]
    count = readers.number(who, 5)
    is_leaf = (code == LINE) | (code == ARCS)
    _take_points(readers, who[is_leaf], count[is_leaf], SMALLEST, code[is_leaf] == ARCS)
    _open_container(readers, who[~is_leaf], code[~is_leaf], count[~is_leaf])


def _told(raw: Ints) -> tuple[Ints, Ints, Flags]:
    """Code without dimensions, numbers to a point, and whether the third of them is z."""
    code = raw & 0x0FFFFFFF
    more = code // 1000
    has_z = (more == 1) | (more == 3) | ((raw & Z_FLAG) != 0)
    has_m = (more == 2) | (more == 3) | ((raw & M_FLAG) != 0)
    return np.asarray(code % 1000), 2 + has_z + has_m.astype(np.int64), np.asarray(has_z)


def _belongs(readers: _Readers, who: Ints, code: Ints) -> Flags:
    """Whether a geometry may stand in the container that is open."""
    inside = readers.inside[who, readers.depth[who]]
    is_curve = (code == LINE) | (code == ARCS)
    allowed = (
        ((inside == 5) & (code == LINE))
        | ((inside == 6) & ((code == POLYGON) | (code == TRIANGLE)))
        | ((inside == 12) & ((code == POLYGON) | (code == 10)))
        | ((inside == COMPOUND) & is_curve)
        | (((inside == 10) | (inside == 11)) & (is_curve | (code == COMPOUND)))
    )
    return np.asarray(allowed)


def _open_container(readers: _Readers, who: Ints, code: Ints, count: Ints) -> None:
    fits = count * 4 <= readers.end[who] - readers.at[who]
    fits &= readers.depth[who] < DEEPEST
    readers.fail(who[~fits])
    who, code, count = who[fits], code[fits], count[fits]
    readers.at[who] += SMALLEST
    _begin(readers, who, code)
    readers.depth[who] += 1
    readers.left[who, readers.depth[who]] = count
    readers.inside[who, readers.depth[who]] = code
    readers.piece[who[code == COMPOUND]] = 0


def _begin(readers: _Readers, who: Ints, code: Ints) -> None:
    """A polygon begins a part; so does a compound curve that is no ring."""
    is_polygon = np.isin(code, HOLDS_RINGS)
    readers.ring[who[is_polygon]] = 0
    is_line = (code == COMPOUND) & (readers.inside[who, readers.depth[who]] != 10)
    readers.part[who[is_polygon | is_line]] += 1


def _take_points(readers: _Readers, who: Ints, count: Ints, head: int, is_arcs: Flags) -> None:
    width = readers.width[who]
    size = count * width * 8
    fits = readers.at[who] + head + size <= readers.end[who]
    readers.fail(who[~fits])
    who, count, width, size, is_arcs = who[fits], count[fits], width[fits], size[fits], is_arcs[fits]
    inside = np.where(readers.depth[who] > 0, readers.inside[who, readers.depth[who]], 0)
    in_compound = inside == COMPOUND
    # A string by itself or straight in a multi-line is a part of its own.
    readers.part[who[(inside == 0) | np.isin(inside, HOLDS_PARTS)]] += 1
    readers.leaves.append(
        _Leaves(
            who,
            readers.at[who] + head,
            count,
            width,
            readers.has_z[who],
            is_arcs,
            np.asarray(in_compound & (readers.piece[who] > 0)),
            readers.part[who].copy(),
            readers.ring[who] > 0,
        )
    )
    readers.at[who] += head + size
    readers.piece[who] += count > 0
    readers.ring[who[np.isin(inside, HOLDS_RINGS)]] += 1
    readers.left[who, readers.depth[who]] -= 1


def _close_containers(readers: _Readers, who: Ints) -> None:
    """Leave every container that has nothing to come; the one around it has one thing less."""
    for _ in range(DEEPEST):
        depth = readers.depth[who]
        done = (depth > 0) & (readers.left[who, depth] <= 0)
        if not done.any():
            return
        closed, depth = who[done], depth[done]
        outer = depth - 1
        in_polygon = readers.inside[closed, depth] == COMPOUND
        in_polygon &= (outer > 0) & (readers.inside[closed, outer] == 10)
        readers.ring[closed[in_polygon]] += 1
        readers.depth[closed] = outer
        readers.left[closed, outer] -= 1


def _gather(readers: _Readers) -> Shapes:
    leaves = _in_order(readers)
    sizes = leaves.count - leaves.goes_on
    ends = np.cumsum(sizes)
    begin = ends - sizes
    xy, z = _points(readers.data, leaves, sizes, begin)
    is_mid = _middles(leaves, sizes, begin)
    opens = ~leaves.goes_on
    start = np.append(begin[opens], ends[-1] if len(ends) else 0)
    kind = readers.kind.copy()
    filled = np.zeros(len(kind), bool)
    filled[leaves.feature] = True
    kind[((kind == Kind.LINES) | (kind == Kind.AREAS)) & ~filled] = Kind.NOTHING
    return Shapes(
        kind, xy, z, is_mid, start, leaves.feature[opens], leaves.part[opens], leaves.is_hole[opens]
    )


def _in_order(readers: _Readers) -> _Leaves:
    """The leaves feature by feature, in the order of each; those without points or of damaged features left out."""
    if not readers.leaves:
        none, no = np.zeros(0, np.int64), np.zeros(0, bool)
        return _Leaves(none, none, none, none, no, no, no, none, no)
    names = _Leaves.__dataclass_fields__
    joined = {name: np.concatenate([getattr(leaf, name) for leaf in readers.leaves]) for name in names}
    order = np.argsort(joined["feature"], kind="stable")
    order = order[(readers.kind[joined["feature"][order]] != Kind.UNREADABLE) & (joined["count"][order] > 0)]
    return _Leaves(**{name: values[order] for name, values in joined.items()})


def _points(data: Bytes, leaves: _Leaves, sizes: Ints, begin: Ints) -> tuple[Floats, Floats]:
    """Coordinates from the buffer. They lie at any byte, so those of one remainder by 8 are taken together, from
    the buffer seen as doubles from that byte on."""
    total = int(sizes.sum())
    xy, z = np.empty((total, 2)), np.full(total, np.nan)
    at = leaves.at + np.where(leaves.goes_on, leaves.width * 8, 0)
    for rest in np.unique(at & 7):
        its = np.flatnonzero((at & 7) == rest)
        doubles = data[rest : rest + (len(data) - rest) // 8 * 8].view("<f8")
        each = np.repeat(its, sizes[its])
        step = np.arange(len(each)) - np.repeat(np.cumsum(sizes[its]) - sizes[its], sizes[its])
        here = (at[each] >> 3) + step * leaves.width[each]
        to = begin[each] + step
        xy[to, 0], xy[to, 1] = doubles[here], doubles[here + 1]
        high = leaves.has_z[each]
        if high.any():
            z[to[high]] = doubles[here[high] + 2]
    return xy, z


def _middles(leaves: _Leaves, sizes: Ints, begin: Ints) -> Flags:
    """Every second point of a circular string is the middle of an arc; one left over at the end is a vertex."""
    is_mid = np.zeros(int(sizes.sum()), bool)
    its = np.flatnonzero(leaves.is_arcs)
    each = np.repeat(its, sizes[its])
    step = np.arange(len(each)) - np.repeat(np.cumsum(sizes[its]) - sizes[its], sizes[its])
    within = step + leaves.goes_on[each]
    is_mid[begin[each] + step] = (within % 2 == 1) & (within < leaves.count[each] - 1)
    return is_mid
