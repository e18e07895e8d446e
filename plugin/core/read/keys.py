# SPDX-License-Identifier: GPL-2.0-or-later
"""The `# key: value` lines of a log -> LogKeys, and back."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from enum import Enum
from types import MappingProxyType
from typing import TYPE_CHECKING, TypeVar

from ..accuracy import Accuracy, AccuracyKind
from ..errors import BadCrs, BadInput, BadUnit
from ..findings import Decisions, Finding, Severity
from ..units import LOG_UNITS, parse_length_unit
from ..walk import ErrorGrowth, LogKeys, SourceClass
from .cells import words_of
from .faults import BAD_KEY, SURVEY, unreadable
from .times import parse_offset

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from .table import LogTable

UNIT_ANSWERS = ("m", "ft", "us-ft")
NOT_GIVEN = "IN-02"
KEPT = "IN-06"
_TEXT_KEYS = ("crs", "instrument", "date", "surveyor", "site")
LOG_KEYS = (
    "units", *_TEXT_KEYS, "accuracy", "accuracy-kind", "source-class", "utc-offset", "error-growth",
)  # fmt: skip
_TERM = re.compile(r"^([\d.]+(?:[eE][+-]?\d+)?)\s*(.+)$")
_KINDS: Mapping[str, AccuracyKind] = MappingProxyType(
    {**words_of(AccuracyKind), "95%": AccuracyKind.P95, "1 sigma": AccuracyKind.SIGMA}
)

_GROWTH_OF = MappingProxyType(
    {SourceClass.PHONE: ErrorGrowth.RECEIVER, SourceClass.DIGITISED: ErrorGrowth.POINTS}
)
"""How errors grow where a log does not say: by what recorded it."""


@dataclass(frozen=True)
class KeyLine:
    """A key line: the key in lower case, its value, its line in the file, and the key as written."""

    key: str
    value: str
    line: int
    written: str


def key_lines(table: LogTable) -> Mapping[str, KeyLine]:
    """The key lines of a table by key; comments and blank values are left out.

    Raises:
        BadInput: a key is given twice with different values.
    """
    found: dict[str, KeyLine] = {}
    for (written, value), line in zip(table.keys, table.key_lines):
        key = written.lower().replace("_", "-").replace(" ", "-")
        if not key or not value:
            continue
        if key in found and found[key].value != value:
            raise BadInput(
                '{file}, line {line}: {key} is "{cell}" here but "{first}" in line {other}. Keep one of the two.',
                file=table.file, line=line, key=written, cell=value, first=found[key].value, other=found[key].line,
            )  # fmt: skip
        found[key] = KeyLine(key, value, line, written)
    return found


def read_keys(table: LogTable) -> tuple[LogKeys, tuple[Finding, ...]]:
    """The keys of a log but for its units; a value that cannot be used is told and taken as not given."""
    lines = key_lines(table)
    findings: list[Finding] = []
    keys = LogKeys(
        **{key: lines[key].value for key in _TEXT_KEYS if key in lines},  # type: ignore[arg-type]  # texts all
        other=tuple(
            (written, value)
            for written, value in table.keys
            if written.lower().replace("_", "-").replace(" ", "-") not in LOG_KEYS
        ),
    )
    source = _member(table, lines.get("source-class"), SourceClass, SourceClass.INSTRUMENT, findings)
    by_source = _GROWTH_OF.get(source, ErrorGrowth.WALKED)
    growth = _member(table, lines.get("error-growth"), ErrorGrowth, by_source, findings)
    keys = replace(keys, source_class=source, growth=growth)
    offset = lines.get("utc-offset")
    if offset and parse_offset(offset.value) is not None:
        keys = replace(keys, utc_offset=offset.value)
    elif offset:
        findings.append(_bad_key(table, offset, "write it like +02:00"))
    keys, bad = _with_accuracy(table, keys, lines)
    return keys, (*findings, *bad)


_Member = TypeVar("_Member", bound=Enum)


def _member(
    table: LogTable, line: KeyLine | None, kind: type[_Member], default: _Member, findings: list[Finding]
) -> _Member:
    """The member that a key's word means; the default where the key is not given, or means none (then told)."""
    words = words_of(kind)
    if line and line.value.lower() not in words:
        findings.append(_bad_key(table, line, "write one of: " + ", ".join(words)))
    return words.get(line.value.lower(), default) if line else default


def _with_accuracy(
    table: LogTable, keys: LogKeys, lines: Mapping[str, KeyLine]
) -> tuple[LogKeys, tuple[Finding, ...]]:
    stated, kind_line = lines.get("accuracy"), lines.get("accuracy-kind")
    if not stated:
        return keys, ()
    kind = _KINDS.get(kind_line.value.lower()) if kind_line else AccuracyKind.LIMIT
    if kind is None and kind_line:
        return keys, (_bad_key(table, kind_line, "write one of: limit, 95 %, sigma"),)
    try:
        return replace(keys, accuracy=parse_accuracy(stated.value, kind or AccuracyKind.LIMIT)), ()
    except BadInput:
        return keys, (_bad_key(table, stated, "write it like 0.5 % or 0.02 m + 0.3 %"),)


def _bad_key(table: LogTable, line: KeyLine, words: str) -> Finding:
    return unreadable(
        table.file, line.line, BAD_KEY, {"column": line.written, "cell": line.value, "words": words}, SURVEY
    )


def parse_accuracy(text: str, kind: AccuracyKind) -> Accuracy:
    """A stated accuracy: a part of the length and metres of each stand, from `0.5 %` or `0.02 m + 0.3 %`.

    Raises:
        BadInput: none of these, or one part given twice.
        BadUnit: a unit that is not known.
    """
    parts: dict[str, float] = {}
    for term in text.replace("±", "").replace(",", ".").split("+"):
        found = _TERM.match(term.strip())
        name = "part" if found and found[2] in ("%", "ppm") else "metres"
        try:
            size = float(found[1]) if found else None
        except ValueError:
            size = None
        if found is None or size is None or name in parts:
            raise BadInput('"{text}" is not an accuracy. Write it like 0.5 % or 0.02 m + 0.3 %.', text=text)
        factor = {"%": 0.01, "ppm": 1e-6}.get(found[2])
        parts[name] = size * (factor if factor is not None else parse_length_unit(found[2]).factor)
    return Accuracy(parts.get("part", 0.0), parts.get("metres", 0.0), kind)


def settle_units(
    table: LogTable, keys: LogKeys, place: str, decisions: Decisions
) -> tuple[LogKeys, tuple[Finding, ...]]:
    """The keys with the table's unit: as stated, as answered, or as its CRS has it; else the IN-02 stop.

    A log in a CRS of metres or degrees, without a unit of its own, has its heights and sizes in metres.
    """
    line = key_lines(table).get("units")
    if line:
        try:
            unit = parse_length_unit(line.value)
        except BadUnit:
            unit = None
        if unit and unit.name in LOG_UNITS:
            return replace(keys, units=unit.name, unit_m=unit.factor), ()
    elif keys.crs and crs_is_metric(keys.crs):
        return keys, ()
    finding = decisions.answered(_no_units(table, line, place))
    if finding.is_open:
        everywhere = decisions.answered(_no_units(table, line, SURVEY))
        finding = finding if everywhere.is_open else everywhere
    if finding.answer:
        keys = replace(keys, units=finding.answer, unit_m=parse_length_unit(finding.answer).factor)
    return keys, (finding,)


def _no_units(table: LogTable, line: KeyLine | None, place: str) -> Finding:
    if line:
        return Finding(
            NOT_GIVEN,
            Severity.STOP,
            place,
            template='{file}, line {line}: the units "{cell}" are not known.',
            remedy="Write one of: {units}, or answer for {place} with m, ft or us-ft.",
            data={
                "file": table.file, "line": line.line, "cell": line.value,
                "units": ", ".join(LOG_UNITS), "place": place,
            },
            file=table.file,
            line=line.line,
            answers=UNIT_ANSWERS,
        )  # fmt: skip
    return Finding(
        NOT_GIVEN,
        Severity.STOP,
        place,
        template="{file}: the units are not given.",
        remedy='State them in a line "# units: m" above the header, or answer for {place} with m, ft or us-ft.',
        data={"file": table.file, "place": place},
        file=table.file,
        answers=UNIT_ANSWERS,
    )


def crs_is_metric(crs: str) -> bool:
    """Whether a CRS is known and has metres or degrees along its axes."""
    from ..plane import open_crs  # pyproj is slow to load, and few logs name a CRS without units

    try:
        axes = open_crs(crs).axis_info
    except BadCrs:
        return False
    return all(axis.unit_name in ("metre", "degree") for axis in axes)


def tell_kept(
    table: LogTable, known_columns: Iterable[str], known_keys: Iterable[str]
) -> tuple[Finding, ...]:
    """The IN-06 notes of a table: unknown columns and keys that are kept, and text that was not UTF-8."""
    columns = set(known_columns)
    unknown = [name.strip() for name, i in zip(table.header, table.names) if i not in columns]
    keys = set(known_keys)
    others = [line.written for line in key_lines(table).values() if line.key not in keys]
    notes = []
    if unknown:
        notes.append(_columns_kept(table.file, unknown))
    if others:
        notes.append(_keys_kept(table.file, others))
    if table.encoding == "latin-1":
        notes.append(_latin_1(table.file))
    return tuple(notes)


def _columns_kept(file: str, names: list[str]) -> Finding:
    return Finding(
        KEPT,
        Severity.NOTE,
        SURVEY,
        template="{file}: unknown columns are kept as they are: {names}.",
        remedy="None needed.",
        data={"file": file, "names": ", ".join(names)},
        file=file,
    )


def _keys_kept(file: str, names: list[str]) -> Finding:
    return Finding(
        KEPT,
        Severity.NOTE,
        SURVEY,
        template="{file}: unknown keys are kept as they are: {names}.",
        remedy="None needed.",
        data={"file": file, "names": ", ".join(names)},
        file=file,
    )


def _latin_1(file: str) -> Finding:
    return Finding(
        KEPT,
        Severity.NOTE,
        SURVEY,
        template="{file} is not UTF-8 and was read as Latin-1.",
        remedy="Save it as UTF-8 if names look wrong.",
        data={"file": file},
        file=file,
    )


def write_keys(keys: LogKeys) -> str:
    """The key lines of a log, one a line."""
    accuracy = keys.accuracy
    rows: list[tuple[str, str | None]] = [
        ("units", keys.units),
        ("crs", keys.crs),
        ("instrument", keys.instrument),
        ("accuracy", write_accuracy(accuracy) if accuracy else None),
        ("accuracy-kind", accuracy.kind.value if accuracy else None),
        ("source-class", keys.source_class.value),
        ("date", keys.date),
        ("surveyor", keys.surveyor),
        ("site", keys.site),
        ("utc-offset", keys.utc_offset),
        ("error-growth", _written_growth(keys)),
        *keys.other,
    ]
    return "".join(
        (f"# {key}: {value}" if key else f"# {value}") + "\n" for key, value in rows if value is not None
    )


def _written_growth(keys: LogKeys) -> str | None:
    """How errors grow, where that is not what the source class says already."""
    is_told = keys.growth is _GROWTH_OF.get(keys.source_class, ErrorGrowth.WALKED)
    return None if is_told else keys.growth.value


def write_accuracy(accuracy: Accuracy) -> str:
    """A stated accuracy as text: `0.02 m + 0.3 %`."""
    parts = [f"{accuracy.metres:.15g} m"] if accuracy.metres else []
    if accuracy.part or not parts:
        parts.append(f"{100 * accuracy.part:.15g} %")
    return " + ".join(parts)
