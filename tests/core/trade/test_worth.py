# SPDX-License-Identifier: GPL-2.0-or-later
"""What points are worth together: closed forms, and draws of the stations' errors for every figure of the trade."""

from __future__ import annotations

import math

import numpy as np
import pytest

from plugin.core.measure.rows import PointErrors
from plugin.core.quantity import Quantity
from plugin.core.trade.faces import outline_face, profile_face, ruled_face
from plugin.core.trade.lines import Line, draw_line
from plugin.core.trade.ramps import measure_ramp
from plugin.core.trade.seats import seat_lines
from plugin.core.trade.slabs import SlabSpec, measure_slab
from plugin.core.trade.steps import measure_steps
from plugin.core.trade.walls import WallSpec, measure_wall
from plugin.core.trade.worth import JointWorth, Moves, PointWorth, moves_of, worth_of
from tests.trade_lines import box, moved, straight

PARTS, DRAWS = 5, 500
EXACT = PointWorth(0.0)


def stations_under(*lines, seed=3, plan=0.006, height=0.006):
    """Lines of one feature whose points err by themselves and in common."""
    rng = np.random.default_rng(seed)
    told = []
    for line in lines:
        count = len(line.points)
        own = np.column_stack([rng.uniform(0.3, 1.0, count) * plan, rng.uniform(0.3, 1.0, count) * height])
        parts = rng.normal(0.0, plan, (count, PARTS, 2)), rng.normal(0.0, height, (count, PARTS))
        for part in (own, *parts) if line.is_closed else ():
            part[-1] = part[0]
        told.append(PointErrors(line.points[:, :2], own, *parts))
    seated = seat_lines(lines, told)
    assert seated is not None
    return seated


def shaken(lines, worth, rng):
    """The lines with a draw of their points' errors."""
    k, j = worth.plan.shape[1], worth.height.shape[1]
    plan = np.einsum("k,ska->sa", rng.normal(size=k), worth.plan)
    plan += worth.own[:, :1] * rng.normal(size=(len(worth.own), 2))
    height = worth.height @ rng.normal(size=j) + worth.own[:, 1] * rng.normal(size=len(worth.own))
    error = np.column_stack([plan, height])
    return [Line(line.points + error[line.seats], line.is_mid) for line in lines]


def test_a_length_between_two_stations_errs_by_their_own_and_by_what_their_common_errors_differ():
    line = straight((0, 0, 0), (3, 4, 0))
    lines, worth = stations_under(line)
    unit = np.array([0.6, 0.8])
    apart = (worth.plan[1] - worth.plan[0]) @ unit
    expected = (worth.own[:, 0] ** 2).sum() + (apart**2).sum()
    by = lines[0].edges.length_moves(np.ones(1))
    assert worth.sigma(moves_of(lines[0], by)) ** 2 == pytest.approx(expected, rel=1e-12)


def test_errors_that_all_stations_share_change_no_length_and_no_rise_but_every_height():
    lines, _ = stations_under(straight((0, 0, 1), (10, 0, 2), (10, 5, 3)))
    shift = np.broadcast_to(np.array([[[3.0, 4.0]]]), (3, 1, 2))
    worth = JointWorth(np.zeros((3, 2)), shift, np.full((3, 1), 0.5))
    (line,) = lines
    assert worth.sigma(moves_of(line, line.edges.length_moves(np.ones(2)))) == pytest.approx(0.0, abs=1e-12)
    rise = np.array([-1.0, 0.0, 1.0])
    assert worth.sigma(moves_of(line, height=rise)) == pytest.approx(0.0, abs=1e-12)
    assert worth.sigma(moves_of(line, height=np.array([0.0, 0.0, 1.0]))) == pytest.approx(0.5)


def test_stations_that_err_each_by_itself_are_points_that_do():
    line = box(10.0, 6.0, 3.0)
    (seated,), worth = stations_under(line)
    alone = JointWorth(np.tile([0.02, 0.01], (len(worth.own), 1)), worth.plan[:, :0], worth.height[:, :0])
    moves = moves_of(seated, seated.edges.area_moves(np.ones(4)), np.arange(5.0))
    plain = moves_of(line, line.edges.area_moves(np.ones(4)), np.arange(5.0))
    assert alone.sigma(moves) == pytest.approx(PointWorth(0.01, 0.02).sigma(plain), rel=1e-12)


def test_many_figures_at_once_are_as_one_by_one():
    lines, worth = stations_under(straight((0, 0, 1), (10, 0, 2), (10, 5, 3), (4, 9, 1)))
    (line,) = lines
    rng = np.random.default_rng(2)
    point, by = rng.integers(0, 4, (4_100, 3)), rng.normal(size=(4_100, 3, 3))
    for told in (worth, PointWorth(0.01, 0.02)):
        every = told.variances(Moves(line, point, by))
        for k in (0, 1_999, 2_000, 4_099):
            assert every[k] == pytest.approx(told.variances(Moves(line, point[[k]], by[[k]]))[0], rel=1e-12)
        assert told.variances(Moves(line, point[:0], by[:0])).shape == (0,)


def test_a_bare_number_is_that_of_each_axis():
    assert worth_of(0.3) == PointWorth(0.3, 0.3)
    _, worth = stations_under(straight((0, 0, 1), (10, 0, 2)))
    assert worth_of(worth) is worth


def arc_line(z):
    """A straight and two arcs on one circle, so that three stations tell it."""
    turn = np.radians([180.0, 157.5, 135.0, 112.5, 90.0])
    arc = np.column_stack([8.0 * np.cos(turn), 8.0 * np.sin(turn), np.full(5, z)])
    points = np.vstack([[-8.0, -6.0, z - 0.2], arc])
    return draw_line(points, np.array([0, 0, 1, 0, 1, 0], bool))


def stair():
    points, z = [(0.0, 0.02, 0.0)], 0.0
    for k, (rise, going) in enumerate([(0.17, 0.3), (0.15, 0.32), (0.18, 0.29)]):
        points.append((points[-1][0] + 0.005, 0.01 * k, z + rise))
        z += rise
        points.append((points[-1][0] + going, 0.02 * k, z))
    return straight(*points)


def wall_of(lines, worth):
    return measure_wall(
        *lines, WallSpec(thickness=0.3, footing_width=0.6, footing_depth=0.3, backfill=0.4), worth
    )


WALL = (
    straight((0, 0, 0.0), (6, 0, 0.1), (10, 4, -0.1)),
    straight((0, 0.1, 1.0), (5, 0.1, 1.9), (9.8, 4.2, 1.1)),
)
RAMP = (
    straight((0, 1.5, 0), (4, 1.6, 0.4), (9, 1.45, 0.5)),
    straight((0, 0, 0.02), (5, 0, 0.43), (9, 0, 0.52)),
)
SPEC = SlabSpec(bottom=-0.1, edge_depth=0.2, edge_width=0.3)
FIGURES = {
    "ruled face": (WALL, lambda ls, w: ruled_face(*ls, w).area),
    "mean edge": (WALL, lambda ls, w: ruled_face(*ls, w).length),
    "ruled face on arcs": ((arc_line(0.0), arc_line(1.0)), lambda ls, w: ruled_face(*ls, w).area),
    "profile": (WALL[:1], lambda ls, w: profile_face(ls[0], 2.0, w).area),
    "outline in its plane": (
        (straight((0, 0, 0), (5, 0, 0), (5, 1, 3), (0, 1, 3), (0, 0, 0)),),
        lambda ls, w: outline_face(ls, [False], w, 1.0).area,
    ),
    "its edge": (
        (straight((0, 0, 0), (5, 0, 0), (5, 1, 3), (0, 1, 3), (0, 0, 0)),),
        lambda ls, w: outline_face(ls, [False], w, 1.0).length,
    ),
    "greatest height": (WALL, lambda ls, w: wall_of(ls, w).highest),
    "mean height": (WALL, lambda ls, w: wall_of(ls, w).mean),
    "least height": (WALL, lambda ls, w: wall_of(ls, w).lowest),
    "wall face": (WALL, lambda ls, w: wall_of(ls, w).face),
    "back": (WALL, lambda ls, w: wall_of(ls, w).back),
    "front on arcs": ((arc_line(0.0), arc_line(1.0)), lambda ls, w: wall_of(ls, w).front),
    "gradient": (RAMP, lambda ls, w: measure_ramp(ls, w).whole.gradient),
    "gradient by one line": (RAMP[:1], lambda ls, w: measure_ramp(ls, w).whole.gradient),
    "steepest": (RAMP, lambda ls, w: measure_ramp(ls, w).whole.steepest),
    "run": (RAMP, lambda ls, w: measure_ramp(ls, w).whole.run),
    "clear width": (RAMP, lambda ls, w: measure_ramp(ls, w).width),
    "crossfall": (RAMP, lambda ls, w: measure_ramp(ls, w).whole.crossfall),
    "riser": ((stair(),), lambda ls, w: measure_steps(ls[0], w).flights[0].risers[1]),
    "going": ((stair(),), lambda ls, w: measure_steps(ls[0], w).flights[0].goings[0]),
    "2R + G": ((stair(),), lambda ls, w: measure_steps(ls[0], w).flights[0].comfort[1]),
    "difference": ((stair(),), lambda ls, w: measure_steps(ls[0], w).flights[0].difference),
    "rise of the steps": ((stair(),), lambda ls, w: measure_steps(ls[0], w).rise),
    "slab's mean": ((box(8.0, 5.0, 0.1),), lambda ls, w: slab_of(ls, w).mean),
    "thickened edge": ((box(8.0, 5.0, 0.1),), lambda ls, w: slab_of(ls, w).edges),
}


def slab_of(lines, worth):
    return measure_slab(list(lines), Quantity(40.0, 0.0, "m2"), SPEC, worth)


@pytest.mark.parametrize("name", FIGURES)
def test_the_sigma_of_a_figure_is_that_of_draws_of_its_points_errors(name):
    """500 draws know a standard deviation to 3.2 %. Errors of half a millimetre: the figures are linear in them."""
    lines, measure = FIGURES[name]
    seated, worth = stations_under(*lines, plan=0.0005, height=0.0005)
    told = measure(seated, worth)
    rng = np.random.default_rng(11)
    found = np.std([measure(shaken(seated, worth, rng), EXACT).value for _ in range(DRAWS)])
    assert told.sigma > 0.0
    assert told.sigma == pytest.approx(found, rel=0.11)


@pytest.mark.parametrize(
    "name", ["ruled face on arcs", "greatest height", "gradient", "clear width", "front on arcs"]
)
def test_turning_and_moving_the_whole_changes_no_sigma(name):
    lines, measure = FIGURES[name]
    seated, worth = stations_under(*lines)
    turn, by = 0.7, (1e7, -2e7, 0.0)
    cos, sin = math.cos(turn), math.sin(turn)
    spin = np.array([[cos, -sin], [sin, cos]])
    plan = worth.plan @ spin.T
    far = [moved(line, by, turn) for line in lines]
    again, _ = stations_under(*far)
    told, turned = measure(seated, worth), measure(again, JointWorth(worth.own, plan, worth.height))
    assert turned.value == pytest.approx(told.value, rel=1e-5)
    assert turned.sigma == pytest.approx(told.sigma, rel=1e-5)


@pytest.mark.parametrize(
    "name", ["ruled face", "greatest height", "wall face", "run", "crossfall", "clear width"]
)
def test_the_way_that_the_edges_were_walked_changes_no_sigma(name):
    lines, measure = FIGURES[name]
    seated, worth = stations_under(*lines)
    back = tuple(line.reversed() for line in seated)
    assert measure(back, worth).sigma == pytest.approx(measure(seated, worth).sigma, rel=1e-9)


def test_foot_and_top_of_one_walk_share_what_their_height_does_not_feel():
    """With 5 cm of drift in common and 3 mm of their own, a height of a wall is worth 4 mm, not 7 cm."""
    lines, worth = stations_under(*WALL)
    count = len(worth.own)
    drift = JointWorth(np.full((count, 2), 0.003), np.zeros((count, 0, 2)), np.full((count, 1), 0.05))
    assert measure_wall(*lines, WallSpec(), drift).highest.sigma < 0.003 * math.sqrt(2.0) + 1e-9
    assert measure_wall(*WALL, WallSpec(), math.hypot(0.05, 0.003)).highest.sigma > 0.05


def test_a_profile_of_a_million_points_has_its_sigma_in_a_moment():
    points = np.arange(1e6)[:, None] * np.array([1.0, 0.0, 0.0])
    line = Line(points, np.zeros(len(points), bool))
    by = line.edges.length_moves(np.ones(len(points) - 1))
    assert PointWorth(0.01, 0.01).sigma(moves_of(line, by)) == pytest.approx(0.01 * math.sqrt(2.0))
