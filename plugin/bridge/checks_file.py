# SPDX-License-Identifier: GPL-2.0-or-later
"""The checks of a survey against limits as they lie beside it: read back, the worst first, and where they are on the map."""

from __future__ import annotations

import math
import sqlite3
from collections import Counter
from contextlib import closing
from dataclasses import dataclass
from datetime import datetime, timezone
from enum import Enum
from typing import TYPE_CHECKING

from qgis.core import QgsGeometry

from ..core.errors import BadInput
from .text import tr

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from pathlib import Path

SEEN = "seen"
NOT_MEASURED = "GE-07:"
"""What the words of a thing begin with that could not be measured; one that no limit is of has no code."""
OF_AREAS = "fall"
"""What limits call an area; all else are lengths."""
STEPS = "steps"
"""What limits call steps, whose figures nothing else has."""
EDGES = ("left", "right", "foot", "top")
"""Parts that are the two edges of one thing: they are no part of its name."""
READ = ("areas", "lengths", "legs", "stations")
"""Tables of a survey that checks are made from."""
STAMP = "%Y-%m-%dT%H:%M:%S.%fZ"
"""How a GeoPackage writes when a table was changed (OGC 12-128r17, gpkg_contents.last_change)."""
UNSURE = 0.5
"""Stands for a chance that nobody knows, when checks are put in order."""
_COLUMNS = (
    'feature, applies_to, quantity, place, count, "limit", measured, allowed, outcome, chance_ratio, source, '
    "seen_or_memory, note, method, sigma_from, finding, coalesce(figure_m, abs(figure_ratio)), "
    "coalesce(at_least_m, at_least_ratio), coalesce(at_most_m, at_most_ratio), "
    "coalesce(figure_m_sigma, figure_ratio_sigma)"
)
_WORDS = (
    "feature", "thing", "quantity", "place", "limit", "measured", "allowed",
    "source", "note", "method", "sigma_from", "finding",
)  # fmt: skip


class Verdict(Enum):
    """How a check stands, the worst first."""

    FAILS = "fail"
    CANNOT_TELL = "cannot tell"
    NOT_MEASURED = "not measured"
    PASSES = "pass"
    NO_LIMIT = "no limit"


OPEN = (Verdict.FAILS, Verdict.CANNOT_TELL, Verdict.NOT_MEASURED)
"""What somebody has to look at."""
_ORDER = {verdict: at for at, verdict in enumerate(Verdict)}
_OF_OUTCOME = {one.value: one for one in (Verdict.FAILS, Verdict.CANNOT_TELL, Verdict.PASSES)}


@dataclass(frozen=True)
class ToldCheck:
    """A check as the file tells it, its words as they stand there.

    Attributes:
        verdict: how it stands. feature, thing: of what; quantity, place, count: which figure of it, the worst of how many.
        limit, allowed, source, is_seen, note: what it is held against, and where that is from.
        measured: with its 95 %. chance: that the true figure is allowed, 0 to 1; None where nobody knows.
        room: sigmas between the figure and the limit, negative beyond it. method, sigma_from, finding: words.
    """

    verdict: Verdict
    feature: str
    thing: str
    quantity: str
    place: str
    count: int
    limit: str
    measured: str
    allowed: str
    chance: float | None
    room: float
    source: str
    is_seen: bool
    note: str
    method: str
    sigma_from: str
    finding: str

    @property
    def what(self) -> str:
        """Which figure of the thing, as `fall gradient` or `riser 2`."""
        # The place may say already which figure it is, or of what.
        quantity = "" if self.place.startswith(f"{self.quantity} ") else self.quantity
        is_told = self.quantity and (self.thing == STEPS or self.place.startswith(self.thing))
        head = quantity if is_told else f"{self.thing} {quantity}".strip()
        return ", ".join(filter(None, (head, self.place)))

    @property
    def figure(self) -> tuple[str, str]:
        """What was measured, and its 95 % interval in brackets."""
        value, bracket, interval = self.measured.partition(" (")
        return value, f"({interval}" if bracket else ""

    @property
    def details(self) -> str:
        """What to do, where the limit is from, and how the figure came about: a line each."""
        lines = [self.finding]
        if self.verdict is Verdict.CANNOT_TELL and self.chance is not None:
            lines.append(tr("The chance that it is allowed is {n} %.").format(n=round(100.0 * self.chance)))
        if self.count > 1:
            lines.append(tr("It is the worst of {n}.").format(n=self.count))
        if self.limit:
            seen = tr("looked up") if self.is_seen else tr("from memory: look it up before use")
            words = tr("Limit: {source} ({seen}). {note}")
            source = self.source or tr("no source given")
            lines.append(words.format(source=source, seen=seen, note=self.note).strip())
        if self.method:
            words = tr("Measured: {method}; its uncertainty is from: {sigma_from}.")
            lines.append(words.format(method=self.method, sigma_from=self.sigma_from))
        return "\n".join(filter(None, lines))

    @property
    def sentence(self) -> str:
        """All of it in one line, for the list of what a job lacks."""
        if not self.limit:
            return f"{self.feature}, {self.what}"
        words = tr("{feature}, {what}: {measured}, allowed {allowed} ({limit})")
        return words.format(
            feature=self.feature,
            what=self.what,
            measured=self.measured,
            allowed=self.allowed,
            limit=self.limit,
        )


def checks_file(survey: Path) -> Path:
    """Where the checks of a survey lie."""
    return survey.with_name(f"{survey.stem}_checks.gpkg")


def _opened(path: Path) -> sqlite3.Connection:
    return sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True)


def read_checks(path: Path) -> tuple[ToldCheck, ...]:
    """The checks of a file, the worst first; of those that fail, the one that is farthest out.

    Raises:
        BadInput: it cannot be read, or is no table of checks.
    """
    try:
        return tuple(sorted(map(_told, _rows(path)), key=_rank))
    except (sqlite3.Error, ValueError) as error:
        raise BadInput(
            "{path} cannot be read as checks of this version ({reason}). Press Check again.",
            path=str(path),
            reason=str(error),
        ) from error


def _rows(path: Path) -> list[tuple[object, ...]]:
    with closing(_opened(path)) as database:
        tables = database.execute("SELECT table_name FROM gpkg_contents WHERE table_name <> 'layer_styles'")
        (table,) = tables.fetchone() or ("",)
        quoted = str(table).replace('"', '""')
        return database.execute(f'SELECT {_COLUMNS} FROM "{quoted}" ORDER BY fid').fetchall()  # noqa: S608


def _told(row: Sequence[object]) -> ToldCheck:
    words = dict(zip(_WORDS, (str(row[k] or "") for k in (0, 1, 2, 3, 5, 6, 7, 10, 12, 13, 14, 15))))
    count, outcome, chance, seen = row[4], row[8], row[9], row[11]
    verdict = _OF_OUTCOME.get(str(outcome))
    if verdict is None:
        refused = words["finding"].startswith(NOT_MEASURED)
        verdict = Verdict.NOT_MEASURED if refused else Verdict.NO_LIMIT
    return ToldCheck(
        verdict=verdict,
        count=int(str(count or 1)),
        chance=None if chance is None else float(str(chance)),
        room=_room(*(math.nan if cell is None else float(str(cell)) for cell in row[16:20])),
        is_seen=seen == SEEN,
        **words,
    )


def _room(figure: float, low: float, high: float, sigma: float) -> float:
    """Sigmas to the nearer limit; NaN, which is no limit, is far away."""
    room = min(
        math.inf if math.isnan(low) else figure - low,
        math.inf if math.isnan(high) else high - figure,
    )
    return room / sigma if sigma > 0.0 and math.isfinite(room) else math.copysign(math.inf, room)


def _rank(check: ToldCheck) -> tuple[int, float, float]:
    chance = UNSURE if check.chance is None else check.chance
    return _ORDER[check.verdict], chance, check.room


def count_checks(checks: Iterable[ToldCheck]) -> Mapping[Verdict, int]:
    """How many there are of each verdict."""
    return Counter(check.verdict for check in checks)


def tell_counts(counts: Mapping[Verdict, int]) -> str:
    """How many fail, cannot tell, and pass, in words."""
    words = {
        Verdict.FAILS: tr("{n} fail"),
        Verdict.CANNOT_TELL: tr("{n} cannot tell"),
        Verdict.NOT_MEASURED: tr("{n} not measured"),
        Verdict.PASSES: tr("{n} pass"),
    }
    parts = [text.format(n=counts[verdict]) for verdict, text in words.items() if counts.get(verdict)]
    return ", ".join(parts) or tr("no limit of the table is of anything here")


# --- whether they still hold ---


def survey_stamp(survey: Path) -> str:
    """When what checks are made from was last changed, as the survey itself says: its file changes whenever somebody opens
    it. "" where it cannot be read."""
    return _stamp(survey, READ)


def _stamp(path: Path, tables: Sequence[str] = ()) -> str:
    among = f" WHERE table_name IN ({', '.join('?' * len(tables))})" if tables else ""
    try:
        with closing(_opened(path)) as database:
            row = database.execute(f"SELECT max(last_change) FROM gpkg_contents{among}", tables).fetchone()  # noqa: S608
    except sqlite3.Error:
        return ""
    return str(row[0] or "") if row else ""


def why_outdated(survey: Path, table: Path | None) -> str:
    """Why the checks beside a survey no longer hold, in a sentence; "" where they do. `table` is of the limits."""
    made = _stamp(checks_file(survey))
    if survey_stamp(survey) > made:
        return tr("The survey was run again after these checks.")
    if table is not None and _changed(table) > made:
        return tr("The table of limits was changed after these checks.")
    return ""


def _changed(path: Path) -> str:
    try:
        changed = path.stat().st_mtime
    except OSError:
        return ""
    return datetime.fromtimestamp(changed, timezone.utc).strftime(STAMP)


# --- where they are ---


def check_places(survey: Path, check: ToldCheck) -> tuple[QgsGeometry, ...]:
    """The geometry that a check is of, of a length or else of an area, in the CRS of the survey's layers; none where the survey no longer has it."""
    # A ramp may have been walked as an area.
    for table in ("areas",) if check.thing == OF_AREAS else ("lengths", "areas"):
        try:
            with closing(_opened(survey)) as database:
                rows = database.execute(f"SELECT fid, feature, part FROM {table} ORDER BY fid").fetchall()  # noqa: S608
                fids = [row[0] for row in rows if _name(*row) == check.feature]
                query = f"SELECT geom FROM {table} WHERE fid = ?"  # noqa: S608
                shapes = [database.execute(query, (fid,)).fetchone()[0] for fid in fids]
        except sqlite3.Error:
            continue
        if shapes:
            return tuple(map(_geometry, filter(None, shapes)))
    return ()


def _name(fid: int, feature: str | None, part: str | None) -> str:
    """What checks call a row of a survey."""
    is_part = bool(part) and str(part).lower() not in EDGES
    name = f"{feature or ''}/{part}" if is_part else feature or ""
    return name or f"row {fid}"


_ENVELOPES = (0, 32, 48, 48, 64)
"""Bytes by the kind of envelope in the head of a geometry.

Source: OGC GeoPackage 1.3 (OGC 12-128r17), 2.1.3."""


def _geometry(blob: bytes) -> QgsGeometry:
    """In straights: the host flashes none of its curves."""
    geometry = QgsGeometry()
    geometry.fromWkb(blob[8 + _ENVELOPES[(blob[3] >> 1) & 7] :])
    return QgsGeometry(geometry.constGet().segmentize()) if not geometry.isNull() else geometry
