# SPDX-License-Identifier: GPL-2.0-or-later
"""Two surveys of one place: the words that come of it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from plugin.core.quantity import Quantity
from plugin.core.register.compare import compare_surveys
from plugin.core.register.records import Asked, Figure, Known, Outcome
from tests.core.register.known_sites import (
    HEIGHT_SIGMA,
    MARKS,
    area,
    known,
    length,
    moved,
    ring,
    spot,
    stations,
)

COURT, BED = ring(5, 5, 20, 10), ring(30, 5, 10, 10)
KERB = [(5, 25), (25, 25), (45, 30)]


def site(*, court=COURT, bed=BED, kerb=KERB, tree=(50.0, 20.0), **more):
    return [area("Court", court), area("Bed", bed), length("Kerb", kerb), spot("T1", *tree), *more.values()]


def outcomes(comparison):
    return {row.told.feature: row.outcome for row in comparison.rows}


def test_a_survey_against_itself_is_the_same_throughout():
    one = known(site(), MARKS)
    told = compare_surveys(one, one)
    assert set(outcomes(told).values()) == {Outcome.SAME}
    assert not told.is_changed
    assert told.motion is not None
    assert np.abs(told.motion.shift).max() < 1e-12
    assert told.lift is not None
    assert told.lift.shift.value == 0.0


def test_what_is_added_and_gone_is_told_so_and_nothing_else_is():
    before = known(site(old=area("Shed", ring(50, 30, 4, 3))), MARKS)
    after = known(site(new=area("Pond", ring(2, 30, 6, 5))), MARKS)
    told = outcomes(compare_surveys(before, after))
    assert (told.pop("Pond"), told.pop("Shed")) == (Outcome.ADDED, Outcome.GONE)
    assert set(told.values()) == {Outcome.SAME}


def test_a_moved_tree_and_a_wider_court_are_changed_and_their_neighbours_are_not():
    before = known(site(), MARKS)
    after = known(site(court=ring(5, 5, 21, 10), tree=(51.0, 20.0)), MARKS)
    comparison = compare_surveys(before, after)
    told = outcomes(comparison)
    assert told == {
        "Court": Outcome.CHANGED,
        "Bed": Outcome.SAME,
        "Kerb": Outcome.SAME,
        "T1": Outcome.CHANGED,
    }
    court, _, _, tree = comparison.rows
    assert court.test(Figure.SIZE).difference == pytest.approx(10.0)
    assert court.test(Figure.SIZE).sigma == pytest.approx(np.hypot(0.3, 0.3))
    assert court.test(Figure.PLACE).difference == pytest.approx(1.0, abs=0.02)
    assert tree.test(Figure.PLACE).difference == pytest.approx(1.0, abs=0.02)
    assert tree.test(Figure.PLACE).bearing == pytest.approx(0.0, abs=0.02)


def test_one_corner_that_went_is_a_move_although_the_middle_hardly_did():
    bent = COURT.copy()
    bent[2] += (0.8, 0.8)
    row = compare_surveys(known(site(), MARKS), known(site(court=bent), MARKS)).rows[0]
    assert row.outcome is Outcome.CHANGED
    assert row.test(Figure.PLACE).difference == pytest.approx(0.8 * np.sqrt(2), abs=0.03)
    assert np.degrees(row.test(Figure.PLACE).bearing) == pytest.approx(45.0, abs=2.0)


def test_corners_that_slid_along_an_edge_are_no_move():
    # The same kerb, stood on elsewhere: another row of it, and none at its bend's neighbour.
    slid = [(5, 25), (12, 25), (25, 25), (35, 27.5), (45, 30)]
    row = compare_surveys(known(site(), MARKS), known(site(kerb=slid), MARKS)).rows[2]
    assert row.outcome is Outcome.SAME
    assert row.test(Figure.PLACE).difference == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(("shift", "turn"), [((0.3, -0.2), 0.0), ((2.0, 1.0), 0.01), ((0.0, 0.0), -0.02)])
def test_what_all_places_share_is_told_once_and_is_no_change_of_things(shift, turn):
    before = known(site(), MARKS)
    there = [area("Court", moved(COURT, shift, turn)), area("Bed", moved(BED, shift, turn))]
    there += [length("Kerb", moved(KERB, shift, turn)), spot("T1", *moved([(50.0, 20.0)], shift, turn)[0])]
    marks = [(name, *moved([(x, y)], shift, turn)[0]) for name, x, y in MARKS]
    told = compare_surveys(before, known(there, marks))
    assert set(outcomes(told).values()) == {Outcome.SAME}
    assert not told.is_changed
    assert told.motion is not None
    assert told.motion.turn == pytest.approx(turn, abs=1e-12)
    at_centre = moved(told.motion.centre[None], shift, turn)[0] - told.motion.centre
    assert told.motion.shift == pytest.approx(at_centre, abs=1e-9)
    assert min(told.motion.shift_p, told.motion.turn_p) < 0.01


def test_a_shift_within_what_both_placements_state_is_not_told_as_news():
    common = 0.1
    things = [replace(t, spread=t.spread + common**2 * np.eye(2)) for t in site()]
    before = known(things, MARKS, common=common)
    after = known(
        [
            replace(t, corners=t.corners + (0.15, 0), paths=tuple(p + (0.15, 0) for p in t.paths))
            for t in things
        ],
        [(name, x + 0.15, y) for name, x, y in MARKS],
        common=common,
    )
    told = compare_surveys(before, after)
    assert told.motion is not None
    assert told.motion.shift == pytest.approx((0.15, 0.0), abs=1e-9)
    assert told.motion.shift_p == 1.0
    assert set(outcomes(told).values()) == {Outcome.SAME}


def test_half_a_site_that_moved_does_not_drag_the_rest_along():
    # Seven of twenty-one places moved together: the shift is that of the rest.
    after = known(site(court=COURT + (1.0, 0.0), tree=(51.0, 20.0)), MARKS)
    told = compare_surveys(known(site(), MARKS), after)
    assert np.abs(told.motion.shift).max() < 0.005
    assert outcomes(told) == {
        "Court": Outcome.CHANGED,
        "Bed": Outcome.SAME,
        "Kerb": Outcome.SAME,
        "T1": Outcome.CHANGED,
    }


def test_one_name_for_two_things_and_two_names_for_one_are_matched_by_their_place():
    before = known(site(), MARKS)
    named = [replace(thing, feature=f"Renamed {k}") for k, thing in enumerate(site())]
    told = compare_surveys(before, known(named, MARKS))
    assert [(row.before.feature, row.after.feature) for row in told.rows] == [
        ("Court", "Renamed 0"),
        ("Bed", "Renamed 1"),
        ("Kerb", "Renamed 2"),
        ("T1", "Renamed 3"),
    ]
    assert not told.is_changed


def test_names_exchanged_between_two_places_are_followed_by_their_place():
    court, bed, *rest = site()
    swapped = [replace(court, feature="Bed"), replace(bed, feature="Court"), *rest]
    told = compare_surveys(known(site(), MARKS), known(swapped, MARKS))
    assert [row.before.feature for row in told.rows[:2]] == ["Court", "Bed"]
    assert not told.is_changed


def test_a_figure_that_was_kept_out_says_that_it_cannot_tell():
    court, *rest = site()
    told = compare_surveys(known(site(), MARKS), known([replace(court, size=None), *rest], MARKS))
    assert told.rows[0].outcome is Outcome.UNSURE
    assert told.rows[0].test(Figure.SIZE) is None


def test_what_is_too_uncertain_to_see_the_change_asked_about_cannot_be_told():
    before, after = known(site(), MARKS), known(site(), MARKS)
    assert outcomes(compare_surveys(before, after, Asked(see=0.05)))["Court"] is Outcome.UNSURE
    assert outcomes(compare_surveys(before, after, Asked(see=0.5)))["Court"] is Outcome.SAME
    vague = replace(after.things[0], size=Quantity(200.0, 30.0, "m2"))
    rough = replace(after, things=(vague, *after.things[1:]))
    assert outcomes(compare_surveys(before, rough))["Court"] is Outcome.UNSURE


def test_levels_that_nobody_stood_on_again_are_no_change():
    before = known([*site(), spot("Level 1", 10, 33, is_level=True)], MARKS)
    after = known([*site(), spot("Level 1", 30, 33, is_level=True)], MARKS)
    told = [(row.told.feature, row.outcome) for row in compare_surveys(before, after).rows[-2:]]
    assert told == [("Level 1", Outcome.UNSURE), ("Level 1", Outcome.UNSURE)]


def test_moved_by_ten_million_metres_mirrored_and_reversed_the_figures_stay():
    after = site(court=ring(5, 5, 21, 10), tree=(51.0, 20.0))
    plain = compare_surveys(known(site(), MARKS), known(after, MARKS))

    def there(things, marks):
        far = [
            replace(
                t,
                corners=t.corners * (-1, 1) + 1e7,
                paths=tuple(p[::-1] * (-1, 1) + 1e7 for p in t.paths),
            )
            for t in things
        ]
        return known(far, [(n, -x + 1e7, y + 1e7) for n, x, y in marks])

    other = compare_surveys(there(site(), MARKS), there(after, MARKS))
    for one, two in zip(plain.rows, other.rows):
        assert one.outcome is two.outcome
        for test, same in zip(one.tests, two.tests):
            assert same.difference == pytest.approx(test.difference, abs=1e-6)
            assert same.p == pytest.approx(test.p, rel=1e-4, abs=1e-12)


def test_nothing_one_thing_and_no_heights_are_compared_without_fuss():
    empty = known([])
    assert compare_surveys(empty, empty).rows == ()
    one = known([spot("T1", 3, 4)], heights=np.full(1, np.nan))
    told = compare_surveys(one, one)
    assert [row.outcome for row in told.rows] == [Outcome.SAME]
    assert told.lift is None
    assert compare_surveys(empty, one).rows[0].outcome is Outcome.ADDED
    assert compare_surveys(one, empty).rows[0].outcome is Outcome.GONE


def test_one_spot_that_sank_far_is_found_by_itself():
    things = [spot(f"L{k}", 5.0 * (k % 6), 5.0 * (k // 6), is_level=True) for k in range(30)]
    heights = np.zeros(34)
    low = heights.copy()
    low[14] = -0.3
    told = compare_surveys(known(things, MARKS, heights=heights), known(things, MARKS, heights=low))
    changed = [row.told.feature for row in told.rows if row.outcome is Outcome.CHANGED]
    assert changed == ["L14"]
    assert told.rows[14].heights == (0.0, -0.3)
    assert told.rows[14].test(Figure.HEIGHT).difference == pytest.approx(-0.3, abs=1e-9)
    (patch,) = told.patches
    assert patch.rows.tolist() == [14]


def test_the_chance_of_any_false_change_holds_for_all_tests_together():
    """Errors drawn as stated, 300 pairs at 20 %: 60 false ones are expected at the most (sigma 7; the tests are careful,
    so that fewer come)."""
    rng = np.random.default_rng(11)
    things = [spot(f"L{k}", 5.0 * (k % 6), 5.0 * (k // 6), is_level=True) for k in range(30)]
    asked = Asked(level=0.2)

    def drawn():
        noisy = [
            replace(t, corners=c, paths=(c,))
            for t in things
            for c in [t.corners + rng.normal(0, 0.02, (1, 2))]
        ]
        return known(noisy, MARKS, heights=rng.normal(0, HEIGHT_SIGMA, 34))

    false = sum(compare_surveys(drawn(), drawn(), asked).is_changed for _ in range(300))
    assert 3 <= false <= 60


def test_heights_and_places_that_are_said_to_be_certain_break_nothing():
    keys = [(f"L{k}", "") for k in range(12)]
    one = stations([(k, 0) for k in range(12)], 0.0, keys, z_sigma=0.0, stand=0.0)
    sunk = replace(one, z=np.where(np.arange(12) == 4, -1.0, 0.0))
    told = compare_surveys(Known((), one), Known((), sunk))
    assert [patch.rows.tolist() for patch in told.patches] == [[4]]
    assert told.lift.shift.value == pytest.approx(0.0, abs=1e-6)


def test_a_height_that_is_missing_in_one_survey_cannot_be_told():
    things = [spot(f"L{k}", 3.0 * (k % 5), 3.0 * (k // 5), is_level=True) for k in range(20)]
    heights = np.where(np.arange(24) == 3, np.nan, 0.0)
    told = compare_surveys(known(things, MARKS), known(things, MARKS, heights=heights))
    assert [row.told.feature for row in told.rows if row.outcome is Outcome.UNSURE] == ["L3"]
    assert {row.outcome for row in told.rows} == {Outcome.UNSURE, Outcome.SAME}


def test_things_and_names_on_one_heap_are_the_same_as_themselves():
    heap = known([spot(f"S{k}", 1.0, 1.0) for k in range(6)])
    assert {row.outcome for row in compare_surveys(heap, heap).rows} == {Outcome.SAME}
    alike = known([spot("T", float(k), 0.0) for k in range(50)])
    assert {row.outcome for row in compare_surveys(alike, alike).rows} == {Outcome.SAME}
