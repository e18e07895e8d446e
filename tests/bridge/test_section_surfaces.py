# SPDX-License-Identifier: GPL-2.0-or-later
"""Surfaces along a drawn line: levels, cut and fill between two, gaps, and what is said at a place."""

from __future__ import annotations

import math
import time
from dataclasses import replace

import numpy as np
import pytest

from plugin.bridge.geopackage import write_survey
from plugin.bridge.section import draw_section, read_ground, with_surfaces
from plugin.bridge.section_surfaces import LaidSurface, cut_surfaces, plain_surface
from plugin.bridge.survey_file import METRE, Unit
from plugin.core.measure.rows import SurfaceRow
from tests.made_surfaces import ground, level, plain
from tests.made_survey import made_survey

FOOT = Unit("ft", 0.3048)
ALONG = np.array([(0.0, 3.0), (20.0, 3.0)])


def same(xy):
    return np.asarray(xy, float)


def laid(surface, name="ground"):
    return LaidSurface(name, surface, same)


def pair(line=ALONG, unit=METRE):
    return cut_surfaces([laid(ground()), laid(level(), "finished")], line, unit, is_pair=True)


def test_the_ground_is_cut_in_the_west_and_filled_in_the_east():
    """Depth 0.2 - 0.02 x: a triangle of 10 by 0.2 on either side of x = 10, 1 m2 each."""
    cuts = pair()
    assert [band.is_cut for band in cuts.bands] == [True, False]
    cut, fill = cuts.bands
    assert (cut.along[0], cut.along[-1]) == pytest.approx((0, 10), abs=1e-9)
    assert (fill.along[0], fill.along[-1]) == pytest.approx((10, 20), abs=1e-9)
    assert cut.ground - cut.other == pytest.approx(0.2 - 0.02 * cut.along, abs=1e-12)
    assert cut.middle == pytest.approx((5, 84.45), abs=1e-9)
    assert cuts.area_words.startswith("Cut C 1.00 ± ")
    assert "; Fill F 1.00 ± " in cuts.area_words
    assert cuts.area_words.endswith(" m²")


def test_feet_are_told_in_feet():
    cuts = pair(unit=FOOT)
    assert cuts.area_words.startswith(f"Cut C {1 / 0.3048**2:.2f} ± ")
    name, along, z = cuts.lines[0]
    assert (name, along[-1], z[0]) == ("ground", pytest.approx(20 / 0.3048), pytest.approx(84.6 / 0.3048))


def test_a_place_on_the_line_has_levels_and_a_depth_with_their_95_percent():
    """At a corner of both a level has one point's sigma, 0.01: 0.0196, and the depth root 2 of it, 0.0277."""
    cuts = pair(np.array([(0.0, -10.0), (20.0, -10.0)]))
    assert cuts.words_at(0.0) == (
        "at 0.00 m; ground 84.600 ± 0.020 m; finished 84.400 ± 0.020 m; cut C 0.200 ± 0.028 m"
    )
    assert cuts.words_at(20.0).endswith("; fill F 0.200 ± 0.028 m")


def test_beyond_a_surface_there_is_none():
    cuts = pair(np.array([(-5.0, 3.0), (25.0, 3.0)]))
    assert cuts.words_at(2.0) == "at 2.00 m; ground: none here; finished: none here"
    short = plain_surface(np.array([(0.0, 0, 84.4), (5, 0, 84.4), (0, 9, 84.4)]), np.array([[0, 1, 2]]))
    cuts = cut_surfaces([laid(ground()), laid(short, "heap")], ALONG, METRE, is_pair=True)
    # (10, 3) is 0.35, 0.5 and 0.15 of three corners: 0.01 times the root of the sum of their squares is 0.0063.
    assert cuts.words_at(10.0) == "at 10.00 m; ground 84.400 ± 0.012 m; heap: none here"
    # The heap's edge from (5, 0) to (0, 9) passes y = 3 at x = 10 / 3; nobody says what its heights are worth.
    assert cuts.words_at(1.0).endswith("; heap 84.400 m; cut C 0.180 m")
    assert cuts.area_words.endswith("; on 16.67 m one of the two is missing")


def test_what_is_weak_is_told_apart():
    """The second triangle lies north of the diagonal from (0, -10) to (20, 10), which y = 3 passes at x = 13."""
    cuts = cut_surfaces([laid(ground(is_weak=True))], ALONG, METRE)
    ((along, _),) = cuts.weak
    assert along[:2] == pytest.approx([0, 13], abs=1e-9)
    assert math.isnan(along[2])


@pytest.mark.parametrize("y", [-10.0, 10.0])
@pytest.mark.parametrize("turn", [1, -1])
def test_along_its_own_rim_a_surface_is_told_without_a_gap(y, turn):
    line = np.array([(0.0, y), (20.0, y)])[::turn]
    ((_, along, z),) = cut_surfaces([laid(ground())], line, METRE).lines
    assert (along[0], along[-1]) == pytest.approx((0, 20), abs=1e-9)
    assert np.isfinite(z).all()


def test_a_hole_is_a_gap():
    surface = ground()
    far = replace(surface, points=surface.points + np.array([40.0, 0, 0]))
    both = plain_surface(
        np.vstack([surface.points, far.points]), np.array([[0, 1, 2], [0, 2, 3], [4, 5, 6], [4, 6, 7]])
    )
    ((_, along, z),) = cut_surfaces([laid(both)], np.array([(0.0, 3.0), (60.0, 3.0)]), METRE).lines
    assert np.isnan(z).sum() == 1
    assert along[~np.isnan(z)].tolist() == pytest.approx([0, 13, 20, 40, 53, 60], abs=1e-9)


def test_a_surface_that_lies_over_itself_is_named_and_the_others_go_on():
    twice = plain_surface(np.vstack([ground().points, level().points]), np.array([[0, 1, 2], [4, 5, 6]]))
    cuts = cut_surfaces([laid(twice, "twice"), laid(ground())], ALONG, METRE, is_pair=True)
    (said,) = cuts.said
    assert said.startswith("twice: The surface lies over itself near x ")
    assert said.endswith("Build it again from its points, or cut its layers one by one.")
    assert [name for name, _, _ in cuts.lines] == ["ground"]
    assert (cuts.bands, cuts.area_words) == ((), "")


def test_triangles_without_heights_are_left_out():
    bad = plain_surface(np.array([(0.0, 0, math.nan), (5, 0, 1), (0, 9, 1)]), np.array([[0, 1, 2]]))
    cuts = cut_surfaces([laid(bad)], ALONG, METRE)
    assert (cuts.lines, cuts.words_at(1.0)) == ((), "")


def test_a_line_of_one_place_is_no_section():
    cuts = cut_surfaces([laid(ground())], ALONG[[0, 0]], METRE)
    assert cuts.said == (
        "ground: A section needs a line of two different points. Draw it from one place to another.",
    )


def test_surfaces_that_are_chosen_take_the_place_of_the_surveys_own(tmp_path, qgis_app):
    corners = np.array([(0, 0, 80.0), (10, 0, 81.0), (10, 10, 81.0)])
    made = replace(made_survey(), surfaces=(SurfaceRow("own", "own.xml", corners, np.array([[0, 1, 2]])),))
    walked = read_ground(write_survey(made, tmp_path / "s.gpkg"))
    line = made.plane.to_crs(np.array([(2.0, 2.0), (22.0, 2.0)])).tolist()
    assert [name for name, _, _ in draw_section(walked, line).surfaces] == ["own"]
    chosen = [LaidSurface("ground", ground(), made.plane.from_crs)]
    section = draw_section(with_surfaces(walked, chosen, walked.way), line)
    ((name, along, z),) = section.surfaces
    assert (name, len(section.points)) == ("ground", 2)
    assert z == pytest.approx(84.56 - 0.02 * along, abs=1e-6)


def test_without_a_survey_lines_lie_in_the_surfaces_own_crs(qgis_app):
    class Way:
        to_plane = staticmethod(same)
        to_map = staticmethod(same)

    section = draw_section(with_surfaces(None, [laid(ground())], Way()), ALONG.tolist())
    assert (section.points, section.length) == ((), 20.0)
    assert section.place_at(5.0) == (5.0, 3.0)


def test_the_levels_are_the_same_a_thousand_kilometres_off():
    far = np.array([1e7, -1e7])
    moved = [LaidSurface(n, s, lambda xy: np.asarray(xy) - far) for n, s in (("a", ground()), ("b", level()))]
    cuts = cut_surfaces(moved, ALONG + far, METRE, is_pair=True)
    assert cuts.area_words == pair().area_words


def test_a_plane_of_a_million_triangles_is_cut_in_time():
    """Two clicks must not be noticed: made ready once, then milliseconds."""
    n = 708
    x, y = np.meshgrid(np.linspace(0, 20, n), np.linspace(-10, 10, n))
    points = np.column_stack([x.ravel(), y.ravel(), 84.6 - 0.02 * x.ravel()])
    k = (np.arange(n - 1)[:, None] * n + np.arange(n - 1)).ravel()
    faces = np.vstack([np.column_stack([k, k + 1, k + n + 1]), np.column_stack([k, k + n + 1, k + n])])
    one = laid(plain_surface(points, faces))
    _ = one.cutter
    begun = time.perf_counter()
    ((_, along, z),) = cut_surfaces([one], ALONG, METRE).lines
    assert time.perf_counter() - begun < 2.0
    assert z == pytest.approx(84.6 - 0.02 * along, abs=1e-9)


def test_a_fall_alone_has_no_bands():
    cuts = cut_surfaces([laid(plain(84.6, 0.02))], ALONG, METRE, is_pair=True)
    assert (cuts.bands, cuts.is_pair) == ((), False)
