# SPDX-License-Identifier: GPL-2.0-or-later
"""What the columns of a point list are: told from the words of its header, or from words someone chose."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from types import MappingProxyType

from ...errors import BadInput, BadUnit
from ...units import LOG_UNITS, parse_length_unit


class Role(Enum):
    """What a column of a point list holds; the first seven values are the words that a choice is made of."""

    NUMBER = "number"
    NORTHING = "northing"
    EASTING = "easting"
    ELEVATION = "elevation"
    DESCRIPTION = "description"
    LONGITUDE = "longitude"
    LATITUDE = "latitude"
    SD_XY = "sd_xy"
    SD_EAST = "sd_e"
    SD_NORTH = "sd_n"
    SD_Z = "sd_z"
    MARK = "mark"
    FEATURE = "feature"
    PART = "part"
    GEOMETRY = "geometry"
    LEG = "leg"
    ITEM = "item"


OTHER = "other"
"""In a choice, as "" is: a column that is kept as it is."""
CHOICE_WORDS = ("number", "northing", "easting", "elevation", "description", "longitude", "latitude")
CHOSEN: Mapping[str, Role] = MappingProxyType({word: Role(word) for word in CHOICE_WORDS})
COORDINATES = (Role.NORTHING, Role.EASTING, Role.ELEVATION, Role.LONGITUDE, Role.LATITUDE)
PLANS = ((Role.EASTING, Role.NORTHING), (Role.LONGITUDE, Role.LATITUDE))
ANGLES = (Role.LONGITUDE, Role.LATITUDE)
SIGMAS = (Role.SD_XY, Role.SD_EAST, Role.SD_NORTH, Role.SD_Z)
_OWN_WORDS = ("mark", "feature", "part", "geometry", "leg", "item")
"""Columns of a walk log that a point list may have too; only under exactly these names."""

_NORTH = ("northing", "northings", "north", "nord", "norte", "hochwert", "nordwert")
_EAST = ("easting", "eastings", "east", "est", "ost", "este", "rechtswert", "ostwert")
_LON = ("longitude", "longitud", "lon", "long", "lng")
_LAT = ("latitude", "latitud", "lat")
_DIRECTIONS = frozenset({*_NORTH, *_EAST, *_LON, *_LAT, "n", "e"})
_NUMBERS = (
    "number", "no", "nr", "num", "#", "n°", "nº", "point number", "point no", "point nr", "point id", "point name",
    "pointid", "pointnumber", "pt number", "pt no", "pt id", "ptid", "pt", "pnt", "pnt no", "point", "punkt",
    "punktnummer", "punktnr", "punkt nr", "pktnr", "punto", "numero", "numéro", "número", "station", "stn",
    "station id", "id", "name", "p", "pt #", "pt#", "point #", "no.",
)  # fmt: skip
_ELEVATIONS = (
    "elevation", "elev", "ele", "rl", "reduced level", "z", "level", "elevación", "elevacion", "altitude", "altitud", "alt",
    "höhe", "hoehe", "cota", "height", "h", "z coord", "point z",
)  # fmt: skip
_DESCRIPTIONS = (
    "note", "description", "desc", "descr", "feature code", "point code", "code", "remark", "remarks", "comment",
    "comments", "notes", "point description", "beschreibung", "bemerkung", "descripción", "descripcion", "código",
    "codigo", "remarque", "raw description", "full description", "d",
)  # fmt: skip
_SD_XY = ("sd xy", "sigma xy", "std xy")
_SD_EAST = ("sd e", "sde", "sd east", "sd easting", "sigma e", "sigma east", "std e", "std east")
_SD_NORTH = ("sd n", "sdn", "sd north", "sd northing", "sigma n", "sigma north", "std n", "std north")
_SD_Z = (
    "sd z",
    "sdz",
    "sd h",
    "sd elev",
    "sd elevation",
    "sd height",
    "sigma z",
    "std z",
    "sigma h",
    "std h",
)

_PAIRS: tuple[tuple[tuple[Role, Sequence[str]], ...], ...] = (
    ((Role.EASTING, (*_EAST, "e")), (Role.NORTHING, (*_NORTH, "n"))),
    ((Role.EASTING, ("x", "x coord", "point x")), (Role.NORTHING, ("y", "y coord", "point y"))),
    ((Role.LONGITUDE, _LON), (Role.LATITUDE, _LAT)),
)
"""The two that give a place, the surest first: words, and the letters e and n, win over x and y."""
_SINGLES: tuple[tuple[Role, Sequence[str]], ...] = (
    (Role.NUMBER, _NUMBERS),
    (Role.ELEVATION, _ELEVATIONS),
    (Role.DESCRIPTION, _DESCRIPTIONS),
    (Role.SD_XY, _SD_XY),
    (Role.SD_Z, _SD_Z),
)
_TWO_WORDS = frozenset(
    word
    for _, known in (*_SINGLES, (Role.SD_EAST, _SD_EAST), (Role.SD_NORTH, _SD_NORTH))
    for word in known
    if " " in word
)
_BRACKET = re.compile(r"^(.*?)[\s_]*[(\[]([^()\[\]]*)[)\]]\s*$", re.DOTALL)
_SPACES = re.compile(r"[\s_\-.,:/]+")
_DEGREE_UNITS = frozenset({"deg", "degree", "degrees", "dd", "dms", "°", "wgs84", "wgs 84"})
_UNIT_TAILS = frozenset(
    {"m", "ft", "usft", "cm", "mm", "km", "feet", "metre", "metres", "meter", "meters", "foot", "yd", "in"}
)
"""Units that may stand behind a column's word without brackets, such as `northing_ft`."""


@dataclass(frozen=True)
class HeaderCell:
    """A header's cell: as written, its word in lower case without the unit, and the unit as written ("" for none)."""

    written: str
    word: str
    unit: str


def read_header_cell(written: str) -> HeaderCell:
    """A column name taken apart: `Easting (m)`, `northing_ft`, `Elev [us-ft]`."""
    text = written.strip().strip('"').lstrip("\ufeff").strip()
    inside = _BRACKET.match(text)
    if inside and _word(inside[2]) in _DIRECTIONS:  # Y (East): some count x to the north
        return HeaderCell(written.strip(), _word(inside[2]), "")
    if inside:
        return HeaderCell(written.strip(), _word(inside[1]), inside[2].strip())
    word = _word(text)
    base, _, tail = word.rpartition(" ")
    if base.endswith((" us", " us survey")) and tail in _UNIT_TAILS:
        base, _, _ = base.partition(" us")
        return HeaderCell(written.strip(), base, "us-" + tail)
    return (
        HeaderCell(written.strip(), base, tail)
        if base and tail in _UNIT_TAILS
        else HeaderCell(text, word, "")
    )


def _word(text: str) -> str:
    return _SPACES.sub(" ", text).strip().casefold()


def find_roles(header: Sequence[str]) -> tuple[Role | None, ...]:
    """What each column of a header holds; None where nobody can say, or another column says it better."""
    cells = [read_header_cell(name) for name in header]
    words = [cell.word for cell in cells]
    found: dict[int, Role] = _own_columns(header)
    plan = next((pair for pair in (_take(words, cells, pair, found) for pair in _PAIRS) if len(pair) > 1), {})
    found.update(plan or _half_plan(words, cells, found))
    for role, known in _SINGLES:
        found.update(_take(words, cells, ((role, known),), found))
    sigmas = _take(words, cells, ((Role.SD_EAST, _SD_EAST), (Role.SD_NORTH, _SD_NORTH)), found)
    if len(sigmas) > 1 and Role.SD_XY not in found.values():
        found.update(sigmas)
    if Role.NUMBER not in found.values() and "n" in words:
        found.setdefault(words.index("n"), Role.NUMBER)
    return tuple(found.get(i) for i in range(len(header)))


def _own_columns(header: Sequence[str]) -> dict[int, Role]:
    names = [name.strip().casefold() for name in header]
    return {names.index(word): Role(word) for word in _OWN_WORDS if word in names}


def _half_plan(
    words: Sequence[str], cells: Sequence[HeaderCell], found: Mapping[int, Role]
) -> dict[int, Role]:
    """One coordinate without its other, so that the reader can say which is missing."""
    return next(filter(None, (_take(words, cells, pair, found) for pair in _PAIRS)), {})


def _take(
    words: Sequence[str],
    cells: Sequence[HeaderCell],
    wanted: Sequence[tuple[Role, Sequence[str]]],
    found: Mapping[int, Role],
) -> dict[int, Role]:
    """The column of each role wanted, by the best of its words that the header has."""
    taken: dict[int, Role] = {}
    for role, known in wanted:
        ranked = [known.index(word) if word in known else None for word in words]
        fits = [
            (rank, i)
            for i, rank in enumerate(ranked)
            if rank is not None and i not in found and _may_have(role, cells[i].unit)
        ]
        if fits:
            taken[min(fits)[1]] = role
    return taken


def _may_have(role: Role, unit: str) -> bool:
    """Whether a column of this role may have this unit: degrees are no lengths."""
    if role in ANGLES:
        return not unit or unit.casefold() in _DEGREE_UNITS or _length_unit(unit) is None
    return unit.casefold() not in ("deg", "degree", "degrees", "°")


def join_words(names: Sequence[str]) -> list[str]:
    """The names in a header that blanks separate, with those put together that are one name of two words."""
    joined: list[str] = []
    for name in names:
        if joined and _word(f"{joined[-1]} {name}") in _TWO_WORDS:
            joined[-1] += " " + name
        else:
            joined.append(name)
    return joined


def count_coordinates(header: Sequence[str]) -> int:
    """How many different coordinates a header names."""
    return len({role for role in find_roles(header) if role in COORDINATES})


def check_roles(file: str, header: Sequence[str], roles: Sequence[Role | None]) -> None:
    """See that the columns give a place.

    Raises:
        BadInput: one coordinate of the two is missing.
    """
    if not any(set(pair) <= set(roles) for pair in PLANS):
        raise BadInput(
            "{file}: the point list has no two columns that give a place. Its header needs easting and northing, x and y, "
            "or longitude and latitude; it has {header}. Name them, or choose the columns.",
            file=file, header=", ".join(name.strip() for name in header)[:200],
        )  # fmt: skip


def read_choice(file: str, columns: Sequence[str]) -> tuple[Role | None, ...]:
    """The roles that someone chose, in the plain words.

    Raises:
        BadInput: a word that is none of CHOICE_WORDS, a word twice, or no two that give a place.
    """
    words = [word.strip().casefold() for word in columns]
    unknown = [word for word in words if word not in CHOSEN and word not in ("", OTHER)]
    twice = [word for word, count in Counter(words).items() if count > 1 and word in CHOSEN]
    roles = tuple(CHOSEN.get(word) for word in words)
    both = all(set(pair) & set(roles) for pair in PLANS)
    if unknown or twice or both or not any(set(pair) <= set(roles) for pair in PLANS):
        raise BadInput(
            '{file}: the columns "{columns}" cannot be used. Name each column of the file once, with easting and northing '
            "or longitude and latitude among them; the words are {words}, and {other} for a column that is only kept.",
            file=file, columns=", ".join(columns)[:200], words=", ".join(CHOICE_WORDS), other=OTHER,
        )  # fmt: skip
    return roles


@dataclass(frozen=True)
class HeaderUnits:
    """Units that a header states, by LOG_UNITS' names: of the two coordinates, of the heights, of each sigma."""

    plan: tuple[str, ...] = ()
    height: tuple[str, ...] = ()
    sigma: tuple[tuple[Role, str], ...] = ()

    def sigma_m(self, role: Role, unit_m: float) -> float:
        """The unit of a sigma in metres; sigmas are often in millimetres where all else is in metres."""
        own = dict(self.sigma).get(role)
        return parse_length_unit(own).factor if own else unit_m


def find_header_units(file: str, header: Sequence[str], roles: Sequence[Role | None]) -> HeaderUnits:
    """The units that stand in the names of a list's columns; what stands in brackets and is no unit is passed over.

    Raises:
        BadInput: a length in a unit that our tables do not take.
    """
    found: list[tuple[Role, str]] = []
    for written, role in zip(header, roles):
        name = _length_unit(read_header_cell(written).unit)
        if name is None or role not in (*PLANS[0], Role.ELEVATION, *SIGMAS):
            continue
        if name not in LOG_UNITS:
            raise BadInput(
                '{file}: the column "{column}" is in {unit}, which is not read. Give it in one of: {units}.',
                file=file, column=written.strip(), unit=name, units=", ".join(LOG_UNITS),
            )  # fmt: skip
        found.append((role, name))
    return HeaderUnits(
        tuple(dict.fromkeys(name for role, name in found if role in PLANS[0])),
        tuple(name for role, name in found if role is Role.ELEVATION),
        tuple((role, name) for role, name in found if role in SIGMAS),
    )


def _length_unit(text: str) -> str | None:
    """The name of a unit of length, None where the text is none."""
    try:
        return parse_length_unit(text).name if text else None
    except BadUnit:
        return None
