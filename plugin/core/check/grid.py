# SPDX-License-Identifier: GPL-2.0-or-later
"""Coordinates that look like a map's, of which no CRS is stated: map lengths are no ground lengths."""

from __future__ import annotations

import numpy as np

from ..findings import Finding, Severity
from ..walk import ErrorGrowth, Job, Walk

FAR = 20_000.0
"""m: a site's own frame seldom begins so far from its points; maps do (common practice, no source)."""


def check_grid(job: Job) -> list[Finding]:
    """PL-04, a note for each list of points without a CRS whose coordinates are those of a map."""
    return [_finding(walk) for walk in job.walks if _looks_like_a_map(walk)]


def _looks_like_a_map(walk: Walk) -> bool:
    if walk.keys.crs is not None or walk.keys.growth is not ErrorGrowth.POINTS:
        return False
    usable = walk.xy[np.isfinite(walk.xy).all(axis=1)]
    return len(usable) > 1 and bool((np.abs(np.median(usable, axis=0)) > FAR).all())


def _finding(walk: Walk) -> Finding:
    return Finding(
        "PL-04",
        Severity.NOTE,
        walk.place(0),
        "{file}: the coordinates look like those of a map, but no CRS is stated. Their lengths were taken for ground "
        "lengths; map lengths can be off by 0.1 % and areas by 0.2 %.",
        "State the CRS in a line such as `# crs: EPSG:25831` above the rows, or in the file's own way.",
        {"file": walk.file},
        file=walk.file,
        line=int(walk.line[0]),
        walk=walk.name,
        station=walk.station[0],
    )
