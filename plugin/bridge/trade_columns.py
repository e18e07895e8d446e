# SPDX-License-Identifier: GPL-2.0-or-later
"""What the trade's figures are as columns of a layer's rows, and what stands there of a row without any."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..core.errors import GroundTallyError
from .fields import Kind
from .text import explain

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

ROW = "GE-07"
"""The code of a row of a layer that cannot be measured."""


@dataclass(frozen=True)
class Told:
    """A column and what fills it, given a result."""

    name: str
    kind: Kind
    of: Callable[[object], object]


def figure(name: str, attribute: str) -> tuple[Told, Told]:
    """A quantity's column and that of its one-sigma."""
    return (
        Told(name, Kind.REAL, lambda result: _part(result, attribute, "value")),
        Told(f"{name}_sigma", Kind.REAL, lambda result: _part(result, attribute, "sigma")),
    )


def plain(name: str, attribute: str, kind: Kind = Kind.REAL) -> Told:
    """A column of a bare attribute; dots lead into parts of it."""
    return Told(name, kind, lambda result: _attribute(result, attribute))


def _part(result: object, attribute: str, part: str) -> object:
    quantity = _attribute(result, attribute)
    return None if quantity is None else getattr(quantity, part)


def _attribute(result: object, path: str) -> object:
    for name in path.split("."):
        if result is None:
            return None
        result = result[int(name)] if isinstance(result, tuple) else getattr(result, name)
    return result


def columns_of(told: Sequence[Told]) -> list[tuple[str, Kind]]:
    """The columns of some figures, and the words that go with them."""
    words = [(name, Kind.TEXT) for name in ("method", "sigma_from", "finding")]
    return [*((one.name, one.kind) for one in told), *words]


def values_of(told: Sequence[Told], result: object, sigma_from: str, finding: str = "") -> list[object]:
    """A row's values, from a result with a `method`."""
    figures = [one.of(result) for one in told]
    return [*figures, _attribute(result, "method"), sigma_from, finding or None]


def unasked(told: Sequence[Told], values: list[object], names: Sequence[str]) -> list[object]:
    """A row's values without those of columns that nobody asked for, nor their one-sigmas: no figure is not 0."""
    out = {*names, *(f"{name}_sigma" for name in names)}
    kept = [None if one.name in out else value for one, value in zip(told, values)]
    return [*kept, *values[len(told) :]]


def refused(told: Sequence[Told], why: str) -> list[object]:
    """A row without figures."""
    return [*([None] * len(told)), None, None, why]


def counted(told: Sequence[Told], words: str) -> list[object]:
    """A row whose figures stand in another, and which; nobody has to do anything about it."""
    return [*([None] * len(told)), words, None, None]


def reason(error: GroundTallyError) -> str:
    """An error of one row as the text of its column `finding`."""
    return f"{ROW}: {explain(error)}"
