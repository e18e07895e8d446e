# SPDX-License-Identifier: GPL-2.0-or-later
"""Curve figures that general libraries' own test suites publish, and drawn curves beside a great many chords.

PostGIS 3.3.2 (source package): regress/core/tickets.sql with its expected results, liblwgeom/cunit/cu_measures.c.
"""

from __future__ import annotations

import numpy as np
import pytest

from tests.core.measure.layer.layers import areas_of, curves_from, lengths_of

pytest.importorskip("osgeo.ogr", reason="OGR makes the binaries of curves")


def test_ticket_1978_a_circle_of_three_points():
    """ST_Length of CIRCULARSTRING(0 0,1 0,0 0) is 3.1416."""
    assert round(float(lengths_of(curves_from("CIRCULARSTRING(0 0,1 0,0 0)")).length[0]), 4) == 3.1416


def test_ticket_3774_an_arc_and_a_straight():
    """ST_Length of COMPOUNDCURVE(CIRCULARSTRING(0 0, 1 1, 2 0), (2 0, 4 0)) is pi + 2 within 1e-9."""
    text = "COMPOUNDCURVE(CIRCULARSTRING(0 0, 1 1, 2 0), (2 0, 4 0))"
    assert lengths_of(curves_from(text)).length[0] == pytest.approx(np.pi + 2, abs=1e-9)


def test_ticket_213_the_perimeter_of_a_curve_polygon():
    """ST_Perimeter of its chords, rounded, is 17."""
    text = "CURVEPOLYGON(COMPOUNDCURVE(CIRCULARSTRING(0 0,2 0, 2 1, 2 3, 4 3),(4 3, 4 5, 1 4, 0 0)))"
    edges = "COMPOUNDCURVE(CIRCULARSTRING(0 0,2 0, 2 1, 2 3, 4 3),(4 3, 4 5, 1 4, 0 0))"
    length = lengths_of(curves_from(edges)).length[0]
    assert round(float(length)) == 17
    figures = areas_of(curves_from(text))
    # Its arcs bulge past each other, so that as an outline it is refused; its length is one all the same.
    assert figures.perimeter[0] == pytest.approx(length) or 0 in figures.findings


@pytest.mark.parametrize(
    ("points", "length"),
    [
        ("-1 0, 0 1, 1 0", np.pi),
        ("0 1, 1 0, 0 -1", np.pi),
        ("-1 0, 1 0, 0 -1", 1.5 * np.pi),
    ],
)
def test_lw_arc_length(points, length):
    """cu_measures.c, test_lw_arc_length: half circles and three quarters of one, within 1e-6."""
    found = lengths_of(curves_from(f"CIRCULARSTRING({points})")).length[0]
    back = ", ".join(reversed(points.split(", ")))
    assert found == pytest.approx(length, abs=1e-6)
    assert lengths_of(curves_from(f"CIRCULARSTRING({back})")).length[0] == pytest.approx(found, rel=1e-15)


def densely(a: np.ndarray, m: np.ndarray, b: np.ndarray, parts: int = 100_000) -> np.ndarray:
    """(parts, 2) points along the circle through three points, from its centre by two perpendicular bisectors."""
    rows = 2 * np.array([m - a, b - a])
    centre = np.linalg.solve(rows, [m @ m - a @ a, b @ b - a @ a])
    angles = np.unwrap([np.arctan2(*(p - centre)[::-1]) for p in (a, m, b)])
    turn = np.linspace(angles[0], angles[2], parts, endpoint=False)
    return centre + np.hypot(*(a - centre)) * np.column_stack([np.cos(turn), np.sin(turn)])


def test_drawn_curve_polygons_are_as_their_chords_make_them():
    """Arcs of n = 100,000 chords each: they fall short by R^2 sweep^3 / (12 n^2), 1e-10 of these areas at the most."""
    draw = np.random.default_rng(17)
    texts, areas, lengths = [], [], []
    for _ in range(60):
        n = int(draw.integers(3, 9))
        turn = (np.arange(2 * n) + draw.uniform(-0.2, 0.2, 2 * n)) * np.pi / n
        points = draw.uniform(6, 9, 2 * n)[:, None] * np.column_stack([np.cos(turn), np.sin(turn)])
        ring = np.vstack([points, points[:1]])
        body = ", ".join(f"{x!r} {y!r}" for x, y in ring.tolist())
        texts.append(f"CURVEPOLYGON(CIRCULARSTRING({body}))")
        chords = np.vstack([*(densely(*ring[k : k + 3]) for k in range(0, 2 * n, 2)), ring[:1]])
        (x, y), (u, v) = chords[:-1].T, chords[1:].T
        areas.append(0.5 * abs(float((x * v - u * y).sum())))
        lengths.append(float(np.hypot(u - x, v - y).sum()))
    figures = areas_of(curves_from(*texts))
    measured = np.isfinite(figures.area)
    assert measured.sum() > 40
    assert figures.area[measured] == pytest.approx(np.array(areas)[measured], rel=2e-10)
    assert figures.perimeter[measured] == pytest.approx(np.array(lengths)[measured], rel=2e-10)
