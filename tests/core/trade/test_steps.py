# SPDX-License-Identifier: GPL-2.0-or-later
"""Steps: risers, goings, 2R + G and how even they are, beside what was drawn."""

from __future__ import annotations

import math

import numpy as np
import pytest

from plugin.core.errors import BadInput
from plugin.core.trade.lines import draw_line
from plugin.core.trade.steps import measure_steps
from plugin.core.trade.worth import PointWorth
from tests.trade_lines import drawn, moved, straight

EXACT = PointWorth(0.0)


def stair(risers, goings, overhang=0.0, start=(0.0, 0.0)):
    """Foot, nosing, foot, nosing ... going up east; nosings stand out over the feet."""
    x, z = start
    points = [(x - 1.0, 0, z), (x, 0, z)]
    for k, r in enumerate(risers):
        z += r
        points.append((x - overhang, 0, z))
        if k < len(goings):
            x += goings[k]
            points.append((x, 0, z))
    return straight(*points)


def values(quantities):
    return [q.value for q in quantities]


@pytest.mark.parametrize("overhang", [0.0, 0.02])
@pytest.mark.parametrize("way", [lambda s: s, lambda s: s.reversed()])
def test_risers_and_goings_are_those_drawn_up_and_down(overhang, way):
    risers, goings = [0.160, 0.165, 0.158], [0.300, 0.310]
    told = measure_steps(way(stair(risers, goings, overhang)), EXACT)
    (flight,) = told.flights
    assert values(flight.risers) == pytest.approx(risers, abs=1e-12)
    assert values(flight.goings) == pytest.approx(goings, abs=1e-12)
    assert values(flight.comfort) == pytest.approx([2 * 0.165 + 0.3, 2 * 0.158 + 0.31], abs=1e-12)
    assert flight.difference.value == pytest.approx(0.007, abs=1e-12)
    assert told.rise.value == pytest.approx(0.483, abs=1e-12)
    assert told.landings == ()
    assert told.method == "risers from foot to nosing, goings from nosing to nosing, landings beyond 0.9 m"


def test_a_long_tread_parts_two_flights():
    told = measure_steps(stair([0.15] * 2 + [0.17] * 2, [0.3, 1.4, 0.3]), EXACT)
    assert [values(f.risers) for f in told.flights] == [
        pytest.approx([0.15, 0.15]),
        pytest.approx([0.17, 0.17]),
    ]
    assert values(told.landings) == pytest.approx([1.4])
    # Within a flight they are even, though the flights are not alike.
    assert [f.difference.value for f in told.flights] == pytest.approx([0.0, 0.0], abs=1e-12)


def test_one_riser_has_no_going_and_no_difference():
    (flight,) = measure_steps(stair([0.15], []), EXACT).flights
    assert (flight.goings, flight.comfort, flight.difference) == ((), (), None)


def test_a_station_half_way_up_a_riser_is_a_part_of_it():
    line = straight((0, 0, 0), (1, 0, 0), (1, 0, 0.1), (1, 0, 0.17), (1.3, 0, 0.17), (1.3, 0, 0.34))
    assert values(measure_steps(line, EXACT).flights[0].risers) == pytest.approx([0.17, 0.17])


def test_treads_that_fall_to_drain_are_not_risers():
    line = straight((0, 0, 0), (0, 0, 0.16), (0.3, 0, 0.154), (0.3, 0, 0.314))
    (flight,) = measure_steps(line, EXACT).flights
    assert values(flight.risers) == pytest.approx([0.16, 0.16])


def test_moved_turned_and_mirrored_they_are_the_same():
    line = stair([0.16, 0.17], [0.3])
    for other in (moved(line, (1e7, -1e7, 250.0), 1.1), draw_line(line.points * [-1, 1, 1])):
        (flight,) = measure_steps(other, EXACT).flights
        assert values(flight.risers) == pytest.approx([0.16, 0.17], abs=1e-9)
        assert values(flight.goings) == pytest.approx([0.3], abs=1e-8)


def test_sigmas_are_those_of_draws():
    line, worth = stair([0.16, 0.17, 0.15], [0.3, 0.32], overhang=0.02), PointWorth(0.003, 0.003)
    (told,) = measure_steps(line, worth).flights
    draw, found = np.random.default_rng(6), []
    for _ in range(4000):
        (flight,) = measure_steps(drawn(line, 0.003, draw), EXACT).flights
        found.append(
            [flight.risers[1].value, flight.goings[0].value, flight.comfort[0].value, flight.difference.value]
        )
    sigma = [told.risers[1].sigma, told.goings[0].sigma, told.comfort[0].sigma, told.difference.sigma]
    assert sigma == pytest.approx(np.std(found, axis=0), rel=0.05)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        (
            straight((0, 0), (1, 0)),
            "The steps have no heights. Give each nosing and each foot of a riser one.",
        ),
        (
            straight((0, 0, 0), (1, 0, 0.16), (2, 0, 0.32)),
            (
                "No edge of the steps rises more than it runs, so that there is no riser. Walk a station at the foot of each "
                "riser and one on its nosing."
            ),
        ),
        (
            straight((0, 0, 0), (0, 0, 0.2), (1, 0, 0.2), (1, 0, 0.05)),
            "The steps go up and down: after 3 stations a riser goes down. Split the line at the top.",
        ),
        (
            straight((0, 0, 0), (0, 0, 0.2), (0.1, 0, 0.2), (0, 0, 0.4)),
            "Two nosings stand over each other. Correct their places in plan.",
        ),
    ],
)
def test_what_is_no_stair_is_refused(line, words):
    with pytest.raises(BadInput) as told:
        measure_steps(line, EXACT)
    assert str(told.value) == words


def test_a_hundred_thousand_steps_are_measured():
    count = 100_000
    told = measure_steps(stair([0.15] * count, [0.3] * (count - 1)), PointWorth(0.003, 0.003))
    assert len(told.flights[0].risers) == count
    assert told.rise.value == pytest.approx(0.15 * count)
    assert math.isclose(told.flights[0].comfort[-1].value, 0.6, rel_tol=1e-6)
