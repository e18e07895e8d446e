# SPDX-License-Identifier: GPL-2.0-or-later
"""A walk log that no reader knows as one is refused, not left aside; other files are left alone."""

from __future__ import annotations

import pytest

from plugin.core.errors import BadInput
from plugin.core.read.job import read_job
from plugin.core.read.lost_logs import refuse_lost_log

LOG = "# units: m\nwalk,station,x,y,mark\nW1,1,0,0,A\nW1,2,5,0,B\n"
GOOD = {"good.csv": LOG.encode()}
SEPARATORS = (
    "lost.csv, line 2: the header of a walk log stands here, but its columns are not separated by commas, semicolons or "
    "tabs. Separate them so."
)
NUL = "lost.csv, line 1: a NUL byte stands here, so this is not text. Save it again as UTF-8 CSV."


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (LOG.replace(",", "|").encode(), SEPARATORS),
        (LOG.replace(",", " ").encode(), SEPARATORS),
        (LOG.replace(",", ":").replace("\n", "\r\n").encode(), SEPARATORS),
        (LOG.encode("utf-16-le"), NUL),
        (LOG.encode("utf-16-be"), NUL),
        (LOG.encode("utf-32-le"), NUL),
    ],
)
def test_a_log_whose_columns_cannot_be_told_apart_is_refused_beside_a_good_one(data, message):
    with pytest.raises(BadInput) as refused:
        read_job({**GOOD, "lost.csv": data})
    assert str(refused.value) == message


@pytest.mark.parametrize(
    "text",
    [
        "# About\n\nGive walk logs: tables with the columns walk, station, x and y.\n",
        "# units: m\n",
        "",
        "\n\n",
        "| table | columns |\n|---|---|\n| log | walk, station, x, y |\n",
        '{"columns": ["walk", "station", "x", "y"], "title": "what a log has"}',
        "x" * 100_000,
        "\x00\x01\x02" * 1000,
    ],
)
def test_what_only_speaks_of_logs_is_left_alone(text):
    refuse_lost_log("about.md", text.encode())


def test_a_file_of_numbers_that_is_not_read_is_told():
    from plugin.core.read.job import read_job

    log = b"# units: m\nwalk,station,x,y\nW1,1,0,0\nW1,2,5,0\n"
    listed = b"Exported list\nJob: north\n\n(Point,Easting,Northing)\n1;500000.1;5700000.2\n2;500010.1;5700000.2\n3;500010.3;5700009.2\n"
    listed += b"4;500012.1;5700011.2\n5;500014.1;5700012.2\n"
    notes = [f.message for f in read_job({"a.csv": log, "pts.txt": listed}).findings if f.file == "pts.txt"]
    assert notes == [
        "pts.txt lies among the files, has numbers in most of its lines, and was not read: no kind of table was recognised."
    ]
    assert (
        read_job({"a.csv": log, "words.txt": b"Walked on a dry day.\nTwo of us.\nNo trees.\n"}).findings == ()
    )
