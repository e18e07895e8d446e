# SPDX-License-Identifier: GPL-2.0-or-later
"""Published positions in NMEA 0183 and GPX, and every sample file of independent libraries against these libraries."""

from __future__ import annotations

import re
from datetime import datetime, timedelta, timezone

import gpxpy
import numpy as np
import pynmea2
import pyproj
import pytest
from samples import sample_files

from plugin.core.errors import BadInput
from plugin.core.read.receiver.gpx import read_gpx
from plugin.core.read.receiver.gpx_points import GroupKind, read_points
from plugin.core.read.receiver.nmea import read_nmea
from plugin.core.read.receiver.nmea_fields import Sentence
from plugin.core.read.receiver.nmea_sentences import split_sentences
from plugin.core.read.receiver.stands import walked_metres

GEOD = pyproj.Geod(ellps="WGS84")


@pytest.mark.parametrize(
    ("sentence", "lat", "lon", "height", "extra"),
    [
        ("$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47",
         48.1173, 11.51666667, 545.4, ("46.9", "1", "8")),
        ("$GPGGA,111309.00,5400.6000,N,00247.1000,W,1,16,00.7,042.2,M,49.1,M,,*4A",
         54.01, -2.785, 42.2, ("49.1", "1", "16")),
        ("$GPGGA,120558.916,5058.7457,N,00647.0514,E,2,06,1.7,109.0,M,47.6,M,1.5,0000*71",
         50.979095, 6.78419, 109.0, ("47.6", "2", "6")),
        ("$GPGGA,175742,4751.698,N,12209.774,W,1,09,2.0,128.0,M,-18.2,M,,*78",
         47.86163333, -122.1629, 128.0, ("-18.2", "1", "9")),
    ],
)  # fmt: skip
def test_t9_01_positions_of_public_gga_sentences(sentence, lat, lon, height, extra):
    """T9-01: public NMEA 0183 GGA samples (gpsd comments, receiver pages, parsers' tests) (seen)."""
    (walk,) = read_nmea("fix.nmea", sentence.encode()).walks
    assert walk.xy[0] == pytest.approx([lon, lat], abs=6e-9)
    assert walk.z[0] == pytest.approx(height, abs=1e-9)
    names = ("geoid_separation", "quality", "satellites")
    assert tuple(walk.extra[name][0] for name in names) == extra


def test_t9_04_the_example_document_of_gpx_1_1():
    """T9-04: GPX 1.1 schema documentation (topografix) and its common 'Example GPX Document' (seen)."""
    document = (
        '<gpx version="1.1" creator="t" xmlns="http://www.topografix.com/GPX/1/1"><metadata/><trk>'
        '<name>Example GPX Document</name><trkseg><trkpt lat="47.644548" lon="-122.326897"><ele>4.46</ele>'
        '<time>2009-10-17T18:37:26Z</time></trkpt><trkpt lat="47.644548" lon="-122.326897"><ele>4.94</ele>'
        "<time>2009-10-17T18:37:31Z</time></trkpt></trkseg></trk></gpx>"
    )
    (walk,) = read_gpx("example.gpx", document.encode()).walks
    assert len(walk) == 2
    assert walk.name == "Example GPX Document"
    np.testing.assert_allclose(walk.xy, [[-122.326897, 47.644548]] * 2, rtol=0, atol=1e-9)
    np.testing.assert_allclose(walk.z, [4.46, 4.94], rtol=0, atol=1e-9)
    assert walk.time.tolist() == [0.0, 5.0]
    assert walk.started == "2009-10-17T18:37:26Z"


# --- NMEA 0183 against pynmea2 ---

WHOLE = re.compile(rb"\$[A-Z]{2}(?:GGA|RMC|GST),[^$*\r\n]*(?:\*[0-9A-Fa-f]{2}|(?=[\r\n]))")
LEAST_FIELDS = {b"GGA": 15, b"RMC": 12, b"GST": 9}
"""Of a sentence without a checksum: with fewer it may be cut short."""
DIFFERENT = {b"2208-1", b"|19322|1.00", b"37.352387"}
"""In three sentences of the samples: a month of -1, fields broken by strokes, degrees where degrees and minutes should
stand. They are not used; pynmea2 reads them."""


def parsed_by_pynmea2(data):
    """Every whole sentence whose checksum, if it has one, pynmea2 finds right, by kind, with what stands in it."""
    found = {"GGA": [], "RMC": [], "GST": []}
    for text in WHOLE.findall(data.replace(b"\0", b"")):
        if b"*" not in text and text.count(b",") + 1 < LEAST_FIELDS[text[3:6]]:
            continue
        try:
            sentence = pynmea2.parse(text.decode("ascii"), check=b"*" in text)
        except (pynmea2.ParseError, UnicodeDecodeError):
            continue
        if not any(odd in text for odd in DIFFERENT):
            found[sentence.sentence_type].append(sentence)
    return found


def seconds_of(time):
    return time.hour * 3600 + time.minute * 60 + time.second + time.microsecond / 1e6


def number(value):
    return float("nan") if value in (None, "") else float(value)


def same(ours, theirs, atol):
    np.testing.assert_allclose(ours, np.array(theirs, dtype=float), rtol=0, atol=atol)


@pytest.fixture(scope="module")
def logs():
    """(name, our sentences, pynmea2's) of every receiver's log."""
    paths = [*sample_files("nmea", ".log", 150), *sample_files("nmea", ".py", 5)]
    read = [(path.name, path.read_bytes()) for path in paths]
    return [(name, split_sentences(data), parsed_by_pynmea2(data)) for name, data in read]


def test_every_gga_fix_of_the_samples_is_where_pynmea2_finds_it(logs):
    count = 0
    for name, ours, theirs in logs:
        table = ours.tables[Sentence.GGA]
        table = table.where(table["quality"] > 0)
        fixes = [s for s in theirs["GGA"] if number(s.gps_qual) > 0]
        assert len(table) == len(fixes), name
        same(table["lat"], [s.latitude for s in fixes], 1e-12)
        same(table["lon"], [s.longitude for s in fixes], 1e-12)
        same(table["z"], [number(s.altitude) for s in fixes], 0)
        same(table["geoid_separation"], [number(s.geo_sep) for s in fixes], 0)
        same(table["satellites"], [number(s.num_sats) for s in fixes], 0)
        same(table["hdop"], [number(s.horizontal_dil) for s in fixes], 0)
        same(table["time"], [seconds_of(s.timestamp) for s in fixes], 1e-6)
        count += len(fixes)
    assert count > 2000


def test_every_rmc_fix_of_the_samples_is_where_and_when_pynmea2_finds_it(logs):
    count, first = 0, datetime(1970, 1, 1, tzinfo=timezone.utc).date()
    for name, ours, theirs in logs:
        table = ours.tables[Sentence.RMC]
        table = table.where(table["quality"] > 0)
        fixes = [s for s in theirs["RMC"] if s.status == "A" and getattr(s, "mode_indicator", "A") != "N"]
        assert len(table) == len(fixes), name
        same(table["lat"], [s.latitude for s in fixes], 1e-12)
        same(table["lon"], [s.longitude for s in fixes], 1e-12)
        same(table["time"], [seconds_of(s.timestamp) for s in fixes], 1e-6)
        dated = [(days, s) for days, s in zip(table["date"].tolist(), fixes) if s.datestamp]
        assert [days for days, _ in dated] == [
            float((century(s.datestamp) - first).days) for _, s in dated
        ], name
        count += len(fixes)
    assert count > 1000


def century(date):
    """pynmea2 turns two digits into 1969 to 2068, we into 1980 to 2079, the years of satellite navigation."""
    return date.replace(year=date.year + 100) if date.year < 1980 else date


def test_every_gst_of_the_samples_has_the_sigma_that_pynmea2_finds(logs):
    count = 0
    for name, ours, theirs in logs:
        table = ours.tables[Sentence.GST]
        assert len(table) == len(theirs["GST"]), name
        lat = np.array([number(s.std_dev_latitude) for s in theirs["GST"]], dtype=float)
        lon = np.array([number(s.std_dev_longitude) for s in theirs["GST"]], dtype=float)
        np.testing.assert_allclose(table["sd_xy"] ** 2, (lat**2 + lon**2) / 2, rtol=1e-12)
        same(table["sd_z"], [number(s.std_dev_altitude) for s in theirs["GST"]], 0)
        count += len(table)
    assert count > 180


def test_every_sample_log_gives_walks_or_a_reason():
    walks, reasons = 0, []
    for path in sample_files("nmea", ".log", 150):
        try:
            read = read_nmea(path.name, path.read_bytes())
        except BadInput as error:
            reasons.append(str(error).startswith(path.name))
        else:
            walks += len(read.walks)
            for walk in read.walks:
                assert np.isfinite(walk.xy).all()
                assert (np.diff(walk.time) >= 0).all()
                assert (walk.sd_xy[walk.hold > 0] >= 0.005).all()
    assert walks >= 60
    assert len(reasons) >= 10
    assert all(reasons)


# --- GPX against gpxpy ---


@pytest.fixture(scope="module")
def gpx_files():
    """(name, bytes, gpxpy's reading) of every GPX sample."""
    paths = sample_files("gpx", ".gpx", 30)
    return [(path.name, path.read_bytes(), gpxpy.parse(path.read_bytes())) for path in paths]


def their_groups(parsed):
    """Points of gpxpy by group: waypoints, routes, segments that are not empty."""
    groups = {GroupKind.WAYPOINTS: [parsed.waypoints], GroupKind.ROUTE: [r.points for r in parsed.routes]}
    groups[GroupKind.SEGMENT] = [s.points for track in parsed.tracks for s in track.segments]
    return {kind: [points for points in some if points] for kind, some in groups.items()}


def instant_of(time):
    """Nanoseconds; a time without a zone counts as UTC."""
    time = time if time.tzinfo else time.replace(tzinfo=timezone.utc)
    return (time - datetime(1970, 1, 1, tzinfo=timezone.utc)) // timedelta(microseconds=1) * 1000


def test_every_point_of_the_samples_is_where_and_when_gpxpy_finds_it(gpx_files):
    count = 0
    for name, data, parsed in gpx_files:
        ours = read_points(name, data).groups
        for kind, theirs in their_groups(parsed).items():
            groups = [group for group in ours if group.kind is kind]
            assert list(map(len, groups)) == list(map(len, theirs)), name
            for group, points in zip(groups, theirs):
                count += len(points)
                assert group.lat == [p.latitude for p in points]
                assert group.lon == [p.longitude for p in points]
                same(group.z, [number(p.elevation) for p in points], 0)
                # gpxpy keeps microseconds
                for instant, point in zip(group.instant, points):
                    if point.time is None:
                        assert instant is None, name
                    else:
                        assert instant // 1000 * 1000 == pytest.approx(instant_of(point.time), abs=1000), name
    assert count > 2500


def test_tracks_of_the_samples_are_as_long_as_the_geodesics_between_gpxpys_points(gpx_files):
    lengths = []
    for name, data, parsed in gpx_files:
        segments = their_groups(parsed)[GroupKind.SEGMENT]
        if not segments:
            continue
        walks = [walk for walk in read_gpx(name, data).walks if "waypoints" not in walk.name]
        walks = walks[-len(segments) :]
        for walk, points in zip(walks, segments):
            assert len(walk) == len(points), name
            theirs = GEOD.line_length([p.longitude for p in points], [p.latitude for p in points])
            ours = GEOD.line_length(walk.xy[:, 0], walk.xy[:, 1])
            assert ours == pytest.approx(theirs, rel=1e-9)
            if 0 < theirs < 1e5:
                # the metres in which stands are looked for, made without pyproj
                steps = np.diff(walked_metres(walk.xy[:, 0], walk.xy[:, 1]), axis=0)
                assert np.hypot(steps[:, 0], steps[:, 1]).sum() == pytest.approx(theirs, rel=1e-6)
                lengths.append(theirs)
    assert len(lengths) > 25
    assert sum(lengths) > 50_000
