# SPDX-License-Identifier: GPL-2.0-or-later
"""What a form says, as the parameters of Plan walk."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from qgis.core import QgsExpression, QgsProperty

from ..core.errors import BadInput
from .expected import OUTPUTS
from .plan_layers import FEATURE, LEVELLED, MARK, PAIRED, SIGMA, WALK

if TYPE_CHECKING:
    from collections.abc import Mapping

    from qgis.core import QgsVectorLayer


class Worth(Enum):
    """Where what the instrument is worth comes from."""

    ASSUMED = "assumed"
    STATED = "accuracy"
    FILE = "instruments"


@dataclass(frozen=True)
class PlannedInstrument:
    """What the walk will be walked with: an accuracy as stated and the number of its kind, or a file and a name in it."""

    worth: Worth = Worth.ASSUMED
    accuracy: str = ""
    kind: int = 0
    file: str = ""
    name: str = ""


@dataclass(frozen=True)
class PlannedPicks:
    """One-sigma in metres of map points that have none of their own, and of the shift that all share."""

    sigma: float
    common: float


def plan_parameters(
    lines: QgsVectorLayer | None,
    marks: QgsVectorLayer | None,
    columns: Mapping[str, str],
    instrument: PlannedInstrument,
    picks: PlannedPicks,
) -> dict[str, object]:
    """The parameters of a run on walks and marks (None for none) whose columns are told by our names ("" where there is
    none); its outputs go into memory.

    Raises:
        BadInput: nothing is planned, or what the instrument is worth is not said.
    """
    if lines is None:
        raise BadInput("Nothing is planned. Draw a line for each walk, through its stations in order.")
    told: dict[str, object] = {"INPUT": lines.id(), "COMMON_SIGMA": picks.common}
    told.update({"WALK": columns[WALK], "FEATURE": columns[FEATURE]})
    if marks is not None:
        told.update({"MARKS": marks.id(), "MARK": columns[MARK]})
        told.update({"PAIRED": columns[PAIRED], "LEVELLED": columns[LEVELLED]})
        told["SIGMA_PICK"] = pick_sigma(columns[SIGMA], picks.sigma)
    told.update(_worth(instrument))
    told.update(dict.fromkeys(OUTPUTS, "memory:"))
    return {name: value for name, value in told.items() if value != ""}


def pick_sigma(column: str, default: float) -> QgsProperty | float:
    """Each mark's own one-sigma where a column has it, else one for all."""
    if not column:
        return default
    return QgsProperty.fromExpression(f"coalesce({QgsExpression.quotedColumnRef(column)}, {default!r})")


def _worth(instrument: PlannedInstrument) -> dict[str, object]:
    if instrument.worth is Worth.STATED:
        if not instrument.accuracy:
            raise BadInput("No accuracy is stated. Write it like 0.5 % or 0.02 m + 0.3 %, or choose assumed.")
        return {"ACCURACY": instrument.accuracy, "ACCURACY_KIND": instrument.kind}
    if instrument.worth is Worth.FILE:
        if not instrument.file:
            raise BadInput("No file of instruments is named. Choose one, or choose assumed.")
        return {"INSTRUMENTS": instrument.file, "INSTRUMENT": instrument.name}
    return {}
