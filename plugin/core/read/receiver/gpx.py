# SPDX-License-Identifier: GPL-2.0-or-later
"""GPX 1.0 and 1.1 -> walks: a segment of a track is walked as recorded, a route has direct legs, waypoints are stations."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import numpy as np

from ...errors import BadInput
from ...findings import Decisions, Finding
from ...quantity import Floats
from ...walk import ErrorGrowth, Kind, LogKeys, SourceClass, Walk
from ..faults import Fault, of_whole_file
from ..recorded import FileRead, Rows, make_walk
from ..repeats import NO_DECISIONS, tell_restarts, unique_names
from ..times import DAY, NANOSECONDS
from ..xml_text import tell_break
from .fixes import SIGMA_OF_OTHERS, SIGMA_OF_QUALITY, Fixes, note, started_at, stem_of, walk_rows
from .gpx_points import GpxPoints, Group, GroupKind, read_points

DIFFERENTIAL = 2
"""GGA's quality that the fix `dgps` stands for."""

NO_FIX = Fault(
    template="{file}, line {line}: points without a fix were passed over. Such points: {count}.",
    remedy="None needed; look at the track for gaps.",
)
ZONELESS = Fault(
    template="{file}, line {line}: times without a zone were taken as UTC. Such times: {count}.",
    remedy="None needed; write them with Z if that is right.",
)
EXTENSIONS = Fault(
    template="{file}, line {line}: what stands in extensions was not used. Such elements: {count}.",
    remedy="None needed.",
)
LATIN = Fault(
    template="{file} is not UTF-8 and was read as Latin-1.",
    remedy="Save it as UTF-8 if names look wrong.",
)


def read_gpx(file: str, data: bytes, decisions: Decisions = NO_DECISIONS) -> FileRead:
    """Read a GPX file: walks in longitude and latitude, and what was noticed (IN-01, IN-04, IN-06).

    Each segment of a track is a walk along a length named by the track; its parts are numbered where it has several.
    Stands are stations of it where all points have times that never run back. A route is a length with direct legs.
    All waypoints are one walk of stations, each also a mark of its name. Heights are as the file gives them, above
    mean sea level by convention. Times count from each walk's first one.

    Args:
        file: its name, for messages; tracks and routes without a name are numbered.
        data: the file's bytes.
        decisions: answers; of these, `split` (IN-04) changes what is read.

    Raises:
        BadInput: not XML, not GPX, or without any point that can be used.
    """
    points = read_points(file, data)
    if not points.groups:
        raise _no_point(file, points)
    names = _walk_names(file, points)
    parts = _parts(points)
    walks: list[Walk] = []
    told = list(points.faults)
    for group, name, part in zip(points.groups, unique_names(names), parts):
        if group.kind is GroupKind.SEGMENT:
            track = _track(file, group, name, (_feature(points, group), part))
            pieces, restarts = tell_restarts([track], decisions)
            walks += pieces
            told += restarts
        elif group.kind is GroupKind.ROUTE:
            walks.append(_route(file, group, name, _feature(points, group)))
        else:
            walks.append(_waypoints(file, group, name))
    if points.xml.broken:
        told.append(tell_break(file, points.xml.broken))
    return FileRead(tuple(walks), (*of_whole_file(told, walks), *_tell(file, points)))


def _feature(points: GpxPoints, group: Group) -> str:
    """The name of a track or route, or its number."""
    name = points.names.get((group.kind, group.owner), "")
    return name or f"{'route' if group.kind is GroupKind.ROUTE else 'track'} {group.owner + 1}"


def _walk_names(file: str, points: GpxPoints) -> tuple[str, ...]:
    return tuple(
        f"{stem_of(file)} waypoints" if group.kind is GroupKind.WAYPOINTS else _feature(points, group)
        for group in points.groups
    )


def _parts(points: GpxPoints) -> tuple[str, ...]:
    """By group, the number of a segment in its track, from 1; "" for an only one."""
    keys = [(group.kind, group.owner) for group in points.groups]
    total, seen, parts = Counter(keys), Counter[object](), []
    for key in keys:
        seen[key] += 1
        parts.append(str(seen[key]) if total[key] > 1 else "")
    return tuple(parts)


def _keys(started: str, growth: ErrorGrowth) -> LogKeys:
    return LogKeys(
        units="m",
        crs="EPSG:4326",
        source_class=SourceClass.PHONE,
        date=started[:10] or None,
        growth=growth,
    )


def _times(group: Group) -> tuple[Floats, str]:
    """(n,) seconds from the first time, and what that is; NaN and "" where there is none."""
    first = next((instant for instant in group.instant if instant is not None), None)
    if first is None:
        return np.full(len(group), np.nan), ""
    seconds = [np.nan if instant is None else (instant - first) / NANOSECONDS for instant in group.instant]
    day, rest = divmod(first, DAY * NANOSECONDS)
    return np.array(seconds), started_at(day, rest / NANOSECONDS)


def _extra(group: Group) -> dict[str, list[str]]:
    """The columns filled to the last point; a track's points seldom have a name, which is then kept with them."""
    columns = {name: cells + [""] * (len(group) - len(cells)) for name, cells in group.extra.items()}
    if group.kind is GroupKind.SEGMENT and any(group.name):
        columns["name"] = group.name
    if any(group.note):
        columns["note"] = group.note
    return columns


def _with_note(rows: Rows) -> Rows:
    """The rows with their note among the texts."""
    extra = dict(rows.extra)
    notes = extra.pop("note", None)
    return replace(rows, extra=extra, texts={} if notes is None else {"note": notes})


def _track(file: str, group: Group, name: str, feature: tuple[str, str]) -> Walk:
    seconds, started = _times(group)
    blank = np.full(len(group), np.nan)
    kinds = [cell.lower() for cell in _extra(group).get("fix", [""] * len(group))]
    assumed = [SIGMA_OF_QUALITY[DIFFERENTIAL] if kind == "dgps" else SIGMA_OF_OTHERS for kind in kinds]
    lon, lat, z = np.array(group.lon), np.array(group.lat), np.array(group.z)
    line = np.array(group.lines, dtype=np.int64)
    fixes = Fixes(lon, lat, z, seconds, line, blank, blank, np.array(assumed), _extra(group))
    rows = _with_note(walk_rows(fixes, *feature))
    return make_walk(name, file, _keys(started, ErrorGrowth.RECEIVER), rows, started)


def _stations(group: Group) -> Rows:
    """The points as stations, named where they have a name and numbered where they have none."""
    named = [name or str(i + 1) for i, name in enumerate(group.name)]
    return _with_note(
        Rows(
            xy=np.column_stack([group.lon, group.lat]),
            line=group.lines,
            station=unique_names(named),
            z=np.array(group.z),
            time=_times(group)[0],
            extra=_extra(group),
        )
    )


def _route(file: str, group: Group, name: str, feature: str) -> Walk:
    n, rows = len(group), _stations(group)
    rows = replace(rows, feature=(feature,) * n, kind=(Kind.LENGTH,) * n) if n > 1 else rows
    started = _times(group)[1]
    return make_walk(name, file, _keys(started, ErrorGrowth.RECEIVER), rows, started)


def _waypoints(file: str, group: Group, name: str) -> Walk:
    started = _times(group)[1]
    rows = replace(_stations(group), mark=group.name)
    return make_walk(name, file, _keys(started, ErrorGrowth.POINTS), rows, started)


def _no_point(file: str, points: GpxPoints) -> BadInput:
    if points.faults:
        first = points.faults[0]
        return BadInput(
            '{file}, line {line}: lat "{lat}" and lon "{lon}" are no place, nor has the file any other point that can be '
            "used. Give degrees from -90 to 90 and from -180 to 180.",
            file=file, line=first.line, lat=first.data["lat"], lon=first.data["lon"],
        )  # fmt: skip
    if points.no_fix.count:
        return BadInput(
            "{file}: none of its {count} points has a fix (the first in line {line}). Record it under open sky.",
            file=file, count=points.no_fix.count, line=points.no_fix.line,
        )  # fmt: skip
    if points.xml.broken:
        return BadInput(
            "{file}, line {line}: the file breaks off before its first point ({reason}). Give the whole file.",
            file=file, line=points.xml.broken.line, reason=points.xml.broken.reason,
        )  # fmt: skip
    return BadInput(
        "{file}: there is no point (trkpt, rtept or wpt) in it. Give a GPX file with one.", file=file
    )


def _tell(file: str, points: GpxPoints) -> tuple[Finding, ...]:
    """The IN-06 notes on what was passed over."""
    told = [
        note(file, fault, tally.line, count=tally.count)
        for fault, tally in (
            (NO_FIX, points.no_fix),
            (ZONELESS, points.zoneless),
            (EXTENSIONS, points.extensions),
        )
        if tally.count
    ]
    if points.xml.is_assumed_latin:
        told.append(note(file, LATIN, None))
    return tuple(told)
