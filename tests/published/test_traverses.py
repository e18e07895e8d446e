# SPDX-License-Identifier: GPL-2.0-or-later
"""Published traverses through the plan network: with fixed turn and noise by length alone it is the compass rule.
To the printed digits; a source beside each. Courses are (bearing, length); east is x, north is y."""

from __future__ import annotations

import math

import numpy as np
import pytest
from builders import make_walk, network

from plugin.core.adjust.closures import find_loops
from plugin.core.adjust.instrument import Model
from plugin.core.walk import Instrument

BY_LENGTH = Instrument(name="rover", leg_length=10.0)
"""10 m by root metre: so loose that the floor of 0.1 mm of a stand (1e-4 m) is 1e-12 of a leg's noise and less."""
BY_TIME = Instrument(name="rover", leg_time=1.0)


def azimuth(bearing):
    """Radians clockwise from north of a quadrant bearing such as `S56 23 38E`."""
    degrees, minutes, seconds = (float(part) for part in [*bearing[1:-1].split(), "0"][:3])
    angle = degrees + minutes / 60 + seconds / 3600
    if bearing[0] == "S":
        angle = 180.0 - angle
    return math.radians(angle if bearing[-1] == "E" else -angle)


def steps_of(courses):
    """(n, 2) departures and latitudes, unadjusted."""
    return np.array([(d * math.sin(azimuth(b)), d * math.cos(azimuth(b))) for b, d in courses])


def ring_of(courses, start=(0.0, 0.0)):
    """The traverse as a walk that ends on the mark it began on."""
    xy = np.vstack([np.zeros(2), np.cumsum(steps_of(courses), axis=0)]) + start
    return make_walk(xy, mark=["A", *[""] * (len(courses) - 1), "A"])


def adjusted(walk, instrument=BY_LENGTH, **options):
    return network([walk], instrument=instrument, fix_turns=True, **options)[0]


def compass_rule(xy, end):
    """(n, 2) by the rule itself: the gap at the end shared by length."""
    length = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(xy, axis=0).T))])
    return xy + np.outer(length / length[-1], np.asarray(end) - xy[-1])


def shoelace(xy):
    x, y = xy.T
    return 0.5 * float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))


LINK = [("S56 23 38E", 398.75), ("S75 17 42W", 422.89), ("N43 05 47E", 604.49)]
LINK_START, LINK_END = (1391.67, 2600.48), (1727.81, 2713.78)
PURDUE = [
    ("N26 10 00E", 285.1), ("S75 25 00E", 610.45), ("S15 30 00W", 720.48), ("N01 42 00W", 203.0), ("N53 06 00W", 647.02),
]  # fmt: skip
SIX = [
    ("N05 30 00E", 495.85), ("N46 02 00E", 850.62), ("S67 38 00E", 855.45), ("S12 25 00E", 1020.87),
    ("S83 44 00W", 1117.26), ("N55 09 00W", 660.08),
]  # fmt: skip
FOUR = [("N22 36 40W", 314.02), ("S60 39 24W", 264.49), ("S38 46 10E", 213.5), ("N88 22 58E", 217.69)]


def link_walk():
    xy = np.vstack([np.zeros(2), np.cumsum(steps_of(LINK), axis=0)]) + LINK_START
    return make_walk(xy, mark=["S", "", "", "E"])


def test_t3_03_latitudes_departures_and_misclosure_of_a_link():
    """Mahun, open-access surveying course, link traverse (seen); feet to three decimals. The misclosure printed as
    +0.555 is a misprint: the page's own preliminary coordinate gives 0.055."""
    steps, xy = steps_of(LINK), link_walk().xy
    assert steps[:, 1] == pytest.approx([-220.7, -107.347, 441.402], abs=0.0016)
    assert steps[:, 0] == pytest.approx([332.104, -409.038, 413.004], abs=0.0016)
    assert xy[-1] == pytest.approx([1727.74, 2713.835], abs=0.0016)
    east, north = xy[-1] - LINK_END
    assert north == pytest.approx(0.055, abs=0.0016)
    assert east == pytest.approx(-0.07, abs=0.0016)
    assert north != pytest.approx(0.555, abs=0.1)


def test_t3_03_a_link_between_two_known_marks_is_the_compass_rule():
    """To the last digits that coordinates of 2,700 hold (their spacing is 4.5e-13)."""
    known = ((0, LINK_START), (1, LINK_END))
    job = adjusted(link_walk(), known=known)
    assert job.xy == pytest.approx(compass_rule(link_walk().xy, LINK_END), abs=2e-12)
    assert job.xy[-1] == pytest.approx(LINK_END, abs=1e-12)
    # What was left over before the spread stays to be seen: the whole misclosure is residual.
    assert job.solved.redundancy == 2
    assert job.solved.observed.reshape(2, 2)[1] - job.solved.observed.reshape(2, 2)[0] == pytest.approx(
        np.asarray(LINK_END) - link_walk().xy[-1], abs=1e-9
    )


def test_t3_03_with_a_free_turn_a_link_is_another_adjustment():
    known = ((0, LINK_START), (1, LINK_END))
    job, _, _ = network([link_walk()], instrument=BY_LENGTH, known=known)
    ruled = compass_rule(link_walk().xy, LINK_END)
    assert np.abs(job.xy - ruled).max() == pytest.approx(0.0818, abs=5e-4)
    assert job.xy[-1] == pytest.approx(LINK_END, abs=1e-6)


@pytest.mark.parametrize("change", ["moved", "reversed", "turned"])
def test_a_link_is_the_compass_rule_wherever_it_lies(change):
    xy, ends = link_walk().xy, np.array([LINK_START, LINK_END])
    if change == "moved":
        xy, ends = xy + 1e7, ends + 1e7
    elif change == "reversed":
        xy, ends = xy[::-1], ends[::-1]
        xy = xy + (ends[0] - xy[0])
    else:
        spin = np.array([[0.6, 0.8], [-0.8, 0.6]])
        xy, ends = xy @ spin, ends @ spin
    known = tuple((i, tuple(end)) for i, end in enumerate(ends))
    job = adjusted(make_walk(xy, mark=["S", "", "", "E"]), known=known)
    # Coordinates of 1e7 are spaced 1.9e-9.
    assert job.xy == pytest.approx(compass_rule(xy, ends[1]), abs=8e-9 if change == "moved" else 2e-12)


@pytest.mark.parametrize("degrees", [30.0, 90.0, 179.0, 180.0, 200.0])
def test_a_link_recorded_in_any_frame_ends_in_the_same_place(degrees):
    """With a free turn the frame of the log does not matter, half a turn away included (the rounds once gave up
    there, 0.12 m short of the known end)."""
    known, walk = ((0, LINK_START), (1, LINK_END)), link_walk()
    angle = math.radians(degrees)
    spin = np.array([[math.cos(angle), math.sin(angle)], [-math.sin(angle), math.cos(angle)]])
    turned = make_walk((walk.xy - walk.xy[0]) @ spin + (7.0, -3.0), mark=walk.mark)
    straight = network([walk], instrument=BY_LENGTH, known=known)[0]
    job = network([turned], instrument=BY_LENGTH, known=known)[0]
    assert job.xy == pytest.approx(straight.xy, abs=1e-8)
    assert job.xy[-1] == pytest.approx(LINK_END, abs=1e-8)


def test_known_bearings_of_two_walks_are_both_kept():
    """Two links between the same known ends, the second with its recorded bearings 2 degrees off: with turns fixed
    nothing turns, and each gap is shared by length (the second was turned to fit, once)."""
    known, first = ((0, LINK_START), (1, LINK_END)), link_walk()
    c, s = math.cos(math.radians(2)), math.sin(math.radians(2))
    second = make_walk((first.xy - first.xy[0]) @ np.array([[c, s], [-s, c]]), name="W2", mark=first.mark)
    job = network([first, second], instrument=BY_LENGTH, fix_turns=True, known=known)[0]
    assert [pose.turn for pose in job.poses] == [0.0, 0.0]
    assert job.xy[:4] == pytest.approx(compass_rule(first.xy, LINK_END), abs=2e-12)
    moved = second.xy + np.asarray(LINK_START)
    assert job.xy[4:] == pytest.approx(compass_rule(moved, LINK_END), abs=2e-12)


def test_t3_04_five_sides_closed_by_the_compass_rule():
    """Purdue University ASM 215, traverse example (seen); feet to two decimals, so the sheet's rounded lines leave up
    to 0.009 ft. The ratio printed as 1/2771 divides by a rounded misclosure."""
    walk, perimeter = ring_of(PURDUE, (10000.0, 10000.0)), 2466.05
    steps = steps_of(PURDUE)
    assert steps[:, 1] == pytest.approx([255.88, -153.7, -694.28, 202.91, 388.48], abs=0.0062)
    assert steps[:, 0] == pytest.approx([125.72, 590.78, -192.54, -6.02, -517.41], abs=0.0062)
    assert sum(d for _, d in PURDUE) == pytest.approx(perimeter, abs=1e-9)
    (loop,) = find_loops(walk, Model(BY_LENGTH, ""))
    assert loop.gap == pytest.approx([0.53, -0.71], abs=0.012)
    # The ratio is of the sheet's own lines; unrounded ones close in 0.883, not 0.886 (1/2792).
    assert perimeter / loop.size == pytest.approx(2792, abs=1)
    printed_lines = [
        (125.72, 255.88),
        (590.78, -153.7),
        (-192.54, -694.28),
        (-6.02, 202.91),
        (-517.41, 388.48),
    ]
    xy = np.vstack([np.zeros(2), np.cumsum(printed_lines, axis=0)])
    (sheet,) = find_loops(make_walk(xy, mark=walk.mark), Model(BY_LENGTH, ""))
    assert perimeter / sheet.size == pytest.approx(2783, abs=1)
    assert perimeter / sheet.size != pytest.approx(2771, abs=5)
    printed = [
        (10000.0, 10000.0),
        (10255.96, 10125.66),
        (10102.44, 10716.31),
        (9408.37, 10523.62),
        (9611.34, 10517.55),
    ]
    north_east = adjusted(walk).xy[:5, ::-1] + (10000.0, 10000.0)
    assert north_east == pytest.approx(np.array(printed), abs=0.009)


def test_t3_05_six_sides_closed_by_the_compass_rule_and_their_area():
    """Compass-rule worksheet, six-sided traverse, public document 279716815 (seen); metres to four decimals."""
    steps, walk = steps_of(SIX), ring_of(SIX)
    assert steps[:, 1] == pytest.approx(
        [493.5672, 590.5342, -325.5265, -996.9916, -121.9557, 377.1895], abs=1e-4
    )
    assert steps[:, 0] == pytest.approx(
        [47.5251, 612.2285, 791.0924, 219.5069, -1110.584, -541.6952], abs=1e-4
    )
    (loop,) = find_loops(walk, Model(BY_LENGTH, ""))
    assert loop.gap == pytest.approx([18.0737, 16.8171], abs=1e-4)
    assert loop.size == pytest.approx(24.6876, abs=1e-4)
    xy = adjusted(walk).xy
    sides = np.diff(xy, axis=0)
    assert sides[:, 1] == pytest.approx(
        [491.8995, 587.6733, -328.4036, -1000.4252, -125.7134, 374.9694], abs=5e-5
    )
    assert sides[:, 0] == pytest.approx(
        [45.7328, 609.1538, 788.0003, 215.8168, -1114.6225, -544.0812], abs=5e-5
    )
    assert np.hypot(*sides.T) == pytest.approx(
        [494.0208, 846.4208, 853.694, 1023.439, 1121.6894, 660.7771], abs=5e-5
    )
    assert abs(shoelace(xy[:-1])) == pytest.approx(1715250.0494, abs=5e-5)
    assert xy == pytest.approx(compass_rule(walk.xy, walk.xy[0]), abs=2e-12)


@pytest.mark.parametrize("loose", [1.0, 1e2, 1e4])
def test_shares_by_length_do_not_hang_on_how_loose_the_legs_are(loose):
    """Only the floor of a stand (0.1 mm) does: at 1 m by root metre it takes 3e-11 m."""
    job = adjusted(ring_of(SIX), Instrument(name="rover", leg_length=loose))
    walked = ring_of(SIX).xy
    assert job.xy == pytest.approx(compass_rule(walked, walked[0]), abs=1e-10)


def test_shares_by_time_alone_go_with_its_cube():
    """Closed form: a leg's variance is b^2 t^3, so its share of the gap is t^3 / sum t^3 (t = L / 1.3 here); the
    printed shares are of T3-05's lengths. Shares by time itself would be another rule."""
    walk = ring_of(SIX)
    share = (steps_of(SIX) - np.diff(adjusted(walk, BY_TIME).xy, axis=0)) / walk.xy[-1]
    cube = np.array([d**3 for _, d in SIX]) / sum(d**3 for _, d in SIX)
    assert share == pytest.approx(np.column_stack([cube, cube]), abs=1e-12)
    assert share[:, 0] == pytest.approx([0.0297, 0.1498, 0.1523, 0.2589, 0.3394, 0.0700], abs=5e-5)
    by_length = np.array([d for _, d in SIX]) / 5000.13
    assert np.abs(share[:, 0] - by_length).max() > 0.1


def test_shares_by_time_follow_the_log_and_not_the_holds():
    """Moving times 1, 2, 3, 4, 5, 6 s whatever the lengths, with holds of 7 s between."""
    moving = np.arange(1.0, 7.0)
    time = np.concatenate([[0.0], np.cumsum(moving + 7.0)])
    ring = ring_of(SIX)
    walk = make_walk(ring.xy, mark=ring.mark, time=time, hold=np.full(7, 7.0))
    share = (steps_of(SIX) - np.diff(adjusted(walk, BY_TIME).xy, axis=0)) / ring.xy[-1]
    # The floor of two stands (2e-8 m2) beside 441 m2 of legs: 4.5e-11.
    assert share[:, 1] == pytest.approx(moving**3 / np.sum(moving**3), abs=1e-10)


def test_t3_08_misclosure_of_four_sides():
    """Textbook problem posted with its solution (seen); metres. Only B's coordinates are unadjusted there; the later
    ones are neither raw nor by the compass rule (up to 0.03 off), so they are met loosely."""
    steps, walk = steps_of(FOUR), ring_of(FOUR, (10000.0, 5000.0))
    assert steps[:, 0] == pytest.approx([-120.733, -230.556, 133.691, 217.603], abs=0.0011)
    assert steps[:, 1] == pytest.approx([289.883, -129.611, -166.46, 6.144], abs=0.0011)
    (loop,) = find_loops(walk, Model(BY_LENGTH, ""))
    assert loop.size == pytest.approx(0.045, abs=0.0006)
    assert sum(d for _, d in FOUR) / loop.size == pytest.approx(22500, abs=300)
    # Six decimals are printed, but the page's own departure of B (-120.733) is not its X_B less 10000 (-120.7336).
    assert walk.xy[1] == pytest.approx([9879.266402, 5289.883268], abs=0.0011)
    xy = adjusted(walk).xy + (10000.0, 5000.0)
    assert xy[1:4, 0] == pytest.approx([9879.266402, 9648.69926, 9782.389598], abs=0.03)
    assert xy[1:4, 1] == pytest.approx([5289.883268, 5160.277916, 4993.82517], abs=0.04)


def test_t3_09_linear_error_of_closure_from_four_sums():
    """Error-of-closure article, landsurveyorsunited.com (seen): the sums as four legs, north, south, east, west."""
    sums = np.array([(0.0, 926.1908), (0.0, -926.1124), (1271.551, 0.0), (-1271.6325, 0.0)])
    walk = make_walk(np.vstack([np.zeros(2), np.cumsum(sums, axis=0)]), mark=["A", "", "", "", "A"])
    (loop,) = find_loops(walk, Model(BY_LENGTH, ""))
    assert loop.gap == pytest.approx([-0.0815, 0.0784], abs=1e-4)
    assert loop.size == pytest.approx(0.1131, abs=1e-4)
    assert 3739.0 / loop.size == pytest.approx(33059, abs=100)


LIMITS = {"1:25000": 25000, "1:10000": 10000, "1:5000": 5000, "1:3000": 3000, "1:2500": 2500}


@pytest.mark.parametrize(
    ("courses", "denominator", "passes"),
    [(PURDUE, 2783, ["1:2500"]), (SIX, 202.5, [])],
    ids=["T3-04", "T3-05"],
)
def test_t3_10_which_closing_orders_a_traverse_passes(courses, denominator, passes):
    """Limits: Washington Administrative Code 332-130-090; orders of a training page; Mahun, chapter D (seen). National
    rules differ; the tool's own stop is by the instrument's sigma, not by these."""
    (loop,) = find_loops(ring_of(courses), Model(BY_LENGTH, ""))
    ratio = sum(d for _, d in courses) / loop.size
    # 2783 is of lines rounded to 0.01: 0.003 of the misclosure of 0.886.
    assert ratio == pytest.approx(denominator, rel=0.004)
    assert [name for name, least in LIMITS.items() if ratio >= least] == passes


@pytest.mark.parametrize(("courses", "is_far"), [(PURDUE, False), (SIX, True), (FOUR, False)])
def test_one_in_two_hundred_is_a_blunder_before_anything_is_spread(courses, is_far):
    """With legs good to 0.01 by root metre, T3-05 closes 25 sigma off; T3-04 and T3-08 as they should."""
    (loop,) = find_loops(ring_of(courses), Model(Instrument(name="rover", leg_length=0.01), ""))
    assert loop.is_far is is_far
    assert (loop.p < 1e-3) is is_far


def test_expected_misclosure_by_length_grows_with_the_root_of_the_perimeter():
    """Closed form: per axis c^2 sum L, and two stands of the floor."""
    (loop,) = find_loops(ring_of(SIX), Model(Instrument(name="rover", leg_length=0.002), ""))
    assert loop.covariance == pytest.approx((0.002**2 * 5000.13 + 2e-8) * np.eye(2), abs=1e-12)
    assert loop.expected == pytest.approx(0.002 * math.sqrt(2 * 5000.13), rel=1e-5)
