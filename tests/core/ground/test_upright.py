# SPDX-License-Identifier: GPL-2.0-or-later
"""Upright faces of lines are built leaning by a stated small run; what is no face is refused as before."""

from __future__ import annotations

import time
from dataclasses import replace

import numpy as np
import pytest

from plugin.core.findings import Severity
from plugin.core.ground.build import GroundInput, build_surface
from plugin.core.ground.upright import LEAN_M, lean_faces
from plugin.core.ground.volume import volume_to_level
from tests.core.ground.nasty import levels, line

NO_LEVELS = levels(np.empty((0, 3)))
CORNERS = [(0, 0, 1), (0, 10, 1), (10, 0, 0), (10, 10, 0)]
WALL = [(5, 0, 1), (5, 10, 1), (5, 10, 0), (5, 0, 0)]


def turned(xyz, angle=0.0, far=0.0, mirror=1.0):
    xyz = np.array(xyz, float)
    cos, sin = np.cos(angle), np.sin(angle)
    xy = (xyz[:, :2] * (1.0, mirror)) @ np.array([[cos, sin], [-sin, cos]])
    return np.column_stack([xy + far, xyz[:, 2]])


def codes(built):
    return [f.code for f in built.findings if f.code not in ("GR-01", "GR-04")]


def volume(built, level=0.0):
    return volume_to_level(built.surface, level).net.value


def leaned(*lines, given=NO_LEVELS, within=1e-3):
    return lean_faces(given, lines, within)


@pytest.mark.parametrize("way", [1, -1])
@pytest.mark.parametrize(
    ("angle", "far", "mirror"), [(0.0, 0.0, 1.0), (0.7, 0.0, 1.0), (2.0, 1e7, 1.0), (0.3, 1e7, -1.0)]
)
def test_a_box_step_of_one_wall_line_has_its_volume_to_the_lean(way, angle, far, mirror):
    """10 m by 10 m, half of it 1 m up: 50 m3 and the wedge of the lean, 10 x 1 x 0.002 / 2 = 0.01 m3 (closed form)."""
    wall = line(turned(WALL[::way], angle, far, mirror), "wall")
    built = build_surface(GroundInput(levels(turned(CORNERS, angle, far, mirror)), (wall,)))
    assert codes(built) == ["GR-05"]
    assert volume(built) == pytest.approx(50.01, abs=1e-5 if far else 1e-9)


def test_foot_and_top_of_one_face_may_be_two_lines_and_others_may_not():
    foot, top = line(WALL[2:], "foot"), line(WALL[:2], "top")
    of = [replace(one, face="wall") for one in (foot, top)]
    assert volume(build_surface(GroundInput(levels(CORNERS), tuple(of)))) == pytest.approx(50.01, abs=1e-9)
    for others in ((foot, top), (of[0], top), (of[0], replace(top, face="other"))):
        refused = build_surface(GroundInput(levels(CORNERS), others))
        assert refused.surface is None
        assert {f.code for f in refused.findings} == {"GR-02"}


@pytest.mark.parametrize("way", [1, -1])
@pytest.mark.parametrize(("high", "off"), [(1.0, 1), (-1.0, -1)])
def test_a_raised_bed_leans_outward_and_a_pit_inward(way, high, off):
    """A 10 m square 1 m above or below the ground. Between two squares a and b over 1 m lie (a2 + ab + b2) / 3 (frustum,
    closed form): of a bed the foot is the wider by 2 mm on each side, of a pit the narrower."""
    square = [(5, 5), (15, 5), (15, 15), (5, 15), (5, 5)][::way]
    at = {0.0: [(x, y, 0.0) for x, y in square], high: [(x, y, high) for x, y in square]}
    rings = tuple(line(points, f"{z}", 0.0) for z, points in at.items())
    rings = tuple(replace(ring, face="bed") for ring in rings)
    ground = [(0, 0, 0), (20, 0, 0), (20, 20, 0), (0, 20, 0), (10, 10, high), (8, 12, high)]
    built = build_surface(GroundInput(levels(ground), rings))
    assert codes(built) == ["GR-05"]
    a, b = 10.0, 10.0 + off * 2 * LEAN_M
    assert volume(built) == pytest.approx(high * (a * a + a * b + b * b) / 3.0, abs=1e-9)


def test_a_riser_in_a_line_leans_along_the_leg_of_its_foot():
    found = leaned(line([(0, 0, 1), (5, 0, 1), (5, 0, 0), (9, 3, 0)], "steps"))
    assert found.lines[0].points == pytest.approx(
        np.array([[0, 0, 1], [5, 0, 1], [5.0016, 0.0012, 0], [9, 3, 0]]), abs=1e-12
    )
    (told,) = found.findings
    assert (told.code, told.severity, told.at) == ("GR-05", Severity.NOTE, (5.0, 0.0))
    assert told.message == (
        "An upright face of the breakline steps at 5.000, 0.000 (survey plane), 0.000 to 1.000 m, is built leaning: its foot "
        "stands 0.0020 m off its top in plan."
    )
    assert told.remedy_text == (
        "Nothing has to be done; volumes over it are off by at most half that run times its height, per metre of its length. "
        "Draw foot and top apart where the face leans more."
    )


@pytest.mark.parametrize("way", [1, -1])
def test_risers_at_both_ends_and_between_lean_each_to_its_own_foot(way):
    """Down three risers; the last has no leg on its foot's side, and goes on as the line came."""
    given = [(0, 0, 3), (0, 0, 2), (1, 0, 2), (1, 0, 1), (2, 0, 1), (2, 0, 0)]
    found = leaned(line(given[::way]))
    assert found.lines[0].points[::way, 0] == pytest.approx([0, 0.002, 1, 1.002, 2, 2.002], abs=1e-12)
    assert len(found.findings) == 3


def test_a_line_that_goes_up_and_comes_down_again_leans_to_both_sides():
    found = leaned(line([(0, 0, 0), (1, 0, 0), (1, 0, 1), (2, 0, 1), (2, 0, 0), (3, 0, 0)]))
    assert found.lines[0].points[:, 0] == pytest.approx([0, 0.998, 1, 2, 2.002, 3], abs=1e-12)
    spike = leaned(line([(0, 0, 0), (1, 0, 0), (1, 0, 1), (1, 0, 0), (3, 0, 0)]))
    assert spike.lines[0].points[:, 0] == pytest.approx([0, 0.998, 1, 1.002, 3], abs=1e-12)


def test_vertices_half_way_up_a_face_become_one_of_its_ends():
    found = leaned(line([(0, 0, 1), (5, 0, 1), (5, 0, 0.7), (5, 0, 0.2), (5, 0, 0), (9, 0, 0)]))
    assert found.lines[0].points[:, 2].tolist() == [1, 1, 1, 0, 0, 0]
    built = build_surface(GroundInput(levels([(0, 5, 1), (9, 5, 0)]), found.lines))
    assert codes(built) == []


def outline(shift=0):
    """A court in two levels: an upright side at (5, 0) and another at (5, 10)."""
    ring = [(0, 0, 1), (5, 0, 1), (5, 0, 0), (10, 0, 0), (10, 10, 0), (5, 10, 0), (5, 10, 1), (0, 10, 1)]
    ring = ring[shift:] + ring[:shift]
    return [*ring, ring[0]]


@pytest.mark.parametrize("shift", range(8))
@pytest.mark.parametrize("way", [1, -1])
def test_a_closed_outline_may_have_upright_sides_wherever_it_starts(shift, way):
    """With top and foot across it as a wall of its own: 50.01 m3 again, inside the outline of 100 m2."""
    court = line(outline(shift)[::way], "court")
    built = build_surface(GroundInput(NO_LEVELS, (court, line(WALL, "wall")), (court,)))
    assert set(codes(built)) == {"GR-05"}
    assert built.surface.areas.sum() == pytest.approx(100.0, abs=1e-9)
    assert volume(built) == pytest.approx(50.01, abs=1e-9)


@pytest.mark.parametrize("way", [1, -1])
def test_a_line_whose_end_stands_over_its_start_leans_there_too(way):
    ring = [(0, 0, 1), (10, 0, 1), (10, 10, 0), (0, 10, 0), (0, 0, 0)][::way]
    found = leaned(line(ring))
    foot = found.lines[0].points[-1 if way > 0 else 0]
    assert foot == pytest.approx(np.array([0, 0.002, 0]), abs=1e-12)
    assert len(found.findings) == 1


def test_what_joins_the_foot_goes_along_and_what_joins_the_top_stays():
    steps = line([(0, 0, 1), (5, 0, 1), (5, 0, 0), (9, 0, 0)], "steps")
    below, above = line([(5, 0, 0), (5, -4, 0)], "below"), line([(5, 0, 1), (5, 4, 1)], "above")
    found = leaned(steps, below, above, given=levels([(5, 0, 0.01), (5, 0, 0.99), (1, 1, 1)], 0.02))
    assert found.lines[1].points[:, 0] == pytest.approx([5.002, 5.0], abs=1e-12)
    assert found.lines[2].points[:, 0].tolist() == [5.0, 5.0]
    assert found.levels.points[:, 0] == pytest.approx([5.002, 5.0, 1.0], abs=1e-12)


def test_steps_up_from_an_edge_lean_by_their_top():
    """The edge runs through the foot, and must stay one straight: the top goes 2 mm along its tread."""
    edge, steps = line([(5, -5, 0), (5, 5, 0)], "edge"), line([(5, 0, 0), (5, 0, 1), (8, 0, 1)], "steps")
    found = leaned(edge, steps)
    assert found.lines[0].points[:, 0].tolist() == [5.0, 5.0]
    assert found.lines[1].points[:, 0] == pytest.approx([5.0, 5.002, 8.0], abs=1e-12)
    assert codes(build_surface(GroundInput(levels([(0, 0, 0), (9, 9, 1)]), (edge, steps)))) == ["GR-05"]


def test_a_wall_on_a_longer_edge_leans_by_its_top():
    edge = line([(5, -5, 0), (5, 15, 0)], "edge")
    wall = line([(5, 0, 0), (5, 10, 0), (5, 10, 1), (5, 0, 1)], "wall")
    ground = levels([(9, 0, 0), (9, 10, 0), (4, 1, 1), (4, 9, 1)])
    found = leaned(edge, wall, given=ground)
    assert found.lines[1].points[:, 0] == pytest.approx([5, 5, 4.998, 4.998], abs=1e-12)
    assert codes(build_surface(GroundInput(ground, (edge, wall)))) == ["GR-05"]


@pytest.mark.parametrize(("start", "count"), [(4.97, 1), (4.89, 0)])
def test_steps_drawn_a_little_inside_an_edge_go_to_the_edge_at_the_height_of_their_top(start, count):
    """30 mm inside they belong to it; 110 mm inside they do not, and the tread under the edge is refused."""
    edge = line([(5, -5, 1), (5, 5, 1)], "edge", 0.01)
    steps = line([(start, 0, 1), (start, 0, 0.8), (6, 0, 0.8)], "steps", 0.01)
    built = build_surface(GroundInput(levels([(0, 0, 1.0), (9, 9, 0.8)]), (edge, steps)))
    shifted = [f for f in built.findings if "was drawn" in f.template]
    assert len(shifted) == count
    assert ("GR-02" in codes(built)) is (count == 0)
    if count:
        assert leaned(edge, steps).lines[1].points[:, 0] == pytest.approx([5.0, 5.002, 6.0], abs=1e-12)
        assert shifted[0].message == (
            "An upright face of the breakline steps was drawn 0.030 m off the edge at 5.000, 0.000 (survey plane) that it "
            "stands on; it is put there, 0.800 to 1.000 m, and built leaning: its foot stands 0.0020 m off its top in plan."
        )
        assert shifted[0].remedy_text == (
            "Nothing has to be done where the face stands on that edge. Else correct the heights where the two lines cross."
        )


def test_an_edge_of_another_height_across_a_tread_is_refused_with_place_and_difference():
    edge = line([(5, -5, 1.3), (5, 5, 1.3)], "edge", 0.01)
    steps = line([(4.97, 0, 1), (4.97, 0, 0.8), (6, 0, 0.8)], "steps", 0.01)
    built = build_surface(GroundInput(levels([(0, 0, 1.0), (9, 9, 0.8)]), (edge, steps)))
    (stop,) = [f for f in built.findings if f.severity is Severity.STOP]
    assert (stop.code, stop.data["off"]) == ("GR-02", pytest.approx(0.5, abs=1e-9))
    assert stop.at == pytest.approx((5.0, 0.0), abs=1e-9)


@pytest.mark.parametrize("ground", [[(0, 5, 0.5), (10, 5, 0.5)], []])
def test_a_wall_whose_side_nobody_can_tell_is_refused(ground):
    given = levels([*ground, (5, -9, 0), (5, 19, 1)])
    built = build_surface(GroundInput(given, (line(WALL, "wall"),)))
    assert built.surface is None
    assert {f.code for f in built.findings if f.severity is Severity.STOP} == {"GR-02"}


FREE = [(0, 10, 1), (20, 10, 1), (20, 10, 0), (0, 10, 0)]


def beside(low, high):
    """Ground of 20 m by 20 m, level on each side of a wall through its middle."""
    return levels([(x, y, low if y > 10 else high) for x in range(0, 21, 2) for y in (0, 4, 8, 12, 16, 20)])


@pytest.mark.parametrize("mirror", [False, True])
@pytest.mark.parametrize(("low", "high"), [(0.0, 0.3), (0.0, 0.45), (-0.3, 0.0)])
def test_a_wall_that_stands_free_is_refused_and_not_joined_to_ground_that_is_not_there(low, high, mirror):
    """1 m high, the ground 0 and 0.3 beside it: leaning, it held 62.02 m3 for the 48 that lie there."""
    sides = (high, low) if mirror else (low, high)
    built = build_surface(GroundInput(beside(*sides), (line(FREE, "wall"),)))
    assert built.surface is None
    stops = [f for f in built.findings if f.severity is Severity.STOP]
    assert {f.code for f in stops} == {"GR-02"}
    assert stops[0].remedy.endswith(
        "A wall with no ground at its top on either side is no ground: leave it out."
    )


@pytest.mark.parametrize("mirror", [False, True])
def test_a_wall_whose_ground_behind_is_a_little_below_its_top_leans_as_before(mirror):
    """0 before it and 0.8 behind: 20 m by 8 m at 0.8, 2 m from the last levels up to the top, and the lean."""
    built = build_surface(GroundInput(beside(*((0.8, 0.0) if mirror else (0.0, 0.8))), (line(FREE, "wall"),)))
    assert codes(built) == ["GR-05"]
    assert volume(built) == pytest.approx(20 * 8 * 0.8 + 20 * 2 * 0.9 + 20 * 0.002 / 2, abs=1e-6)


def test_heights_that_are_alike_are_one_as_before():
    found = leaned(line([(0, 0, 1), (5, 0, 1), (5, 0, 0.96), (9, 0, 0.96)], sigma=0.01))
    assert found.findings == ()
    given = levels([(0, 0, 1), (1, 1, 1)])
    plain = line([(0, 0, 1), (5, 0, 1)])
    same = lean_faces(given, (plain,), 1e-3)
    assert same.levels is given
    assert same.lines == (plain,)


def test_points_that_are_one_within_more_stand_farther_apart():
    given = line([(0, 0, 1), (5, 0, 1), (5, 0, 0), (9, 0, 0)])
    assert leaned(given, within=0.05).lines[0].points[2, 0] == pytest.approx(5.1, abs=1e-12)


def test_a_line_that_is_nothing_but_upright_goes_nowhere_and_is_refused():
    built = build_surface(GroundInput(levels(CORNERS), (line([(5, 5, 0), (5, 5, 1)], "post"),)))
    assert built.surface is None
    assert codes(built) == ["GR-02"]


def test_twenty_thousand_risers_lean_in_seconds():
    """400 flights of 50 risers, 0.3 m apart."""
    k = np.arange(50)
    flights = []
    for n in range(400):
        x, z = np.repeat(0.3 * k, 2), np.column_stack([-0.15 * k, -0.15 * (k + 1)]).reshape(-1)
        flights.append(line(np.column_stack([x, np.full(100, 2.0 * n), z]), f"flight {n}"))
    begin = time.perf_counter()
    found = leaned(*flights)
    assert time.perf_counter() - begin < 10.0
    assert len(found.findings) == 20_000
    assert found.lines[7].points[1::2, 0] == pytest.approx(0.3 * k + 0.002, abs=1e-9)
