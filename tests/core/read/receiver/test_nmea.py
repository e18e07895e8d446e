# SPDX-License-Identifier: GPL-2.0-or-later
"""NMEA 0183 logs: pairing, days, faults, stands."""

from __future__ import annotations

import math
import re
import time
from functools import reduce
from operator import xor

import numpy as np
import pyproj
import pytest
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.errors import BadInput
from plugin.core.findings import Severity
from plugin.core.read.receiver.nmea import read_nmea
from plugin.core.walk import ErrorGrowth, Kind, Leg, SourceClass

GEOD = pyproj.Geod(ellps="WGS84")


def summed(body):
    """A sentence with its checksum."""
    return f"${body}*{reduce(xor, body.encode(), 0):02X}"


def place(lat, lon):
    """Degrees as fields of a sentence, to 1e-9 minutes (0.002 mm)."""

    def packed(value, width):
        degrees = math.floor(abs(value))
        return f"{degrees:0{width}d}{(abs(value) - degrees) * 60:012.9f}"

    return f"{packed(lat, 2)},{'S' if lat < 0 else 'N'},{packed(lon, 3)},{'W' if lon < 0 else 'E'}"


def clock(seconds):
    seconds %= 86400
    return f"{int(seconds // 3600):02d}{int(seconds % 3600 // 60):02d}{seconds % 60:05.2f}"


def gga(seconds, lat, lon, z=100.0, quality=4, talker="GN"):
    return summed(
        f"{talker}GGA,{clock(seconds)},{place(lat, lon)},{quality},12,0.8,{z:.3f},M,47.0,M,1.0,0001"
    )


def rmc(seconds, lat, lon, date="010524", status="A", tail=",,A"):
    return summed(f"GNRMC,{clock(seconds)},{status},{place(lat, lon)},0.1,,{date}{tail}")


def gst(seconds, sd_lat, sd_lon, sd_z):
    return summed(f"GNGST,{clock(seconds)},1.0,,,,{sd_lat},{sd_lon},{sd_z}")


def read(*lines, file="day/yard.nmea", end="\r\n"):
    return read_nmea(file, end.join([*lines, ""]).encode("latin-1"))


def told(result):
    return [(f.code, f.severity, f.line, f.message, f.remedy_text, f.answers) for f in result.findings]


def walking(n, start=36000, speed=1.2, **more):
    """GGA sentences of a straight walk north, one a second."""
    return [gga(start + k, 48 + k * speed / 111_200, 11.0, **more) for k in range(n)]


NO_DAY = (
    "IN-06", Severity.NOTE, 1, "day/yard.nmea, line 1: no day is stated with the times; they count from the first fix.",
    "None needed; let the receiver write RMC or ZDA to have the date.", (),
)  # fmt: skip


def test_gga_rmc_and_gst_of_one_moment_are_one_row():
    result = read(
        gga(36000, 48.1, 11.5, 545.4), rmc(36000, 48.1, 11.5), gst(36000, 0.03, 0.04, 0.05),
        gst(36001.5, 0.3, 0.4, 0.5), rmc(36001.5, 48.2, 11.6), gga(36001.5, 48.2, 11.6, 546.0),
    )  # fmt: skip
    (walk,) = result.walks
    assert (walk.name, walk.file, walk.station) == ("yard", "day/yard.nmea", ("1", "2"))
    assert walk.line.tolist() == [1, 6]
    np.testing.assert_allclose(walk.xy, [[11.5, 48.1], [11.6, 48.2]], rtol=0, atol=1e-10)
    assert walk.z.tolist() == [545.4, 546.0]
    assert walk.time.tolist() == [0.0, 1.5]
    assert walk.started == "2024-05-01T10:00:00Z"
    # the root mean square of 0.03 and 0.04, and of 0.3 and 0.4
    np.testing.assert_allclose(walk.sd_xy, [0.035355339059, 0.35355339059], rtol=1e-10)
    assert walk.sd_z.tolist() == [0.05, 0.5]
    assert walk.leg == (Leg.AS_WALKED,) * 2
    assert walk.hold.tolist() == [0.0, 0.0]
    assert (walk.feature, walk.part, walk.kind) == (("yard",) * 2, ("",) * 2, (Kind.LENGTH,) * 2)
    assert dict(walk.extra) == {
        "quality": ("4", "4"), "satellites": ("12", "12"), "hdop": ("0.8", "0.8"), "geoid_separation": ("47", "47"),
    }  # fmt: skip
    keys = walk.keys
    assert (keys.units, keys.unit_m, keys.crs, keys.date) == ("m", 1.0, "EPSG:4326", "2024-05-01")
    assert (keys.source_class, keys.growth) == (SourceClass.INSTRUMENT, ErrorGrowth.RECEIVER)
    assert told(result) == []


@pytest.mark.parametrize(
    ("qualities", "source_class"),
    [
        ((4, 5, 4), SourceClass.INSTRUMENT),
        ((4, 1, 4), SourceClass.PHONE),
        ((2, 2, 2), SourceClass.PHONE),
    ],
)
def test_a_log_is_an_instruments_where_every_fix_is_rtk(qualities, source_class):
    lines = [gga(k, 48 + k * 1e-5, 11.0, quality=q) for k, q in enumerate(qualities)]
    assert read(*lines).walks[0].keys.source_class is source_class


@pytest.mark.parametrize("talker", ["GP", "GN", "GL", "GA", "GB", "BD", "QZ"])
def test_any_talker_is_read(talker):
    assert len(read(gga(0, 48.0, 11.0, talker=talker)).walks[0]) == 1


def test_south_and_west_are_negative():
    (walk,) = read(gga(0, -33.25, -70.5)).walks
    np.testing.assert_allclose(walk.xy, [[-70.5, -33.25]], rtol=0, atol=1e-11)


def test_rmc_alone_gives_places_without_heights_and_its_mode_the_quality():
    result = read(rmc(5, 48.0, 11.0, tail=",,,R,V"), rmc(6, 48.00001, 11.0, tail=",,,F"))
    (walk,) = result.walks
    assert np.isnan(walk.z).all()
    assert walk.extra == {"quality": ("4", "5")}
    assert walk.keys.source_class is SourceClass.INSTRUMENT
    assert walk.started == "2024-05-01T00:00:05Z"
    assert told(result) == []


def test_midnight_turns_the_day_with_and_without_a_date():
    times = [86398, 86399, 86400, 86401]
    bare = read(*(gga(t, 48 + t * 1e-5, 11) for t in times))
    assert bare.walks[0].time.tolist() == [0, 1, 2, 3]
    assert (bare.walks[0].started, bare.walks[0].keys.date) == ("", None)
    assert told(bare) == [NO_DAY]
    dated = read(
        *(
            s
            for t in times
            for s in (gga(t, 48 + t * 1e-5, 11), rmc(t, 48, 11, "310524" if t < 86400 else "010624"))
        )
    )
    assert dated.walks[0].time.tolist() == [0, 1, 2, 3]
    assert dated.walks[0].started == "2024-05-31T23:59:58Z"


def test_one_date_serves_the_fixes_before_it_and_after_midnight():
    lines = [
        gga(86390, 48, 11), summed("GPZDA,235951.00,28,02,2024,00,00"), gga(86391, 48.00001, 11), gga(86405, 48.00002, 11)
    ]  # fmt: skip
    (walk,) = read(*lines).walks
    assert walk.started == "2024-02-28T23:59:50Z"
    assert walk.time.tolist() == [0, 1, 15]


def test_the_years_of_two_digits_begin_in_1980():
    years = {"010180": "1980", "311299": "1999", "010100": "2000", "311279": "2079"}
    for date, year in years.items():
        assert read(gga(0, 48, 11), rmc(0, 48, 11, date)).walks[0].started[:4] == year


def test_a_gap_of_more_than_ten_minutes_and_a_time_that_runs_back_start_a_new_walk():
    times = [1000, 1001, 1601, 2202, 2203, 500]
    result = read(*(gga(t, 48 + t * 1e-5, 11) for t in times))
    assert [(w.name, len(w), w.feature[0]) for w in result.walks] == [
        ("yard", 3, "yard"), ("yard (2)", 2, "yard (2)"), ("yard (3)", 1, ""),
    ]  # fmt: skip
    assert [w.time.tolist() for w in result.walks] == [[0, 1, 601], [0, 1], [0]]


def test_two_days_in_one_file_are_two_walks_with_their_own_start():
    first = [s for t in (100, 101) for s in (gga(t, 48 + t * 1e-5, 11), rmc(t, 48, 11, "010524"))]
    second = [s for t in (200, 201) for s in (gga(t, 48 + t * 1e-5, 11), rmc(t, 48, 11, "030524"))]
    one, two = read(*first, *second).walks
    assert (one.started, two.started) == ("2024-05-01T00:01:40Z", "2024-05-03T00:03:20Z")
    assert (one.keys.date, two.keys.date) == ("2024-05-01", "2024-05-03")


def test_sentences_without_a_fix_are_passed_over_in_one_note():
    empty = summed("GPGGA,100000.00,,,,,0,00,,,M,0.0,M,,0000")
    odd = summed("GPGGA,235946.005,8960.000000,N,00000.000000,E,0,0,,137.000,M,13.000,M,,")
    blank = summed("GPGGA,,,,,,,,,,,,,,")
    result = read(
        empty, odd, blank, gga(36001, 48, 11), gga(36002, 48.1, 11), rmc(36002, 48.1, 11, status="V")
    )
    assert len(result.walks[0]) == 1
    assert told(result)[0] == (
        "IN-06", Severity.NOTE, 1,
        "day/yard.nmea, line 1: sentences without a fix were passed over. Such sentences: 4.",
        "None needed; look at the track for gaps.", (),
    )  # fmt: skip


def test_wrong_checksums_are_one_stop_with_their_number_and_the_first_line():
    lines = walking(5)
    lines[1] = lines[1][:-2] + ("00" if lines[1][-2:] != "00" else "01")
    lines[3] = lines[3].replace("48", "49", 1)
    result = read(*lines)
    assert result.walks[0].line.tolist() == [1, 3, 5]
    assert told(result)[0] == (
        "IN-01", Severity.STOP, 2,
        (f'day/yard.nmea, line 2: "{lines[1][:60]}" cannot be used: its checksum is wrong, a field is missing or too many, '
        "or a value cannot be. Such sentences: 2."),
        "Record the log anew, or confirm with: left out. The other sentences were read.", ("left out",),
    )  # fmt: skip


@pytest.mark.parametrize(
    "body",
    [
        "GPGGA,100001.00,9000.001,N,01100.000,E,1,08,0.9,545.4,M,46.9,M,,",  # beyond the pole
        "GPGGA,100001.00,4860.000,N,01100.000,E,1,08,0.9,545.4,M,46.9,M,,",  # sixty minutes
        "GPGGA,100001.00,4800.000,N,18000.001,E,1,08,0.9,545.4,M,46.9,M,,",
        "GPGGA,240001.00,4800.000,N,01100.000,E,1,08,0.9,545.4,M,46.9,M,,",  # no such hour
        "GPGGA,106001.00,4800.000,N,01100.000,E,1,08,0.9,545.4,M,46.9,M,,",
        "GPGGA,,4800.000,N,01100.000,E,1,08,0.9,545.4,M,46.9,M,,",  # a fix without a time
        "GPGGA,100001.00,,N,01100.000,E,1,08,0.9,545.4,M,46.9,M,,",  # without a latitude
        "GPGGA,100001.00,4800.000,,01100.000,E,1,08,0.9,545.4,M,46.9,M,,",  # north or south?
        "GPGGA,100001.00,800.000,N,01100.000,E,1,08,0.9,545.4,M,46.9,M,,",  # a digit lost
        "GPGGA,100001.00,4800.000,N,01100.000,E,1,08,0.9,545.4,M",  # fields missing
        "GPGGA,100001.00,4800.000,N,01100.000,E,1,08,0.9,545.4,M,46.9,M,,,,,",  # too many
        "GPGGA,100001.00,4800.000,N,01100.000,E,1,08,0.9,54x.4,M,46.9,M,,",
        "GPGGA,100001.00,4800.000,N,01100.000,E,1,08,0.9,545.4,f,46.9,M,,",  # not metres
        f"GPGGA,100001.00,4800.000,N,01100.000,E,1,08,0.9,{'9' * 400},M,46.9,M,,",
        "GPGGA,100001.00,nan,N,01100.000,E,1,08,0.9,545.4,M,46.9,M,,",
        "GPRMC,100001.00,A,4800.000,N,01100.000,E,,,320124,,",  # no such day
        "GPRMC,100001.00,A,4800.000,N,01100.000,E,,,0101,,",
        "GPGST,100001.00,,,,,0.1,x,0.3",
        "GPZDA,100001.00,31,02,2024,00,00",
        "GPZDA,100001.00,31,01,9024,00,00",
        "GPGGX,100001.00,4800.000,N,01100.000,E,1,08,0.9,545.4,M,46.9,M,,*00 ",  # a damaged name
    ],
)
def test_a_sentence_with_a_value_that_cannot_be_is_left_out_and_told(body):
    line = f"${body.strip()}" if "*" in body else summed(body)
    result = read(gga(36000, 48, 11), line, gga(36002, 48.00002, 11))
    assert result.walks[0].line.tolist() == [1, 3]
    assert [(f.code, f.line, f.data["count"], f.data["cell"]) for f in result.findings if f.severity is Severity.STOP] == [
        ("IN-01", 2, 1, line[:60])
    ]  # fmt: skip


def test_sentences_without_a_checksum_are_used_and_noted_once():
    lines = [line.partition("*")[0] for line in walking(3)]
    result = read(*lines)
    assert len(result.walks[0]) == 3
    assert told(result)[0] == (
        "IN-06", Severity.NOTE, 1,
        "day/yard.nmea, line 1: sentences without a checksum were used; a wrong digit would not show. Such sentences: 3.",
        "None needed; let the receiver write checksums.", (),
    )  # fmt: skip


def test_glued_and_cut_sentences_nul_bytes_and_any_line_end_are_taken_apart():
    a, b, c, d, e = walking(5)
    data = f"{a}{b}\n{c[:25]}{d}\r\r\n\0\0{e[:10]}\0{e[10:]}\r"
    result = read_nmea("yard.nmea", data.encode())
    assert result.walks[0].line.tolist() == [1, 1, 2, 4]
    stop = result.findings[0]
    assert (stop.code, stop.line, stop.data["count"], stop.data["cell"]) == ("IN-01", 2, 1, c[:25])


def test_a_cut_sigma_without_its_checksum_is_not_used():
    sigma = gst(36000, 0.03, 0.04, 0.55).partition("*")[0]
    glued = sigma[:-1] + gga(36001, 48.00001, 11)
    result = read(gga(36000, 48, 11), glued)
    assert np.isnan(result.walks[0].sd_z).all()
    assert result.findings[0].data["cell"] == sigma[:-1]


def test_utf_16_and_a_byte_order_mark_are_read():
    text = "\r\n".join(walking(3))
    for encoding in ("utf-16", "utf-16-le", "utf-8-sig"):
        result = read_nmea("yard.nmea", text.encode(encoding))
        assert len(result.walks[0]) == 3
        assert [f.code for f in result.findings] == ["IN-06"]


def test_a_sentence_whose_start_is_lost_is_told_and_other_text_noted():
    lines = walking(3)
    lines[1] = lines[1][3:]
    result = read("# a GGA log", lines[0], lines[1], f"12:00 {lines[2]}")
    assert result.walks[0].line.tolist() == [2, 4]
    assert [m[:4] for m in told(result)][:2] == [
        ("IN-01", Severity.STOP, 3,
         (f'day/yard.nmea, line 3: "{lines[1][:60]}" cannot be used: its checksum is wrong, a field is missing or too many, '
         "or a value cannot be. Such sentences: 1.")),
        ("IN-06", Severity.NOTE, 1,
         'day/yard.nmea, line 1: "# a GGA log" is in no sentence and was passed over. Such lines: 2.'),
    ]  # fmt: skip


def test_other_sentences_are_noted_once_by_name_even_damaged_ones():
    others = [summed("GPGSV,1,1,00"), summed("GPGSV,1,1,01"), summed("PQTMX,3"), "$GPGSA,A,3*00"]
    result = read(*walking(2), *others)
    assert told(result)[0] == (
        "IN-06", Severity.NOTE, None,
        "day/yard.nmea: other sentences were passed over: GPGSA 1, GPGSV 2, PQTMX 1.", "None needed.", (),
    )  # fmt: skip


def test_another_talkers_fix_of_the_same_time_and_a_fix_written_twice_are_passed_over():
    a, b = gga(36000, 48, 11, talker="GP"), gga(36000, 48.000001, 11, talker="GL")
    result = read(a, b, a, gga(36001, 48.00001, 11), gga(36001, 48.00002, 11))
    # two places of one talker in one second are a fast receiver with coarse times
    assert result.walks[0].line.tolist() == [1, 4, 5]
    assert told(result)[0][3] == (
        "day/yard.nmea, line 2: fixes that repeat the time of the one before from the same place, or from another talker, "
        "were passed over. Such fixes: 2."
    )


def test_reckoned_fixes_are_used_and_noted():
    result = read(gga(36000, 48, 11, quality=6), gga(36001, 48.00001, 11, quality=8))
    assert len(result.walks[0]) == 2
    assert told(result)[0][3:5] == (
        ("day/yard.nmea, line 1: fixes that the receiver reckoned, took from the keyboard or simulated (quality 6, 7 or 8) "
        "were used. Such fixes: 2."),
        "Take their lines out if they are not of this site.",
    )  # fmt: skip


def test_rmc_at_other_times_than_gga_is_noted():
    result = read(gga(36000, 48, 11), rmc(36000, 48, 11), rmc(36000.5, 48, 11), gga(36001, 48.00001, 11))
    assert told(result)[0][3:5] == (
        "day/yard.nmea, line 3: places in RMC at times without a GGA fix were not used. Such sentences: 1.",
        "None needed; take the GGA lines out to use RMC, without heights.",
    )


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "a.nmea: there is no GGA or RMC sentence of NMEA 0183 in it. Let the receiver write one of them."),
        ("$", "a.nmea: there is no GGA or RMC sentence of NMEA 0183 in it. Let the receiver write one of them."),
        ("hello\nworld", "a.nmea: there is no GGA or RMC sentence of NMEA 0183 in it. Let the receiver write one of them."),
        (f"\n{summed('GPGGA,,,,,,0,,,,,,,,')}",
         "a.nmea: none of its 1 sentences with a position has a fix (the first in line 2). Record it under open sky."),
        ("\n\n$GPGGA,1*00",
         ('a.nmea, line 3: "$GPGGA,1*00" cannot be used, and there is no GGA or RMC sentence that can. Record the log anew; '
         "a receiver's binary messages are not read.")),
    ],
)  # fmt: skip
def test_a_log_without_a_fix_is_refused(text, message):
    with pytest.raises(BadInput, match=f"^{re.escape(message)}$"):
        read_nmea("a.nmea", text.encode())


def standing(n, start, at, rng, sd=0.004, quality=4):
    lat, lon = at
    north, east = rng.normal(0, sd, (2, n))
    return [
        gga(start + k, lat + north[k] / 111_200, lon + east[k] / 74_600, 100 + k * 1e-3, quality)
        for k in range(n)
    ]


def test_a_stand_becomes_one_station_at_its_mean_with_a_sigma_that_is_no_standard_error():
    rng = np.random.default_rng(7)
    lat = 48 + 29 * 1.2 / 111_200
    lines = [*walking(30), *standing(40, 36030, (lat + 1e-5, 11.0), rng)]
    lines += [gga(36070 + k, lat + 1e-5, 11 + (k + 1) * 1.2 / 74_600) for k in range(20)]
    (walk,) = read(*lines).walks
    assert len(walk) == 30 + 1 + 20
    assert walk.leg[30] is Leg.DIRECT
    assert set(walk.leg[:30] + walk.leg[31:]) == {Leg.AS_WALKED}
    assert walk.hold[30] == 39.0
    assert walk.time[30] == 30.0
    assert walk.line[30] == 31
    assert walk.extra["fixes"][29:32] == ("", "40", "")
    _, _, away = GEOD.inv(*walk.xy[30], 11.0, lat + 1e-5)
    # the mean of 40 fixes of 4 mm per axis: 0.9 mm in plan, one sigma
    assert away < 0.003
    assert walk.sd_xy[30] == 0.02
    assert np.isnan(walk.sd_xy[:30]).all()
    assert walk.sd_z[30] == pytest.approx(0.03)
    assert walk.z[30] == pytest.approx(100.0195, abs=1e-9)
    assert set(walk.feature) == {"yard"}


@pytest.mark.parametrize(("quality", "sigma"), [(4, 0.02), (5, 0.3), (2, 1.5), (1, 4.0), (3, 4.0)])
def test_a_stands_sigma_is_its_qualitys_where_none_is_stated(quality, sigma):
    lines = standing(30, 36000, (48, 11), np.random.default_rng(1), quality=quality)
    (walk,) = read(*lines).walks
    assert (len(walk), walk.hold[0]) == (1, 29.0)
    assert walk.sd_xy[0] == sigma
    # one station alone is a place, not a length
    assert (walk.feature, walk.kind, walk.leg) == (("",), (None,), (Leg.DIRECT,))


def test_a_stands_sigma_is_the_median_of_the_stated_ones_and_never_under_five_millimetres():
    rng = np.random.default_rng(2)
    for stated, sigma in ((0.012, 0.012), (0.001, 0.005), (0.0, 0.02)):
        fixes = standing(30, 36000, (48, 11), rng, sd=0.001)
        lines = [s for k, fix in enumerate(fixes) for s in (fix, gst(36000 + k, stated, stated, stated))]
        assert read(*lines).walks[0].sd_xy[0] == pytest.approx(sigma, rel=1e-12)


def test_a_stand_at_the_date_line_keeps_its_longitude():
    lines = []
    for k in range(20):
        lon = 180 - 1e-8 if k % 2 else -180 + 1e-8
        lines.append(gga(36000 + k, 10.0, lon))
    (walk,) = read(*lines).walks
    assert len(walk) == 1
    assert abs(walk.xy[0, 0]) == pytest.approx(180.0, abs=1e-9)
    assert -180 <= walk.xy[0, 0] <= 180


def test_two_hundred_thousand_sentences_are_read_in_seconds():
    """A million took five seconds; a quadratic step would take hours."""
    n = 66_900
    body = [
        f"GNGGA,{clock(k * 0.2)},{place(48 + k * 1e-7, 11)},4,12,0.8,100.0,M,47.0,M,," for k in range(300)
    ]
    block = "".join(
        summed(b) + "\r\n" + summed("GNGST,100000.00,,,,,1,1,1") + "\r\n" + summed("GPGSV,1,1,00") + "\r\n"
        for b in body
    )
    data = (block * (n // 300)).encode()
    begin = time.process_time()
    result = read_nmea("big.nmea", data)
    spent = time.process_time() - begin
    assert data.count(b"$") > 200_000
    # every block starts at the same time again, so each is a walk
    assert sum(map(len, result.walks)) > 66_000
    assert spent < 3


@given(st.binary(max_size=300), st.integers(0, 5))
def test_bytes_in_the_middle_of_a_log_are_survived(junk, at):
    lines = walking(6)
    data = "\r\n".join(lines[:at]).encode() + junk + "\r\n".join(lines[at:]).encode()
    try:
        result = read_nmea("a.nmea", data)
    except BadInput:
        return
    rows = np.concatenate([walk.xy for walk in result.walks])
    # what is read is some of what was written: no fix is made up
    true = np.array([[11.0, 48 + k * 1.2 / 111_200] for k in range(6)])
    assert np.abs(rows[:, None] - true[None]).sum(axis=2).min(axis=1).max() < 1e-9


def test_a_float_fix_between_fixed_ones_is_worth_what_its_quality_is():
    lines = [gga(k, 48 + k * 1e-5, 11.0, quality=q) for k, q in enumerate((4, 5, 4))]
    (walk,) = read(*lines).walks
    np.testing.assert_allclose(walk.sd_xy, [0.02, 0.3, 0.02])
    (walk,) = read(*(gga(k, 48 + k * 1e-5, 11.0) for k in range(3))).walks
    assert np.isnan(walk.sd_xy).all()
