# SPDX-License-Identifier: GPL-2.0-or-later
"""A plan's error budget as columns and sentences."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsGeometry, QgsPoint

from ..core.measure.planned.records import Act, Cause
from ..core.plane import SurveyPlane
from .fields import Kind
from .text import tr

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..core.measure.planned.records import (
        Advice,
        Budget,
        Change,
        FeatureBudget,
        Shares,
        StationBudget,
    )
    from ..core.quantity import Quantity
    from .planned import Plane

SHARES = tuple((f"{cause.value}_share_ratio", Kind.REAL) for cause in Cause)
"""Parts of the variance; they add up to 1."""
STATIONS = (
    ("walk", Kind.TEXT),
    ("station", Kind.TEXT),
    ("feature", Kind.TEXT),
    ("mark", Kind.TEXT),
    ("worst", Kind.WHOLE),
    ("sigma_major_m", Kind.REAL),
    ("sigma_minor_m", Kind.REAL),
    ("sigma_bearing_deg", Kind.REAL),
    ("major_m_95", Kind.REAL),
    ("minor_m_95", Kind.REAL),
    ("z_m_sigma", Kind.REAL),
    ("z_m_95", Kind.REAL),
    *SHARES,
    ("sigma_from", Kind.TEXT),
)
"""What a station gets: `worst` is 1 for the far corner; the shares are along the ellipse's longer axis."""
FEATURES = (
    ("walk", Kind.TEXT),
    ("feature", Kind.TEXT),
    ("part", Kind.TEXT),
    ("kind", Kind.TEXT),
    ("area_m2", Kind.REAL),
    ("area_m2_sigma", Kind.REAL),
    ("area_m2_95", Kind.REAL),
    ("perimeter_m", Kind.REAL),
    ("perimeter_m_sigma", Kind.REAL),
    ("perimeter_m_95", Kind.REAL),
    ("length_m", Kind.REAL),
    ("length_m_sigma", Kind.REAL),
    ("length_m_95", Kind.REAL),
    *SHARES,
    ("sigma_from", Kind.TEXT),
    ("finding", Kind.TEXT),
)
"""What a drawn line gets; the shares are of its area or its length."""
HELP = (
    ("rank", Kind.WHOLE),
    ("what", Kind.TEXT),
    ("walk", Kind.TEXT),
    ("station", Kind.TEXT),
    ("marks", Kind.TEXT),
    ("sigma_m", Kind.REAL),
    ("x", Kind.REAL),
    ("y", Kind.REAL),
    ("corner_m_95", Kind.REAL),
    ("corner_m_95_then", Kind.REAL),
    ("feature", Kind.TEXT),
    ("area_m2_95", Kind.REAL),
    ("area_m2_95_then", Kind.REAL),
    ("length_m_95", Kind.REAL),
    ("length_m_95_then", Kind.REAL),
    ("advice", Kind.TEXT),
)
"""One thing more that could be done: the sigma taken for it, where it is in the layer's CRS, and the 95 % of the far
corner and of the largest area (without areas: of the longest length) before and then."""
LEAST_TOLD = 0.005
"""Part by which a 95 % must shrink to be spoken of."""
LEAST_SHARE = 0.05
"""Part of a variance that is spoken of."""
WAY = "way"
"""The kind of a line that makes no feature."""


def station_features(
    budget: Budget, plane: Plane, *, has_z: bool
) -> Iterator[tuple[QgsGeometry, list[object]]]:
    """Each station where it is planned, in the layer's CRS, and its columns."""
    places = plane.to_crs(np.array([station.point[:2] for station in budget.stations]))
    turn = plane.grid_turn if isinstance(plane, SurveyPlane) else 0.0
    for station, (x, y) in zip(budget.stations, places.tolist()):
        point = QgsPoint(x, y, station.point[2] / plane.crs_unit_m) if has_z else QgsPoint(x, y)
        yield QgsGeometry(point), _station(budget, station, turn)


def _station(budget: Budget, station: StationBudget, turn: float) -> list[object]:
    ellipse = station.ellipse
    return [
        station.walk,
        station.station,
        station.feature or None,
        station.mark or None,
        int(station is budget.worst),
        ellipse.major,
        ellipse.minor,
        (90.0 - math.degrees(ellipse.angle + turn)) % 180.0,
        station.major_95,
        station.minor_95,
        station.z_sigma,
        station.z_95,
        *_shares(station.shares),
        budget.sigma_from,
    ]


def _shares(shares: Shares) -> list[object]:
    return [shares.get(cause) for cause in Cause]


def feature_values(budget: Budget, place: tuple[str, str, str]) -> list[object]:
    """The columns of the line that makes a walk's feature and part."""
    walk, feature, part = place
    row = next((row for row in budget.features if (row.walk, row.feature, row.part) == place), None)
    if row is None or not feature:
        return [walk, feature or None, part or None, WAY, *[None] * (len(FEATURES) - 4)]
    return [
        walk,
        feature,
        part or None,
        row.kind.value,
        *_figure(row.area),
        *_figure(row.perimeter),
        *_figure(row.length),
        *_shares(row.shares),
        budget.sigma_from if row.size else None,
        row.finding or None,
    ]


def _figure(figure: Quantity | None) -> list[object]:
    return [None] * 3 if figure is None else [figure.value, figure.sigma, figure.half_width_95]


def help_rows(budget: Budget, plane: Plane) -> Iterator[list[object]]:
    """What would help, the best named first."""
    best = budget.best
    for rank, advice in enumerate((*best, *(one for one in budget.advice if one not in best)), 1):
        x, y = plane.to_crs(np.array([advice.at]))[0].tolist()
        largest = budget.largest
        yield [
            rank,
            advice.act.value,
            advice.walk or None,
            advice.station or None,
            ", ".join(advice.marks) or None,
            advice.sd,
            x,
            y,
            *_change(advice.corner),
            largest.feature if largest else None,
            *_change(advice.size if largest and largest.area else None),
            *_change(advice.size if largest and largest.length else None),
            advice_text(advice, budget),
        ]


def _change(change: Change | None) -> list[object]:
    return [None, None] if change is None else [change.before, change.after]


def advice_text(advice: Advice, budget: Budget) -> str:
    """One thing more that could be done, and what it would change, as a sentence."""
    words = {
        Act.STAND_AGAIN: tr("Stand on station {station} of walk {walk} once more at its end: {gains}."),
        Act.PAIR: tr(
            "Pair station {station} of walk {walk} with its map point (one sigma {sd:g} m): {gains}."
        ),
        Act.TAPE: tr("Tape the length {marks} (one sigma {sd:g} m): {gains}."),
    }[advice.act]
    gains = []
    if advice.corner is not None and advice.corner.gain >= LEAST_TOLD:
        gains.append(_gain(tr("far corner"), advice.corner, "m"))
    size = budget.largest.size if budget.largest is not None else None
    if advice.size is not None and advice.size.gain >= LEAST_TOLD and budget.largest and size:
        gains.append(_gain(budget.largest.feature, advice.size, size.unit))
    return words.format(
        station=advice.station,
        walk=advice.walk,
        marks=" - ".join(advice.marks),
        sd=advice.sd or 0.0,
        gains="; ".join(gains) or tr("nothing changes"),
    )


def _gain(what: str, change: Change, unit: str) -> str:
    return tr("{what} ±{before:.3g} to ±{after:.3g} {unit} (95 %)").format(
        what=what, before=change.before, after=change.after, unit=unit
    )


def budget_lines(budget: Budget) -> Iterator[str]:
    """The budget in a few lines: the walks, the far corner, every size, and what would help most."""
    for walk in budget.walks:
        words = tr("Walk {walk}: {stations} stations, {length:.0f} m, {minutes:.0f} minutes.")
        yield words.format(
            walk=walk.walk, stations=walk.stations, length=walk.length, minutes=math.ceil(walk.seconds / 60.0)
        ) + (
            " " + tr("It should close within {gap:.3f} m (one sigma).").format(gap=walk.misclosure_sigma)
            if walk.misclosure_sigma is not None
            else ""
        )
    worst = budget.worst
    place = tr("Far corner: station {station} of walk {walk}, ±{major:.3f} m (95 %); {shares}.")
    yield place.format(
        station=worst.station, walk=worst.walk, major=worst.major_95, shares=made_of(worst.shares)
    )
    yield from (_size_line(row) for row in budget.features if row.size is not None)
    for advice in budget.best:
        yield advice_text(advice, budget)


def _size_line(row: FeatureBudget) -> str:
    size = row.size
    assert size is not None  # noqa: S101 - chosen by the caller
    name = f"{row.feature}/{row.part}" if row.part else row.feature
    return tr("{feature}: {value:.2f} ±{half:.3g} {unit} (95 %); {shares}.").format(
        feature=name, value=size.value, half=size.half_width_95, unit=size.unit, shares=made_of(row.shares)
    )


def made_of(shares: Shares) -> str:
    """The larger parts of a variance, the largest first."""
    words = {
        Cause.SCALE: tr("scale"),
        Cause.HEADING: tr("heading"),
        Cause.LEGS: tr("noise of legs"),
        Cause.STANDS: tr("noise of stands"),
        Cause.TAPES: tr("tapes"),
        Cause.PICKS: tr("map points"),
        Cause.COMMON: tr("shift of all map points"),
    }
    large = sorted(
        (cause for cause in shares if shares[cause] >= LEAST_SHARE), key=lambda cause: -shares[cause]
    )
    return ", ".join(f"{words[cause]} {100 * shares[cause]:.0f} %" for cause in large) or tr("no error")
