# SPDX-License-Identifier: GPL-2.0-or-later
"""Logs as they were recorded: the stations of every walk, and what the checks noticed."""

from __future__ import annotations

from qgis.core import QgsProcessing, QgsProcessingParameterFeatureSink

from ..bridge.text import tr
from .algorithm import Algorithm, Ask
from .parameters import add_job_parameters

STATIONS, SURFACES, FINDINGS = "STATIONS", "SURFACES", "FINDINGS"


class ReadWalks(Algorithm):
    NAME, GROUP = "read_walks", "walks"

    def label(self) -> str:
        return tr("Read walks")

    def help_text(self) -> str:
        return tr(
            "Read walk logs, point lists, GPX, NMEA 0183 and LandXML, and check them: one point for each station, the "
            "surfaces, and the findings.\n\n"
            "x_m, y_m and z_m are metres in each walk's own frame (the CRS's own units where the file is in one), the "
            "pole taken off the height; walks are brought together only by Adjust walks. A finding names file, line and station, says what stood there and what "
            "to do: a stop keeps figures out, an ask wants an answer, a note is told."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        add_job_parameters(self)
        point, table = QgsProcessing.SourceType.TypeVectorPoint, QgsProcessing.SourceType.TypeVector
        self.addParameter(QgsProcessingParameterFeatureSink(STATIONS, tr("Stations"), point, optional=True))
        polygon = QgsProcessing.SourceType.TypeVectorPolygon
        surfaces = QgsProcessingParameterFeatureSink(
            SURFACES, tr("Surfaces"), polygon, optional=True, createByDefault=False
        )
        surfaces.setHelp(tr("Triangles of the surfaces that LandXML files hold, as they stand there."))
        self.addParameter(surfaces)
        self.addParameter(QgsProcessingParameterFeatureSink(FINDINGS, tr("Findings"), table, optional=True))

    def work(self, ask: Ask) -> dict[str, object]:
        from .runs.read_walks import run

        return run(ask)
