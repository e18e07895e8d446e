# SPDX-License-Identifier: GPL-2.0-or-later
"""Checks of limits as rows of a table."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from ..core.trade.limit_words import tell_allowed, tell_value
from ..core.trade.limits import SLOPES, Figure, Outcome, Thing
from .fields import Kind
from .text import tr

if TYPE_CHECKING:
    from ..core.trade.limits import Check
    from .checked import Examined

SI = ("m", "ratio")
COLUMNS = (
    ("feature", Kind.TEXT),
    ("applies_to", Kind.TEXT),
    ("quantity", Kind.TEXT),
    ("place", Kind.TEXT),
    ("count", Kind.WHOLE),
    ("limit", Kind.TEXT),
    ("measured", Kind.TEXT),
    ("allowed", Kind.TEXT),
    ("outcome", Kind.TEXT),
    ("chance_ratio", Kind.REAL),
    *((f"{name}_{unit}", Kind.REAL) for unit in SI for name in ("figure", "at_least", "at_most")),
    *((f"figure_{unit}_sigma", Kind.REAL) for unit in SI),
    ("source", Kind.TEXT),
    ("seen_or_memory", Kind.TEXT),
    ("note", Kind.TEXT),
    ("method", Kind.TEXT),
    ("sigma_from", Kind.TEXT),
    ("finding", Kind.TEXT),
)
"""What a row of checks has."""


def check_values(one: Examined, check: Check) -> list[object]:
    """A check's values, by column."""
    measured, limit = check.measured, check.limit
    by_size = measured.figure in SLOPES
    words: list[object] = [
        one.name,
        one.thing.value if measured.thing is one.thing else measured.thing.value,
        measured.figure.value,
        measured.place or None,
        check.count,
        limit.name,
        tell_value(measured.value, limit.unit, by_size=by_size)
        if math.isfinite(measured.value.value)
        else None,
        tell_allowed(check),
        check.outcome.value,
        _finite(check.chance),
    ]
    figure = [_finite(v) for v in (measured.value.value, check.low, check.high)]
    none: list[object] = [None, None, None]
    sigma = _finite(measured.value.sigma)
    return [
        *words,
        *(none if by_size else figure),
        *(figure if by_size else none),
        *((None, sigma) if by_size else (sigma, None)),
        limit.source or None,
        "seen" if limit.is_seen else "memory",
        limit.note or None,
        one.method,
        one.sigma_from,
        " ".join(filter(None, (_finding(one, check), one.under.words(measured)))) or None,
    ]


def refused_values(one: Examined) -> list[object]:
    """The values of a thing without a check, by column: why there is none."""
    why = one.why or tr("No limit of the table is of it.")
    rest = len(COLUMNS) - 3
    return [one.name, one.thing.value, *([None] * rest), why]


def _finite(value: float) -> float | None:
    return value if math.isfinite(value) else None


def _finding(one: Examined, check: Check) -> str:
    """What a check that does not pass has to be answered with."""
    if check.outcome is Outcome.PASSES:
        return ""
    is_out = check.outcome is Outcome.FAILS
    if not is_out and one.under.lacks(check.measured):
        of_fall = check.measured.thing is Thing.FALL
        return tr("DR-01: Cannot tell.") if of_fall else tr("RS-01: Cannot tell.")
    if check.measured.thing is Thing.WALL and check.measured.figure is Figure.HEIGHT:
        return tr("RW-01: The retained height may pass the limit. Have it designed; enter the name.")
    if check.measured.thing is Thing.FALL:
        return (
            tr("DR-01: The fall is outside the limit beyond what it is worth. Change levels, or accept it.")
            if is_out
            else tr("DR-01: Cannot tell: the 95 % interval lies on both sides. Level it better.")
        )
    return (
        tr(
            "RS-01: It is outside the limit beyond what it is worth. Change it, or choose the limit that holds."
        )
        if is_out
        else tr("RS-01: Cannot tell: the 95 % interval lies on both sides. Measure it better.")
    )
