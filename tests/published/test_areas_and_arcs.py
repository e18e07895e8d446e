# SPDX-License-Identifier: GPL-2.0-or-later
"""Published areas, arcs, sports grounds and uncertainties, to their printed digits; a source beside each.

Keys are those of the project's collection of check values. "Memory" tells that the figure was given from memory
of the source. Values marked "computed" are not published; they are closed forms, asserted to 1e-6 relative.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from fake_positions import FakePositions, trail, walk_of

from plugin.core.findings import Decisions
from plugin.core.measure.shapes import measure_shapes
from plugin.core.segments import Curve, path_length, ring_area, slope_length
from plugin.core.shape.features import shape_features

ACRE_FT2 = 43560.0


def ring(xy, sweeps=None):
    points = np.column_stack([np.array([*xy, xy[0]], float), np.full(len(xy) + 1, np.nan)])
    return Curve(points, np.tan(np.array(sweeps if sweeps is not None else [0.0] * len(xy)) / 4))


def box(a, b):
    return ring([(0, 0), (a, 0), (a, b), (0, b)])


def circle(radius):
    return ring([(radius, 0), (-radius, 0)], [math.pi, math.pi])


def stadium(radius, straight):
    """Two straights and two half circles."""
    corners = [(0, -radius), (straight, -radius), (straight, radius), (0, radius)]
    return ring(corners, [0, math.pi, 0, math.pi])


def segment(radius, sweep):
    """Between an arc and its chord."""
    ends = [(radius * math.cos(a), radius * math.sin(a)) for a in (-sweep / 2, sweep / 2)]
    return ring(ends, [sweep, 0.0])


def sector(radius, sweep):
    ends = [(radius * math.cos(a), radius * math.sin(a)) for a in (-sweep / 2, sweep / 2)]
    return ring([(0, 0), *ends], [0, sweep, 0])


def shaped(rows, covariance=None):
    walk = walk_of(rows)
    positions = FakePositions([walk], covariance)
    shapes, findings = shape_features(positions, Decisions())
    return findings, measure_shapes(shapes, positions, site="s", sigma_from={})


def test_t4_01_area_of_a_traverse_from_coordinates():
    """Mahun, open-access surveying course, Traverse Computations ch. G, Example 1 (seen)."""
    north_east = [(500.0, 2000.0), (323.614, 1561.426), (526.996, 1488.321), (719.336, 1686.956)]
    area = abs(ring_area(ring([(e, n) for n, e in north_east])))
    # Half the difference of the two published columns of cross products, each printed to 0.1.
    assert area == pytest.approx(102935.75, abs=1.5)
    assert area / ACRE_FT2 == pytest.approx(2.36308, abs=4e-5)


def test_t4_04_a_square_moved_by_1e8_keeps_its_area():
    """Karney, Boost bug report 11928, 2016 (seen): the plain sum of cross products gives 0 there."""
    near = [(1, 0), (0, 1), (-1, 0), (0, -1)]
    far = [(100000001, 100000000), (100000000, 100000001), (99999999, 100000000), (100000000, 99999999)]
    assert ring_area(ring(near)) == pytest.approx(2.0, abs=1e-12)
    assert ring_area(ring(far)) == pytest.approx(2.0, abs=1e-12)


def test_t4_05_a_ring_that_crosses_itself_is_refused_and_not_given_its_shoelace_area():
    """Five state-plane points from a newsgroup thread quoting Wolf & Brinker, 9th ed., p. 274 (seen)."""
    north_east = [
        (60320.528, 1395020.737), (60560.076, 1399870.961), (56300.124, 1397560.85), (57867.993, 1401028.295),
        (58670.873, 1397840.621),
    ]  # fmt: skip
    xy = [(e, n) for n, e in north_east]
    findings, _ = shaped(trail("Lot", xy))
    assert "GE-01" in [finding.code for finding in findings]
    assert abs(ring_area(ring(xy))) == pytest.approx(2589889, abs=1.0), "the number that must not be issued"


def test_t8_02_uncertainty_of_a_rectangle():
    """Forum worked example, a lot of 339.21 by 563.67 ft (seen): u^2 = (b ua)^2 + (a ub)^2."""
    a, ua, b, ub = 339.21, 0.05, 563.67, 0.09
    corners = [(0, 0), (a, 0), (a, b), (0, b), (0, 0)]
    # One error for all that lies at x = a, one for all at y = b.
    right = np.array([(x == a, 0.0) for x, _ in corners], float).ravel() * ua
    top = np.array([(0.0, y == b) for _, y in corners], float).ravel() * ub
    _, rows = shaped(trail("Lot", corners), np.outer(right, right) + np.outer(top, top))
    area = rows.areas[0].area
    assert area.value == pytest.approx(191202, abs=1)
    assert area.value / ACRE_FT2 == pytest.approx(4.389, abs=6e-4)
    assert area.sigma == pytest.approx(41.5, abs=0.1)


def test_t6_12_a_misprinted_curve_length_is_not_met():
    """Homework answer page, R 420 m, 71 deg 39' (seen): it prints L = 630.266, pi R d/180 is 525.22."""
    arc = segment(420.0, math.radians(71.65))
    length = path_length(Curve(arc.points[:2], arc.bulge[:1]))
    assert length == pytest.approx(525.22, abs=0.02)
    assert length != pytest.approx(630.266, abs=1)


def test_spt_01_lap_of_a_400_m_track():
    """A printed 400 m track marking sheet; R 36.80 m also in US track builders' guidance (seen)."""
    lap = stadium(36.5 + 0.3, 84.39)
    assert path_length(lap) == pytest.approx(400.0, abs=0.01)
    bend = Curve(lap.points[1:3], lap.bulge[1:2])
    assert path_length(bend) == pytest.approx(115.61, abs=0.005)


def test_spt_02_lane_lengths_and_spt_05_the_wrong_staggers():
    """Lane lengths posted by the measurer of Angell Field (seen); SPT-05: web tables that forget that lane 1 is
    measured 0.30 m out and the others 0.20 m (negative)."""
    published = {2: 407.037, 3: 414.703, 4: 422.368, 5: 430.034}
    first = path_length(stadium(36.8, 84.39))
    for lane, length in published.items():
        # Told with a first lane of 400 m to the digit; by its radius it is 400.0012.
        longer = path_length(stadium(36.5 + 1.22 * (lane - 1) + 0.2, 84.39)) - first
        assert 400.0 + longer == pytest.approx(length, abs=6e-4)
    for lane, wrong, right in ((2, 7.67, 7.037167544), (6, 38.33, 37.699111843), (8, 53.66, 53.030083993)):
        stagger = path_length(stadium(36.5 + 1.22 * (lane - 1) + 0.2, 84.39)) - first
        assert stagger == pytest.approx(right, rel=1e-6)
        assert stagger != pytest.approx(wrong, abs=0.1)


def test_spt_04_kerb_line_of_the_track_walked_with_curves():
    """Perimeter 398.12 m printed in a public repository's comment (seen); the area is computed."""
    r, s = 36.5, 84.39
    points = [(0, -r), (s, -r), (s + r, 0), (s, r), (0, r), (-r, 0), (0, -r)]
    findings, rows = shaped(trail("Track", points, ["", "", "curve", "curve-end", "", "curve", "curve-end"]))
    assert findings == ()
    assert rows.areas[0].perimeter.value == pytest.approx(398.12, abs=0.005)
    assert rows.areas[0].area.value == pytest.approx(10345.856812745002, rel=1e-9)


def test_spt_07_surface_of_eight_lanes_round_the_kerb():
    """Inputs from the same marking sheet; outputs computed."""
    outer = stadium(36.5 + 8 * 1.22, 84.39)
    assert ring_area(outer) - ring_area(stadium(36.5, 84.39)) == pytest.approx(4184.87531018825, rel=1e-6)
    assert path_length(outer) == pytest.approx(459.4401523101277, rel=1e-6)


def test_spt_08_10_11_football_pitch_and_its_markings():
    """IFAB Laws of the Game, Law 1 (seen); pitch 105 by 68 m from memory; areas computed."""
    posts = np.array([(0, 0, 0), (16.5, 0, 0), (16.5 + 7.32, 0, 0), (2 * 16.5 + 7.32, 0, 0)])
    assert path_length(Curve(posts, np.zeros(3))) == pytest.approx(40.32, abs=0.005)
    assert ring_area(box(40.32, 16.5)) == pytest.approx(665.28, rel=1e-6)
    assert ring_area(box(18.32, 5.5)) == pytest.approx(100.76, rel=1e-6)
    assert path_length(circle(9.15)) == pytest.approx(57.49114556069322, rel=1e-6)
    assert ring_area(circle(9.15)) == pytest.approx(263.02199094017146, rel=1e-6)
    assert (ring_area(box(105, 68)), path_length(box(105, 68))) == pytest.approx((7140, 346), abs=1e-9)


def test_spt_12_netball_court_and_the_area_converted_after_rounding():
    """A buyers' guide to netball courts (seen); it prints 5006.62 ft2, converted from the rounded 465.13 m2."""
    court = box(30.5, 15.25)
    assert path_length(court) == pytest.approx(91.5, abs=1e-9)
    assert path_length(court) / 0.3048 == pytest.approx(300.2, abs=0.005)
    assert ring_area(court) == pytest.approx(465.13, abs=0.006)
    assert ring_area(court) / 0.3048**2 == pytest.approx(5006.563832572109, rel=1e-6)
    assert ring_area(court) / 0.3048**2 != pytest.approx(5006.62, abs=0.02)


def test_spt_14_tennis_court_and_its_diagonals():
    """A sports marking guide (seen); it prints 16.18 for 16.174 m."""
    half = 23.77 / 2
    assert path_length(Curve(np.array([(0, 0, 0), (half, 8.23, 0.0)]), np.zeros(1))) == pytest.approx(
        14.46, abs=0.006
    )
    diagonal = path_length(Curve(np.array([(0, 0, 0), (half, 10.97, 0.0)]), np.zeros(1)))
    assert diagonal == pytest.approx(16.173871676256123, rel=1e-6)
    assert diagonal != pytest.approx(16.18, abs=0.005)
    court = box(23.77, 10.97)
    assert (ring_area(court), path_length(court)) == pytest.approx((260.7569, 69.48), rel=1e-6)


def three_point_line(radius, half_width, basket):
    """Straight, arc about the basket, straight; walked along the court from corner to corner."""
    reach = math.sqrt(radius**2 - half_width**2)
    x = basket + reach
    points = [(0, -half_width), (x, -half_width), (basket + radius, 0), (x, half_width), (0, half_width)]
    return x, trail("Line", points, ["", "", "curve", "curve-end", ""])


def test_spt_15_three_point_line_with_a_true_corner_where_arc_and_straight_meet():
    """FIBA rules art. 2: 6.75 and 6.60 m seen, 1.575 and 2.99 m from memory; the rest computed."""
    straight, rows = three_point_line(6.75, 6.6, 1.575)
    assert straight == pytest.approx(2.99, abs=0.005)
    _, out = shaped(rows)
    arc = out.sides[1]
    assert math.degrees(arc.sweep.value) == pytest.approx(155.797015936353, rel=1e-6)
    assert arc.length.value == pytest.approx(18.354403526882194, rel=1e-6)
    assert sum(side.length.value for side in out.sides[:3]) == pytest.approx(24.33459786649918, rel=1e-6)
    assert out.areas[0].area.value == pytest.approx(92.07575322396346, rel=1e-6)


def test_spt_16_an_arc_of_roughly_120_degrees_is_135():
    """Rule text quoted by an encyclopaedia (seen): 14 ft is rounded, "roughly 120" degrees is wrong."""
    straight, rows = three_point_line(23.75, 22.0, 5.25)
    assert straight == pytest.approx(14, abs=0.25)
    _, out = shaped(rows)
    assert math.degrees(out.sides[1].sweep.value) == pytest.approx(135.73521719704866, rel=1e-6)
    assert out.sides[1].length.value == pytest.approx(56.26437821120553, rel=1e-6)
    assert math.degrees(out.sides[1].sweep.value) != pytest.approx(120, abs=5)


def test_spt_18_baseball_infield():
    """Official Baseball Rules 2.01 (seen): 127 ft 3 3/8 in, and 1 inch to 1 foot for the mound."""
    diagonal = Curve(np.array([(0, 0, 0), (90, 90, 0.0)]), np.zeros(1))
    assert path_length(diagonal) == pytest.approx(127.28125, abs=1 / 16 / 12)
    _, rows = shaped(trail("Mound", [(0, 0, 10 / 12), (6, 0, 4 / 12)], geometry="length"))
    assert rows.lengths[0].gradient.value * -100 == pytest.approx(8.33, abs=0.005)
    assert ring_area(box(90, 90)) == pytest.approx(8100, rel=1e-12)


def test_arc_02_chord_and_rise():
    """MathAss help, Circular Sections (seen): chord 21, rise 6."""
    findings, rows = shaped(trail("Plate", [(0, 0), (10.5, -6), (21, 0)], ["", "curve", "curve-end"]))
    assert [finding.code for finding in findings] == ["CL-02"]
    side = rows.sides[0]
    assert side.radius.value == pytest.approx(12.1875, abs=1e-9)
    assert math.degrees(side.sweep.value) == pytest.approx(118.97953, abs=6e-6)
    assert side.length.value == pytest.approx(25.308373, abs=6e-7)
    assert rows.areas[0].area.value == pytest.approx(89.254148, abs=6e-7)
    assert ring_area(sector(side.radius.value, side.sweep.value)) == pytest.approx(154.2229, abs=6e-5)


def test_arc_04_and_05_arcs_and_sectors_of_an_old_manual():
    """Griffiths, The Artillerist's Manual, p. 376 (seen); the arc was printed with .01745."""
    arc = segment(9.0, math.radians(30))
    assert path_length(Curve(arc.points[:2], arc.bulge[:1])) == pytest.approx(4.7115, abs=0.001)
    assert ring_area(sector(30.0, 36.6 / 30.0)) == pytest.approx(549, abs=1e-9)


def test_arc_07_09_10_12_rings_between_two_circles():
    """NAVEDTRA 14119 mensuration table, printed with 0.7854; ARC-09 a worked answer that prints 179.09 for 57 pi;
    ARC-10 kwiznet example 3.40 with 22/7; ARC-12 a course page with 3.142 (all seen)."""

    def between(outer, inner):
        return ring_area(circle(outer)) - ring_area(circle(inner))

    assert between(5.0, 1.5) == pytest.approx(71.4714, abs=0.001)
    assert between(11, 8) == pytest.approx(179.0707812546182, rel=1e-6)
    assert between(11, 8) != pytest.approx(179.09, abs=0.006)
    assert between(63.5, 60) == pytest.approx(1357.953424514188, rel=1e-6)
    assert between(63.5, 60) / math.pi * 22 / 7 == pytest.approx(1358.5, abs=1e-6)
    assert between(194, 180) / math.pi * 3.142 == pytest.approx(16451, abs=1)


def test_arc_13_a_lot_with_one_side_an_arc_and_a_misprinted_segment():
    """Course notes "Areas of irregular boundaries" (seen): they print a segment of 5214 and a total of 235465.3;
    chord 487.52 and rise 15 give 4879."""

    def step(bearing_ns, deg, minutes, bearing_ew, length):
        a = math.radians(deg + minutes / 60)
        return np.round([bearing_ew * length * math.sin(a), bearing_ns * length * math.cos(a)], 2)

    moves = [np.array([-486.95, -23.52]), step(-1, 20, 0, -1, 330.0), step(-1, 30, 0, 1, 351.98),
             step(1, 45, 0, 1, 400.0), step(1, 0, 0, 1, 200.0), np.array([293.87, 54.46])]  # fmt: skip
    corners = np.vstack([np.zeros(2), np.cumsum(moves, axis=0)])
    chord = moves[0]
    outward = np.array([chord[1], -chord[0]]) / np.hypot(*chord)
    straight = ring(corners)
    outward = outward * (1.0 if ring_area(straight) > 0 else -1.0)
    points = [corners[0], corners[0] + chord / 2 + 15 * outward, *corners[1:]]
    _, rows = shaped(trail("Lot", [tuple(p) for p in points], ["", "curve", "curve-end"]))
    total = rows.areas[0].area.value
    assert abs(ring_area(straight)) == pytest.approx(230224.7789, rel=1e-6)
    assert total - abs(ring_area(straight)) == pytest.approx(4878.867026007576, rel=1e-6)
    assert total == pytest.approx(235103.64592600762, rel=1e-6)
    assert total != pytest.approx(235465.3, abs=15)
    assert rows.sides[0].radius.value == pytest.approx(1988.1124408333333, rel=1e-6)


@pytest.mark.parametrize(
    ("given", "published"),
    [
        ((2, 75, 3840.23), (2864.79, 2198.23, 1642.00, 5392.00)),
        ((15, 45, 1800.0), (381.97, 158.22, 1641.78, 1941.78)),
    ],
    ids=["ARC-14", "ARC-17"],
)
def test_arc_14_and_17_simple_curves_by_degree(given, published):
    """ARC-14 a homework choice set, the options that fit (seen); ARC-17 US Army FM 5-233 ch. 3 (memory)."""
    degree, deflection, pi = given
    r, sweep = 100 / math.radians(degree), math.radians(deflection)
    points = [(0, 0), (r * math.sin(sweep / 3), r * (1 - math.cos(sweep / 3))),
              (r * math.sin(sweep), r * (1 - math.cos(sweep)))]  # fmt: skip
    _, rows = shaped(trail("Curve", points, ["", "curve", "curve-end"]))
    side = rows.sides[0]
    t = side.radius.value * math.tan(side.sweep.value / 2)
    found = (side.radius.value, t, pi - t, pi - t + side.length.value)
    assert found == pytest.approx(published, abs=0.006)


def test_arc_19_a_circle_of_straights_comes_out_small_and_an_arc_does_not():
    """Arithmetic, computed: n points joined straight lose 1 - n/(2 pi) sin(2 pi/n) of the area."""
    lost = {8: 9.968368384289395, 12: 4.507034144862809, 24: 1.1384070534630863, 36: 0.5069229954701382}
    for n, percent in lost.items():
        angle = 2 * math.pi * np.arange(n + 1) / n
        points = [(2 * math.cos(a), 2 * math.sin(a)) for a in angle]
        _, straight = shaped(trail("Ring", points))
        _, curved = shaped(trail("Ring", points, ["", *["curve"] * (n - 1), "curve-end"]))
        whole = math.pi * 4
        assert 100 * (1 - straight.areas[0].area.value / whole) == pytest.approx(percent, rel=1e-6)
        assert curved.areas[0].area.value == pytest.approx(whole, rel=1e-12)


def test_are_01_and_02_areas_by_offsets_are_those_of_their_outline():
    """Course notes "Area by offsets from a straight line" and ITCM 410 slides (seen), the trapezoidal results."""
    heights = [0.8, 3.6, 4.7, 5.3, 3.9, 2.7, 4.6, 5.5, 4.9, 7.6, 8.8, 5.4, 6.0]
    outline = [(0, 0), (3.5 * 12, 0), *((3.5 * k, h) for k, h in reversed(list(enumerate(heights))))]
    assert ring_area(ring(outline)) == pytest.approx(211.4, abs=0.005)
    along = np.concatenate([[0], np.cumsum([60, 80, 100, 30, 105, 60])])
    heights = [7.2, 11.9, 14.4, 6.0, 6.1, 11.8, 12.4]
    outline = [(0, 0), (along[-1], 0), *zip(along[::-1], heights[::-1])]
    assert ring_area(ring(outline)) == pytest.approx(4492, abs=0.5)


def test_are_04_a_river_lot_by_simpson_is_the_outline_of_its_parabolas():
    """Course notes "Module 4 B" (seen; the order of the offsets is rebuilt from its odd and even sums): 48.53 by Simpson's
    rule, 49.93 m2 with the triangle at its corner. Simpson's rule is the area under parabolas through three offsets each;
    chords of the width d lie within d2 / 12 of the second derivative of it by metre, here 2e-6 m2 in all."""
    offsets, spacing, parts = [1.4, 3.0, 1.8, 1.7, 1.5, 2.4, 0.0], 4.0, 4_000
    bank = []
    for first in (0, 2, 4):
        three = np.polyfit([0, 1, 2], offsets[first : first + 3], 2)
        along = np.linspace(0, 2, parts + 1)
        bank += list(zip(spacing * (first + along), np.polyval(three, along)))
    x, y = np.array(bank).T
    area = ring_area(ring([(24, 0), *zip(x[::-1], y[::-1]), (0, 0)]))
    corner = abs(ring_area(ring([(0, 0), (-2, 0), (0, 1.4)])))
    assert abs(area) == pytest.approx(48.53, abs=0.006)
    assert abs(area) == pytest.approx(48.53333333333333, abs=2e-6)
    assert corner == pytest.approx(1.4, abs=1e-12)
    assert abs(area) + corner == pytest.approx(49.93, abs=0.006)
    # The notes speak of an interval of 2 m and multiply by 4/3: at 2 m it would be half.
    assert abs(area) / 2 != pytest.approx(48.53, abs=0.006)


def test_are_08_a_parcel_in_survey_feet_and_what_the_wrong_foot_makes_of_it():
    """PostGIS manual, ST_Area examples (seen). EPSG:2249 is in US survey feet: 0.3048^2 is 4 ppm low."""
    area = abs(
        ring_area(ring([(743238, 2967416), (743238, 2967450), (743265, 2967450), (743265.625, 2967416)]))
    )
    assert area == pytest.approx(928.625, abs=1e-9)
    assert area * 0.3048**2 == pytest.approx(86.27208552, abs=1e-8)
    # The transform's area holds the map's scale besides; in survey feet it comes within 1e-5 m2 of it.
    assert area * (1200 / 3937) ** 2 == pytest.approx(86.272430607, abs=1e-5)


def test_are_09_length_along_the_slope():
    """PostGIS manual, ST_3DLength example (seen)."""
    points = [
        (743238, 2967416, 1),
        (743238, 2967450, 1),
        (743265, 2967450, 3),
        (743265.625, 2967416, 3),
        (743238, 2967416, 3),
    ]
    curve = Curve(np.array(points, float), np.zeros(4))
    assert slope_length(curve) == pytest.approx(122.704716741457, abs=1e-9)
    assert path_length(curve) == pytest.approx(122.63074400009504, rel=1e-6)


def test_are_10_a_tapering_drive():
    """Printed US home-improvement cost book, 2018, p. 42 (seen): it says 22 ft, adds 20, and prints 420."""
    area = ring_area(ring([(0, 0), (30, 0), (30, 8), (0, 22)]))
    assert area == pytest.approx(450.0, rel=1e-12)
    assert area != pytest.approx(420, abs=0.5)
