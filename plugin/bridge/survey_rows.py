# SPDX-License-Identifier: GPL-2.0-or-later
"""Rows of a layer that are a survey's own: whether it kept their figures out, and which they are."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..core.errors import BadInput
from ..core.quantity import Quantity
from .drawn import text_of
from .measured import ASSUMED

if TYPE_CHECKING:
    from qgis.core import QgsFeature

SAME = 2e-5
"""Of a length: as near as this to the survey's own, the line is as the survey drew it."""
SAME_DRAWN = 1e-3
"""The same where the survey's line stands in chords in the layer and is exact in its column `shape`."""


def refuse_kept_out(row: QgsFeature, name: str) -> bool:
    """Whether a row is one of a survey's, by the column's name of its main figure.

    Raises:
        BadInput: the survey kept the row's figures out.
    """
    names = {field.name() for field in row.fields()}
    if not {name, f"{name}_sigma", "sigma_from", "finding", "method", "walk", "feature"} <= names:
        return False
    codes = text_of(row.attribute("finding"))
    if codes and not isinstance(row.attribute(name), (int, float)):
        raise BadInput(
            "The survey kept this row's figures out ({codes}). Answer its findings in the decisions file and run the "
            "survey again.",
            codes=codes,
        )
    return True


def survey_figure(row: QgsFeature, name: str, measured: float) -> tuple[Quantity, str] | None:
    """The survey's own figure of a row by its column's name, and where its uncertainty comes from, where the row is as the
    survey drew it; None where it is no such row.

    Raises:
        BadInput: the survey kept the figure out.
    """
    if not refuse_kept_out(row, name):
        return None
    told, sigma = row.attribute(name), row.attribute(f"{name}_sigma")
    if not isinstance(told, (int, float)) or not isinstance(sigma, (int, float)):
        return None
    has_shape = row.fields().lookupField("shape") >= 0 and text_of(row.attribute("shape"))
    if abs(told - measured) > (SAME_DRAWN if has_shape else SAME) * measured:
        return None
    unit = "m2" if name.endswith("_m2") else "m"
    return Quantity(float(told), float(sigma), unit), text_of(row.attribute("sigma_from")) or ASSUMED
