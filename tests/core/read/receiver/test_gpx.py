# SPDX-License-Identifier: GPL-2.0-or-later
"""GPX files: tracks, routes, waypoints, times, and what is wrong with them."""

from __future__ import annotations

import re
import time

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.errors import BadInput
from plugin.core.findings import Decision, Decisions, Severity
from plugin.core.read.receiver.gpx import read_gpx
from plugin.core.read.receiver.gpx_points import read_instant
from plugin.core.walk import ErrorGrowth, Kind, Leg, SourceClass

HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n<gpx version="1.1" creator="" xmlns="http://www.topografix.com/GPX/1/1">\n'


def document(*lines):
    return (HEAD + "\n".join(lines) + "\n</gpx>\n").encode()


def read(*lines, file="day/yard.gpx"):
    return read_gpx(file, document(*lines))


def point(lat, lon, inner="", name="trkpt"):
    return f'<{name} lat="{lat}" lon="{lon}">{inner}</{name}>'


def track(*segments, name="<name>Path</name>"):
    body = "\n".join("<trkseg>\n" + "\n".join(points) + "\n</trkseg>" for points in segments)
    return f"<trk>{name}\n{body}\n</trk>"


def at(second, zone="Z"):
    return f"<time>2024-05-01T10:{second // 60:02d}:{second % 60:02d}{zone}</time>"


def told(result):
    return [(f.code, f.severity, f.line, f.message, f.remedy_text, f.answers) for f in result.findings]


def test_a_track_is_a_length_walked_as_recorded():
    result = read(
        track(
            [
                point(48.5, 11.25, f"<ele>500.5</ele>{at(0)}"),
                point(48.6, 11.26, at(90)),
                point(-33, -70, "<ele>-3</ele>"),
            ]
        )
    )
    (walk,) = result.walks
    assert (walk.name, walk.file, walk.station) == ("Path", "day/yard.gpx", ("1", "2", "3"))
    assert walk.xy.tolist() == [[11.25, 48.5], [11.26, 48.6], [-70.0, -33.0]]
    np.testing.assert_array_equal(walk.z, [500.5, np.nan, -3.0])
    np.testing.assert_array_equal(walk.time, [0.0, 90.0, np.nan])
    np.testing.assert_array_equal(walk.hold, [0.0, 0.0, np.nan])
    assert walk.line.tolist() == [5, 6, 7]
    assert (walk.feature, walk.part, walk.kind) == (("Path",) * 3, ("",) * 3, (Kind.LENGTH,) * 3)
    assert walk.leg == (Leg.AS_WALKED,) * 3
    assert walk.started == "2024-05-01T10:00:00Z"
    keys = walk.keys
    assert (keys.units, keys.unit_m, keys.crs, keys.date) == ("m", 1.0, "EPSG:4326", "2024-05-01")
    assert (keys.source_class, keys.growth) == (SourceClass.PHONE, ErrorGrowth.RECEIVER)
    assert told(result) == []


def test_segments_are_walks_and_parts_and_tracks_without_a_name_are_numbered():
    a, b = point(48, 11), point(48.001, 11)
    result = read(
        track([a, b], [], [b, a]),
        track([a, b], name="<name> \n</name>"),
        track([a, b], name=""),
        track([a, b]),
    )
    assert [(w.name, w.feature[0], w.part[0]) for w in result.walks] == [
        ("Path", "Path", "1"), ("Path (2)", "Path", "2"), ("track 2", "track 2", ""), ("track 3", "track 3", ""),
        ("Path (3)", "Path", ""),
    ]  # fmt: skip


def test_a_route_has_direct_legs_and_its_points_keep_their_names():
    result = read(
        "<rte><name>Fence</name>", point(48, 11, "<name>gate</name>", "rtept"), point(48.1, 11, "", "rtept"),
        point(48.2, 11, "<name>gate</name>", "rtept"), "</rte>",
        "<rte>", point(1, 2, "", "rtept"), point(1, 3, "", "rtept"), "</rte>",
    )  # fmt: skip
    one, two = result.walks
    assert (one.name, one.station) == ("Fence", ("gate", "2", "gate (2)"))
    assert one.leg == (Leg.DIRECT,) * 3
    assert (one.feature, one.kind, one.mark) == (("Fence",) * 3, (Kind.LENGTH,) * 3, ("",) * 3)
    assert np.isnan(one.hold).all()
    assert (two.name, two.feature[0]) == ("route 2", "route 2")
    assert told(result) == []


def test_waypoints_are_one_walk_of_stations_that_are_marks():
    result = read(
        point(
            48,
            11,
            "<ele>5</ele><name>M1</name><cmt>old peg</cmt><desc>by the wall</desc><sym>Flag</sym>",
            "wpt",
        ),
        point(48.1, 11.1, "<name> M1 </name><cmt>same</cmt><desc>same</desc>", "wpt"),
        point(48.2, 11.2, "", "wpt"),
    )
    (walk,) = result.walks
    assert (walk.name, walk.station, walk.mark) == ("yard waypoints", ("M1", "M1 (2)", "3"), ("M1", "M1", ""))
    assert walk.texts == {"note": ("old peg; by the wall", "same", "")}
    assert walk.extra == {"sym": ("Flag", "", "")}
    assert (walk.feature, walk.kind) == (("",) * 3, (None,) * 3)
    assert walk.keys.growth is ErrorGrowth.POINTS
    assert (walk.started, walk.keys.date) == ("", None)
    assert told(result) == []


def test_waypoints_come_in_any_order_of_time():
    result = read(point(48, 11, at(50), "wpt"), point(48, 11.1, at(20), "wpt"))
    assert result.walks[0].time.tolist() == [0.0, -30.0]
    assert told(result) == []


def test_gpx_1_0_any_prefix_and_no_namespace_are_read():
    body = '<{0}gpx version="1.0" creator="x"{1}><{0}trk><{0}name>A</{0}name><{0}trkseg><{0}trkpt lat="1" lon="2"><{0}speed>1.5</{0}speed><{0}course>90</{0}course></{0}trkpt></{0}trkseg></{0}trk></{0}gpx>'
    for prefix, space in (
        ("", ""),
        ("g:", ' xmlns:g="http://www.topografix.com/GPX/1/0"'),
        ("", ' xmlns="http://www.topografix.com/GPX/1/0"'),
    ):
        (walk,) = read_gpx("a.gpx", body.format(prefix, space).encode()).walks
        assert (walk.name, walk.xy.tolist()) == ("A", [[2.0, 1.0]])
        assert walk.extra == {"speed": ("1.5",), "course": ("90",)}
        # one point alone is a place, not a length
        assert (walk.feature, walk.leg) == (("",), (Leg.DIRECT,))


def test_what_a_point_says_of_its_fix_is_kept():
    inner = "<fix>3d</fix><sat>7</sat><hdop>1.1</hdop><vdop>2</vdop><pdop>3</pdop>"
    (walk,) = read(track([point(48, 11), point(48.001, 11, inner), point(48.002, 11)])).walks
    assert walk.extra == {
        "fix": ("", "3d", ""), "sat": ("", "7", ""), "hdop": ("", "1.1", ""), "vdop": ("", "2", ""), "pdop": ("", "3", ""),
    }  # fmt: skip
    assert np.isnan(walk.sd_xy).all()


def test_points_without_a_fix_are_passed_over_in_one_note():
    result = read(track([point(48, 11, "<fix>none</fix>"), point(48, 11), point(49, 11, "<fix>none</fix>")]))
    assert len(result.walks[0]) == 1
    assert told(result) == [
        ("IN-06", Severity.NOTE, 5, "day/yard.gpx, line 5: points without a fix were passed over. Such points: 2.",
         "None needed; look at the track for gaps.", ()),
    ]  # fmt: skip


def test_extensions_are_noted_once():
    result = read(
        "<extensions><name>no</name></extensions>",
        track([point(48, 11, "<extensions><ele>9</ele></extensions>")]),
    )
    assert np.isnan(result.walks[0].z).all()
    assert told(result) == [
        ("IN-06", Severity.NOTE, 3, "day/yard.gpx, line 3: what stands in extensions was not used. Such elements: 2.",
         "None needed.", ()),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("lat", "lon"),
    [
        ("90.1", "11"),
        ("-91", "11"),
        ("48", "180.5"),
        ("nan", "11"),
        ("inf", "11"),
        ("48,5", "11"),
        ("", "11"),
        ("4_8", "11"),
    ],
)
def test_a_point_that_is_no_place_is_left_out_with_its_line(lat, lon):
    result = read(track([point(48, 11), point(lat, lon), point(48.1, 11)]))
    assert result.walks[0].line.tolist() == [5, 7]
    assert told(result) == [
        ("IN-01", Severity.STOP, 6, f'day/yard.gpx, line 6: lat "{lat}" and lon "{lon}" are no place; the point is left out.',
         "Give degrees from -90 to 90 and from -180 to 180; the rest of the file was read.", ("left out",)),
    ]  # fmt: skip


def test_a_point_without_attributes_is_left_out():
    result = read(track([point(48, 11), "<trkpt/>"]))
    assert (
        result.findings[0].message
        == 'day/yard.gpx, line 6: lat "" and lon "" are no place; the point is left out.'
    )


def test_a_height_or_time_that_is_none_is_told_and_the_place_kept():
    result = read(
        track([
            point(48, 11, at(0)), point(48, 11.1, "\n<ele>high</ele>"), point(48, 11.2, "<time>noon</time>"),
            point(48, 11.3, "<ele>inf</ele>"), point(48, 11.4, "<time>0001-01-01T00:00:00Z</time>"),
        ])
    )  # fmt: skip
    assert len(result.walks[0]) == 5
    assert np.isnan(result.walks[0].z).all()
    assert [(f.code, f.line, f.message) for f in result.findings] == [
        ("IN-01", 7, 'day/yard.gpx, line 7, column ele: "high" is not a number.'),
        ("IN-01", 8, 'day/yard.gpx, line 8, column time: "noon" is not a time.'),
        ("IN-01", 9, 'day/yard.gpx, line 9, column ele: "inf" is not a number.'),
        ("IN-01", 10, 'day/yard.gpx, line 10, column time: "0001-01-01T00:00:00Z" is not a time.'),
    ]


def test_from_two_hundred_stops_on_the_rest_is_one():
    result = read(track([point(48, 11), *[point(99, 11)] * 300]))
    assert len(result.findings) == 201
    assert result.findings[-1].message == "day/yard.gpx, from line 206 on: 100 more lines cannot be read."


def test_times_in_any_zone_are_one_clock_and_without_a_zone_are_utc_and_noted():
    result = read(
        track([
            point(48, 11, "<time>2024-05-01T12:00:00.25+02:00</time>"),
            point(48, 11.1, "<time>2024-05-01T10:00:01.75Z</time>"),
            point(48, 11.2, "<time>2024-05-01T10:00:03</time>"),
        ])
    )  # fmt: skip
    assert result.walks[0].time.tolist() == [0.0, 1.5, 2.75]
    assert result.walks[0].started == "2024-05-01T10:00:00.25Z"
    assert told(result) == [
        ("IN-06", Severity.NOTE, 7, "day/yard.gpx, line 7: times without a zone were taken as UTC. Such times: 1.",
         "None needed; write them with Z if that is right.", ()),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "nanoseconds"),
    [
        ("1970-01-02T00:00:01Z", 86_401_000_000_000),
        ("1970-01-01T00:00:00.123456789123Z", 123_456_789),
        ("1970-01-01T02:00:00+02:00", 0),
        ("1969-12-31T19:00-0500", 0),
        (
            "2016-12-31T23:59:60Z",
            1_483_228_800_000_000_000,
        ),  # the leap second counts as the next midnight's first
        ("2023-02-29T00:00:00Z", None),
        ("2023-01-01T24:00:00Z", None),
        ("2023-01-01", None),
        ("1899-12-31T00:00:00Z", None),
        ("9999-12-31T00:00:00Z", None),
        ("2023-01-01T00:00:00+99:00", None),
    ],
)
def test_times_are_read_to_the_nanosecond(text, nanoseconds):
    read_one = read_instant(text)
    assert (None if read_one is None else read_one[0]) == nanoseconds


def test_a_time_that_runs_back_is_a_stop_that_can_split_the_walk():
    lines = track([point(48, 11, at(10)), point(48, 11.1, at(5)), point(48, 11.2, at(20))])
    result = read(lines)
    (stop,) = result.findings
    assert (stop.code, stop.severity, stop.line, stop.place) == ("IN-04", Severity.STOP, 6, "Path:2")
    assert stop.message == (
        "day/yard.gpx, line 6: the time of station 2 of walk Path is 5.000 s before the time of station 1."
    )
    assert stop.answers == ("as recorded", "split")
    assert result.walks[0].time.tolist() == [0.0, -5.0, 10.0]
    split = read_gpx("day/yard.gpx", document(lines), Decisions([Decision("IN-04", "Path:2", "split")]))
    assert [(walk.name, len(walk)) for walk in split.walks] == [("Path", 1), ("Path (2)", 2)]


def stand(seconds, rng, lat, start=0):
    return [
        point(
            f"{lat + rng.normal(0, 0.05) / 111_200:.9f}",
            f"{11 + rng.normal(0, 0.05) / 74_000:.9f}",
            at(start + k),
        )
        for k in range(seconds)
    ]


def test_a_stand_in_a_track_with_times_is_one_station():
    rng = np.random.default_rng(1)
    walk_in = [point(f"{48 + k * 1.2 / 111_200:.9f}", 11, at(k)) for k in range(30)]
    lat = 48 + 30 * 1.2 / 111_200
    walk_on = [point(f"{lat + (k + 1) * 1.2 / 111_200:.9f}", 11, at(60 + k)) for k in range(20)]
    (walk,) = read(track([*walk_in, *stand(30, rng, lat, 30), *walk_on])).walks
    (i,) = np.flatnonzero(walk.hold > 5).tolist()
    assert walk.leg[i] is Leg.DIRECT
    assert walk.hold[i] == pytest.approx(30, abs=3)
    assert walk.sd_xy[i] == 4.0
    assert (walk.xy[i, 1] - lat) * 111_200 == pytest.approx(0, abs=0.3)
    bare = [re.sub("<time>.*?</time>", "", p) for p in [*walk_in, *stand(30, rng, lat, 30), *walk_on]]
    assert len(read(track(bare)).walks[0]) == 80


def test_a_differential_stand_is_better():
    rng = np.random.default_rng(2)
    points = [p.replace("<time>", "<fix>dgps</fix><time>") for p in stand(30, rng, 48)]
    (walk,) = read(track(points)).walks
    assert (len(walk), walk.sd_xy[0]) == (1, 1.5)


@pytest.mark.parametrize(
    "name",
    [
        "../../etc/passwd",
        "C:\\a:b*?",
        "<b>&\"'",
        "\u202eevil\u202c",
        "\u0645\u0633\u0627\u062d\u0629",
        "a" * 5000,
        "x\ny",
    ],
)
def test_names_are_kept_as_text(name):
    escaped = name.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    (walk,) = read(track([point(48, 11), point(48.1, 11)], name=f"<name>{escaped}</name>")).walks
    assert walk.feature[0] == walk.name == " ".join(name.split())


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (document("<metadata/>"), "a.gpx: there is no point (trkpt, rtept or wpt) in it. Give a GPX file with one."),
        (b"<kml/>", "a.gpx, line 1: the file begins with <kml>, not with <gpx>. Give a GPX file."),
        (document(track([point(99, 11), point(98, 11)])),
         ('a.gpx, line 5: lat "99" and lon "11" are no place, nor has the file any other point that can be used. Give degrees '
         "from -90 to 90 and from -180 to 180.")),
        (document(track([point(48, 11, "<fix>none</fix>")])),
         "a.gpx: none of its 1 points has a fix (the first in line 5). Record it under open sky."),
        (HEAD.encode() + b"<trk><trkseg><trkpt lat='1' lon='2'>",
         ("a.gpx, line 3: the file breaks off before its first point (no element found). Give the whole file.")),
    ],
)  # fmt: skip
def test_a_file_without_a_point_is_refused(data, message):
    with pytest.raises(BadInput, match=f"^{re.escape(message)}$"):
        read_gpx("a.gpx", data)


@pytest.mark.parametrize("data", [b"", b"no xml", b"<gpx", b'<!DOCTYPE gpx [<!ENTITY a "b">]><gpx>&a;</gpx>'])
def test_what_is_no_xml_or_declares_entities_is_refused(data):
    with pytest.raises(BadInput, match=r"^a\.gpx, line 1: "):
        read_gpx("a.gpx", data)


def test_a_file_that_breaks_off_gives_what_stood_before():
    whole = document(
        track([point(48, 11, "<ele>4.46</ele>"), point(48.1, 11, "<ele>4.94</ele>"), point(48.2, 11)])
    )
    cut = whole[: whole.index(b"4.94") + 2]
    result = read_gpx("a.gpx", cut)
    assert result.walks[0].z.tolist() == [4.46]
    assert [(f.code, f.severity, f.message) for f in result.findings] == [
        ("IN-01", Severity.STOP, "a.gpx, line 6: the file breaks off here.")
    ]


def test_latin_1_without_a_word_is_read_and_noted():
    data = document(track([point(48, 11)], name="<name>Weißdorn</name>")).decode().encode("latin-1")
    result = read_gpx("a.gpx", data)
    assert result.walks[0].name == "Weißdorn"
    assert result.findings[0].message == "a.gpx is not UTF-8 and was read as Latin-1."


def test_points_are_sorted_by_their_parent_wherever_they_stand():
    """Not as the schema orders them: a name after its segment, points without a segment, waypoints in between."""
    result = read(
        "<trk>", point(1, 1), "<trkseg>", point(2, 2), point(2, 3), "</trkseg><name>Late</name></trk>",
        point(3, 3, "", "wpt"), track([point(4, 4), point(4, 5)]), point(5, 5, "", "wpt"),
    )  # fmt: skip
    assert [(w.name, w.xy[:, 0].tolist()) for w in result.walks] == [
        ("Late", [1.0]), ("Late (2)", [2.0, 3.0]), ("yard waypoints", [3.0, 5.0]), ("Path", [4.0, 5.0]),
    ]  # fmt: skip


def test_a_hundred_thousand_points_are_read_in_seconds():
    points = "\n".join(
        point(f"{48 + k * 1e-5:.6f}", 11, f"<ele>{k}</ele>{at(k % 3600)}") for k in range(3600)
    )
    segment = f"<trkseg>{points}</trkseg>"
    begin = time.process_time()
    result = read(f"<trk>{segment * 28}</trk>")
    assert time.process_time() - begin < 10
    assert sum(map(len, result.walks)) == 28 * 3600


@given(st.binary(max_size=60), st.integers(0, 700))
def test_bytes_in_the_middle_of_a_file_are_survived(junk, where):
    whole = document(
        track([point(48, 11, "<ele>4.46</ele>"), point(48.1, 11, at(3))]),
        point(1, 2, "<name>M</name>", "wpt"),
    )
    where = min(where, len(whole))
    try:
        result = read_gpx("a.gpx", whole[:where] + junk + whole[where:])
    except BadInput:
        return
    assert all(np.isfinite(walk.xy).all() for walk in result.walks)
