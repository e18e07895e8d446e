# SPDX-License-Identifier: GPL-2.0-or-later
"""What a user chooses for a job, as the parameters of its run; and back from them."""

from __future__ import annotations

import ast
import re
import sqlite3
from contextlib import closing, suppress
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from ..core.errors import GroundTallyError
from ..core.read.formats import TableKind
from ..core.read.stated import AS_WRITTEN, OWN_FRAME, Stated, StatedTexts
from .heads import read_head
from .inventory import Inventory, no_logs, retell
from .job import PARTS, short_names
from .said import LOGS
from .text import explain, tr

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from .inventory import FoundFile

_SETTINGS = {"file_columns": "COLUMNS", "file_units": "FILE_UNITS", "file_crs": "FILE_CRS", "crs": "CRS"}
"""What a survey keeps of its run, and the parameters that give it again."""
_CODE = re.compile(r"\w+:\w+$")
"""An authority code, such as EPSG:25831."""


@dataclass(frozen=True)
class JobChoice:
    """A job's files, which of them count, and what is said of some.

    Attributes:
        folder: the job's own; survey: what is made.
        inventory: the folder's files and those that were added.
        left_out: files that do not count.
        stated: what counts for single files in place of what they say.
        crs: of the survey, an authority code or `WKT:` and a WKT; "" for the control's.
    """

    folder: Path
    survey: Path
    inventory: Inventory
    left_out: frozenset[Path] = frozenset()
    stated: Mapping[Path, Stated] = field(default_factory=dict)
    crs: str = ""

    def said_of(self, path: Path) -> Stated:
        """What is said of one file."""
        return self.stated.get(path, AS_WRITTEN)

    def takes(self, file: FoundFile) -> bool:
        """Whether a file counts."""
        is_there = not file.is_idle and (not file.is_picture or file in self.inventory.placed_pictures)
        return is_there and file.path not in self.left_out

    def may_leave_out(self, file: FoundFile) -> bool:
        """Whether a run can do without a file that lies there."""
        if file.is_picture:
            return file in self.inventory.placed_pictures and len(self.inventory.placed_pictures) > 1
        if file.kind in PARTS.values():
            return len(self.of_kind(file.kind)) > 1
        return not file.is_idle

    def problem(self) -> str:
        """Why the job cannot be run; "" where it can."""
        taken = [file for file in self.inventory.files if self.takes(file)]
        strange = next((file for file in taken if file.kind is TableKind.UNKNOWN), None)
        if not any(file.is_log for file in taken) and strange is None:
            return tr("Tick a log.") if self.inventory.has_logs else no_logs()
        if strange is not None:
            words = tr("{name}: say which column is which, or untick it.")
            return words.format(name=strange.name)
        return next(filter(None, (self._problem_of(part) for part in PARTS)), "")

    def _problem_of(self, part: str) -> str:
        all_ = self.of_kind(PARTS[part])
        taken = [file for file in all_ if self.takes(file)]
        name = all_[0].kind_words if all_ else ""
        if PARTS[part] is TableKind.CONTROL and len(taken) > 1:
            return tr("A job has one control file: untick the other.")
        if all_ and not taken:
            return tr("Tick one file of {kind}: what lies in the folder is read.").format(kind=name)
        if len(all_) > len(taken) > 1:
            return tr("Tick one file of {kind}, or all.").format(kind=name)
        return ""

    def parameters(self) -> dict[str, object]:
        """The parameters of a run; texts and lists of texts only, so that a project can keep them."""
        given: dict[str, object] = {"LOGS": self._logs(), "OUTPUT": str(self.survey)}
        if self.crs:
            given["CRS"] = self.crs
        for part, kind in PARTS.items():
            taken = [file for file in self.of_kind(kind) if self.takes(file)]
            if len(taken) == 1 and (self._has_added or taken != self.of_kind(kind)):
                given[part.upper()] = str(taken[0].path)
        pictures = [picture for picture in self.inventory.placed_pictures if self.takes(picture)]
        if len(pictures) == 1 and (self._has_added or len(self.inventory.placed_pictures) > 1):
            given["PICTURE"] = str(pictures[0].path)
        return {**given, **self._stated_texts()}

    @property
    def _has_added(self) -> bool:
        return any(file.path.parent != self.folder for file in self.inventory.rows)

    def of_kind(self, kind: TableKind) -> list[FoundFile]:
        """The files of one kind."""
        return [file for file in self.inventory.files if file.kind is kind]

    def _logs(self) -> list[str]:
        """The folder where all of it counts, else the logs one by one; files from elsewhere besides."""
        taken = [file for file in self.inventory.files if self.takes(file)]
        parts = PARTS.values()
        own = [file for file in self.inventory.files if file.path.parent == self.folder]
        is_whole = all(self.takes(file) or file.is_idle or file.kind in parts for file in own)
        added = [file for file in taken if file.path.parent != self.folder]
        if is_whole and own:
            return [str(self.folder), *(str(file.path) for file in added)]
        return [str(f.path) for f in taken if f.kind not in parts or f.path.parent != self.folder]

    def _stated_texts(self) -> dict[str, object]:
        names = file_names(self)
        said = [(names[path], one) for path, one in self.stated.items() if path in names]
        columns = [f"{name}: {', '.join(one.columns)}" for name, one in said if one.columns]
        units = [f"{name}: {one.units}" for name, one in said if one.units]
        crs = [f"{name}: {one.crs}" for name, one in said if one.crs]
        texts = {"COLUMNS": columns, "FILE_UNITS": units, "FILE_CRS": crs}
        return {key: "; ".join(entries) for key, entries in texts.items() if entries}


def start_choice(folder: Path, survey: Path, inventory: Inventory) -> JobChoice:
    """A job as it lies there: all counts, but of several pictures none before one is ticked."""
    pictures = inventory.placed_pictures
    left = frozenset(picture.path for picture in pictures) if len(pictures) > 1 else frozenset()
    return JobChoice(folder, survey, inventory, left)


def keep_choice(fresh: JobChoice, before: JobChoice | None) -> JobChoice:
    """A job looked at anew, with what was chosen before of the files that are still there."""
    if before is None:
        return fresh
    there = {file.path for file in fresh.inventory.rows}
    known = {file.path for file in before.inventory.rows}
    left = (before.left_out & there) | (fresh.left_out - known)
    stated = {path: said for path, said in before.stated.items() if path in there}
    return replace(fresh, left_out=frozenset(left), stated=stated)


def job_parameters(choice: JobChoice, survey: Path, crs: str) -> dict[str, object]:
    """The parameters of a run with this choice; crs: a code or a WKT, "" for the control's."""
    is_code = not crs or _CODE.match(crs)
    return replace(choice, survey=survey, crs=crs if is_code else f"WKT:{crs}").parameters()


def list_frame(choice: JobChoice, file: FoundFile) -> tuple[str, str]:
    """What a list's coordinates are in, CRS and units, as far as it says or somebody chose; "" of what nobody knows."""
    said = choice.said_of(file.path)
    keys = dict(file.said.keys)
    crs = said.crs or file.said.crs or keys.get("crs", "")
    return ("" if crs == OWN_FRAME else crs, said.units or file.said.units or keys.get("units", ""))


def state_columns(choice: JobChoice, path: Path, words: Sequence[str]) -> JobChoice:
    """The columns of one list."""
    return state(choice, path, replace(choice.said_of(path), columns=tuple(words)))


@dataclass(frozen=True)
class Dropped:
    """What was dropped: the folder of the job, files from elsewhere, and what of it counts."""

    folder: Path
    added: tuple[Path, ...]
    files: tuple[Path, ...]
    is_new: bool = True

    def settle(self, choice: JobChoice) -> JobChoice:
        """The choice when the files have been looked at."""
        own = [path for path in self.files if path.parent == self.folder]
        choice = replace(choice, left_out=choice.left_out.difference(own))
        return take_added(take_only(choice, own) if self.is_new else choice, self.files)


def sort_dropped(paths: Sequence[Path], folder: Path | None) -> Dropped:
    """What dropped files and folders mean.

    A folder is a job. Logs from elsewhere are a job of their folder, in which they alone count; any other file, and
    every file of the job's folder, is added to the job that is shown.

    Args:
        paths: what was dropped, and is there.
        folder: the job's, None where there is none yet.
    """
    folders = [path for path in paths if path.is_dir()]
    files = tuple(path for path in paths if not path.is_dir())
    away = [path for path in files if path.parent != folder]
    if folders:
        return Dropped(folders[0], tuple(p for p in files if p.parent != folders[0]), files, is_new=False)
    logs = [path for path in away if _is_log(path)]
    if folder is not None and not logs:
        return Dropped(folder, tuple(away), files, is_new=False)
    home = (logs or away or list(files))[0].parent
    return Dropped(home, tuple(path for path in files if path.parent != home), files)


def _is_log(path: Path) -> bool:
    try:
        return read_head(path).kind in LOGS
    except GroundTallyError:
        return False


def tick(choice: JobChoice, path: Path, *, is_on: bool) -> JobChoice:
    """A file ticked or not; of pictures and of control one only, so that ticking one leaves the others out."""
    left = choice.left_out - {path} if is_on else choice.left_out | {path}
    file = next((file for file in choice.inventory.rows if file.path == path), None)
    if is_on and file is not None:
        left |= {other.path for other in _rivals(choice, file)}
    return replace(choice, left_out=left)


def _rivals(choice: JobChoice, file: FoundFile) -> list[FoundFile]:
    """The files that do not count beside this one."""
    if file.is_picture:
        return [other for other in choice.inventory.placed_pictures if other.path != file.path]
    if file.kind is TableKind.CONTROL:
        return [other for other in choice.of_kind(file.kind) if other.path != file.path]
    return []


def take_only(choice: JobChoice, logs: Sequence[Path]) -> JobChoice:
    """Only these logs of the folder count; all do where none of them is a log."""
    own = {file.path for file in choice.inventory.files if file.is_log}
    if not own.intersection(logs):
        return choice
    return replace(choice, left_out=choice.left_out | own.difference(logs))


def take_added(choice: JobChoice, added: Sequence[Path]) -> JobChoice:
    """Files that were added count before those of their kind that lay there, but for logs."""
    for path in added:
        choice = tick(choice, path, is_on=True)
        file = next((file for file in choice.inventory.files if file.path == path), None)
        if file is not None and file.kind in PARTS.values():
            others = {other.path for other in choice.of_kind(file.kind) if other.path not in added}
            choice = replace(choice, left_out=choice.left_out | others)
    return choice


def state(choice: JobChoice, path: Path, stated: Stated) -> JobChoice:
    """Something else said of one file."""
    said = {**choice.stated, path: stated}
    return replace(choice, stated=said, inventory=retell(choice.inventory, path, stated))


def file_names(choice: JobChoice) -> dict[Path, str]:
    """The names by which a run knows the files that count."""
    return short_names([file.path for file in choice.inventory.files if choice.takes(file)])


def added_files(folder: Path, parameters: Mapping[str, object]) -> list[Path]:
    """The files of a run's parameters that lie elsewhere than in its folder and are still there."""
    named = [Path(text) for text in _texts(parameters.get("LOGS"))]
    named += [
        Path(str(parameters[key])) for key in (*map(str.upper, PARTS), "PICTURE") if parameters.get(key)
    ]
    return [path for path in dict.fromkeys(named) if path.is_file() and path.parent != folder]


def restore_choice(choice: JobChoice, parameters: Mapping[str, object]) -> tuple[JobChoice, str]:
    """A choice as some parameters have it, and what of them no longer fits; "" where all does."""
    left = frozenset(file.path for file in choice.inventory.rows if _is_left_out(choice, file, parameters))
    choice = replace(choice, left_out=left, crs=str(parameters.get("CRS") or ""))
    names = file_names(choice)
    columns = str(parameters.get("COLUMNS") or "")
    texts = StatedTexts(
        columns if ":" in columns else None,
        str(parameters.get("FILE_UNITS") or ""),
        str(parameters.get("FILE_CRS") or ""),
    )
    try:
        said = texts.of_files(names.values())
    except GroundTallyError as error:
        return choice, explain(error)
    stated = {path: said[name] for path, name in names.items() if name in said}
    if columns and ":" not in columns:
        words = tuple(word.strip() for word in columns.split(","))
        for file in choice.inventory.files:
            if file.said.has_columns:
                stated[file.path] = replace(stated.get(file.path, AS_WRITTEN), columns=words)
    for path, one in stated.items():
        choice = state(choice, path, one)
    return choice, ""


def _is_left_out(choice: JobChoice, file: FoundFile, parameters: Mapping[str, object]) -> bool:
    if not choice.may_leave_out(file):
        return False
    if file.is_picture:  # of several none counts before it is named
        return str(file.path) != str(parameters.get("PICTURE") or "")
    part = next((part for part, kind in PARTS.items() if kind is file.kind), None)
    if part is not None:
        named = parameters.get(part.upper())
        return bool(named) and str(file.path) != str(named)
    logs = _texts(parameters.get("LOGS"))
    return bool(logs) and str(choice.folder) not in logs and str(file.path) not in logs


def _texts(value: object) -> Sequence[str]:
    if isinstance(value, (list, tuple)):
        return [str(text) for text in value]
    return [str(value)] if value else []


def kept_parameters(survey: Path) -> dict[str, object]:
    """What a survey keeps of the choices it was made with, as parameters; {} where there is none."""
    found: dict[str, object] = {}
    with suppress(sqlite3.Error), closing(_opened(survey)) as database:
        rows = database.execute("SELECT name, value FROM runs WHERE kind = 'setting'").fetchall()
        settings = {str(name): str(value) for name, value in rows}
        found = {_SETTINGS[name]: value for name, value in settings.items() if name in _SETTINGS}
        with suppress(ValueError, SyntaxError):
            if "columns" in settings:
                found["COLUMNS"] = ", ".join(ast.literal_eval(settings["columns"]))
    return found


def _opened(survey: Path) -> sqlite3.Connection:
    return sqlite3.connect(f"{survey.absolute().as_uri()}?mode=ro", uri=True)
