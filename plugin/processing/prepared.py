# SPDX-License-Identifier: GPL-2.0-or-later
"""What an algorithm takes of the project before its run, while that is safe."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from qgis.core import QgsProcessingFeatureSourceDefinition, QgsVectorLayer

from ..bridge.layer_rows import LayerRows
from ..bridge.run_layers import KEEPER, find_layers

if TYPE_CHECKING:
    from qgis.core import QgsProcessingAlgorithm, QgsProcessingContext, QgsProcessingFeatureSource


@dataclass(frozen=True, eq=False)
class Prepared:
    """A run's parameters with the project's layers in place of their names, and by parameter the rows of those that it reads
    row by row, as they are now."""

    parameters: dict[str, object]
    sources: dict[str, QgsProcessingFeatureSource]


NOTHING = Prepared({}, {})
"""After a run."""


def prepare_run(
    algorithm: QgsProcessingAlgorithm, parameters: dict[str, object], context: QgsProcessingContext
) -> Prepared:
    """Take what the parameters name, and have it kept until KEEPER is told of the run's end."""
    found = find_layers(parameters, algorithm.parameterDefinitions(), context)
    KEEPER.begin(algorithm, found.layers)
    sources = {}
    for definition in algorithm.parameterDefinitions():
        name, layer = definition.name(), found.parameters.get(definition.name())
        if definition.type() != "source" or not isinstance(layer, QgsVectorLayer):
            continue
        only: Any = parameters[name] if asks_for_some(parameters[name]) else None
        source = algorithm.parameterAsSource(found.parameters if only is None else parameters, name, context)
        if source is not None and not (
            only and only.selectedFeaturesOnly
        ):  # the host keeps a selection as it was
            source = LayerRows(layer, algorithm.createExpressionContext(parameters, context, source), only)
        sources[name] = source
    return Prepared(found.parameters, sources)


def asks_for_some(given: object) -> bool:
    """Whether a parameter asks for some of a layer's rows."""
    if not isinstance(given, QgsProcessingFeatureSourceDefinition):
        return False
    is_filtered = bool(getattr(given, "filterExpression", ""))  # newer hosts have it
    return bool(given.selectedFeaturesOnly or given.featureLimit >= 0 or is_filtered)
