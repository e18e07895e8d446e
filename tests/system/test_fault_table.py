# SPDX-License-Identifier: GPL-2.0-or-later
"""Faults in logs, control and tapes, each with the finding or the sentence that it must give, and its clean twin,
which gives none. Where a row stops, no figure that the mistake has touched is shown as if it were right."""

from __future__ import annotations

import math
import sqlite3
import time
from contextlib import closing
from pathlib import Path

import numpy as np
import pytest

from plugin.core.errors import Refused
from plugin.core.findings import Severity
from plugin.core.measure.chain import Settings, survey_files
from plugin.core.read.job import read_job
from tests.system.fault_cases.beside import BESIDE
from tests.system.fault_cases.edits import chain, every, moved, swap, table, without
from tests.system.fault_cases.harmless import HARMLESS, NAMES, SILENT
from tests.system.fault_cases.job import (
    COLUMNS,
    CONTROL,
    EAST,
    GRID,
    INSTRUMENTS,
    LOG_1,
    LOG_2,
    MARKS,
    NORTH,
    small,
    write_walk,
)
from tests.system.fault_cases.reading import READING
from tests.system.fault_cases.refusals import REFUSALS
from tests.system.fault_cases.shaping import SHAPING
from tests.system.fault_cases.walking import WALKING

ROOT = Path(__file__).resolve().parents[2]
CASES = (*READING, *WALKING, *SHAPING, *BESIDE)
FIGURES = {
    "areas": ("area", "perimeter", "sloped_area"),
    "lengths": ("length", "slope_length", "rise"),
    "spots": ("height",),
}
FAR = 4.5
"""Sigmas: a figure this far from the clean twin's is another figure."""
MEND_THE_LOG = ("GE-01", "TI-01")
"""Stops that not every answer, or none, can settle."""
ROUNDING = 1e-3
"""m or m2: what the four decimals of the small job may come to."""
_SURVEYS: dict[tuple[tuple[str, bytes], ...], object] = {}


def named(case):
    return case.name


def survey_of(files):
    """The survey of some files; twins that are the same are surveyed once."""
    key = tuple(sorted(files.items()))
    if key not in _SURVEYS:
        _SURVEYS[key] = survey_files(files)
    return _SURVEYS[key]


def open_ones(survey, *beside):
    """Code and place of what is open, but for what is asked of neighbours (of these codes)."""
    return sorted((f.code, f.place) for f in survey.findings if f.is_open and f.code not in beside)


def figures_of(survey):
    """(table, feature, part, column) -> the figure and the codes that keep it out."""
    return {
        (name, row.tags.feature, row.tags.part, column): (getattr(row, column), row.tags.finding)
        for name, columns in FIGURES.items()
        for row in getattr(survey, name)
        for column in columns
    }


def changed_figures(survey, clean):
    """Figures of both that differ by more than FAR sigmas and are not kept out."""
    before = figures_of(clean)
    out = []
    for key, (figure, finding) in figures_of(survey).items():
        known = before.get(key, (None, ""))[0]
        if figure is None or known is None:
            continue
        assert not finding
        assert math.isfinite(figure.value)
        assert figure.sigma >= 0.0
        if abs(figure.value - known.value) > FAR * known.sigma + ROUNDING:
            out.append((key, round(known.value, 3), round(figure.value, 3)))
    return out


def severities():
    """Code -> the severities that the table of findings gives it."""
    text = (ROOT / "resources" / "formats" / "README.md").read_text(encoding="utf-8")
    rows = [line.strip("| ").split(" | ") for line in text.splitlines() if line.startswith("| ")]
    out = {}
    for row in rows:
        if len(row) == 5 and row[0][2:3] == "-":
            out.setdefault(row[0], set()).update(row[1].split(" or "))
    return out


def test_the_tables_are_long_enough_and_name_each_row_once():
    names = [case.name for case in (*CASES, *REFUSALS, *HARMLESS, *SILENT)]
    assert len(set(names)) == len(names)
    assert len(CASES) + len(REFUSALS) >= 75


@pytest.mark.parametrize("case", CASES, ids=named)
def test_a_fault_gives_its_finding_at_its_place_and_its_clean_twin_none(case):
    clean = survey_of(case.clean())
    assert open_ones(clean) == []
    assert (case.code, case.place, case.message) not in [(f.code, f.place, f.message) for f in clean.findings]
    survey = survey_of(case.spoil(case.clean()))
    found = [
        f for f in survey.findings if (f.code, f.place, f.severity) == (case.code, case.place, case.severity)
    ]
    assert [f.message for f in found] == [case.message], open_ones(survey)
    expected = [*case.others, *([(case.code, case.place)] if case.severity is not Severity.NOTE else [])]
    # A walk that lies in a wrong place lies beside or upon others: that is asked too, and follows.
    assert open_ones(survey, *({"GE-02", "GE-06"} - {case.code})) == sorted(expected)
    assert case.severity.value in severities()[case.code]
    assert found[0].remedy_text
    if case.code not in MEND_THE_LOG:
        assert bool(found[0].answers) == (case.severity is not Severity.NOTE)


@pytest.mark.parametrize("case", CASES, ids=named)
def test_no_figure_that_a_fault_changes_is_shown_without_a_word(case):
    """It is kept out, or its own feature or walk, or the whole survey, has an open finding; else it is the twin's."""
    survey = survey_of(case.spoil(case.clean()))
    told = [f for f in survey.findings if f.is_open]
    if any(not f.walk and not f.feature for f in told):
        return
    features = {f.feature for f in told if f.feature}.union(case.touched)
    walks = {f.walk for f in told if not f.feature}
    walk_of = {row.tags.feature: row.tags.walk for row in (*survey.areas, *survey.lengths, *survey.spots)}
    changed = changed_figures(survey, survey_of(case.clean()))
    assert [row for row in changed if row[0][1] not in features and walk_of[row[0][1]] not in walks] == []


@pytest.mark.parametrize("case", REFUSALS, ids=named)
def test_a_fault_that_spoils_all_is_refused_with_one_sentence_and_its_clean_twin_is_not(case):
    assert open_ones(survey_of(case.clean())) == []
    with pytest.raises(case.error) as refused:
        survey_files(case.spoil(case.clean()))
    assert type(refused.value) is case.error
    assert str(refused.value) == case.message


@pytest.mark.parametrize("case", HARMLESS, ids=named)
def test_what_is_no_fault_asks_nothing_and_changes_no_figure(case):
    survey, clean = survey_of(case.spoil(case.clean())), survey_of(case.clean())
    assert open_ones(survey) == []
    before, after = figures_of(clean), figures_of(survey)
    assert set(before) == set(after)
    for key, (figure, _) in after.items():
        known = before[key][0]
        assert (figure is None) == (known is None)
        if figure is not None:
            # 1e7 m from the origin a double still tells 2e-9 m; the logs' decimals, 1e-4 m, rule.
            assert figure.value == pytest.approx(known.value, abs=ROUNDING), key
            assert figure.sigma == pytest.approx(known.sigma, rel=1e-3, abs=1e-6), key


@pytest.mark.parametrize("case", SILENT, ids=named)
def test_what_nothing_could_show_changes_a_figure_and_is_told_where_something_can_tell(case):
    clean, survey = survey_of(case.clean()), survey_of(case.spoil(case.clean()))
    assert changed_figures(survey, clean) != []
    assert open_ones(survey) == open_ones(clean)
    if case.tells is not None:
        assert case.tells in [(f.code, f.place) for f in survey.findings]


def test_control_in_the_neighbour_zone_moves_the_site_and_changes_no_size():
    """Nothing in the files says in which zone it should be: six degrees of longitude, and not a millimetre."""
    there = survey_of(swap("control.csv", "EPSG:25831", "EPSG:25832")(small()))
    here = survey_of(small())
    assert (there.placement.status, there.placement.crs) == ("placed", "EPSG:25832")
    assert open_ones(there) == []
    for key, (figure, _) in figures_of(there).items():
        known = figures_of(here)[key][0]
        assert figure is None or figure.value == pytest.approx(known.value, abs=1e-5)


def test_without_an_instruments_file_the_figures_stay_and_say_that_their_sigmas_are_assumed():
    bare, known = survey_of(without(INSTRUMENTS)(small())), survey_of(small())
    assert open_ones(bare) == []
    assert {row.tags.sigma_from for row in (*bare.areas, *bare.lengths, *bare.spots)} == {"assumed"}
    assert {row.tags.sigma_from for row in known.areas} == {"instruments"}
    assert changed_figures(bare, known) == []


def degrees(exchanged):
    """The small job's control in longitude and latitude, or in that order's reverse under the same names."""
    from pyproj import Transformer

    to_degrees = Transformer.from_crs("EPSG:25831", "EPSG:4326", always_xy=True)
    lines = ["mark,lon,lat,z,sd_xy,sd_z,use"]
    for mark, use in (("A", "fit"), ("B", "fit"), ("C", "check")):
        x, y = MARKS[mark]
        pair = to_degrees.transform(EAST + GRID * x, NORTH + GRID * y)
        lon, lat = reversed(pair) if exchanged else pair
        lines.append(f"{mark},{lon:.9f},{lat:.9f},{'10.000,0.02,0.003' if mark == 'A' else ',0.02,'},{use}")
    return {**small(), CONTROL: ("\n".join(lines) + "\n").encode()}


def test_longitude_and_latitude_exchanged_are_refused_and_in_order_give_the_same_figures():
    settings = Settings(crs="EPSG:25831")
    right = survey_files(degrees(exchanged=False), settings)
    assert open_ones(right) == []
    assert changed_figures(right, survey_of(small())) == []
    with pytest.raises(Refused) as refused:
        survey_files(degrees(exchanged=True), settings)
    assert str(refused.value).startswith(
        "PL-04: the site lies at 51.567, 3.178 (longitude, latitude), out of the area of ETRS89 / UTM zone 31N ("
    )
    assert str(refused.value).endswith("Check the CRS, the unit and the column order of the control.")


def renamed(column, old, new):
    def by(rows):
        for row in rows.rows:
            row[column] = new if row[column] == old else row[column]

    return table(LOG_2, by)


@pytest.mark.parametrize("name", NAMES.values(), ids=NAMES)
@pytest.mark.parametrize(
    ("column", "old"), [("feature", "Path"), ("mark", "D"), ("walk", "W2"), ("part", "")]
)
def test_a_strange_name_is_kept_as_it_is_and_asks_nothing(name, column, old):
    survey = survey_of(renamed(column, old, name)(small()))
    assert open_ones(survey) == []
    kept = (
        {getattr(row.tags, column) for row in survey.lengths}
        if column != "mark"
        else {row.mark for row in survey.marks}
    )
    assert name in kept
    for finding in survey.findings:
        assert finding.message
        assert finding.remedy_text


@pytest.mark.parametrize(
    "name", [n for n in NAMES.values() if "\n" not in n], ids=[k for k in NAMES if "break" not in k]
)
def test_a_strange_name_of_a_site_is_kept_as_it_is(name):
    site = {LOG_1: name, LOG_2: name}
    files = chain(*(swap(log, "# site: Ostrel Yard", f"# site: {new}") for log, new in site.items()))(small())
    survey = survey_of(files)
    assert open_ones(survey) == []
    assert survey.site == name


@pytest.mark.parametrize("name", NAMES.values(), ids=NAMES)
def test_messages_show_a_strange_name_as_it_is(name):
    slow = survey_of(renamed("feature", "Path", name)(moved(LOG_2, 5, "time", 9.0)(small())))
    assert [f.message for f in slow.findings if f.is_open] == [
        f"The leg from 4 to 5 of {name} took 19 s of moving."
    ]
    lost = survey_of(renamed("walk", "W2", name)(every(LOG_2, mark="")(small())))
    message = (
        f"Walk {name} shares fewer than two marks with the others (shared: none), so its place and turn are not known. "
        "It is left out."
    )
    assert [(f.place, f.message) for f in lost.findings if f.code == "TI-01"] == [(f"{name}:1", message)]


def test_a_survey_of_strange_names_is_written_to_its_own_files(groundtally, tmp_path):
    """Every name in every place; nothing appears but the GeoPackage and its project, and the names are as they were."""
    import processing

    folder = tmp_path / "a" / "b" / "job"
    folder.mkdir(parents=True)
    path, markup = NAMES["a path"], NAMES["a statement"]
    edits = (
        renamed("walk", "W2", path), renamed("feature", "Path", path), renamed("mark", "D", path),
        renamed("feature", "Oak", markup), renamed("part", "", NAMES["markup"]),
        *(swap(log, "# site: Ostrel Yard", f"# site: {path}") for log in (LOG_1, LOG_2)),
    )  # fmt: skip
    for name, data in chain(*edits)(small()).items():
        (folder / name).write_bytes(data)
    given = {file: file.read_bytes() for file in folder.iterdir()}
    output = tmp_path / "a" / "b" / "out" / "site.gpkg"
    output.parent.mkdir()
    processing.run("groundtally:survey_walks", {"LOGS": [str(folder)], "OUTPUT": str(output)})
    written = {file for file in tmp_path.rglob("*") if file.is_file()}
    assert written - set(given) == {output, output.with_suffix(".qgz")}
    assert {file: file.read_bytes() for file in given} == given
    with closing(sqlite3.connect(f"file:{output}?mode=ro", uri=True)) as database:
        lengths = list(database.execute("SELECT site, walk, feature, part FROM lengths"))
        spots = list(database.execute("SELECT feature FROM spots"))
        marks = {row[0] for row in database.execute("SELECT mark FROM marks")}
    assert lengths == [(path, path, path, NAMES["markup"])]
    assert spots == [(markup,)]
    assert path in marks


ROWS = 1_000_000


def test_a_million_rows_are_read_checked_and_told_of_in_bounded_time():
    """A recorder that stuck: the same second a million times. One finding a row would be no help either."""
    log = write_walk("W1", (((0, 0), {"mark": "A"}), ((15, 0), {"mark": "B"})), 0.0, 0j)
    row = "W1,{},{:.3f},1.000,1.000,5.0,0,Track,,length,as-walked,,,,,,,\n"
    assert len(row.split(",")) == len(COLUMNS)
    body = "".join([row.format(i, 1e-5 * i) for i in range(3, ROWS + 1)])
    begun = time.perf_counter()
    read = read_job({LOG_1: (log + body).encode(), LOG_2: small()[LOG_2]})
    took = time.perf_counter() - begun
    assert len(read.job.walks[0]) == ROWS
    assert np.ptp(read.job.walks[0].xy[:, 0]) == pytest.approx(15.0, abs=1e-9)
    # The first row of the track comes 7.5 s before the mark B was reached; the others stand still.
    assert [(f.code, f.place) for f in read.findings] == [("IN-04", "W1:3")]
    assert took < 15.0
