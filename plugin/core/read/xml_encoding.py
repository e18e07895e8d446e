# SPDX-License-Identifier: GPL-2.0-or-later
"""Which encoding XML bytes are in: by their mark, by their declaration, or by what they are."""

from __future__ import annotations

import codecs
import re
from collections.abc import Mapping
from types import MappingProxyType

from ..errors import BadInput

HEAD = 1024
"""Bytes in which the declaration of the encoding is looked for."""

_ENCODINGS: Mapping[str, str] = MappingProxyType(
    {
        "utf-8": "utf-8", "utf8": "utf-8", "us-ascii": "utf-8", "ascii": "utf-8", "utf-16": "utf-8",
        "iso-8859-1": "iso-8859-1", "latin-1": "iso-8859-1", "latin1": "iso-8859-1", "iso8859-1": "iso-8859-1",
        "windows-1252": "windows-1252", "cp1252": "windows-1252", "cp-1252": "windows-1252",
    }
)  # fmt: skip
"""The parser's name of a declared encoding. A file that says UTF-16 in single bytes was saved anew without a word
to its first line; ASCII is UTF-8."""
_DECLARED = re.compile(rb"""^\s*<\?xml\s[^>]*?encoding\s*=\s*["']([^"'>]*)["']""")


def encoding_of(file: str, data: bytes) -> tuple[str, bool]:
    """The parser's name of a file's encoding, and whether Latin-1 is assumed; UTF-16 shows in the bytes.

    Raises:
        BadInput: it is declared to be another than UTF-8, UTF-16, Latin-1, ASCII or windows-1252.
    """
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return "utf-16", False
    if b"\0" in data[:4]:
        return ("utf-16le" if data[1:2] == b"\0" else "utf-16be"), False
    declared = _DECLARED.match(data[:HEAD].removeprefix(codecs.BOM_UTF8))
    name = declared[1].decode("latin-1").strip() if declared else "utf-8"
    encoding = _ENCODINGS.get(name.lower().replace("_", "-"))
    if encoding is None:
        raise BadInput(
            '{file}, line 1: the encoding "{encoding}" is not read. Save the file as UTF-8.',
            file=file, encoding=name[:60],
        )  # fmt: skip
    if encoding == "utf-8" and not _is_utf_8(data):
        return "iso-8859-1", True
    return encoding, False


def _is_utf_8(data: bytes) -> bool:
    """Whether the bytes are UTF-8 (a last character cut short is let through), a megabyte at a time."""
    if data.isascii():
        return True
    decoder = codecs.getincrementaldecoder("utf-8")()
    try:
        for at in range(0, len(data), 2**20):
            decoder.decode(data[at : at + 2**20])
    except UnicodeDecodeError:
        return False
    return True
