# SPDX-License-Identifier: GPL-2.0-or-later
"""The parameters that several algorithms share."""

from __future__ import annotations

from qgis.core import (
    QgsProcessing,
    QgsProcessingAlgorithm,
    QgsProcessingParameterBoolean,
    QgsProcessingParameterCrs,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterFile,
    QgsProcessingParameterMultipleLayers,
    QgsProcessingParameterNumber,
    QgsProcessingParameterString,
)

from ..bridge import settings
from ..bridge.text import tr

LOGS, CONTROL, TAPES, INSTRUMENTS, DECISIONS = "LOGS", "CONTROL", "TAPES", "INSTRUMENTS", "DECISIONS"
PICTURE, CRS, HEIGHT, SCALE, OUTPUT = "PICTURE", "CRS", "HEIGHT", "SCALE", "OUTPUT"
CHORDED, TOLERANCE, PRICE_WITHIN = "CHORDED", "TOLERANCE", "PRICE_WITHIN"
COLUMNS, FILE_UNITS, FILE_CRS = "COLUMNS", "FILE_UNITS", "FILE_CRS"
AS_WALKED, JOIN_WITHIN, INPUT = "AS_WALKED", "JOIN_WITHIN", "INPUT"
LEAST_AS_WALKED_M, MOST_AS_WALKED_M = 0.001, 100.0
"""Metres: nobody walks an edge to less."""
CHORD_SAG_M = 0.002
"""Metres: the largest distance between a chord and its arc unless told."""


def add_job_parameters(algorithm: QgsProcessingAlgorithm) -> None:
    """The logs and what lies beside them."""
    logs = QgsProcessingParameterMultipleLayers(
        LOGS, tr("Logs (files, or the folder they lie in)"), file_type()
    )
    logs.setHelp(
        tr(
            "Walk logs (CSV with the columns walk, station, x and y); or one folder, of which every text file counts. "
            "Control, tapes, instruments and decisions that lie in the folder are found by their content. Point lists, "
            "GPX, NMEA 0183 and LandXML are read too, told by their content."
        )
    )
    algorithm.addParameter(logs)
    algorithm.addParameter(_beside(CONTROL, tr("Control"), tr("Marks and the map points they belong to.")))
    algorithm.addParameter(
        _beside(TAPES, tr("Taped lengths"), tr("Lengths between marks, to check the walks against."))
    )
    algorithm.addParameter(
        _beside(INSTRUMENTS, tr("Instruments"), tr("What each instrument is worth, one sigma."))
    )
    algorithm.addParameter(_beside(DECISIONS, tr("Decisions"), tr("Answers to findings of an earlier run.")))
    for parameter in _stated_parameters():
        parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
        algorithm.addParameter(parameter)


def _stated_parameters() -> tuple[QgsProcessingParameterString, ...]:
    """What counts in place of what the files say, for all point lists or for single files."""
    columns = (
        COLUMNS,
        tr("Columns of point lists, in place of their header"),
        tr(
            "What each column is, in order, with commas between: number, northing, easting, elevation, description, "
            "longitude, latitude, or other for a column that is only kept. It counts for every point list of the run, "
            "whatever its header says. For single lists, an entry each, with semicolons between: points.csv: number, "
            "easting, northing; pegs.txt: northing, easting."
        ),
    )
    units = (
        FILE_UNITS,
        tr("Units of single files, in place of their own"),
        tr(
            "An entry for each file, with semicolons between: yard.csv: us-ft; tapes.csv: ft. The units are m, ft, us-ft, "
            "in, cm, mm. Other files keep theirs, and the files are not changed."
        ),
    )
    crs = (
        FILE_CRS,
        tr("CRS of single files, in place of their own"),
        tr(
            "An entry for each file, with semicolons between: points.csv: EPSG:25831; yard.csv: none. None: its "
            "coordinates are in a plane of their own. Other files keep theirs, and the files are not changed."
        ),
    )
    return tuple(_text_parameter(*words) for words in (columns, units, crs))


def _text_parameter(name: str, label: str, words: str) -> QgsProcessingParameterString:
    parameter = QgsProcessingParameterString(name, label, optional=True)
    parameter.setHelp(words)
    return parameter


def add_place_parameters(algorithm: QgsProcessingAlgorithm) -> None:
    """Where the survey goes, and how it is drawn."""
    crs = QgsProcessingParameterCrs(CRS, tr("CRS of the survey (the control's unless chosen)"), optional=True)
    crs.setHelp(tr("A projected CRS. What is measured stays true to the ground in any of them."))
    algorithm.addParameter(crs)
    scale = QgsProcessingParameterBoolean(SCALE, tr("Fit the scale to the control"), defaultValue=False)
    scale.setHelp(tr("Off, the measured size is kept and the scale only shown as a check."))
    more = (height_parameter(), scale, _join_parameter(), _as_walked_parameter(), _price_parameter())
    for parameter in more:
        parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
        algorithm.addParameter(parameter)


def number_parameter(
    name: str, label: str, words: str, default: float | None, span: tuple[float, float]
) -> QgsProcessingParameterNumber:
    """A number with its help; optional where it has no default. Between `span[0]` and `span[1]`, to three decimals."""
    parameter = QgsProcessingParameterNumber(
        name,
        label,
        QgsProcessingParameterNumber.Type.Double,
        default,
        default is None,
        *span,
    )
    parameter.setMetadata({"widget_wrapper": {"decimals": 3}})
    parameter.setHelp(words)
    return parameter


def height_parameter() -> QgsProcessingParameterNumber:
    """How high the ground lies, for the scale of lengths."""
    return number_parameter(
        HEIGHT,
        tr("Height of the ground above the ellipsoid, metres"),
        tr("Sets the scale of the survey plane: 64 m of height change a length by 0.001 %."),
        None,
        (-500.0, 9000.0),
    )


def _join_parameter() -> QgsProcessingParameterNumber:
    return number_parameter(
        JOIN_WITHIN,
        tr("Edges of neighbours that may be one: farthest apart, metres"),
        tr(
            "Edges within this, and within what their stations can be trusted to, are asked about (GE-02); they are joined "
            "only where you answer join."
        ),
        settings.read_number(settings.JOIN_WITHIN),
        (0.0, 1.0),
    )


def _price_parameter() -> QgsProcessingParameterNumber:
    return number_parameter(
        PRICE_WITHIN,
        tr("Phone's figures: largest uncertainty that may be priced, percent"),
        tr("A figure that a phone recorded and that is less certain is kept out (SR-01)."),
        settings.read_number(settings.PRICE_WITHIN),
        (0.0, 100.0),
    )


def _as_walked_parameter() -> QgsProcessingParameterNumber:
    return number_parameter(
        AS_WALKED,
        tr("As-walked edges to straights and arcs: how far a row may lie off, metres"),
        tr(
            "Where it is empty, as-walked rows are drawn as recorded, with a chord from row to row. Else they become the "
            "fewest straights and tangent arcs of which no row lies off by more than this; corners stay. Take five "
            "times the noise from row to row, or more. Nothing is fitted where the rows do not speak for it: those "
            "stay as recorded, and their method says so."
        ),
        None,
        (LEAST_AS_WALKED_M, MOST_AS_WALKED_M),
    )


def add_chord_parameters(algorithm: QgsProcessingAlgorithm) -> None:
    """The copy for readers that have no curves."""
    chorded = QgsProcessingParameterBoolean(
        CHORDED, tr("Also write a copy without curves"), defaultValue=False
    )
    chorded.setHelp(tr("A second GeoPackage, _chorded, with arcs as chords; its figures are the exact ones."))
    sag = QgsProcessingParameterNumber(
        TOLERANCE,
        tr("Largest distance between a chord and its arc, metres"),
        QgsProcessingParameterNumber.Type.Double,
        defaultValue=CHORD_SAG_M,
        minValue=1e-5,
        maxValue=1.0,
    )
    sag.setMetadata({"widget_wrapper": {"decimals": 4}})
    for parameter in (chorded, sag):
        parameter.setFlags(parameter.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
        algorithm.addParameter(parameter)


def picture_parameter() -> QgsProcessingParameterFile:
    """The orthophoto; a file, not a layer, so that its path can be kept beside the survey."""
    parameter = QgsProcessingParameterFile(PICTURE, tr("Picture the control was picked from"), optional=True)
    parameter.setHelp(
        tr("Laid under the survey. The one picture in the logs' folder is taken where none is named.")
    )
    return parameter


def file_type() -> QgsProcessing.SourceType:
    """Files that need not be layers."""
    return QgsProcessing.SourceType.TypeFile


def _beside(name: str, label: str, words: str) -> QgsProcessingParameterFile:
    parameter = QgsProcessingParameterFile(name, label, optional=True)
    parameter.setHelp(words + " " + tr("Looked for beside the logs where none is named."))
    return parameter
