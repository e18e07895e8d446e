# SPDX-License-Identifier: GPL-2.0-or-later
"""What all algorithms share: names, help, cancelling, and errors told as sentences."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING, cast

import numpy as np
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsExpression,
    QgsExpressionContext,
    QgsFeature,
    QgsFeatureRequest,
    QgsFeatureSink,
    QgsProcessing,
    QgsProcessingAlgorithm,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeatureSource,
    QgsProcessingFeedback,
    QgsProcessingParameters,
    QgsVectorLayer,
)
from qgis.PyQt.QtGui import QIcon

from ..bridge.compat import geometry_type
from ..bridge.resources import guide_url, icon_path
from ..bridge.text import explain, tr
from ..bridge.threads import keep_thread
from ..core.errors import BadInput, GroundTallyError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from qgis.core import QgsMapLayer, QgsProperty

    from ..bridge.fields import Frame, Table
    from ..bridge.plain_geopackage import PlainTable
    from ..bridge.progress import Progress
    from ..core.quantity import Floats
    from .outputs import Output
    from .prepared import Prepared


OF_OTHER_ROWS = frozenset({"aggregate", "relation_aggregate", "get_feature", "get_feature_by_id"})
"""Functions whose arguments may name columns of another layer."""


class Ask:
    """One run's parameters, by name, and its sinks."""

    def __init__(
        self,
        algorithm: QgsProcessingAlgorithm,
        parameters: dict[str, object],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
        prepared: Prepared,
    ) -> None:
        """What is asked, as the host was given it and with the project's layers found."""
        self._algorithm, self._given, self._context = algorithm, parameters, context
        self._parameters, self._sources = prepared.parameters, prepared.sources
        self.feedback = feedback

    def tells(self, name: str) -> bool:
        """Whether the algorithm has an output of that name."""
        return self._algorithm.outputDefinition(name) is not None

    def label(self, name: str) -> str:
        """What the window calls a parameter, without its unit."""
        whole = str(self._algorithm.parameterDefinition(name).description())
        return whole.rpartition(",")[0] or whole

    def is_given(self, name: str) -> bool:
        return self._parameters.get(name) not in (None, "")

    def number(self, name: str) -> float | None:
        """A number, or its default; None where it has none and none was given."""
        if not self.is_given(name) and self._algorithm.parameterDefinition(name).defaultValue() is None:
            return None
        return self._algorithm.parameterAsDouble(self._parameters, name, self._context)

    def is_by_row(self, name: str) -> bool:
        """Whether a number comes from a field or an expression, row by row."""
        return QgsProcessingParameters.isDynamic(self._parameters, name)

    def by_row(
        self, name: str, source: QgsProcessingFeatureSource
    ) -> Callable[[Sequence[QgsFeature]], Floats]:
        """The number of each row; where a row has none of its own, the parameter's default, which is said.

        Raises:
            BadInput: a number below 0, or an expression that cannot be worked out for any row.
        """
        default = self._algorithm.parameterDefinition(name).defaultValue()
        if not self.is_by_row(name):
            value = self.number(name)
            value = default if value is None else value
            if not 0.0 <= value < np.inf:
                raise BadInput(
                    "{name}: {value} is given. Give a number that is 0 or more.",
                    name=self.label(name),
                    value=value,
                )
            return lambda features: np.full(len(features), value, float)
        rule = cast("QgsProperty", self._parameters[name])
        about = self._about(source)
        _refuse_bad_rule(self.label(name), rule, about)

        def values(features: Sequence[QgsFeature]) -> Floats:
            told = np.empty(len(features))
            for k, feature in enumerate(features):
                about.setFeature(feature)
                told[k] = rule.valueAsDouble(about, -1.0)[0]
            good = np.isfinite(told) & (told >= 0.0)
            if not good.all():
                words = tr("{name}: {count} rows have none that is 0 or more; {default:g} is taken for them.")
                count = int(np.count_nonzero(~good))
                self.feedback.pushWarning(words.format(count=count, name=self.label(name), default=default))
            return np.where(good, told, default)

        return values

    def levels_by_row(
        self, name: str, source: QgsProcessingFeatureSource
    ) -> Callable[[Sequence[QgsFeature]], list[float | None]]:
        """The number of each row, below 0 too, or None where there is none: one for all, or each row's own.

        Raises:
            BadInput: an expression that cannot be worked out for any row.
        """
        if not self.is_by_row(name):
            value = self.number(name)
            return lambda features: [value] * len(features)
        rule = cast("QgsProperty", self._parameters[name])
        about = self._about(source)
        _refuse_bad_rule(self.label(name), rule, about)

        def values(features: Sequence[QgsFeature]) -> list[float | None]:
            told = []
            for feature in features:
                about.setFeature(feature)
                told.append(rule.valueAsDouble(about, np.nan)[0])
            return [value if np.isfinite(value) else None for value in told]

        return values

    def _about(self, source: QgsProcessingFeatureSource) -> QgsExpressionContext:
        """What expressions about the rows of a layer know; each asker has one of its own."""
        known = getattr(source, "about", None)
        if known is not None:
            return QgsExpressionContext(known)
        return self._algorithm.createExpressionContext(self._given, self._context, source)

    def source(self, name: str) -> QgsProcessingFeatureSource:
        """A layer's rows, of one of the project as they were when the run was prepared."""
        source = self._sources.get(name)
        if source is None:
            source = self._algorithm.parameterAsSource(self._parameters, name, self._context)
        if source is None:
            raise QgsProcessingException(self._algorithm.invalidSourceError(self._parameters, name))
        return source

    def output(self, name: str) -> Output:
        """A layer that is written row by row.

        Raises:
            BadInput: a layer that is read would be replaced by it.
        """
        from .outputs import Output

        output = Output(self._algorithm, self._parameters, self._context, self.feedback, name)
        definitions = self._algorithm.parameterDefinitions()
        read = [self.layer(d.name()) for d in definitions if d.type() == "source"]
        for d in definitions:
            is_list = d.type() == "multilayer" and d.layerType() != QgsProcessing.SourceType.TypeFile
            if is_list or d.type() == "layer":
                read += [layer for layer in self.layers(d.name()) if isinstance(layer, QgsVectorLayer)]
        output.keep_inputs(layer for layer in read if layer is not None)
        return output

    def one_layer(self, name: str) -> QgsMapLayer:
        """The one layer that a parameter names.

        Raises:
            BadInput: it names none.
        """
        layers = self.layers(name)
        if not layers:
            raise BadInput(
                "{name}: {given} is no layer that can be read. Choose a layer, or a file of one.",
                name=self.label(name),
                given=self._parameters.get(name),
            )
        return layers[0]

    def layers(self, name: str) -> list[QgsMapLayer]:
        """The layers that a parameter names, in its order."""
        return list(self._algorithm.parameterAsLayerList(self._parameters, name, self._context))

    def plain_table(self, name: str) -> PlainTable | None:
        """The plain GeoPackage table that a parameter's layer is the whole of, all its rows being asked for."""
        from ..bridge.plain_geopackage import plain_table
        from .prepared import asks_for_some

        if asks_for_some(self._given.get(name)):
            return None
        return plain_table(self.layer(name))

    def clashing_ids(
        self, output: str, source: QgsProcessingFeatureSource, name: str = "INPUT"
    ) -> int | None:
        """The number of a column of ids that a GeoPackage could not take, where that is what is written; it is said."""
        from ..bridge.plain_geopackage import ENDING
        from ..bridge.sources import clashing_ids

        path = self.output(output).path
        if path is None or path.suffix.lower() != ENDING:
            return None
        clashing = clashing_ids(source, self.layer(name))
        if clashing is not None:
            self.feedback.pushWarning(
                tr("The column fid has values twice or not at all; the rows are numbered anew.")
            )
        return clashing

    def layer(self, name: str) -> QgsVectorLayer | None:
        """The layer that a parameter names, whichever of its rows are asked for."""
        return self._algorithm.parameterAsVectorLayer(self._parameters, name, self._context)

    def flag(self, name: str) -> bool:
        return self._algorithm.parameterAsBool(self._parameters, name, self._context)

    def file(self, name: str) -> str | None:
        return self._algorithm.parameterAsFile(self._parameters, name, self._context) or None

    def text(self, name: str) -> str | None:
        """A text, or the name of a field; None where nothing was given."""
        return self._algorithm.parameterAsString(self._parameters, name, self._context).strip() or None

    def words(self, name: str) -> tuple[str, ...] | None:
        """Words with commas between; None where nothing was given."""
        text = self._algorithm.parameterAsString(self._parameters, name, self._context)
        return tuple(word.strip() for word in text.split(",")) if text.strip() else None

    def files(self, name: str) -> list[str]:
        """Files and folders; a text with semicolons names several, unless a file is called so."""
        given = self._algorithm.parameterAsFileList(self._parameters, name, self._context)
        names = [part for text in given for part in _split(text)]
        return [name.strip() for name in names if name.strip()]

    def crs(self, name: str) -> str | None:
        crs = self._algorithm.parameterAsCrs(self._parameters, name, self._context)
        given = self._parameters.get(name)
        if not self.is_given(name) or (
            isinstance(given, QgsCoordinateReferenceSystem) and not given.isValid()
        ):
            return None  # a dialog hands an empty choice over as a CRS that is none
        if not crs.isValid():
            raise BadInput(
                '"{crs}" is no CRS that is known here. Give an authority code such as EPSG:25831, or leave it out to '
                "take the control's.",
                crs=given,
            )
        return crs.authid() or crs.toWkt(QgsCoordinateReferenceSystem.WktVariant.WKT2_2019)

    def output_file(self, name: str) -> str:
        return self._algorithm.parameterAsFileOutput(self._parameters, name, self._context)

    def need_one(self, names: Sequence[str]) -> None:
        """Refuse a run that would write nothing."""
        if not any(map(self.is_given, names)):
            labels = [self._algorithm.parameterDefinition(name).description() for name in names]
            raise BadInput("No output is chosen. Choose one or more of: {names}.", names=", ".join(labels))

    def progress(self, start: float = 0.0, end: float = 1.0) -> Progress:
        from ..bridge.progress import report_to

        return report_to(self.feedback, start, end)

    def write(
        self,
        name: str,
        table: Table,
        records: Sequence[object],
        frame: Frame,
        crs: QgsCoordinateReferenceSystem,
    ) -> str | None:
        """Put records into a sink; returns where it is, None for one that was not asked for."""
        from ..bridge.layers import table_features, table_fields

        code = geometry_type(table.geometry)
        where = crs if table.geometry else QgsCoordinateReferenceSystem()
        sink, destination = self._algorithm.parameterAsSink(
            self._parameters, name, self._context, table_fields(table), code, where
        )
        if sink is None:
            if self.is_given(name):
                raise QgsProcessingException(self._algorithm.invalidSinkError(self._parameters, name))
            return None
        self._fill(sink, table_features(table, records, frame))
        return destination

    def _fill(self, sink: QgsFeatureSink, features: Iterable[QgsFeature]) -> None:
        for feature in features:
            if not sink.addFeature(feature, QgsFeatureSink.Flag.FastInsert):
                raise QgsProcessingException(sink.lastError())


def _refuse_bad_rule(name: str, rule: QgsProperty, about: QgsExpressionContext) -> None:
    """An expression or a field by which no row could have a value."""
    expression = QgsExpression(rule.asExpression())
    expression.prepare(about)
    known = {*about.fields().names(), QgsFeatureRequest.ALL_ATTRIBUTES, "*"}
    elsewhere = expression.referencedFunctions() & OF_OTHER_ROWS
    missing = [] if elsewhere else sorted(expression.referencedColumns() - known)
    why = expression.parserErrorString() or expression.evalErrorString() or ", ".join(missing)
    if why:
        raise BadInput(
            "{name}: {rule} cannot be worked out: {why}. Correct it, or give a number.",
            name=name,
            rule=rule.asExpression(),
            why=why.strip(),
        )


def _split(text: str) -> list[str]:
    try:
        is_one = Path(text).exists()
    except OSError:  # a list of names can be longer than a name may be; what is there is read later
        is_one = False
    return [text] if is_one else text.replace(os.linesep, ";").split(";")


class Algorithm(QgsProcessingAlgorithm):
    """An algorithm of ours: a subclass gives NAME, GROUP, label(), help_text(), initAlgorithm() and work()."""

    NAME = ""
    GROUP = ""

    def label(self) -> str:
        raise NotImplementedError

    def help_text(self) -> str:
        raise NotImplementedError

    def work(self, ask: Ask) -> dict[str, object]:
        raise NotImplementedError

    def createInstance(self) -> QgsProcessingAlgorithm:
        return type(self)()

    def name(self) -> str:
        return self.NAME

    def displayName(self) -> str:
        return self.label()

    def groupId(self) -> str:
        return self.GROUP

    def group(self) -> str:
        return {"walks": tr("Walks"), "measure": tr("Measure"), "register": tr("Register")}[self.GROUP]

    def shortHelpString(self) -> str:
        return self.help_text()

    def helpUrl(self) -> str:
        return guide_url(self.NAME)

    def icon(self) -> QIcon:
        return QIcon(icon_path(self.NAME))

    def prepareAlgorithm(
        self, parameters: dict[str, object], context: QgsProcessingContext, _feedback: QgsProcessingFeedback
    ) -> bool:
        """Take what the run reads of the project, while that is safe."""
        from .prepared import prepare_run

        self._prepared = prepare_run(self, parameters, context)
        return True

    def processAlgorithm(
        self, parameters: dict[str, object], context: QgsProcessingContext, feedback: QgsProcessingFeedback
    ) -> dict[str, object]:
        """Run, and tell an error of ours as one sentence; a host exits with a failure only on an exception."""
        from ..bridge.run_layers import KEEPER
        from .prepared import NOTHING

        keep_thread()
        project, transforms = context.project(), context.transformContext()
        context.setProject(None)  # the host would look layers up in it, in this thread
        try:
            results = self.work(Ask(self, parameters, context, feedback, self._prepared))
        except GroundTallyError as error:
            raise QgsProcessingException(explain(error)) from error
        finally:
            context.setProject(project)
            context.setTransformContext(transforms)  # a project brings its own
            KEEPER.end(self)
            self._prepared = NOTHING  # no file stays open
        return {name: value for name, value in results.items() if value is not None}
