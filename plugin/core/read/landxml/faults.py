# SPDX-License-Identifier: GPL-2.0-or-later
"""What can be wrong in a LandXML file, and the findings that tell it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from ...findings import Finding, Severity
from ..faults import AND_MORE, LONGEST_SHOWN, MOST_FINDINGS, SURVEY, Fault, unreadable

if TYPE_CHECKING:
    from collections.abc import Mapping

NOT_A_POINT = Fault(
    template='{file}, line {line}: "{cell}" is not a point: north, east, and a height or none.',
    remedy="Give two or three numbers with blanks between them; the rest of the file was read.",
)
NOT_FINITE_POINT = Fault(
    template='{file}, line {line}: "{cell}" has a number that is not finite.',
    remedy="Correct the number; the rest of the file was read.",
)
TOO_FAR = Fault(
    template='{file}, line {line}: "{cell}" has a number beyond {largest}.',
    remedy="Correct the number or the units; the rest of the file was read.",
)
NOT_A_LIST = Fault(
    template='{file}, line {line}: the numbers of the {element} are not {size} to a point; it starts with "{cell}".',
    remedy="Complete the list; the rest of the file was read.",
)
NO_SUCH_POINT = Fault(
    template='{file}, line {line}: the point "{cell}" that is referred to does not stand in the file.',
    remedy="Correct the name or add the point; the rest of the file was read.",
)
OF_ITSELF = Fault(
    template='{file}, line {line}: the point "{cell}" refers to itself, perhaps by way of others.',
    remedy="Give one of them its coordinates; the rest of the file was read.",
)
NO_END = Fault(
    template="{file}, line {line}: the {element} of {feature} has no {part}.",
    remedy="Complete the element; the rest of the file was read.",
)
NO_TURN = Fault(
    template='{file}, line {line}: the Curve of {feature} turns neither cw nor ccw but "{cell}".',
    remedy="Write cw or ccw into rot; the rest of the file was read.",
)
RADII_DIFFER = Fault(
    template="{file}, line {line}: the Curve of {feature} has radii from {least:.4f} to {most:.4f} m (centre to start, "
    "centre to end, as stated).",
    remedy="Correct its points or its radius; it is not drawn, the rest of the file was read.",
)
TURNS_DIFFER = Fault(
    template="{file}, line {line}: the Curve of {feature} is {drawn:.3f} m long by its points but {stated:.3f} m by its "
    "{part}.",
    remedy="Correct its points, rot or {part}; it is not drawn, the rest of the file was read.",
)
NOT_DRAWN = Fault(
    template="{file}, line {line}: {feature} has a {element}, which is not drawn.",
    remedy="Write it as lines and arcs, or as an IrregularLine; the rest of the file was read.",
)
IS_CUT = Fault(
    template="{file}, line {line}: the {element} {feature} breaks off and is left out.",
    remedy="Give the whole file; what stood before was read.",
)
BAD_SURFACE_POINTS = Fault(
    template='{file}, from line {line} on: points of the surface {feature} that cannot be read: {count}, such as "{cell}".',
    remedy="Give north, east and height in finite numbers; the rest of the file was read.",
)
POINT_IDS_AGAIN = Fault(
    template="{file}, from line {line} on: points of the surface {feature} with the id of another one: {count}, such as "
    "{cell}; the first of each is taken.",
    remedy="Give each point an id of its own; the rest of the file was read.",
)
BAD_FACES = Fault(
    template="{file}, from line {line} on: faces of the surface {feature} that cannot be read and are left out: {count}, "
    'such as "{cell}".',
    remedy="Name three points of the surface by their ids; the rest of the file was read.",
)
SAME_TRIANGLES = Fault(
    template="{file}, from line {line} on: faces of the surface {feature} that stand there a second time and are left "
    "out: {count}.",
    remedy="Take one of each out; the rest of the file was read.",
)
BAD_EDGES = Fault(
    template='{file}, line {line}: a {element} of the surface {feature} cannot be read; it starts with "{cell}".',
    remedy="Correct its list of points; the rest of the file was read.",
)


@dataclass(frozen=True)
class Bad:
    """A value that cannot be used: why, in which line, and what fills the fault's template."""

    fault: Fault
    line: int
    data: Mapping[str, object] = field(default_factory=dict)


class Told:
    """Collects the findings of one file. Those of a feature keep its figures out and are all told; of the others
    the first MOST_FINDINGS of a kind, and how many more there are."""

    def __init__(self, file: str) -> None:
        """Start empty."""
        self.file = file
        self._features: list[Finding] = []
        self._unreadable: list[Finding] = []
        self._notes: list[Finding] = []
        self._more: dict[str, list[int]] = {"IN-01": [], "IN-06": []}

    def bad(self, bad: Bad, place: str = SURVEY, **names: str) -> None:
        """Tell an IN-01 stop."""
        data = {
            "feature": names.get("feature", ""),
            **{key: _short(value) for key, value in bad.data.items()},
        }
        finding = unreadable(self.file, bad.line, bad.fault, data, place, **names)
        if names.get("feature") and place != SURVEY:
            self._features.append(finding)
        elif len(self._unreadable) < MOST_FINDINGS:
            self._unreadable.append(finding)
        else:
            self._more["IN-01"].append(bad.line)

    def add(self, finding: Finding) -> None:
        """Tell a finding of another kind."""
        if finding.severity is not Severity.NOTE:
            self._features.append(finding)
        elif len(self._notes) < MOST_FINDINGS:
            self._notes.append(finding)
        else:
            self._more["IN-06"].append(finding.line or 0)

    def note(
        self, template: str, line: int | None = None, remedy: str = "None needed.", **data: object
    ) -> None:
        """Tell an IN-06 note; `template` and `remedy` are literals."""
        shown = {"file": self.file, "line": line, **{key: _short(value) for key, value in data.items()}}
        self.add(Finding("IN-06", Severity.NOTE, SURVEY, template, remedy, shown, file=self.file, line=line))

    def findings(self) -> tuple[Finding, ...]:
        """All that was told: stops by line, then notes."""
        stops, notes = [*self._unreadable, *self._features], list(self._notes)
        if self._more["IN-01"]:
            lines = self._more["IN-01"]
            stops.append(unreadable(self.file, min(lines), AND_MORE, {"found": len(lines)}))
        if self._more["IN-06"]:
            notes.append(_more_notes(self.file, self._more["IN-06"]))
        return (*sorted(stops, key=lambda finding: finding.line or 0), *notes)


def _more_notes(file: str, lines: list[int]) -> Finding:
    return Finding(
        "IN-06",
        Severity.NOTE,
        SURVEY,
        template="{file}, from line {line} on: more notes: {found}.",
        remedy="Look first at those that are told.",
        data={"file": file, "line": min(lines), "found": len(lines)},
        file=file,
        line=min(lines),
    )


def _short(value: object) -> object:
    return value[:LONGEST_SHOWN] if isinstance(value, str) else value
