# SPDX-License-Identifier: GPL-2.0-or-later
"""WK-04: the same ground walked twice, and what an answer sets aside."""

from __future__ import annotations

import numpy as np
import pytest
from builders import turn
from fake_positions import FakePositions, drifting, noisy, trail, walk_of

from plugin.core.findings import Decision, Decisions, Severity
from plugin.core.shape import twice as twice_module
from plugin.core.shape.features import shape_features
from plugin.core.shape.twice import find_twice

LAWN = np.array([(0, 0), (20, 0), (20, 12), (0, 12), (0, 0)], float)
KERB = np.array([(0, 0), (10, 0), (18, 6), (30, 6)], float)


def positions_of(first, second, geometry="area", parts=("", "2"), sigma=0.01):
    rows = trail("Lawn", first, geometry=geometry, part=parts[0])
    again = trail("Lawn", second, geometry=geometry, part=parts[1])
    walks = [walk_of(rows, "W1"), walk_of(again, "W2")]
    count = len(rows) + len(again)
    return FakePositions(walks, plan=np.eye(2 * count) * sigma**2)


def twice(positions, *answers):
    decisions = Decisions(Decision("WK-04", place, answer) for place, answer in answers)
    shapes, _ = shape_features(positions, Decisions())
    shapes = tuple(shapes)
    return find_twice(shapes, positions, decisions)


def moved(outline, at, by):
    out = outline.copy()
    out[at] += by
    return out


def test_a_corner_that_lies_off_is_told_with_both_goes_and_what_was_expected():
    shapes, (finding,) = twice(positions_of(LAWN, moved(LAWN, 2, (0.10, 0.10))))
    assert (finding.code, finding.severity, finding.place) == ("WK-04", Severity.ASK, "Lawn+Lawn/2")
    assert finding.answers == ("older", "newer", "both")
    assert finding.message == (
        "W2.csv, line 4: Lawn/2 goes over the same ground as Lawn, and the two lie 0.141 m apart at station 3; 0.028 m "
        "(95 %) would be expected."
    )
    assert [shape.set_aside for shape in shapes] == ["", ""]


@pytest.mark.parametrize(
    ("answer", "gone"), [("older", ["", "WK-04"]), ("newer", ["WK-04", ""]), ("both", ["", ""])]
)
def test_an_answer_sets_the_other_go_aside(answer, gone):
    positions = positions_of(LAWN, moved(LAWN, 2, (0.10, 0.10)))
    shapes, (finding,) = twice(positions, ("Lawn+Lawn/2", answer))
    assert finding.answer == answer
    assert [shape.set_aside for shape in shapes] == gone


def test_goes_that_agree_within_their_sigma_are_not_told():
    assert twice(positions_of(LAWN, moved(LAWN, 2, (0.02, 0.0))))[1] == ()


@pytest.mark.parametrize("geometry", ["area", "length"])
@pytest.mark.parametrize(("angle", "shift", "mirror"), [(0, 0, 1), (1.1, 1e7, 1), (-2.5, 0, -1)])
def test_it_is_told_however_the_goes_lie_and_in_whichever_order_they_run(geometry, angle, shift, mirror):
    outline = LAWN if geometry == "area" else KERB
    first, second = (
        turn(xy * (1, mirror), angle) + shift for xy in (outline, moved(outline, 1, (0.0, 0.3))[::-1])
    )
    _, found = twice(positions_of(first, second, geometry))
    assert [f.place for f in found] == ["Lawn+Lawn/2"]


@pytest.mark.parametrize("parts", [("top", "foot"), ("left", "right"), ("", "profile")])
def test_parts_with_names_are_two_things(parts):
    assert twice(positions_of(LAWN, moved(LAWN, 2, (0.3, 0.3)), parts=parts))[1] == ()


@pytest.mark.parametrize("by", [(25.0, 0.0), (0.0, 13.0), (10.0, 6.0)])
def test_another_piece_of_ground_is_no_second_go(by):
    assert twice(positions_of(LAWN, LAWN + by))[1] == ()


def test_one_that_is_much_smaller_is_no_second_go():
    assert twice(positions_of(LAWN, LAWN * 0.5 + 0.2))[1] == ()


def test_a_walked_clean_job_is_told_in_fewer_than_one_in_a_hundred():
    plan, height = drifting(10, xy=np.vstack([LAWN, LAWN]))
    truth = positions_of(LAWN, LAWN)
    truth.plan, truth.height = plan, height
    rng = np.random.default_rng(4)
    told = sum(bool(twice(noisy(truth, rng))[1]) for _ in range(400))
    assert told <= 4


def test_a_second_go_without_a_drawn_edge_says_nothing():
    assert twice(positions_of(LAWN, LAWN[:2]))[1] == ()


def test_stations_asked_about_together_have_the_sigmas_of_one_by_one(monkeypatch):
    rng = np.random.default_rng(9)
    angle = np.linspace(0.0, 2.0 * np.pi, 150)
    ring = 20.0 * np.column_stack([np.cos(angle), np.sin(angle)])
    again = moved(ring + rng.normal(0.0, 0.02, ring.shape), 75, (3.0, 3.0))
    positions = positions_of(ring, again)
    mixed = rng.normal(0.0, 0.01, (600, 600))
    positions = FakePositions(positions.walks, plan=mixed @ mixed.T)
    _, together = twice(positions)
    monkeypatch.setattr(twice_module, "TOGETHER", 1)
    _, each = twice(positions)
    assert [f.station for f in together] == [f.station for f in each]
    assert [f.data["allowed"] for f in together] == pytest.approx(
        [f.data["allowed"] for f in each], rel=1e-12
    )
    assert len(together) == 1
