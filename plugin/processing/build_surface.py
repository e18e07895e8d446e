# SPDX-License-Identifier: GPL-2.0-or-later
"""A surface of triangles from levels and breaklines, its contours, and what its heights are worth."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import (
    QgsProcessing,
    QgsProcessingOutputNumber,
    QgsProcessingParameterBoolean,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
    QgsProcessingParameterFile,
    QgsProcessingParameterFileDestination,
    QgsProcessingParameterNumber,
    QgsProcessingParameterString,
    QgsPropertyDefinition,
)

from ..bridge.text import tr
from ..core.defaults import GAP_SPACINGS, GROUND, LEVELS_WITHIN
from .algorithm import Algorithm, Ask
from .layers import SIGMA
from .parameters import HEIGHT, OUTPUT, height_parameter, number_parameter

if TYPE_CHECKING:
    from collections.abc import Iterator


INPUT_POINTS, HEIGHTS, BREAKLINES, BOUNDARY, VOIDS = (
    "INPUT_POINTS",
    "HEIGHTS",
    "BREAKLINES",
    "BOUNDARY",
    "VOIDS",
)
SURVEY, NAME, INTERVAL, LINE_SIGMA = "SURVEY", "NAME", "INTERVAL", "LINE_SIGMA"
INSIDE = "INSIDE"
WITHIN, LONGEST, GAP = "WITHIN", "LONGEST", "GAP"
CONTOURS, MESH = "CONTOURS", "MESH"
TRIANGLES, WEAK, ROUGH, REACH = "TRIANGLES", "WEAK", "ROUGH", "REACH"
LEVEL_SIGMA_M = 0.02
"""Metres: a height of a staff or a receiver on soft ground; common practice, no source."""
INTERVAL_M = 0.25
MOST_M = 100_000.0
ADVANCED = (LINE_SIGMA, WITHIN, LONGEST, GAP, HEIGHT)


class BuildSurface(Algorithm):
    NAME, GROUP = "build_surface", "measure"

    def label(self) -> str:
        return tr("Build surface")

    def help_text(self) -> str:
        return tr(
            "A surface of triangles through points of known height, with breaklines as edges of it, inside a boundary and "
            "outside voids: from layers of any CRS, or from a survey's own levels and walked edges.\n\n"
            "Surface has a row for each triangle, with its corners as exact numbers and what their heights are worth, so "
            "that sections and volumes open the surface again as it was. rough_m is one standard deviation of the ground "
            "off the triangles between the points, found by leaving out each point in turn, and reach_m is how far such a "
            "departure hangs together; rough_m is empty where too few points stand inside to tell. Triangles with is_weak are "
            "far from every point, stand on one line of points, or are slivers of the rim: do not lean on them. Contours "
            "are exact, with, higher ground on the left of each, height_m_sigma being what the surface's height is "
            "worth along it and shift_m_sigma how far it may lie to one side. Mesh file is the surface as a mesh.\n\n"
            "Points within a millimetre in plan are one. Risers, and a wall's foot and top over each other (one line, or the "
            "parts foot and top of one feature), are built leaning by 2 mm and told. Other breaklines that meet at different "
            "heights, by more than three times what they are worth, are refused with place and difference. Boundaries and voids without heights are "
            "laid on the ground.\n\n"
            "Not a boundary or legal survey. Have buried services located before breaking ground."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        for parameter in (*_sources(), *_numbers()):
            if parameter.name() in ADVANCED:
                parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
            self.addParameter(parameter)
        for name, label, kind in (
            (OUTPUT, tr("Surface"), QgsProcessing.SourceType.TypeVectorPolygon),
            (CONTOURS, tr("Contours"), QgsProcessing.SourceType.TypeVectorLine),
        ):
            self.addParameter(
                QgsProcessingParameterFeatureSink(name, label, kind, optional=True, createByDefault=True)
            )
        self.addParameter(
            QgsProcessingParameterFileDestination(
                MESH, tr("Mesh file"), tr("Mesh") + " (*.2dm)", optional=True, createByDefault=False
            )
        )
        for name, label in (
            (TRIANGLES, tr("Triangles")),
            (WEAK, tr("Weak triangles")),
            (ROUGH, tr("One-sigma of the ground between the points, metres")),
            (REACH, tr("Reach of that, metres")),
        ):
            self.addOutput(QgsProcessingOutputNumber(name, label))

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.build_surface import run

        return run(ask)


def _sources() -> Iterator[QgsProcessingParameterDefinition]:
    """What the surface is built from."""
    point, line, polygon = (
        QgsProcessing.SourceType.TypeVectorPoint,
        QgsProcessing.SourceType.TypeVectorLine,
        QgsProcessing.SourceType.TypeVectorPolygon,
    )
    points = QgsProcessingParameterFeatureSource(INPUT_POINTS, tr("Levels"), [point], optional=True)
    points.setHelp(tr("Points with heights (z), or with a field that holds them."))
    yield points
    heights = QgsProcessingParameterField(
        HEIGHTS, tr("Field of heights, metres"), parentLayerParameterName=INPUT_POINTS, optional=True
    )
    heights.setHelp(tr("Where it is empty, the third coordinate counts, in the CRS's unit of height."))
    yield heights
    for name, label, kinds, words in (
        (
            BREAKLINES,
            tr("Breaklines"),
            [line, polygon],
            tr(
                "Lines and outlines with heights: kerbs, tops and feet of banks. Arcs are taken in chords of 2 mm."
            ),
        ),
        (BOUNDARY, tr("Boundary"), [polygon], tr("Ground outside it is left out.")),
        (VOIDS, tr("Voids"), [polygon], tr("Ground inside them is left out: buildings, ponds.")),
    ):
        source = QgsProcessingParameterFeatureSource(name, label, kinds, optional=True)
        source.setHelp(words)
        yield source
    survey = QgsProcessingParameterFile(
        SURVEY,
        tr("Survey GeoPackage"),
        optional=True,
        fileFilter=tr("GeoPackage") + " (*.gpkg)",
    )
    survey.setHelp(
        tr("Its spots, marks, stations on the way and walked edges of the surface named below are taken too.")
    )
    yield survey
    named = QgsProcessingParameterString(NAME, tr("Name of the surface"), GROUND)
    named.setHelp(tr("Such as ground, stripped, formation or finished."))
    yield named
    inside = QgsProcessingParameterBoolean(INSIDE, tr("Only inside the survey's areas"), defaultValue=False)
    inside.setHelp(
        tr(
            "Ground outside the survey's areas of that surface is left out; without it, ground between separate features is "
            "bridged."
        )
    )
    yield inside


def _numbers() -> Iterator[QgsProcessingParameterDefinition]:
    """What heights are worth, and how the surface is built."""
    yield _sigma()
    yield number_parameter(
        LINE_SIGMA,
        tr("One-sigma of a height on a breakline, metres"),
        tr("Of lines of layers. It is an assumption; a survey's own edges bring theirs."),
        LEVEL_SIGMA_M,
        (0.0, 1000.0),
    )
    yield number_parameter(
        INTERVAL,
        tr("Interval of contours, metres"),
        tr("Of height, from one contour to the next; they count from 0."),
        INTERVAL_M,
        (0.001, 1000.0),
    )
    yield number_parameter(
        WITHIN,
        tr("Merge points within, metres"),
        tr("In plan. Lines that pass a point within this go through it."),
        LEVELS_WITHIN,
        (0.0, 10.0),
    )
    yield number_parameter(
        LONGEST,
        tr("Longest side of a triangle of the rim, metres"),
        tr("Where there is no boundary, longer ones are taken off from outside; where it is empty, none is."),
        None,
        (0.001, MOST_M),
    )
    yield number_parameter(
        GAP,
        tr("Weak beyond, spacings"),
        tr("The spacing is the median distance from a point to the next."),
        GAP_SPACINGS,
        (0.5, 1000.0),
    )
    yield height_parameter()


def _sigma() -> QgsProcessingParameterNumber:
    label = tr("One-sigma of a level, metres")
    parameter = number_parameter(
        SIGMA,
        label,
        tr(
            "What each height is worth by itself. It is an assumption, and may come from a field. A survey's own levels "
            "bring theirs."
        ),
        LEVEL_SIGMA_M,
        (0.0, 1000.0),
    )
    parameter.setIsDynamic(True)
    parameter.setDynamicLayerParameterName(INPUT_POINTS)
    parameter.setDynamicPropertyDefinition(
        QgsPropertyDefinition(SIGMA, label, QgsPropertyDefinition.StandardPropertyTemplate.DoublePositive)
    )
    return parameter
