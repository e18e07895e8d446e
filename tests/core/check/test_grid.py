# SPDX-License-Identifier: GPL-2.0-or-later
"""Map coordinates without a CRS."""

from __future__ import annotations

import numpy as np
import pytest
from builders import make_walk

from plugin.core.check.rules import check_job
from plugin.core.findings import Decisions, Severity
from plugin.core.walk import ErrorGrowth, Job, LogKeys

SQUARE = np.array([(0, 0), (40, 0), (40, 20), (0, 20)], float)
MAP = np.array([512_340.0, 5_712_850.0])


def notes(xy, growth=ErrorGrowth.POINTS, crs=None):
    walk = make_walk(xy, keys=LogKeys(units="m", growth=growth, crs=crs))
    return [f for f in check_job(Job((walk,)), Decisions()) if f.code == "PL-04"]


def test_a_list_with_a_maps_coordinates_and_no_crs_is_told_what_that_does():
    (note,) = notes(SQUARE + MAP)
    assert (note.severity, note.place) == (Severity.NOTE, "W1:0")
    assert note.message == (
        "W1.csv: the coordinates look like those of a map, but no CRS is stated. Their lengths were taken for ground "
        "lengths; map lengths can be off by 0.1 % and areas by 0.2 %."
    )


@pytest.mark.parametrize(
    ("xy", "growth", "crs"),
    [
        (SQUARE, ErrorGrowth.POINTS, None),
        (SQUARE + (5000.0, 10_000.0), ErrorGrowth.POINTS, None),
        (SQUARE + MAP, ErrorGrowth.POINTS, "EPSG:25831"),
        (SQUARE + MAP, ErrorGrowth.WALKED, None),
    ],
)
def test_a_sites_own_frame_and_a_stated_crs_are_left_in_peace(xy, growth, crs):
    assert notes(xy, growth, crs) == []
