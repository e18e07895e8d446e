# SPDX-License-Identifier: GPL-2.0-or-later
"""The rows of the survey's tables (formats.md), with geometry in the survey plane. The outer ring turns
them into layers; nothing is computed after this."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from ..findings import Finding
from ..quantity import Quantity
from ..segments import Curve

if TYPE_CHECKING:
    from ..plane import SurveyPlane
    from ..quantity import Floats, Ints
    from .working import Workings


@dataclass(frozen=True)
class Ellipse:
    """A one-sigma error ellipse: half axes in metres, and the direction of the major one as an angle
    anticlockwise from the survey plane's x axis (east), in radians, 0 to pi."""

    major: float
    minor: float
    angle: float


@dataclass(frozen=True)
class Tags:
    """What every feature row carries beside its figures (text, "" where there is none)."""

    site: str = ""
    walk: str = ""
    feature: str = ""
    part: str = ""
    item: str = ""
    status: str = ""
    surface: str = ""
    option: str = ""
    phase: str = ""
    note: str = ""
    method: str = ""
    sigma_from: str = ""
    finding: str = ""
    """The codes that keep this row's figures out; its figures are then None."""
    shape: str = ""
    """The exact shape as text, where the layer's geometry cannot hold it."""
    other_walks: tuple[str, ...] = ()
    """Further walks that the feature was walked in (no column of its own)."""


@dataclass(frozen=True)
class Noted:
    """Sizes noted on site, metres, under the names of the log's columns; None where there is none, or not one alone.
    `invert` is the level as it was noted, which no shift of the walk's heights moves."""

    width: float | None = None
    depth: float | None = None
    height: float | None = None
    stem_d: float | None = None
    spread: float | None = None
    invert: float | None = None


NOTHING_NOTED = Noted()
Along = tuple[tuple[str, tuple[tuple[float, float], ...]], ...]
"""By a size's name (chainage, size) from station to station, metres."""


@dataclass(frozen=True, eq=False)
class PointErrors:
    """What the n drawn points of a run err against those of its feature, vertices and middles of arcs in order; of a ring the
    first again at its end. C = diag(own^2) + sum of s s' over the errors s in common.

    Attributes:
        xy: (n, 2) where they lie in the survey plane, metres.
        own: (n, 2) one-sigma of what each errs by itself, by axis in plan (a shift and a turn of the whole feature left out)
            and in height, metres; NaN where there is no height.
        plan: (n, k, 2), height: (n, j): what each moves by with one sigma of each of the errors in common, metres.
        z: (n,) heights in metres, NaN where there is none; None of a survey of an older version, which did not keep them.
    """

    xy: Floats
    own: Floats
    plan: Floats
    height: Floats
    z: Floats | None = None


@dataclass(frozen=True, eq=False)
class AreaRow:
    """One part of an area. `outline[0]` is the outer ring, the others its holes; all closed, the outer one
    anticlockwise. Units m2, m, ratio; the bearing is grid, clockwise, of the falling direction, "deg"."""

    tags: Tags
    outline: tuple[Curve, ...]
    area: Quantity | None
    sloped_area: Quantity | None
    perimeter: Quantity | None
    fall: Quantity | None
    fall_bearing: Quantity | None
    hole_in: str = ""
    fall_places: tuple[tuple[int, ...], ...] = ()
    """Rows of the stations that the fall's plane goes through, place by place (no column of its own)."""
    noted: Noted = NOTHING_NOTED
    errors: tuple[PointErrors, ...] = ()
    """Ring by ring; none where they are not told."""


@dataclass(frozen=True, eq=False)
class LengthRow:
    """One part of a length: one or more runs (carry breaks it)."""

    tags: Tags
    runs: tuple[Curve, ...]
    length: Quantity | None
    slope_length: Quantity | None
    rise: Quantity | None
    gradient: Quantity | None
    noted: Noted = NOTHING_NOTED
    along: Along = ()
    """Sizes that differ along it, chainages in plan from the start of its first run."""
    errors: tuple[PointErrors, ...] = ()
    """Run by run; none where they are not told."""


@dataclass(frozen=True, eq=False)
class SpotRow:
    """One spot: (x, y, z) in the survey plane, z NaN where there is no height."""

    tags: Tags
    point: tuple[float, float, float]
    height: Quantity | None
    noted: Noted = NOTHING_NOTED


@dataclass(frozen=True, eq=False)
class SideRow:
    """One side of an area, as walked. `radius` in metres and `sweep` in "rad", positive to the left; both None on
    straights."""

    tags: Tags
    run: Curve
    owner: str
    other: str
    item: str
    length: Quantity | None
    radius: Quantity | None
    sweep: Quantity | None


@dataclass(frozen=True, eq=False)
class LegRow:
    """One drawn leg between two stations of a feature (an arc, an as-walked run or a piece fitted to one is one leg):
    plan length, length along the slope, rise (end less start) and gradient (rise by run, None where the run is
    nothing); `radius` in metres and `sweep` in "rad", positive to the left, both None on all but arcs in plan."""

    tags: Tags
    run: Curve
    start: str
    end: str
    length: Quantity | None
    slope_length: Quantity | None
    rise: Quantity | None
    gradient: Quantity | None
    radius: Quantity | None = None
    sweep: Quantity | None = None


@dataclass(frozen=True)
class StationRow:
    """One station where the adjustment and the placement put it.

    Of its height's error `z_own` (one-sigma, metres) is its own, and `z_shared` what it moves by with one sigma of each of
    the errors that the survey's heights have in common: z_sigma^2 = z_own^2 + sum of z_shared^2.
    """

    tags: Tags
    station: str
    point: tuple[float, float, float]
    ellipse: Ellipse | None
    z_sigma: float | None
    mark: str
    leg: str
    time: str
    z_own: float | None = None
    z_shared: tuple[float, ...] = ()
    noted: Noted = NOTHING_NOTED


@dataclass(frozen=True)
class MarkRow:
    """One mark. `residual` is the distance in metres from its map point (None without one)."""

    tags: Tags
    mark: str
    point: tuple[float, float, float]
    ellipse: Ellipse | None
    z_sigma: float | None
    residual: float | None


@dataclass(frozen=True)
class WalkRow:
    """One walk's line in the report; misclosures None where it does not return to a mark."""

    walk: str
    file: str
    instrument: str
    stations: int
    length: float
    moving_s: float
    misclosure: float | None
    misclosure_sigma: float | None
    height_misclosure: float | None
    height_misclosure_sigma: float | None


class ResidualKind(Enum):
    """What was observed."""

    STAND = "stand"
    TAPE = "tape"
    HEIGHT = "height"
    LEVEL = "level"
    MAP_POINT = "map point"
    CHECK_POINT = "check point"


@dataclass(frozen=True)
class ResidualRow:
    """One observation less what the adjusted and placed survey makes of it, in metres: (x, y) in the survey plane and
    their `size` for what has a place in plan, a signed `size` for tapes, heights and levels. `standard`, `ask` and
    `stop` are ratios: the size in its sigmas, and what of it the job's tests let pass; None where nothing tests it."""

    kind: ResidualKind
    mark: str
    other: str = ""
    walk: str = ""
    station: str = ""
    is_used: bool = True
    """Whether it is in the adjustment or the fit; not so where it was let go, or only checks."""
    x: float | None = None
    y: float | None = None
    size: float | None = None
    standard: float | None = None
    ask: float | None = None
    stop: float | None = None


@dataclass(frozen=True, eq=False)
class SurfaceRow:
    """A surface that a file held: (n, 3) points in the survey plane and (m, 3) triangles of them."""

    name: str
    file: str
    points: Floats
    triangles: Ints


@dataclass(frozen=True)
class PlacementRow:
    """How the survey lies on the map. `status` is `placed`, `not confirmed` or `not placed`; `rotation` is
    from survey plane to grid, anticlockwise, radians."""

    status: str
    crs: str
    rotation: float | None
    scale: float | None
    height_shift: float | None
    height_datum: str
    grid_to_ground: float | None
    common_sigma: float | None
    scale_check: float | None = None
    """Map length by survey length over the fitted pairs, and its sigma: evidence on the size, never applied."""
    scale_check_sigma: float | None = None


@dataclass(frozen=True, eq=False)
class Survey:
    """All that survey_walks found: what the GeoPackage is written from."""

    site: str
    plane: SurveyPlane | None
    """None where the survey is not placed: the geometry is then in a local plane of its own."""
    areas: tuple[AreaRow, ...]
    lengths: tuple[LengthRow, ...]
    spots: tuple[SpotRow, ...]
    sides: tuple[SideRow, ...]
    legs: tuple[LegRow, ...]
    stations: tuple[StationRow, ...]
    marks: tuple[MarkRow, ...]
    walks: tuple[WalkRow, ...]
    placement: PlacementRow
    findings: tuple[Finding, ...]
    surfaces: tuple[SurfaceRow, ...] = ()
    residuals: tuple[ResidualRow, ...] = ()
    workings: Workings | None = None
    """Works out the figures when they are written; None of a survey that nobody measured."""
