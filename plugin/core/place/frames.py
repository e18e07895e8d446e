# SPDX-License-Identifier: GPL-2.0-or-later
"""Walks recorded in a CRS, brought to metres on the ground: from there on they are walks like any other."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np
import pyproj
import pyproj.aoi
import pyproj.database

from ..errors import BadCrs, Refused
from ..findings import Finding, Severity
from ..plane import SurveyPlane, base_of, open_crs
from ..quantity import Floats
from ..walk import Control, ControlPoint, Job, SourceClass, Walk
from .locate import Located, between, centre_of, locate_control, plan_crs, refuse_outside


def flatten_walks(job: Job, height: float | None) -> tuple[Job, tuple[Finding, ...]]:
    """The job with each walk that is in a CRS (degrees included) laid in one survey plane, true to the ground, that
    of the first one's CRS. Walks in a frame of their own stay as they are.

    Args:
        job: as read.
        height: ellipsoidal height of the ground in metres; if not given, the mean height of these walks, and told.
    Raises:
        Refused: a CRS that nothing answers to or that is of no place on the earth, or a place that it cannot hold.
    """
    groups: dict[str, list[Walk]] = {}
    for walk in job.walks:
        if walk.keys.crs and np.isfinite(walk.xy).any():
            groups.setdefault(walk.keys.crs, []).append(walk)
    if not groups:
        return job, ()
    ground = _mean_height(groups) if height is None else height
    plane = _plane_of(next(iter(groups)), next(iter(groups.values())), ground)
    flat = tuple(
        _flattened(walk, plane) if walk.keys.crs in groups and np.isfinite(walk.xy).any() else walk
        for walk in job.walks
    )
    return replace(job, walks=flat), () if height is not None else (_height_note(ground),)


def locate_walks(job: Job, crs: str | None, height: float | None) -> Located | None:
    """Where walks recorded in a CRS lie on the map, for a job without control: some of their stations, far apart,
    stand for control (at the height that `flatten_walks` told). Walks in degrees go to the UTM zone they lie in, with
    a note, where no CRS is chosen. None where no walk is in a CRS, or none that a map can be in.

    Raises:
        Refused: as `locate_control`.
    """
    walks = [walk for walk in job.walks if walk.keys.crs and np.isfinite(walk.xy).any()]
    if not walks:
        return None
    own = [walk for walk in walks if walk.keys.crs == walks[0].keys.crs]
    chosen = crs or _zone_of(own)
    if not plan_crs(open_crs(chosen or walks[0].keys.crs or "")).is_projected:
        return None
    if height is None:
        height = _mean_height({"": own})
    points = tuple(point for walk in own for point in _outermost(walk))
    control = Control(points, crs=walks[0].keys.crs, file=walks[0].file)
    located = locate_control(control, chosen, height)
    notes = (_zone_note(own[0], located),) if chosen and not crs else ()
    return replace(located, is_own=True, findings=located.findings + notes)


def _zone_of(walks: Sequence[Walk]) -> str | None:
    """The UTM zone, on their own datum, in which walks in degrees lie; None for other walks."""
    crs = plan_crs(open_crs(walks[0].keys.crs or ""))
    if not crs.is_geographic:
        return None
    xy = np.concatenate([walk.xy for walk in walks])
    lon, lat = centre_of(crs, xy[np.isfinite(xy).all(axis=1)])
    spot = pyproj.aoi.AreaOfInterest(lon, lat, lon, lat)
    found = pyproj.database.query_utm_crs_info(datum_name=crs.name, area_of_interest=spot, contains=True)
    zones = (f"{zone.auth_name}:{zone.code}" for zone in found)
    # Some zones stand in the registry twice, with north first too.
    return next((zone for zone in zones if open_crs(zone).axis_info[0].direction == "east"), None)


def _zone_note(walk: Walk, located: Located) -> Finding:
    assert located.plane is not None  # noqa: S101 - there are points
    return Finding(
        "PL-04",
        Severity.NOTE,
        "survey",
        "The log {file} is in degrees, at {lon:.4f}, {lat:.4f} (longitude, latitude), and no CRS was chosen for the map: "
        "the survey goes to {crs}.",
        "Choose another projected CRS where you work in one. Check that this is where the site lies.",
        {
            "file": walk.file,
            "crs": located.plane.crs.name,
            "lon": located.plane.lon,
            "lat": located.plane.lat,
        },
        file=walk.file,
    )


SOURCE_SD = {SourceClass.INSTRUMENT: 0.03, SourceClass.PHONE: 4.0, SourceClass.DIGITISED: 0.5}
"""m per axis, common practice, no source: how far off the map a station recorded in a CRS may be."""


def _outermost(walk: Walk) -> list[ControlPoint]:
    """The stations of a walk that lie farthest out, as control."""
    x, y = np.where(np.isfinite(walk.xy).all(axis=1, keepdims=True), walk.xy, np.nan).T
    ways = (x, y, x + y, x - y)
    rows = sorted({int(at) for way in ways for at in (np.nanargmin(way), np.nanargmax(way))})
    sd = [walk.sd_xy[i] if np.isfinite(walk.sd_xy[i]) else SOURCE_SD[walk.keys.source_class] for i in rows]
    return [
        ControlPoint(
            walk.place(i),
            (float(walk.xy[i, 0]), float(walk.xy[i, 1])),
            float(walk.ground_z[i]) if np.isfinite(walk.ground_z[i]) else None,
            float(one),
            None,
            is_check=False,
            line=int(walk.line[i]),
        )
        for i, one in zip(rows, sd)
    ]


def _mean_height(groups: Mapping[str, Sequence[Walk]]) -> float:
    z = np.concatenate([walk.ground_z for walks in groups.values() for walk in walks])
    return float(z[np.isfinite(z)].mean()) if np.isfinite(z).any() else 0.0


def _plane_of(text: str, walks: Sequence[Walk], height: float) -> SurveyPlane:
    crs = _named_crs(text, walks[0].file)
    xy = np.concatenate([walk.xy for walk in walks])
    try:
        lon, lat = centre_of(crs, xy[np.isfinite(xy).all(axis=1)])
        refuse_outside(crs, lon, lat)
    except Refused as error:
        raise _outside(walks[0], text) from error
    return SurveyPlane(crs, lon, lat, height)


def _named_crs(text: str, file: str) -> pyproj.CRS:
    try:
        return _flat_crs(text)
    except BadCrs as error:
        raise Refused(
            '{file}: the CRS "{crs}" of the log is not known, or is of no place on the earth. Give an authority code '
            "such as EPSG:25831, or take the line out if x and y are in a frame of the walk's own.",
            file=file,
            crs=text,
        ) from error


def _flat_crs(text: str) -> pyproj.CRS:
    """The horizontal CRS of a name; BadCrs where it is none, or of no place on the earth."""
    crs = plan_crs(open_crs(text))
    base_of(crs)
    if not (crs.is_projected or crs.is_geographic):
        raise BadCrs("The CRS {crs} has no plan.", crs=crs.name)
    return crs


def _flattened(walk: Walk, plane: SurveyPlane) -> Walk:
    usable = np.isfinite(walk.xy).all(axis=1)
    xy = np.full_like(walk.xy, np.nan)
    try:
        xy[usable] = onto_plane(walk.xy[usable], walk.keys.crs or "", plane, walk.file)
    except pyproj.exceptions.ProjError as error:
        raise _outside(walk, walk.keys.crs or "") from error
    if not np.isfinite(xy[usable]).all():
        raise _outside(walk, walk.keys.crs or "")
    return replace(walk, xy=_frozen(xy))


def onto_plane(xy: Floats, crs: str, plane: SurveyPlane, file: str) -> Floats:
    """(n, 2) places of a CRS (east first), as a file has them, in a survey plane.

    Raises:
        Refused: the CRS is not known, or there is only a rough way from it to the plane's.
    """
    return plane.from_crs(between(_named_crs(crs, file), plane.crs, xy)[0])


def _frozen(xy: Floats) -> Floats:
    xy.setflags(write=False)
    return xy


def _outside(walk: Walk, crs: str) -> Refused:
    return Refused(
        "{file}: the stations of walk {walk} lie outside what the CRS {crs} can hold. Check the CRS, the unit and the "
        "order of the columns x (east or longitude) and y (north or latitude).",
        file=walk.file,
        walk=walk.name,
        crs=crs,
    )


def _height_note(height: float) -> Finding:
    return Finding(
        "HT-01",
        Severity.NOTE,
        "survey",
        "Logs in a CRS are measured on the ground at a height of {height:.1f} m (the mean of their own heights, or 0 "
        "where they have none): each 100 m above makes true lengths 1.6e-5 longer.",
        "Give the height of the ground above the ellipsoid where that matters.",
        {"height": height},
    )
