# SPDX-License-Identifier: GPL-2.0-or-later
"""A job's files from the disk: what cannot be read is told with its path, what is no table is named."""

from __future__ import annotations

from pathlib import Path

import pytest

from plugin.bridge.job import read_files
from plugin.bridge.run_facts import run_facts
from plugin.core.errors import BadInput

LOG = b"# units: m\nwalk,station,x,y\nW1,1,0,0\nW1,2,5,0\n"
GPX = b'<?xml version="1.0"?>\n<gpx version="1.1"><trk></trk></gpx>\n'
NMEA = b"$GPGGA,092750.000,5321.6802,N,00630.3372,W,1,8,1.03,61.7,M,55.2,M,,*76\n"
LANDXML = b'<?xml version="1.0"?>\n<LandXML version="1.2"></LandXML>\n'


@pytest.fixture
def job(tmp_path):
    """A folder with one log."""
    folder = tmp_path / "job"
    folder.mkdir()
    (folder / "w1.csv").write_bytes(LOG)
    return folder


@pytest.fixture
def locked(monkeypatch):
    """Names that the system refuses to open: the tests may run as a user whom nothing is refused."""
    names: set[str] = set()

    def guarded(method):
        original = getattr(Path, method)

        def refuse(self, *args, **kwargs):
            if self.name in names:
                raise PermissionError(13, "Permission denied", str(self))
            return original(self, *args, **kwargs)

        monkeypatch.setattr(Path, method, refuse)

    for method in ("open", "read_bytes", "iterdir", "stat"):
        guarded(method)
    return names


def refusal(*args, **kwargs):
    with pytest.raises(BadInput) as caught:
        read_files(*args, **kwargs)
    return str(caught.value)


@pytest.mark.parametrize("name", ["w1.csv", "job"])
def test_a_log_or_folder_that_may_not_be_read_is_told_with_its_path(name, job, locked):
    locked.add(name)
    path = job if name == "job" else job / name
    words = f"{path} cannot be read: Permission denied. Check that it is there and that you may read it, then run again."
    assert refusal([job]) == words
    if name == "w1.csv":
        assert refusal([path]) == words


def test_a_control_that_may_not_be_read_is_told_too(job, locked):
    control = job.parent / "control.csv"
    control.write_bytes(b"# crs: EPSG:25831\nmark,x,y\nA,1,2\n")
    locked.add("control.csv")
    assert refusal([job], {"control": control}).startswith(f"{control} cannot be read: Permission denied.")


def test_a_picture_that_may_not_be_read_is_told_when_it_is_summed_up(job, locked):
    picture = job.parent / "photo.jpg"
    picture.write_bytes(b"\xff\xd8")
    files = read_files([job], picture=picture)
    locked.add("photo.jpg")
    with pytest.raises(BadInput) as caught:
        run_facts(files, {}, "now")
    assert str(caught.value).startswith(f"{picture} cannot be read: Permission denied.")


def test_a_name_longer_than_a_name_may_be_is_told(job):
    assert "cannot be read: File name too long." in refusal([job / ("w" * 300 + ".csv")])


def test_what_no_survey_is_made_from_is_named(job):
    for name, data in (("a.gpx", GPX), ("b.nmea", NMEA), ("c.xml", LANDXML), ("d.txt", b"Words.\n")):
        (job / name).write_bytes(data)
    (job / "rates.csv").write_bytes(b"item,unit,rate\nkerb,m,1\n")
    files = read_files([job])
    assert files.not_read == ("d.txt", "rates.csv")
    assert {"a.gpx", "b.nmea", "c.xml"} < set(files.texts)
    assert read_files([job / "w1.csv"]).not_read == ()
