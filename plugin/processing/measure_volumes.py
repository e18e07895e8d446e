# SPDX-License-Identifier: GPL-2.0-or-later
"""Cut and fill of a surface to a level, a plane or another surface, over areas; loads, depths and the zero line."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import (
    QgsProcessing,
    QgsProcessingOutputNumber,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterMapLayer,
)

from ..bridge.text import tr
from .algorithm import Algorithm, Ask
from .layers import SIGMA
from .parameters import HEIGHT, OUTPUT, height_parameter, number_parameter

if TYPE_CHECKING:
    from collections.abc import Iterator


SURFACE, TO_SURFACE, LEVEL, PLANE, AREAS = "SURFACE", "TO_SURFACE", "LEVEL", "PLANE", "AREAS"
STRIP, STRIP_SIGMA, BULKING, SHRINK, FIT = "STRIP", "STRIP_SIGMA", "BULKING", "SHRINK", "FIT"
DENSITY, LOAD_M3, LOAD_T, STEP, COMMON_SIGMA = "DENSITY", "LOAD_M3", "LOAD_T", "STEP", "COMMON_SIGMA"
THICKNESS, ZERO_LINE, CUT, FILL = "THICKNESS", "ZERO_LINE", "CUT", "FILL"
LEVEL_SIGMA_M = 0.02
"""Metres: a height of a staff or a receiver on soft ground; common practice, no source."""
STEP_M = 0.1
MOST_M, MOST_FACTOR = 100_000.0, 10.0
ADVANCED = (STRIP_SIGMA, FIT, SIGMA, COMMON_SIGMA, HEIGHT)


class MeasureVolumes(Algorithm):
    NAME, GROUP = "measure_volumes", "measure"

    def label(self) -> str:
        return tr("Measure volumes")

    def help_text(self) -> str:
        return tr(
            "Cut and fill of a surface to a level, to a plane through three points or to another surface, over all of it "
            "or over areas with voids, a row each. Exact over the triangles of both, split where the depth is zero: cut and "
            "fill are never netted, net_m3 stands beside them.\n\n"
            "Only ground that both surfaces cover is measured; left_out_m2 is what of the area they do not, and finding "
            "says so. Strip is taken off everywhere first and is never fill. From bank to loose, compacted, tonnes and "
            "loads each factor counts once, and working shows it; loads are whole, by volume or by mass, whichever is more. "
            "Depths by class has the ground by its depth (cut positive), Zero line what lies between cut and fill. Every "
            "_sigma is one standard deviation, from the points' heights and the ground between them; outlines, strip "
            "(unless told) and planes are taken as exact.\n\n"
            "Not a boundary or legal survey. Have buried services located before breaking ground."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        for parameter in (*_layers(), *_numbers()):
            if parameter.name() in ADVANCED:
                parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
            self.addParameter(parameter)
        for name, label, kind, by_default in (
            (OUTPUT, tr("Volumes"), QgsProcessing.SourceType.TypeVector, True),
            (THICKNESS, tr("Depths by class"), QgsProcessing.SourceType.TypeVectorPolygon, False),
            (ZERO_LINE, tr("Zero line"), QgsProcessing.SourceType.TypeVectorLine, False),
        ):
            self.addParameter(
                QgsProcessingParameterFeatureSink(
                    name, label, kind, optional=True, createByDefault=by_default
                )
            )
        for name, label in (
            (CUT, tr("Cut of all rows, cubic metres")),
            (FILL, tr("Fill of all rows, cubic metres")),
        ):
            self.addOutput(QgsProcessingOutputNumber(name, label))

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.measure_volumes import run

        return run(ask)


def _layers() -> Iterator[QgsProcessingParameterDefinition]:
    """What is measured, to what, and where."""
    for name, label, words in (
        (SURFACE, tr("Existing surface"), tr("A layer of triangles with heights, or a mesh.")),
        (
            TO_SURFACE,
            tr("Design surface"),
            tr("The ground as it is to be. Give this, or a level, or a plane."),
        ),
    ):
        layer = QgsProcessingParameterMapLayer(name, label, optional=name == TO_SURFACE)
        layer.setHelp(words)
        yield layer
    yield number_parameter(
        LEVEL, tr("To a level, metres"), tr("A height in the surface's datum."), None, (-MOST_M, MOST_M)
    )
    for name, label, kind, words in (
        (
            PLANE,
            tr("To a plane through three points"),
            QgsProcessing.SourceType.TypeVectorPoint,
            tr("A layer of three points with heights (z), or the three selected in it."),
        ),
        (
            AREAS,
            tr("Areas"),
            QgsProcessing.SourceType.TypeVectorPolygon,
            tr("A row of figures each, voids out; where it is empty, all of the surface is one row."),
        ),
    ):
        source = QgsProcessingParameterFeatureSource(name, label, [kind], optional=True)
        source.setHelp(words)
        yield source


def _numbers() -> Iterator[QgsProcessingParameterDefinition]:
    """How soil is reckoned, and what heights are worth."""
    factor, part, metres = (0.01, MOST_FACTOR), (0.0, 1.0), (0.0, 1000.0)
    for name, label, words, default, span in (
        (STRIP, tr("Strip beforehand, metres"), tr("Topsoil taken off all of the ground."), 0.0, metres),
        (
            STRIP_SIGMA,
            tr("One-sigma of the strip's depth, metres"),
            tr("It is in strip, cut and fill."),
            0.0,
            metres,
        ),
        (
            BULKING,
            tr("Bulking: loose per bank"),
            tr("1.3: a cubic metre in the bank is 1.3 on the lorry."),
            1.0,
            factor,
        ),
        (
            SHRINK,
            tr("Shrink: compacted per bank"),
            tr("0.9: a cubic metre in the bank is 0.9 rolled in."),
            1.0,
            factor,
        ),
        (FIT, tr("Part of the cut that is fit for fill"), tr("The rest goes away."), 1.0, part),
        (
            DENSITY,
            tr("Density in the bank, tonnes per cubic metre"),
            tr("For tonnes and loads by mass."),
            None,
            factor,
        ),
        (LOAD_M3, tr("A load, cubic metres loose"), tr("For loads by volume."), None, (0.01, 1000.0)),
        (LOAD_T, tr("A load, tonnes"), tr("For loads by mass."), None, (0.01, 1000.0)),
        (
            STEP,
            tr("Step of the classes of depth, metres"),
            tr("Of depths by class; they count from 0."),
            STEP_M,
            (0.001, 1000.0),
        ),
        (
            SIGMA,
            tr("One-sigma of a height where a surface does not say it, metres"),
            tr("Surfaces that were built here say what their points are worth; other layers do not."),
            LEVEL_SIGMA_M,
            metres,
        ),
        (
            COMMON_SIGMA,
            tr("One-sigma of the surface's height as a whole, metres"),
            tr("How far all its heights together may lie off the level, plane or surface it is measured to."),
            0.0,
            metres,
        ),
    ):
        yield number_parameter(name, label, words, default, span)
    yield height_parameter()
