# SPDX-License-Identifier: GPL-2.0-or-later
"""Exact unit factors, unit names as people write them, feet-inches-fractions and gradient text.

Inside, everything is metres; these factors stand at the edges only. The US survey foot (1200/3937 m) and the
international foot (0.3048 m) differ by 2 parts in a million and are never mixed: each family has its own names.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from types import MappingProxyType
from typing import TYPE_CHECKING

from .errors import BadInput, BadUnit

if TYPE_CHECKING:
    from collections.abc import Mapping

FOOT = Fraction(3048, 10000)
"""International foot in metres, exact (1959 agreement)."""
SURVEY_FOOT = Fraction(1200, 3937)
"""US survey foot in metres, exact (Mendenhall order, 1893)."""
LARGEST_DENOMINATOR = 1024
"""Of a fraction of an inch: finer than 0.025 mm nothing on a site is."""
HALF_PLAY = Fraction(1, 10**9)
"""Of a step: a half that the rounding of metres to a float put just below the half still rounds up."""
UPRIGHT_DEG = 90.0
LEVEL_RATIO = 1e-9
"""A gradient flatter than 1 mm in 1,000 km is written as level, not as 1 in thousands of millions."""


class Measure(Enum):
    """What a unit measures."""

    LENGTH = "length"
    AREA = "area"
    VOLUME = "volume"


class GradientStyle(Enum):
    """How a gradient is written."""

    ONE_IN = "1:n"
    PERCENT = "%"
    DEGREES = "deg"


@dataclass(frozen=True)
class Unit:
    """A unit: its name here, what it measures, and its exact size in m, m2 or m3."""

    name: str
    measure: Measure
    size: Fraction

    @property
    def factor(self) -> float:
        """Size in m, m2 or m3 as the nearest float."""
        return float(self.size)


def _foot_family(foot: Fraction, prefix: str) -> dict[str, tuple[Measure, Fraction]]:
    length, area, volume = Measure.LENGTH, Measure.AREA, Measure.VOLUME
    family = {
        "ft": (length, foot),
        "in": (length, foot / 12),
        "yd": (length, 3 * foot),
        "link": (length, foot * Fraction(66, 100)),
        "rod": (length, foot * Fraction(33, 2)),
        "chain": (length, 66 * foot),
        "mile": (length, 5280 * foot),
        "in2": (area, (foot / 12) ** 2),
        "ft2": (area, foot**2),
        "yd2": (area, 9 * foot**2),
        "rod2": (area, (foot * Fraction(33, 2)) ** 2),
        "acre": (area, 43560 * foot**2),
        "mile2": (area, (5280 * foot) ** 2),
        "ft3": (volume, foot**3),
        "yd3": (volume, 27 * foot**3),
        "acre-ft": (volume, 43560 * foot**3),
    }
    return {prefix + name: entry for name, entry in family.items()}


_METRIC: dict[str, tuple[Measure, Fraction]] = {
    "m": (Measure.LENGTH, Fraction(1)),
    "cm": (Measure.LENGTH, Fraction(1, 100)),
    "mm": (Measure.LENGTH, Fraction(1, 1000)),
    "km": (Measure.LENGTH, Fraction(1000)),
    "mm2": (Measure.AREA, Fraction(1, 10**6)),
    "cm2": (Measure.AREA, Fraction(1, 10**4)),
    "m2": (Measure.AREA, Fraction(1)),
    "ha": (Measure.AREA, Fraction(10**4)),
    "km2": (Measure.AREA, Fraction(10**6)),
    "litre": (Measure.VOLUME, Fraction(1, 1000)),
    "m3": (Measure.VOLUME, Fraction(1)),
}

UNITS: Mapping[str, Unit] = MappingProxyType(
    {
        name: Unit(name, measure, size)
        for name, (measure, size) in {
            **_METRIC,
            **_foot_family(FOOT, ""),
            **_foot_family(SURVEY_FOOT, "us-"),
        }.items()
    }
)
"""Every unit by its name; the US survey family starts with `us-`."""

LOG_UNITS = ("m", "ft", "us-ft", "in", "cm", "mm")
"""Units that a table of ours may state."""

_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "metre": "m", "metres": "m", "meter": "m", "meters": "m",
        "centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm",
        "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
        "kilometre": "km", "kilometres": "km", "kilometer": "km", "kilometers": "km",
        "foot": "ft", "feet": "ft", "'": "ft", "ift": "ft",
        "inch": "in", "inches": "in", '"': "in",
        "yard": "yd", "yards": "yd", "links": "link", "rods": "rod", "chains": "chain",
        "miles": "mile", "mi": "mile", "acres": "acre", "ac": "acre",
        "hectare": "ha", "hectares": "ha", "litres": "litre", "liter": "litre", "liters": "litre", "l": "litre",
    }
)  # fmt: skip
_POWERS = MappingProxyType({"sq": "2", "square": "2", "cu": "3", "cubic": "3"})
_SURVEY_PREFIX = re.compile(r"^(us[ -]survey|us|u\.s\.|survey)[ -]")
_PREFIX = re.compile(r"^(international|int|intl)[ -]")
_NUMBER = re.compile(r"^\s*([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d+)?)\s*(.*?)\s*$")
_FEET_INCHES = re.compile(
    r"""^\s*(?P<sign>[+-]?)\s*(?:(?P<feet>\d+)\s*(?:'|ft)\s*-?\s*)?
        (?:(?P<inches>\d+(?:\.\d+)?)(?![/\d]))?\s*(?:(?P<top>\d+)\s*/\s*(?P<bottom>[1-9]\d*))?\s*(?:"|in)?\s*$""",
    re.VERBOSE,
)


def parse_unit(text: str) -> Unit:
    """The unit a person means: a name of UNITS, or `feet`, `US survey feet`, `sq yd`, `cubic metres`, `m²`.

    A bare foot, chain or acre is the international one.

    Raises:
        BadUnit: no such unit.
    """
    words = text.strip().lower().replace("²", "2").replace("³", "3").replace("_", "-").rstrip(".")
    prefix = ""
    if _SURVEY_PREFIX.match(words):
        prefix, words = "us-", _SURVEY_PREFIX.sub("", words)
    elif words in ("usft", "ftus", "us-foot"):
        prefix, words = "us-", "ft"
    words = _PREFIX.sub("", words)
    first, _, rest = words.partition(" ")
    power = _POWERS.get(first.rstrip("."), "")
    if power:
        words = rest.strip()
    unit = UNITS.get(prefix + _WORDS.get(words, words) + power)
    if unit is None:
        raise BadUnit(
            'The unit "{unit}" is not known. Use one of: {units}.', unit=text, units=", ".join(UNITS)
        )
    return unit


def parse_length_unit(text: str) -> Unit:
    """The unit of length a person means.

    Raises:
        BadUnit: no such unit, or not one of length.
    """
    unit = parse_unit(text)
    if unit.measure is not Measure.LENGTH:
        raise BadUnit(
            '"{unit}" is not a unit of length. Use one of: {units}.', unit=text, units=", ".join(LOG_UNITS)
        )
    return unit


def convert(value: float, unit: str, to: str) -> float:
    """The same length, area or volume in another unit; one rounding, from the exact ratio.

    Raises:
        BadUnit: a name that is not known, or two that do not measure the same.
    """
    source, target = parse_unit(unit), parse_unit(to)
    if source.measure is not target.measure:
        raise BadUnit(
            '"{unit}" measures {is_}, "{to}" {other}. Choose two units of one kind.',
            unit=unit, is_=source.measure.value, to=to, other=target.measure.value,
        )  # fmt: skip
    return value * float(source.size / target.size)


def parse_length(text: str, unit: str = "m") -> float:
    """A length in metres from `12.4`, `12.4 ft`, `0,10 m`, or feet and inches: `8' 7 7/16"`.

    Args:
        text: what a person wrote.
        unit: the unit of a bare number.

    Raises:
        BadInput: it is not a finite length.
        BadUnit: its unit is not known.
    """
    found = _NUMBER.match(text)
    if found and not re.search("['\"/]", text):
        value = float(found[1].replace(",", ".")) * parse_length_unit(found[2] or unit).factor
        if math.isfinite(value):
            return value
    parts = _FEET_INCHES.match(text)
    if not parts or not any(parts.group("feet", "inches", "top")) or found is None:
        raise BadInput('"{text}" is not a length. Write it like 12.4 m or 8\' 7 7/16".', text=text)
    inches = 12 * Fraction(parts["feet"] or 0) + Fraction(parts["inches"] or 0)
    inches += Fraction(int(parts["top"] or 0), int(parts["bottom"] or 1))
    return float(inches * FOOT / 12) * (-1.0 if parts["sign"] == "-" else 1.0)


def format_feet_inches(length: float, denominator: int = 16, *, foot: str = "ft", marks: bool = True) -> str:
    r"""A length as feet, inches and a reduced fraction: `8' 7 7/16"`, or `8-7 7/16` without marks.

    Args:
        length: metres.
        denominator: the finest fraction of an inch; halves round away from zero.
        foot: `ft` or `us-ft`.
        marks: with the marks for feet and inches.

    Raises:
        BadInput: not a finite length, or a denominator that is not a whole number from 1 to 1024.

    Example:
        >>> format_feet_inches(8.62 * 0.3048)
        '8\' 7 7/16"'
    """
    if not math.isfinite(length):
        raise BadInput("{length} is not a length that can be written in feet and inches.", length=length)
    if not (isinstance(denominator, int) and 1 <= denominator <= LARGEST_DENOMINATOR):
        raise BadInput(
            "{denominator} cannot be the finest fraction of an inch. Use a whole number from 1 to {largest}.",
            denominator=denominator, largest=LARGEST_DENOMINATOR,
        )  # fmt: skip
    exact = abs(Fraction(length)) / UNITS[foot].size * 12 * denominator
    steps = math.floor(exact + Fraction(1, 2) + HALF_PLAY)
    feet, rest = divmod(steps, 12 * denominator)
    inches, over = divmod(rest, denominator)
    fraction = f" {Fraction(over, denominator)}" if over else ""
    sign = "-" if length < 0 and steps else ""
    return f"{sign}{feet}' {inches}{fraction}\"" if marks else f"{sign}{feet}-{inches}{fraction}"


def format_gradient(ratio: float, style: GradientStyle, places: int = 1) -> str:
    """A gradient (rise by run) as `1:20.0`, `5.0 %` or `2.9 deg`; down is negative.

    Raises:
        BadInput: not a finite ratio.
    """
    if not math.isfinite(ratio):
        raise BadInput("{ratio} is not a gradient.", ratio=ratio)
    sign = "-" if ratio < 0 else ""
    size = abs(ratio)
    if style is GradientStyle.PERCENT:
        return _signed(sign, f"{100 * size:.{places}f}", " %")
    if style is GradientStyle.DEGREES:
        return _signed(sign, f"{math.degrees(math.atan(size)):.{places}f}", " deg")
    return "level" if size < LEVEL_RATIO else f"{sign}1:{1 / size:.{places}f}"


def _signed(sign: str, digits: str, unit: str) -> str:
    return (sign if digits.strip("0.") else "") + digits + unit


def parse_gradient(text: str) -> float:
    """The ratio (rise by run) of `1:20`, `1 in 20`, `5 %`, `2.86 deg`, `level` or a bare ratio.

    Raises:
        BadInput: none of these, or upright (90 degrees, 1:0).
    """
    cleaned = text.strip().lower().replace("°", " deg")
    if cleaned == "level":
        return 0.0
    pair = re.match(r"^([+-]?)1\s*(?::|in)\s*(\d+(?:[.,]\d+)?)$", cleaned)
    number = _NUMBER.match(cleaned)
    ratio = math.nan
    if pair and float(pair[2].replace(",", ".")) > 0:
        ratio = (-1.0 if pair[1] == "-" else 1.0) / float(pair[2].replace(",", "."))
    elif number and not pair:
        value = float(number[1].replace(",", "."))
        if number[2] in ("deg", "degrees") and abs(value) < UPRIGHT_DEG:
            ratio = math.tan(math.radians(value))
        elif number[2] in ("", "%"):
            ratio = value / 100 if number[2] else value
    if not math.isfinite(ratio):
        raise BadInput('"{text}" is not a gradient. Write it like 1:20, 5 % or 2.9 deg.', text=text)
    return ratio
