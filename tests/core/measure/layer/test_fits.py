# SPDX-License-Identifier: GPL-2.0-or-later
"""What of a layer is fitted, and what is left alone without being looked at."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.measure.layer.fits import Fitter
from plugin.core.measure.layer.ground import open_ground
from plugin.core.shape.fit.outline import OutlineKind
from tests.core.measure.layer.layers import LOCAL, curves_from, polygon, shapes_from


def outlines(count, corners, seed=3):
    """Simple outlines with so many corners, some of them rounded by close vertices."""
    draw = np.random.default_rng(seed)
    out = []
    for _ in range(count):
        turn = (np.arange(corners) + 0.5 * draw.random(corners)) * 2 * np.pi / corners
        ring = draw.uniform(4, 12, corners)[:, None] * np.column_stack([np.cos(turn), np.sin(turn)])
        out.append(ring)
    return out


@pytest.mark.parametrize("corners", [4, 7, 12, 20])
def test_what_is_left_alone_is_what_fitting_leaves_as_it_is(corners):
    shapes = shapes_from(*map(polygon, outlines(150, corners)))
    fitter = Fitter(open_ground(LOCAL), 0.05)
    quick, whole = list(fitter.fit(shapes, every=False)), list(fitter.fit(shapes))
    left = [k for k, fit in enumerate(quick) if not fit.runs]
    assert len(left) > 20
    for k in left:
        assert {piece.kind for piece in whole[k].pieces} == {OutlineKind.STRAIGHT}
        assert quick[k].count(OutlineKind.STRAIGHT) == len(whole[k].pieces) == corners


def test_pieces_are_in_metres_of_the_ground_and_lead_back_to_the_map():
    turn = np.radians(np.arange(0, 360, 5))
    circle = 50.0 * np.column_stack([np.cos(turn), np.sin(turn)]) + (334_000, 6_710_000)
    (fit,) = Fitter(open_ground("EPSG:3857"), 0.2).fit(shapes_from(polygon(circle)))
    (piece,) = fit.pieces
    # Web mercator at 51.5 degrees: 50 units along the parallel are 31.15 m of ground, along the meridian
    # 0.4 % less: on the ground it is no circle, within 0.1 m.
    assert 31.0 < piece.radius < 31.3
    assert np.hypot(*(fit.plane.to_crs(piece.points)[0] - circle[0])) < 0.2 * 50 / piece.radius


def test_a_line_and_what_is_none_are_told_apart():
    shapes = curves_from("LINESTRING(0 0,1 0,1 1)", None, "POINT(0 0)", "LINESTRING(0 0,0 0)")
    fits = list(Fitter(open_ground(LOCAL), 0.05).fit(shapes))
    assert [len(fit.pieces) for fit in fits] == [2, 0, 0, 0]
    assert [fit.finding.code if fit.finding else None for fit in fits] == [None, "GE-07", "GE-07", "GE-07"]


@pytest.mark.parametrize("tolerance", [0.0, -1.0, np.inf, np.nan])
def test_a_tolerance_that_is_none_is_refused(tolerance):
    with pytest.raises(BadInput, match="The tolerance of a fit is .* Give one above 0."):
        Fitter(open_ground(LOCAL), tolerance)
