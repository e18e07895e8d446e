# SPDX-License-Identifier: GPL-2.0-or-later
"""The survey's report rows: stations, marks, walks and the placement."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from ..adjust.closures import worst_loop
from ..adjust.drift import legs_of
from ..adjust.walks import Adjusted
from ..place.locate import Located
from ..place.shared import SharedHeights, shared_heights
from ..place.survey import Placement
from ..quantity import Floats
from ..read.times import clock_times
from ..walk import Job, Walk
from .noted import noted_at
from .residuals import residual_rows
from .rows import Ellipse, MarkRow, PlacementRow, ResidualRow, StationRow, Tags, WalkRow


@dataclass(frozen=True, eq=False)
class Report:
    """What the report is made from; `origins` tells by walk where its sigmas come from."""

    job: Job
    site: str
    adjusted: Adjusted
    located: Located
    placement: Placement
    origins: Mapping[str, str]


@dataclass(frozen=True, eq=False)
class ReportRows:
    """The rows of the tables stations, marks, walks, placement and residuals."""

    stations: tuple[StationRow, ...]
    marks: tuple[MarkRow, ...]
    walks: tuple[WalkRow, ...]
    placement: PlacementRow
    residuals: tuple[ResidualRow, ...] = ()


def report_rows(report: Report) -> ReportRows:
    """All report rows of a placed survey."""
    placed = report.placement.placed
    index = np.arange(len(placed.xy))
    ellipses = ellipses_of(placed.plan_ellipses(index))
    sigma = placed.height_sigma(index)
    return ReportRows(
        _station_rows(report, ellipses, sigma, shared_heights(placed)),
        _mark_rows(report, ellipses, sigma),
        tuple(_walk_row(report, walk) for walk in _as_used(report)),
        _placement_row(report),
        residual_rows(report.adjusted, report.located, report.placement),
    )


def ellipses_of(covariances: Floats) -> list[Ellipse]:
    """The one-sigma ellipse of each of (k, 2, 2) covariances."""
    values, vectors = np.linalg.eigh(covariances)
    sizes = np.sqrt(np.maximum(values, 0.0)).tolist()
    ways = vectors[:, :, 1].tolist()
    return [Ellipse(major, minor, math.atan2(y, x) % math.pi) for (minor, major), (x, y) in zip(sizes, ways)]


def _point(report: Report, row: int) -> tuple[float, float, float]:
    placed = report.placement.placed
    return float(placed.xy[row, 0]), float(placed.xy[row, 1]), float(placed.z[row])


def _sigma_at(report: Report, sigma: Floats, row: int) -> float | None:
    return float(sigma[row]) if math.isfinite(report.placement.placed.z[row]) else None


def _station_rows(
    report: Report, ellipses: list[Ellipse], sigma: Floats, heights: SharedHeights
) -> tuple[StationRow, ...]:
    out, own, shared = [], heights.own.tolist(), heights.shared.tolist()
    for k, walk in enumerate(report.adjusted.walks):
        first = int(report.adjusted.first[k])
        times = clock_times(walk.time, walk.started)
        for i in range(len(walk)):
            row = first + i
            has_height = math.isfinite(report.placement.placed.z[row])
            out.append(
                StationRow(
                    _tags(report, walk, i),
                    walk.station[i],
                    _point(report, row),
                    ellipses[row],
                    _sigma_at(report, sigma, row),
                    walk.mark[i],
                    walk.leg[i].value,
                    times[i],
                    own[row] if has_height else None,
                    tuple(shared[row]) if has_height else (),
                    noted=noted_at(walk, i),
                )
            )
    return tuple(out)


def _tags(report: Report, walk: Walk, i: int) -> Tags:
    cells = {name: walk.text(name, i) for name in ("item", "status", "surface", "option", "phase", "note")}
    return Tags(
        site=report.site,
        walk=walk.name,
        feature=walk.feature[i],
        part=walk.part[i],
        method="adjusted",
        sigma_from=report.origins.get(walk.name, ""),
        other_walks=(),
        **cells,
    )


def _mark_rows(report: Report, ellipses: list[Ellipse], sigma: Floats) -> tuple[MarkRow, ...]:
    rows = report.adjusted.mark_rows
    out = []
    for mark, row in rows.items():
        k = int(np.searchsorted(report.adjusted.first, row, side="right")) - 1
        walk = report.adjusted.walks[k].name
        tags = Tags(site=report.site, walk=walk, method="adjusted", sigma_from=report.origins.get(walk, ""))
        residual = report.placement.residual.get(mark)
        out.append(
            MarkRow(tags, mark, _point(report, row), ellipses[row], _sigma_at(report, sigma, row), residual)
        )
    return tuple(out)


def _walk_row(report: Report, walk: Walk) -> WalkRow:
    legs = legs_of(walk)
    names = [_key(w) for w in report.adjusted.walks]
    loops = report.adjusted.loops[names.index(_key(walk))] if _key(walk) in names else ()
    worst = worst_loop(loops)
    has_height = worst is not None and math.isfinite(worst.height_gap)
    return WalkRow(
        walk=walk.name,
        file=walk.file,
        instrument=walk.keys.instrument or "",
        stations=len(walk),
        length=float(legs.length.sum()),
        moving_s=float(legs.moving.sum()),
        misclosure=worst.size if worst else None,
        misclosure_sigma=worst.expected if worst else None,
        height_misclosure=worst.height_gap if worst and has_height else None,
        height_misclosure_sigma=worst.height_sigma if worst and has_height else None,
    )


def _as_used(report: Report) -> list[Walk]:
    """All walks of the job, those in the adjustment as they stand there (an answer may have changed the unit)."""
    used = {_key(walk): walk for walk in report.adjusted.walks}
    return [used.get(_key(walk), walk) for walk in report.job.walks]


def _key(walk: Walk) -> tuple[str, str, int]:
    """What tells walks of one name apart."""
    return walk.name, walk.file, int(walk.line[0]) if len(walk) else 0


def _placement_row(report: Report) -> PlacementRow:
    placement, plane = report.placement, report.located.plane
    is_placed = placement.status != "not placed" and plane is not None
    height = report.adjusted.both.height
    levels = bool(height.levels)
    shifts = [s for s, tied in zip(height.shifts, height.tied) if tied]
    return PlacementRow(
        status=placement.status,
        crs=_crs_name(report) if is_placed else "",
        rotation=plane.grid_turn if plane and is_placed else None,
        scale=placement.placed.fit.scale if placement.placed.fit and is_placed else None,
        height_shift=float(shifts[0]) if levels and shifts else None,
        height_datum=(report.job.control.height_datum or "") if levels else "relative",
        grid_to_ground=plane.grid_to_ground if plane and is_placed else None,
        common_sigma=report.located.common if is_placed else None,
        scale_check=placement.scale,
        scale_check_sigma=placement.scale_sigma,
    )


def _crs_name(report: Report) -> str:
    assert report.located.plane is not None  # noqa: S101 - asked only where there is one
    authority = report.located.plane.crs.to_authority()
    return ":".join(authority) if authority else report.located.plane.crs.name
