# SPDX-License-Identifier: GPL-2.0-or-later
"""Whatever is done to a job's files, the whole chain ends in a survey whose figures are finite, or in a message."""

from __future__ import annotations

import csv
import math
import time
from pathlib import Path

import numpy as np
import pytest

from plugin.core.errors import GroundTallyError
from plugin.core.measure.chain import Settings, survey_files
from plugin.core.measure.rows import Survey
from plugin.core.quantity import Quantity

DEMO = Path(__file__).parents[3] / "resources" / "demo"
JOBS = ("marlisk_yard", "sorrelback_lane")
ROUNDS = 150
LONGEST = 10.0
"""Seconds that the rounds of one job may take together: on a slow machine there are fewer."""
CELLS = ("", "0", "-1", "1e9", "1e-9", "nan", "inf", "A", "B", "curve", "curve-end", "carry", "as-walked", "area",
         "length", "spot", "1e300", "12,5", "=1+1", "left", "Paved court", "check", "fit", "{x}", " ", "5000000")  # fmt: skip
UNITS = ("m", "ft", "us-ft", "in", "mm", "furlong", "")


def read_demo(job):
    return {path.name: path.read_text("utf-8") for path in sorted((DEMO / job).glob("*.csv"))}


class Table:
    """The rows of one file, to be spoilt; comment lines apart."""

    def __init__(self, text):
        lines = text.splitlines()
        self.keys = [line for line in lines if line.startswith("#")]
        self.rows = list(csv.reader(line for line in lines if not line.startswith("#")))

    def text(self):
        return "\n".join([*self.keys, *(",".join(row) for row in self.rows)]) + "\n"

    def a_row(self, rng):
        return int(rng.integers(1, len(self.rows))) if len(self.rows) > 1 else None


def replace_cell(table, rng):
    for _ in range(int(rng.integers(1, 6))):
        row = table.rows[table.a_row(rng)]
        row[int(rng.integers(len(row)))] = str(rng.choice(CELLS))


def drop_rows(table, rng):
    start = table.a_row(rng)
    del table.rows[start : start + int(rng.integers(1, len(table.rows)))]


def double_row(table, rng):
    row = table.a_row(rng)
    table.rows.insert(row, list(table.rows[row]))


def exchange_rows(table, rng):
    one, other = table.a_row(rng), table.a_row(rng)
    table.rows[one], table.rows[other] = table.rows[other], table.rows[one]


def rename_mark(table, rng):
    for row in table.rows[1:]:
        row[:] = [
            str(rng.choice(["A", "B", "Z", cell])) if cell in ("A", "B", "BM1", "C", "D") else cell
            for cell in row
        ]


def change_units(table, rng):
    table.keys = [key for key in table.keys if not key.startswith("# units")]
    table.keys.append(f"# units: {rng.choice(UNITS)}")


def name_crs(table, rng):
    table.keys.append(f"# crs: {rng.choice(['EPSG:25831', 'EPSG:4326', 'EPSG:32633', 'nothing'])}")


def drop_keys(table, rng):
    table.keys = [key for key in table.keys if rng.random() < 0.5]


def scale_column(table, rng):
    column, factor = (
        int(rng.integers(len(table.rows[0]))),
        float(rng.choice([0.0, -1.0, 1e-3, 0.3048, 1.01, 1e4])),
    )
    for row in table.rows[1:]:
        try:
            row[column] = repr(float(row[column]) * factor)
        except (ValueError, IndexError):
            continue


def drop_column(table, rng):
    column = int(rng.integers(len(table.rows[0])))
    for row in table.rows:
        del row[column : column + 1]


def blank_column(table, rng):
    column = int(rng.integers(len(table.rows[0])))
    for row in table.rows[1:]:
        row[column : column + 1] = [""]


def one_word(table, rng):
    """One column holds one word throughout."""
    column, word = int(rng.integers(len(table.rows[0]))), str(rng.choice(CELLS))
    for row in table.rows[1:]:
        row[column : column + 1] = [word]


WAYS = (
    replace_cell, drop_rows, double_row, exchange_rows, rename_mark, change_units, name_crs, drop_keys, scale_column,
    drop_column, blank_column, one_word,
)  # fmt: skip


def spoilt(files, rng):
    """The files after one to three changes; sometimes one is missing."""
    files = dict(files)
    for _ in range(int(rng.integers(1, 4))):
        name = str(rng.choice(list(files)))
        table = Table(files[name])
        if len(table.rows) > 1:
            WAYS[int(rng.integers(len(WAYS)))](table, rng)
            files[name] = table.text()
    if rng.random() < 0.15:
        files.pop(str(rng.choice(list(files))))
    return files


def figures(survey: Survey):
    for rows in (survey.areas, survey.lengths, survey.spots, survey.sides, survey.legs):
        for row in rows:
            for name, value in vars(row).items():
                if isinstance(value, Quantity):
                    yield f"{type(row).__name__} {row.tags.feature} {name}", value


def check(survey: Survey):
    for name, quantity in figures(survey):
        assert math.isfinite(quantity.value), name
        assert math.isfinite(quantity.sigma), name
        assert quantity.sigma >= 0.0, name
    for row in (*survey.stations, *survey.marks):
        assert all(math.isfinite(v) for v in row.point[:2]), row
        assert row.ellipse is None or math.isfinite(row.ellipse.major), row
    for finding in survey.findings:
        assert finding.message, finding.code
        assert finding.remedy_text, finding.code


def run(files, **settings):
    """The survey, or None where the chain said why not."""
    try:
        survey = survey_files({name: text.encode() for name, text in files.items()}, Settings(**settings))
    except GroundTallyError:
        return None
    check(survey)
    return survey


@pytest.mark.parametrize("job", JOBS)
def test_spoilt_files_end_in_a_survey_or_a_message(job):
    files, began, surveys, done = read_demo(job), time.monotonic(), 0, 0
    for seed in range(ROUNDS):
        if time.monotonic() - began > LONGEST:
            break
        rng = np.random.default_rng([seed, JOBS.index(job)])
        made = spoilt(files, rng)
        try:
            surveys += run(made) is not None
        except Exception as error:
            raise AssertionError(f"{job}, seed {seed}: {error!r}") from error
        done += 1
    # A loaded machine gets through few. Most changes leave a job that can be surveyed: else this would test the
    # reader alone.
    assert done >= 5
    assert surveys > done / 4
