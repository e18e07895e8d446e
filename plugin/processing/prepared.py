# SPDX-License-Identifier: GPL-2.0-or-later
"""What an algorithm takes of the project before its run, while that is safe."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

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
        is_some = isinstance(parameters[name], QgsProcessingFeatureSourceDefinition)
        source = algorithm.parameterAsSource(parameters if is_some else found.parameters, name, context)
        if source is not None and not is_some:
            source = LayerRows(layer, algorithm.createExpressionContext(parameters, context, source))
        sources[name] = source
    return Prepared(found.parameters, sources)
