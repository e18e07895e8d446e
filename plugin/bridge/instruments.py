# SPDX-License-Identifier: GPL-2.0-or-later
"""One instrument out of a file of instruments."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..core.errors import BadInput
from ..core.read.formats import TableKind, find_kind
from ..core.read.instruments import read_instruments
from ..core.read.table import read_table

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from ..core.findings import Finding
    from ..core.walk import Instrument


def instrument_names(path: Path) -> tuple[str, ...]:
    """The instruments that a file holds, in its order.

    Raises:
        BadInput: the file is not there, or is none.
    """
    return tuple(_read(path)[0])


def read_instrument(path: Path, name: str | None) -> Instrument:
    """One instrument of an instruments file: the one named, or the only one there is.

    Raises:
        BadInput: the file is not there, is none, or does not hold it.
    """
    found, findings = _read(path)
    wanted = name or (next(iter(found)) if len(found) == 1 else "")
    if wanted not in found:
        bad = next((f"{f.message} {f.remedy_text}" for f in findings if f.is_open), "")
        raise BadInput(
            "{path} holds no instrument {name}, but: {names}. Name one of them. {why}",
            path=path.name,
            name=wanted or "that is meant",
            names=", ".join(found) or "none",
            why=bad,
        )
    return found[wanted]


def _read(path: Path) -> tuple[Mapping[str, Instrument], tuple[Finding, ...]]:
    if not path.is_file():
        raise BadInput("{path} is not there. Check the name, or choose the file again.", path=str(path))
    try:
        data = path.read_bytes()
    except OSError as error:
        raise BadInput(
            "{path} cannot be read: {reason}. Check that it is there and that you may read it, then run again.",
            path=str(path),
            reason=error.strerror or str(error),
        ) from error
    kind = find_kind(data)
    if kind is not TableKind.INSTRUMENTS:
        raise BadInput(
            "{path} was named as {part}, but it holds: {kind}. Name the right file, or correct its header row.",
            path=str(path),
            part="instruments",
            kind=kind.value,
        )
    return read_instruments(read_table(path.name, data))
