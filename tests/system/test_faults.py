# SPDX-License-Identifier: GPL-2.0-or-later
"""The seeded faults of the demo: each found, under the right code, at the right place, with its whole message;
and each answer taken, and taken back."""

from __future__ import annotations

import pytest

from plugin.core.errors import Refused
from plugin.core.findings import Severity
from plugin.core.measure.chain import survey_files
from scripts.demo_jobs import FAULTS, faulty_job, make_job

INTENDED = "GE-02"
"""The clean job's shared edges are asked about by intention."""
MESSAGES = {
    "marks_exchanged": "Walk W1 fits the other walks only with its marks B and A exchanged (would serve as well: one "
    "wrong height).",
    "feet_as_metres": "Walk W2: its lengths between marks are 3.287 times those of the other walks; the log says m, "
    "and ft or us-ft would fit.",
    "one_mark_only": "Walk W3 shares fewer than two marks with the others (shared: A), so its place and turn are not "
    "known. It is left out.",
    "short_hold": "Station 17 was held for 0.3 s only.",
    "long_leg": "The leg from 28 to 29 of Kerb took 24 s of moving.",
    "pole_raised": "The heights of Paved court fit clearly better with one jump of +0.30 m from station 14 on. No "
    "step is drawn there.",
    "sliver": "walk_3.csv, line 12: Paved court and Bed 2 run along each other for 19.988 m, at most 0.056 m apart and "
    "0.000 m over each other, which is within what their stations can be trusted to.",
    "two_goes": "walk_3.csv, line 17: Bed 2 stands here again, first in walk_3.csv, line 12.",
}


def survey_of(files, *decisions):
    files = dict(files)
    rows = "".join(f"{row},tester,2026-05-13\n" for row in decisions)
    files["decisions.csv"] = files["decisions.csv"].rstrip("\n") + "\n" + rows
    return survey_files({name: text.encode() for name, text in files.items()})


def serious(survey, intended=INTENDED):
    return [
        f for f in survey.findings if f.severity is not Severity.NOTE and f.is_open and f.code != intended
    ]


def test_the_clean_job_asks_nothing():
    for site in ("marlisk_yard", "sorrelback_lane"):
        from scripts.demo_jobs import COMMITTED_SEEDS

        files = make_job(site, COMMITTED_SEEDS[site], variant="committed")
        assert serious(survey_of(files)) == []


@pytest.mark.parametrize("name", FAULTS)
def test_each_fault_is_found_under_its_code_at_its_place(name):
    files, expected = faulty_job(name)
    found = serious(survey_of(files), None if expected.code == INTENDED else INTENDED)
    named = [f for f in found if (f.code, f.place) == (expected.code, expected.place)]
    assert len(named) == 1, [(f.code, f.place, f.message) for f in found]
    if name in MESSAGES:
        assert named[0].message == MESSAGES[name]
    # Nothing else is stopped or asked, but for the height closure that a raised pole breaks.
    others = {f.code for f in found} - {expected.code}
    assert others == ({"CL-01"} if name == "pole_raised" else set())


@pytest.mark.parametrize(
    ("name", "answer"),
    [
        ("marks_exchanged", "TI-03,W1:1+W1:5,exchange"),
        ("feet_as_metres", "IN-03,W2:1,ft"),
        ("short_hold", "WK-02,W3:17,accept"),
        ("long_leg", "WK-01,W1:29,accept"),
        ("wrong_tape", "SR-01,A+B,leave out"),
        ("two_goes", "IN-05,Bed 2,one"),
        ("two_goes", "IN-05,Bed 2,two"),
        ("sliver", "GE-02,Paved court+Bed 2,join"),
        ("sliver", "GE-02,Paved court+Bed 2,leave"),
    ],
)
def test_an_answer_settles_a_fault_and_can_be_taken_back(name, answer):
    files, expected = faulty_job(name)
    intended = None if expected.code == INTENDED else INTENDED
    settled = survey_of(files, answer)
    assert serious(settled, intended) == []
    kept = [f for f in settled.findings if f.code == expected.code and f.place == expected.place and f.answer]
    assert [(f.answer, f.answered_by, f.answered_at) for f in kept] == [
        (answer.split(",")[2], "tester", "2026-05-13")
    ]
    assert serious(survey_of(files), intended) != []


def test_answered_units_and_marks_give_the_clean_sizes():
    from scripts.demo_jobs import COMMITTED_SEEDS

    clean = survey_of(make_job("marlisk_yard", COMMITTED_SEEDS["marlisk_yard"], variant="committed"))
    ramp = next(row for row in clean.areas if row.tags.feature == "Ramp").area.value
    files, _ = faulty_job("feet_as_metres")
    mended = survey_of(files, "IN-03,W2:1,ft")
    assert next(r for r in mended.areas if r.tags.feature == "Ramp").area.value == pytest.approx(
        ramp, abs=1e-3
    )
    files, _ = faulty_job("marks_exchanged")
    mended = survey_of(files, "TI-03,W1:1+W1:5,exchange")
    for a, b in zip(mended.stations, clean.stations):
        assert a.point == pytest.approx(b.point, abs=1e-9)


def test_bed_2_in_two_goes_is_one_bed_or_two_as_answered():
    """Its outline is (4,-2.5) (20,-2.5) (22,2) (2,2), 81 m2; cut after (22,2) and before the last third of the edge
    y = 2 it falls into two triangles: of 16 x 4.5 / 2, and of (26/3, 2) (2,2) (4,-2.5), 20/3 x 4.5 / 2."""
    files, _ = faulty_job("two_goes")

    def beds(survey):
        return {row.tags.part: row.area for row in survey.areas if row.tags.feature == "Bed 2"}

    for answers, truth in (
        (["IN-05,Bed 2,one"], {"": 81.0}),
        (["IN-05,Bed 2,two"], {"": 36.0, "2": 15.0}),
        ([], {"": 36.0, "2": 15.0}),
    ):
        found = beds(survey_of(files, *answers))
        assert set(found) == set(truth)
        for part, area in found.items():
            assert abs(area.value - truth[part]) < 3.5 * area.sigma


def test_a_stop_keeps_the_figures_of_its_walk_out_and_the_rest_in():
    files, _ = faulty_job("marks_exchanged")
    survey = survey_of(files)
    for row in survey.areas:
        if row.tags.walk == "W1":
            assert row.area is None
            assert row.tags.finding == "TI-03"
        else:
            assert row.area is not None
            assert row.tags.finding == ""


def with_control(files, *lines):
    head = [line for line in files["control.csv"].splitlines() if line.startswith(("#", "mark"))]
    return {**files, "control.csv": "\n".join([*head, *lines, "BM1,,,84.810,,0.003,fit"]) + "\n"}


A, B = "A,512340.0,5712850.0,,0.025,,", "B,512361.279504,5712861.077409,,0.025,,"


def test_two_pairs_alone_are_not_confirmed_until_a_decision_says_so():
    files = with_control(make_job("marlisk_yard", 5), A + "fit", B + "fit")
    survey = survey_of(files)
    assert survey.placement.status == "not confirmed"
    assert [(f.code, f.severity, f.place) for f in serious(survey)] == [("PL-01", Severity.STOP, "survey")]
    assert survey_of(files, "PL-01,survey,confirmed").placement.status == "placed"


def test_exchanged_pairs_are_seen_by_the_check_point_and_named():
    swapped = "A" + B[1:] + "fit", "B" + A[1:] + "fit"
    files = with_control(
        make_job("marlisk_yard", 5), *swapped, "C,512367.157783,5712884.421976,,0.025,,check"
    )
    survey = survey_of(files)
    assert survey.placement.status == "not confirmed"
    finding = next(f for f in serious(survey) if f.code == "PL-01")
    assert finding.place == "C"
    # Half a turn about the middle of A-B (11, -4) moves C (39, 14) by 2 x 33.287 m.
    assert finding.message == (
        "Check point C lies 66.578 m from where the map pairs put it; 0.125 m (95 %) would be expected. It would fit "
        "with A and B exchanged."
    )


def test_a_base_that_differs_from_the_map_writes_no_survey():
    files = with_control(make_job("marlisk_yard", 5), A + "fit", "B,512362.2,5712861.6,,0.025,,fit")
    with pytest.raises(Refused) as refused:
        survey_of(files)
    assert str(refused.value) == (
        "PL-02: The base A to B is 23.997 m walked and 25.058 m on the map (ground length), +1.061 m apart. Wrong "
        "point, wrong unit or wrong CRS: check these map points."
    )


@pytest.mark.parametrize(
    ("crs", "message"),
    [
        (
            "EPSG:4326",
            (
                "PL-04: the CRS WGS 84 of control.csv is in degrees. Choose a projected CRS for the map; sizes are "
                "from the survey plane."
            ),
        ),
        (
            "EPSG:27700",
            "PL-04: the site lies at 172.802, 78.821 (longitude, latitude), out of the area of OSGB36",
        ),
    ],
)
def test_a_crs_that_cannot_hold_the_site_is_refused(crs, message):
    files = make_job("marlisk_yard", 5)
    files["control.csv"] = files["control.csv"].replace("EPSG:25831", crs)
    with pytest.raises(Refused) as refused:
        survey_of(files)
    assert str(refused.value).startswith(message)


def test_a_rough_way_between_datums_is_refused():
    """EPSG:4277 (OSGB36) to EPSG:25831 without the grid has a known Helmert way; to a datum that nothing leads
    to there is none."""
    from plugin.core.measure.chain import Settings

    files = make_job("marlisk_yard", 5)
    local = 'GEOGCRS["nobody\'s",DATUM["nobody\'s datum",ELLIPSOID["Airy 1830",6377563.396,299.3249646]],CS[ellipsoidal,2],AXIS["lat",north],AXIS["lon",east],ANGLEUNIT["degree",0.0174532925199433]]'
    projected = (
        'PROJCRS["nobody\'s grid",BASE'
        + local.split(",CS[", maxsplit=1)[0]
        + '],CONVERSION["TM",METHOD["Transverse Mercator"],'
        'PARAMETER["Latitude of natural origin",51],PARAMETER["Longitude of natural origin",3],'
        'PARAMETER["Scale factor at natural origin",1],PARAMETER["False easting",0],PARAMETER["False northing",0]],'
        'CS[Cartesian,2],AXIS["E",east],AXIS["N",north],LENGTHUNIT["metre",1]]'
    )
    with pytest.raises(Refused) as refused:
        survey_files({n: t.encode() for n, t in files.items()}, Settings(crs=projected))
    assert "only a rough way is known" in str(refused.value)


def test_a_single_walk_without_control_is_measured_and_not_placed():
    files = make_job("marlisk_yard", 5)
    alone = {name: files[name] for name in ("walk_1.csv", "instruments.csv")}
    survey = survey_files({name: text.encode() for name, text in alone.items()})
    assert survey.placement.status == "not placed"
    court = next(row for row in survey.areas if row.tags.feature == "Paved court")
    assert court.area.sigma == pytest.approx(0.81, abs=0.03)
    assert abs(court.area.value - 253.563) < 3.5 * court.area.sigma
    assert {f.code for f in survey.findings if f.severity is Severity.ASK} == {"CL-03"}
    assert {f.code for f in survey.findings if f.severity is Severity.STOP} == {"HT-01"}


def test_control_better_than_the_walk_counts_as_taped_by_decision():
    """Surveyed control of 5 mm (no picture): asked, and by the answer the court's sigma halves."""
    files = make_job("marlisk_yard", 5)
    del files["tapes.csv"]
    lines = [row.replace(",0.025,", ",0.005,") for row in (A + "fit", B + "fit")]
    files = with_control(files, *lines, "C,512367.157783,5712884.421976,,0.005,,check")
    files["control.csv"] = files["control.csv"].replace("# common-sd: 0.1\n", "")
    # The court by itself: its neighbours, joined, would know its edges better.
    files["decisions.csv"] = files["decisions.csv"].splitlines()[0] + "\n"
    asked = survey_of(files)
    assert [(f.code, f.answers) for f in serious(asked)] == [("CL-03", ("accept", "use the control"))]
    answered = survey_of(files, "CL-03,survey,use the control")
    assert serious(answered) == []
    sigmas = [
        next(row for row in survey.areas if row.tags.feature == "Paved court").area.sigma
        for survey in (asked, answered)
    ]
    # adjustment.md section 3: 0.533 without a tape, 0.404 with A-B of 0.005; here A-B is 0.0071.
    assert sigmas[0] == pytest.approx(0.533, abs=0.01)
    assert sigmas[1] == pytest.approx(0.41, abs=0.01)
