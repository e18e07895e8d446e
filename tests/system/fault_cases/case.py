# SPDX-License-Identifier: GPL-2.0-or-later
"""What a row of the tables of faults says."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from plugin.core.errors import GroundTallyError
from plugin.core.findings import Severity

from .edits import Edit
from .job import Files, small

Others = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Case:
    """One fault and the finding that it must give.

    Attributes:
        spoil: makes the mistake in the files of the clean twin.
        others: code and place of every further open finding that follows from this mistake.
        touched: features whose figures change with this mistake and are right as they were recorded, or that the
            finding names without being at them.
        clean: the files without the mistake.
    """

    name: str
    spoil: Edit
    severity: Severity
    code: str
    place: str
    message: str
    others: Others = ()
    touched: tuple[str, ...] = ()
    clean: Callable[[], Files] = small


@dataclass(frozen=True)
class Refusal:
    """One fault that makes every figure wrong, or a file unusable: the error and its whole message."""

    name: str
    spoil: Edit
    error: type[GroundTallyError]
    message: str
    clean: Callable[[], Files] = small


@dataclass(frozen=True)
class Harmless:
    """An edit that changes no figure and asks nothing."""

    name: str
    spoil: Edit
    clean: Callable[[], Files] = small


@dataclass(frozen=True)
class Silent:
    """A mistake that changes what is measured and that nothing in the files could show; `tells` is the code and
    place of the finding that says that nothing checks it, None where there is none."""

    name: str
    spoil: Edit
    tells: tuple[str, str] | None
    clean: Callable[[], Files] = small


def stop(name: str, spoil: Edit, code: str, place: str, message: str, **more: object) -> Case:
    """A fault that stops."""
    return Case(name, spoil, Severity.STOP, code, place, message, **more)  # type: ignore[arg-type]


def ask(name: str, spoil: Edit, code: str, place: str, message: str, **more: object) -> Case:
    """A fault that is asked about."""
    return Case(name, spoil, Severity.ASK, code, place, message, **more)  # type: ignore[arg-type]


def note(name: str, spoil: Edit, code: str, place: str, message: str, **more: object) -> Case:
    """A fault that is told."""
    return Case(name, spoil, Severity.NOTE, code, place, message, **more)  # type: ignore[arg-type]


def edited(*edits: Edit) -> Callable[[], Files]:
    """The small job with harmless edits, as a clean twin."""

    def make() -> Files:
        files = small()
        for edit in edits:
            files = edit(files)
        return files

    return make
