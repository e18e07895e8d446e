# SPDX-License-Identifier: GPL-2.0-or-later
"""The edits that make a mistake in a job's files, each a function from files to files."""

from __future__ import annotations

from collections.abc import Callable

from scripts.demo_jobs.faults import Table

from .job import LOG_2, Files

Edit = Callable[[Files], Files]


def chain(*edits: Edit) -> Edit:
    """One edit after the other."""

    def spoil(files: Files) -> Files:
        for edit in edits:
            files = edit(files)
        return files

    return spoil


def text(file: str, by: Callable[[str], str]) -> Edit:
    """Change a file's text; an edit that changes nothing is a mistake of the table."""

    def spoil(files: Files) -> Files:
        before = files[file].decode()
        after = by(before)
        assert after != before, file
        return {**files, file: after.encode()}

    return spoil


def swap(file: str, old: str, new: str) -> Edit:
    """Replace a text that stands once in a file."""

    def by(before: str) -> str:
        assert before.count(old) == 1, (file, old, before.count(old))
        return before.replace(old, new)

    return text(file, by)


def table(file: str, by: Callable[[Table], None]) -> Edit:
    """Change a file's rows."""

    def change(before: str) -> str:
        rows = Table.parse(before)
        by(rows)
        return rows.text()

    return text(file, change)


def cell(file: str, row: int, **cells: str) -> Edit:
    """Write cells of a row (from 1; in a log of one walk the station's number)."""
    return table(file, lambda rows: rows.rows[row - 1].update({k.rstrip("_"): v for k, v in cells.items()}))


def every(file: str, **cells: str) -> Edit:
    """Write cells of every row."""
    return table(file, lambda rows: [row.update(cells) for row in rows.rows] and None)


def scaled(file: str, factor: float, *columns: str) -> Edit:
    """Multiply the numbers of columns."""

    def by(rows: Table) -> None:
        for column in columns:
            rows.change(column, 0, lambda value: value * factor)

    return table(file, by)


def moved(file: str, first: int, column: str, by: float, last: int | None = None) -> Edit:
    """Add to a column's numbers from a row on (from 1), up to a row."""

    def change(rows: Table) -> None:
        for row in rows.rows[first - 1 : last]:
            row[column] = f"{float(row[column]) + by:.6f}"

    return table(file, change)


def column(file: str, name: str, *cells: str) -> Edit:
    """Add a column; rows beyond the cells given are blank."""

    def by(rows: Table) -> None:
        rows.header.append(name)
        for i, row in enumerate(rows.rows):
            row[name] = cells[i] if i < len(cells) else ""

    return table(file, by)


def without_column(file: str, name: str) -> Edit:
    """Take a column out."""
    return table(file, lambda rows: rows.header.remove(name))


def without_rows(file: str, *numbers: int) -> Edit:
    """Take rows out (from 1)."""

    def by(rows: Table) -> None:
        rows.rows = [row for i, row in enumerate(rows.rows, start=1) if i not in numbers]

    return table(file, by)


def again(file: str, row: int, after: int) -> Edit:
    """Repeat a row (from 1) below another."""
    return table(file, lambda rows: rows.rows.insert(after, dict(rows.rows[row - 1])))


def exchanged(file: str, one: int, two: int, *columns: str) -> Edit:
    """Exchange cells (all, where none is named) of two rows."""

    def by(rows: Table) -> None:
        a, b = rows.rows[one - 1], rows.rows[two - 1]
        for name in columns or tuple(a):
            a[name], b[name] = b[name], a[name]

    return table(file, by)


def line(file: str, *more: str) -> Edit:
    """Add lines at the end."""
    return text(file, lambda before: before + "\n".join(more) + "\n")


def key(file: str, *lines: str) -> Edit:
    """Add key lines above the header."""
    return text(file, lambda before: "".join(f"# {one}\n" for one in lines) + before)


def without(*names: str) -> Edit:
    """Take files out."""
    return lambda files: {name: data for name, data in files.items() if name not in names}


def copied(file: str, name: str, edit: Edit = dict) -> Edit:
    """Give a file a second time under another name, edited."""
    return lambda files: {**files, name: edit(files)[file]}


def data(file: str, by: Callable[[bytes], bytes]) -> Edit:
    """Change a file's bytes."""
    return lambda files: {**files, file: by(files[file])}


def rows_of(file: str, header: str, *rows: str) -> Edit:
    """Write a file anew."""
    return lambda files: {**files, file: "\n".join((*header.split("|"), *rows, "")).encode()}


GROUND_LEVELS = text(LOG_2, lambda log: log.replace("finished", "ground"))
"""Nothing finished is walked, so that no level is needed."""
