# SPDX-License-Identifier: GPL-2.0-or-later
"""GPX 1.0 and 1.1 -> points in groups (waypoints, routes, segments of tracks) as columns, and what is wrong with them.

Source of the elements: GPX 1.1 schema documentation (topografix.com/GPX/1/1); 1.0 has speed and course as well.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

import numpy as np

from ...errors import BadInput
from ...findings import Finding
from ..cells import LARGEST_LENGTH, parse_number
from ..faults import AND_MORE, LONGEST_SHOWN, MOST_FINDINGS, NOT_A_NUMBER, NOT_A_TIME, Fault, unreadable
from ..times import DAY, NANOSECONDS, parse_offset
from ..xml_text import Element, XmlText
from .fixes import Tally

EXTRA = ("fix", "sat", "hdop", "vdop", "pdop", "ageofdgpsdata", "dgpsid", "geoidheight", "magvar", "speed", "course",
         "sym", "type", "src")  # fmt: skip
"""Children of a point that are kept as columns."""
NOTES = ("cmt", "desc")
"""Children of a point that become its note."""
FIRST_YEAR, LAST_YEAR = 1900, 2199
"""Of a time that can be: the clock of a receiver that never had one may say the year 1."""

NO_PLACE = Fault(
    template='{file}, line {line}: lat "{lat}" and lon "{lon}" are no place; the point is left out.',
    remedy="Give degrees from -90 to 90 and from -180 to 180; the rest of the file was read.",
)
_TIME = re.compile(
    r"^(?P<day>\d{4}-\d\d-\d\d)[T ](?P<h>\d\d):(?P<m>\d\d)(?::(?P<s>\d\d)(?:[.,](?P<f>\d+))?)?\s*(?P<zone>Z|[+-]\d\d(?::?\d\d)?)?$"
)


class GroupKind(Enum):
    """What a group of points is."""

    WAYPOINTS = "wpt"
    ROUTE = "rtept"
    SEGMENT = "trkpt"


@dataclass(eq=False)
class Group:
    """Points of one parent, in order; filled while the file is read.

    Attributes:
        kind: what they are. line: of the parent, from 1. owner: number of the track or route in the file, from 0.
        lon, lat: degrees. z: metres. instant: nanoseconds from 1970, None where there is no time.
        lines: of the points. name, note: text. extra: the columns of EXTRA that any point fills.
    """

    kind: GroupKind
    line: int
    owner: int
    lon: list[float] = field(default_factory=list)
    lat: list[float] = field(default_factory=list)
    z: list[float] = field(default_factory=list)
    instant: list[int | None] = field(default_factory=list)
    lines: list[int] = field(default_factory=list)
    name: list[str] = field(default_factory=list)
    note: list[str] = field(default_factory=list)
    extra: dict[str, list[str]] = field(default_factory=dict)

    def __len__(self) -> int:
        """How many points there are."""
        return len(self.lon)


@dataclass(frozen=True, eq=False)
class GpxPoints:
    """All of a file.

    Attributes:
        groups: in the order of the file, each with at least one point.
        names: of tracks and routes, by their kind and number; "" or missing where there is none.
        faults: the IN-01 stops. xml: the file, gone through.
        no_fix: points whose `fix` is `none`. zoneless: times without a zone. extensions: what is not read.
    """

    groups: tuple[Group, ...]
    names: Mapping[tuple[GroupKind, int], str]
    faults: tuple[Finding, ...]
    xml: XmlText
    no_fix: Tally
    zoneless: Tally
    extensions: Tally


def read_points(file: str, data: bytes) -> GpxPoints:
    """All points of a GPX file.

    Raises:
        BadInput: it is not XML, or not GPX.
    """
    xml = XmlText(file, data, frozenset({"wpt", "rtept", "trkpt", "name", "extensions"}))
    if xml.root.name != "gpx":
        raise BadInput(
            "{file}, line {line}: the file begins with <{name}>, not with <gpx>. Give a GPX file.",
            file=file, line=xml.root.line, name=xml.root.name[:LONGEST_SHOWN],
        )  # fmt: skip
    collector = _Collector(file)
    for element in xml:
        collector.take(element)
    return collector.points(xml)


class _Collector:
    """Sorts the elements of a file into groups."""

    def __init__(self, file: str) -> None:
        self._file = file
        self._groups: dict[tuple[int, str], Group] = {}
        # elements around points are told apart by identity; kept here, theirs is not used again
        self._parents: list[Element] = []
        self._owners: dict[int, tuple[GroupKind, int]] = {}
        self._counts = dict.fromkeys(GroupKind, 0)
        self._names: dict[tuple[GroupKind, int], str] = {}
        self._faults: list[Finding] = []
        self._more = Tally()
        self._no_fix = self._zoneless = self._extensions = Tally()

    def take(self, element: Element) -> None:
        """One element; the one that the file breaks off in is not used."""
        if not element.is_whole or not element.parents:
            return
        if element.name == "extensions":
            self._extensions = self._extensions.and_one(element.line)
        elif element.name == "name":
            owner = element.parents[-1]
            if owner.name in ("trk", "rte") and len(element.parents) == 2:
                self._names.setdefault(self._owner(owner), " ".join(element.text.split()))
        else:
            self._take_point(element)

    def points(self, xml: XmlText) -> GpxPoints:
        """What was collected."""
        faults = tuple(self._faults)
        if self._more.count:
            faults += (unreadable(self._file, self._more.line, AND_MORE, {"found": self._more.count}),)
        groups = tuple(group for group in self._groups.values() if len(group))
        return GpxPoints(groups, self._names, faults, xml, self._no_fix, self._zoneless, self._extensions)

    def _owner(self, owner: Element) -> tuple[GroupKind, int]:
        kind = GroupKind.ROUTE if owner.name == "rte" else GroupKind.SEGMENT
        known = self._owners.get(id(owner))
        if known is None:
            known = self._owners[id(owner)] = (kind, self._counts[kind])
            self._parents.append(owner)
            self._counts[kind] += 1
        return known

    def _group(self, element: Element) -> Group:
        parent = element.parents[-1]
        key = id(parent), element.name
        group = self._groups.get(key)
        if group is None:
            kind = GroupKind(element.name)
            around = element.parents[-2] if kind is GroupKind.SEGMENT and parent.name == "trkseg" else parent
            owner = 0 if kind is GroupKind.WAYPOINTS else self._owner(around)[1]
            group = self._groups[key] = Group(kind, parent.line, owner)
            self._parents.append(parent)
        return group

    def _take_point(self, element: Element) -> None:
        cells = {child.name: child.text.strip() for child in reversed(element.children) if child.text}
        if element.child("extensions"):
            self._extensions = self._extensions.and_one(element.line)
        if cells.get("fix", "").lower() == "none":
            self._no_fix = self._no_fix.and_one(element.line)
            return
        place = self._place(element)
        if place is None:
            return
        group = self._group(element)
        group.lat.append(place[0])
        group.lon.append(place[1])
        group.lines.append(element.line)
        group.z.append(self._height(element, cells.get("ele", "")))
        group.instant.append(self._instant(element, cells.get("time", "")))
        group.name.append(" ".join(cells.get("name", "").split()))
        group.note.append("; ".join(dict.fromkeys(cells[name] for name in NOTES if cells.get(name))))
        for name in EXTRA:
            if cells.get(name):
                group.extra.setdefault(name, []).extend([""] * (len(group) - 1 - len(group.extra[name])))
                group.extra[name].append(cells[name])

    def _place(self, element: Element) -> tuple[float, float] | None:
        texts = [element.attributes.get(name, "").strip() for name in ("lat", "lon")]
        lat, lon = map(parse_number, texts)
        if lat is not None and lon is not None and abs(lat) <= 90 and abs(lon) <= 180:
            return lat, lon
        shown = [text[:LONGEST_SHOWN] for text in texts]
        self._tell(element.line, NO_PLACE, lat=shown[0], lon=shown[1])
        return None

    def _height(self, element: Element, cell: str) -> float:
        if not cell:
            return np.nan
        z = parse_number(cell)
        if z is not None and abs(z) <= LARGEST_LENGTH:
            return z
        self._tell(_line(element, "ele"), NOT_A_NUMBER, column="ele", cell=cell[:LONGEST_SHOWN])
        return np.nan

    def _instant(self, element: Element, cell: str) -> int | None:
        if not cell:
            return None
        read = read_instant(cell)
        if read is None:
            self._tell(_line(element, "time"), NOT_A_TIME, column="time", cell=cell[:LONGEST_SHOWN])
            return None
        if not read[1]:
            self._zoneless = self._zoneless.and_one(_line(element, "time"))
        return read[0]

    def _tell(self, line: int, fault: Fault, **data: object) -> None:
        if len(self._faults) < MOST_FINDINGS:
            self._faults.append(unreadable(self._file, line, fault, data))
        else:
            self._more = self._more.and_one(line)


def _line(element: Element, name: str) -> int:
    child = element.child(name)
    return child.line if child else element.line


def read_instant(text: str) -> tuple[int, bool] | None:
    """Nanoseconds from 1970 in UTC of an ISO 8601 date and time, and whether it names its zone.

    A time without a zone counts as UTC. None for anything else, and for years that cannot be.
    """
    found = _TIME.match(text)
    if not found or not FIRST_YEAR <= int(found["day"][:4]) <= LAST_YEAR:
        return None
    hour, minute, second = int(found["h"]), int(found["m"]), int(found["s"] or 0)
    zone = parse_offset(found["zone"]) if found["zone"] else 0
    if hour > 23 or minute > 59 or second > 60 or zone is None:
        return None
    try:
        day = int(np.datetime64(found["day"], "D").astype(np.int64))
    except ValueError:
        return None
    fraction = int((found["f"] or "0")[:9].ljust(9, "0"))
    seconds = day * DAY + hour * 3600 + minute * 60 + second - zone
    return seconds * NANOSECONDS + fraction, found["zone"] is not None
