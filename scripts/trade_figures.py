# SPDX-License-Identifier: GPL-2.0-or-later
"""Figures of the trade of Marlisk Yard from one survey of it, beside the truth: faces between two walked edges, a wall's greatest
height, a ramp's gradient and width, each with its sigma by what the survey's rows say of their points' errors.

Each has two sigmas: `stated` is by what the rows keep of the covariance within their feature; `whole` is by the survey's whole
covariance, for figures that the survey itself has as well, and the same as `stated` for the others.
"""

from __future__ import annotations

import numpy as np

from plugin.core.measure.rows import AreaRow, LengthRow, Survey
from plugin.core.segments import Curve
from plugin.core.trade.faces import ruled_face
from plugin.core.trade.lines import Line, draw_line
from plugin.core.trade.ramps import measure_ramp
from plugin.core.trade.seats import seat_lines
from plugin.core.trade.walls import WallSpec, measure_wall
from plugin.core.trade.worth import JointWorth
from scripts.demo_jobs import marlisk_yard as yard
from scripts.demo_jobs import true_sizes
from scripts.ground_figures import GroundFigure

TRUTH = {(t.table, t.feature, t.part, t.column): t.value for t in true_sizes("marlisk_yard")}
HIGHEST = yard.BED_WALL_TOP - min(yard.BED_WALL_FOOT)
RAMP_GRADIENT = (yard.RAMP_FOOT - yard.RAMP_TOP) / (yard.RAMP[1][0] - yard.RAMP[0][0])
RAMP_WIDTH = yard.RAMP[2][1] - yard.RAMP[1][1]
SEAT = ("lengths", "Seat wall", "", "length_m")


def line_of_curve(curve: Curve) -> Line:
    """A survey's curve as a line of the trade: each arc through its middle."""
    points, mids = [curve.points[0]], [False]
    for a, b, bulge in zip(curve.points, curve.points[1:], curve.bulge.tolist()):
        if bulge:
            # The middle of an arc lies tan(sweep / 4) times half the chord to the right of its chord.
            dx, dy = (b - a)[:2]
            points.append(0.5 * (a + b) + 0.5 * bulge * np.array([dy, -dx, 0.0]))
            mids.append(True)
        points.append(b)
        mids.append(False)
    return draw_line(np.array(points), np.array(mids))


def seated_rows(*rows: LengthRow | AreaRow) -> tuple[tuple[Line, ...], JointWorth]:
    """The lines of rows of one feature that have one run each, and what their points are worth."""
    curves = [row.outline[0] if isinstance(row, AreaRow) else row.runs[0] for row in rows]
    seated = seat_lines([line_of_curve(curve) for curve in curves], [row.errors[0] for row in rows])
    assert seated is not None  # noqa: S101 - the rows of a survey of this version say it
    return seated


def trade_figures(survey: Survey) -> list[GroundFigure]:
    """All of them."""
    rows = {(row.tags.feature, row.tags.part): row for row in survey.lengths}
    wall = seated_rows(rows["Bed 1 wall", "foot"], rows["Bed 1 wall", "top"])
    bank = seated_rows(rows["Bank", "foot"], rows["Bank", "top"])
    high = measure_wall(*wall[0], WallSpec(), wall[1]).highest
    seat = rows["Seat wall", ""]
    (front,), worth = seated_rows(seat)
    length = measure_wall(front, None, WallSpec(height=0.45), worth).front
    (left, right), worth = _ramp_edges(next(row for row in survey.areas if row.tags.feature == "Ramp"))
    ramp = measure_ramp((left, right), worth)
    assert ramp.width is not None  # noqa: S101 - it has two edges
    assert seat.length is not None  # noqa: S101 - nothing keeps it out
    told = [
        ("wall face", ruled_face(*wall[0], wall[1]).area, TRUTH["takeoff", "Bed 1 wall", "", "face_m2"]),
        ("bank face", ruled_face(*bank[0], bank[1]).area, TRUTH["takeoff", "Bank", "", "developed_m2"]),
        ("wall height", high, HIGHEST),
        ("ramp gradient", ramp.whole.gradient, RAMP_GRADIENT),
        ("ramp width", ramp.width, RAMP_WIDTH),
    ]
    figures = [GroundFigure(name, q.value - true, q.sigma, q.sigma) for name, q, true in told]
    return [*figures, GroundFigure("seat front", length.value - TRUTH[SEAT], length.sigma, seat.length.sigma)]


def _ramp_edges(row: AreaRow) -> tuple[tuple[Line, ...], JointWorth]:
    """The left and the right edge of the ramp, walking down, from its outline."""
    (ring,), worth = seated_rows(row)
    corners = ring.points[:-1]
    top = [k for k in range(4) if corners[k, 2] > corners[:, 2].mean()]
    # Anticlockwise the right edge goes down from the upper corner after which a lower one comes.
    first = next(k for k in top if (k + 1) % 4 not in top)
    edges = ((first + 3, first + 2), (first, first + 1))
    return tuple(_part(ring, [k % 4 for k in ends]) for ends in edges), worth


def _part(ring: Line, index: list[int]) -> Line:
    assert ring.seats is not None  # noqa: S101 - it was seated
    return Line(ring.points[index], np.zeros(len(index), bool), ring.seats[index])
