# SPDX-License-Identifier: GPL-2.0-or-later
"""The parts of the fit each by itself: roughness, division, tangency, and the chain against scipy's constrained
minimum."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import minimize

from plugin.core.circle import fit_circle
from plugin.core.shape.fit.cuts import Cut, Noise, PieceKind, cut_rows
from plugin.core.shape.fit.joints import fit_alone, is_smooth
from plugin.core.shape.fit.roughness import measure_roughness, measure_roughness_along
from plugin.core.shape.fit.tangent import Chain, fit_chain

STRAIGHT, ARC, AS_WALKED = PieceKind.STRAIGHT, PieceKind.ARC, PieceKind.AS_WALKED


def bent_line(rng, sigma):
    """Straight 4 m along x, then an arc of radius 3 m and 1.5 rad to the left; 41 and 46 rows."""
    x = np.linspace(0.0, 4.0, 41)
    t = np.linspace(0.03, 1.5, 46)
    arc = np.column_stack([4.0 + 3.0 * np.sin(t), 3.0 - 3.0 * np.cos(t)])
    rows = np.vstack([np.column_stack([x, 0.0 * x]), arc])
    return rows + rng.normal(0.0, sigma, rows.shape)


def bent_chain(is_tangent):
    vertices = np.array([(0.0, 0.0), (4.0, 0.0), (4.0 + 3.0 * np.sin(1.5), 3.0 - 3.0 * np.cos(1.5))])
    return Chain(
        vertices,
        np.array([0.0, 0.7]),
        np.array([False, True]),
        np.array([False, is_tangent]),
        np.repeat([0, 1], [41, 46]),
        closed=False,
        ends=((0, 0), (2, 86)),
    )


def misses(vertices, half, rows):
    """Distances told otherwise: to the line through two points, and to the circle by its centre and radius."""
    along = (vertices[1] - vertices[0]) / np.hypot(*(vertices[1] - vertices[0]))
    straight = (rows[:41] - vertices[0]) @ np.array([-along[1], along[0]])
    chord = vertices[2] - vertices[1]
    left = np.array([-chord[1], chord[0]])
    centre = vertices[1] + 0.5 * chord + 0.5 * left / np.tan(half)
    radius = np.hypot(*(vertices[1] - centre))
    return np.concatenate([straight, radius - np.hypot(*(rows[41:] - centre).T)])


@pytest.mark.parametrize("is_tangent", [True, False])
def test_a_chain_is_the_constrained_minimum_that_scipy_finds(is_tangent):
    rows = bent_line(np.random.default_rng(1), 0.01)
    if not is_tangent:
        turned = np.array([(np.cos(0.5), np.sin(0.5)), (-np.sin(0.5), np.cos(0.5))])
        rows[41:] = (rows[41:] - (4.0, 0.0)) @ turned + (4.0, 0.0)
    fit = fit_chain(rows, bent_chain(is_tangent))
    assert fit.settled
    assert fit.free == 87 + 2 - 7 + is_tangent

    def squares(x):
        vertices = x[:6].reshape(3, 2)
        first, last = misses(vertices, x[6], rows), [vertices[0, 0] - rows[0, 0], *(vertices[2] - rows[-1])]
        # The ends are free along their piece: here the first is held beside row 0, the last to the circle's own foot.
        return 1e4 * (first @ first + last[0] ** 2)

    def turn(x):
        one, other = x[2:4] - x[0:2], x[4:6] - x[2:4]
        return np.arctan2(other[1], other[0]) - x[6] - np.arctan2(one[1], one[0])

    start = np.concatenate([fit.chain.vertices.ravel(), fit.chain.half[1:]])
    pushed = start + np.random.default_rng(2).normal(0, 0.003, 7)
    constraints = [{"type": "eq", "fun": turn}] if is_tangent else []
    found = minimize(
        squares, pushed, method="SLSQP", constraints=constraints, options={"ftol": 1e-13, "maxiter": 500}
    )
    ours = misses(fit.chain.vertices, fit.chain.half[1], rows)
    assert fit.residual == pytest.approx(ours, abs=1e-12)
    assert 1e-4 * found.fun == pytest.approx(fit.squares, rel=1e-5)
    radius = np.hypot(*(found.x[4:6] - found.x[2:4])) / (2.0 * np.sin(found.x[6]))
    chord = fit.chain.vertices[2] - fit.chain.vertices[1]
    assert np.hypot(*chord) / (2.0 * np.sin(fit.chain.half[1])) == pytest.approx(radius, abs=2e-4)


def test_one_arc_alone_is_the_circle_of_fit_circle():
    rows = bent_line(np.random.default_rng(3), 0.01)[41:]
    chain = bent_chain(is_tangent=False)
    alone = replace(
        chain,
        vertices=chain.vertices[1:],
        half=np.array([0.7]),
        is_arc=np.array([True]),
        is_tangent=np.array([False]),
        piece=np.zeros(46, int),
        ends=((0, 0), (1, 45)),
    )
    fit = fit_chain(rows, alone)
    circle = fit_circle(rows)
    assert fit.squares == pytest.approx(46 * circle.rms**2, rel=1e-9)
    chord = np.hypot(*(fit.chain.vertices[1] - fit.chain.vertices[0]))
    assert chord / (2.0 * np.sin(fit.chain.half[0])) == pytest.approx(circle.radius, abs=1e-7)
    # The ends lie beside the first and last row: square to the circle there.
    for vertex, row in zip(fit.chain.vertices, rows[[0, -1]]):
        assert np.hypot(*(vertex - circle.centre)) == pytest.approx(circle.radius, abs=1e-7)
        assert np.hypot(*(vertex - row)) == pytest.approx(
            abs(np.hypot(*(row - circle.centre)) - circle.radius), abs=1e-5
        )


def test_roughness_is_the_sigma_of_independent_rows_on_any_smooth_line():
    """The median of n rows knows a sigma to about 1.2/sqrt(n/2), neighbours being alike: 4 % of 2,000."""
    rng = np.random.default_rng(4)
    t = np.linspace(0.0, 20.0, 2000)
    line = np.column_stack([30.0 * np.cos(t / 5.0), 30.0 * np.sin(t / 5.0)])
    assert measure_roughness(line + rng.normal(0, 0.02, line.shape)) == pytest.approx(0.02, rel=0.12)
    assert measure_roughness(line) < 1e-6
    assert measure_roughness(line[:7]) == 0.0
    along = measure_roughness_along(
        line + rng.normal(0, 1, line.shape) * np.where(t < 10.0, 0.01, 0.1)[:, None]
    )
    assert along.shape == (2000,)
    assert np.median(along[:900]) == pytest.approx(0.01, rel=0.2)
    assert np.median(along[1100:]) == pytest.approx(0.1, rel=0.2)


def test_rows_are_cut_where_the_cheapest_division_of_all_cuts_them():
    """Against every division in at most three straights, each fitted by singular values."""
    rng = np.random.default_rng(5)
    rows = np.vstack(
        [
            np.column_stack([np.arange(9) * 0.2, np.zeros(9)]),
            np.column_stack([np.full(8, 1.7), 0.1 + np.arange(8) * 0.2]),
            np.column_stack([1.8 + np.arange(9) * 0.2, np.full(9, 1.6)]),
        ]
    ) + rng.normal(0, 0.01, (26, 2))

    def cost(first, last):
        own = rows[first : last + 1]
        return np.linalg.svd(own - own.mean(0), compute_uv=False)[1] ** 2 / 0.01**2

    best = min(
        (cost(0, i - 1) + cost(i, k - 1) + cost(k, 25), i, k) for i in range(4, 19) for k in range(i + 4, 23)
    )
    cuts = cut_rows(rows, Noise(0.01, 0.06))
    assert cuts == [
        Cut(STRAIGHT, 0, best[1] - 1),
        Cut(STRAIGHT, best[1], best[2] - 1),
        Cut(STRAIGHT, best[2], 25),
    ]
    banned = cut_rows(rows, Noise(0.01, 0.06), banned=[cuts[0]])
    assert all(not (cut.kind is STRAIGHT and cut.first == 0 and cut.last >= cuts[0].last) for cut in banned)


def test_a_smooth_joint_is_told_from_a_corner():
    rng = np.random.default_rng(6)
    rows = bent_line(rng, 0.01)
    straight, arc = fit_alone(rows, Cut(STRAIGHT, 0, 40)), fit_alone(rows, Cut(ARC, 41, 86))
    assert arc.radius == pytest.approx(3.0, abs=0.05)
    assert is_smooth(straight, arc, np.array([4.0, 0.0]), 0.01)
    c, s = np.cos(0.4), np.sin(0.4)
    turned = np.vstack([rows[:41], (rows[41:] - (4.0, 0.0)) @ np.array([(c, s), (-s, c)]) + (4.0, 0.0)])
    assert not is_smooth(straight, fit_alone(turned, Cut(ARC, 41, 86)), np.array([4.0, 0.0]), 0.01)
    assert not is_smooth(straight, straight, np.array([4.0, 0.0]), 0.01)


@pytest.mark.parametrize("turn", [1.0, -1.0])
def test_an_arc_alone_turns_as_its_rows_do(turn):
    rows = bent_line(np.random.default_rng(7), 0.001)[41:] * (1.0, turn)
    lone = fit_alone(rows, Cut(ARC, 0, 45))
    assert lone.radius == pytest.approx(turn * 3.0, abs=0.01)
    assert lone.sweep == pytest.approx(turn * 1.47, abs=0.01)
    assert lone.heading(rows[0]) == pytest.approx(turn * 0.03, abs=0.01)
