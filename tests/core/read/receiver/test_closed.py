# SPDX-License-Identifier: GPL-2.0-or-later
"""A track that ends where it began: a way or an area?"""

from __future__ import annotations

import numpy as np
import pytest

from plugin.core.findings import Severity
from plugin.core.measure.chain import Settings, survey_files
from plugin.core.read.job import read_job
from plugin.core.walk import Kind

ROUND = [(0, 0), (300, 0), (300, 200), (0, 200), (3, 4)]


def gpx(places, name="Field", more=""):
    """A track of places in metres east and north of 48 N 11.5 E, every 5 m."""
    xy = np.array(places, float)
    dense = [a + (b - a) * k / 60 for a, b in zip(xy, xy[1:]) for k in range(60)] + [xy[-1]]
    points = "".join(f"<trkpt lat='{48 + y / 111200:.9f}' lon='{11.5 + x / 74600:.9f}'/>" for x, y in dense)
    return f"<gpx version='1.1'>{more}<trk><name>{name}</name><trkseg>{points}</trkseg></trk></gpx>".encode()


def answer(word, place="Field:1"):
    return f"finding,place,answer,by,when\nIN-07,{place},{word},someone,today\n".encode()


def test_a_track_that_ends_where_it_began_is_asked_about():
    read = read_job({"way.gpx": gpx(ROUND)})
    (finding,) = (f for f in read.findings if f.code == "IN-07")
    assert (finding.severity, finding.place, finding.answers) == (Severity.ASK, "Field:1", ("area", "length"))
    assert (
        finding.message == "way.gpx: the track Field ends 5.0 m from where it began; it was taken as a way."
    )
    assert set(read.job.walks[0].kind) == {Kind.LENGTH}


@pytest.mark.parametrize("word", ["area", "length"])
def test_the_answer_says_what_was_walked(word):
    survey = survey_files({"way.gpx": gpx(ROUND), "d.csv": answer(word)}, Settings(price_within=1.0))
    assert [len(survey.areas), len(survey.lengths)] == ([1, 0] if word == "area" else [0, 1])
    if word == "area":
        assert survey.areas[0].area.value == pytest.approx(60_000, rel=0.01)
        assert survey.areas[0].area.sigma > 500


@pytest.mark.parametrize(
    "places",
    [[(0, 0), (300, 0), (300, 200)], [(0, 0), (300, 0), (300, 200), (0, 20)], [(0, 0), (40, 0), (5, 0)]],
)
def test_a_track_that_ends_elsewhere_is_a_way(places):
    assert [f for f in read_job({"way.gpx": gpx(places)}).findings if f.code == "IN-07"] == []
