# SPDX-License-Identifier: GPL-2.0-or-later
"""Logs as they were recorded: the stations of every walk, and what the checks noticed."""

from __future__ import annotations

from qgis.core import QgsProcessing, QgsProcessingParameterFeatureSink

from ..bridge.fields import Frame
from ..bridge.layers import stated_crs, surface_records, table_named, walk_stations
from ..bridge.text import tr
from ..core.check.rules import check_job
from ..core.read.job import read_job
from .algorithm import Algorithm, Ask
from .parameters import add_job_parameters, job_files, stated_columns, stated_texts, tell_findings

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
        ask.need_one((STATIONS, SURFACES, FINDINGS))
        report = ask.progress()
        report(0.0, "Reading the logs")
        files = job_files(ask).texts
        read = read_job(files, stated_columns(ask), stated_texts(ask).of_files(files))
        findings = (*read.findings, *check_job(read.job, read.decisions))
        report(0.5, "Writing the stations")
        walks, frame = read.job.walks, Frame(None)
        crs = stated_crs(walk.keys.crs for walk in walks)
        of_surfaces = stated_crs(surface.crs for surface in read.job.surfaces)
        surfaces = surface_records(read.job.surfaces)
        tell_findings(ask, findings)
        return {
            STATIONS: ask.write(STATIONS, table_named("stations"), walk_stations(walks), frame, crs),
            SURFACES: ask.write(SURFACES, table_named("surfaces"), surfaces, frame, of_surfaces),
            FINDINGS: ask.write(FINDINGS, table_named("findings"), findings, frame, crs),
        }
