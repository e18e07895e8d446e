# SPDX-License-Identifier: GPL-2.0-or-later
"""What lies in a job's folder: what each file is and says, what is odd, what is missing; and what a user makes of it."""

from __future__ import annotations

import json
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from plugin.bridge.choices import (
    JobChoice,
    added_files,
    job_parameters,
    keep_choice,
    kept_parameters,
    list_frame,
    restore_choice,
    sort_dropped,
    start_choice,
    state,
    state_columns,
    take_added,
    take_only,
    tick,
)
from plugin.bridge.desk import State
from plugin.bridge.inventory import inventory_steps, signature, take_inventory
from plugin.core.errors import BadInput
from plugin.core.read.stated import Stated

DEMO = Path(__file__).parents[2] / "resources" / "demo" / "marlisk_yard"
LOG = "# units: m\nwalk,station,x,y\n{0},1,0,0\n{0},2,5,0\n"
BARE_LOG = LOG.partition("\n")[2]
LIST = "1,200,100,5,peg\n2,210,120,6,post\n"
CONTROL = "# crs: EPSG:25831\nmark,x,y\nA,512340,5712850\n"
TAPES = "# units: m\nfrom,to,distance\nA,B,10\n"
WORDS = ("number", "northing", "easting", "elevation", "description")


@pytest.fixture
def folder(tmp_path):
    made = tmp_path / "yard"
    made.mkdir()
    return made


def write(folder: Path, **files: str) -> None:
    for name, text in files.items():
        stem, _, ending = name.rpartition("_")
        (folder / f"{stem}.{ending}").write_text(text, encoding="utf-8")


def choice_of(folder: Path, *added: Path) -> JobChoice:
    *_, inventory = inventory_steps([folder, *added])
    return start_choice(folder, folder / "survey" / "s.gpkg", inventory)


def found(inventory, name):
    (file,) = [file for file in inventory.rows if file.name == name]
    return file


# --- what there is ---


def test_each_file_of_the_demo_says_its_units_and_crs():
    inventory = take_inventory(DEMO)
    told = {
        file.name: (file.kind_words, file.said.units, file.said.crs, file.said.state)
        for file in inventory.rows
    }
    assert told["walk_1.csv"] == ("walk log", "m", "", State.GOOD)
    assert told["control.csv"] == ("control", "m", "EPSG:25831", State.GOOD)
    assert told["tapes.csv"] == ("tapes", "m", "", State.GOOD)
    assert told["instruments.csv"] == ("instruments", "", "", State.GOOD)
    assert told["orthophoto.tif"] == ("picture", "", "EPSG:25831", State.GOOD)
    assert inventory.missing == ()
    assert inventory.control_crs == "EPSG:25831"
    assert [file.name for file in inventory.rows][:4] == [f"walk_{k}.csv" for k in (1, 2, 3, 4)]


def test_units_that_are_not_given_are_told_and_what_to_do(folder):
    write(folder, w_csv=BARE_LOG.format("W"), c_csv=LOG.replace("m\n", "cubits\n", 1).format("C"))
    inventory = take_inventory(folder)
    assert found(inventory, "w.csv").said.odd == "w.csv: the units are not given. Choose them below."
    assert (
        found(inventory, "c.csv").said.odd
        == 'c.csv, line 1: the units "cubits" are not known. Choose them below.'
    )
    assert {file.said.state for file in inventory.files} == {State.STOPS}


def test_an_answer_in_the_folder_settles_what_it_answers(folder):
    write(folder, w_csv=BARE_LOG.format("W"), d_csv="finding,place,answer,by,when\nIN-02,W:1,ft,me,now\n")
    said = found(take_inventory(folder), "w.csv").said
    assert (said.units, said.state, said.odd) == ("ft", State.GOOD, "")


def test_a_list_without_names_asks_for_its_columns(folder):
    write(folder, p_txt=LIST)
    said = found(take_inventory(folder), "p.txt").said
    assert said.asks_columns
    assert (said.state, said.odd) == (
        State.STOPS,
        (
            "p.txt, line 1: the point list has no column names; its first row is 1 | 200 | 100 | 5 | peg. "
            "Say which column is which."
        ),
    )


def test_a_strange_table_asks_for_its_columns_and_a_note_is_only_left_aside(folder):
    write(folder, t_csv="peg,up,across\n1,200,100\n", n_txt="A dry day.\n", w_csv=LOG.format("W"))
    inventory = take_inventory(folder)
    strange, note = found(inventory, "t.csv"), found(inventory, "n.txt")
    assert strange.said.asks_columns
    assert strange.said.odd == "A table, but none that is read. Say which column is which, or untick it."
    assert (note.kind_words, note.said.state) == ("not read", State.LACKS)
    assert inventory.rows[-1] == note


def test_rows_that_cannot_be_read_are_told_with_their_number(folder):
    write(folder, w_csv=LOG.format("W") + "W,3,a,0\nW,4,b,0\nW,5,1,1\n")
    said = found(take_inventory(folder), "w.csv").said
    assert said.state is State.STOPS
    assert said.odd == 'w.csv, line 5, column x: "a" is not a number. 1 more like this.'


def test_a_receiver_says_its_crs_by_its_format(folder):
    write(folder, t_gpx='<gpx version="1.1"><wpt lat="51" lon="1"/></gpx>')
    said = found(take_inventory(folder), "t.gpx").said
    assert (said.crs, said.has_units, said.has_crs) == ("EPSG:4326", False, False)


def test_of_a_large_drawing_what_stands_behind_its_head_is_no_fault(folder):
    points = "".join(f'<CgPoint name="{k}">{k} {k}</CgPoint>' for k in range(5000))
    text = '<LandXML version="1.2"><Units><Imperial linearUnit="USSurveyFoot"/></Units><CgPoints>{}</CgPoints></LandXML>'
    write(folder, d_xml=text.format(points))
    said = found(take_inventory(folder), "d.xml").said
    assert (said.units, said.state) == ("us-ft", State.GOOD)


def test_a_file_that_cannot_be_used_says_why_and_the_others_are_told(folder):
    write(folder, w_csv=LOG.format("W"), c_csv="# crs: EPSG:25831\nmark,x\nA,1\n")
    inventory = take_inventory(folder)
    assert found(inventory, "c.csv").said.state is State.STOPS
    assert found(inventory, "c.csv").said.odd == (
        "c.csv: the control needs the columns mark and x, y (or lon, lat, or z alone); it has mark, x. Name the columns so."
    )
    assert found(inventory, "w.csv").said.state is State.GOOD


def test_a_folder_without_texts_is_refused(folder):
    with pytest.raises(BadInput) as error:
        take_inventory(folder)
    assert str(error.value) == f"{folder} holds no text files. Give the folder that the logs lie in."


# --- what is missing ---


def test_what_is_missing_is_told_with_what_it_would_give(folder):
    write(folder, w_csv=LOG.format("W"))
    words = {part.part: f"{part.title}: {part.words}" for part in take_inventory(folder).missing}
    assert words == {
        "control": "No control: the survey will not be placed on the map; it is measured all the same.",
        "tapes": "No tapes: no taped length checks the size of the walks.",
        "instruments": "No instruments: the accuracy that the logs state counts, or an assumed one.",
        "picture": "No picture: nothing lies under the survey, and no mark can be picked from it.",
    }


def test_without_control_the_picture_or_the_logs_crs_place_it(folder):
    write(folder, w_csv=LOG.format("W"))
    shutil.copy(DEMO / "orthophoto.tif", folder)
    (first, *_) = take_inventory(folder).missing
    assert first.words == "the survey will not be placed; pair marks with the picture afterwards."
    write(folder, w_csv="# crs: EPSG:25831\n" + LOG.format("W"))
    (first, *_) = take_inventory(folder).missing
    assert first.words == "the logs' own CRS places the survey, and nothing checks it."


def test_a_picture_that_does_not_know_where_it_lies_is_not_used(folder, tmp_path):
    write(folder, w_csv=LOG.format("W"))
    (folder / "snap.png").write_bytes(b"\x89PNG no picture at all")
    inventory = take_inventory(folder)
    assert inventory.picture == ""
    assert found(inventory, "snap.png").said.odd == "It does not say where it lies, so it is not used."
    assert "picture" in {part.part for part in inventory.missing}


# --- what a user makes of it ---


def test_a_whole_folder_is_named_as_a_folder(folder):
    write(folder, w_csv=LOG.format("W"), c_csv=CONTROL)
    choice = choice_of(folder)
    assert choice.problem() == ""
    assert choice.parameters() == {"LOGS": [str(folder)], "OUTPUT": str(folder / "survey" / "s.gpkg")}


def test_a_log_that_is_unticked_is_left_out_and_the_control_still_found(folder):
    write(folder, w_csv=LOG.format("W"), v_csv=LOG.format("V"), c_csv=CONTROL)
    choice = tick(choice_of(folder), folder / "v.csv", is_on=False)
    assert choice.parameters()["LOGS"] == [str(folder / "w.csv")]
    assert tick(choice, folder / "v.csv", is_on=True).parameters()["LOGS"] == [str(folder)]
    none = tick(choice, folder / "w.csv", is_on=False)
    assert none.problem() == "Tick a log."


def test_of_two_controls_one_is_ticked(folder):
    write(folder, w_csv=LOG.format("W"), a_csv=CONTROL, b_csv=CONTROL)
    choice = choice_of(folder)
    assert choice.problem() == "A job has one control file: untick the other."
    one = tick(choice, folder / "b.csv", is_on=True)
    assert one.problem() == ""
    assert one.parameters()["CONTROL"] == str(folder / "b.csv")
    assert one.parameters()["LOGS"] == [str(folder)]
    none = tick(one, folder / "b.csv", is_on=False)
    assert none.problem() == "Tick one file of control: what lies in the folder is read."


def test_of_three_tapes_one_or_all_count(folder):
    write(folder, w_csv=LOG.format("W"), a_csv=TAPES, b_csv=TAPES, c_csv=TAPES)
    choice = choice_of(folder)
    assert choice.problem() == ""
    two = tick(choice, folder / "a.csv", is_on=False)
    assert two.problem() == "Tick one file of tapes, or all."
    one = tick(two, folder / "b.csv", is_on=False)
    assert (one.problem(), one.parameters()["TAPES"]) == ("", str(folder / "c.csv"))


def test_a_single_control_cannot_be_left_out(folder):
    write(folder, w_csv=LOG.format("W"), a_csv=CONTROL)
    choice = choice_of(folder)
    assert not choice.may_leave_out(found(choice.inventory, "a.csv"))
    assert choice.may_leave_out(found(choice.inventory, "w.csv"))


def test_of_two_pictures_none_is_taken_before_one_is_ticked(folder):
    write(folder, w_csv=LOG.format("W"))
    for name in ("one.tif", "two.tif"):
        shutil.copy(DEMO / "orthophoto.tif", folder / name)
    choice = choice_of(folder)
    assert "PICTURE" not in choice.parameters()
    assert found(choice.inventory, "one.tif").said.state is State.ASKS
    choice = tick(tick(choice, folder / "one.tif", is_on=True), folder / "two.tif", is_on=True)
    assert choice.parameters()["PICTURE"] == str(folder / "two.tif")


def test_a_strange_table_must_be_named_or_unticked(folder):
    write(folder, w_csv=LOG.format("W"), t_csv="peg,up,across\n1,200,100\n2,210,120\n")
    choice = choice_of(folder)
    assert choice.problem() == "t.csv: say which column is which, or untick it."
    assert tick(choice, folder / "t.csv", is_on=False).parameters()["LOGS"] == [str(folder / "w.csv")]
    named = state_columns(choice, folder / "t.csv", ("number", "northing", "easting"))
    assert named.problem() == ""
    assert named.parameters()["COLUMNS"] == "t.csv: number, northing, easting"
    assert found(named.inventory, "t.csv").kind_words == "point list"


def test_what_is_stated_of_a_file_is_told_at_once_and_named_in_the_run(folder):
    write(folder, w_csv=BARE_LOG.format("W"), p_txt=LIST)
    choice = state(choice_of(folder), folder / "w.csv", Stated(units="us-ft", crs="EPSG:2264"))
    choice = state_columns(choice, folder / "p.txt", WORDS)
    said = found(choice.inventory, "w.csv").said
    assert (said.units, said.crs, said.state) == ("us-ft", "EPSG:2264", State.GOOD)
    assert found(choice.inventory, "w.csv").written.units == ""
    assert found(choice.inventory, "p.txt").said.odd == "p.txt: the units are not given. Choose them below."
    choice = state(choice, folder / "p.txt", Stated(WORDS, "m"))
    given = choice.parameters()
    assert given["FILE_UNITS"] == "w.csv: us-ft; p.txt: m"
    assert given["FILE_CRS"] == "w.csv: EPSG:2264"
    assert given["COLUMNS"] == "p.txt: " + ", ".join(WORDS)
    assert found(choice.inventory, "p.txt").said.state is State.GOOD
    assert list_frame(choice, found(choice.inventory, "p.txt")) == ("", "m")


def test_the_parameters_can_be_kept_as_text_and_give_the_choice_again(folder, tmp_path):
    away = tmp_path / "away"
    away.mkdir()
    write(folder, w_csv=BARE_LOG.format("W"), v_csv=LOG.format("V"), p_txt=LIST, c_csv=CONTROL)
    write(away, pegs_csv=CONTROL.replace("A", "B"))
    choice = take_added(choice_of(folder, away / "pegs.csv"), [away / "pegs.csv"])
    choice = tick(choice, folder / "v.csv", is_on=False)
    choice = state(
        state(choice, folder / "w.csv", Stated(units="ft")), folder / "p.txt", Stated(WORDS, crs="none")
    )
    given = json.loads(json.dumps(job_parameters(choice, folder / "s.gpkg", "EPSG:25831")))
    assert given["CONTROL"] == str(away / "pegs.csv")
    assert given["LOGS"] == [str(folder / "p.txt"), str(folder / "w.csv"), str(away / "pegs.csv")]
    assert added_files(folder, given) == [away / "pegs.csv"]
    fresh = choice_of(folder, *added_files(folder, given))
    again, said = restore_choice(fresh, given)
    assert said == ""
    assert (again.left_out, dict(again.stated), again.crs) == (
        choice.left_out,
        dict(choice.stated),
        "EPSG:25831",
    )
    assert job_parameters(again, folder / "s.gpkg", "EPSG:25831") == given


def test_what_no_longer_fits_is_said(folder):
    write(folder, w_csv=LOG.format("W"))
    _, said = restore_choice(choice_of(folder), {"LOGS": [str(folder)], "FILE_UNITS": "gone.csv: ft"})
    assert said == (
        '"gone.csv: ft" does not begin with a file of the job and a colon. Write it like w.csv: ..., with entries apart by '
        "semicolons; the files are w.csv."
    )


def test_a_survey_keeps_what_was_chosen_for_its_files(tmp_path):
    survey = tmp_path / "s.gpkg"
    with closing(sqlite3.connect(survey)) as database, database:
        database.execute("CREATE TABLE runs (kind, name, value)")
        rows = [
            ("setting", "file_units", "w.csv: ft"),
            ("setting", "columns", "('easting', 'northing')"),
            ("setting", "crs", "EPSG:25831"),
            ("input", "file_crs", "no setting"),
            ("setting", "join_within", "0.1"),
        ]
        database.executemany("INSERT INTO runs VALUES (?, ?, ?)", rows)
    database.close()
    assert kept_parameters(survey) == {
        "FILE_UNITS": "w.csv: ft",
        "COLUMNS": "easting, northing",
        "CRS": "EPSG:25831",
    }
    assert kept_parameters(tmp_path / "none.gpkg") == {}


def test_parameters_that_name_no_logs_leave_none_out(folder):
    write(folder, w_csv=LOG.format("W"), a_csv=CONTROL, b_csv=CONTROL)
    restored, said = restore_choice(choice_of(folder), {"FILE_UNITS": "w.csv: ft"})
    assert (restored.left_out, said) == (frozenset(), "")
    assert found(restored.inventory, "w.csv").said.units == "ft"


def test_a_crs_without_a_code_goes_as_its_text(folder):
    write(folder, w_csv=LOG.format("W"))
    given = job_parameters(choice_of(folder), folder / "s.gpkg", 'PROJCRS["site"]')
    assert given["CRS"] == 'WKT:PROJCRS["site"]'


def test_looking_again_keeps_what_was_chosen_of_files_that_are_still_there(folder):
    write(folder, w_csv=LOG.format("W"), v_csv=LOG.format("V"))
    before = state(
        tick(choice_of(folder), folder / "v.csv", is_on=False), folder / "w.csv", Stated(units="ft")
    )
    seen = signature([folder])
    write(folder, u_csv=LOG.format("U"))
    assert signature([folder]) != seen
    after = keep_choice(choice_of(folder), before)
    assert after.left_out == {folder / "v.csv"}
    assert after.stated == {folder / "w.csv": Stated(units="ft")}
    (folder / "w.csv").unlink()
    assert keep_choice(choice_of(folder), after).stated == {}


# --- what is dropped ---


def test_logs_that_are_dropped_count_alone(folder):
    write(folder, w_csv=LOG.format("W"), v_csv=LOG.format("V"), c_csv=CONTROL)
    dropped = sort_dropped([folder / "w.csv"], None)
    assert (dropped.folder, dropped.added) == (folder, ())
    assert dropped.settle(choice_of(folder)).left_out == {folder / "v.csv"}
    control = sort_dropped([folder / "c.csv"], None)
    assert control.settle(choice_of(folder)).left_out == frozenset()


def test_a_file_of_the_job_that_is_dropped_is_ticked(folder):
    write(folder, w_csv=LOG.format("W"), v_csv=LOG.format("V"))
    choice = tick(choice_of(folder), folder / "v.csv", is_on=False)
    dropped = sort_dropped([folder / "v.csv"], folder)
    assert not dropped.is_new
    assert dropped.settle(choice).left_out == frozenset()


def test_control_from_elsewhere_joins_the_job_and_logs_from_elsewhere_are_another(folder, tmp_path):
    away = tmp_path / "away"
    away.mkdir()
    write(folder, w_csv=LOG.format("W"), c_csv=CONTROL)
    write(away, v_csv=LOG.format("V"), pegs_csv=CONTROL)
    joined = sort_dropped([away / "pegs.csv"], folder)
    assert (joined.folder, joined.added) == (folder, (away / "pegs.csv",))
    choice = joined.settle(choice_of(folder, away / "pegs.csv"))
    assert choice.left_out == {folder / "c.csv"}
    assert choice.problem() == ""
    other = sort_dropped([away / "pegs.csv", away / "v.csv"], folder)
    assert (other.folder, other.added) == (away, ())
    mixed = sort_dropped([folder, away / "pegs.csv"], None)
    assert (mixed.folder, mixed.added) == (folder, (away / "pegs.csv",))


def test_control_beside_a_log_that_was_added_is_seen_as_a_run_would_find_it(folder, tmp_path):
    away = tmp_path / "away"
    away.mkdir()
    write(folder, w_csv=LOG.format("W"), c_csv=CONTROL)
    write(away, v_csv=LOG.format("V"), pegs_csv=CONTROL, u_csv=LOG.format("U"))
    choice = choice_of(folder, away / "v.csv")
    assert [file.name for file in choice.inventory.rows] == ["v.csv", "w.csv", "c.csv", "pegs.csv"]
    assert choice.problem() == "A job has one control file: untick the other."


def test_taking_only_what_is_no_log_leaves_all_in(folder):
    write(folder, w_csv=LOG.format("W"))
    choice = choice_of(folder)
    assert take_only(choice, [folder / "nothing.csv"]) == choice
