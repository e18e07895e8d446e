# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of compare_surveys, which its form imports when it starts."""

from __future__ import annotations

from contextlib import ExitStack
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from qgis.core import QgsCoordinateReferenceSystem, QgsFields, QgsMeshLayer, QgsVectorLayer, QgsWkbTypes

from ...bridge.compared import (
    CHANGED_COLUMNS,
    COLUMNS,
    SUMMARY_COLUMNS,
    ComparedTables,
    compared_feature,
    compared_fields,
    ground_rows,
    ground_summary,
    patch_changed,
    ring_geometry,
)
from ...bridge.compared_surveys import is_survey, read_pair
from ...bridge.ground_list import SURVEYS_TABLE
from ...bridge.surfaces import read_surfaces
from ...bridge.text import tr
from ...core.errors import BadInput
from ...core.register.compare import compare_surveys
from ...core.register.ground import compare_grounds
from ...core.register.records import Asked
from ..algorithm import Ask
from ..compare_surveys import (
    AFTER,
    BEFORE,
    CHANGED,
    CHANGES,
    COMMON_SIGMA,
    LEVEL,
    LEVEL_PERCENT,
    SEE,
    SEE_HEIGHT,
    SEE_HEIGHT_M,
    SEE_M,
    SUMMARY,
)
from ..layers import SIGMA
from ..parameters import OUTPUT

if TYPE_CHECKING:
    from qgis.core import QgsGeometry, QgsMapLayer

    from ...core.register.ground import GroundComparison
    from ...core.register.records import Comparison
    from ..outputs import Rows

OUTPUTS = (OUTPUT, CHANGED, SUMMARY)
SURVEYS_METHOD = "tested against the joint uncertainty, one chance of a false change for the whole pair"
SURFACES_METHOD = "heights at the points of both surfaces, volumes exact over the triangles"


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    ask.need_one(OUTPUTS)
    outputs = {name: ask.output(name) for name in OUTPUTS if ask.is_given(name)}
    given = [_given(ask, name) for name in (BEFORE, AFTER)]
    for output in outputs.values():
        output.name_by(f"{given[0].name} to {given[1].name}")
    progress = ask.progress()
    progress(0.0, "Reading")
    told = _Told(ask, given)
    with ExitStack() as stack:
        sinks = {
            name: stack.enter_context(output.open(*told.kinds[name])) for name, output in outputs.items()
        }
        for name, rows in sinks.items():
            told.write(name, rows)
    ask.feedback.pushInfo(tr("Changes told: {count}.").format(count=told.changes))
    return {**{name: output.destination for name, output in outputs.items()}, CHANGES: told.changes}


@dataclass(frozen=True)
class _Given:
    """One of the two: a layer, the file that it is of (None: none), and whether that is a survey."""

    layer: QgsMapLayer
    path: Path | None
    is_survey: bool

    @property
    def name(self) -> str:
        """What it is called: a survey by its file, for the layer may be any of it."""
        return self.path.stem if self.is_survey and self.path is not None else self.layer.name()

    @property
    def place(self) -> str:
        """Where it is, or its name where it is in no file."""
        return self.layer.name() if self.path is None else str(self.path)


def _given(ask: Ask, name: str) -> _Given:
    """What a parameter names.

    Raises:
        BadInput: it is not there, or holds neither a survey nor triangles.
    """
    layers = ask.layers(name)
    if not layers or not isinstance(layers[0], (QgsVectorLayer, QgsMeshLayer)):
        raise BadInput(
            "{path} is not there, or is neither a survey nor a surface. Choose a GeoPackage that Survey walks or Build "
            "surface has written, or another file or layer of triangles with heights.",
            path=ask.text(name) or "",
        )
    file, _, of = layers[0].source().partition("|")
    path = Path(file) if layers[0].providerType() in {"ogr", "mdal"} else None
    table = of.partition("layername=")[2].partition("|")[0]
    return _Given(layers[0], path, path is not None and table != SURVEYS_TABLE and is_survey(path))


class _Told:
    """One run: two layers in, and the rows of each output."""

    def __init__(self, ask: Ask, given: list[_Given]) -> None:
        self._ask, self._given = ask, given
        self._level = (ask.number(LEVEL) or LEVEL_PERCENT) / 100.0
        see, height = ask.number(SEE), ask.number(SEE_HEIGHT)
        self._asked = Asked(
            self._level, SEE_M if see is None else see, SEE_HEIGHT_M if height is None else height
        )
        surveys = [one.is_survey for one in given]
        if surveys[0] != surveys[1]:
            raise BadInput(
                "{survey} is a survey and {other} is none. Give two surveys, or two surfaces.",
                survey=given[surveys.index(True)].place,
                other=given[surveys.index(False)].place,
            )
        self._rows: list[list[object]] = []
        self._changed: list[tuple[list[object], QgsGeometry]] = []
        self._summary: list[object] = []
        crs = self._of_surveys() if surveys[0] else self._of_surfaces()
        none = (QgsWkbTypes.Type.NoGeometry, QgsCoordinateReferenceSystem())
        self.kinds: dict[str, tuple[QgsFields, QgsWkbTypes.Type, QgsCoordinateReferenceSystem]] = {
            OUTPUT: (compared_fields(COLUMNS), *none),
            CHANGED: (compared_fields(CHANGED_COLUMNS), QgsWkbTypes.Type.MultiPolygon, crs),
            SUMMARY: (compared_fields(SUMMARY_COLUMNS), *none),
        }

    @property
    def changes(self) -> int:
        """How many things and patches are told as changed."""
        return len(self._changed)

    def write(self, name: str, rows: Rows) -> None:
        """Fill one output."""
        fields = self.kinds[name][0]
        if name == OUTPUT:
            rows.add([compared_feature(fields, values) for values in self._rows])
        elif name == CHANGED:
            rows.add([compared_feature(fields, values, where) for values, where in self._changed])
        else:
            rows.add([compared_feature(fields, self._summary)])

    def _of_surveys(self) -> QgsCoordinateReferenceSystem:
        pair = read_pair(*(one.path for one in self._given if one.path is not None))
        if pair.assumed:
            words = tr(
                "What heights are worth against each other is assumed for: {walks}. Make these surveys again to have it kept."
            )
            self._ask.feedback.pushWarning(words.format(walks=", ".join(pair.assumed)))
        tick = partial(self._ask.progress(), 0.5, "")
        found = compare_surveys(pair.before, pair.after, self._asked, tick)
        method = SURVEYS_METHOD + ("; heights assumed" if pair.assumed else "")
        tables = ComparedTables(found, pair.plane, self._level, method)
        self._rows, self._changed = list(tables.rows()), list(tables.changed())
        self._summary = tables.summary()
        self._tell(found)
        return pair.crs

    def _of_surfaces(self) -> QgsCoordinateReferenceSystem:
        opened = read_surfaces([one.layer for one in self._given], self._ask.number(SIGMA) or 0.0)
        if len(opened.surfaces) != len(self._given):
            raise BadInput(
                "The two hold {count} surfaces: {names}. Give two of one surface each; filter a layer to the one that is meant.",
                count=len(opened.surfaces),
                names=", ".join(opened.names),
            )
        tick = partial(self._ask.progress(), 0.5, "")
        common = self._ask.number(COMMON_SIGMA) or 0.0
        earlier, later = opened.surfaces
        found = compare_grounds(earlier, later, common, self._asked, tick)
        names = (opened.names[0], opened.names[1])
        self._rows = list(ground_rows(found, names, SURFACES_METHOD))
        self._changed = [
            (patch_changed(one.patch, k, SURFACES_METHOD), ring_geometry(one.patch.hull, opened.plane))
            for k, one in enumerate(found.patches, 1)
        ]
        self._summary = ground_summary(found, self._level, SURFACES_METHOD)
        self._tell_step(found)
        return opened.crs

    def _tell(self, found: Comparison) -> None:
        """Warn of what all places share, where the surveys do not account for it."""
        motion, lift = found.motion, found.lift
        if motion is not None and min(motion.shift_p, motion.turn_p) < self._level:
            words = tr(
                "The later survey lies {shift:.3f} m beside the earlier one and is turned by {turn:.4f} degrees, more than "
                "both placements state. This is taken off, and is no change of things. Check the control of both."
            )
            row = dict(zip((name for name, _ in SUMMARY_COLUMNS), self._summary))
            self._ask.feedback.pushWarning(words.format(shift=row["shift_m"], turn=row["turn_deg"]))
        if lift is not None and lift.p < self._level:
            words = tr(
                "All heights differ by {shift:+.3f} m, more than both account for. This is taken off, and is no change of the "
                "ground. Check the level marks and the datums."
            )
            self._ask.feedback.pushWarning(words.format(shift=lift.shift.value))

    def _tell_step(self, found: GroundComparison) -> None:
        """Warn of a step in height that the two surfaces do not account for."""
        if found.lift.p >= self._level:
            return
        words = tr(
            "All heights differ by {shift:+.3f} m, more than both account for. Either the ground was raised or lowered all over, "
            "or one of the two hangs on another bench mark: this comparison cannot tell which. The row has the volume of both: "
            "{without:.2f} m3 without the step, {whole:.2f} m3 with it. Check the level marks and the datums."
        )
        lift, without, whole = found.lift.shift.value, found.volume.value, found.with_shift.value
        self._ask.feedback.pushWarning(words.format(shift=lift, without=without, whole=whole))
