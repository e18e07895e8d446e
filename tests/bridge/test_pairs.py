# SPDX-License-Identifier: GPL-2.0-or-later
"""Pairs and the control file they are kept in."""

from __future__ import annotations

import pytest

from plugin.bridge.pairs import Pairs, Pick, find_control, read_pairs, write_pairs
from plugin.core.errors import BadInput

TWO = (
    Pairs("EPSG:25831").with_pick("A", 500000.0, 5600000.0, 0.025).with_pick("B", 500020.0, 5600010.0, 0.025)
)


def test_the_first_two_picks_are_the_base_and_the_third_checks_it():
    three = TWO.with_pick("C", 500030.0, 5600030.0, 0.03)
    assert [(p.mark, p.is_check) for p in three.picks] == [("A", False), ("B", False), ("C", True)]
    assert three.is_enough
    assert three.may_be_turned


def test_a_mark_picked_again_keeps_its_use():
    again = TWO.with_pick("C", 1.0, 2.0, 0.03).used("A", is_check=True).with_pick("A", 5.0, 6.0, 0.1)
    assert again.of("A") == Pick("A", 5.0, 6.0, 0.1, is_check=True)


def test_turned_by_half_exchanges_the_points_of_the_base_alone():
    turned = TWO.with_pick("C", 1.0, 2.0, 0.03).turned()
    assert turned.of("A") == Pick("A", 500020.0, 5600010.0, 0.025)
    assert turned.of("B") == Pick("B", 500000.0, 5600000.0, 0.025)
    assert turned.of("C") == Pick("C", 1.0, 2.0, 0.03, is_check=True)


def test_pairs_come_back_from_the_file_as_they_were_written(tmp_path):
    pairs = Pairs("EPSG:25831", TWO.picks, 0.1, "2026-04-28").with_pick("C", 500030.1234, 5600030.5, 0.03)
    path = find_control(tmp_path)
    assert path.name == "control.csv"
    write_pairs(pairs, path)
    assert read_pairs(find_control(tmp_path)) == pairs


def test_levels_comments_other_columns_and_another_separator_stay(tmp_path):
    control = tmp_path / "points.csv"
    control.write_text(
        "# site: yard\n# crs: EPSG:25831\nmark;x;y;z;sd_xy;use;seen\n"
        "A;500000,0000;5600000,0000;;0,03;fit;2026\nBM1;;;84,810;;fit;\nD;1;2;7,5;0,1;check;\n",
        encoding="utf-8",
    )
    write_pairs(
        Pairs("EPSG:25831", TWO.picks[:1], 0.1).with_pick("B", 500020.5, 5600010.0, 0.025),
        find_control(tmp_path),
    )
    assert control.read_text(encoding="utf-8").splitlines() == [
        "# site: yard",
        "# crs: EPSG:25831",
        "# common-sd: 0.1",
        "mark;x;y;z;sd_xy;use;seen",
        "A;500000,0000;5600000,0000;;0,025;fit;2026",
        "BM1;;;84,810;;fit;",
        "D;;;7,5;;check;",
        "B;500020.5000;5600010.0000;;0.025;fit;",
    ]


def test_a_point_that_did_not_move_is_left_as_it_was_written(tmp_path):
    text = "# crs: EPSG:25831\nmark,x,y,sd_xy,use\nA,500000.123456,5600000.654321,0.025,fit\n"
    (tmp_path / "control.csv").write_text(text, encoding="utf-8")
    write_pairs(read_pairs(find_control(tmp_path)), find_control(tmp_path))
    assert (tmp_path / "control.csv").read_text(encoding="utf-8") == text


def test_degrees_stay_degrees(tmp_path):
    (tmp_path / "control.csv").write_text("mark,lon,lat,sd_xy\nA,3.1,51.2,1\n", encoding="utf-8")
    pairs = read_pairs(find_control(tmp_path))
    assert pairs.crs == "EPSG:4326"
    write_pairs(pairs.with_pick("B", 3.1000012341, 51.2000054321, 0.5), find_control(tmp_path))
    told = (tmp_path / "control.csv").read_text(encoding="utf-8").splitlines()
    assert told[1:] == ["A,3.1,51.2,1,fit", "B,3.100001234,51.200005432,0.5,fit"]


def test_a_point_in_degrees_that_moved_by_a_decimetre_is_written(tmp_path):
    (tmp_path / "control.csv").write_text("mark,lon,lat,sd_xy\nA,3.1,51.2,1\n", encoding="utf-8")
    write_pairs(
        read_pairs(find_control(tmp_path)).with_pick("A", 3.1, 51.200001, 1.0), find_control(tmp_path)
    )
    told = (tmp_path / "control.csv").read_text(encoding="utf-8").splitlines()
    assert told[1:] == ["A,3.1,51.200001000,1,fit"]


def test_a_draft_leaves_the_file_alone(tmp_path):
    write_pairs(TWO, find_control(tmp_path))
    before = (tmp_path / "control.csv").read_bytes()
    (tmp_path / "draft").mkdir()
    draft = tmp_path / "draft" / "control.csv"
    write_pairs(TWO.turned(), find_control(tmp_path), draft)
    assert (tmp_path / "control.csv").read_bytes() == before
    assert read_pairs(draft) == TWO.turned()


def test_sigmas_in_other_units_are_refused_with_what_to_do(tmp_path):
    text = "# units: ft\n# crs: EPSG:25831\nmark,x,y,sd_xy\nA,1,2,0.1\n"
    (tmp_path / "control.csv").write_text(text, encoding="utf-8")
    with pytest.raises(BadInput) as refused:
        write_pairs(TWO, find_control(tmp_path))
    assert str(refused.value) == (
        "control.csv has a line # units. Take it out and give its sigmas in metres, then pick again: picks are kept "
        "in metres."
    )
    assert (tmp_path / "control.csv").read_text(encoding="utf-8") == text
