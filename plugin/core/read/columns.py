# SPDX-License-Identifier: GPL-2.0-or-later
"""The columns of a table as fields of its bytes; a cell becomes text when asked.

What a log has a million of, rows, is never looped over here: a cell costs a few nanoseconds until it is text.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from itertools import repeat
from operator import eq
from typing import TYPE_CHECKING, TypeVar, overload

import numpy as np
import numpy.typing as npt

from ..quantity import Ints
from .decimals import BEFORE, Bytes, read_decimals

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..quantity import Floats

WIDEST = 64
"""Bytes: longer cells are cut out one by one, shorter ones together."""
MOST_WORDS = 4_096
"""A column with more different cells than this in its first rows is not searched for repeats."""
_BLOCK_ROWS = 1 << 16
PADDING = WIDEST + 8
_LAST_BYTES = np.array([2 ** (8 * n) - 1 for n in range(9)], dtype=np.uint64)
"""Masks of the last n bytes of a word that begins with its highest byte."""
_BEYOND = 0xFF
"""Stands behind a short cell; no UTF-8 text has this byte."""

Flags = npt.NDArray[np.bool_]
_Value = TypeVar("_Value")


class Column(Sequence[str]):
    """The cells of one column: fields of the file's bytes, made text at first need and then kept.

    It is equal to, and has the hash of, the tuple of its cells, which it can stand for.

    Attributes:
        raw: the bytes of the table (UTF-8), BEFORE of them before the first field and WIDEST behind the last.
        start, end: (n,) of each field in `raw`, quotes around it left out.
        is_bare: whether it is known that no cell has a blank or a sign beyond ASCII.
    """

    def __init__(self, raw: Bytes, start: Ints, end: Ints, *, is_bare: bool = False) -> None:
        """A column of the fields raw[start:end]."""
        self.raw, self.start, self.end, self.is_bare = raw, start, end, is_bare

    @classmethod
    def of(cls, texts: str) -> Column:
        """A column of cells that each end with a NUL."""
        raw = padded(texts.replace('"', '""').encode())
        stops = np.flatnonzero(raw[: len(raw) - PADDING] == 0)
        return cls(raw, np.append(BEFORE, stops[:-1] + 1)[: len(stops)], stops)

    def __len__(self) -> int:
        """How many cells there are."""
        return len(self.start)

    @overload
    def __getitem__(self, i: int) -> str: ...
    @overload
    def __getitem__(self, i: slice) -> Column: ...
    def __getitem__(self, i: int | slice) -> str | Column:
        """One cell, or the column of some rows."""
        if isinstance(i, slice):
            return self.at(i)
        if "_read" not in self.__dict__:
            return _unquoted(text_of(self.raw, self.start[i], self.end[i]))
        return self.texts[i]

    def __eq__(self, other: object) -> bool:
        """Whether it holds the same cells as another column, a tuple or a list."""
        if not isinstance(other, (Column, tuple, list)):
            return NotImplemented
        return len(self) == len(other) and all(map(eq, self, other))

    def __hash__(self) -> int:
        """That of the tuple."""
        return hash(tuple(self))

    def __repr__(self) -> str:
        """That of the tuple."""
        return repr(tuple(self))

    def __iter__(self) -> Iterator[str]:
        """The cells from the first row on."""
        return iter(self.texts)

    @property
    def texts(self) -> list[str]:
        """All cells as text; equal ones that follow one another are one object."""
        return self._read[0]

    @property
    def changes(self) -> Ints:
        """The rows whose cell may differ from the one before; no other does."""
        found = []
        for first in range(0, len(self), _BLOCK_ROWS):
            keys = self.at(slice(max(first - 1, 0), first + _BLOCK_ROWS)).keys()
            if keys is None:
                return self._read[1]
            found.append(np.flatnonzero(keys[1:] != keys[:-1]) + max(first, 1))
        return np.concatenate([np.zeros(min(len(self), 1), dtype=np.int64), *found])

    def keys(self) -> npt.NDArray[np.uint64] | None:
        """(n,) the cells as whole numbers, longer ones and later signs larger; None where one is beyond 8 bytes."""
        last = self.end.astype(np.intp)
        length = last - self.start
        if length.max(initial=0) > 8:
            return None
        words: npt.NDArray[np.uint64] = np.ndarray(
            (len(self.raw) - 7,), dtype=">u8", buffer=self.raw, strides=(1,)
        )
        keys: npt.NDArray[np.uint64] = words[last - 8].astype(np.uint64)
        keys &= np.take(_LAST_BYTES, length, mode="clip")
        return keys

    def is_unique(self) -> bool:
        """Whether no cell comes again."""
        keys = self.keys()
        if keys is None:
            return len(set(self.texts)) == len(self)
        if (keys[1:] > keys[:-1]).all():
            return True
        keys.sort()
        return bool((keys[1:] != keys[:-1]).all())

    @cached_property
    def _read(self) -> tuple[list[str], Ints]:
        return _read_texts(self.raw, self.start, self.end)

    @cached_property
    def is_blank(self) -> Flags:
        """(n,) whether each cell is empty."""
        return np.asarray(self.end <= self.start)

    @cached_property
    def is_spaced(self) -> bool:
        """Whether a cell may have a blank at either end: a byte there is a blank of ASCII or part of a wider sign."""
        if self.is_bare:
            return False
        for edge in (self.raw[self.start], self.raw[self.end - 1]):
            may_be_blank = (edge <= ord(" ")) | (edge >= 0x80)
            if may_be_blank.any() and (may_be_blank & ~self.is_blank).any():
                return True
        return False

    def may_start_with(self, sign: str) -> bool:
        """Whether a cell starts with an ASCII sign."""
        is_there = self.raw[self.start] == ord(sign)
        return bool(is_there.any() and (is_there & ~self.is_blank).any())

    def at(self, rows: Ints | slice) -> Column:
        """The column of some rows."""
        return Column(self.raw, self.start[rows], self.end[rows], is_bare=self.is_bare)

    def decimals(self, mark: str) -> tuple[Floats, Ints]:
        """(n,) the plain decimals, NaN elsewhere, and the rows that hold something else; blank ones hold nothing."""
        return read_decimals(self.raw, self.start, self.end, mark)

    def fixed(self) -> npt.NDArray[np.bytes_] | None:
        """(n,) the cells as bytes of one width, short ones filled with NUL; None where one is beyond WIDEST."""
        length = self.end - self.start
        widest = int(length.max(initial=1))
        if widest > WIDEST:
            return None
        cells = _fields(self.raw, self.start, widest)
        cells *= np.arange(widest, dtype=np.uint8) < length.astype(np.uint8)[:, None]
        return cells.view(f"S{widest}")[:, 0]


class Same(Sequence[_Value]):
    """One value so many times, for a column that is not there."""

    def __init__(self, value: _Value, count: int) -> None:
        """So many of a value."""
        self._value, self._count = value, count
        self._part: tuple[_Value, ...] = ()

    def __len__(self) -> int:
        """How many there are."""
        return self._count

    @overload
    def __getitem__(self, i: int) -> _Value: ...
    @overload
    def __getitem__(self, i: slice) -> tuple[_Value, ...]: ...
    def __getitem__(self, i: int | slice) -> _Value | tuple[_Value, ...]:
        """The value, or the tuple of some rows; one tuple for all columns that are cut at the same rows."""
        if isinstance(i, slice):
            count = len(range(*i.indices(self._count)))
            if count != len(self._part):
                self._part = (self._value,) * count
            return self._part
        range(self._count)[i]  # raises what a tuple would
        return self._value

    def __iter__(self) -> Iterator[_Value]:
        """The value, so many times."""
        return repeat(self._value, self._count)

    def at(self, rows: Ints) -> Same[_Value]:
        """The value for some rows."""
        return Same(self._value, len(rows))


def changes_of(cells: Sequence[str]) -> Sequence[int]:
    """The rows whose cell may differ from the one before."""
    return cells.changes.tolist() if isinstance(cells, Column) else range(len(cells))


def are_unique(cells: Sequence[str]) -> bool:
    """Whether no cell comes again."""
    return cells.is_unique() if isinstance(cells, Column) else len(set(cells)) == len(cells)


def blanks_of(cells: Sequence[str]) -> Flags:
    """(n,) whether each cell is empty."""
    return cells.is_blank if isinstance(cells, Column) else np.array([not cell for cell in cells], dtype=bool)


def _fields(raw: Bytes, start: Ints, width: int) -> Bytes:
    """(n, width) the bytes from each start on."""
    windows: npt.NDArray[np.bytes_] = np.ndarray(
        (len(raw) - width + 1,), dtype=f"S{width}", buffer=raw, strides=(1,)
    )
    return windows[start].view(np.uint8).reshape(len(start), width)


def _read_texts(raw: Bytes, start: Ints, end: Ints) -> tuple[list[str], Ints]:
    """Cells as text, and the rows where they change."""
    length = np.maximum(end - start, 0)
    long = np.flatnonzero(length > WIDEST)
    length[long] = 0
    texts: list[str] = []
    changes = [long, long[long + 1 < len(start)] + 1] if len(long) else []
    seen: dict[str, str] = {}
    for first in range(0, len(start), _BLOCK_ROWS):
        rows = slice(first, first + _BLOCK_ROWS)
        block, changed = _read_block(raw, start[rows], length[rows])
        if len(seen) < MOST_WORDS:
            block = list(map(seen.setdefault, block, block))
        texts += _repeated(block, changed, len(length[rows]))
        changes.append(changed + first)
    for row in long.tolist():
        texts[row] = _unquoted(raw[start[row] : end[row]].tobytes().decode())
    found = np.concatenate(changes) if changes else long
    return texts, np.unique(found) if len(long) else found


def _read_block(raw: Bytes, start: Ints, length: Ints) -> tuple[list[str], Ints]:
    """The cells of the rows that differ from the one before, or of all where most do, and these rows."""
    widest = int(length.max(initial=0))
    if not widest:
        return [""], np.zeros(1, dtype=np.int64)
    words = -(-widest // 8)
    cells = _fields(raw, start, 8 * words)
    cells |= (np.arange(8 * words, dtype=np.uint8) >= length.astype(np.uint8)[:, None]).view(
        np.uint8
    ) * np.uint8(_BEYOND)
    keys = cells.view(np.uint64)
    is_change = np.ones(len(start), dtype=bool)
    is_change[1:] = (keys[1:] != keys[:-1]).any(axis=1)
    rows = np.flatnonzero(is_change)
    if 2 * len(rows) < len(start):
        cells = cells[rows]
    else:
        rows = np.arange(len(start))
    joined = np.concatenate([cells, np.zeros((len(cells), 1), dtype=np.uint8)], axis=1)
    text = joined.tobytes().translate(None, bytes([_BEYOND])).decode()
    texts = text.split("\0")
    texts.pop()
    return [_unquoted(cell) for cell in texts] if '"' in text else texts, rows


def _unquoted(cell: str) -> str:
    return cell.replace('""', '"') if '"' in cell else cell


def _repeated(cells: list[str], rows: Ints, count: int) -> list[str]:
    """Each cell from its row to the next one's."""
    if len(cells) == count:
        return cells
    repeated: list[str] = np.repeat(np.array(cells, dtype=object), np.diff(rows, append=count)).tolist()
    return repeated


def padded(text: bytes | memoryview, end: bytes = b"") -> Bytes:
    """The bytes with what must stand before and behind them."""
    return np.frombuffer(b"".join((b"\n" * BEFORE, text, end, b"\0" * PADDING)), np.uint8)


def text_of(raw: Bytes, start: int, end: int) -> str:
    """The bytes raw[start:end] as text."""
    return raw[start:end].tobytes().decode()
