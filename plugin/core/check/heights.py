# SPDX-License-Identifier: GPL-2.0-or-later
"""Heights as recorded: a jump in the middle of a feature (was the pole changed?), and finished levels that hang
on nothing."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ..findings import Finding, Severity
from ..quantity import Floats, Ints
from ..walk import Job, Walk

LEAST_JUMP = 0.08
"""m (trade.md, WK-03)."""
LEAST_STATIONS = 6
"""A plane and a jump take four unknowns; two left over at least."""
CLEARLY = 50.0
"""F-value (1 and n - 4 degrees of freedom) above which one jump is clearly better than none; natural ground
has curvature, so this is far above any table's 1 %."""
LEAST_NOISE = 0.004
"""m: height noise of a station; a smaller rest than this proves nothing."""
ALIKE = 1e-9
"""Part of the sum of squares left by the plane: gains that differ by less are one."""
RANK = 1e-9
"""Part of the largest singular value below which a direction of the design is nothing."""
BLIND = 1e-12
"""Part of a step's square below which what a plane leaves of it is rounding: the plane has that step in it."""
STEP_RUN = 0.02
"""m: a leg with less run and more rise than LEAST_JUMP is a drawn step."""


def check_jumps(walk: Walk) -> list[Finding]:
    """WK-03: features whose heights fit a plane clearly better with one jump from a station on."""
    out = []
    for rows in _features(walk):
        found = find_jump(walk.xy[rows], walk.ground_z[rows])
        if found is None:
            continue
        k, jump = found
        i = int(rows[k])
        out.append(
            Finding(
                "WK-03",
                Severity.ASK,
                walk.place(i),
                "The heights of {feature} fit clearly better with one jump of {jump:+.2f} m from station {station} "
                "on. No step is drawn there.",
                "Was the pole height changed? Enter it in the column pole before and after, or accept the heights.",
                {"feature": walk.feature[i], "jump": jump, "station": walk.station[i]},
                file=walk.file,
                line=int(walk.line[i]),
                walk=walk.name,
                station=walk.station[i],
                feature=walk.feature[i],
                answers=("accept",),
            )
        )
    return out


def _features(walk: Walk) -> Iterator[Ints]:
    """Rows with heights of each run of one feature and part."""
    names = list(zip(walk.feature, walk.part))
    start = 0
    for i in range(1, len(names) + 1):
        if i == len(names) or names[i] != names[start]:
            rows = np.arange(start, i)
            if names[start][0]:
                yield rows[np.isfinite(walk.z[rows])]
            start = i


def find_jump(xy: Floats, z: Floats) -> tuple[int, float] | None:
    """The station (number within the feature) from which on a plane with one jump fits clearly better, and the
    jump in metres; None where no jump of 0.08 m is clear, or a step is drawn there."""
    n = len(z)
    if n < LEAST_STATIONS:
        return None
    run = np.hypot(*np.diff(xy, axis=0).T)
    plane = np.column_stack([np.ones(n), xy - xy.mean(axis=0)])
    flat = _rest(plane, z)[0]
    gains = _gains(plane, z)[2 : n - 1]
    # The first of those that gain alike, so that rounding does not choose.
    k = 2 + int(np.argmax(gains >= gains.max() - ALIKE * flat))
    rest, jump = _rest(np.column_stack([plane, np.arange(n) >= k]), z)
    is_step = run[k - 1] < STEP_RUN
    noise = max(rest / (n - 4), LEAST_NOISE**2)
    if abs(jump) < LEAST_JUMP or is_step or (flat - rest) / noise < CLEARLY:
        return None
    return (k, jump) if math.isfinite(jump) else None


def _gains(plane: Floats, z: Floats) -> Floats:
    """(n,) by how much a jump from each station on lowers the sum of squares that a plane (n, 3) leaves.

    With r = z less its plane, and s the step less its own, the gain is (r.s)^2 / s.s; both products are sums from the
    station on, so that all of them cost no more than one.
    """
    base, size, _ = np.linalg.svd(plane, full_matrices=False)
    base = base[:, size > RANK * size[0]]
    centred = z - z.mean()
    left = centred - base @ (base.T @ centred)
    after = np.cumsum(left[::-1])[::-1]
    steps = np.arange(len(z), 0, -1) - (np.cumsum(base[::-1], axis=0)[::-1] ** 2).sum(axis=1)
    is_seen = steps > BLIND * len(z)
    return np.asarray(np.where(is_seen, after**2 / np.where(is_seen, steps, 1.0), 0.0))


def _rest(design: Floats, z: Floats) -> tuple[float, float]:
    """Sum of squares left, and the last unknown. Flat designs (a straight line of stations) are no harm."""
    centred = z - z.mean()
    x = np.linalg.lstsq(design, centred, rcond=RANK)[0]
    left = centred - design @ x
    return float(left @ left), float(x[-1])


def check_datum(job: Job) -> list[Finding]:
    """HT-01: finished levels in the logs, and no known level to hang them on."""
    if any(point.z is not None and not point.is_check for point in job.control.points):
        return []
    for walk in job.walks:
        for i in range(len(walk)):
            if walk.text("surface", i) == "finished" and math.isfinite(walk.z[i]):
                return [
                    Finding(
                        "HT-01",
                        Severity.STOP,
                        "survey",
                        "Finished levels are walked ({feature} in walk {walk} is the first), but no mark has a known "
                        "height.",
                        "Add a level mark to the control, or take the heights as relative.",
                        {"feature": walk.feature[i], "walk": walk.name, "datum": True},
                        file=walk.file,
                        line=int(walk.line[i]),
                        answers=("relative heights",),
                    )
                ]
    return []
