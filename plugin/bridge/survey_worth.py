# SPDX-License-Identifier: GPL-2.0-or-later
"""What the points of a survey's features are worth against each other: as its rows say, and as a survey of an older version,
whose rows do not say it, lets guess from its legs."""

from __future__ import annotations

import json
import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsFeatureRequest

from ..core.errors import BadInput
from ..core.measure.rows import PointErrors
from ..core.trade.seats import seat_lines
from ..core.trade.worth import PointWorth
from .drawn import text_of
from .fields import ERRORS
from .survey_rows import refuse_kept_out

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from qgis.core import QgsFeature, QgsVectorLayer

    from ..core.quantity import Floats
    from ..core.trade.lines import Line
    from ..core.trade.worth import JointWorth

PARTS: tuple[tuple[str, tuple[int, ...]], ...] = (("xy", ()), ("own", ()), ("plan", (2,)), ("height", ()))
"""What the rows say of their points, and the axes of each number."""
COARSE = ", points as the survey's legs and stations are worth on the whole"
"""Told in a method where they do not."""


@dataclass(frozen=True)
class Worth:
    """One-sigma of points, and where it comes from."""

    points: PointWorth
    sigma_from: str


@dataclass(frozen=True, eq=False)
class Seated:
    """Lines of a survey that know which of its points they go through, what these are worth together, and where that comes
    from."""

    lines: tuple[Line, ...]
    worth: JointWorth
    sigma_from: str


def seat_lengths(rows: Sequence[QgsFeature], lines: Sequence[Line]) -> Seated | None:
    """Lines of a survey's lengths, in one plane; None where one of them is none of a survey's or not as the survey drew it,
    they are of several features, or the survey does not say what their points are worth (an older version did not).

    Raises:
        BadInput: the survey kept a row's figures out.
    """
    for row in rows:
        if not refuse_kept_out(row, "length_m"):
            return None
    told = [_point_errors(row) for row in rows]
    return _seated(rows, told, lines) if len({_feature(row) for row in rows}) == 1 else None


def seat_outline(row: QgsFeature, rings: Sequence[Line]) -> Seated | None:
    """The rings of one of a survey's areas, in the order of its geometry; None as for lengths."""
    return _seated([row], [_point_errors(row)], rings) if refuse_kept_out(row, "area_m2") else None


def refuse_other_unit(row: QgsFeature, lines: Sequence[Line]) -> None:
    """Let no survey's row pass whose heights are read in a unit that they are not in; others do.

    Raises:
        BadInput: it is one.
    """
    told = _point_errors(row)
    if len(told) == len(lines) and told:
        seat_lines(lines, told)


def keeps_heights(row: QgsFeature) -> bool:
    """Whether a survey's row says at what heights its points were drawn; an older version's did not."""
    told = _point_errors(row)
    return bool(told) and all(run.z is not None for run in told)


def _seated(
    rows: Sequence[QgsFeature], told: Sequence[Sequence[PointErrors]], lines: Sequence[Line]
) -> Seated | None:
    errors = [run for runs in told for run in runs]
    if not all(told) or len(errors) != len(lines):
        return None
    seated = seat_lines(lines, errors)
    return None if seated is None else Seated(*seated, text_of(rows[0]["sigma_from"]))


def drawn_points(row: QgsFeature) -> Floats | None:
    """(n, 2) the points of a survey's length in the survey plane, in the order in which it drew them; None where its row does
    not say them."""
    told = _point_errors(row)
    return told[0].xy if len(told) == 1 else None


def _point_errors(row: QgsFeature) -> list[PointErrors]:
    """Of a row's points, run by run; none where it does not say them."""
    if row.fields().lookupField(ERRORS) < 0 or not text_of(row[ERRORS]):
        return []
    try:
        runs = json.loads(text_of(row[ERRORS]))
        return [replace(PointErrors(*_parts(run)), z=_heights(run)) for run in runs]
    except (KeyError, TypeError, ValueError):
        return []  # a column of that name that is not the survey's, or was cut short


def _parts(run: dict[str, object]) -> Iterator[Floats]:
    return (_array(run[name], shape) for name, shape in PARTS)


def _heights(run: dict[str, object]) -> Floats | None:
    """Of a run's points; None of a survey of an older version."""
    return np.array(run["z"], float) if "z" in run else None


def _feature(row: QgsFeature) -> tuple[str, str]:
    """The site and the feature of a row."""
    has_site = row.fields().lookupField("site") >= 0
    return text_of(row["site"]) if has_site else "", text_of(row["feature"])


def _array(told: object, shape: tuple[int, ...]) -> Floats:
    """Numbers (n, k, ...), NaN for none; k may be 0."""
    out = np.array(told, float)
    return out.reshape(len(out), -1 if out.size else 0, *shape)


class SurveyWorth:
    """What the points of a survey's features are worth against each other, where its rows do not say it."""

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
