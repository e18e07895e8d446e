# SPDX-License-Identifier: GPL-2.0-or-later
"""Runs of checks against limits: what a job is held against, how its project keeps that, and the layer that is made."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from qgis.core import QgsVectorLayer

from .checks_file import checks_file, why_outdated
from .jobs import SCOPE
from .text import tr

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from qgis.core import QgsProject

    from ..core.trade.limits import Limit
    from .jobs import DeskJob

KEY = "checks"
"""Where a project keeps what its jobs are held against."""
GROUP = "Checks"
"""The group of the project; formats.md names it."""


# --- what a job is held against ---


@dataclass(frozen=True)
class CheckChoice:
    """What a job is held against.

    Attributes:
        table: path of the table of limits; "" for the examples shipped.
        left_out: names of limits that do not hold here: all others do, also those that somebody adds to the table.
        surface: id of a layer, "" for none.
    """

    table: str = ""
    left_out: frozenset[str] = frozenset()
    surface: str = ""

    @property
    def path(self) -> Path | None:
        """The table; None for the examples shipped."""
        return Path(self.table) if self.table else None


@dataclass(frozen=True)
class KeptChoice:
    """What a project keeps of a job: what is chosen now, and what its checks were made with (None: none by this window)."""

    now: CheckChoice = CheckChoice()
    ran: CheckChoice | None = None

    @property
    def is_other(self) -> bool:
        """Whether something else is chosen than what the checks were made with."""
        return self.ran is not None and self.ran != self.now


def read_choice(project: QgsProject, job: DeskJob) -> KeptChoice:
    """What a project keeps of a job; what cannot be read is not kept."""
    entry = _entries(project).get(job.key, {})
    try:
        ran = entry.get("ran")
        now = _choice_of(project, entry.get("now") or {})
        return KeptChoice(now, None if ran is None else _choice_of(project, ran))
    except (TypeError, AttributeError):
        return KeptChoice()


def _entries(project: QgsProject) -> dict[Path, dict[str, Any]]:
    text, _ = project.readEntry(SCOPE, KEY, "[]")
    try:
        return {Path(project.readPath(entry["folder"])): entry for entry in json.loads(text)}
    except (ValueError, TypeError, KeyError, AttributeError):
        return {}


def _choice_of(project: QgsProject, told: Mapping[str, Any]) -> CheckChoice:
    table = str(told.get("table") or "")
    left_out = frozenset(map(str, told.get("left_out") or ()))
    return CheckChoice(project.readPath(table) if table else "", left_out, str(told.get("surface") or ""))


def keep_choice(project: QgsProject, job: DeskJob, kept: KeptChoice) -> None:
    """Have a project keep it, by paths relative to it where it keeps them so; nothing is written where it does already."""
    if read_choice(project, job) == kept:
        return
    entries = {folder: dict(entry) for folder, entry in _entries(project).items()}
    told = {"now": _told(project, kept.now), "ran": None if kept.ran is None else _told(project, kept.ran)}
    entries[job.key] = {"folder": project.writePath(str(job.key)), **told}
    project.writeEntry(SCOPE, KEY, json.dumps(list(entries.values())))


def _told(project: QgsProject, choice: CheckChoice) -> dict[str, object]:
    return {
        "table": project.writePath(choice.table) if choice.table else "",
        "left_out": sorted(choice.left_out),
        "surface": choice.surface,
    }


def why_old(project: QgsProject, job: DeskJob) -> str:
    """Why a job's checks no longer hold, in a sentence; "" where they do."""
    kept = read_choice(project, job)
    ran = kept.now if kept.ran is None else kept.ran
    if kept.is_other:
        return tr("Other limits are chosen now than these checks were made with.")
    return why_outdated(job.survey, ran.path)


# --- what can be chosen ---


@dataclass(frozen=True)
class OfferedLimit:
    """A limit by its name: what it is of, and all that the table says of it."""

    name: str
    what: str
    words: str


def offered_limits(limits: Iterable[Limit]) -> dict[str, tuple[OfferedLimit, ...]]:
    """The limits of a table by whom they are from (their source up to its first comma), in the table's order; rows of one
    name are one limit."""
    named: dict[str, list[Limit]] = {}
    for limit in limits:
        named.setdefault(limit.name, []).append(limit)
    groups: dict[str, list[OfferedLimit]] = {}
    for rows in named.values():
        source = rows[0].source.partition(",")[0].strip() or tr("no source given")
        groups.setdefault(source, []).append(_offered(rows))
    return {source: tuple(offered) for source, offered in groups.items()}


def _offered(rows: Sequence[Limit]) -> OfferedLimit:
    things = dict.fromkeys(row.thing.value for row in rows)
    figures = dict.fromkeys(row.figure.value for row in rows)
    what = f"{', '.join(things)}: {', '.join(figures)}"
    seen = tr("looked up") if all(row.is_seen for row in rows) else tr("from memory: look it up before use")
    sources = "; ".join(dict.fromkeys(filter(None, (row.source for row in rows))))
    notes = dict.fromkeys(filter(None, (row.note for row in rows)))
    head = f"{sources or tr('no source given')} ({seen})"
    return OfferedLimit(rows[0].name, what, "\n".join((rows[0].name, what, head, *notes)))


# --- the run ---


def check_parameters(job: DeskJob, choice: CheckChoice, names: Sequence[str]) -> dict[str, object]:
    """What Check limits is given for a job; `names` are all limits of the table. What is made lies beside the survey."""
    from .limits import tell_names

    told: dict[str, object] = {"SURVEY": str(job.survey), "OUTPUT": str(checks_file(job.survey))}
    wanted = [name for name in names if name not in choice.left_out]
    if len(wanted) < len(names):
        told["ONLY"] = tell_names(wanted)
    if choice.table:
        told["LIMITS"] = choice.table
    if choice.surface:
        told["SURFACE"] = choice.surface
    return told


def add_checks(project: QgsProject, job: DeskJob) -> QgsVectorLayer | None:
    """The table of a job's checks in the project's group; where the project has it already, read anew. None where it cannot
    be opened."""
    path = checks_file(job.survey)
    for layer in project.mapLayers().values():
        if isinstance(layer, QgsVectorLayer) and Path(layer.source().partition("|")[0]) == path:
            layer.dataProvider().reloadData()
            layer.updateFields()
            layer.dataChanged.emit()
            return layer
    layer = QgsVectorLayer(str(path), tr("Checks of {name}").format(name=job.name), "ogr")
    if not layer.isValid():
        return None
    root = project.layerTreeRoot()
    group = root.findGroup(GROUP) or root.addGroup(GROUP)
    project.addMapLayer(layer, addToLegend=False)
    group.insertLayer(0, layer)
    return layer
