# SPDX-License-Identifier: GPL-2.0-or-later
"""The uncertainty of slabs with thickened edges beside differences and draws of their points and sizes."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from trade_lines import box, circle, drawn, moved, straight

from plugin.core.quantity import Quantity
from plugin.core.trade.lines import draw_line
from plugin.core.trade.moments import moments_of
from plugin.core.trade.slab_edges import Stretch
from plugin.core.trade.slabs import SlabSpec, measure_slab
from plugin.core.trade.worth import PointWorth, moves_of

STEP = 1e-5
ANGLE = straight((0, 0), (6, 0), (6, 3), (3, 3.5), (3, 6), (0, 5), (0, 0))
TAPED = ("thickness", "edge_depth", "edge_width", "edge_splay", "extra")


def volume(ring, spec):
    return measure(ring, spec, 0.0, 0.0).concrete.value


def measure(ring, spec, sigma, area_sigma=None):
    moves = moves_of(ring, ring.edges.area_moves(np.ones(len(ring.half))))
    own = PointWorth(sigma, sigma).sigma(moves) if area_sigma is None else area_sigma
    area = Quantity(moments_of([ring], ring.points[0, :2]).area, own, "m2")
    return measure_slab([ring], area, spec, sigma)


def by_differences(ring, spec, sigma):
    """One-sigma from how the volume differs as each point and each taped size is moved by itself."""
    total, last = 0.0, len(ring.points) - 1
    for k in range(last):
        for axis in (0, 1, 2) if ring.has_heights else (0, 1):
            step = np.zeros_like(ring.points)
            step[k, axis] = STEP
            if k == 0:
                step[last] = step[0]
            more, less = (volume(draw_line(ring.points + s * step, ring.is_mid), spec) for s in (1, -1))
            total += ((more - less) / (2 * STEP) * sigma) ** 2
    for name in TAPED:
        size = getattr(spec, name)
        if size and not (name == "thickness" and spec.bottom is not None):
            more, less = (volume(ring, replace(spec, **{name: size + s * STEP})) for s in (1, -1))
            total += ((more - less) / (2 * STEP) * spec.size_sigma) ** 2
    return math.sqrt(total)


HALF_DISC = draw_line(
    [(3, 0, math.nan), (0, 3, math.nan), (-3, 0, math.nan), (-3, -1, math.nan), (3, -1, math.nan)]
    + [(3, 0, math.nan)],
    [False, True, False, False, False, False],
)
TWO_SIDES = ((Stretch(0), Stretch(1)),)
PARTS = ((Stretch(0, 0.25, 1.0), Stretch(2), Stretch(4, 0.0, 0.5)),)


@pytest.mark.parametrize(
    "ring", [box(10, 5), ANGLE, moved(ANGLE, (4e5, 5e6, 0.0), 1.1), HALF_DISC, circle(4.0)]
)
@pytest.mark.parametrize(
    "spec",
    [
        SlabSpec(0.1),
        SlabSpec(0.15, edge_depth=0.2, edge_width=0.3),
        SlabSpec(0.1, edge_depth=0.4, edge_width=0.4, edge_splay=0.2),
        SlabSpec(0.1, edge_depth=0.4, edge_width=0.4, edge_splay=0.2, extra=0.3),
    ],
)
@pytest.mark.parametrize("size_sigma", [0.0, 0.02])
def test_body_and_edge_move_with_the_same_corners_and_sizes(ring, spec, size_sigma):
    spec = replace(spec, size_sigma=size_sigma)
    told = measure(ring, spec, 0.05).concrete
    assert told.sigma == pytest.approx(by_differences(ring, spec, 0.05), rel=2e-3)


@pytest.mark.parametrize("extra", [0.0, 0.3])
@pytest.mark.parametrize("named", [TWO_SIDES, PARTS])
def test_the_same_of_an_edge_thickened_along_some_sides(named, extra):
    spec = SlabSpec(0.1, edge_depth=0.4, edge_width=0.4, extra=extra, thickened=named, size_sigma=0.01)
    told = measure(ANGLE, spec, 0.05).concrete
    assert told.sigma == pytest.approx(by_differences(ANGLE, spec, 0.05), rel=1e-4)


def test_the_same_of_a_slab_down_to_a_level():
    ring = box(10, 5, 10.25)
    spec = SlabSpec(bottom=10.0, edge_depth=0.2, edge_width=0.3, size_sigma=0.0)
    told = measure(ring, spec, 0.05).concrete
    assert told.sigma == pytest.approx(by_differences(ring, spec, 0.05), rel=1e-4)


@pytest.mark.parametrize(
    ("ring", "spec"),
    [
        (box(10, 5), SlabSpec(0.15, edge_depth=0.2, edge_width=0.3)),
        (ANGLE, SlabSpec(0.1, edge_depth=0.4, edge_width=0.4)),
        (ANGLE, SlabSpec(0.1, edge_depth=0.4, edge_width=0.4, edge_splay=0.2, extra=0.3)),
    ],
)
def test_the_sigma_of_a_slab_with_an_edge_is_that_of_draws(ring, spec):
    draw = np.random.default_rng(11)
    found = np.std([volume(drawn(ring, 0.05, draw), spec) for _ in range(3000)])
    assert measure(ring, spec, 0.05).concrete.sigma == pytest.approx(found, rel=0.05)


@pytest.mark.parametrize("width", [0.5, 0.9])
def test_an_edge_whose_width_errs_moves_its_path(width):
    """A pad of 2 by 2 m: V = d w (8 - 4 w), so that dV/dw = d (8 - 8 w)."""
    spec = SlabSpec(0.1, edge_depth=0.4, edge_width=width, size_sigma=0.01)
    told = measure(box(2, 2), spec, 0.0).edges
    assert told.value == pytest.approx(0.4 * width * (8 - 4 * width))
    assert told.sigma == pytest.approx(0.01 * math.hypot(width * (8 - 4 * width), 0.4 * (8 - 8 * width)))


def test_an_area_that_is_told_better_than_its_points_keeps_its_own_sigma():
    """A survey may know an area better, or worse, than its corners are worth by themselves."""
    found = measure(box(10, 5), SlabSpec(0.15), 0.05, area_sigma=0.2)
    assert found.concrete.sigma == pytest.approx(0.2 * 0.15)
    found = measure(box(10, 5), SlabSpec(0.15), 0.0, area_sigma=0.2)
    assert found.concrete.sigma == pytest.approx(0.2 * 0.15)
