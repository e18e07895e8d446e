# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of read_walks, which its form imports when it starts."""

from __future__ import annotations

from ...bridge.fields import Frame
from ...bridge.layers import stated_crs, surface_records, table_named, walk_stations
from ...core.check.rules import check_job
from ...core.read.job import read_job
from ..algorithm import Ask
from ..read_walks import FINDINGS, STATIONS, SURFACES
from .job import job_files, stated_columns, stated_texts, tell_findings


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
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
