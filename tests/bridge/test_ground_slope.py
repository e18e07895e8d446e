# SPDX-License-Identifier: GPL-2.0-or-later
"""The way between two places on a surface, in words: closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest

from plugin.bridge.ground_slope import slope_rows
from plugin.bridge.survey_file import METRE, Unit
from plugin.core.errors import BadInput, TooFewPoints
from plugin.core.ground.gradient import Slope, slope_between
from plugin.core.ground.section import SectionCutter
from tests.made_surfaces import ground


def words(slope, unit=METRE):
    return {row.name: row.words for row in slope_rows(slope, unit)}


def test_from_corner_to_corner_every_way_of_telling_it_has_its_95_percent():
    """20 m along, falling 0.4: both ends are points of sigma 0.01, so the rise has root 2 of it, 1.96 times: 0.0277; the
    ratio a twentieth. 0.02 less and more 0.00139 is 1 in 53.7 and 1 in 46.8."""
    slope = slope_between(SectionCutter(ground()), np.array([0.0, -10.0]), np.array([20.0, -10.0]))
    assert words(slope) == {
        "Rise": "-0.400 ± 0.028 m",
        "Run": "20.000 m",
        "Slope length": "20.004 ± 0.001 m",
        "Gradient": "1 in 50 down (1 in 46.8 to 1 in 53.7)",
        "Percent": "-2.00 ± 0.14 %",
        "Degrees": "-1.15 ± 0.08 °",
        "Inches per foot": "-0.240 ± 0.017 in/ft",
    }


def test_the_other_way_it_rises():
    slope = slope_between(SectionCutter(ground()), np.array([20.0, -10.0]), np.array([0.0, -10.0]))
    told = words(slope)
    assert told["Rise"] == "+0.400 ± 0.028 m"
    assert told["Gradient"].startswith("1 in 50 up (")


def test_feet_change_lengths_and_no_gradient():
    told = words(Slope(-0.3048, 3.048, 0.003048), Unit("ft", 0.3048))
    assert (told["Rise"], told["Run"]) == ("-1.000 ± 0.020 ft", "10.000 ft")
    assert told["Percent"] == "-10.00 ± 0.20 %"


def test_where_level_is_within_reach_no_interval_of_n_is_told():
    rows = {row.name: row for row in slope_rows(Slope(0.01, 10.0, 0.02), METRE)}
    assert rows["Gradient"].words == "1 in 1000 up"
    assert rows["Gradient"].tip == "Rise by run. Level lies within its 95 %: which way it falls is not sure."


def test_level_upright_and_unknown_are_words():
    assert words(Slope(0.0, 10.0, 0.01))["Gradient"] == "level"
    upright = words(Slope(2.0, 0.0, 0.01))
    assert (upright["Gradient"], upright["Percent"]) == ("upright", "none: upright")
    assert upright["Degrees"].startswith("+90.00")
    assert words(Slope(-0.4, 20.0, math.nan))["Rise"] == "-0.400 m"


def test_a_place_beyond_the_surface_is_refused():
    cutter = SectionCutter(ground())
    with pytest.raises(BadInput, match="The surface does not reach x 30.000, y 0.000 of the survey plane"):
        slope_between(cutter, np.array([5.0, 0.0]), np.array([30.0, 0.0]))
    with pytest.raises(TooFewPoints):
        slope_between(cutter, np.array([5.0, 0.0]), np.array([5.0, 0.0]))
