# SPDX-License-Identifier: GPL-2.0-or-later
"""The whole chain, from the files of a job to its survey: every algorithm and the window go through here."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from ..adjust.walks import Adjusted, adjust_walks
from ..check.beside import usable_tapes
from ..check.decisions import tell_decisions
from ..check.rules import check_job
from ..defaults import JOIN_WITHIN, PRICE_WITHIN
from ..errors import Refused
from ..findings import Decisions, Finding, Severity
from ..place.frames import flatten_walks, locate_walks
from ..place.locate import locate_control
from ..place.notes import tell_unchecked
from ..place.survey import Placement, place_survey
from ..place.tape import ask_scale, control_as_tapes
from ..plane import SurveyPlane
from ..read.job import read_job
from ..read.stated import StatedTexts
from ..shape.features import shape_features
from ..shape.twice import settle_asks
from ..walk import Job, Walk
from .coarse import check_coarse
from .left_out import rows_of_left_out
from .noted import tell_sizes
from .point_errors import tell_points
from .report import Report, ReportRows, report_rows
from .rows import Survey
from .shapes import Rows, measure_shapes
from .surfaces import surface_rows
from .withhold import withhold
from .working import Workings
from .zigzag import widen_lengths

Progress = Callable[[float, str], None]
"""Called with the part done (0 to 1) and what comes next; raises Cancelled to stop the work."""


@dataclass(frozen=True)
class Settings:
    """How a survey is made.

    Attributes:
        crs: where it goes; the control's unless told.
        height: ellipsoidal height of the ground in metres; from the control unless told.
        fit_scale: whether the scale is fitted to the control.
        price_within: one-sigma by figure up to which a phone's figure may be priced.
        columns: what the columns of point lists are, in order, whatever their header says.
        file_columns, file_units, file_crs: what counts for single files in place of what they say (StatedTexts).
        join_within: metres by which edges of neighbours may lie apart and still be asked about as one edge (GE-02).
        as_walked: metres within which as-walked rows become straights and tangent arcs; None: drawn as recorded.
    """

    crs: str | None = None
    height: float | None = None
    fit_scale: bool = False
    price_within: float = PRICE_WITHIN
    columns: tuple[str, ...] | None = None
    file_columns: str | None = None
    file_units: str | None = None
    file_crs: str | None = None
    join_within: float = JOIN_WITHIN
    as_walked: float | None = None


def survey_files(
    files: Mapping[str, bytes],
    settings: Settings = Settings(),
    progress: Progress = lambda part, what: None,
) -> Survey:
    """Read, check, adjust, place, shape and measure the files of one job.

    Args:
        files: bytes by the name the user knows.
        settings: how the survey is made.
        progress: told of each step.
    Raises:
        BadInput: a file that cannot be used at all.
        Refused: a stop that makes every figure wrong (IN-02, PL-02, PL-04, or no walk left).
    """
    progress(0.0, "Reading the logs")
    stated = StatedTexts(settings.file_columns, settings.file_units, settings.file_crs).of_files(files)
    read = read_job(files, settings.columns, stated)
    return survey_job(read.job, read.decisions, settings, read.findings, progress)


def survey_job(
    job: Job,
    decisions: Decisions,
    settings: Settings,
    findings: tuple[Finding, ...] = (),
    progress: Progress = lambda part, what: None,
) -> Survey:
    """The survey of a job that has been read; `findings` are the reader's."""
    survey, everything = measure_job(job, decisions, settings, findings, progress)
    return withhold(survey, everything)


def measure_job(
    job: Job,
    decisions: Decisions,
    settings: Settings,
    findings: tuple[Finding, ...] = (),
    progress: Progress = lambda part, what: None,
) -> tuple[Survey, tuple[Finding, ...]]:
    """The survey with every figure filled in, before any stop withholds one."""
    _refuse_unusable(findings)
    progress(0.2, "Checking")
    located = locate_control(job.control, settings.crs, settings.height)
    recorded = job
    job, flattened = flatten_walks(recorded, located.plane.height if located.plane else settings.height)
    if located.plane is None:
        located = locate_walks(recorded, settings.crs, settings.height) or located
    findings += flattened + check_job(job, decisions)
    tapes, found_tapes = usable_tapes(job, decisions)
    scale = ask_scale(located, decisions, closed=any(map(_closes, job.walks)), taped=bool(tapes))
    findings += (*found_tapes, scale) if scale else tuple(found_tapes)
    job = replace(job, tapes=tapes + control_as_tapes(located, scale))
    progress(0.3, "Bringing the walks together")
    adjusted, found = adjust_walks(job, located.bases, decisions, located.tests)
    findings += located.findings + found
    progress(0.5, "Placing")
    placement = place_survey(
        adjusted, located, decisions, fit_scale=settings.fit_scale, count=adjusted.judged.count
    )
    findings += placement.findings + tell_unchecked(adjusted, placement.placed, decisions)
    progress(0.6, "Shaping")
    shapes, found = shape_features(placement.placed, decisions, settings.join_within, settings.as_walked)
    findings += found
    progress(0.8, "Measuring")
    site = next((walk.keys.site for walk in job.walks if walk.keys.site), "")
    plane = located.plane if placement.status != "not placed" else None
    turn = plane.grid_turn if plane else 0.0
    origins = {walk.name: model.sigma_from for walk, model in zip(adjusted.walks, adjusted.models)}
    rows = measure_shapes(shapes, placement.placed, site=site, sigma_from=origins, grid_turn=turn)
    rows = tell_points(rows, shapes, placement.placed)
    rows, found = check_coarse(
        widen_lengths(rows, adjusted.walks), adjusted.walks, decisions, settings.price_within
    )
    findings += found
    rows = rows.joined(rows_of_left_out(adjusted.left_out, site))
    surfaces, found = surface_rows(job.surfaces, plane)
    findings += found + tell_sizes(shapes, placement.placed)
    findings = settle_asks(findings)
    findings += tell_decisions(decisions, findings)
    report = report_rows(Report(job, site, adjusted, located, placement, origins))
    findings = _with_places(findings, adjusted, placement)
    workings = Workings(placement.placed, dict(adjusted.mark_rows))
    survey = _survey_of(site, plane, rows, report, findings)
    return replace(survey, surfaces=surfaces, workings=workings), findings


def _survey_of(
    site: str, plane: SurveyPlane | None, rows: Rows, report: ReportRows, findings: tuple[Finding, ...]
) -> Survey:
    return Survey(
        site=site,
        plane=plane,
        areas=rows.areas,
        lengths=rows.lengths,
        spots=rows.spots,
        sides=rows.sides,
        legs=rows.legs,
        stations=report.stations,
        marks=report.marks,
        walks=report.walks,
        placement=report.placement,
        findings=findings,
        residuals=report.residuals,
    )


def _closes(walk: Walk) -> bool:
    """Whether a walk comes back to a mark."""
    marks = [mark for mark in walk.mark if mark]
    return len(set(marks)) < len(marks)


def _refuse_unusable(findings: tuple[Finding, ...]) -> None:
    """Open stops of reading after which every figure would be wrong: no unit, or northing and easting exchanged."""
    for finding in findings:
        is_one = finding.code in ("IN-02", "PL-04")
        if is_one and finding.is_open and finding.severity is Severity.STOP:
            raise Refused(
                "{code}: {message} {remedy}",
                code=finding.code,
                message=finding.message,
                remedy=finding.remedy_text,
            )


def _with_places(
    findings: tuple[Finding, ...], adjusted: Adjusted, placement: Placement
) -> tuple[Finding, ...]:
    """Findings at a station or a mark get its place in the survey plane."""
    xy = placement.placed.xy
    rows = {
        (walk.name, name): int(adjusted.first[k]) + i
        for k, walk in enumerate(adjusted.walks)
        for i, name in enumerate(walk.station)
    }
    marks = adjusted.mark_rows
    out = []
    for finding in findings:
        row = rows.get((finding.walk, finding.station), marks.get(finding.place.split("+")[0]))
        is_bare = finding.at is None and row is not None
        out.append(replace(finding, at=(float(xy[row, 0]), float(xy[row, 1]))) if is_bare else finding)
    return tuple(out)
