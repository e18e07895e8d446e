# SPDX-License-Identifier: GPL-2.0-or-later
"""Areas by bands of slope, and crossfalls along ways by chainage, as rows of tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsFeature, QgsFields

from ..core.errors import BadInput
from .drawn import text_of
from .fields import Kind
from .gradients import LEAST_TOLD_M2, LEFT_OUT
from .layers import fields_with
from .text import tr

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from ..core.ground.crossfall import Crossfalls
    from ..core.ground.slope_bands import SlopeBands

NAMES = ("feature", "name")
"""Columns that name a thing, the first that is there."""
HEAD = (("of_row", Kind.WHOLE), ("feature", Kind.TEXT))
WORDS = (("method", Kind.TEXT), ("sigma_from", Kind.TEXT), ("finding", Kind.TEXT))
BAND_COLUMNS = (
    *HEAD,
    ("from_ratio", Kind.REAL),
    ("to_ratio", Kind.REAL),
    ("area_m2", Kind.REAL),
    ("area_m2_sigma", Kind.REAL),
    ("part_ratio", Kind.REAL),
    ("left_out_m2", Kind.REAL),
    *WORDS,
)
CROSS_COLUMNS = (
    *HEAD,
    ("chainage_m", Kind.REAL),
    ("cross_ratio", Kind.REAL),
    ("cross_ratio_sigma", Kind.REAL),
    *WORDS[:2],
)
PERCENT, ONE_IN = "%", "1:"
HUNDRED = 100.0
BLURRED = 0.5
"""Of the narrowest band: slopes that are worth more than this are in it or beside it by chance."""
SAME = 1e-9
"""Metres and ratio: rows at one chainage that say the same are one."""


def read_bounds(words: Sequence[str]) -> tuple[float, ...]:
    """Ratios from words such as `5 %`, `1:4` and `0.25`.

    Raises:
        BadInput: a word that is none of them.
    """
    return tuple(map(_bound, words))


def _bound(word: str) -> float:
    try:
        if word.endswith(PERCENT):
            return float(word[:-1]) / HUNDRED
        if word.startswith(ONE_IN):
            return 1.0 / float(word[len(ONE_IN) :])
        return float(word)
    except (ValueError, ZeroDivisionError) as error:
        raise BadInput(
            'BANDS: "{word}" is no slope. Write bounds with commas between, as 5 %, as 1:4 or as 0.25.',
            word=word,
        ) from error


def table_fields(columns: Iterable[tuple[str, Kind]]) -> QgsFields:
    """The fields of a table."""
    return fields_with(QgsFields(), list(columns))


def band_rows(
    row: QgsFeature, number: int, bands: SlopeBands, told: tuple[str, str], fields: QgsFields
) -> list[QgsFeature]:
    """A row for each band of an area, flattest first; the area's row is counted from 1, and the words are how it was measured
    and where its sigma is from."""
    bounds = (0.0, *bands.bounds)
    tops: tuple[float | None, ...] = (*bands.bounds, None)
    finding = " ".join(filter(None, (_left_out(bands), _blurred(bands))))
    left = bands.left_out if _left_out(bands) else 0.0
    return [
        _filled(
            fields,
            [
                *_head(row, number),
                low,
                high,
                area.value,
                area.sigma,
                area.value / bands.area,
                left,
                *told,
                finding or None,
            ],
        )
        for low, high, area in zip(bounds, tops, bands.areas)
    ]


def _left_out(bands: SlopeBands) -> str:
    if bands.left_out < max(LEAST_TOLD_M2, LEFT_OUT * (bands.left_out + bands.area)):
        return ""
    return tr("{left:.2f} m2 of it do not lie on the surface and are left out.").format(left=bands.left_out)


def _blurred(bands: SlopeBands) -> str:
    if bands.blur <= BLURRED * bands.narrowest:
        return ""
    words = tr(
        "The slopes of single triangles are worth {blur:.1f} % and the narrowest band is {band:.1f} % wide: noise makes ground "
        "steeper than it is. Take wider bands, or fewer and better levels."
    )
    return words.format(blur=HUNDRED * bands.blur, band=HUNDRED * bands.narrowest)


def cross_rows(
    row: QgsFeature, number: int, ways: Crossfalls, told: tuple[str, str], fields: QgsFields
) -> list[QgsFeature]:
    """A row wherever the crossfall of a way changes its run, by chainage; two where it jumps. The way's row is counted from
    1."""
    chainage = np.column_stack([ways.start, ways.end]).reshape(-1)
    ratio, sigma = ways.ratio.reshape(-1), ways.sigma.reshape(-1)
    again = np.zeros(len(chainage), bool)
    again[1:] = (np.diff(chainage) < SAME) & (np.abs(np.diff(ratio)) < SAME)
    rows = np.column_stack([chainage, ratio, sigma])[~again].tolist()
    return [_filled(fields, [*_head(row, number), *values, *told]) for values in rows]


def _head(row: QgsFeature, number: int) -> list[object]:
    name = next((name for name in NAMES if row.fields().lookupField(name) >= 0), None)
    return [number, (text_of(row[name]) if name else "") or None]


def _filled(fields: QgsFields, values: list[object]) -> QgsFeature:
    feature = QgsFeature(fields)
    feature.setAttributes(values)
    return feature
