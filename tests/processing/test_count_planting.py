# SPDX-License-Identifier: GPL-2.0-or-later
"""Beds and rows of which nothing is planted, or of which nobody asked for plants."""

from __future__ import annotations

import pytest
from qgis.core import QgsProcessingContext, QgsProcessingFeedback, QgsProject

from tests.processing.layers import memory_layer, rows_of

GRID = "EPSG:32631"
X, Y, BY = 500000, 5600000, 0.9996


def text(kind, points):
    inside = ",".join(f"{X + x * BY!r} {Y + y * BY!r}" for x, y in points)
    return f"{kind}(({inside}))" if kind == "POLYGON" else f"{kind}({inside})"


def box(length, width):
    return text("POLYGON", [(0, 0), (length, 0), (length, width), (0, width), (0, 0)])


def run(provider, kind, rows, **parameters):
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    given = {"INPUT": memory_layer(kind, GRID, rows), "OUTPUT": "memory:", "SIGMA": 0.05, **parameters}
    results, good = (
        provider.algorithm("count_planting")
        .create()
        .run(given, context, QgsProcessingFeedback(), {}, catchExceptions=False)
    )
    assert good
    return rows_of(context.takeResultLayer(str(results["OUTPUT"]))), results


def test_a_bed_that_the_set_back_takes_all_of_is_said_to_have_nothing_left(provider):
    rows, _ = run(provider, "Polygon", [box(1, 1), box(2, 2)], SPACING=0.2, SET_BACK=0.6)
    assert (rows[0]["plants"], rows[0]["plants_ordered"], rows[0]["planted_m2"]) == (0, 0, 0.0)
    assert rows[0]["finding"] == (
        "Nothing is left to plant: the set-back takes all of the bed. Give a smaller one."
    )
    # 0.8 by 0.8 m.
    assert (rows[1]["plants"], rows[1]["finding"]) == (16, None)


def test_a_row_shorter_than_its_set_back_is_said_to_have_nothing_left(provider):
    lines = [text("LINESTRING", [(0, 0), (length, 0)]) for length in (1.0, 1.2, 2.1)]
    rows, _ = run(provider, "LineString", lines, SPACING=0.3, SET_BACK=0.6)
    assert [row["plants"] for row in rows] == [0, 1, 4]
    assert rows[0]["method"] == "single row of 1.000 m, set back 0.6 m at both ends, at 0.3 m"
    assert [row["finding"] for row in rows] == [
        "Nothing is left to plant: the row is shorter than its set-back at both ends. Give a smaller one.",
        None,
        None,
    ]


def test_where_nobody_asked_for_plants_there_are_none_and_not_0(provider):
    rows, told = run(provider, "Polygon", [box(10, 4), box(5, 4)], MULCH=0.1)
    assert [(row["plants"], row["plants_sigma"], row["plants_ordered"]) for row in rows] == [
        (None, None, None)
    ] * 2
    assert [row["mulch_m3"] for row in rows] == pytest.approx([4.0, 2.0], rel=1e-6)
    assert (told["MEASURED"], told["REFUSED"], told["TOTAL"]) == (2, 0, 0.0)


def test_no_bulking_is_refused_where_mulch_is_laid(provider):
    (row,), told = run(provider, "Polygon", [box(10, 4)], MULCH=0.1, LOOSENING=0)
    assert row["mulch_loose_m3"] is None
    assert row["finding"] == (
        "GE-07: Of 0.1 m of mulch nothing would be delivered at a bulking of 0. Give the loose volume by the laid one: 1 "
        "where it does not settle."
    )
    assert (told["MEASURED"], told["REFUSED"]) == (0, 1)
    (row,), _ = run(provider, "Polygon", [box(10, 4)], SPACING=1.0, LOOSENING=0)
    assert row["plants"] == 40


def test_what_is_left_of_a_bed_has_the_sigma_of_its_own_edge(provider):
    """An angle set back by 1 m, beside draws of its corners: 0.255 m2 (that of the whole bed is 0.355 m2)."""
    angle = [(0, 0), (6, 0), (6, 3), (3, 3.5), (3, 6), (0, 5), (0, 0)]
    (row,), _ = run(provider, "Polygon", [text("POLYGON", angle)], SPACING=0.2, SET_BACK=1.0)
    assert row["planted_m2_sigma"] == pytest.approx(0.255, rel=0.03)
    assert row["plants_sigma"] == pytest.approx(row["planted_m2_sigma"] / 0.04)
