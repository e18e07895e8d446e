# SPDX-License-Identifier: GPL-2.0-or-later
"""Surfaces whose heights err together: closed forms, and every figure against drawn errors."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.ground.build import GroundInput, build_surface
from plugin.core.ground.contours import draw_contours
from plugin.core.ground.depths import Ground
from plugin.core.ground.end_areas import end_area_sigmas
from plugin.core.ground.falls import measure_surface_fall, triangle_fall
from plugin.core.ground.levels import Levels as Told
from plugin.core.ground.levels import point_gradient, rise_sigmas
from plugin.core.ground.low_points import flood
from plugin.core.ground.noding import node_lines
from plugin.core.ground.ponds import measure_ponds
from plugin.core.ground.profile import make_profile, section_areas
from plugin.core.ground.records import GroundLine, Levels
from plugin.core.ground.section import SectionCutter
from plugin.core.ground.target import TargetPlane
from plugin.core.ground.volume import volume_between, volume_to_level
from plugin.core.ground.weld import compacted
from tests.core.ground.grounds import drawn_surface, grid_surface, square


def together(surface, *columns):
    """The surface with columns of what its heights share."""
    return replace(
        surface, shared=np.column_stack([np.broadcast_to(c, len(surface.points)) for c in columns])
    )


def redrawn(surface, draw):
    """With heights as they may have been found."""
    off = draw.normal(size=len(surface.points)) * surface.sigma
    off = off + surface.shared @ draw.normal(size=surface.shared.shape[1])
    return replace(surface, points=surface.points + np.column_stack([0.0 * off, 0.0 * off, off]))


def spread(surface, figure, draws=400, seed=1):
    """Standard deviation of a figure over drawn heights."""
    draw = np.random.default_rng(seed)
    return np.std([figure(redrawn(surface, draw)) for _ in range(draws)], ddof=1)


def hill(sigma=0.01, shift=0.02, tilt=0.002):
    """Drawn ground well above 0 with errors by themselves, one that lifts all and one that tilts all."""
    ground = drawn_surface(40, 3, height=lambda x, y: 5.0 + 0.1 * np.sin(x) + 0.05 * y, sigma=sigma)
    return together(ground, shift, tilt * (ground.points[:, 0] - 10.0))


def test_without_a_shared_part_a_surface_has_no_column_of_it_and_the_sigma_is_the_points_own():
    ground = drawn_surface(10, 1, sigma=0.03)
    assert ground.shared.shape == (14, 0)
    assert np.array_equal(ground.total_sigma, ground.sigma)


def test_a_shared_part_without_a_row_for_each_point_is_refused():
    with pytest.raises(ValueError, match="shared has not one row for each point"):
        replace(drawn_surface(10, 1), shared=np.ones((3, 1)))


def test_what_lifts_all_heights_moves_a_volume_by_the_area_and_a_level_by_itself_and_no_rise():
    ground = together(grid_surface(lambda x, y: 3.0 + 0.0 * x, 10.0, 5), 0.02)
    assert volume_to_level(ground, 1.0).net.sigma == pytest.approx(0.02 * 100.0, rel=1e-12)
    assert volume_to_level(ground, 1.0).cut.sigma == pytest.approx(2.0, rel=1e-12)
    assert volume_to_level(ground, 1.0).most.sigma == pytest.approx(0.02, rel=1e-12)
    section = SectionCutter(ground).cut(np.array([[1.0, 1.0], [8.0, 7.0]]))
    assert section.told.sigmas() == pytest.approx(np.full(len(section), 0.02), rel=1e-12)
    one, other = (
        Told(ground, *(v[[k]] for v in (section.told.place, section.told.corner, section.told.weight)))
        for k in (0, -1)
    )
    assert rise_sigmas(one, other) == pytest.approx([0.0], abs=1e-15)


def test_it_is_what_common_says_of_the_same_surface():
    ground = drawn_surface(40, 3, height=lambda x, y: 5.0 + np.sin(x), sigma=0.01)
    one, other = volume_to_level(together(ground, 0.02), 5.0), volume_to_level(ground, 5.0, common=0.02)
    assert one.covariance == pytest.approx(other.covariance, rel=1e-9)
    assert one.net.sigma == pytest.approx(other.net.sigma, rel=1e-12)


@pytest.mark.parametrize("far", [0.0, 1e7])
def test_a_volume_against_drawn_heights_wherever_it_lies(far):
    ground = hill()
    ground = replace(ground, points=ground.points + [far, -far, 0.0])
    outline = [square(2.0, 15.0) + [far, -far]]
    told = volume_to_level(ground, 2.0, outline)
    found = spread(ground, lambda s: volume_to_level(s, 2.0, outline).net.value)
    assert told.net.sigma == pytest.approx(found, rel=0.1)
    assert (
        told.net.sigma
        > 4.0 * volume_to_level(replace(ground, shared=np.empty((44, 0))), 2.0, outline).net.sigma
    )


def test_two_surfaces_count_as_independent():
    ground = hill()
    low = replace(ground, points=ground.points - [0.0, 0.0, 1.0])
    one = volume_to_level(ground, 2.0).net.sigma
    assert volume_between(ground, low).net.sigma == pytest.approx(np.sqrt(2.0) * one, rel=1e-9)


def test_levels_rises_and_falls_against_drawn_heights():
    ground = hill()
    line = np.array([[2.0, 3.0], [17.0, 15.0]])
    told = SectionCutter(ground).cut(line).told
    draw = np.random.default_rng(5)
    levels = np.array([SectionCutter(redrawn(ground, draw)).cut(line).level for _ in range(400)])
    assert told.sigmas() == pytest.approx(levels.std(axis=0, ddof=1), rel=0.15)
    one, other = (Told(ground, told.place[[k]], told.corner[[k]], told.weight[[k]]) for k in (0, -1))
    rises = levels[:, -1] - levels[:, 0]
    assert rise_sigmas(one, other) == pytest.approx([rises.std(ddof=1)], rel=0.1)
    fall = measure_surface_fall(Ground(ground, TargetPlane.at_level(0.0), [square(2.0, 15.0)]))
    found = spread(
        ground,
        lambda s: measure_surface_fall(Ground(s, TargetPlane.at_level(0.0), [square(2.0, 15.0)])).plane.slope[
            0
        ],
    )
    assert np.sqrt(fall.plane.covariance[0, 0]) == pytest.approx(found, rel=0.1)


def test_what_tilts_all_heights_is_in_the_fall_of_every_triangle():
    ground = drawn_surface(20, 2)
    ground = together(ground, 0.002 * ground.points[:, 0])
    for k in (0, 5, 11):
        assert triangle_fall(ground, k).covariance == pytest.approx(np.diag([4e-6, 0.0]), abs=1e-12)
    plane = measure_surface_fall(Ground(ground, TargetPlane.at_level(0.0))).plane
    assert plane.covariance == pytest.approx(np.diag([4e-6, 0.0]), abs=1e-12)


def test_sums_over_points_and_end_areas_know_it():
    ground = together(grid_surface(lambda x, y: 3.0 + 0.0 * x, 10.0, 5), 0.02)
    told = SectionCutter(ground).cut(np.array([[1.0, 1.0], [8.0, 7.0]])).told
    gradient = point_gradient(told, np.full(len(told), 2.0))
    assert gradient.variance(ground) == pytest.approx((0.02 * 2.0 * len(told)) ** 2, rel=1e-12)


def test_end_areas_know_it():
    """Two sections of a level ground that is lifted as a whole move by the width, and the volume between them by the area."""
    ground = together(grid_surface(lambda x, y: 3.0 + 0.0 * x, 10.0, 5), 0.02)
    pair = ground, grid_surface(lambda x, y: 0.0 * x, 10.0, 5)
    cutters = [SectionCutter(surface) for surface in pair]
    lines = np.array([[[2.0, 1.0], [2.0, 9.0]], [[7.0, 1.0], [7.0, 9.0]]])
    areas = [section_areas(make_profile([cutter.cut(line) for cutter in cutters])).cut for line in lines]
    assert [a.area.sigma for a in areas] == pytest.approx([0.02 * 8.0] * 2, rel=1e-9)
    told = end_area_sigmas(np.array([2.0, 7.0]), tuple(areas), pair, 1.0)
    assert told == pytest.approx([0.02 * 40.0] * 2, rel=1e-9)


def test_contours_and_ponds_know_it():
    ground = grid_surface(lambda x, y: 0.1 * x, 10.0, 5)
    lines = draw_contours(together(ground, 0.03), 0.5)
    assert {round(line.sigma, 12) for line in lines} == {0.03}
    bowl = grid_surface(lambda x, y: np.hypot(x - 5.0, y - 5.0), 10.0, 10)
    (pond,) = measure_ponds(flood(together(bowl, 0.03)), 0.0)
    assert pond.level.sigma == pytest.approx(0.03, rel=1e-12)
    assert pond.depth.sigma == pytest.approx(0.0, abs=1e-12)
    assert pond.volume.sigma == pytest.approx(0.0, abs=1e-9)


def test_points_that_no_triangle_uses_take_their_rows_with_them():
    ground = together(drawn_surface(10, 1), np.arange(14.0))
    some = replace(ground, triangles=ground.triangles[:2], is_weak=ground.is_weak[:2])
    assert compacted(some).shared[:, 0].tolist() == np.unique(ground.triangles[:2]).tolist()


# --- building ---


def test_a_place_told_twice_takes_the_weighted_mean_of_what_both_share():
    given = Levels(
        np.array([[0.0, 0, 1.0], [0, 0, 1.001], [5, 0, 1]]),
        np.array([0.01, 0.01, 0.02]),
        np.array([[0.0, 0.03], [0.02, 0.0], [0.05, 0.05]]),
    )
    net, findings = node_lines(given, [])
    first, second = 1.0 / (0.01**2 + 0.03**2), 1.0 / (0.01**2 + 0.02**2)
    part = second / (first + second)
    assert findings == ()
    assert net.shared == pytest.approx(
        np.array([[0.02 * part, 0.03 * (1.0 - part)], [0.05, 0.05]]), rel=1e-12
    )
    assert net.sigma == pytest.approx([0.01 * np.hypot(part, 1.0 - part), 0.02], rel=1e-12)
    assert net.points[0, 2] == pytest.approx(1.0 + 0.001 * part, rel=1e-12)


def test_where_lines_cross_and_on_draped_rings_it_runs_as_evenly_as_the_heights():
    """Shared errors that are linear over the ground stay so at every point that building adds."""

    def shared(xyz):
        return np.column_stack([0.01 + 0.002 * xyz[:, 0] - 0.001 * xyz[:, 1], 0.001 * xyz[:, 2]])

    draw = np.random.default_rng(8)
    xyz = np.column_stack([draw.uniform(0, 20, (40, 2)), np.zeros(40)])
    xyz[:, 2] = 1.0 + 0.05 * xyz[:, 0]
    ends = np.array([[1.0, 1, 1.05], [19, 18, 1.95]]), np.array([[2.0, 18, 1.1], [18, 2, 1.9]])
    lines = tuple(GroundLine(e, np.full(2, 0.01), f"line {k}", shared(e)) for k, e in enumerate(ends))
    ring = np.array([[5.0, 5, np.nan], [15, 6, np.nan], [14, 15, np.nan], [5, 14, np.nan]])
    boundary = GroundLine(ring, np.zeros(4), "ring")
    ground = GroundInput(Levels(xyz, np.full(40, 0.01), shared(xyz)), lines, (boundary,))
    surface = build_surface(ground).surface
    assert len(surface.points) > 20
    assert surface.shared == pytest.approx(shared(surface.points), abs=1e-12)


def test_layers_that_share_nothing_stand_beside_a_survey():
    survey = Levels(np.ones((2, 3)), np.zeros(2), np.ones((2, 3)))
    both = Levels.joined([Levels(np.zeros((1, 3)), np.ones(1)), survey])
    assert both.shared.tolist() == [[0.0, 0.0, 0.0], [1.0, 1.0, 1.0], [1.0, 1.0, 1.0]]
    assert Levels.joined([]).shared.shape == (0, 0)


def test_a_shared_part_that_is_no_number_is_refused():
    bad = Levels(np.zeros((1, 3)), np.zeros(1), np.array([[np.nan]]))
    with pytest.raises(BadInput) as error:
        node_lines(bad, [])
    assert str(error.value) == (
        "The one-sigma of 1 heights is no number that is 0 or more. Give one for each point."
    )


def test_the_roughness_between_points_is_not_hidden_by_what_neighbours_share():
    """Ground of 20 mm roughness under heights that drift by 50 mm together: as if they erred independently, the drift would
    explain all of it."""
    draw = np.random.default_rng(11)
    xy = draw.uniform(0.0, 60.0, (900, 2))
    rough = draw.normal(0.0, 0.02, 900)
    drift = 0.05 * draw.normal()
    xyz = np.column_stack([xy, 10.0 + rough + drift])
    own, none = np.full(900, 0.001), np.empty((900, 0))
    with_it = build_surface(GroundInput(Levels(xyz, own, np.full((900, 1), 0.05)))).interpolation
    without = build_surface(GroundInput(Levels(xyz, np.full(900, 0.05), none))).interpolation
    exact = build_surface(GroundInput(Levels(xyz, own))).interpolation
    assert without.rough == 0.0
    assert with_it.rough == pytest.approx(exact.rough, rel=1e-9)
    assert with_it.rough == pytest.approx(0.02 * np.sqrt(1.0 + 1.0 / 2.0), rel=0.15)
