# SPDX-License-Identifier: GPL-2.0-or-later
"""What cannot be measured is told, each with its place and remedy, and nothing that is right is refused."""

from __future__ import annotations

import time

import numpy as np
import pytest
import shapely.geometry

from tests.core.measure.layer.layers import areas_of, curves_from, polygon, shapes_from

SQUARE = "0 0,10 0,10 10,0 10,0 0"
TOLD = [
    (
        "POLYGON((0 0,10 10,10 0,0 10,0 0))",
        "The outline crosses itself at (5.000, 5.000), where its side 1 meets its side 3.",
        "List points 2 to 3 in reverse order (100.000 m2), split it there (25.000 and 25.000 m2), or delete point 3 (50.000 m2).",
    ),
    (
        # A figure of eight through a point that both loops share.
        "POLYGON((0 0,5 5,10 0,10 10,5 5,0 10,0 0))",
        None,
        None,
    ),
    (
        "POLYGON((0 0,5 5,10 10,10 0,5 5,0 10,0 0))",
        "The outline crosses itself at (5.000, 5.000), where its side 1 meets its side 4.",
        None,
    ),
    (
        f"POLYGON(({SQUARE}),(8 2,14 2,14 4,8 4,8 2))",
        "Two rings of the outline cross each other at (10.000, 2.000).",
        "Move one of them, or join them: a hole lies inside its outer ring, and parts lie apart.",
    ),
    (
        f"POLYGON(({SQUARE}),(18 2,24 2,24 4,18 4,18 2))",
        "The hole at (18.000, 2.000) lies outside its outer ring.",
        "Move it inside, or make it a part of its own.",
    ),
    (
        f"POLYGON(({SQUARE}),({SQUARE}))",
        "The hole at (0.000, 0.000) covers the whole of its outer ring.",
        "Take the hole out, or make it smaller.",
    ),
    (
        f"POLYGON(({SQUARE}),(-1 -1,11 -1,11 11,-1 11,-1 -1))",
        "The hole at (-1.000, -1.000) covers the whole of its outer ring.",
        None,
    ),
    (
        f"POLYGON(({SQUARE}),(1 1,5 1,5 5,1 5,1 1),(2 2,4 2,4 4,2 4,2 2))",
        "The hole at (2.000, 2.000) lies inside another hole.",
        None,
    ),
    (
        f"MULTIPOLYGON((({SQUARE})),((2 2,4 2,4 4,2 4,2 2)))",
        "The part at (2.000, 2.000) lies inside another part, so that its ground would count twice.",
        "Take it out, or cut a hole for it.",
    ),
    (
        f"MULTIPOLYGON((({SQUARE})),((5 5,15 5,15 15,5 15,5 5)))",
        "Two rings of the outline cross each other at (10.000, 5.000).",
        None,
    ),
    (
        # Rings that run along each other before one reaches over the other's edge: no side crosses a side.
        f"MULTIPOLYGON((({SQUARE})),((5 0,15 0,15 10,5 10,5 0)))",
        "The part at (0.000, 0.000) lies over another part, so that their common ground would count twice.",
        "Join the two, or move their common edge.",
    ),
    (
        f"POLYGON(({SQUARE}),(5 0,15 0,15 10,5 10,5 0))",
        "The hole at (5.000, 0.000) reaches over the edge of its outer ring.",
        "Draw it inside, or take what lies beyond it out of the outer ring.",
    ),
    (
        "POLYGON((-9 -9,19 -9,19 19,-9 19,-9 -9),(0 0,10 0,10 10,0 10,0 0),(5 0,15 0,15 10,5 10,5 0))",
        "lies over another hole, so that their common ground would be taken off twice.",
        "Join the two, or move their common edge.",
    ),
    (
        # A part that fills a hole of another, and one that shares a side: ground that counts once.
        f"MULTIPOLYGON((({SQUARE}),(2 2,4 2,4 4,2 4,2 2)),((2 2,4 2,4 4,2 4,2 2)),((10 0,12 0,12 10,10 10,10 0)))",
        None,
        None,
    ),
    (
        f"POLYGON(({SQUARE},10 0,10 10,0 10,0 0))",
        "The outline goes round the ground at (5.000, 0.000) more than once.",
        "Take out the points of one round.",
    ),
    (
        # Two loops beside one line that both run along, the other way round.
        "POLYGON((11 7,0 7,5 10,9 7,5 7,11 2,11 7))",
        "The outline has loops that go round in opposite senses, one at (5.500, 7.000): they would be netted off.",
        "List the points of that loop in reverse order, or split the outline.",
    ),
    (
        "POLYGON((0 0,10 0,10 10,20 20,10 10,0 10,0 0))",
        "The outline goes out to (20.000, 20.000) and back the same way.",
        "Delete that point.",
    ),
    (
        "POLYGON((0 0,1 0,0 0))",
        "A ring lies on one line, so it has no area.",
        "Correct its points, or draw a line.",
    ),
    ("POLYGON((0 0,1 1,2 2,0 0))", "A ring lies on one line, so it has no area.", None),
    (
        "POLYGON((0 0,10 0,10 10,0 10))",
        "A ring is open by 10.000 m.",
        "Close it: its last point is its first.",
    ),
    (
        "CURVEPOLYGON(COMPOUNDCURVE((0 0,10 0),CIRCULARSTRING(10 0,20 0,0 0)))",
        "The arc through (20.000, 0.000) is none: that point lies in line with the arc's ends, beyond them.",
        "Move the middle point between the ends, or draw a straight.",
    ),
    (
        # An arc that dips through the side across from it.
        "CURVEPOLYGON(COMPOUNDCURVE((0 0,10 0,10 3,0 3),CIRCULARSTRING(0 3,-2 1.5,0 0)))",
        None,
        None,
    ),
    (
        "CURVEPOLYGON(COMPOUNDCURVE((0 0,0 3),CIRCULARSTRING(0 3,5 -2,10 3),(10 3,10 0,0 0)))",
        "crosses itself",
        "Redraw the arc or its neighbours so that they do not meet again.",
    ),
    (
        "LINESTRING(0 0,1 1)",
        "The geometry is a line, not an outline.",
        "Measure a layer of the right kind, or redraw it.",
    ),
    ("POINT(0 0)", "The geometry is a point, not an outline.", None),
    (
        "GEOMETRYCOLLECTION(POINT(0 0))",
        "The geometry is a collection of several kinds, not an outline.",
        "Split it into one feature for each kind.",
    ),
    ("TIN(((0 0,1 0,1 1,0 0)))", "The geometry is a surface of faces in space, not an outline.", None),
    ("POLYGON EMPTY", "There is no geometry.", "Draw it, or delete the row."),
    (None, "There is no geometry.", None),
]


@pytest.mark.parametrize(("text", "message", "remedy"), TOLD)
@pytest.mark.parametrize("offset", [0.0, 4096.0])
def test_each_fault_is_told_at_its_place_with_its_remedy(text, message, remedy, offset):
    shapes = curves_from(text)
    shapes.xy[:] += offset
    figures = areas_of(shapes)
    if message is None:
        assert not figures.findings
        assert figures.area[0] > 0
        return
    finding = figures.findings[0]
    assert np.isnan(
        [figures.area[0], figures.area_sigma[0], figures.perimeter[0], figures.edge_sigma[0]]
    ).all()
    if offset == 0.0:
        assert message in finding.message
        assert remedy is None or finding.remedy_text == remedy
    assert finding.code in ("GE-01", "GE-03", "GE-07")


def test_a_coordinate_that_is_none_is_told():
    shapes = shapes_from("POLYGON((0 0,10 0,10 10,0 10,0 0))", "POLYGON((0 0,10 0,10 10,0 0))")
    shapes.xy[2, 1] = np.nan
    figures = areas_of(shapes)
    assert figures.findings[0].message == "Point 3 has no place: (10.0, nan)."
    assert figures.area[1] == pytest.approx(50.0)


def test_one_bad_row_among_many_changes_no_other():
    good = "POLYGON((0 0,10 0,10 10,0 10,0 0),(2 2,4 2,4 4,2 4,2 2))"
    texts = [text for text, *_ in TOLD]
    mixed = [t for text in texts for t in (good, text)]
    figures = areas_of(curves_from(*mixed))
    assert figures.area[::2] == pytest.approx(np.full(len(texts), 96.0))
    alone = [bool(areas_of(curves_from(text)).findings) for text in texts]
    assert [k in figures.findings for k in range(1, len(mixed), 2)] == alone


def test_rings_about_a_point_are_told_as_a_general_library_tells_them():
    """Corners about a point, some drawn to go back by an angle, some going round twice: what can be seen whole from its
    middle takes a shorter way, and no ring may take it wrongly."""
    draw = np.random.default_rng(7)
    rings = []
    for _ in range(2000):
        n, rounds = int(draw.integers(3, 14)), int(draw.integers(1, 3))
        turn = np.sort(draw.uniform(0.0, 2.0 * np.pi * rounds, n)) * draw.choice([-1.0, 1.0])
        if draw.random() < 0.4:
            k = draw.integers(0, n - 1)
            turn[[k, k + 1]] = turn[[k + 1, k]]
        reach = draw.uniform(1.0, 9.0, n)
        rings.append(np.column_stack([4e5 + reach * np.cos(turn), 5e6 + reach * np.sin(turn)]))
    shapes = [shapely.geometry.Polygon(ring) for ring in rings]
    figures = areas_of(shapes_from(*(shape.wkt for shape in shapes)))
    valid = np.array([shapely.wkt.loads(shape.wkt).is_valid for shape in shapes])
    assert 500 < valid.sum() < 1500
    assert np.array_equal(np.isfinite(figures.area), valid)


def test_what_is_refused_is_what_a_general_library_calls_invalid():
    # Random rings, many of which cross: none that GEOS calls simple is refused, none that crosses is measured.
    draw = np.random.default_rng(21)
    rings = [draw.integers(0, 12, (int(draw.integers(3, 9)), 2)).astype(float) for _ in range(3000)]
    figures = areas_of(shapes_from(*map(polygon, rings)))
    measured_wrongly, refused_wrongly = [], []
    for k, ring in enumerate(rings):
        shape = shapely.geometry.Polygon(ring)
        if shape.is_valid and k in figures.findings:
            refused_wrongly.append(ring)
        if not shape.is_valid and k not in figures.findings:
            # Touching itself without crossing is invalid there and has an area all the same: the buffer's.
            whole = shape.buffer(0).area
            if abs(figures.area[k] - whole) > 1e-9:
                measured_wrongly.append((ring.tolist(), figures.area[k], whole))
    assert refused_wrongly == []
    assert measured_wrongly == []
    assert 500 < len(figures.findings) < 2900


def test_rectangles_that_share_sides_are_measured_only_where_no_ground_counts_twice():
    # Regression: parts that overlapped along their sides, with no side across another, were added up.
    draw = np.random.default_rng(5)

    def rectangle():
        (x, w), (y, h) = (np.sort(draw.choice(5, 2, replace=False)) for _ in range(2))
        return shapely.geometry.box(x, y, w, h)

    wholes = [shapely.geometry.MultiPolygon([rectangle(), rectangle()]) for _ in range(1000)]
    figures = areas_of(shapes_from(*(whole.wkt for whole in wholes)))
    for k, whole in enumerate(wholes):
        overlap = whole.geoms[0].intersection(whole.geoms[1]).area
        assert (k in figures.findings) == (overlap > 0.0), whole.wkt
        if overlap == 0.0:
            assert figures.area[k] == pytest.approx(whole.geoms[0].area + whole.geoms[1].area, rel=1e-12)
    assert 100 < len(figures.findings) < 900


def test_two_thousand_holes_are_looked_at_in_a_moment():
    # Regression: every corner of every hole was held against every side of the outer ring (142 s).
    turn = np.linspace(0, 2 * np.pi, 51)[:-1]
    circle = 0.4 * np.column_stack([np.cos(turn), np.sin(turn)])
    holes = [circle + [2 * (k % 45), 2 * (k // 45)] for k in range(2000)]
    turn = np.linspace(0, 2 * np.pi, 20_001)[:-1]
    outer = 500 * np.column_stack([np.cos(turn), np.sin(turn)])
    whole = shapely.geometry.Polygon(outer, holes)
    started = time.monotonic()
    figures = areas_of(shapes_from(whole.wkt))
    assert time.monotonic() - started < 60.0
    assert figures.area[0] == pytest.approx(whole.area, rel=1e-9)


def test_a_ring_of_ten_thousand_corners_is_looked_at_in_a_moment():
    turn = np.linspace(0, 2 * np.pi, 10_001)[:-1]
    wave = (10 + np.sin(40 * turn))[:, None] * np.column_stack([np.cos(turn), np.sin(turn)])
    crossed = wave.copy()
    crossed[[3000, 3001]] = crossed[[3001, 3000]]
    figures = areas_of(shapes_from(polygon(wave), polygon(crossed)))
    assert list(figures.findings) == [1]
    assert "crosses itself" in figures.findings[1].message
