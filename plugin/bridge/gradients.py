# SPDX-License-Identifier: GPL-2.0-or-later
"""Falls of areas and gradients of lines, by their own heights or over a surface, as columns."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from ..core.errors import BadInput
from ..core.ground.crossfall import CrossfallReader
from ..core.ground.depths import Ground
from ..core.ground.falls import PlaneFall, fit_fall, measure_surface_fall
from ..core.ground.gradient import Slope
from ..core.ground.levels import Levels, rise_sigmas
from ..core.ground.section import SectionCutter
from ..core.ground.slope_bands import measure_slope_bands
from ..core.ground.target import TargetPlane
from ..core.plane import SurveyPlane
from ..core.quantity import Quantity
from ..core.trade.crossed_ways import lay_on
from ..core.trade.profiles import profile_of
from ..core.trade.worth import Moves
from .fields import Kind
from .measured import ASSUMED
from .text import explain, tr
from .trade_columns import Told, figure, plain

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..core.ground.crossfall import Crossfalls
    from ..core.ground.slope_bands import SlopeBands
    from ..core.ground.surface import Surface
    from ..core.quantity import Floats
    from ..core.trade.lines import Line
    from ..core.trade.worth import JointWorth, PointWorth, Worth
    from .planned import Plane
    from .trade import GroundRow

RIGHT_ANGLE = 90.0
TURN = 360.0
CLOSED = 1e-9
"""Metres: a ring's last point as near as this to its first is the same."""
LEFT_OUT = 1e-6
"""Of an area: less that is not on the surface is told by nobody."""
LEAST_TOLD_M2 = 0.01
"""Nor is less than this, which would be told as 0.00 m2."""


@dataclass(frozen=True)
class GradientRow:
    """What a row has.

    Attributes:
        fall: its size, a ratio. bearing: where it falls to, degrees clockwise from grid north; None on the level.
        along, cross: along and across a direction, of a line along it; ratios, None where there is none.
        flattest, steepest: sizes, ratios. rms: of the heights off the plane, m; None of lines.
        method, sigma_from, finding: words.
        ways: of a line over a surface its crossfalls by chainage, whose mean is `cross`.
        left: of an area over a surface, how much of it lies beside that, a ratio.
    """

    fall: Quantity
    bearing: Quantity | None
    along: Quantity | None
    cross: Quantity | None
    flattest: Quantity | None
    steepest: Quantity | None
    rms: float | None
    method: str
    sigma_from: str = ASSUMED
    finding: str = ""
    ways: Crossfalls | None = None
    left: float = 0.0

    @property
    def cross_most(self) -> Quantity | None:
        """The crossfall of the largest size along a line over a surface."""
        found = self.ways.greatest() if self.ways else None
        return found[1] if found else None

    @property
    def cross_most_at(self) -> float | None:
        """Its chainage, metres."""
        found = self.ways.greatest() if self.ways else None
        return found[0] if found else None

    @property
    def percent(self) -> Quantity:
        """The fall in percent."""
        return Quantity(100.0 * self.fall.value, 100.0 * self.fall.sigma, "%")

    @property
    def degrees(self) -> Quantity:
        """The fall in degrees from the level."""
        return Slope(self.fall.value, 1.0, self.fall.sigma).degrees

    @property
    def one_in(self) -> float | None:
        """The n of 1 in n; None on the level."""
        told = Slope(self.fall.value, 1.0).one_in
        return None if told is None else told.value


def _known(name: str, attribute: str) -> tuple[Told, ...]:
    """A quantity's columns, empty where the figure or its sigma is not known."""
    return tuple(
        Told(told.name, told.kind, lambda row, of=told.of: _finite(of(row)))  # type: ignore[misc]
        for told in figure(name, attribute)
    )


def _finite(value: object) -> object:
    return None if isinstance(value, float) and not math.isfinite(value) else value


COLUMNS = (
    *figure("fall_ratio", "fall"),
    *figure("fall_percent", "percent"),
    *figure("fall_deg", "degrees"),
    plain("fall_one_in", "one_in"),
    *_known("fall_bearing_deg", "bearing"),
    *figure("along_ratio", "along"),
    *figure("cross_ratio", "cross"),
    *figure("cross_most_ratio", "cross_most"),
    plain("cross_most_at_m", "cross_most_at"),
    *_known("flattest_ratio", "flattest"),
    *_known("steepest_ratio", "steepest"),
    plain("rms_m", "rms", Kind.REAL),
)
"""What a row of gradients has, before its words."""


def grid_turn(plane: Plane) -> float:
    """Angle that is added to one in the plane to have it in the grid, radians."""
    return plane.grid_turn if isinstance(plane, SurveyPlane) else 0.0


def bearing_of(angle: Quantity | None, plane: Plane) -> Quantity | None:
    """An angle in the plane, radians anticlockwise from east, as a bearing of the grid, degrees, 0 to 360."""
    if angle is None:
        return None
    degrees = (RIGHT_ANGLE - math.degrees(angle.value + grid_turn(plane))) % TURN
    return Quantity(degrees, math.degrees(angle.sigma), "deg")


def direction_of(bearing: float, plane: Plane) -> float:
    """A bearing of the grid as an angle in the plane, radians anticlockwise from east."""
    return math.radians(RIGHT_ANGLE - bearing) - grid_turn(plane)


def outline_fall(row: GroundRow, worth: PointWorth) -> PlaneFall:
    """The plane through an outline's own points.

    Raises:
        BadInput: no heights. TooFewPoints, PointsInLine: they tell no plane.
    """
    return fit_fall(outline_points(row), worth.height, worth.plan)


def outline_points(row: GroundRow) -> Floats:
    """(n, 3) the different points of a row's rings that have heights, metres.

    Raises:
        BadInput: no heights.
    """
    row.refuse_gap()
    if not row.has_heights:
        raise BadInput("The outline has no heights. Give its points some, or choose a surface.")
    some = []
    for line in row.lines:
        points = line.points[:-1] if line.is_closed else line.points
        some.append(points[np.isfinite(points[:, 2])])
    return np.unique(np.vstack(some), axis=0)


def area_by_own(row: GroundRow, worth: PointWorth, bearing: float | None) -> GradientRow:
    """An area by the heights of its own points; its extremes are those of its sides.

    Raises:
        BadInput: no heights. TooFewPoints, PointsInLine: they tell no plane.
    """
    plane = outline_fall(row, worth)
    sides = [side for line in row.lines for side in _sides(line, worth)]
    told = _ends(sides)
    method = "least-squares plane of the outline's points, extremes of its sides"
    return _area_row(plane, row.plane, bearing, told, method)


def _sides(line: Line, worth: Worth) -> list[Quantity]:
    """Sizes of the gradients of a line's edges, those that stand upright left out; an arc's plan counts by its chord."""
    edges, xyz = line.edges, line.points
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = (xyz[edges.q, 2] - xyz[edges.p, 2]) / edges.lengths
        chord = xyz[edges.q, :2] - xyz[edges.p, :2]
        way = chord / np.hypot(*chord.T)[:, None]
        by_end = np.column_stack([-ratio[:, None] * way, np.ones(len(ratio))]) / edges.lengths[:, None]
    told = np.isfinite(ratio) & np.isfinite(by_end).all(axis=1)
    moves = Moves(line, np.column_stack([edges.p, edges.q])[told], np.stack([-by_end, by_end], axis=1)[told])
    sigmas = np.sqrt(worth.variances(moves)).tolist()
    return [Quantity(abs(a), s, "ratio") for a, s in zip(ratio[told].tolist(), sigmas)]


def _ends(sides: Sequence[Quantity]) -> tuple[Quantity | None, Quantity | None]:
    """The flattest and the steepest."""
    if not sides:
        return None, None
    return min(sides, key=lambda q: q.value), max(sides, key=lambda q: q.value)


def _area_row(
    plane: PlaneFall,
    frame: Plane,
    bearing: float | None,
    ends: tuple[Quantity | None, Quantity | None],
    method: str,
) -> GradientRow:
    way = None if bearing is None else direction_of(bearing, frame)
    return GradientRow(
        plane.fall,
        bearing_of(plane.toward, frame),
        None if way is None else plane.along(way),
        None if way is None else plane.across(way),
        *ends,
        plane.rms,
        method if bearing is None else f"{method}, along {bearing:g} degrees",
    )


def line_by_own(line: Line, frame: Plane, worth: Worth) -> GradientRow:
    """A line by the heights of its own points, from its start to its end; its extremes are those of its edges.

    Raises:
        BadInput: no heights, no length, or it goes straight up somewhere.
    """
    profile = profile_of(line, worth)
    along = profile.gradient(0.0, profile.length)
    ends = line.points[[0, -1]]
    return _line_row(along, ends, frame, _ends(_sides(line, worth)), "from end to end along the line")


def _line_row(
    along: Quantity,
    ends: Floats,
    frame: Plane,
    extremes: tuple[Quantity | None, Quantity | None],
    method: str,
) -> GradientRow:
    down = ends[1] - ends[0] if along.value < 0.0 else ends[0] - ends[1]
    way = None
    if along.value != 0.0 and float(np.hypot(*down[:2])) > CLOSED:
        way = Quantity(math.atan2(down[1], down[0]), 0.0, "rad")
    bearing = bearing_of(way, frame)
    bearing = None if bearing is None else Quantity(bearing.value, math.nan, "deg")
    return GradientRow(
        Quantity(abs(along.value), along.sigma, "ratio"), bearing, along, None, *extremes, None, method
    )


class SurfaceGradients:
    """Falls and gradients over one surface."""

    def __init__(self, surface: Surface, name: str, plane: Plane, sigma_from: str) -> None:
        """The surface, what it is called, the plane it is in, and where its uncertainty comes from."""
        self._surface, self._name, self._plane, self._from = surface, name, plane, sigma_from
        self._whole = Ground(surface, TargetPlane.at_level(0.0))
        self._cutter: SectionCutter | None = None
        self._across: CrossfallReader | None = None

    def bands(self, rings: Sequence[Floats], bounds: Sequence[float]) -> SlopeBands:
        """An area by bands of slope.

        Raises:
            BadInput: it does not lie on the surface, or the bounds are none.
        """
        return measure_slope_bands(self._whole.within(rings), bounds)

    def ways(self, line: Floats, width: float) -> Crossfalls:
        """Crossfalls of a way along its middle (v, 2) in the plane, across its width in metres; of 0 those of triangles.

        Raises:
            BadInput: no ground of the surface lies under it.
        """
        if self._across is None:
            self._across = CrossfallReader(self._cut)
        return self._across.along(line, width)

    def laid(self, line: Floats) -> tuple[Line, JointWorth]:
        """A way (v, 2) in the plane laid on the surface, and what its heights are worth there.

        Raises:
            BadInput: part of it is not on the surface.
        """
        return lay_on(self._cut.cut(line))

    @property
    def _cut(self) -> SectionCutter:
        if self._cutter is None:
            self._cutter = SectionCutter(self._surface)
        return self._cutter

    def area(self, rings: Sequence[Floats], bearing: float | None) -> GradientRow:
        """An area, its rings (k, 2) in the plane; its extremes are those of triangles.

        Raises:
            BadInput: it does not lie on the surface. PointsInLine: only a thread of it does.
        """
        told = measure_surface_fall(self._whole.within(rings))
        method = f"least-squares plane of {self._name} over the area, extremes of its triangles"
        row = _area_row(told.plane, self._plane, bearing, (told.flattest, told.steepest), method)
        notes, left = [], told.left_out / (told.left_out + told.area)
        if left > LEFT_OUT and told.left_out >= LEAST_TOLD_M2:
            words = tr("{left:.2f} m2 of it do not lie on the surface and are left out.")
            notes.append(words.format(left=told.left_out))
        if told.weak > LEFT_OUT * told.area and told.weak >= LEAST_TOLD_M2:
            notes.append(tr("{weak:.2f} m2 of it lie on weak triangles.").format(weak=told.weak))
        return replace(row, sigma_from=self._from, finding=" ".join(notes), left=left)

    def line(self, line: Floats, width: float = 0.0) -> GradientRow:
        """A line (v, 2) in the plane, from its start to its end, with its crossfall across a width in metres (0: of the
        triangles); its extremes are those of the triangles it crosses.

        Raises:
            BadInput: part of it is not on the surface. TooFewPoints: it has no length.
        """
        section = self._cut.cut(line)
        if section.is_empty or not section.is_ground[np.diff(section.chainage) > CLOSED].all():
            raise BadInput("The line leaves the surface. Shorten it, or extend the surface.")
        told = section.told
        one, other = (
            Levels(told.surface, told.place[[k]], told.corner[[k]], told.weight[[k]])
            for k in (0, len(section) - 1)
        )
        rise = float(section.level[-1] - section.level[0])
        along = Slope(rise, section.length, float(rise_sigmas(one, other)[0])).ratio
        assert along is not None  # noqa: S101 - a section has a length
        run, up = np.diff(section.chainage), np.diff(section.level)
        slopes = np.abs(up[run > CLOSED] / run[run > CLOSED])
        extremes = (
            Quantity(float(slopes.min()), math.nan, "ratio"),
            Quantity(float(slopes.max()), math.nan, "ratio"),
        )
        ends = np.column_stack([section.place[[0, -1]], section.level[[0, -1]]])
        row = _line_row(along, ends, self._plane, extremes, f"from end to end over {self._name}")
        notes = [tr("It crosses weak triangles.")] if section.is_weak.any() else []
        return self._with_crossfall(row, line, width, notes)

    def _with_crossfall(self, row: GradientRow, line: Floats, width: float, notes: list[str]) -> GradientRow:
        try:
            ways = self.ways(line, width)
        except BadInput as error:
            notes.append(explain(error))
            return replace(row, sigma_from=self._from, finding=" ".join(notes))
        if ways.left_out > LEFT_OUT * line_length(line):
            words = tr("{left:.2f} m of it have no ground of the surface under their whole width.")
            notes.append(words.format(left=ways.left_out))
        way = f"{row.method}, {crossfall_words(width)}"
        return replace(
            row, cross=ways.mean, ways=ways, method=way, sigma_from=self._from, finding=" ".join(notes)
        )


def crossfall_words(width: float) -> str:
    """How crossfalls of a way are come by, for the column method."""
    return f"crossfall across {width:g} m" if width else "crossfall of the triangles under it"


def line_length(line: Floats) -> float:
    """Of a line (v, 2), metres."""
    return float(np.hypot(*np.diff(line, axis=0).T).sum())
