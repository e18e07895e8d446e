# SPDX-License-Identifier: GPL-2.0-or-later
"""Degrees as people write them: 48.1173, 48°07'02.3"N, N 48 07 02.3, 48:07:02.3."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

import numpy as np

from ..cells import read_numbers
from ..faults import OUTSIDE, Fault, RowFaults

if TYPE_CHECKING:
    from ...quantity import Floats
    from ..table import LogTable

LIMITS = {"NS": 90.0, "EW": 180.0}
NOT_AN_ANGLE = Fault(
    template='{file}, line {line}, column {column}: "{cell}" is not in degrees.',
    remedy="Write it like {example}; the rest of the file was read.",
)
_EXAMPLES = {"NS": "48.1173 or 48°07'02.3\"N", "EW": "11.5167 or 11°31'00.1\"E"}
_SIXTY = 60.0
_NUMBER = r"(\d{1,3}|\d{1,3}[.,]\d+)"
_PART = r"(\d{1,2}|\d{1,2}[.,]\d+)"
_ANGLE = re.compile(
    rf"""^([NSEW]?)\s*([+\-\u2212]?){_NUMBER}\s*(?:[°º:\sd]\s*
    (?:{_PART}\s*(?:['’′:\sm]\s*(?:{_PART}\s*(?:["”″s]|''|’’|′′)?\s*)?)?)?)?([NSEW]?)$""",
    re.VERBOSE | re.IGNORECASE,
)
"""Hemisphere, sign, degrees, minutes, seconds, hemisphere. Each digit group is bounded, so a match takes no time."""

_SIGN = re.compile(r"\d\s*[°º'’′:]|\d\s+\d|[NSEW]\s*\d+[.,]\d{3}|\d[.,]\d{3,}\s*[NSEW]$", re.IGNORECASE)
"""What no bare number has, and few names do."""


def parse_degrees(text: str, hemispheres: str) -> float | None:
    """An angle in degrees, None where the text is none, or is of the other kind.

    Args:
        text: what stood in the file.
        hemispheres: "NS" for a latitude, "EW" for a longitude.
    """
    found = _ANGLE.match(text.strip())
    if not found:
        return None
    before, sign, *parts, after = found.groups()
    letter = (before or after).upper()
    wrong = (before and after) or (letter and (sign or letter not in hemispheres))
    given = [part.replace(",", ".") for part in parts if part]
    # only the last part may be broken: 48.5°30' has no meaning
    if wrong or any("." in part for part in given[:-1]) or any(float(part) >= _SIXTY for part in given[1:]):
        return None
    size = math.fsum(float(part) / _SIXTY**i for i, part in enumerate(given))
    return -size if letter in ("S", "W") or sign in ("-", "\u2212") else size


def is_degrees(text: str) -> bool:
    """Whether a text is an angle that is neither a bare number nor a point's name, such as N1."""
    bare = text.strip()
    if not _SIGN.search(bare):
        return False
    return parse_degrees(bare, "NS") is not None or parse_degrees(bare, "EW") is not None


def read_degrees(table: LogTable, column: str, faults: RowFaults, hemispheres: str) -> Floats:
    """(n,) the column in degrees, NaN where blank, unreadable or beyond 90 or 180 (then told)."""
    cells = table.text(column)
    if any(map(_SIGN.search, cells)):
        values = np.full(len(cells), np.nan)
        for row, cell in enumerate(cells):
            angle = parse_degrees(cell, hemispheres) if cell else np.nan
            if angle is None:
                faults.add(row, NOT_AN_ANGLE, column, example=_EXAMPLES[hemispheres])
            else:
                values[row] = angle
    else:
        values = read_numbers(table, column, faults)
    limit = LIMITS[hemispheres]
    faults.add_where(np.abs(values) > limit, OUTSIDE, column, least=f"{-limit:g}", most=f"{limit:g}")
    return values
