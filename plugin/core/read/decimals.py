# SPDX-License-Identifier: GPL-2.0-or-later
"""Plain decimals (-12.345) straight from a file's bytes, a column at once, to the very number that float() gives.

Up to 15 digits are read as two words of eight characters. Their whole number is below 2^53 and the power of ten
below 10^22, so both are exact, and one IEEE division rounds once, as float() does. Where all numbers of some thousand
rows have the same decimals, as an instrument writes them, the mark is known to stand in one place, which is faster.
"""

from __future__ import annotations

import re

import numpy as np
import numpy.typing as npt

from ..quantity import Floats, Ints

BEFORE = 16
"""Bytes that must stand before the first field: two words are read that end where a field ends."""
_BLOCK = 32_768
"""Rows at once: the work arrays stay in the processor's cache."""
_FEW = 128
"""Rows up to which float() on each is done before the work arrays would be set up."""
_MOST = np.uint64(2**53)
_POWERS = np.array([1e0, 1e7, 1e6, 1e5, 1e4, 1e3, 1e2, 1e1, 1e0])
"""By the place of the decimal mark among eight characters, from 1; 0 is none."""

Bytes = npt.NDArray[np.uint8]
_Words = npt.NDArray[np.uint64]
_HalfWords = npt.NDArray[np.uint32]


def _eight(byte: int) -> np.uint64:
    """A word of eight equal bytes."""
    return np.uint64(int.from_bytes(bytes([byte]) * 8, "little"))


_ZEROS, _ONES, _HIGHS, _TO_HIGH = _eight(ord("0")), _eight(1), _eight(0x80), _eight(0x80 - 10)
_LAST = np.array([0, *(2**64 - 2 ** (64 - 8 * n) for n in range(1, 9))], dtype=np.uint64)
"""Masks of the last n characters of a word."""
_BYTE, _TOP, _ALL = np.uint64(8), np.uint64(56), np.uint64(0xFF)


def read_decimals(raw: Bytes, start: Ints, end: Ints, mark: str = ".") -> tuple[Floats, Ints]:
    """Numbers of the fields raw[start:end], NaN where blank.

    Args:
        raw: the bytes, BEFORE of them before the first field.
        start: (n,) of each field.
        end: (n,) of each field, the byte behind it.
        mark: the decimal mark.

    Returns:
        (n,) the numbers, and the rows that are written in any other way (exponents, more than 15 digits or 7
        decimals, blanks, words), which are NaN.
    """
    if len(start) <= _FEW:
        return _read_few(raw, start, end, mark)
    is_filled = end > start
    values = np.full(len(start), np.nan)
    if not is_filled.all():
        filled = np.flatnonzero(is_filled)
        values[filled], others = read_decimals(raw, start[filled], end[filled], mark)
        return values, filled[others]
    words: _Words = np.ndarray((len(raw) - 7,), dtype="<u8", buffer=raw, strides=(1,))
    found = [np.zeros(0, dtype=np.int64)]
    for first in range(0, len(start), _BLOCK):
        rows = slice(first, first + _BLOCK)
        block = _read_fixed(raw, words, start[rows], end[rows], mark)
        if block is None:
            block, is_other = _read_block(raw, words, start[rows], end[rows], mark)
            found.append(np.flatnonzero(is_other) + first)
        values[rows] = block
    return values, np.concatenate(found)


def _read_few(raw: Bytes, start: Ints, end: Ints, mark: str) -> tuple[Floats, Ints]:
    """Some rows one by one."""
    values, others = np.full(len(start), np.nan), []
    base = int(start.min(initial=len(raw)))
    text = raw[base : int(end.max(initial=base))].tobytes()
    is_plain, sign = _PLAIN[mark].fullmatch, mark.encode()
    for row, (first, last) in enumerate(zip((start - base).tolist(), (end - base).tolist())):
        cell = text[first:last]
        if is_plain(cell):
            values[row] = float(cell if mark == "." else cell.replace(sign, b"."))
        elif cell:
            others.append(row)
    return values, np.array(others, dtype=np.int64)


_PLAIN = {
    mark: re.compile(
        rb"[+-]?(?=%(mark)b?\d)(?:\d{1,15}|(?=[\d%(mark)b]{2,16}\Z)\d*%(mark)b\d{0,7})"
        % {b"mark": re.escape(mark).encode()}
    )
    for mark in ".,"
}
"""Digits, 15 at the most, with 7 of them behind a decimal mark at the most."""


def _read_fixed(raw: Bytes, words: _Words, start: Ints, end: Ints, mark: str) -> Floats | None:
    """Numbers that all have the decimals of the first one, 1 to 7; None where one is written in any other way."""
    cell = raw[start[0] : end[0]].tobytes()
    places = len(cell) - 1 - cell.rfind(mark.encode())
    is_negative = raw[start] == ord("-")
    last = end.astype(np.intp)
    length = last - start - is_negative
    longest = int(length.max())
    if not 0 < places < 8 or int(length.min()) <= places or longest > 16:
        return None
    at = np.uint64(8 * (7 - places))
    after = _LAST[places]
    tail = words[last - 8]
    tail ^= _ZEROS ^ (np.uint64(ord("0") ^ ord(mark)) << at)
    tail &= np.take(_LAST, length, mode="clip")
    wrong = _not_digits(tail) | (tail & (_ALL << at))
    whole = _number((tail & after) | ((tail & ~after) << _BYTE))
    if longest > 8:
        head = (words[last - 16] ^ _ZEROS) & np.take(_LAST, length - 8, mode="clip")
        wrong |= _not_digits(head)
        whole += _number(head) * np.uint64(10**7)
    if wrong.any():
        return None
    powers = np.array([10.0**places, -(10.0**places)])
    values: Floats = whole.view(np.int64) / np.take(powers, is_negative.view(np.uint8))
    return values


def _read_block(
    raw: Bytes, words: _Words, start: Ints, end: Ints, mark: str
) -> tuple[Floats, npt.NDArray[np.bool_]]:
    sign = raw[start]
    is_negative = sign == ord("-")
    length = end - start - (is_negative | (sign == ord("+")))
    head, tail = np.zeros(1, dtype=np.uint64), _cut(words[end - 8], length)
    if (length > 8).any():
        head = _cut(words[end - 16], length - 8)
    head, tail, power, has_mark = _without_mark(head, tail, mark)
    whole = _number(head) * np.uint64(10**8) + _number(tail)
    is_plain = ((_not_digits(head) | _not_digits(tail)) == 0) & (whole <= _MOST)
    is_plain &= (length > has_mark) & (length <= 15 + has_mark)
    values = whole.astype(np.float64) / power * (1.0 - 2.0 * is_negative)
    if not is_plain.all():
        values[~is_plain] = np.nan
    return values, ~is_plain & (end > start)


def _cut(word: _Words, length: Ints) -> _Words:
    """The last `length` characters of words as digits 0 to 9, zeros before them."""
    shift = (64 - 8 * np.minimum(np.maximum(length, 0), 8)).astype(np.uint64)
    return ((word ^ _ZEROS) >> shift) << shift


def _without_mark(
    head: _Words, tail: _Words, mark: str
) -> tuple[_Words, _Words, Floats, npt.NDArray[np.bool_]]:
    """The words without the tail's first decimal mark, the power of ten it stands for, and whether there is one.

    The lowest byte is the first character; what stood before the mark moves up by one.
    """
    differs = tail ^ _eight(ord(mark) ^ ord("0"))
    equal = (differs - _ONES) & ~differs & _HIGHS  # its lowest bit is right, which is all that is used of it
    here = equal & (~equal + np.uint64(1))  # 2^(8k + 7) where k characters stand before the mark, else 0
    has_mark = here != 0
    before = (here >> np.uint64(7)) - np.uint64(1)
    moved = (tail & ~((before << _BYTE) | _ALL)) | ((tail & before) << _BYTE) | (head >> _TOP)
    chosen = ~has_mark.astype(np.uint64) + np.uint64(1)  # all bits where there is a mark; np.where is slower
    power = _POWERS[np.frexp(here.astype(np.float64))[1] >> 3]
    return head << (_BYTE & chosen), tail ^ ((tail ^ moved) & chosen), power, has_mark


def _not_digits(word: _Words) -> _Words:
    """Not 0 where a byte is above 9."""
    return ((word + _TO_HIGH) | word) & _HIGHS


def _number(word: _Words) -> _Words:
    """The whole number of eight digits: neighbours are joined to pairs, to fours, to one."""
    word = word * np.uint64((10 << 8) + 1)
    word >>= np.uint64(8)
    word &= np.uint64(0x00FF00FF00FF00FF)
    word *= np.uint64((100 << 16) + 1)
    word >>= np.uint64(16)
    word &= np.uint64(0x0000FFFF0000FFFF)
    word *= np.uint64((10_000 << 32) + 1)
    word >>= np.uint64(32)
    return word
