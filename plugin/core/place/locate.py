# SPDX-License-Identifier: GPL-2.0-or-later
"""Control points brought into the survey plane: CRSs, datums, the height of the plane, and what is refused."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import pyproj
from pyproj.transformer import TransformerGroup

from ..defaults import PICK_SD
from ..errors import Refused
from ..findings import Finding, Severity
from ..plane import SurveyPlane, base_of, open_crs, transform_points, zero_meridian
from ..quantity import Floats
from ..walk import Control, ControlPoint

LEAST_SD = 1e-4
"""m: a pick of no error at all would leave the others no weight."""
AREA_MARGIN = 1.0
"""degrees: a site this far outside a CRS's area of use is out of area."""


@dataclass(frozen=True, eq=False)
class MapPoint:
    """A mark's map point in the survey plane: (2,) metres, one-sigma per axis, and the file's row."""

    mark: str
    xy: Floats
    sd: float
    is_check: bool
    row: ControlPoint


@dataclass(frozen=True, eq=False)
class Located:
    """The control in the survey plane.

    Attributes:
        plane: None where there is no control at all.
        points: those with a place. common: one-sigma of the shift they share, metres, 0 where none is stated.
        accuracy: metres of the datum transformation used, 0 where none was needed.
        file: of the control. levels: known heights kept out of the adjustment to check it.
        is_own: the points are stations of walks recorded in a CRS, which no exchange or half-turn can have hit.
    """

    plane: SurveyPlane | None
    points: tuple[MapPoint, ...]
    common: float
    accuracy: float
    findings: tuple[Finding, ...]
    file: str = ""
    levels: tuple[ControlPoint, ...] = ()
    is_own: bool = False

    @property
    def bases(self) -> dict[tuple[str, str], float]:
        """Ground length between each two marks, by their sorted names, metres."""
        return {
            (min(a.mark, b.mark), max(a.mark, b.mark)): math.dist(a.xy, b.xy)
            for a, b in combinations(self.points, 2)
        }

    @property
    def tests(self) -> int:
        """How many tests placing will make: one of the fit, one for each check point and each check height."""
        checks = sum(p.is_check for p in self.points)
        return checks + (len(self.points) - checks >= 2) + len(self.levels)


def locate_control(control: Control, crs: str | None, height: float | None) -> Located:
    """Control points -> survey plane of the CRS asked for (the control's own unless told).

    Args:
        control: as read.
        crs: where the survey goes.
        height: ellipsoidal height of the ground in metres; if not given, the mean of the control's heights (with
            `separation` where that is known), else 0.
    Raises:
        Refused: PL-04, the CRS is unknown, in degrees only or out of its area, or the way from the control's
            datum to it is not known better than roughly.
        BadCrs: a CRS name that nothing answers to.
    """
    levels = tuple(p for p in control.points if p.z is not None and p.is_check)
    placed = [p for p in control.points if p.xy is not None]
    if not placed:
        return Located(None, (), 0.0, 0.0, (), control.file, levels)
    if control.crs is None:
        raise Refused(
            "PL-04: {file} does not say in which CRS its points are. Add a line such as `# crs: EPSG:25831`.",
            file=control.file or "the control file",
        )
    source = open_crs(control.crs)
    target = plan_crs(open_crs(crs) if crs else source)
    xy = np.array([p.xy for p in placed], float)
    _refuse_degrees(target, "the settings" if crs else control.file or "the control")
    moved, accuracy = between(plan_crs(source), target, xy)
    lon, lat = centre_of(target, moved)
    refuse_outside(target, lon, lat)
    findings, ground = _ground_height(control, height)
    findings += _datum_note(control, plan_crs(source), target, accuracy)
    plane = SurveyPlane(target, lon, lat, ground)
    inside = plane.from_crs(moved)
    points = tuple(
        MapPoint(p.mark, inside[i], PICK_SD if p.sd_xy is None else max(p.sd_xy, LEAST_SD), p.is_check, p)
        for i, p in enumerate(placed)
    )
    common = control.common_sd or 0.0
    return Located(plane, points, common, accuracy, tuple(findings), control.file, levels)


def plan_crs(crs: pyproj.CRS) -> pyproj.CRS:
    """The horizontal part of a compound or bound CRS."""
    if crs.is_bound and crs.source_crs is not None:
        crs = crs.source_crs
    return crs.sub_crs_list[0] if crs.is_compound else crs


def _refuse_degrees(target: pyproj.CRS, file: str) -> None:
    if target.is_projected:
        return
    what = "is in degrees" if target.is_geographic else "is not a map projection"
    raise Refused(
        "PL-04: the CRS {crs} of {file} {what}. Choose a projected CRS for the map; sizes are from the survey plane.",
        crs=target.name,
        file=file,
        what=what,
    )


def between(source: pyproj.CRS, target: pyproj.CRS, xy: Floats) -> tuple[Floats, float]:
    """Points (east, north order) from one CRS to another, and the accuracy in metres of the way taken."""
    if source == target:
        return xy, 0.0
    try:
        transformer = pyproj.Transformer.from_crs(source, target, always_xy=True)
    except pyproj.exceptions.ProjError as error:
        raise Refused(
            "PL-04: there is no way from {source} to {target}. Choose another CRS for the control or the map.",
            source=source.name,
            target=target.name,
        ) from error
    out = transform_points(transformer, xy)
    if not np.isfinite(out).all():
        raise Refused(
            "PL-04: the control points cannot be brought from {source} to {target}: they lie outside what these can "
            "hold. Check the CRS and the column order.",
            source=source.name,
            target=target.name,
        )
    if source.geodetic_crs == target.geodetic_crs:
        return out, 0.0
    used = transformer.get_last_used_operation()
    if used.accuracy < 0 or "allpark" in used.description:
        raise _rough_way(source, target)
    return out, float(used.accuracy)


def _rough_way(source: pyproj.CRS, target: pyproj.CRS) -> Refused:
    missing = [o.name for o in TransformerGroup(source, target).unavailable_operations]
    names = {"source": source.name, "target": target.name}
    if not missing:
        return Refused(
            "PL-04: from {source} to {target} only a rough way is known here (it can be 100 m off). Give the control "
            "in {target}.",
            **names,
        )
    return Refused(
        "PL-04: from {source} to {target} only a rough way is known here (it can be 100 m off). Give the "
        "control in {target}, or install the grid of: {missing}.",
        **names,
        missing=", ".join(missing[:2]),
    )


def _datum_note(control: Control, source: pyproj.CRS, target: pyproj.CRS, accuracy: float) -> list[Finding]:
    """A note of how good the way between two datums is: it moves the whole site, and no size."""
    if accuracy == 0.0:
        return []
    return [
        Finding(
            "PL-04",
            Severity.NOTE,
            "survey",
            "The map points were brought from {source} to {target} by a way that is good to {accuracy:.2g} m: the whole "
            "site can be that far off. Its sizes are not touched.",
            "Give them in {target} where that matters.",
            {"source": source.name, "target": target.name, "accuracy": accuracy},
            file=control.file,
        )
    ]


def centre_of(target: pyproj.CRS, xy: Floats) -> tuple[float, float]:
    """Longitude (from the datum's own prime meridian) and latitude of the middle of the points, in degrees."""
    base = base_of(target)
    lonlat, _ = between(target, base, xy)
    degrees = np.degrees(lonlat * base.axis_info[0].unit_conversion_factor)
    # From the first point, so that a site across the 180th meridian does not end up on the other side of the earth.
    east = (degrees[:, 0] - degrees[0, 0] + 180.0) % 360.0 - 180.0
    lon = (degrees[0, 0] + east.mean() + 180.0) % 360.0 - 180.0
    return float(lon), float(degrees[:, 1].mean())


def refuse_outside(target: pyproj.CRS, lon: float, lat: float) -> None:
    """Refuse a site (degrees) that lies outside the area for which a CRS is made, where it names one."""
    area = target.area_of_use
    if area is None:
        return
    # Areas of use are told from Greenwich.
    lon += zero_meridian(target)
    east = area.east if area.east >= area.west else area.east + 360.0
    inside = area.west - AREA_MARGIN <= lon <= east + AREA_MARGIN or (
        area.west - AREA_MARGIN <= lon + 360.0 <= east + AREA_MARGIN
    )
    if not inside or not area.south - AREA_MARGIN <= lat <= area.north + AREA_MARGIN:
        raise Refused(
            "PL-04: the site lies at {lon:.3f}, {lat:.3f} (longitude, latitude), out of the area of {crs} ({area}). "
            "Check the CRS, the unit and the column order of the control.",
            lon=lon,
            lat=lat,
            crs=target.name,
            area=area.name,
        )


def _ground_height(control: Control, height: float | None) -> tuple[list[Finding], float]:
    """The plane's ellipsoidal height, and a note of what was taken for it."""
    if height is not None:
        return [], height
    known = [p.z for p in control.points if p.z is not None]
    if not known:
        template = "The survey plane is taken at height 0 (none is known): each 100 m above makes true lengths 1.6e-5 longer."
        return [_height_note(template, control, 0.0)], 0.0
    mean = float(np.mean(known))
    if control.separation is not None:
        return [], mean + control.separation
    template = (
        "The survey plane is taken at {height:.1f} m: the control's height in its own datum, taken for one above "
        "the ellipsoid (no `# separation:` is given; 50 m would change the map's lengths by 8e-6, the measured "
        "sizes not at all)."
    )
    return [_height_note(template, control, mean)], mean


def _height_note(template: str, control: Control, height: float) -> Finding:
    return Finding(
        "HT-01",
        Severity.NOTE,
        "survey",
        template,
        "Give the height of the ground above the ellipsoid, or the separation, where that matters.",
        {"height": height},
        file=control.file,
    )
