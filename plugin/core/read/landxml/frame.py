# SPDX-License-Identifier: GPL-2.0-or-later
"""The units and the coordinate system of a LandXML file."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from ...errors import BadCrs, BadInput
from ...findings import Decisions, Finding, Severity
from ...units import UNITS
from ...walk import ErrorGrowth, LogKeys, SourceClass
from ..faults import LONGEST_SHOWN, SURVEY
from ..keys import NOT_GIVEN, UNIT_ANSWERS, crs_is_metric
from ..stated import AS_WRITTEN, OWN_FRAME, Stated, tell_stated
from ..xml_text import Element
from .faults import Told

LONGEST_WKT = 100_000
"""Characters of the text of a CRS that are looked at."""
SAME_UNIT = 1e-12
"""Relative: a CRS's unit that is the file's but for rounding changes no coordinate."""

_LINEAR: Mapping[str, str] = MappingProxyType(
    {
        "meter": "m", "metre": "m", "millimeter": "mm", "millimetre": "mm", "centimeter": "cm", "centimetre": "cm",
        "kilometer": "km", "kilometre": "km", "foot": "ft", "feet": "ft", "internationalfoot": "ft",
        "ussurveyfoot": "us-ft", "ussurveyfeet": "us-ft", "inch": "in", "mile": "mile",
        "meters": "m", "metres": "m", "kilometers": "km", "miles": "mile",
    }
)  # fmt: skip
"""The schema's names of linearUnit and elevationUnit, and near misses that can mean nothing else."""
_OWN_AREAS = (("m", "squaremeter"), ("ft", "squarefoot"), ("us-ft", "squarefoot"))
_EPSG = re.compile(r"^\s*(?:EPSG\s*:{1,2})?\s*(\d{4,6})\s*$", re.IGNORECASE)


def _from_dms(value: float) -> float:
    """Degrees of dd.mmss: 45.3015 is 45 degrees, 30 minutes, 15 seconds."""
    size = abs(value)
    minutes, seconds = divmod(round((size - math.floor(size)) * 10_000, 6), 100)
    return math.copysign(math.floor(size) + minutes / 60 + seconds / 3600, value)


_ANGLES: Mapping[str, Callable[[float], float]] = MappingProxyType(
    {
        "radians": float,
        "grads": lambda value: value * math.pi / 200,
        "decimal degrees": math.radians,
        "decimal dd.mm.ss": lambda value: math.radians(_from_dms(value)),
    }
)
"""angularUnit -> radians. The schema takes radians where a file says nothing; many write degrees then all the same,
so such angles are not looked at."""


@dataclass(frozen=True)
class Frame:
    """How the numbers of a file become metres and coordinates.

    Attributes:
        keys: of all its walks. unit_m: metres by the file's unit of length. height_m: by its unit of heights.
        plan: what takes east and north into the walks' own: metres, or the unit of `keys.crs`.
        to_radians: of its angles, None where it does not say.
        has_own_area: its areas are in the square of its unit of length.
    """

    keys: LogKeys
    unit_m: float
    height_m: float
    plan: float
    to_radians: Callable[[float], float] | None = None
    has_own_area: bool = False


def read_frame(
    units: Sequence[Element],
    systems: Sequence[Element],
    place: str,
    decisions: Decisions,
    told: Told,
    stated: Stated = AS_WRITTEN,
) -> Frame:
    """The frame from the elements Units and CoordinateSystem; units that are not settled are told (IN-02).

    Args:
        units: the elements Units, in the file's order.
        systems: the elements CoordinateSystem.
        place: the first `walk:station`, for the answer.
        decisions: the answers there are.
        told: takes the findings.
        stated: units and CRS that count in place of the file's; its units are then those of the heights too.

    Raises:
        BadInput: the stated CRS is no projected one with an EPSG code.
    """
    given = [child for element in units for child in element.children if child.name in ("Metric", "Imperial")]
    names = [_LINEAR.get(_plain(child.attributes.get("linearUnit", ""))) for child in given]
    crs, axis_m = _chosen_crs(systems, told, stated.crs) if stated.crs else _find_crs(systems, told)
    name = names[0] if names and None not in names and len(set(names)) == 1 else None
    if stated.units:
        _note_chosen(told, "units", stated.units, [c.attributes.get("linearUnit", "") for c in given])
        name = stated.units
    elif name is None and (given or not (crs and crs_is_metric(crs))):
        name = _ask_units(given, place, decisions, told)
    unit_m = UNITS[name].factor if name else 1.0
    keys = LogKeys(
        units=name, unit_m=unit_m, crs=crs, source_class=SourceClass.DIGITISED, growth=ErrorGrowth.POINTS
    )
    plan = unit_m / (axis_m if crs else 1.0)
    return Frame(
        keys,
        unit_m,
        unit_m if stated.units else _height_unit(given, name, unit_m),
        1.0 if abs(plan - 1.0) < SAME_UNIT else plan,
        _ANGLES.get(given[0].attributes.get("angularUnit", "").strip().lower()) if given else None,
        bool(given) and (name, _plain(given[0].attributes.get("areaUnit", ""))) in _OWN_AREAS,
    )


def _plain(name: str) -> str:
    return name.strip().lower().replace(" ", "").replace("_", "")


def _height_unit(stated: Sequence[Element], name: str | None, unit_m: float) -> float:
    """Metres by the unit of heights: elevationUnit, where it says another than linearUnit does.

    Its `feet` are the file's own feet: schema and programs write the word beside either foot.
    """
    word = _LINEAR.get(_plain(stated[0].attributes.get("elevationUnit", ""))) if stated else None
    if word is None or (word == "ft" and name in ("ft", "us-ft")):
        return unit_m
    return UNITS[word].factor


def _ask_units(stated: Sequence[Element], place: str, decisions: Decisions, told: Told) -> str | None:
    finding = decisions.answered(_no_units(told.file, stated, place))
    if finding.is_open:
        everywhere = decisions.answered(_no_units(told.file, stated, SURVEY))
        finding = finding if everywhere.is_open else everywhere
    told.add(finding)
    return finding.answer


def _no_units(file: str, stated: Sequence[Element], place: str) -> Finding:
    if stated:
        line = stated[0].line
        cell = ", ".join(child.attributes.get("linearUnit", "") for child in stated[:2])[:LONGEST_SHOWN]
        return Finding(
            NOT_GIVEN,
            Severity.STOP,
            place,
            template='{file}, line {line}: the linearUnit "{cell}" is not one unit that is known.',
            remedy="Write one of meter, millimeter, centimeter, kilometer, foot, USSurveyFoot, inch, mile, or answer for "
            "{place} with m, ft or us-ft.",
            data={"file": file, "line": line, "cell": cell, "place": place},
            file=file,
            line=line,
            answers=UNIT_ANSWERS,
        )
    return Finding(
        NOT_GIVEN,
        Severity.STOP,
        place,
        template="{file}: the units are not given.",
        remedy="State them in the element Units, or answer for {place} with m, ft or us-ft.",
        data={"file": file, "place": place},
        file=file,
        answers=UNIT_ANSWERS,
    )


def _find_crs(systems: Sequence[Element], told: Told) -> tuple[str | None, float]:
    """`EPSG:n` of the file's projected CRS and the metres by the unit of its axes; None where none comes out."""
    for system in systems:
        texts = [text for text in map(_usable, _crs_texts(system)) if text]
        found = None if _is_moved(system) else next(filter(None, map(_projected, texts)), None)
        if found:
            return found
        said = next(iter(filter(None, (*texts, *system.attributes.values()))), "")
        if said:
            told.note(
                "{file}, line {line}: the coordinate system {name} is no projected one with an EPSG code, or it is moved "
                "or turned; the coordinates are taken as a plane of their own.",
                system.line,
                "Give the EPSG code in CoordinateSystem, or place the survey with control.",
                name=said,
            )
    return None, 1.0


def _chosen_crs(systems: Sequence[Element], told: Told, chosen: str) -> tuple[str | None, float]:
    """The CRS that is stated in place of the file's.

    Raises:
        BadInput: it is no projected one with an EPSG code.
    """
    _note_chosen(told, "crs", chosen, [text for system in systems for text in _crs_texts(system)[:1]])
    if chosen == OWN_FRAME:
        return None, 1.0
    found = _projected(_usable(chosen))
    if found is None:
        raise BadInput(
            "{file}: the CRS {crs} that was chosen for it is no projected one with an EPSG code. Choose such a one, or {none} "
            "for a plane of its own.",
            file=told.file, crs=chosen[:LONGEST_SHOWN], none=OWN_FRAME,
        )  # fmt: skip
    return found


def _note_chosen(told: Told, key: str, chosen: str, said: Sequence[str]) -> None:
    note = tell_stated(told.file, key, chosen, said)
    if note:
        told.add(note)


def _is_moved(system: Element) -> bool:
    """Whether the coordinates are not the system's own: it has an origin or a turn besides."""
    turn = system.attributes.get("rotationAngle", "").strip()
    return system.child("Start") is not None or bool(turn.strip("+-0."))


def _crs_texts(system: Element) -> list[str]:
    given = system.attributes
    names = ("epsgCode", "ogcWktCode", "horizontalCoordinateSystemName", "name")
    return [given[name] for name in names if given.get(name, "").strip()]


def _usable(text: str) -> str:
    code = _EPSG.match(text)
    return f"EPSG:{code[1]}" if code else text.strip()[:LONGEST_WKT]


def _projected(text: str) -> tuple[str, float] | None:
    """The EPSG code and axis unit (metres) of the CRS that a text means, if it means exactly that."""
    from ...plane import open_crs  # pyproj is slow to load, and few files name a CRS

    try:
        crs = open_crs(text)
        crs = crs.sub_crs_list[0] if crs.is_compound else crs
        code = crs.to_epsg()
        if code is None or not crs.is_projected:
            return None
        known = open_crs(f"EPSG:{code}")
    except BadCrs:
        return None
    is_named = text.startswith("EPSG:") or text.casefold() == known.name.casefold()
    if not (is_named or known.equals(crs, ignore_axis_order=True)):
        return None
    return f"EPSG:{code}", float(known.axis_info[0].unit_conversion_factor)
