# SPDX-License-Identifier: GPL-2.0-or-later
"""Logs as they were recorded: the stations of every walk, and what the checks noticed."""

from __future__ import annotations

from qgis.core import QgsProcessing, QgsProcessingParameterFeatureSink

from ..bridge.fields import Frame
from ..bridge.layers import table_named, walk_stations, walks_crs
from ..bridge.text import tr
from ..core.check.rules import check_job
from ..core.read.job import read_job
from .algorithm import Algorithm, Ask
from .parameters import add_job_parameters, job_files, tell_findings

STATIONS, FINDINGS = "STATIONS", "FINDINGS"


class ReadWalks(Algorithm):
    NAME, GROUP = "read_walks", "walks"

    def label(self) -> str:
        return tr("Read walks")

    def help_text(self) -> str:
        return tr(
            "Read walk logs and check them: one point for each station, and the findings.\n\n"
            "x_m, y_m and z_m are metres in each walk's own frame, the pole taken off the height; walks are brought "
            "together only by Adjust walks. A finding names file, line and station, says what stood there and what "
            "to do: a stop keeps figures out, an ask wants an answer, a note is told."
        )

    def initAlgorithm(self, config: dict[str, object] | None = None) -> None:
        add_job_parameters(self)
        point, table = QgsProcessing.SourceType.TypeVectorPoint, QgsProcessing.SourceType.TypeVector
        self.addParameter(QgsProcessingParameterFeatureSink(STATIONS, tr("Stations"), point, optional=True))
        self.addParameter(QgsProcessingParameterFeatureSink(FINDINGS, tr("Findings"), table, optional=True))

    def work(self, ask: Ask) -> dict[str, object]:
        ask.need_one((STATIONS, FINDINGS))
        report = ask.progress()
        report(0.0, "Reading the logs")
        read = read_job(job_files(ask).texts)
        findings = (*read.findings, *check_job(read.job, read.decisions))
        report(0.5, "Writing the stations")
        walks, frame, crs = read.job.walks, Frame(None), walks_crs(read.job.walks)
        tell_findings(ask, findings)
        return {
            STATIONS: ask.write(STATIONS, table_named("stations"), walk_stations(walks), frame, crs),
            FINDINGS: ask.write(FINDINGS, table_named("findings"), findings, frame, crs),
        }
