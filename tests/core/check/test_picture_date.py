# SPDX-License-Identifier: GPL-2.0-or-later
"""PL-03: a picture's date that nobody can read does not switch the check off."""

from __future__ import annotations

import pytest
from builders import make_walk

from plugin.core.check.accuracy import check_picture
from plugin.core.walk import Control, ControlPoint, Job, LogKeys

POINT = ControlPoint("A", (1.0, 2.0), None, 0.05, None, is_check=False)


def asked(text):
    walk = make_walk([(0, 0), (1, 0)], keys=LogKeys(units="m", date="2026-05-12"))
    control = Control((POINT,), crs="EPSG:25831", other=(("picture-date", text),))
    return [f.message for f in check_picture(Job((walk,), control))]


@pytest.mark.parametrize("text", ["2026-03-01", "2026-03", "2026", "2025-06-01T10:00"])
def test_a_young_picture_is_left_in_peace(text):
    assert asked(text) == []


@pytest.mark.parametrize(
    ("text", "taken", "days"),
    [("2019-03-12", "2019-03-12", 2618), ("2019-03", "2019-03-01", 2629), ("2019", "2019-01-01", 2688)],
)
def test_an_old_picture_is_asked_about_however_its_date_is_cut(text, taken, days):
    assert asked(text) == [f"The picture of {taken} is {days} days older than the survey."]


@pytest.mark.parametrize("text", ["05/2019", "12.03.2019", "spring 2019", "=1+1", "2019-13", "2019-02-30"])
def test_a_date_that_is_none_is_told(text):
    assert asked(text) == [
        f'The picture-date "{text}" is no date, so nobody can see whether the picture is too old.'
    ]
