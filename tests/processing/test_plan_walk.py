# SPDX-License-Identifier: GPL-2.0-or-later
"""Error budgets of drawn walks: what the layers become, and what comes back in them."""

from __future__ import annotations

import math

import numpy as np
import pytest
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsFeature,
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeatureSourceDefinition,
    QgsProcessingFeedback,
    QgsProject,
    QgsProperty,
    QgsVectorLayer,
    QgsWkbTypes,
)

from plugin.bridge.geopackage import LOCAL_WKT
from plugin.core.measure.planned.forecast import forecast_plan
from plugin.core.measure.planned.records import Plan, PlannedWalk
from plugin.core.walk import Kind, Leg
from tests.processing.layers import rows_of, write_layer

UTM = "EPSG:32631"
GROUND = 1 / 0.9996
"""Ground length by grid length on the zone's central meridian."""
EAST, NORTH = 500000.0, 5600000.0
WAY = [(0, 0), (24, 0)]
COURT = [(22, 3), (22, 13), (2, 13), (2, 3), (22, 3)]
BACK = [(22, 3), (12, -3), (0, 0)]
MARKS = {"A": (0, 0), "B": (24, 0)}
INSTRUMENTS = (
    "instrument,scale,heading_rate_deg_per_min,leg_m,leg_m_per_s1_5,stand_m,height_leg_m,height_stand_m\n"
    "rover,0.0015,0.04,0.003,0.0004,0.004,0.003,0.004\n"
)


def line(points, kind="LINESTRING"):
    return f"{kind}({', '.join(' '.join(map(repr, map(float, p))) for p in at(points))})"


def at(points):
    return [(EAST + p[0], NORTH + p[1], *p[2:]) for p in points]


def layer(kind, fields, rows, crs=UTM):
    """A layer in memory of (text, cell, ...) rows."""
    told = "&".join(f"field={name}:{what}" for name, what in fields.items())
    made = QgsVectorLayer(f"{kind}?crs={crs}&{told}", "drawn", "memory")
    features = []
    for text, *cells in rows:
        feature = QgsFeature(made.fields())
        feature.setAttributes(cells)
        if text is not None:
            geometry = QgsGeometry.fromWkt(text)
            assert not geometry.isNull()
            feature.setGeometry(geometry)
        features.append(feature)
    assert made.dataProvider().addFeatures(features)[0]
    return made


LINE_FIELDS = {"walk": "string", "feature": "string"}


def walks(crs=UTM):
    rows = [(line(WAY), "W1", None), (line(COURT), "W1", "Court"), (line(BACK), "W1", "")]
    return layer("LineString", LINE_FIELDS, rows) if crs == UTM else moved(walks(), "LineString", crs)


def marks(places=MARKS, crs=UTM):
    rows = [
        (f"POINT({EAST + x!r} {NORTH + y!r})", name, "yes", "1" if name == "A" else "0")
        for name, (x, y) in places.items()
    ]
    made = layer("Point", {"mark": "string", "paired": "string", "level": "string"}, rows)
    return made if crs == UTM else moved(made, "Point", crs)


def moved(made, kind, crs):
    """The layer in another CRS."""
    way = QgsCoordinateTransform(
        QgsCoordinateReferenceSystem(UTM), QgsCoordinateReferenceSystem(crs), QgsProject.instance()
    )
    rows = []
    for feature in made.getFeatures():
        geometry = QgsGeometry(feature.geometry())
        geometry.transform(way)
        rows.append((geometry.asWkt(14), *(None if v is None or str(v) == "NULL" else v for v in feature)))
    return layer(kind, {f.name(): "string" for f in made.fields()}, rows, crs)


class Log(QgsProcessingFeedback):
    def __init__(self):
        super().__init__()
        self.told, self.warned = [], []

    def pushInfo(self, text):
        self.told.append(text)

    def pushWarning(self, text):
        self.warned.append(text)


@pytest.fixture
def run(provider):
    def run(lines, **parameters):
        context, log = QgsProcessingContext(), Log()
        context.setProject(QgsProject.instance())
        for name in ("STATIONS", "FEATURES", "HELP", "FINDINGS"):
            parameters.setdefault(name, "memory:")
        results, good = (
            provider.algorithm("plan_walk")
            .create()
            .run({"INPUT": lines, **parameters}, context, log, {}, catchExceptions=False)
        )
        assert good
        run.log = log
        return {name: context.takeResultLayer(place) for name, place in results.items()}

    return run


GIVEN = {"WALK": "walk", "FEATURE": "feature"}


def core_budget(**more):
    """The same plan as records of the core: metres on the ground."""
    xy = np.array([*WAY, *COURT, *BACK], float) * GROUND
    feature = (*[""] * 2, *["Court"] * 5, *[""] * 3)
    walk = PlannedWalk(
        "W1",
        xy,
        mark=("A", "B", *[""] * 7, "A"),
        feature=feature,
        kind=tuple(Kind.AREA if name else None for name in feature),
    )
    return forecast_plan(Plan((walk,), picks={"A": 0.05, "B": 0.05}, **more))


def test_drawn_lines_have_the_budget_of_the_core(run):
    out = run(walks(), MARKS=marks(), **GIVEN)
    told = core_budget()
    stations = rows_of(out["STATIONS"])
    assert len(stations) == len(told.stations) == 10
    for row, station in zip(stations, told.stations):
        assert (row["walk"], row["station"], row["mark"] or "") == ("W1", station.station, station.mark)
        assert row["sigma_major_m"] == pytest.approx(station.ellipse.major, rel=1e-6)
        assert row["major_m_95"] == pytest.approx(station.major_95, rel=1e-6)
        assert row["minor_m_95"] == pytest.approx(station.minor_95, rel=1e-6)
        angle = math.radians(row["sigma_bearing_deg"])
        assert math.cos(math.pi / 2 - angle - station.ellipse.angle) ** 2 == pytest.approx(1.0, abs=1e-5)
        shares = [value for name, value in row.items() if name.endswith("_share_ratio")]
        assert len(shares) == 7
        assert sum(shares) == pytest.approx(1.0)
        assert (row["z_m_sigma"], row["sigma_from"]) == (None, "assumed")
    assert [row["worst"] for row in stations].count(1) == 1
    assert stations[int(told.worst.station) - 1]["worst"] == 1
    court = rows_of(out["FEATURES"])[1]
    area = told.features[0].area
    assert court["area_m2"] == pytest.approx(200.0 * GROUND**2, rel=1e-6)
    assert court["area_m2_sigma"] == pytest.approx(area.sigma, rel=1e-6)
    assert court["area_m2_95"] == pytest.approx(1.959964 * area.sigma, rel=1e-6)
    assert court["perimeter_m"] == pytest.approx(60.0 * GROUND, rel=1e-6)
    assert court["length_m"] is None
    help_rows = rows_of(out["HELP"])
    assert [row["rank"] for row in help_rows] == list(range(1, len(told.advice) + 1))
    assert help_rows[0]["corner_m_95_then"] == pytest.approx(told.best[0].corner.after, rel=1e-6)
    assert help_rows[0]["area_m2_95"] == pytest.approx(area.half_width_95, rel=1e-6)
    codes = [row["code"] for row in rows_of(out["FINDINGS"])]
    assert codes == [finding.code for finding in told.findings]


def test_every_line_comes_back_with_its_own_columns_and_geometry(run):
    drawn = walks()
    out = run(drawn, MARKS=marks(), **GIVEN)["FEATURES"]
    names = [field.name() for field in out.fields()]
    assert names[:2] == ["walk", "feature"]
    assert names[2:6] == ["walk_2", "feature_2", "part", "kind"]
    assert [row["kind"] for row in rows_of(out)] == ["way", "area", "way"]
    for one, other in zip(drawn.getFeatures(), out.getFeatures()):
        assert one.geometry().asWkb() == other.geometry().asWkb()
    assert out.crs().authid() == UTM


@pytest.mark.parametrize("crs", ["EPSG:4326", "EPSG:3857"])
def test_degrees_and_web_mercator_give_the_same_budget(run, crs):
    plain = run(walks(), MARKS=marks(), **GIVEN)
    other = run(walks(crs), MARKS=marks(crs=crs), **GIVEN)
    mixed = run(walks(crs), MARKS=marks(), **GIVEN)
    for one in (other, mixed):
        told = [row["sigma_major_m"] for row in rows_of(one["STATIONS"])]
        assert told == pytest.approx([row["sigma_major_m"] for row in rows_of(plain["STATIONS"])], rel=1e-5)
        assert rows_of(one["FEATURES"])[1]["area_m2_sigma"] == pytest.approx(
            rows_of(plain["FEATURES"])[1]["area_m2_sigma"], rel=1e-5
        )
        assert one["STATIONS"].crs().authid() == crs
        first = next(one["STATIONS"].getFeatures()).geometry().asPoint()
        drawn = next(walks(crs).getFeatures()).geometry().asPolyline()[0]
        assert (first.x(), first.y()) == pytest.approx((drawn.x(), drawn.y()), rel=1e-9)


def test_a_local_grid_is_taken_as_it_stands(run):
    local = layer("LineString", LINE_FIELDS, [(line(COURT), "W1", "Court")])
    local.setCrs(QgsCoordinateReferenceSystem.fromWkt(LOCAL_WKT))
    out = run(local, **GIVEN)
    assert rows_of(out["FEATURES"])[0]["area_m2"] == pytest.approx(200.0, rel=1e-9)
    first = next(out["STATIONS"].getFeatures()).geometry().asPoint()
    assert (first.x() - EAST, first.y() - NORTH) == pytest.approx(COURT[0], abs=1e-6)


def test_without_fields_each_line_is_a_walk_and_a_feature(run):
    shared = [(0, 0), (24, 0)]
    two = [(line([*shared, (24, 9)]), "x", "x"), (line([*shared, (0, 9)]), "x", "x")]
    rows = rows_of(run(layer("LineString", LINE_FIELDS, two), MARKS=marks())["FEATURES"])
    assert [(row["walk_2"], row["feature_2"], row["kind"]) for row in rows] == [
        ("W1", "row 1", "length"),
        ("W2", "row 2", "length"),
    ]
    lengths = [33.0 * GROUND, (24.0 + math.hypot(24, 9)) * GROUND]
    assert [row["length_m"] for row in rows] == pytest.approx(lengths, rel=1e-6)
    assert rows[0]["length_m_95"] == pytest.approx(1.959964 * rows[0]["length_m_sigma"], rel=1e-6)


def test_without_areas_advice_is_about_the_longest_length(run):
    rows = [(line([(0, 0), (24, 0)]), "W1", "Kerb"), (line([(24, 5), (20, 5)]), "W1", "Edge")]
    best = rows_of(run(layer("LineString", LINE_FIELDS, rows), MARKS=marks(), **GIVEN)["HELP"])[0]
    assert (best["feature"], best["area_m2_95"], best["area_m2_95_then"]) == ("Kerb", None, None)
    assert 0.0 < best["length_m_95_then"] < best["length_m_95"]


def test_lines_of_one_feature_are_its_parts(run):
    rows = [
        (line([(0, 0), (24, 0)]), "W1", "Kerb"),
        (line([(24, 5), (0, 5), (0, 0)]), "W1", "Kerb"),
    ]
    out = rows_of(run(layer("LineString", LINE_FIELDS, rows), MARKS=marks(), **GIVEN)["FEATURES"])
    assert [(row["feature_2"], row["part"]) for row in out] == [("Kerb", "1"), ("Kerb", "2")]
    assert [row["length_m"] for row in out] == pytest.approx([24 * GROUND, 29 * GROUND], rel=1e-6)


def test_a_line_of_several_parts_leaves_out_the_way_between_them(run):
    text = f"MULTILINESTRING(({line([(0, 0), (24, 0)])[11:-1]}),({line([(24, 9), (0, 9)])[11:-1]}))"
    drawn = layer("MultiLineString", LINE_FIELDS, [(text, "W1", "Kerb")])
    row = rows_of(run(drawn, MARKS=marks(), **GIVEN)["FEATURES"])[0]
    assert row["length_m"] == pytest.approx(48.0 * GROUND, rel=1e-6)


def test_true_curves_are_walked_as_arcs(run):
    curve = f"COMPOUNDCURVE(({line([(0, 0), (10, 0)])[11:-1]}),CIRCULARSTRING({line([(10, 0), (15, 5), (20, 0)])[11:-1]}))"
    drawn = layer("CompoundCurve", LINE_FIELDS, [(curve, "W1", "Kerb")])
    out = run(drawn, **GIVEN)
    assert rows_of(out["FEATURES"])[0]["length_m"] == pytest.approx((10 + 5 * math.pi) * GROUND, rel=1e-6)
    assert QgsWkbTypes.isCurvedType(next(out["FEATURES"].getFeatures()).geometry().wkbType())
    xy = np.array([(0, 0), (10, 0), (15, 5), (20, 0)], float) * GROUND
    leg = (Leg.DIRECT, Leg.DIRECT, Leg.CURVE, Leg.CURVE_END)
    told = forecast_plan(Plan((PlannedWalk("W1", xy, leg=leg, feature=("K",) * 4, kind=(Kind.LENGTH,) * 4),)))
    assert rows_of(out["FEATURES"])[0]["length_m_sigma"] == pytest.approx(
        told.features[0].length.sigma, rel=1e-6
    )


def test_only_the_chosen_lines_are_planned(run):
    drawn = walks()
    drawn.selectByIds([2])
    QgsProject.instance().addMapLayer(drawn)
    try:
        out = run(QgsProcessingFeatureSourceDefinition(drawn.id(), selectedFeaturesOnly=True), **GIVEN)
    finally:
        QgsProject.instance().takeMapLayer(drawn)
    assert [row["feature_2"] for row in rows_of(out["FEATURES"])] == ["Court"]


# --- marks ---


def test_stations_near_a_mark_stand_on_it(run):
    near = {"A": (0.2, -0.1), "B": (24.0, 0.3)}
    out = run(walks(), MARKS=marks(near), **GIVEN)
    stations = rows_of(out["STATIONS"])
    assert [row["mark"] for row in stations] == ["A", "B", *[None] * 7, "A"]
    place = next(out["STATIONS"].getFeatures()).geometry().asPoint()
    assert (place.x() - EAST, place.y() - NORTH) == pytest.approx((0.2, -0.1), abs=1e-6)
    assert any("It should close within" in text for text in run.log.told)


def test_only_marks_that_say_yes_are_paired(run):
    third = layer(
        "Point",
        {"mark": "string", "paired": "string"},
        [
            (f"POINT({EAST} {NORTH})", "A", "yes"),
            (f"POINT({EAST + 24} {NORTH})", "B", "TRUE"),
            (f"POINT({EAST + 2} {NORTH + 13})", "C", "no"),
        ],
    )
    some = rows_of(run(walks(), MARKS=third, PAIRED="paired", **GIVEN)["STATIONS"])
    every = rows_of(run(walks(), MARKS=third, **GIVEN)["STATIONS"])
    two = core_budget()
    assert [row["sigma_major_m"] for row in some] == pytest.approx(
        [station.ellipse.major for station in two.stations], rel=1e-6
    )
    assert max(row["major_m_95"] for row in every) < 0.9 * max(row["major_m_95"] for row in some)


def test_heights_are_told_where_a_level_is_known(run):
    out = run(walks(), MARKS=marks(), LEVELLED="level", SIGMA_LEVEL=0.002, **GIVEN)
    told = core_budget(levels={"A": 0.002})
    sigmas = [row["z_m_sigma"] for row in rows_of(out["STATIONS"])]
    assert sigmas == pytest.approx([station.z_sigma for station in told.stations], rel=1e-6)
    assert rows_of(out["STATIONS"])[4]["z_m_95"] == pytest.approx(1.959964 * sigmas[4], rel=1e-6)


def test_lines_with_heights_keep_them(run):
    up = [(0, 0, 84.0), (24, 0, 84.5), (24, 9, 85.0)]
    drawn = layer("LineStringZ", LINE_FIELDS, [(line(up, "LINESTRINGZ"), "W1", "Kerb")])
    stations = list(run(drawn, MARKS=marks(), **GIVEN)["STATIONS"].getFeatures())
    assert [feature.geometry().constGet().z() for feature in stations] == pytest.approx([84.0, 84.5, 85.0])


# --- instruments, pace, control ---


def test_an_instrument_comes_from_its_file(run, tmp_path):
    file = tmp_path / "instruments.csv"
    file.write_text(INSTRUMENTS, encoding="utf-8")
    rows = rows_of(run(walks(), MARKS=marks(), INSTRUMENTS=str(file), **GIVEN)["FEATURES"])
    assert rows[1]["sigma_from"] == "instruments"
    stated = rows_of(run(walks(), MARKS=marks(), ACCURACY="0.5 %", ACCURACY_KIND=1, **GIVEN)["FEATURES"])
    assert stated[1]["sigma_from"] == "accuracy"
    assumed = rows_of(run(walks(), MARKS=marks(), **GIVEN)["FEATURES"])
    assert rows[1]["area_m2_sigma"] < stated[1]["area_m2_sigma"] < assumed[1]["area_m2_sigma"]


def test_picks_and_their_shift_move_the_site_and_no_size(run):
    plain = run(walks(), MARKS=marks(), **GIVEN)
    coarse = run(walks(), MARKS=marks(), SIGMA_PICK=0.5, COMMON_SIGMA=1.0, **GIVEN)
    assert rows_of(coarse["FEATURES"])[1]["area_m2_sigma"] == pytest.approx(
        rows_of(plain["FEATURES"])[1]["area_m2_sigma"], rel=1e-9
    )
    first = rows_of(coarse["STATIONS"])[0]
    assert first["sigma_major_m"] > 1.0
    assert first["common_share_ratio"] == pytest.approx(1.0 / first["sigma_major_m"] ** 2, rel=1e-6)


def test_a_slow_walk_is_less_certain_and_its_time_is_told(run):
    quick = rows_of(run(walks(), MARKS=marks(), **GIVEN)["FEATURES"])
    slow = rows_of(run(walks(), MARKS=marks(), SPEED=0.2, HOLD=30.0, **GIVEN)["FEATURES"])
    assert slow[1]["area_m2_sigma"] > 1.1 * quick[1]["area_m2_sigma"]
    length = sum(math.dist(a, b) for a, b in zip([*WAY, *COURT, *BACK], [*WAY, *COURT, *BACK][1:])) * GROUND
    minutes = math.ceil((length / 0.2 + 10 * 30.0) / 60)
    words = f"Walk W1: 10 stations, {length:.0f} m, {minutes} minutes."
    assert any(text.startswith(words) for text in run.log.told)


def test_the_log_names_the_far_corner_the_sizes_and_what_would_help(run):
    close = {"A": (0, 0), "B": (4.5, 0)}
    drawn = layer(
        "LineString",
        LINE_FIELDS,
        [
            (line([(0, 0), (4.5, 0)]), "W1", None),
            (line(COURT), "W1", "Court"),
            (line([(38, 14), (39, 14)]), "W1", None),
        ],
    )
    out = run(drawn, MARKS=marks(close), **GIVEN)
    told = run.log.told
    best = rows_of(out["HELP"])[0]
    # A corner of the court: pairing it holds the turn, and closes the outline as well.
    assert (best["what"], best["station"]) == ("pair", "3")
    assert (best["x"] - EAST, best["y"] - NORTH) == pytest.approx((22, 3), abs=1e-6)
    assert best["advice"] in told
    assert best["advice"] == (
        "Pair station 3 of walk W1 with its map point (one sigma 0.05 m): far corner "
        f"±{best['corner_m_95']:.3g} to ±{best['corner_m_95_then']:.3g} m (95 %); Court "
        f"±{best['area_m2_95']:.3g} to ±{best['area_m2_95_then']:.3g} m2 (95 %)."
    )
    assert best["corner_m_95_then"] < 0.4 * best["corner_m_95"]
    assert any(text.startswith("Far corner: station 9 of walk W1, ±1.") for text in told)
    corner = next(row for row in rows_of(out["STATIONS"]) if row["worst"])
    picks = f"{100 * corner['picks_share_ratio']:.0f} %"
    assert any(f"(95 %); map points {picks}" in text for text in told)
    assert any(text.startswith("Court: 200.16 ±") and "m2 (95 %); scale " in text for text in told)
    assert any(
        text.startswith("PL-01 survey: The survey is placed on two pairs only") for text in run.log.warned
    )


# --- what is refused ---


def far_marks():
    return marks({"A": (0, 0), "Z": (24, 5)})


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (
            {"MARKS": far_marks},
            (
                "No station is within 0.5 m of mark Z: the nearest is 2.83 m away. Draw a walk over it, allow a larger "
                "distance, or leave the mark out."
            ),
        ),
        (
            {"MARKS": lambda: marks({"A": (0, 0), "B": (0.1, 0)})},
            "The station next to mark B is nearer to another mark. Draw a station on each, or move one.",
        ),
        (
            {"MARKS": lambda: layer("Point", {"mark": "string"}, [(f"POINT({EAST} {NORTH})", "A")] * 2)},
            "Two marks are called A. Give each a name of its own.",
        ),
        (
            {"MARKS": lambda: layer("Point", {"mark": "string"}, [(f"POINT({EAST} {NORTH})", None)])},
            "A mark has no name. Give each a name of its own.",
        ),
        (
            {"MARKS": lambda: layer("Point", {"point": "string"}, [(f"POINT({EAST} {NORTH})", "A")])},
            "The marks have no column mark or name. Choose the column that names them.",
        ),
        (
            {"MARKS": lambda: layer("Point", {"mark": "string"}, [(None, "A")])},
            "Row 1 of the marks is no single point. Give each mark one.",
        ),
        (
            {"INPUT": lambda: layer("LineString", LINE_FIELDS, [])},
            "Nothing is planned. Draw a line for each walk, through its stations in order.",
        ),
        (
            {"INPUT": lambda: layer("LineString", LINE_FIELDS, [(None, "W1", "Kerb")])},
            "Row 1: There is no geometry. Draw it, or delete the row.",
        ),
        (
            {"INPUT": lambda: layer("LineString", LINE_FIELDS, [(line(WAY), None, "Kerb")])},
            "Row 1 names no walk in the column walk. Give it the name of the walk it belongs to.",
        ),
        (
            {"ACCURACY": lambda: "good"},
            '"good" is not an accuracy. Write it like 0.5 % or 0.02 m + 0.3 %.',
        ),
        (
            {"INSTRUMENTS": lambda: "nowhere.csv"},
            "nowhere.csv is not there. Check the name, or choose the file again.",
        ),
    ],
)
def test_what_cannot_be_planned_is_refused_in_words(run, change, words):
    given = {"INPUT": walks, "MARKS": marks, **change}
    with pytest.raises(QgsProcessingException) as told:
        run(given.pop("INPUT")(), **{name: make() for name, make in given.items()}, **GIVEN)
    assert str(told.value) == words


def test_an_instrument_that_its_file_does_not_hold_is_refused(run, tmp_path):
    file = tmp_path / "instruments.csv"
    file.write_text(INSTRUMENTS + "other,0.002,0,0.003,0,0.004,0.003,0.004\n", encoding="utf-8")
    with pytest.raises(QgsProcessingException) as told:
        run(walks(), INSTRUMENTS=str(file), INSTRUMENT="level", **GIVEN)
    assert str(told.value).startswith(
        "instruments.csv holds no instrument level, but: rover, other. Name one of them."
    )
    file.write_text("mark,x,y\nA,1,2\n", encoding="utf-8")
    with pytest.raises(QgsProcessingException, match="was named as instruments, but it holds:"):
        run(walks(), INSTRUMENTS=str(file), **GIVEN)


def test_a_layer_of_polygons_is_refused(run):
    square = layer("Polygon", {"name": "string"}, [("POLYGON((0 0,1 0,1 1,0 0))", "x")])
    with pytest.raises(
        QgsProcessingException, match="The layer holds polygons, and lines are to be measured"
    ):
        run(square)


# --- files ---


def test_files_in_give_files_out_and_the_input_is_never_written_over(run, provider, tmp_path):
    drawn = write_layer(tmp_path / "drawn.gpkg", [line(COURT), line([(22, 3), (30, 3)])], UTM)
    places = {name: str(tmp_path / f"{name.lower()}.gpkg") for name in ("STATIONS", "FEATURES", "HELP")}
    algorithm = provider.algorithm("plan_walk").create()
    given = {"INPUT": str(drawn), "FEATURE": "name", **places}
    results, good = algorithm.run(given, QgsProcessingContext(), QgsProcessingFeedback())
    assert good
    features = rows_of(results["FEATURES"])
    assert [row["name"] for row in features] == ["row 0", "row 1"]
    assert features[0]["area_m2"] == pytest.approx(200.0 * GROUND**2, rel=1e-6)
    assert features[1]["finding"] == "TI-01"  # a walk of its own that shares no marks
    assert len(rows_of(results["STATIONS"])) == 5
    before = drawn.read_bytes()
    with pytest.raises(QgsProcessingException, match="holds the layer that is read, and would be replaced"):
        algorithm.run(
            {**given, "FEATURES": str(drawn)},
            QgsProcessingContext(),
            QgsProcessingFeedback(),
            {},
            catchExceptions=False,
        )
    assert drawn.read_bytes() == before


# --- marks that are not all worth the same ---


def marks_worth(a, b):
    rows = [
        (f"POINT({EAST + x!r} {NORTH + y!r})", name, sigma)
        for (name, (x, y)), sigma in zip(MARKS.items(), (a, b))
    ]
    return layer("Point", {"mark": "string", "sigma_m": "double"}, rows)


def test_each_mark_may_have_a_sigma_of_its_own(run):
    """Two pairs give a rigid fit: across the base each pick is met exactly, along it both have the weighted mean."""
    own = QgsProperty.fromField("sigma_m")
    plain = rows_of(run(walks(), MARKS=marks(), SIGMA_PICK=0.05, **GIVEN)["STATIONS"])
    same = rows_of(run(walks(), MARKS=marks_worth(0.05, 0.05), SIGMA_PICK=own, **GIVEN)["STATIONS"])
    assert [row["sigma_major_m"] for row in same] == pytest.approx([row["sigma_major_m"] for row in plain])
    apart = rows_of(run(walks(), MARKS=marks_worth(0.02, 0.3), SIGMA_PICK=own, **GIVEN)["STATIONS"])
    assert apart[0]["sigma_major_m"] == pytest.approx(0.02, rel=0.02)
    assert apart[1]["sigma_major_m"] == pytest.approx(0.3, rel=0.001)


def test_a_mark_without_a_sigma_has_the_default_and_it_is_said(run):
    own = QgsProperty.fromField("sigma_m")
    some = rows_of(run(walks(), MARKS=marks_worth(0.05, None), SIGMA_PICK=own, **GIVEN)["STATIONS"])
    words = "One-sigma of a map point, each axis: 1 rows have none that is 0 or more; 0.05 is taken for them."
    assert words in run.log.warned
    plain = rows_of(run(walks(), MARKS=marks(), SIGMA_PICK=0.05, **GIVEN)["STATIONS"])
    assert [row["sigma_major_m"] for row in some] == pytest.approx([row["sigma_major_m"] for row in plain])


def test_a_sigma_that_is_none_of_a_map_point_is_refused(run):
    with pytest.raises(QgsProcessingException) as refused:
        run(walks(), MARKS=marks_worth(0.05, 1e9), SIGMA_PICK=QgsProperty.fromField("sigma_m"), **GIVEN)
    words = "The map point of mark B has a one-sigma of 1e+09 m. Give 100 m at the most."
    assert str(refused.value) == words
