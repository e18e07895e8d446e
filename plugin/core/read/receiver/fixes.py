# SPDX-License-Identifier: GPL-2.0-or-later
"""Fixes of a satellite receiver -> the rows of a walk, in which every stand is one station."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
import numpy.typing as npt

from ...findings import Finding, Severity
from ...quantity import Floats, Ints
from ...walk import Kind, Leg
from ..faults import SURVEY, Fault
from ..recorded import Rows
from ..times import write_times
from .stands import INDEPENDENT, LEAST_SIGMA, Stand, find_stands, walked_metres

SIGMA_OF_QUALITY: Mapping[int, float] = {2: 1.5, 4: 0.02, 5: 0.3}
"""m, one-sigma per axis of a fix by GGA's quality (2 differential, 4 RTK fixed, 5 RTK float); common practice, no source."""
SIGMA_OF_OTHERS = 4.0
"""m, likewise of any other fix."""
HEIGHT_WORSE = 1.5
"""Sigma of a height by that of plan, per axis, where none is stated; common practice, no source."""
FIXES = "fixes"
"""Extra column: how many fixes a stand is the mean of."""


@dataclass(frozen=True)
class Tally:
    """How many there are of something, with the first one's line and text."""

    count: int = 0
    line: int = 0
    text: str = ""

    def and_one(self, line: int, text: str = "") -> Tally:
        """With one more, whose line and text count if it is the first."""
        return replace(self, count=self.count + 1) if self.count else Tally(1, line, text)


@dataclass(frozen=True, eq=False)
class Fixes:
    """What a receiver recorded without a break: n fixes in order.

    Attributes:
        lon, lat: (n,) degrees. z: (n,) metres. time: (n,) seconds, NaN where there is none.
        line: (n,) in the file, from 1.
        sd_xy, sd_z: (n,) one-sigma as stated, metres, NaN where none is. sd_assumed: (n,) per axis in plan, by quality.
        extra: columns to keep.
    """

    lon: Floats
    lat: Floats
    z: Floats
    time: Floats
    line: Ints
    sd_xy: Floats
    sd_z: Floats
    sd_assumed: Floats
    extra: Mapping[str, Sequence[str]] = field(default_factory=dict)

    def __len__(self) -> int:
        """How many fixes there are."""
        return len(self.lon)

    def cut(self, first: int, end: int) -> Fixes:
        """The fixes [first, end), their time from the first of them."""
        some = slice(first, end)
        names = ("lon", "lat", "z", "time", "line", "sd_xy", "sd_z", "sd_assumed")
        columns = {name: getattr(self, name)[some] for name in names}
        columns["time"] = columns["time"] - columns["time"][0]
        return Fixes(**columns, extra={name: cells[some] for name, cells in self.extra.items()})


def stem_of(file: str) -> str:
    """A file's name without folders and its last extension."""
    name = re.split(r"[/\\]", file)[-1]
    stem, dot, _ = name.rpartition(".")
    return stem if dot and stem else name


def started_at(day: int, seconds: float) -> str:
    """ISO 8601 in UTC of seconds after the midnight that begins a day, counted from 1970-01-01."""
    midnight = np.datetime64(0, "D") + day
    return write_times(np.array([seconds]), f"{midnight}T00:00:00Z")[0]


def note(file: str, fault: Fault, line: int | None, **data: object) -> Finding:
    """An IN-06 note on a file."""
    data = {"file": file, "line": line, **data}
    return Finding("IN-06", Severity.NOTE, SURVEY, fault.template, fault.remedy, data, file=file, line=line)


def as_texts(values: Floats) -> tuple[str, ...]:
    """Numbers as text columns keep them; "" for NaN. Columns of few different numbers are quick."""
    found, which = np.unique(values, return_inverse=True)
    texts = ["" if value != value else repr(value).removesuffix(".0") for value in found.tolist()]  # noqa: PLR0124 - NaN
    return tuple(np.array(texts, dtype=object)[which].tolist()) if texts else ()


def walk_rows(fixes: Fixes, feature: str, part: str = "") -> Rows:
    """The rows of a walk along the fixes: as walked, a length; each stand one station, reached direct.

    A stand stands at the mean of its fixes, weighted by their sigma where all state one, with the line and time of
    its first fix and the other columns of its middle one. A walk that comes to one station is no feature.
    """
    timed = np.isfinite(fixes.time).all() and (np.diff(fixes.time) >= 0).all()
    sd = _carried(fixes.sd_xy, fixes.sd_assumed)
    stands = find_stands(fixes.time, walked_metres(fixes.lon, fixes.lat), sd) if timed else ()
    keep = np.ones(len(fixes), dtype=bool)
    for stand in stands:
        keep[stand.first + 1 : stand.end] = False
    kept = np.flatnonzero(keep)
    columns = {name: np.array(getattr(fixes, name)) for name in ("lon", "lat", "z", "sd_xy", "sd_z")}
    columns["hold"] = np.where(np.isfinite(fixes.time), 0.0, np.nan)
    shown = np.arange(len(fixes))
    number = [""] * len(fixes)
    for stand in stands:
        i = stand.first
        for name, value in _mean(fixes, stand).items():
            columns[name][i] = value
        columns["hold"][i] = fixes.time[stand.end - 1] - fixes.time[i]
        shown[i] = stand.rows[len(stand.rows) // 2]
        number[i] = str(len(stand.rows))
    extra = {name: [cells[i] for i in shown[keep].tolist()] for name, cells in fixes.extra.items()}
    if stands:
        extra[FIXES] = [number[i] for i in kept.tolist()]
    return _rows(fixes, keep, columns, extra, (feature, part))


def _carried(stated: Floats, assumed: Floats) -> Floats:
    """(n,) the sigma last stated (receivers state it more seldom than fixes); before the first, the assumed one."""
    last = np.maximum.accumulate(np.where(np.isfinite(stated), np.arange(len(stated)), -1))
    return np.where(last >= 0, stated[last], assumed)


def _rows(
    fixes: Fixes,
    keep: npt.NDArray[np.bool_],
    columns: Mapping[str, Floats],
    extra: Mapping[str, Sequence[str]],
    names: tuple[str, str],
) -> Rows:
    n = int(keep.sum())
    is_drawn = n > 1
    hold = columns["hold"][keep]
    return Rows(
        xy=np.column_stack([columns["lon"], columns["lat"]])[keep],
        line=fixes.line[keep].tolist(),
        z=columns["z"][keep],
        time=fixes.time[keep],
        hold=hold,
        feature=(names[0] if is_drawn else "",) * n,
        part=(names[1] if is_drawn else "",) * n,
        kind=(Kind.LENGTH if is_drawn else None,) * n,
        leg=[Leg.DIRECT if seconds > 0 or not is_drawn else Leg.AS_WALKED for seconds in hold.tolist()],
        sd_xy=columns["sd_xy"][keep],
        sd_z=columns["sd_z"][keep],
        extra=extra,
    )


def _mean(fixes: Fixes, stand: Stand) -> dict[str, float]:
    """A stand's place, height and their sigma."""
    rows = np.array(stand.rows)
    stated = fixes.sd_xy[rows]
    weight = 1 / stated**2 if np.isfinite(stated).all() else np.ones(len(rows))
    weight = weight / weight.sum()
    lon, lat, z = fixes.lon[rows], fixes.lat[rows], fixes.z[rows]
    turned = (lon - lon[0] + 180) % 360 - 180
    mean = (lon[0] + float(weight @ turned) + 180) % 360 - 180
    return {
        "lon": mean,
        "lat": lat[0] + float(weight @ (lat - lat[0])),
        "sd_xy": stand.sd_xy,
        **_height(fixes, rows, z),
    }


def _height(fixes: Fixes, rows: Ints, z: Floats) -> dict[str, float]:
    """Mean of the heights that are there, and its sigma: no less than a single fix's, whose errors all share."""
    known = np.isfinite(z)
    if not known.any():
        return {"z": np.nan, "sd_z": np.nan}
    z = z[known]
    stated = fixes.sd_z[rows]
    stated = stated[np.isfinite(stated)]
    sd = float(np.median(stated)) if len(stated) else HEIGHT_WORSE * float(np.median(fixes.sd_assumed[rows]))
    apart = max(float(fixes.time[rows[-1]] - fixes.time[rows[0]]) / INDEPENDENT, 1.0)
    return {"z": float(z.mean()), "sd_z": max(sd, float(z.std()) / np.sqrt(apart), LEAST_SIGMA)}
