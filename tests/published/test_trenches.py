# SPDX-License-Identifier: GPL-2.0-or-later
"""Published prismoids as trenches whose sizes run evenly from one end to the other; a source beside each."""

from __future__ import annotations

import math

import pytest
from trade_lines import straight

from plugin.core.trade.along import between
from plugin.core.trade.cross_sections import Cross
from plugin.core.trade.trenches import TrenchSpec, measure_trench
from plugin.core.units import convert

FOOT = convert(1.0, "ft", "m")
FT2, YD3 = FOOT**2, (3.0 * FOOT) ** 3


def trench(cross, length, widths, depths, batter=0.0):
    """Widths and depths at both ends, metres."""
    ends = [0.0, length]
    spec = TrenchSpec(cross, between(ends, widths, 0.0), between(ends, depths, 0.0), batter=batter)
    return measure_trench(straight((0, 0), (length, 0)), spec, 0.0)


def test_vol_03_a_prismoid_of_1504_1860_and_2240_square_feet():
    """T. G. Hicks (ed.), Handbook of Civil Engineering Calculations, surveying section (VOL-03, seen): 100 ft long, 6904
    cubic yards. The book prints 5278.8 m3, converted from the rounded yards: 6903.70 yd3 are 5278.3 (negative), and the
    mean of the end areas alone gives 6933.3 (negative).

    A trapezoid w + 3 d wide in its middle, 4 ft deeper at its far end, has these three areas.
    """
    low = (172.0 - math.sqrt(172.0**2 - 12.0 * 1504.0)) / 6.0
    width, depths = 172.0 - 6.0 * low, (low, low + 4.0)
    areas = [(width + 3.0 * d) * d for d in (depths[0], low + 2.0, depths[1])]
    assert areas == pytest.approx([1504.0, 1860.0, 2240.0])
    told = trench(Cross.TRAPEZOID, 100 * FOOT, [width * FOOT] * 2, [d * FOOT for d in depths], 3.0)
    assert told.volume.value / YD3 == pytest.approx(6904, abs=0.5)
    assert told.volume.value / YD3 == pytest.approx(6903.7037037037035, rel=1e-12)
    assert told.volume.value == pytest.approx(5278.260204748801, rel=1e-9)
    assert abs(told.volume.value - 5278.8) > 0.3
    assert abs(told.volume.value / YD3 - 6933.3) > 20.0


def test_vol_14_triangular_sections_that_shrink_both_ways():
    """C = L/12 (c1-c2)(d1-d2): EARTHWORKS slides, scribd 444888112 (formula seen, numbers ours, VOL-14): the mean of the
    end areas gives 315, the prismoid 285."""
    told = trench(Cross.V, 30.0, [12.0, 6.0], [3.0, 1.0])
    assert told.volume.value == pytest.approx(285.0, rel=1e-6)
    average = 0.5 * (12 * 3 / 2 + 6 * 1 / 2) * 30.0
    assert average == pytest.approx(315.0, rel=1e-6)
    assert average - told.volume.value == pytest.approx(30.0 / 12.0 * (12 - 6) * (3 - 1), rel=1e-6)
