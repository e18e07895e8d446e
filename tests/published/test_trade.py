# SPDX-License-Identifier: GPL-2.0-or-later
"""Published figures of strips, slabs, walls and planting, to their printed digits; a source beside each.

Keys are those of the project's collection of check values. Values marked "computed" are not published; they are closed
forms, asserted to 1e-6 relative. Misprints are negative tests: ours is not that.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from trade_lines import arc, box, circle, straight

from plugin.core.quantity import Quantity
from plugin.core.trade.faces import profile_face
from plugin.core.trade.lines import draw_line
from plugin.core.trade.order import order_up
from plugin.core.trade.planting import PlantingSpec, plant_bed
from plugin.core.trade.slabs import SlabSpec, measure_slab
from plugin.core.trade.strips import bending, fit_units, offset_line, swept
from plugin.core.trade.walls import WallSpec, measure_wall, units_for_face
from plugin.core.units import convert

FOOT, INCH = convert(1.0, "ft", "m"), convert(1.0, "in", "m")
YARD3 = (3 * FOOT) ** 3
POUND = 0.45359237
"""Kilograms: exact by definition."""


def strip_area(line, width):
    """A strip of one width to the right of a line: its width by its centre's length."""
    return width * swept(line, -0.5 * width, np.ones(len(line.half)), np.ones(len(line.corners[0])))


def slab_of(area, thickness):
    """A slab of an area, the outline a square."""
    return measure_slab(
        [box(math.sqrt(area), math.sqrt(area))], Quantity(area, 0.0, "m2"), SlabSpec(thickness), 0.0
    ).concrete.value


def track(radius, straights):
    """Two straights and two half circles, anticlockwise."""
    r, s = radius, straights
    points = [(0, -r), (s, -r), (s + r, 0), (s, r), (0, r), (-r, 0), (0, -r)]
    return draw_line(
        np.array([[*p, np.nan] for p in points]), np.array([False, False, True, False, False, True, False])
    )


def test_spt_01_and_02_lanes_are_strips_of_the_kerb():
    """A printed 400 m track marking sheet (seen); lane lengths posted by the measurer of Angell Field (seen)."""
    kerb = track(36.5, 84.39)
    first = offset_line(kerb, -0.3).length
    assert first == pytest.approx(400.0, abs=0.01)
    for lane, length in {2: 407.037, 3: 414.703, 4: 422.368, 5: 430.034}.items():
        out = 1.22 * (lane - 1) + 0.2
        assert 400.0 + offset_line(kerb, -out).length - first == pytest.approx(length, abs=6e-4)


def test_spt_05_the_wrong_staggers_are_not_ours():
    """Web tables that forget the 0.30 and 0.20 m of the first two lanes (negative)."""
    kerb = track(36.5, 84.39)
    for lane, wrong in ((2, 7.67), (6, 38.33), (8, 53.66)):
        out = 1.22 * (lane - 1) + 0.2
        stagger = offset_line(kerb, -out).length - offset_line(kerb, -0.3).length
        assert stagger == pytest.approx(2 * math.pi * (out - 0.3), rel=1e-12)
        assert abs(stagger - wrong) > 0.5


def test_spt_07_eight_lanes_are_a_strip():
    """Inputs from the same sheet; outputs computed."""
    kerb = track(36.5, 84.39)
    assert strip_area(kerb, 8 * 1.22) == pytest.approx(4184.87531018825, rel=1e-6)
    assert offset_line(kerb, -8 * 1.22).length == pytest.approx(459.4401523101277, rel=1e-6)


def test_arc_04_an_arc_of_30_degrees():
    """F. A. Griffiths, The Artillerist's Manual (scan p. 376, seen); printed with .01745."""
    assert offset_line(arc(9.0, math.radians(30)), 0.0).length == pytest.approx(4.7115, abs=0.001)


def test_arc_02_the_broken_plates_arc():
    """MathAss help, Circular Sections, chord 21 and rise 6 (seen)."""
    line = draw_line(np.array([[0, 0, 0], [10.5, 0, 6], [21, 0, 0]], float), np.array([False, True, False]))
    # Upright: the same arc in a vertical plane.
    assert profile_face(line, 1.0, 0.0).length.value == pytest.approx(25.308373, abs=6e-7)


@pytest.mark.parametrize(
    ("radius", "width", "printed", "within"),
    [
        (
            1.5,
            3.5,
            71.4714,
            0.001,
        ),  # ARC-07: NAVEDTRA 14119, mensuration table, D 10 and d 3, printed with 0.7854 (seen)
        (60.0, 3.5, 1358.5 * math.pi / (22 / 7), 1e-6),  # ARC-10: kwiznet.com example 3.40, with 22/7 (seen)
        (
            180.0,
            14.0,
            16451.512 * math.pi / 3.142,
            1e-6,
        ),  # ARC-12: byjus.com annulus, in cm, with 3.142 (seen)
    ],
)
def test_paths_round_a_circle(radius, width, printed, within):
    assert strip_area(circle(radius), width) == pytest.approx(printed, abs=within)


def test_arc_09_a_misprinted_path_is_not_ours():
    """challengerapp.in worked answer (seen): 57 pi is 179.07; it prints 179.09 (negative)."""
    area = strip_area(circle(8.0), 3.0)
    assert area == pytest.approx(179.0707812546182, rel=1e-9)
    assert abs(area - 179.09) > 0.01


def test_the_turning_of_a_closed_line_is_a_whole_turn():
    assert bending(circle(3.0)) == pytest.approx(2 * math.pi)
    assert bending(track(3.0, 5.0)) == pytest.approx(2 * math.pi)


def test_mat_01_what_a_cubic_yard_covers():
    """Printed US home-improvement cost book 2018 p. 42; L&L Redi-Mix tip sheet (seen). Seven inches is truncated there."""
    printed = {1: 324, 2: 162, 3: 108, 4: 81, 5: 64.8, 6: 54, 8: 40.5}
    for inches, area in printed.items():
        assert slab_of(area * FOOT**2, inches * INCH) / YARD3 == pytest.approx(1.0, abs=0.05 / area)
    covered = YARD3 / (7 * INCH) / FOOT**2
    assert covered == pytest.approx(46.285714, rel=1e-6)
    assert slab_of(covered * FOOT**2, 7 * INCH) == pytest.approx(YARD3)
    assert abs(covered - 46.2) > 0.05


def test_mat_03_beds_of_topsoil():
    """danihertopsoil.com examples (seen): 12 x 14 ft, 4 in deep; round, 12 ft across its radius, 6 in deep."""
    spec = PlantingSpec(mulch=4 * INCH)
    square = plant_bed([box(12 * FOOT, 14 * FOOT)], Quantity(168 * FOOT**2, 0.0, "m2"), spec)
    assert square.mulch.value / YARD3 == pytest.approx(2.07, abs=0.006)
    spec = PlantingSpec(mulch=6 * INCH)
    round_bed = plant_bed([circle(12 * FOOT)], Quantity(math.pi * (12 * FOOT) ** 2, 0.0, "m2"), spec)
    assert round_bed.mulch.value / YARD3 == pytest.approx(8.38, abs=0.006)


def test_mat_05_a_slab_of_10_by_10_feet():
    """Several public pages (seen); those that round 4 in to 0.33 ft get 1.22 yd3 (negative)."""
    volume = slab_of(100 * FOOT**2, 4 * INCH)
    assert volume / FOOT**3 == pytest.approx(33.3, abs=0.05)
    assert volume / YARD3 == pytest.approx(1.2345679, rel=1e-6)
    assert abs(volume / YARD3 - 1.22) > 0.01


def test_mat_06_a_foundation_with_waste():
    """Contractor exam question, estatepass.ai (seen): 120 x 80 x 2 ft, 8 %."""
    spec = SlabSpec(2 * FOOT, waste=0.08)
    area = Quantity(120 * 80 * FOOT**2, 0.0, "m2")
    slab = measure_slab([box(120 * FOOT, 80 * FOOT)], area, spec, 0.0)
    assert slab.concrete.value / YARD3 == pytest.approx(711.11, abs=0.005)
    assert slab.ordered / YARD3 == pytest.approx(768, abs=0.01)


def test_mat_07_concrete_is_ordered_by_its_step():
    """llredimix.com: half yards, one yard at least (seen); 20 x 20 ft at 4 in with 10 % (computed)."""
    net = slab_of(400 * FOOT**2, 4 * INCH) / YARD3
    assert net == pytest.approx(4.938271604938271, rel=1e-6)
    assert order_up(net, 0.1) == pytest.approx(5.432098765432099, rel=1e-6)
    assert order_up(net, 0.1, 0.5, 1.0) == 5.5
    assert order_up(0.1, 0.1, 0.5, 1.0) == 1.0
    assert order_up(5.5000000001, 0.0, 0.5) == 5.5


def test_mat_08_and_14_slabs_of_4_inches():
    """The same cost book (seen): 420 ft2 with 5 %. pt.411answers.com (negative): 200 ft2 are 66.67 ft3, it prints 50."""
    net = slab_of(420 * FOOT**2, 4 * INCH) / YARD3
    assert net == pytest.approx(5.18, abs=0.006)
    assert order_up(net, 0.05) == pytest.approx(5.44, abs=0.006)
    other = slab_of(200 * FOOT**2, 4 * INCH) / FOOT**3
    assert other == pytest.approx(66.66666666666667, rel=1e-9)
    assert abs(other - 50) > 10


def test_mat_15_bricks_and_blocks_of_a_square_metre():
    """Common UK figures (reference.com; a brick calculator sheet, seen): 60 and 10 in round numbers."""
    assert units_for_face(1.0, (0.215, 0.065), 0.010) == pytest.approx(59.25925925925926, rel=1e-9)
    assert units_for_face(1.0, (0.450, 0.215), 0.010) == pytest.approx(9.66183574879227, rel=1e-9)
    assert units_for_face(1.0, (0.440, 0.215), 0.010) == pytest.approx(9.876543209876543, rel=1e-9)


def test_mat_17_seed_by_what_is_alive():
    """Cornell University, safe sports fields (seen): pure live seed = purity x germination, 0.95 x 0.85 = 0.81."""
    live = 0.95 * 0.85
    assert live == pytest.approx(0.81, abs=0.005)
    rate = 6 * POUND * 1000 / (1000 * FOOT**2)
    assert rate == pytest.approx(6 * 4.88242763638305, rel=1e-9)
    bed = plant_bed([box(10, 4)], Quantity(40.0, 0.0, "m2"), PlantingSpec(seed=rate, live=live))
    assert bed.seed.value == pytest.approx(40 * 6 * 4.88242763638305 / 1000 / 0.8075, rel=1e-9)


def test_mat_24_kerbs_of_915_mm():
    """Common practice, no source (memory): 25 m take 28."""
    assert fit_units(straight((0, 0), (25, 0)), 0.0, 0.915).straight_units == 28


def test_boq_03_a_thickness_is_not_rounded_first():
    """Convert and multiply at full precision, round once: a wall of 8 in by 4 ft by 30 ft."""
    wall = measure_wall(
        straight((0, 0), (30 * FOOT, 0)), None, WallSpec(thickness=8 * INCH, height=4 * FOOT), 0.0
    )
    assert wall.body.value / FOOT**3 == pytest.approx(80.0, rel=1e-12)
