# SPDX-License-Identifier: GPL-2.0-or-later
"""What someone says of single files where these say nothing, or something wrong: columns, units, CRS."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from ..errors import BadCrs, BadInput, BadUnit
from ..findings import Finding, Severity
from ..units import LOG_UNITS, parse_length_unit
from .faults import SURVEY
from .formats import TableKind
from .keys import KEPT

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping

    from .table import LogTable

OWN_FRAME = "none"
"""In place of a CRS: the file's coordinates are in a plane of their own, whatever CRS it names."""
_END = re.compile(r"[;\n]")
_LEAD = r"(?:^|[;\n])\s*"
SETTLED = (
    TableKind.WALK_LOG,
    TableKind.POINT_LIST,
    TableKind.LANDXML,
    TableKind.CONTROL,
    TableKind.TAPES,
)
"""Kinds of files whose units can be stated; of tapes not the CRS, they have none."""


@dataclass(frozen=True)
class Stated:
    """What counts for one file in place of what it says itself; None: as the file says.

    Attributes:
        columns: what the columns of a point list are, in order, in the words of a choice.
        units: one of LOG_UNITS.
        crs: as an authority code, WKT or PROJ text; OWN_FRAME: none.
    """

    columns: tuple[str, ...] | None = None
    units: str | None = None
    crs: str | None = None


AS_WRITTEN = Stated()
"""Nothing is said of the file."""


@dataclass(frozen=True)
class StatedTexts:
    """What is said of files, as a user writes it: `file: words; file: words`, or an entry a line."""

    columns: str | None = None
    units: str | None = None
    crs: str | None = None

    def of_files(self, files: Collection[str]) -> Mapping[str, Stated]:
        """What is said, by file name.

        Args:
            files: the names of all files of the job.

        Raises:
            BadInput: no `file: words`, a file that the job does not have or that is named twice, a unit or a CRS that
                is not known.
        """
        columns = _entries(self.columns or "", files)
        units = {file: _unit(file, text) for file, text in _entries(self.units or "", files).items()}
        crs = {file: _crs(file, text) for file, text in _entries(self.crs or "", files).items()}
        return MappingProxyType(
            {
                file: Stated(_words(columns.get(file)), units.get(file), crs.get(file))
                for file in {**columns, **units, **crs}
            }
        )


def _words(text: str | None) -> tuple[str, ...] | None:
    return None if text is None else tuple(word.strip() for word in text.split(","))


def _entries(text: str, files: Collection[str]) -> dict[str, str]:
    """What is said by file; names are found as they are, so that one may have a semicolon or a colon in it."""
    if not text.strip():
        return {}
    known = "|".join(re.escape(name) for name in sorted(files, key=len, reverse=True))
    pieces = re.split(rf"{_LEAD}({known})\s*:", text) if known else [text]
    said: dict[str, str] = {}
    _refuse_stranger(pieces[0], files)
    for file, words in zip(pieces[1::2], pieces[2::2]):
        bare = words.strip().rstrip(";").strip()
        own, *others = _END.split(bare, maxsplit=1)
        _refuse_stranger("".join(others), files)
        if file in said or not own.strip():
            raise BadInput(
                '"{text}" says nothing of {file}, or says it twice. Write each file once, with what counts for it.',
                text=text.strip()[:200], file=file,
            )  # fmt: skip
        said[file] = own.strip()
    return said


def _refuse_stranger(text: str, files: Iterable[str]) -> None:
    """Refuse what stands where the name of a file should.

    Raises:
        BadInput: there is something.
    """
    if text.strip(" ;\t\r\n"):
        raise BadInput(
            '"{text}" does not begin with a file of the job and a colon. Write it like {file}: ..., with entries apart '
            "by semicolons; the files are {files}.",
            text=text.strip()[:200], file=next(iter(sorted(files)), "points.csv"), files=", ".join(sorted(files))[:500],
        )  # fmt: skip


def _unit(file: str, text: str) -> str:
    try:
        name = parse_length_unit(text).name
    except BadUnit:
        name = ""
    if name not in LOG_UNITS:
        raise BadInput(
            '{file}: the units "{cell}" that were chosen for it are not read. Choose one of: {units}.',
            file=file, cell=text, units=", ".join(LOG_UNITS),
        )  # fmt: skip
    return name


def _crs(file: str, text: str) -> str:
    if text.casefold() == OWN_FRAME:
        return OWN_FRAME
    from ..plane import open_crs  # pyproj is slow to load, and few jobs state a CRS

    try:
        open_crs(text)
    except BadCrs as error:
        raise BadInput(
            '{file}: the CRS "{crs}" that was chosen for it is not known. Give an authority code such as EPSG:25831, or '
            "{none} for a plane of its own.",
            file=file, crs=text, none=OWN_FRAME,
        ) from error  # fmt: skip
    return text


def refuse_unfit(kinds: Mapping[str, TableKind], stated: Mapping[str, Stated]) -> None:
    """See that of each file only that is said which such a file can have.

    Raises:
        BadInput: columns of what is no list, units or a CRS of what has none or of what has them by its format.
    """
    for file, said in stated.items():
        kind = kinds[file]
        wrong = (
            ("columns", said.columns and kind is not TableKind.POINT_LIST),
            ("units", said.units and kind not in SETTLED),
            ("crs", said.crs and (kind not in SETTLED or kind is TableKind.TAPES)),
        )
        for what, is_wrong in wrong:
            if is_wrong:
                raise BadInput(
                    "{file}: {what} were chosen for it, but it is: {kind}, which has none to choose. Take the choice back.",
                    file=file, what=what, kind=kind.value,
                )  # fmt: skip


def restate(
    table: LogTable, stated: Stated, header_units: tuple[str, ...] = ()
) -> tuple[LogTable, tuple[Finding, ...]]:
    """The table with the keys that are stated in place of its own, and the IN-06 notes that tell it.

    Args:
        table: as read.
        stated: what counts.
        header_units: the units that its header states, which are replaced too.
    """
    chosen = {key: value for key, value in (("units", stated.units), ("crs", stated.crs)) if value}
    if not chosen:
        return table, ()
    pairs = list(zip(table.keys, table.key_lines))
    said = {key: [value for (name, value), _ in pairs if _plain(name) == key] for key in chosen}
    said.get("units", []).extend(header_units)
    kept = [pair for pair in pairs if _plain(pair[0][0]) not in chosen]
    kept += [((key, value), 0) for key, value in chosen.items() if value != OWN_FRAME]
    restated = replace(table, keys=tuple(pair for pair, _ in kept), key_lines=tuple(line for _, line in kept))
    notes = (tell_stated(table.file, key, chosen[key], said[key]) for key in chosen)
    return restated, tuple(note for note in notes if note)


def _plain(key: str) -> str:
    return key.lower().replace("_", "-").replace(" ", "-")


def tell_stated(file: str, key: str, chosen: str, said: Iterable[str]) -> Finding | None:
    """The note that something was chosen for a file; None where the file says the same."""
    words = ", ".join(dict.fromkeys(filter(None, said)))[:200]
    if words == chosen:
        return None
    return Finding(
        KEPT,
        Severity.NOTE,
        SURVEY,
        template="{file}: {key} chosen for this run: {chosen}; the file says: {said}.",
        remedy="None needed.",
        data={"file": file, "key": key, "chosen": chosen[:200], "said": words or "-"},
        file=file,
    )
