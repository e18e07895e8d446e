# SPDX-License-Identifier: GPL-2.0-or-later
"""When a survey counts as placed: only where exchanged pairs would have been seen."""

from __future__ import annotations

import math

import numpy as np
import pytest

from plugin.core.findings import Severity
from plugin.core.measure.chain import survey_files

MARKS = {"A": (0.0, 0.0), "B": (24.0, 3.0), "M": (12.0, 1.5), "C": (40.0, -20.0)}
ROUTE = ["A", "M", "B", "C", (30, 10), (10, 10), "A"]


def log(z=None, extra=""):
    rows = ["# units: m", "walk,station,x,y,z,feature,geometry,mark"]
    for i, stop in enumerate(ROUTE, start=1):
        x, y = MARKS[stop] if isinstance(stop, str) else stop
        mark = stop if isinstance(stop, str) else ""
        feature = ("", "") if mark else ("Path", "length")
        rows.append(f"W1,{i},{x},{y},{'' if z is None else z},{feature[0]},{feature[1]},{mark}")
    return "\n".join(rows) + "\n" + extra


def control(*rows):
    return "# crs: EPSG:25831\nmark,x,y,z,sd_xy,sd_z,use\n" + "".join(row + "\n" for row in rows)


def at(mark, use="fit", sd="0.02", like=None, z="", sd_z=""):
    """A control row: the mark at its own place on the map, or at another mark's."""
    x, y = MARKS[like or mark]
    c, s = math.cos(0.4), math.sin(0.4)
    k = 0.99958869
    east, north = 512340.0 + k * (c * x - s * y), 5712850.0 + k * (s * x + c * y)
    return f"{mark},{east:.4f},{north:.4f},{z},{sd},{sd_z},{use}"


def survey(*rows, z=None, decisions=""):
    files = {"w1.csv": log(z), "control.csv": control(*rows)}
    if decisions:
        files["decisions.csv"] = "finding,place,answer,by,when\n" + decisions
    return survey_files({name: text.encode() for name, text in files.items()})


def opened(result):
    return [(f.code, f.place) for f in result.findings if f.severity is Severity.STOP and f.is_open]


def test_a_check_point_off_the_middle_confirms():
    assert survey(at("A"), at("B"), at("C", "check")).placement.status == "placed"


@pytest.mark.parametrize("swapped", [False, True])
@pytest.mark.parametrize("use", ["check", "fit"])
def test_a_point_in_the_middle_of_the_pairs_confirms_nothing(swapped, use):
    pairs = (at("A", like="B"), at("B", like="A")) if swapped else (at("A"), at("B"))
    found = survey(*pairs, at("M", use))
    assert found.placement.status == "not confirmed"
    assert opened(found) == [("PL-01", "survey")]
    finding = next(f for f in found.findings if f.code == "PL-01")
    assert finding.message == (
        "The survey is placed, but A, B, M would agree as well with A and B exchanged: they cannot tell the two apart."
    )


def test_a_check_point_of_no_worth_confirms_nothing():
    found = survey(at("A", like="B"), at("B", like="A"), at("C", "check", sd="50"))
    assert found.placement.status == "not confirmed"


def test_three_pairs_confirm_one_another():
    assert survey(at("A"), at("B"), at("C")).placement.status == "placed"


def test_a_decision_confirms():
    found = survey(at("A"), at("B"), decisions="PL-01,survey,confirmed,me,today\n")
    assert found.placement.status == "placed"
    assert opened(found) == []


@pytest.mark.parametrize("wrong", [0.0, 1.0])
def test_a_check_height_is_tested_and_a_wrong_one_keeps_heights_out(wrong):
    level = at("A", z="84.0", sd_z="0.003")
    check = at("C", "check", z=f"{84.0 + wrong}", sd_z="0.003")
    found = survey(level, at("B"), check, z=10.0)
    path = found.lengths[0]
    if not wrong:
        assert opened(found) == []
        assert path.rise is not None
        return
    assert opened(found) == [("TI-03", "C")]
    finding = next(f for f in found.findings if f.code == "TI-03")
    assert finding.message.startswith(
        "Check height C, 85.000 m, lies +1.000 m from what the walks and the levels give; "
    )
    assert (finding.file, finding.line) == ("control.csv", 5)
    assert path.rise is None
    assert path.length is not None
    assert path.tags.finding == "TI-03"


def test_features_of_a_walk_that_is_left_out_keep_a_row_without_figures():
    lone = (
        "# units: m\nwalk,station,x,y,feature,geometry\n"
        "W2,1,0,0,Lawn,area\nW2,2,5,0,Lawn,area\nW2,3,5,5,Lawn,area\nW2,4,9,9,Tap,spot\n"
    )
    files = {"w1.csv": log(), "w2.csv": lone, "control.csv": control(at("A"), at("B"), at("C", "check"))}
    found = survey_files({name: text.encode() for name, text in files.items()})
    (lawn,) = [row for row in found.areas if row.tags.feature == "Lawn"]
    assert (lawn.area, lawn.outline, lawn.tags.finding) == (None, (), "TI-01")
    (tap,) = [row for row in found.spots if row.tags.feature == "Tap"]
    assert tap.height is None
    assert np.isnan(tap.point).all()


def test_the_group_that_can_be_placed_is_kept():
    """W1 has the control; W2 and W3 share two marks of their own."""
    other = "# units: m\nwalk,station,x,y,mark\n{w},1,0,0,E\n{w},2,20,0,F\n{w},3,20,9,\n"
    files = {
        "w1.csv": log(),
        "w2.csv": other.format(w="W2"),
        "w3.csv": other.format(w="W3"),
        "control.csv": control(at("A"), at("B"), at("C", "check")),
    }
    found = survey_files({name: text.encode() for name, text in files.items()})
    assert found.placement.status == "placed"
    assert sorted(opened(found)) == [("TI-01", "W2:1"), ("TI-01", "W3:1")]


def test_a_stop_in_a_walk_whose_name_holds_a_slash_withholds():
    rows = "# units: m\nwalk,station,x,y,feature,geometry\n"
    corners = [(0, 0), (10, 0), (10, 10), (0, 10), (0, 0)]
    rows += "".join(f"1/2,{min(i, 3)},{x},{y},Yard,area\n" for i, (x, y) in enumerate(corners, start=1))
    found = survey_files({"w.csv": rows.encode()})
    assert {f.code for f in found.findings if f.severity is Severity.STOP} == {"IN-04"}
    assert found.areas[0].area is None
    assert found.areas[0].tags.finding == "IN-04"


@pytest.mark.parametrize("crs", [None, "EPSG:3034"])
def test_a_log_in_a_crs_places_itself(crs):
    """Stations recorded on the map come back to it, with the sigma their source is worth."""
    from plugin.core.measure.chain import Settings

    rows = "# crs: EPSG:25831\n# units: m\nwalk,station,x,y,feature,geometry\n"
    corners = [(0, 0), (20, 0), (20, 10), (0, 10), (0, 0)]
    rows += "".join(
        f"G,{i},{512340 + x},{5712850 + y},Yard,area\n" for i, (x, y) in enumerate(corners, start=1)
    )
    found = survey_files({"g.csv": rows.encode()}, Settings(crs=crs))
    assert found.placement.status == "placed"
    first = found.stations[0]
    import pyproj

    to = pyproj.Transformer.from_crs("EPSG:25831", crs or "EPSG:25831", always_xy=True)
    assert found.plane.to_crs(np.array([first.point[:2]]))[0] == pytest.approx(
        np.array(to.transform(512340.0, 5712850.0)), abs=1e-5
    )
    assert 0.02 < first.ellipse.major < 0.08
    # 200 m2 on the grid; the ground is longer by 1/0.9996 twice.
    assert found.areas[0].area.value == pytest.approx(200 / 0.99960189**2, rel=1e-6)
