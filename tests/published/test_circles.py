# SPDX-License-Identifier: GPL-2.0-or-later
"""Published circle fits, to their printed digits; a source beside each. "Memory" tells that the figure was given
from memory of the source."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.circle import circle_through, fit_circle
from plugin.core.segments import path_length, ring_area
from plugin.core.shape.fit.cuts import Cut, PieceKind
from plugin.core.shape.fit.joints import fit_alone
from plugin.core.shape.fit.outline import OutlineKind, fit_outline


def test_t6_01_six_points_of_a_short_arc():
    """Gander, Golub & Strebel, BIT 34, 1994 (memory). The algebraic fit, a metre off, must not be given."""
    fit = fit_circle(np.array([(1, 7), (2, 6), (5, 8), (7, 7), (9, 5), (3, 7)], float))
    assert [*fit.centre, fit.radius] == pytest.approx([4.7398, 2.9835, 4.7142], abs=6e-5)
    assert [*fit.centre, fit.radius] != pytest.approx([5.3794, 7.2532, 3.037], abs=0.5)


def test_t6_03_a_full_circle_of_points():
    """SciPy cookbook, least-squares circle (seen); "residu" is the sum of squared distances."""
    points = np.column_stack([[9, 35, -13, 10, 23, 0], [34, 10, 6, -14, 27, -10]]).astype(float)
    fit = fit_circle(points)
    assert [*fit.centre, fit.radius] == pytest.approx([10.50009, 9.65995, 23.33353], abs=1.1e-5)
    assert fit.rms**2 * len(points) == pytest.approx(7.711852, abs=1.1e-5)


def test_t6_05_eight_points_nearly_all_round():
    """Spaeth and Coope (partly memory)."""
    points = [(0.7, 4), (3.3, 4.7), (5.6, 4), (7.5, 1.3), (6.4, -1.1), (4.4, -3), (0.3, -2.5), (-1.1, 1.3)]
    fit = fit_circle(np.array(points))
    assert [*fit.centre, fit.radius] == pytest.approx([3.04324, 0.74568, 4.10586], abs=6e-6)


def test_t6_06_an_as_built_curve_of_which_the_algebraic_fit_is_published():
    """Ghilani & Wolf, Elementary Surveying, 14th ed., as quoted on a calculator blog (seen): a linear fit. Ours
    is the geometric one, near it but not it; the linear fit of the same points is made here to compare."""
    points = np.array([(6975.82, 6947.93), (7577.11, 6572.6), (8084.03, 6071.29), (8431.38, 5542.0)])
    mean = points.mean(axis=0)
    q = points - mean
    linear = np.linalg.lstsq(np.column_stack([2 * q, np.ones(4)]), (q**2).sum(1), rcond=None)[0]
    published = [5587.37457087, 4053.99226137, 3209.76637679]
    radius = np.sqrt(linear[2] + linear[0] ** 2 + linear[1] ** 2)
    assert [*(linear[:2] + mean), radius] == pytest.approx(published, abs=5e-6)
    fit = fit_circle(points)

    def squares(x, y, r):
        return float(((np.hypot(*(points - (x, y)).T) - r) ** 2).sum())

    assert squares(*fit.centre, fit.radius) < squares(*published)
    assert [*fit.centre, fit.radius] == pytest.approx(published, abs=1.0)


def test_t6_07_a_curve_through_three_points():
    """Mahun, open-access surveying course, three-point curve (seen); coordinates to two decimals."""
    north_east = [(902.72, 1751.91), (870.76, 1237.76), (538.57, 1293.16)]
    fit = circle_through(*north_east)
    assert fit.radius == pytest.approx(294.42, abs=0.011)
    assert fit.centre == pytest.approx([744.39, 1503.68], abs=0.011)


PUBLISHED = {
    "T6-01": ([(1, 7), (2, 6), (5, 8), (7, 7), (9, 5), (3, 7)], [4.7398, 2.9835, 4.7142], 6e-5),
    "T6-03": (
        [(9, 34), (35, 10), (-13, 6), (10, -14), (23, 27), (0, -10)],
        [10.50009, 9.65995, 23.33353],
        1.1e-5,
    ),
    "T6-05": (
        [(0.7, 4), (3.3, 4.7), (5.6, 4), (7.5, 1.3), (6.4, -1.1), (4.4, -3), (0.3, -2.5), (-1.1, 1.3)],
        [3.04324, 0.74568, 4.10586],
        6e-6,
    ),
}
"""Points, centre and radius, tolerance; sources beside the tests above."""


@pytest.mark.parametrize("key", list(PUBLISHED))
def test_arcs_of_lines_are_the_published_geometric_circles_too(key):
    """The fit of one piece of a line, a different iteration from fit_circle's (T6-01, T6-03, T6-05)."""
    points, published, within = PUBLISHED[key]
    lone = fit_alone(np.array(points, float), Cut(PieceKind.ARC, 0, len(points) - 1))
    assert [*lone.middle, abs(lone.radius)] == pytest.approx(published, abs=within)


def test_t6_06_an_as_built_curve_is_no_arc_by_four_points():
    """Ghilani & Wolf (as above): four points, of which an outline makes nothing that is not there. The arc of a line
    through them is fit_circle's."""
    points = np.array([(6975.82, 6947.93), (7577.11, 6572.6), (8084.03, 6071.29), (8431.38, 5542.0)])
    outline = fit_outline(points, None, 50.0, closed=False)
    assert [piece.kind for piece in outline.pieces] == [OutlineKind.STRAIGHT] * 3
    lone = fit_alone(points, Cut(PieceKind.ARC, 0, 3))
    fit = fit_circle(points)
    assert [*lone.middle, abs(lone.radius)] == pytest.approx([*fit.centre, fit.radius], abs=1e-4)


def test_t6_07_a_given_arc_through_three_points():
    """Mahun, open-access surveying course, three-point curve (seen), as an arc that a layer holds."""
    north_east = np.array([(902.72, 1751.91), (870.76, 1237.76), (538.57, 1293.16)])
    (arc,) = fit_outline(north_east, [False, True, False], 0.01, closed=False).pieces
    assert arc.kind is OutlineKind.GIVEN_ARC
    assert arc.radius == pytest.approx(294.42, abs=0.011)
    assert arc.centre == pytest.approx([744.39, 1503.68], abs=0.011)


@pytest.mark.parametrize("each_deg", [1.0, 2.5])
def test_t6_12_a_published_curve_drawn_in_chords_has_its_length_and_not_the_misprint(each_deg):
    """Homework answer page, R 420 m, 71 deg 39' (seen): L = pi R d/180 = 525.22; it prints 630.266."""
    turn = np.radians(np.append(np.arange(0.0, 71.65, each_deg), 71.65))
    points = 420.0 * np.column_stack([np.sin(turn), 1.0 - np.cos(turn)])
    (arc,) = fit_outline(points, None, 0.2, closed=False).pieces
    assert arc.kind is OutlineKind.ARC
    assert arc.radius == pytest.approx(420.0, abs=1e-6)
    assert arc.length == pytest.approx(525.22, abs=0.02)
    assert arc.length != pytest.approx(630.266, abs=1.0)


def test_spt_04_kerb_line_of_the_track_drawn_in_chords():
    """Perimeter 398.12 m of a 400 m track's kerb (R 36.5 m, straights 84.39 m), printed in a public repository's comment
    (seen), from chords of 3 degrees."""
    turn = np.radians(np.arange(0.0, 181.0, 3.0))
    bend = np.column_stack([84.39 + 36.5 * np.sin(turn), -36.5 * np.cos(turn)])
    outline = fit_outline(np.vstack([bend, (84.39, 0.0) - bend]), None, 0.02, closed=True)
    assert [piece.kind for piece in outline.pieces] == [OutlineKind.ARC, OutlineKind.STRAIGHT] * 2
    assert path_length(outline.curve()) == pytest.approx(398.12, abs=0.005)
    assert ring_area(outline.curve()) == pytest.approx(np.pi * 36.5**2 + 73.0 * 84.39, abs=1e-6)
    assert [p.radius for p in outline.pieces[::2]] == pytest.approx([36.5, 36.5], abs=1e-9)
