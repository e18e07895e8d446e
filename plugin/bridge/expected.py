# SPDX-License-Identifier: GPL-2.0-or-later
"""What Plan walk gave, to be looked at: every size and corner with its 95 %, the worst first, and what would help."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from qgis.core import QgsPointXY

from ..core.measure.planned.records import Act, Advice, Cause, Change, best_of
from ..core.walk import Kind
from .budget import FEATURES, WAY, made_of
from .desk import length
from .planned import plane_about
from .sources import ground_of
from .text import tr

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from qgis.core import QgsCoordinateReferenceSystem, QgsFeature, QgsVectorLayer

    from ..core.measure.planned.records import Shares
    from ..core.quantity import Floats
    from .planned import Plane

STATIONS_OUT, FEATURES_OUT, HELP_OUT, FINDINGS_OUT = OUTPUTS = ("STATIONS", "FEATURES", "HELP", "FINDINGS")
ASSUMED = "assumed"
FIGURES = 2
"""Significant digits of a 95 %."""
MOST_DECIMALS = 6


@dataclass(frozen=True)
class ExpectedRow:
    """One line of the forecast.

    Attributes:
        title: what it is.
        size: with its 95 %; "" of a station.
        corner: the 95 % of its farthest-off station on the map; "" where there is none.
        words: what the uncertainty is made of, and the perimeter of an area.
        places: of its stations, in the forecast's CRS.
    """

    title: str
    size: str
    corner: str
    words: str
    places: tuple[QgsPointXY, ...]


@dataclass(frozen=True)
class Suggestion:
    """Something more that could be done: its rank from 1, the sentence, where, and what exactly."""

    rank: int
    words: str
    at: QgsPointXY
    act: Act
    mark: str
    sigma: float


@dataclass(frozen=True)
class Told:
    """What the survey's own checks say of the plan."""

    code: str
    severity: str
    message: str
    remedy: str


@dataclass(frozen=True)
class ExpectedStation:
    """A station, its place in the forecast's CRS, the half axes of its 95 % ellipse in metres, and the bearing of the
    longer one from grid north, degrees."""

    walk: str
    station: str
    mark: str
    feature: str
    at: QgsPointXY
    major_95: float
    minor_95: float
    bearing_deg: float
    is_worst: bool


@dataclass(frozen=True)
class Forecast:
    """What may be expected before the walk: `rows` with the far corner first, then the sizes, the worst for its size
    first. `is_placed` is whether the ellipses are those on the map."""

    crs: QgsCoordinateReferenceSystem
    sigma_from: str
    is_placed: bool
    rows: tuple[ExpectedRow, ...]
    stations: tuple[ExpectedStation, ...]
    suggestions: tuple[Suggestion, ...]
    told: tuple[Told, ...]

    @property
    def is_assumed(self) -> bool:
        """Whether nobody said what the instrument is worth."""
        return self.sigma_from == ASSUMED


def read_forecast(layers: Mapping[str, QgsVectorLayer]) -> Forecast:
    """The outputs of a run of Plan walk, by the names of its parameters, all four."""
    stations = tuple(_station(row) for row in layers[STATIONS_OUT].getFeatures())
    crs = layers[STATIONS_OUT].crs()
    plane = plane_about(_places(stations), ground_of(crs), 0.0)
    advice = [(_advice(row, plane), row) for row in layers[HELP_OUT].getFeatures()]
    ranked = [one for one, _ in advice]
    best = best_of(ranked, plane.from_crs(_places(stations)))
    worst = next(row for row in layers[STATIONS_OUT].getFeatures() if row["worst"] == 1)
    return Forecast(
        crs,
        str(worst["sigma_from"]),
        not ranked or any(one.corner is not None for one in ranked),
        (_corner_row(worst, stations), *_size_rows(layers[FEATURES_OUT], stations)),
        stations,
        tuple(
            _suggestion(rank, *next(pair for pair in advice if pair[0] is one))
            for rank, one in enumerate(best, 1)
        ),
        tuple(
            Told(*(_text(row[name]) for name in ("code", "severity", "message", "remedy")))
            for row in layers[FINDINGS_OUT].getFeatures()
        ),
    )


def _places(stations: Sequence[ExpectedStation]) -> Floats:
    return np.array([(station.at.x(), station.at.y()) for station in stations], float)


def _text(value: object) -> str:
    return "" if _is_null(value) else str(value)


def _is_null(value: Any) -> bool:
    """A NULL, as either host hands it over."""
    return value is None or (hasattr(value, "isNull") and bool(value.isNull()))


def _real(value: Any) -> float | None:
    return None if _is_null(value) else float(value)


def _station(row: QgsFeature) -> ExpectedStation:
    point = next(row.geometry().vertices())
    walk, station, mark, feature = (_text(row[name]) for name in ("walk", "station", "mark", "feature"))
    major, minor, bearing = (
        _real(row[name]) or 0.0 for name in ("major_m_95", "minor_m_95", "sigma_bearing_deg")
    )
    is_worst = row["worst"] == 1
    return ExpectedStation(walk, station, mark, feature, QgsPointXY(point), major, minor, bearing, is_worst)


def _advice(row: QgsFeature, plane: Plane) -> Advice:
    """A row of HELP as the core has it."""
    x, y = plane.from_crs(np.array([[row["x"], row["y"]]], float))[0].tolist()
    size = _change(row, "area_m2_95") or _change(row, "length_m_95")
    marks = tuple(_text(row["marks"]).split(", ")) if _text(row["marks"]) else ()
    return Advice(
        Act(row["what"]),
        _text(row["walk"]),
        _text(row["station"]),
        (x, y),
        marks,
        _real(row["sigma_m"]),
        _change(row, "corner_m_95"),
        size,
    )


def _change(row: QgsFeature, name: str) -> Change | None:
    before, after = _real(row[name]), _real(row[f"{name}_then"])
    return None if before is None or after is None else Change(before, after)


def _suggestion(rank: int, advice: Advice, row: QgsFeature) -> Suggestion:
    # A mark may have a comma in its name: of a pair the whole text is one mark.
    mark = _text(row["marks"]) if advice.act is Act.PAIR else ""
    at = QgsPointXY(float(row["x"]), float(row["y"]))
    return Suggestion(rank, _text(row["advice"]), at, advice.act, mark, advice.sd or 0.0)


def _corner_row(worst: QgsFeature, stations: Sequence[ExpectedStation]) -> ExpectedRow:
    title = tr("Far corner\nstation {station} of walk {walk}")
    one = next(station for station in stations if station.is_worst)
    return ExpectedRow(
        title.format(station=one.station, walk=one.walk),
        "",
        f"±{length(one.major_95)}",
        made_of(_shares([worst[f"{cause.value}_share_ratio"] for cause in Cause])),
        (one.at,),
    )


def _shares(values: Sequence[object]) -> Shares:
    return {cause: _real(value) or 0.0 for cause, value in zip(Cause, values)}


def _size_rows(layer: QgsVectorLayer, stations: Sequence[ExpectedStation]) -> list[ExpectedRow]:
    """The sizes, the least certain for its size first; those without figures at the top."""
    ours = layer.fields().count() - len(FEATURES)
    names = [name for name, _ in FEATURES]
    rows = [dict(zip(names, row.attributes()[ours:])) for row in layer.getFeatures()]
    sized = [row for row in rows if row["kind"] != WAY and not _is_null(row["kind"])]
    of_feature: dict[tuple[str, str], list[ExpectedStation]] = {}
    for station in stations:
        of_feature.setdefault((station.walk, station.feature), []).append(station)
    return [
        _size_row(row, of_feature.get((_text(row["walk"]), _text(row["feature"])), []))
        for row in sorted(sized, key=lambda row: -_badness(row))
    ]


def _badness(row: Mapping[str, Any]) -> float:
    """A size's 95 % as a part of it."""
    name = _size_name(row)
    value, half = _real(row[name]), _real(row[f"{name}_95"])
    return math.inf if value is None or half is None else half / value if value > 0.0 else math.inf


def _size_name(row: Mapping[str, Any]) -> str:
    return "area_m2" if row["kind"] == Kind.AREA.value else "length_m"


def _size_row(row: Mapping[str, Any], own: Sequence[ExpectedStation]) -> ExpectedRow:
    feature, name = _text(row["feature"]), _size_name(row)
    size = with_95(_real(row[name]), _real(row[f"{name}_95"]), "m²" if name == "area_m2" else "m")
    words = [made_of(_shares([row[f"{cause.value}_share_ratio"] for cause in Cause]))] if size else []
    if not _is_null(row["perimeter_m"]):
        around = with_95(_real(row["perimeter_m"]), _real(row["perimeter_m_95"]), "m")
        words.append(tr("perimeter {size}").format(size=around))
    part = _text(row["part"])
    return ExpectedRow(
        f"{feature}/{part}" if part else feature,
        size or tr("no figure: {codes}").format(codes=_text(row["finding"]) or tr("left out")),
        f"±{length(max(s.major_95 for s in own))}" if own else "",
        "\n".join(words),
        tuple(s.at for s in own),
    )


def with_95(value: float | None, half: float | None, unit: str) -> str:
    """A figure and its 95 %, to two digits of the latter; "" of none."""
    if value is None or half is None:
        return ""
    first = math.floor(math.log10(half)) if half > 0.0 and math.isfinite(half) else FIGURES - 1 - 3
    places = min(max(FIGURES - 1 - first, 0), MOST_DECIMALS)
    return f"{value:.{places}f} ±{half:.{places}f} {unit}"
