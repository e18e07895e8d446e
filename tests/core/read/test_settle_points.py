# SPDX-License-Identifier: GPL-2.0-or-later
"""What the points of other people's files become: marks where something knows them, else spots."""

from __future__ import annotations

from plugin.core.measure.chain import survey_files
from plugin.core.read.job import read_job
from plugin.core.walk import Kind

LIST = b"# crs: EPSG:25831\n# units: m\nnumber,easting,northing,elevation,code\nA,500000,5700000,3.25,nail\n7,500010,5700020,4.5,tree\n8,500012,5700020,4.6,tree\n"
CONTROL = b"# crs: EPSG:25831\nmark,x,y,sd_xy\nA,500000,5700000,0.02\nB,500040,5700000,0.02\n"


def test_a_point_is_a_spot_of_its_own_name_with_its_height_and_description():
    survey = survey_files({"p.csv": LIST})
    rows = [(row.tags.feature, row.tags.note, round(row.height.value, 6)) for row in survey.spots]
    assert rows == [("A", "nail", 3.25), ("7", "tree", 4.5), ("8", "tree", 4.6)]
    assert [f.code for f in survey.findings if f.is_open] == []


def test_a_point_that_control_knows_is_a_mark_and_no_spot():
    (walk,) = read_job({"p.csv": LIST, "c.csv": CONTROL}).job.walks
    assert walk.mark == ("A", "", "")
    assert walk.feature == ("", "7", "8")
    assert walk.kind == (None, Kind.SPOT, Kind.SPOT)


def test_a_point_of_a_feature_stays_in_it():
    listed = b"# units: m\nnumber,easting,northing,feature,geometry\n1,0,0,Bed,area\n2,9,0,Bed,area\n3,9,9,Bed,area\n4,2,3,,\n"
    (walk,) = read_job({"p.csv": listed}).job.walks
    assert walk.feature == ("Bed", "Bed", "Bed", "4")


def test_a_phones_waypoint_is_a_spot_without_a_height():
    gpx = (
        b"<gpx version='1.1'><wpt lat='48.1' lon='11.5'><ele>520</ele><name>Gate</name></wpt>"
        b"<wpt lat='48.2' lon='11.6'><name>Oak</name></wpt></gpx>"
    )
    survey = survey_files({"w.gpx": gpx})
    assert [(row.tags.feature, row.height) for row in survey.spots] == [("Gate", None), ("Oak", None)]
    (note,) = (f.message for f in survey.findings if f.code == "SR-01")
    assert note == (
        "w.gpx: the places of the spots of walk w waypoints (2) come from a phone and are good for some metres; their "
        "heights are left out."
    )
