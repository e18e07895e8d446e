# SPDX-License-Identifier: GPL-2.0-or-later
"""What lies in a job's folder: each file, what it is, what it says of itself, what is odd, and what is not there."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from osgeo import gdal

from ..core.errors import BadInput, GroundTallyError
from ..core.findings import Decision, Decisions
from ..core.read.formats import TableKind
from ..core.read.stated import AS_WRITTEN
from .desk import State
from .heads import Head, read_head
from .job import PARTS, PICTURES, is_placed, list_pictures, list_texts
from .said import LOGS, Said, read_said
from .text import tr

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from pathlib import Path

    from ..core.read.stated import Stated

MOST_PICTURES = 50
"""Pictures of a folder that are opened: a folder of more holds no orthophoto alone."""


@dataclass(frozen=True)
class FoundFile:
    """A file of a job: what it is and how that stands (`said`), and the same without what is stated (`written`)."""

    path: Path
    said: Said
    written: Said
    head: Head | None = None
    is_picture: bool = False

    @property
    def name(self) -> str:
        """The file's name."""
        return self.path.name

    @property
    def kind(self) -> TableKind:
        """What it is; a picture is no table."""
        return self.said.kind

    @property
    def kind_words(self) -> str:
        """What it is, in words."""
        if self.is_picture:
            return tr("picture")
        if self.kind is TableKind.UNKNOWN:
            return tr("unknown table")
        return tr("not read") if self.is_idle else tr(self.kind.value)

    @property
    def is_log(self) -> bool:
        """Whether walks are read from it."""
        return self.kind in LOGS

    @property
    def is_idle(self) -> bool:
        """Whether it lies there and is no part of the job."""
        return self.kind in (TableKind.NO_TABLE, TableKind.PRICES) and not self.is_picture

    @property
    def words(self) -> str:
        """It in one line."""
        told = ", ".join(f"{key} {value}" for key, value in self.said.keys)
        line = f"{self.name}: {self.kind_words}" + (f" ({told})" if told else "")
        return f"{line}; {self.said.odd}" if self.said.odd else line


@dataclass(frozen=True)
class MissingPart:
    """A part of a job that is not there: its name as a parameter's, and what it would give."""

    part: str
    title: str
    words: str


@dataclass(frozen=True)
class Inventory:
    """The files of a job, its pictures, and what is not there; those of its folder, and some that were added."""

    files: tuple[FoundFile, ...] = ()
    pictures: tuple[FoundFile, ...] = ()
    missing: tuple[MissingPart, ...] = ()

    @property
    def placed_pictures(self) -> tuple[FoundFile, ...]:
        """The pictures that know where they lie."""
        return tuple(picture for picture in self.pictures if picture.said.state is not State.LACKS)

    @property
    def picture(self) -> str:
        """The name of the picture that is taken; "" of none, and of several."""
        placed = self.placed_pictures
        return placed[0].name if len(placed) == 1 else ""

    @property
    def has_logs(self) -> bool:
        """Whether there is anything to survey."""
        return any(file.is_log for file in self.files)

    @property
    def control_crs(self) -> str:
        """The CRS of the control; "" where there is none."""
        return next((file.said.crs for file in self.files if file.kind is TableKind.CONTROL), "")

    @property
    def rows(self) -> tuple[FoundFile, ...]:
        """All that is there: logs first, what is not read last."""
        rank = sorted(
            self.files, key=lambda file: (file.is_idle, not file.is_log, file.kind.value, file.name)
        )
        busy = [file for file in rank if not file.is_idle]
        return (*busy, *self.pictures, *(file for file in rank if file.is_idle))

    @property
    def words(self) -> str:
        """One line a file, and one for what is not there."""
        lines = [file.words for file in self.rows]
        if not self.has_logs:
            lines.append(no_logs())
        lines += [f"{part.title}: {part.words}" for part in self.missing if self.has_logs]
        return "\n".join(lines)


def no_logs() -> str:
    """What a folder without logs lacks."""
    return tr("No log among them: a job needs walk logs, point lists, GPX, NMEA 0183 or LandXML.")


def take_inventory(folder: Path, stated: Mapping[Path, Stated] | None = None) -> Inventory:
    """Look through a folder.

    Raises:
        BadInput: it cannot be read or holds no texts.
    """
    *_, last = inventory_steps([folder], stated)
    assert last is not None  # noqa: S101 - the steps end with it
    return last


def inventory_steps(
    places: Sequence[Path], stated: Mapping[Path, Stated] | None = None
) -> Iterator[Inventory | None]:
    """Look through a job's folder and files that were added to it, a file a step; the last step is the inventory.

    Args:
        places: folders and files.
        stated: what counts for single files in place of what they say.

    Raises:
        BadInput: one of them cannot be read, or a folder holds no texts.
    """
    heads: list[Head] = []
    for path in _paths(places):
        heads.append(read_head(path))
        yield None
    heads = [*heads, *_beside(places, heads)]
    decisions = _decisions(heads)
    files: list[FoundFile] = []
    for head in heads:
        files.append(tell_file(head, decisions, (stated or {}).get(head.path, AS_WRITTEN)))
        yield None
    yield make_inventory(files, _pictures(places))


def make_inventory(files: Sequence[FoundFile], pictures: Sequence[FoundFile]) -> Inventory:
    """The inventory of files that were looked at: what two of a kind mean, and what is missing."""
    told = tuple(_told_among(file, files) for file in files)
    return Inventory(told, tuple(pictures), tuple(_missing(told, pictures)))


def tell_file(head: Head, decisions: Decisions, stated: Stated = AS_WRITTEN) -> FoundFile:
    """What a file is and says, with what is stated in place of it."""
    written = read_said(head, decisions)
    said = written if stated == AS_WRITTEN else read_said(head, decisions, stated)
    return FoundFile(head.path, said, written, head)


def retell(inventory: Inventory, path: Path, stated: Stated) -> Inventory:
    """The inventory with something else stated of one file."""
    heads = [file.head for file in inventory.files if file.head is not None]
    decisions = _decisions(heads)
    files = [
        tell_file(file.head, decisions, stated) if file.path == path and file.head is not None else file
        for file in inventory.files
    ]
    return make_inventory(files, inventory.pictures)


def signature(places: Sequence[Path]) -> tuple[tuple[str, int, int], ...]:
    """What tells whether anything in some places has changed: names, sizes and times of the files."""
    folders = {place if place.is_dir() else place.parent for place in places}
    try:
        entries = [
            (entry, entry.stat())
            for folder in sorted(folders)
            for entry in folder.iterdir()
            if entry.is_file()
        ]
    except OSError:
        return ()
    return tuple(sorted((str(entry), facts.st_size, facts.st_mtime_ns) for entry, facts in entries))


def _paths(places: Sequence[Path]) -> list[Path]:
    """The texts of all places, each once."""
    try:
        found = [path for place in places for path in list_texts(place) if not _is_picture(path)]
    except OSError as error:
        raise BadInput(
            "{path} cannot be read: {reason}. Check that it is there and that you may read it, then run again.",
            path=str(error.filename or ""),
            reason=error.strerror or str(error),
        ) from error
    return list(dict.fromkeys(found))


def _is_picture(path: Path) -> bool:
    return path.suffix.lower() in PICTURES


def _beside(places: Sequence[Path], heads: Sequence[Head]) -> list[Head]:
    """Control and its like in the folders of files that were added: a run finds them there too."""
    known = {head.path for head in heads}
    folders = dict.fromkeys(place.parent for place in places if place.is_file() and not _is_picture(place))
    others = [path for folder in folders for path in list_texts(folder) if path not in known]
    found = map(read_head, others)
    return [head for head in found if head.kind in PARTS.values()]


def _decisions(heads: Sequence[Head]) -> Decisions:
    """The answers in the folder; those of a file that cannot be read are told with it."""
    from ..core.read.decisions import read_decisions
    from ..core.read.table import read_table

    rows: list[Decision] = []
    for head in heads:
        if head.kind is TableKind.DECISIONS:
            try:
                rows += read_decisions(read_table(head.name, head.data))[0]
            except GroundTallyError:
                continue
    return Decisions(rows)


def _told_among(file: FoundFile, files: Sequence[FoundFile]) -> FoundFile:
    """The file, with what is odd of it among the others."""
    others = [other for other in files if other.kind is file.kind]
    if file.kind is not TableKind.CONTROL or len(others) == 1 or file.said.state is State.STOPS:
        return file
    words = tr("A job has one control file: untick the other, or put all marks into one.")
    return replace(file, said=replace(file.said, state=State.ASKS, odd=words))


def _pictures(places: Sequence[Path]) -> list[FoundFile]:
    folders = [place for place in places if place.is_dir()]
    added = [place for place in places if place.is_file() and _is_picture(place)]
    paths = [*(path for folder in folders for path in list_pictures(folder)[:MOST_PICTURES]), *added]
    found = [_picture(path) for path in dict.fromkeys(paths)]
    placed = [picture for picture in found if picture.said.state is not State.LACKS]
    if len(placed) < 2:  # noqa: PLR2004 - more than one
        return found
    words = tr("Several pictures know where they lie: tick the one that the control was picked from.")
    return [
        replace(one, said=replace(one.said, state=State.ASKS, odd=words)) if one in placed else one
        for one in found
    ]


def _picture(path: Path) -> FoundFile:
    """A picture, and whether it knows where it lies."""
    if not is_placed(path):
        words = tr("It does not say where it lies, so it is not used.")
        said = Said(TableKind.NO_TABLE, state=State.LACKS, odd=words)
    else:
        said = Said(TableKind.NO_TABLE, crs=_picture_crs(path))
    return FoundFile(path, said, said, is_picture=True)


def _picture_crs(path: Path) -> str:
    """The CRS that a picture names, by its code where it has one."""
    reference = gdal.Open(str(path)).GetSpatialRef()
    if reference is None:
        return ""
    authority, code = reference.GetAuthorityName(None), reference.GetAuthorityCode(None)
    return f"{authority}:{code}" if authority and code else str(reference.GetName() or "")


def _missing(files: Sequence[FoundFile], pictures: Sequence[FoundFile]) -> Iterator[MissingPart]:
    """What is not there, with what it would give."""
    kinds = {file.kind for file in files}
    has_picture = any(picture.said.state is not State.LACKS for picture in pictures)
    if TableKind.CONTROL not in kinds:
        yield MissingPart("control", tr("No control"), _without_control(files, has_picture=has_picture))
    if TableKind.TAPES not in kinds:
        words = tr("no taped length checks the size of the walks.")
        yield MissingPart("tapes", tr("No tapes"), words)
    if TableKind.INSTRUMENTS not in kinds:
        words = tr("the accuracy that the logs state counts, or an assumed one.")
        yield MissingPart("instruments", tr("No instruments"), words)
    if not has_picture:
        words = tr("nothing lies under the survey, and no mark can be picked from it.")
        yield MissingPart("picture", tr("No picture"), words)


def _without_control(files: Sequence[FoundFile], *, has_picture: bool) -> str:
    if any(file.is_log and file.said.crs for file in files):
        return tr("the logs' own CRS places the survey, and nothing checks it.")
    if has_picture:
        return tr("the survey will not be placed; pair marks with the picture afterwards.")
    return tr("the survey will not be placed on the map; it is measured all the same.")
