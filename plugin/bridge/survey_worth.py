# SPDX-License-Identifier: GPL-2.0-or-later
"""What the points of a survey's features are worth against each other."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsFeatureRequest

from ..core.errors import BadInput
from ..core.trade.profiles import PointWorth
from .drawn import text_of

if TYPE_CHECKING:
    from qgis.core import QgsFeature, QgsVectorLayer


@dataclass(frozen=True)
class Worth:
    """One-sigma of points, and where it comes from."""

    points: PointWorth
    sigma_from: str


class SurveyWorth:
    """What the points of a survey's features are worth against each other."""

    def __init__(self, tables: dict[str, QgsVectorLayer]) -> None:
        """The survey's tables by name."""
        self._legs: dict[tuple[str, str, str], list[tuple[float, float]]] = {}
        self._stations: dict[tuple[str, str, str], list[tuple[float, float]]] = {}
        for row in tables["legs"].getFeatures(QgsFeatureRequest()) if "legs" in tables else ():
            pair = _number(row["rise_m_sigma"]), _number(row["length_m_sigma"])
            self._legs.setdefault(_key(row), []).append(pair)
        for row in tables["stations"].getFeatures(QgsFeatureRequest()):
            axes = _number(row["sigma_major_m"]), _number(row["sigma_minor_m"])
            pair = _number(row["z_m_sigma"]), math.hypot(*axes) / math.sqrt(2.0)
            self._stations.setdefault(_key(row), []).append(pair)

    def of(self, row: QgsFeature) -> Worth:
        """Of a length's points, one against another of the same length.

        Raises:
            BadInput: the survey does not say it.
        """
        legs = _root_mean(self._legs.get(_key(row), []))
        whole = _number(row["rise_m_sigma"])
        rise = max(v for v in (legs[0], whole, -1.0) if not math.isnan(v))
        if rise < 0.0 or math.isnan(legs[1]):
            return self.apart(row)
        root = math.sqrt(2.0)
        return Worth(PointWorth(rise / root, legs[1] / root), text_of(row["sigma_from"]))

    def along(self, one: QgsFeature, other: QgsFeature) -> Worth:
        """Of the points of two edges, one against another of the same edge. The mean of two edges is never less certain
        than the less certain one, however alike they err; it is taken as uncertain as that.

        Raises:
            BadInput: the survey does not say it.
        """
        told = [self.of(row).points for row in (one, other)]
        root = math.sqrt(2.0)  # which the mean of two that err independently would lose
        height, plan = max(p.height for p in told), max(p.plan for p in told)
        return Worth(PointWorth(root * height, root * plan), text_of(one["sigma_from"]))

    def apart(self, row: QgsFeature) -> Worth:
        """Of a length's points against those of another length: by their stations' own sigma.

        Raises:
            BadInput: the survey does not say it.
        """
        height, plan = _root_mean(self._stations.get(_key(row), []))
        if math.isnan(height) or math.isnan(plan):
            raise BadInput("The survey does not say what this row's heights are worth. Walk it with heights.")
        return Worth(PointWorth(height, plan), text_of(row["sigma_from"]))


def _root_mean(pairs: list[tuple[float, float]]) -> tuple[float, float]:
    """Root mean squares of what is known of each of two columns; NaN where nothing is."""
    told = np.array(pairs, float).reshape(-1, 2)
    out = []
    for column in told.T:
        known = column[np.isfinite(column)]
        out.append(float(np.sqrt((known**2).mean())) if len(known) else math.nan)
    return out[0], out[1]


def _key(row: QgsFeature) -> tuple[str, str, str]:
    return text_of(row["walk"]), text_of(row["feature"]), text_of(row["part"])


def _number(value: object) -> float:
    return float(value) if isinstance(value, (int, float)) else math.nan
