# SPDX-License-Identifier: GPL-2.0-or-later
"""What a survey keeps of its picture: no more of the way to it than goes with the survey."""

from __future__ import annotations

import pytest

from plugin.bridge.run_facts import picture_fact


@pytest.mark.parametrize(
    ("picture", "shown"),
    [
        ("job/out/photo.tif", "photo.tif"),
        ("job/out/pictures/photo.tif", "pictures/photo.tif"),
        ("job/photo.tif", "../photo.tif"),
        ("photo.tif", "../../photo.tif"),
        ("job/pictures/photo.tif", "photo.tif"),
        ("somebody/private/photo.tif", "photo.tif"),
    ],
)
def test_of_the_way_to_the_picture_no_folder_elsewhere_is_kept(picture, shown, tmp_path):
    (fact,) = picture_fact(tmp_path / picture, tmp_path / "job" / "out")
    assert (fact.kind, fact.name, fact.value) == ("setting", "picture", shown)


def test_a_survey_without_a_picture_keeps_no_fact_of_one(tmp_path):
    assert picture_fact(None, tmp_path) == ()


def test_of_a_picture_on_another_drive_the_name_is_kept(tmp_path, monkeypatch):
    def refuse(*_):
        raise ValueError("path is on mount 'D:', start on mount 'C:'")

    monkeypatch.setattr("os.path.relpath", refuse)
    assert picture_fact(tmp_path / "far" / "photo.tif", tmp_path)[0].value == "photo.tif"
