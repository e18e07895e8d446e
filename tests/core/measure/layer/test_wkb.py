# SPDX-License-Identifier: GPL-2.0-or-later
"""Geometry of every kind into arrays; each expected row is written out by hand beside its text."""

from __future__ import annotations

import struct

import numpy as np
import pytest

from plugin.core.measure.layer.shapes import Kind
from plugin.core.measure.layer.wkb import join_pieces, read_geopackage_shapes, read_shapes
from tests.core.measure.layer.layers import curves_from

pytest.importorskip("osgeo", reason="OGR makes the binaries of curves")

CASES = [
    ("POLYGON((0 0,1 0,1 1,0 0),(2 2,3 2,3 3,2 2))", Kind.AREAS, [(0, False, 4), (0, True, 4)], ""),
    ("LINESTRING(0 0,1 1)", Kind.LINES, [(0, False, 2)], ""),
    ("CIRCULARSTRING(0 0,1 1,2 0,3 1,4 0)", Kind.LINES, [(0, False, 5)], "01010"),
    ("COMPOUNDCURVE((0 0,1 0),CIRCULARSTRING(1 0,2 1,3 0),(3 0,4 0))", Kind.LINES, [(0, False, 5)], "00100"),
    (
        "CURVEPOLYGON(COMPOUNDCURVE((0 0,4 0),CIRCULARSTRING(4 0,2 2,0 0)),CIRCULARSTRING(1 1,2 1,1 1))",
        Kind.AREAS,
        [(0, False, 4), (0, True, 3)],
        "0010" + "010",
    ),
    (
        "MULTISURFACE(CURVEPOLYGON(CIRCULARSTRING(0 0,1 1,2 0,1 -1,0 0)),((5 5,6 5,6 6,5 5)))",
        Kind.AREAS,
        [(0, False, 5), (1, False, 4)],
        "01010" + "0000",
    ),
    (
        "MULTICURVE((0 0,1 1),COMPOUNDCURVE((5 5,6 6),CIRCULARSTRING(6 6,7 7,8 6)),CIRCULARSTRING(0 0,1 1,2 0))",
        Kind.LINES,
        [(0, False, 2), (1, False, 4), (2, False, 3)],
        "00" + "0010" + "010",
    ),
    ("MULTIPOLYGON(((0 0,1 0,1 1,0 0)),((2 2,3 2,3 3,2 2)))", Kind.AREAS, [(0, False, 4), (1, False, 4)], ""),
    ("MULTILINESTRING M((0 0 9,1 1 9),(2 2 9,3 3 9))", Kind.LINES, [(0, False, 2), (1, False, 2)], ""),
    ("POINT(1 1)", Kind.POINTS, [], ""),
    ("MULTIPOINT(1 1,2 2)", Kind.POINTS, [], ""),
    ("GEOMETRYCOLLECTION(POINT(1 1))", Kind.MIXED, [], ""),
    ("TIN(((0 0,1 0,1 1,0 0)))", Kind.FACES, [], ""),
    ("POLYGON EMPTY", Kind.NOTHING, [], ""),
    ("LINESTRING EMPTY", Kind.NOTHING, [], ""),
    ("MULTIPOLYGON EMPTY", Kind.NOTHING, [], ""),
    (None, Kind.NOTHING, [], ""),
]


def told(shapes, feature):
    """Its runs: part, whether a hole, how many points; and which points are middles."""
    runs = shapes.runs_numbered(feature)
    mids = "".join("01"[int(m)] for r in runs for m in shapes.is_mid[shapes.start[r] : shapes.start[r + 1]])
    return [(int(shapes.part[r]), bool(shapes.is_hole[r]), int(shapes.sizes[r])) for r in runs], mids


@pytest.mark.parametrize(("text", "kind", "runs", "mids"), CASES)
def test_each_kind_is_read_alone(text, kind, runs, mids):
    shapes = curves_from(text)
    assert shapes.kind[0] == kind
    assert told(shapes, 0) == (runs, mids or "0" * sum(n for _, _, n in runs))


def test_all_kinds_are_read_side_by_side_as_they_are_alone():
    shapes = curves_from(*(text for text, *_ in CASES))
    assert [Kind(k) for k in shapes.kind] == [kind for _, kind, _, _ in CASES]
    for k, (_, _, runs, mids) in enumerate(CASES):
        assert told(shapes, k) == (runs, mids or "0" * sum(n for _, _, n in runs))


def test_the_third_coordinate_is_z_and_never_m():
    shapes = curves_from(
        "LINESTRING ZM(0 0 1 2,1 1 3 4)", "LINESTRING M(0 0 9,1 1 9)", "LINESTRING Z(0 0 5,1 1 6)"
    )
    assert np.array_equal(shapes.z, [1, 3, np.nan, np.nan, 5, 6], equal_nan=True)
    assert shapes.xy.tolist() == [[0, 0], [1, 1]] * 3


def test_old_flags_for_z_mean_the_same():
    piece = struct.pack("<BII", 1, 0x80000002, 2) + np.array([[0, 0, 7], [1, 1, 8.0]]).tobytes()
    shapes = read_shapes(*join_pieces([piece]))
    assert shapes.z.tolist() == [7, 8]


SQUARE = struct.pack("<BIII", 1, 3, 1, 4) + np.array([[0, 0], [1, 0], [1, 1], [0, 0.0]]).tobytes()
DAMAGED = [
    pytest.param(SQUARE[:3], id="cut in its header"),
    pytest.param(SQUARE[:-5], id="cut in its points"),
    pytest.param(b"\0" + SQUARE[1:], id="big-endian"),
    pytest.param(SQUARE[:1] + struct.pack("<I", 99) + SQUARE[5:], id="unknown code"),
    pytest.param(struct.pack("<BII", 1, 3, 0xFFFFFFFF), id="four thousand million rings"),
    pytest.param(struct.pack("<BIII", 1, 3, 1, 0xFFFFFFFF), id="four thousand million points"),
    pytest.param(struct.pack("<BII", 1, 10, 1) + struct.pack("<BII", 1, 10, 1) * 50, id="nested without end"),
    pytest.param(struct.pack("<BII", 1, 6, 1) + struct.pack("<BII", 1, 2, 0), id="a line among polygons"),
]


@pytest.mark.parametrize("piece", DAMAGED)
def test_what_is_damaged_is_told_and_its_neighbours_are_read(piece):
    shapes = read_shapes(*join_pieces([SQUARE, piece, SQUARE]))
    assert [Kind(k) for k in shapes.kind] == [Kind.AREAS, Kind.UNREADABLE, Kind.AREAS]
    assert shapes.feature.tolist() == [0, 2]
    assert shapes.xy[4:].tolist() == shapes.xy[:4].tolist()


def test_any_bytes_at_all_are_read_or_told():
    draw = np.random.default_rng(5)
    pieces = []
    for _ in range(4000):
        piece = bytearray(SQUARE)
        for at in draw.integers(0, 17, draw.integers(1, 4)):
            piece[at] = draw.integers(0, 256)
        pieces.append(bytes(piece[: draw.integers(0, len(piece) + 1)]))
    shapes = read_shapes(*join_pieces(pieces))
    assert len(shapes) == 4000
    assert shapes.start[-1] == len(shapes.xy)


@pytest.mark.parametrize(("code", "size"), [(0, 0), (1, 32), (2, 48), (3, 48), (4, 64)])
def test_geopackage_headers_of_every_envelope_are_left_off(code, size):
    blob = b"GP" + bytes([0, 1 | code << 1]) + struct.pack("<i", 4326) + b"\0" * size + SQUARE
    shapes = read_geopackage_shapes([blob, None, b"XX" + blob[2:], blob])
    assert [Kind(k) for k in shapes.kind] == [Kind.AREAS, Kind.NOTHING, Kind.UNREADABLE, Kind.AREAS]
    assert shapes.xy[4:].tolist() == [[0, 0], [1, 0], [1, 1], [0, 0]]


def test_nothing_gives_nothing():
    shapes = read_shapes(*join_pieces([]))
    assert (len(shapes), len(shapes.feature), len(shapes.xy)) == (0, 0, 0)
