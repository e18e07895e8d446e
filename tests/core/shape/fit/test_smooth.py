# SPDX-License-Identifier: GPL-2.0-or-later
"""As-walked legs fitted: the edges start and end at their stations, and move with them as the fit says."""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.segments import ring_area
from plugin.core.shape.fit.pieces import PieceKind
from plugin.core.shape.fit.smooth import smooth_leg
from plugin.core.shape.trace import WHOLE, Node, Run, number_run


def nodes_of(xy, z=None):
    height = np.full(len(xy), np.nan) if z is None else z
    return [
        Node(p, float(h), (k,), ((k, WHOLE),), ((k, 1.0),) if np.isfinite(h) else ())
        for k, (p, h) in enumerate(zip(xy, height))
    ]


def bend(sigma, seed=1):
    """Straight 3 m, arc of radius 4 m and 1.2 rad to the left, straight 3 m; a row each 0.1 m."""
    t = np.arange(0.0, 1.2, 0.025)
    x = np.arange(0.0, 3.0, 0.1)
    out = np.array([np.cos(1.2), np.sin(1.2)])
    end = np.array([3.0 + 4.0 * np.sin(1.2), 4.0 - 4.0 * np.cos(1.2)])
    xy = np.vstack(
        [
            np.column_stack([x, 0.0 * x]),
            np.column_stack([3.0 + 4.0 * np.sin(t), 4.0 - 4.0 * np.cos(t)]),
            end + x[:, None] * out,
        ]
    )
    return xy + np.random.default_rng(seed).normal(0, sigma, xy.shape)


def test_a_leg_keeps_its_stations_and_its_derivatives_are_those_of_the_fit():
    xy = bend(0.005)
    nodes = nodes_of(xy, np.linspace(80.0, 81.0, len(xy)))
    leg = smooth_leg(nodes, 0.04, sigma=0.005)
    assert [p.kind for p in leg.run.pieces] == [PieceKind.STRAIGHT, PieceKind.ARC, PieceKind.STRAIGHT]
    assert leg.start is nodes[0]
    assert leg.edges[-1].end is nodes[-1]
    points, half, pull = number_run(Run(leg.start, leg.edges, closed=False))
    assert points[:, :2] == pytest.approx(leg.run.points, abs=1e-9)
    assert half == pytest.approx(leg.run.half, abs=1e-12)
    # Heights at the two inner vertices: a third and two thirds of the way, give or take two rows.
    assert points[1:3, 2] == pytest.approx([80.0 + 3.0 / 10.8, 80.0 + 7.8 / 10.8], abs=0.025)
    by = np.zeros((4, len(xy), 2, 2))
    np.add.at(by, (pull.vertex, pull.vertex_row), pull.vertex_by)
    expected = leg.run.by_points[:8].reshape(4, 2, len(xy), 2).swapaxes(1, 2)
    assert by == pytest.approx(expected, abs=1e-9)
    assert np.abs(by[1]).max() > 0.01
    turn = np.zeros((3, len(xy), 2))
    np.add.at(turn, (pull.edge, pull.edge_row), pull.edge_by)
    assert turn[1] == pytest.approx(leg.run.by_points[9], abs=1e-9)


def test_a_ring_walked_as_one_leg_is_a_circle():
    t = np.arange(0.0, 2.0 * np.pi, 0.05)
    xy = 5.0 * np.column_stack([np.cos(t), np.sin(t)]) + np.random.default_rng(2).normal(0, 0.01, (len(t), 2))
    leg = smooth_leg(nodes_of(xy), 0.06, sigma=0.01, closed=True)
    assert len(leg.edges) == 2
    run = Run(leg.start, leg.edges, closed=True)
    assert number_run(run)[1] == pytest.approx([np.pi / 2, np.pi / 2], abs=1e-12)
    # sigma of the area is the rim's length by sigma/sqrt(rows): 31.4 * 0.01/sqrt(126) = 0.028
    assert ring_area(leg.run.curve()) == pytest.approx(25.0 * np.pi, abs=0.1)


def test_rows_that_stay_as_recorded_keep_their_own_nodes():
    rng = np.random.default_rng(3)
    xy = np.column_stack([np.arange(240) * 0.1, rng.normal(0, 0.01, 240)])
    xy[100:140, 1] += rng.normal(0, 0.2, 40)
    nodes = nodes_of(xy)
    leg = smooth_leg(nodes, 0.06, sigma=0.01)
    middle = leg.run.pieces[1]
    assert middle.kind is PieceKind.AS_WALKED
    ends = [edge.end for edge in leg.edges]
    assert ends[1 : 1 + middle.last - middle.first + 1] == nodes[middle.first : middle.last + 1]


def test_a_ragged_leg_stays_as_it_was_recorded():
    rng = np.random.default_rng(4)
    xy = np.column_stack([np.arange(100) * 0.1, rng.normal(0, 0.1, 100)])
    assert smooth_leg(nodes_of(xy), 0.05, sigma=0.01) is None
