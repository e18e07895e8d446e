# SPDX-License-Identifier: GPL-2.0-or-later
"""Tables of limits as files: the user's, or the examples shipped."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

from ..core.errors import BadInput
from ..core.read.table import read_table
from ..core.trade.limit_table import read_limits
from .resources import RESOURCES

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ..core.findings import Finding
    from ..core.trade.limits import Limit

SHIPPED = RESOURCES / "formats" / "limits.csv"
_NAMES = re.compile(r'\s*"(?:[^"]|"")*"(?=\s*(?:,|$))|[^,]+')


def load_limits(path: Path | None) -> tuple[tuple[Limit, ...], tuple[Finding, ...]]:
    """The limits of a table, and what is to be said of it; without a file those of the examples.

    Raises:
        BadInput: it is not there, cannot be read, or has no limit that can be used.
    """
    path = SHIPPED if path is None else path
    try:
        data = path.read_bytes()
    except OSError as error:
        raise BadInput(
            "{path} cannot be read ({reason}). Choose the table of limits again.",
            path=str(path),
            reason=error.strerror or str(error),
        ) from error
    return read_limits(read_table(path.name, data))


def tell_names(names: Iterable[str]) -> str:
    """Whole names of limits as one text, each between double quotes."""
    return ", ".join('"{}"'.format(name.replace('"', '""')) for name in names)


def split_names(text: str | None) -> tuple[str, ...] | None:
    """Names, or what they begin with, out of a text with commas between; a comma between double quotes is a part of a name.
    None where nothing was given."""
    found = [name.strip() for name in _NAMES.findall(text or "")]
    return tuple(filter(None, found)) or None
