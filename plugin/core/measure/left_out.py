# SPDX-License-Identifier: GPL-2.0-or-later
"""Features of walks that were left out: a row each, without figures and without a place, so that none goes
missing from a takeoff unseen."""

from __future__ import annotations

import math
from collections.abc import Iterable

import numpy as np

from ..walk import Kind, Walk
from .noted import noted_in
from .rows import AreaRow, LengthRow, SpotRow, Tags
from .shapes import Rows

NOWHERE = (math.nan, math.nan, math.nan)


def rows_of_left_out(walks: Iterable[Walk], site: str) -> Rows:
    """A row for each feature and part of these walks, in the order walked."""
    areas, lengths, spots = [], [], []
    for walk in walks:
        rows: dict[tuple[str, str], list[int]] = {}
        for k, name in enumerate(zip(walk.feature, walk.part)):
            rows.setdefault(name, []).append(k)
        for (feature, part), (kind, i) in _features(walk).items():
            tags = Tags(
                site=site,
                walk=walk.name,
                feature=feature,
                part=part,
                item=walk.text("item", i),
                status=walk.text("status", i),
                surface=walk.text("surface", i),
                option=walk.text("option", i),
                phase=walk.text("phase", i),
                method="not measured: the walk is left out",
            )
            noted = noted_in(walk, np.array(rows[feature, part]))
            if kind is Kind.AREA:
                areas.append(AreaRow(tags, (), None, None, None, None, None, walk.hole_in[i], (), noted))
            elif kind is Kind.SPOT:
                spots.append(SpotRow(tags, NOWHERE, None, noted))
            else:
                lengths.append(LengthRow(tags, (), None, None, None, None, noted))
    return Rows(tuple(areas), tuple(lengths), tuple(spots), (), ())


def _features(walk: Walk) -> dict[tuple[str, str], tuple[Kind, int]]:
    """Kind and first row of each feature and part; one that names no kind is a length, of one station a spot."""
    out: dict[tuple[str, str], tuple[Kind, int]] = {}
    names = list(zip(walk.feature, walk.part))
    for i, name in enumerate(names):
        if name[0] and name not in out:
            kind = next((k for k, n in zip(walk.kind, names) if n == name and k), None)
            out[name] = (kind or (Kind.SPOT if names.count(name) == 1 else Kind.LENGTH), i)
    return out
