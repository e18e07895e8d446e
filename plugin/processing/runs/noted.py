# SPDX-License-Identifier: GPL-2.0-or-later
"""Sizes that were noted on site, taken from a survey's rows where a parameter does not give them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ...bridge.drawn import text_of
from ...bridge.text import tr

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from qgis.core import QgsFeature, QgsProcessingFeatureSource

    from ...core.quantity import Floats
    from ..algorithm import Ask

SURVEY_COLUMNS = frozenset({"walk", "feature", "part", "method", "sigma_from", "finding"})
"""By which a layer is known as one of a survey's."""


def is_survey(source: QgsProcessingFeatureSource) -> bool:
    """Whether a layer has the columns of a survey's features."""
    return {field.name() for field in source.fields()} >= SURVEY_COLUMNS


def has_noted(source: QgsProcessingFeatureSource, column: str) -> bool:
    """Whether a layer is a survey's and has a column of sizes noted on site."""
    return is_survey(source) and int(source.fields().lookupField(column)) >= 0


def size_by_row(
    ask: Ask, name: str, source: QgsProcessingFeatureSource, column: str, part: str | None = None
) -> Callable[[Sequence[QgsFeature]], Floats]:
    """A size of each row: the parameter's; where that is 0, what a survey's row has in a column of sizes noted on site (0
    where it has none), of one part of features alone where that is named. A parameter that comes from a field or an
    expression is taken as it is."""
    given = ask.by_row(name, source)
    if ask.is_by_row(name) or not has_noted(source, column):
        return given
    if not ask.number(name):
        words = tr("{name} is not given: sizes noted on site are taken from the field {column}.")
        ask.feedback.pushInfo(words.format(name=ask.label(name), column=column))

    def values(features: Sequence[QgsFeature]) -> Floats:
        told = given(features)
        rows = [row if part in (None, text_of(row.attribute("part")).lower()) else None for row in features]
        noted = np.array([number_or(row.attribute(column), 0.0) if row else 0.0 for row in rows], float)
        return np.where(told == 0.0, noted, told)

    return values


def number_or(value: object, other: float) -> float:
    """A cell's number, or another where it has none."""
    is_number = isinstance(value, (int, float)) and np.isfinite(value)
    return float(value) if is_number else other  # type: ignore[arg-type]
