# SPDX-License-Identifier: GPL-2.0-or-later
"""Layers of a survey: what the survey said of a feature, where the feature is still as the survey drew it."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeVar

import numpy as np

from ..core.findings import Finding, Severity
from .measured import ASSUMED, Column

if TYPE_CHECKING:
    from collections.abc import Sequence

    from qgis.core import QgsFeature, QgsFields

    from ..core.measure.layer.areas import AreaFigures
    from ..core.measure.layer.lengths import LengthFigures
    from ..core.quantity import Floats

    Figures = TypeVar("Figures", bound=AreaFigures | LengthFigures)

SAME = 2e-5
"""Of a figure: as near as this to the survey's own, it is the same outline. Heights of a site change its scale by
less, a corner moved by a centimetre changes it by more."""


@dataclass(frozen=True)
class SurveyColumns:
    """Which columns of a layer hold the survey's figures: by the column's name, its number."""

    figures: dict[str, int]
    sigma_from: int
    finding: int
    main: str
    """The figure that tells whether the outline is still the same."""


def survey_columns(fields: QgsFields, columns: Sequence[Column]) -> SurveyColumns | None:
    """The survey's own figures in a layer; None where it is no table of a survey."""
    main = columns[0].name
    names = {field.name(): k for k, field in enumerate(fields)}
    if not {main, f"{main}_sigma", "sigma_from", "finding", "method", "walk", "feature"} <= set(names):
        return None
    figures = {c.figure: names[c.name] for c in columns if c.figure and c.name in names}
    return SurveyColumns(figures, names["sigma_from"], names["finding"], columns[0].figure)


def take_survey(
    figures: Figures, columns: SurveyColumns, features: Sequence[QgsFeature]
) -> tuple[Figures, list[str]]:
    """The survey's figures in place of those measured, where they agree; and where each uncertainty comes from.

    A figure that the survey kept out stays out, with the codes that keep it out.
    """
    told = {name: _column(features, at) for name, at in columns.figures.items()}
    measured, main = getattr(figures, columns.main), told[columns.main]
    same = np.isfinite(main) & (np.abs(measured - main) <= SAME * np.abs(main))
    taken = {
        name: np.where(same & np.isfinite(values), values, getattr(figures, name))
        for name, values in told.items()
    }
    findings = dict(figures.findings)
    codes = [feature.attribute(columns.finding) for feature in features]
    kept_out = [k for k, code in enumerate(codes) if code and not np.isfinite(main[k])]
    for k in kept_out:
        findings.setdefault(k, _kept_out(str(codes[k])))
        for values in taken.values():
            values[k] = np.nan
    sources = [
        str(feature.attribute(columns.sigma_from) or ASSUMED) if is_same else ASSUMED
        for feature, is_same in zip(features, same)
    ]
    changed: dict[str, Any] = {**taken, "findings": findings}
    return dataclasses.replace(figures, **changed), sources


def _kept_out(codes: str) -> Finding:
    return Finding(
        codes.split(",", maxsplit=1)[0].split(maxsplit=1)[0].strip(";"),
        Severity.STOP,
        "",
        "The survey kept this figure out ({codes}).",
        "Answer its findings in the decisions file and run the survey again.",
        {"codes": codes},
    )


def _column(features: Sequence[QgsFeature], at: int) -> Floats:
    values = (feature.attribute(at) for feature in features)
    return np.array([float(v) if isinstance(v, (int, float)) else np.nan for v in values])
