# SPDX-License-Identifier: GPL-2.0-or-later
"""What the algorithms on layers share: their parameters, and one run over all rows of a layer."""

from __future__ import annotations

from contextlib import ExitStack
from typing import TYPE_CHECKING

from qgis.core import (
    QgsFeatureRequest,
    QgsProcessingAlgorithm,
    QgsProcessingOutputNumber,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterField,
    QgsProcessingParameterNumber,
    QgsPropertyDefinition,
    QgsWkbTypes,
)

from ..bridge.settings import DIGITISED_SIGMA, FIT_WITHIN, read_number
from ..bridge.text import tr
from .parameters import INPUT, OUTPUT, TOLERANCE, height_parameter, number_parameter

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from qgis.core import QgsFeature, QgsProcessingFeatureSource

    from ..bridge.fields import Kind
    from .algorithm import Ask

SIGMA, EDGE_SIGMA, ROUNDING = "SIGMA", "EDGE_SIGMA", "ROUNDING"
FEATURE, PART, SIZE_SIGMA = "FEATURE", "PART", "SIZE_SIGMA"
MEASURED, REFUSED, TOTAL = "MEASURED", "REFUSED", "TOTAL"
LEAST_FIT_M = 0.0001
"""Metres: nobody fits to less."""
MOST_SIGMA_M = 1000.0
TAKE_OFF_CHUNK = 500
"""Rows at a time where each is looked at by itself, so that progress is seen and cancelling is heard."""
LOOKED_AT = 500
"""Rows that are looked at for curves before a layer of straights is written."""
DRAWN = (QgsWkbTypes.GeometryType.LineGeometry, QgsWkbTypes.GeometryType.PolygonGeometry)
TAPED_SIGMA_M = 0.005
"""Metres, one sigma of a size that was taped: common practice, no source."""


def add_layer_outputs(algorithm: QgsProcessingAlgorithm, *, is_summed: bool = True) -> None:
    """What a run has come to, for models and scripts; ratios are not summed."""
    for name, label in (
        (MEASURED, tr("Rows measured")),
        (REFUSED, tr("Rows refused")),
        *(((TOTAL, tr("Sum of the figure")),) if is_summed else ()),
    ):
        algorithm.addOutput(QgsProcessingOutputNumber(name, label))


def add_layer_parameters(algorithm: QgsProcessingAlgorithm, label: str) -> None:
    """What the points of a layer are worth, and how high the ground lies."""
    algorithm.addParameter(
        _sigma(
            SIGMA,
            label,
            read_number(DIGITISED_SIGMA),
            tr(
                "What each point is worth by itself, one sigma along each axis; a shift of all of them together "
                "changes no size. It is an assumption, and the rows say so. It may come from a field."
            ),
        )
    )
    height = height_parameter()
    height.setFlags(height.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
    algorithm.addParameter(height)


def add_fit_parameters(algorithm: QgsProcessingAlgorithm) -> None:
    """How near a fit is to be, and what a vertex is worth."""
    algorithm.addParameter(
        number_parameter(
            TOLERANCE,
            tr("Largest distance of a vertex from its straight or arc, metres"),
            tr("Take five times what vertices are worth, or more: a smaller one leaves them as recorded."),
            read_number(FIT_WITHIN),
            (LEAST_FIT_M, 100.0),
        )
    )
    sigma = number_parameter(
        SIGMA,
        tr("One-sigma of a vertex, each axis, metres"),
        tr("Where it is empty, what is left over when the arcs are fitted tells it."),
        None,
        (LEAST_FIT_M, MOST_SIGMA_M),
    )
    rounding = number_parameter(
        ROUNDING,
        tr("Round the radii of the schedule to multiples of, metres"),
        tr("Where it is empty, radii are alike that differ by no more than their joint 95 %."),
        None,
        (LEAST_FIT_M, 100.0),
    )
    for parameter in (sigma, rounding, height_parameter()):
        parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
        algorithm.addParameter(parameter)


def edge_sigma_parameter() -> QgsProcessingParameterNumber:
    """How sharply an edge can be told."""
    parameter = _sigma(
        EDGE_SIGMA,
        tr("One-sigma of where the edge is taken to lie, metres"),
        0.0,
        tr(
            "A lawn's edge is no line: this is how far to one side it may have been taken all along, one sigma (20 to "
            "50 mm for turf: common practice, no source). It comes back in a column of its own, area_m2_edge_sigma, "
            "as this times the length of all edges."
        ),
    )
    parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
    return parameter


def _sigma(name: str, label: str, default: float, words: str) -> QgsProcessingParameterNumber:
    parameter = QgsProcessingParameterNumber(
        name,
        label,
        QgsProcessingParameterNumber.Type.Double,
        default,
        optional=False,
        minValue=0.0,
        maxValue=MOST_SIGMA_M,
    )
    parameter.setMetadata({"widget_wrapper": {"decimals": 4}})
    parameter.setHelp(words)
    parameter.setIsDynamic(True)
    parameter.setDynamicLayerParameterName(INPUT)
    parameter.setDynamicPropertyDefinition(
        QgsPropertyDefinition(name, label, QgsPropertyDefinition.StandardPropertyTemplate.DoublePositive)
    )
    return parameter


def size_sigma_parameter() -> QgsProcessingParameterNumber:
    """What sizes noted on site are worth."""
    return number_parameter(
        SIZE_SIGMA,
        tr("One-sigma of taped sizes, metres"),
        tr(
            "Of widths, heights and thicknesses (a tape in ordinary care errs by some millimetres: common practice)."
        ),
        TAPED_SIGMA_M,
        (0.0, MOST_SIGMA_M),
    )


def add_part_parameters(algorithm: QgsProcessingAlgorithm) -> None:
    """The columns that tell which two lines belong together."""
    for name, label, words in (
        (FEATURE, tr("Name field"), tr("The field feature where none is chosen.")),
        (
            PART,
            tr("Part field"),
            tr(
                "The field part where none is chosen. Its words foot and top, left and right, tell the two edges."
            ),
        ),
    ):
        parameter = QgsProcessingParameterField(name, label, parentLayerParameterName=INPUT, optional=True)
        parameter.setHelp(words)
        parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
        algorithm.addParameter(parameter)


def size_parameter(
    name: str, label: str, words: str, default: float = 0.0, most: float = MOST_SIGMA_M
) -> QgsProcessingParameterNumber:
    """A number that may come from a field, row by row."""
    parameter = _sigma(name, label, default, words)
    parameter.setMaximum(most)
    return parameter


def take_off_layer(
    ask: Ask,
    source: QgsProcessingFeatureSource,
    columns: Sequence[tuple[str, Kind]],
    values: Callable[[list[QgsFeature]], list[list[object]]],
) -> dict[str, object]:
    """Every row of a layer again, with columns added, the first of them the main figure and the last why there is none.
    Where OUTPUT is not given (an algorithm with others), the rows are measured all the same.

    Args:
        ask: the run.
        source: the layer.
        columns: what is added.
        values: what fills them, given some rows.
    """
    from ..bridge.layers import extended, fields_with
    from ..bridge.sources import read_chunks

    output = ask.output(OUTPUT) if ask.is_given(OUTPUT) else None
    if output:
        output.name_by(source.sourceName())
    anew = ask.clashing_ids(OUTPUT, source) if output else None
    progress, every, done = ask.progress(), max(source.featureCount(), 1), 0
    progress(0.0, "Measuring")
    measured, rest, total = 0, 0, 0.0
    kind = (fields_with(source.fields(), columns), _geometry_of(source), source.sourceCrs())
    with ExitStack() as stack:
        rows = stack.enter_context(output.open(*kind)) if output else None
        for chunk in read_chunks(source, TAKE_OFF_CHUNK):
            told = values(chunk.features)
            known = [row for row in told if _is_measured(row)]
            total += sum(float(row[0]) for row in known if isinstance(row[0], (int, float)))
            measured += len(known)
            # A row without figures and without a finding is counted with another.
            rest += sum(1 for row in told if row[-1] and not _is_measured(row))
            if rows is not None:
                rows.add([extended(f, row, None, anew) for f, row in zip(chunk.features, told)])
            done += len(told)
            progress(min(done / every, 1.0), "Measuring")
    return {
        **({OUTPUT: output.destination} if output else {}),
        **tell_take_off(ask, columns[0][0], measured, rest, total),
    }


def _is_measured(row: list[object]) -> bool:
    """Whether a row has its main figure; or nobody asked for that, and it tells where the uncertainty of the others is from."""
    return isinstance(row[0], (int, float)) or (row[-2] is not None and not row[-1])


def _geometry_of(source: QgsProcessingFeatureSource) -> QgsWkbTypes.Type:
    """The geometries that a layer's rows need: curves where one of the first has some though the layer, such as a text of
    WKT whose first row is straight, says that it has none."""
    from ..bridge.compat import IGNORE_INVALID

    kind = source.wkbType()
    if not QgsWkbTypes.isCurvedType(kind) and QgsWkbTypes.geometryType(kind) in DRAWN:
        request = QgsFeatureRequest().setNoAttributes().setLimit(LOOKED_AT)
        rows = source.getFeatures(request, IGNORE_INVALID)
        if any(QgsWkbTypes.isCurvedType(row.geometry().wkbType()) for row in rows):
            return QgsWkbTypes.curveType(kind)
    return kind


def tell_take_off(ask: Ask, name: str, measured: int, rest: int, total: float) -> dict[str, object]:
    """What a run has come to, in the log and as outputs; with the sum where the algorithm tells it."""
    is_summed = ask.tells(TOTAL)
    words = tr("Rows measured: {measured}.")
    if is_summed:
        words = tr("Rows measured: {measured}; {name} {total:.3f} in all.")
    ask.feedback.pushInfo(words.format(measured=measured, name=name, total=total))
    if rest:
        words = tr("Rows without figures: {refused}. The column finding says why, and what to do.")
        ask.feedback.pushWarning(words.format(refused=rest))
    return {MEASURED: measured, REFUSED: rest, **({TOTAL: total} if is_summed else {})}
