# SPDX-License-Identifier: GPL-2.0-or-later
"""LandXML 1.0 to 1.2 (and 2.0 where its elements are the same) -> walks, surfaces and findings."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from ...errors import BadInput
from ...findings import Decisions, Finding, Severity
from ...walk import Kind, Walk
from ..faults import SURVEY
from ..recorded import FileRead, Rows, make_walk
from ..repeats import unique_names
from ..stated import AS_WRITTEN, Stated
from ..xml_text import Element, XmlText, tell_break
from .faults import IS_CUT, Bad, Told
from .frame import Frame, read_frame
from .geometry import Drawn, Gap, draw
from .points import PointBook, RawPoint, raw_point, read_points
from .surface import LEAVES, read_surface

VERSIONS = ("1.0", "1.1", "1.2", "2.0")
CLOSED_BY_RULE = 0.05
"""Metres: a larger gap in an outline is a piece that is missing, not a play of its ends (formats.md, closing)."""
MOST_PIECES = 10
"""Of one feature that are not drawn, told one by one."""
MOST_NAMES = 20
"""Of what is not read, in one note."""
_UNREAD = frozenset({"Units", "CoordinateSystem", "Project", "Application", "Author", "FeatureDictionary"})
_SECTIONS = {
    "CgPoints": "CgPoint", "Surfaces": "Surface", "Parcels": "Parcel",
    "PlanFeatures": "PlanFeature", "Alignments": "Alignment",
}  # fmt: skip
_WHOLE_FILE = ("LandXML", "Project", "Application", "SurveyHeader")
"""Where units stand that hold for coordinates; those of pipes are of their sections."""
_WALKS = {"Parcel": "parcels", "PlanFeature": "plan features", "Alignment": "alignments"}
_KEPT = ("code", "state", "class", "area", "parcelFormat", "pclRef", "oID", "staStart")
"""Attributes of a feature that are kept as columns."""


@dataclass
class _Found:
    """What stands in a file, before its units are known."""

    units: list[Element] = field(default_factory=list)
    systems: list[Element] = field(default_factory=list)
    points: list[RawPoint] = field(default_factory=list)
    surfaces: list[Element] = field(default_factory=list)
    features: dict[str, list[Element]] = field(default_factory=lambda: {name: [] for name in _WALKS})


class _Feature(NamedTuple):
    """A feature to be: its element, its CoordGeom elements, its name and part."""

    element: Element
    geometries: tuple[Element, ...]
    name: str
    part: str


def read_landxml(
    file: str, data: bytes, decisions: Decisions | None = None, stated: Stated = AS_WRITTEN
) -> FileRead:
    """Read a LandXML file.

    Points (CgPoints) become stations without a feature, each Parcel an area, each PlanFeature and Alignment a
    length, each TIN a surface; one walk a section. What cannot be read is told and left out.

    Args:
        file: its name, for messages and for the names of the walks.
        data: its bytes.
        decisions: the answers there are; one to IN-02 settles units that the file does not state.
        stated: units and CRS that count in place of the file's.

    Raises:
        BadInput: not XML, not LandXML, past a bound (xml_text.py), or without anything that can be read.
    """
    wanted = frozenset({"Units", "CoordinateSystem", *_SECTIONS.values()})
    xml = XmlText(file, data, wanted, LEAVES)
    if xml.root.name != "LandXML":
        raise BadInput(
            "{file}, line {line}: the outermost element is {name}, not LandXML. Give a LandXML file.",
            file=file, line=xml.root.line, name=xml.root.name[:60],
        )  # fmt: skip
    told = Told(file)
    found = _gather(xml, told)
    answers = decisions or Decisions()
    at = _first_place(file, found)
    frame = read_frame(found.units, found.systems, at, answers, told, stated)
    walks = _read_walks(file, found, frame, told)
    surfaces = [read_surface(element, frame, told) for element in found.surfaces]
    read = tuple(surface for surface in surfaces if surface is not None)
    # what is told last of surfaces and features says why the last of them is not read
    has_any = bool(found.surfaces or any(found.features.values()))
    passed_over = next(reversed(told.findings()), None) if has_any else None
    _tell_whole(xml, told)
    broken = (tell_break(file, xml.broken),) if xml.broken else ()
    findings = tuple(map(answers.answered, (*told.findings(), *broken)))
    _refuse_nothing(file, walks or read, findings, passed_over)
    return FileRead(tuple(walks), findings, read)


def _gather(xml: XmlText, told: Told) -> _Found:
    """The elements that are read, in the file's order; one that the file breaks off in is left out."""
    found = _Found()
    for element in xml:
        if element.name == "Surface":
            found.surfaces.append(element)
        elif not element.is_whole:
            name = element.attributes.get("name", "").strip()
            told.bad(Bad(IS_CUT, element.line, {"element": element.name}), feature=name)
        elif element.name == "CgPoint":
            found.points.append(raw_point(element))
        elif element.name in _WALKS:
            found.features[element.name].append(element)
        elif element.name == "CoordinateSystem":
            found.systems.append(element)
        elif element.parents and element.parents[-1].name in _WHOLE_FILE:
            found.units.append(element)
    return found


def _stem(file: str) -> str:
    name = re.split(r"[\\/]", file)[-1]
    return re.sub(r"(?<=.)\.[^.]*$", "", name)


def _first_place(file: str, found: _Found) -> str:
    """The place by which the whole file is answered for: the first station that it will give."""
    if found.points:
        return f"{_stem(file)} points:{found.points[0].name or '1'}"
    walk = next((words for name, words in _WALKS.items() if found.features[name]), None)
    return f"{_stem(file)} {walk}:1" if walk else SURVEY


def _read_walks(file: str, found: _Found, frame: Frame, told: Told) -> list[Walk]:
    book = PointBook(found.points, frame)
    name = f"{_stem(file)} points"
    rows = read_points(found.points, book, name, frame, told)
    walks = [make_walk(name, file, frame.keys, rows)] if rows else []
    features = _name_features(found)
    for kind, words in _WALKS.items():
        name = f"{_stem(file)} {words}"
        own = [feature for feature in features if feature.element.name == kind]
        drawn = _draw_features(own, book, name, frame, told)
        if drawn:
            walks.append(make_walk(name, file, frame.keys, drawn))
    return walks


def _name_features(found: _Found) -> list[_Feature]:
    """All features of the file under names that differ; an area in several outlines has parts."""
    elements = [one for name in _WALKS for element in found.features[name] for one in _nested(element)]
    given = [e.attributes.get("name", "").strip() or f"{e.name} {k}" for k, e in enumerate(elements, 1)]
    features = []
    for element, name in zip(elements, unique_names(given)):
        geometries = _geometries(element)
        if element.name == "Parcel" and len(geometries) > 1:
            features += [_Feature(element, (one,), name, str(k)) for k, one in enumerate(geometries, 1)]
        else:
            features.append(_Feature(element, geometries, name, ""))
    return features


def _nested(element: Element) -> Iterator[Element]:
    """An element and those of its own kind inside it."""
    yield element
    for child in element.children:
        if child.name == element.name:
            yield from _nested(child)
        elif child.name == f"{element.name}s":
            for one in child.every(element.name):
                yield from _nested(one)


def _geometries(element: Element) -> tuple[Element, ...]:
    """The CoordGeom elements of a feature, not those of features inside it."""
    own: list[Element] = []
    for child in element.children:
        if child.name == "CoordGeom":
            own.append(child)
        elif child.name not in (element.name, f"{element.name}s"):
            own += _geometries(child)
    return tuple(own)


def _draw_features(
    features: Sequence[_Feature], book: PointBook, walk: str, frame: Frame, told: Told
) -> Rows | None:
    """The rows of the walk of some features; None where none has a station."""
    drawn: list[tuple[_Feature, Drawn]] = []
    for feature in features:
        if not feature.geometries:
            told.note(
                "{file}, line {line}: {feature} has no CoordGeom and is not read.",
                feature.element.line, "Give it its lines and arcs.", feature=feature.name,
            )  # fmt: skip
            continue
        one = draw(feature.geometries, book, frame)
        _tell_drawn(feature, one, walk, told)
        if one.stops:
            drawn.append((feature, one))
    return _rows(drawn, frame) if drawn else None


def _tell_drawn(feature: _Feature, drawn: Drawn, walk: str, told: Told) -> None:
    is_area = feature.element.name == "Parcel"
    place = f"{feature.name}/{feature.part}" if feature.part else feature.name
    for bad in drawn.missing[:MOST_PIECES]:
        told.bad(bad, place, walk=walk, feature=feature.name)
    if is_area and drawn.missing and drawn.stops:
        told.add(_no_outline(told.file, feature, place, walk, drawn.missing[0].line))
    for gap in drawn.gaps:
        if is_area and gap.metres > CLOSED_BY_RULE:
            told.add(_open_outline(told.file, feature, place, walk, gap))
        else:
            told.add(_gap(told.file, feature, place, walk, gap))


def _no_outline(file: str, feature: _Feature, place: str, walk: str, line: int) -> Finding:
    return Finding(
        "GE-01",
        Severity.STOP,
        place,
        template="{file}, line {line}: a piece of the outline of {feature} is not drawn, so it has no area.",
        remedy="Correct the piece in the file, or write it as lines and arcs.",
        data={"file": file, "line": line, "feature": place},
        file=file,
        line=line,
        walk=walk,
        feature=feature.name,
    )


def _open_outline(file: str, feature: _Feature, place: str, walk: str, gap: Gap) -> Finding:
    return Finding(
        "GE-01",
        Severity.STOP,
        place,
        template="{file}, line {line}: the outline of {feature} is open here by {gap:.3f} m, so it has no area.",
        remedy="Add the piece that is missing to the file.",
        data={"file": file, "line": gap.line, "feature": place, "gap": gap.metres},
        file=file,
        line=gap.line,
        walk=walk,
        feature=feature.name,
    )


def _gap(file: str, feature: _Feature, place: str, walk: str, gap: Gap) -> Finding:
    return Finding(
        "CL-02",
        Severity.NOTE,
        place,
        template="{file}, line {line}: {feature} goes on {gap:.3f} m from where the piece before ended; an outline is "
        "closed there by a direct side, of a length nothing is drawn.",
        remedy="Nothing, if that is meant so.",
        data={"file": file, "line": gap.line, "feature": place, "gap": gap.metres},
        file=file,
        line=gap.line,
        walk=walk,
        feature=feature.name,
    )


def _rows(drawn: Sequence[tuple[_Feature, Drawn]], frame: Frame) -> Rows:
    stops = [(feature, stop) for feature, one in drawn for stop in one.stops]
    at = np.array([stop.at for _, stop in stops], dtype=float).reshape(-1, 3)
    given = [feature.element.attributes for feature, _ in stops]
    kinds = {"Parcel": Kind.AREA}
    columns = {name: [cells.get(name, "") for cells in given] for name in _KEPT}
    return Rows(
        xy=at[:, :2] * frame.plan,
        z=at[:, 2] * frame.height_m,
        line=[stop.line for _, stop in stops],
        feature=[feature.name for feature, _ in stops],
        part=[feature.part for feature, _ in stops],
        kind=[kinds.get(feature.element.name, Kind.LENGTH) for feature, _ in stops],
        leg=[stop.leg for _, stop in stops],
        texts={"note": [cells.get("desc", "") for cells in given]},
        extra={name: cells for name, cells in columns.items() if any(cells)},
    )


def _tell_whole(xml: XmlText, told: Told) -> None:
    """What the whole file is told for: an unknown version, sections that are not read, Latin-1."""
    version = xml.root.attributes.get("version", "").strip()
    if version and version not in VERSIONS:
        told.note(
            "{file}, line {line}: LandXML {version} is not known; it was read as 1.2.",
            xml.root.line,
            version=version,
        )
    # some files have a surface or an alignment outside of its section; it is read there too
    known = {*_UNREAD, *_SECTIONS, *_SECTIONS.values()}
    unread = [name for name in xml.sections if name not in known]
    if unread:
        names = ", ".join(unread[:MOST_NAMES]) + (", ..." if len(unread) > MOST_NAMES else "")
        told.add(
            Finding(
                "IN-06",
                Severity.NOTE,
                SURVEY,
                template="{file}: not read: {names}.",
                remedy="None needed.",
                data={"file": told.file, "names": names},
                file=told.file,
            )
        )
    if xml.is_assumed_latin:
        told.note(
            "{file} is not UTF-8 and was read as Latin-1.", remedy="Save it as UTF-8 if names look wrong."
        )


def _refuse_nothing(
    file: str, read: Sequence[object], findings: Sequence[Finding], passed_over: Finding | None
) -> None:
    if read:
        return
    first = next((finding for finding in findings if finding.code == "IN-01"), None)
    if first:
        raise BadInput(
            "Nothing of {file} can be read. IN-01, the first of {count}: {message} {remedy}",
            file=file, count=sum(f.code == "IN-01" for f in findings),
            message=first.message, remedy=first.remedy_text,
        )  # fmt: skip
    if passed_over:
        raise BadInput(
            "Nothing of {file} can be read. {message} {remedy}",
            file=file, message=passed_over.message, remedy=passed_over.remedy_text,
        )  # fmt: skip
    raise BadInput(
        "{file} has no points, parcels, plan features, alignments or surfaces of triangles that can be read. Give a "
        "file that has.",
        file=file,
    )
