# SPDX-License-Identifier: GPL-2.0-or-later
"""Forty plots: copies of Marlisk Yard, each of a size and a turn of its own, six of them with a seeded fault.

A copy is similar to the yard in space: plan and relief are scaled by one factor about the ground height, so that
lengths go by the factor, areas by its square, and gradients stay. Its drift, picks and tapes are drawn anew.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from .faults import Expected, Job, spoil_job
from .jobs import find_site, make_job
from .route import Route
from .site import Site, Truth
from .truth import true_sizes

PLOTS = 40
SIZES = (0.7, 1.4)
"""Smallest and largest factor on the yard's lengths."""
FAULTY = ("marks_exchanged", "feet_as_metres", "one_mark_only", "short_hold", "long_leg", "two_goes")
"""What is wrong with the six. A raised pole breaks a height closure too, and 24.19 is wrong for one size alone."""
COMMITTED_SEED = 1
GROUND = 84.200
"""m: the height that scaling leaves as it is, so that the grid's scale holds for every copy."""
COLUMNS, SPACING = 8, 120.0
"""The plots lie in rows of so many, so many metres apart: the grid's scale changes by 3e-7 over all of them."""
SIZE_CELLS = ("width", "depth", "height", "stem_d")
POWERS = {"_m": 1, "_m2": 2, "_m3": 3}
HEIGHTS = ("height_m", "z_m")
FIRST_NUMBER = 100
"""Sites have numbers of their own, from which everything is drawn."""


@dataclass(frozen=True)
class Plot:
    """One copy.

    Attributes:
        site: with its name and the folder of its files.
        files: text by file name.
        expected: what the check should say, None where nothing is wrong.
        truth: every true figure of the survey's own tables, places on the map apart.
        factor: size of the copy by the yard's.
    """

    site: Site
    files: Job
    expected: Expected | None
    truth: tuple[Truth, ...]
    factor: float

    @property
    def name(self) -> str:
        """The site's name."""
        return self.site.name


def make_batch(seed: int = COMMITTED_SEED) -> list[Plot]:
    """The forty plots of a seed, in order."""
    rng = np.random.default_rng((FIRST_NUMBER, seed))
    factors = rng.uniform(*SIZES, PLOTS).round(3)
    turns = rng.uniform(0.0, 360.0, PLOTS).round(2)
    faults = dict(zip(rng.choice(PLOTS, len(FAULTY), replace=False).tolist(), FAULTY))
    return [_make_plot(i, float(factors[i]), float(turns[i]), faults.get(i), seed=seed) for i in range(PLOTS)]


def _make_plot(i: int, factor: float, turn_deg: float, fault: str | None, *, seed: int) -> Plot:
    site = scale_site(i, factor, turn_deg)
    files, expected = make_job(site, seed), None
    if fault is not None:
        files, expected = spoil_job(files, fault)
    return Plot(site, files, expected, tuple(scale_truth(factor, turn_deg)), factor)


def scale_site(i: int, factor: float, turn_deg: float) -> Site:
    """The yard as plot i (from 0), `factor` times as large and turned."""
    yard = find_site("marlisk_yard")
    east, north = yard.anchor
    return replace(
        yard,
        name=f"Plot {i + 1:02d}",
        folder=f"plot_{i + 1:02d}",
        number=FIRST_NUMBER + i,
        anchor=(east + SPACING * (i % COLUMNS), north + SPACING * (i // COLUMNS)),
        turn_deg=turn_deg,
        marks={
            name: (x * factor, y * factor, scale_height(z, factor)) for name, (x, y, z) in yard.marks.items()
        },
        walks=tuple(_scale_route(route, factor) for route in yard.walks),
    )


def scale_height(z: float, factor: float) -> float:
    """A height of the copy: the relief scaled about GROUND."""
    return GROUND + (z - GROUND) * factor


def _scale_route(route: Route, factor: float) -> Route:
    scaled = copy.copy(route)
    scaled.stops = [
        replace(
            stop,
            x=stop.x * factor,
            y=stop.y * factor,
            z=scale_height(stop.z, factor),
            cells={
                name: f"{float(cell) * factor:.6g}" if name in SIZE_CELLS and cell else cell
                for name, cell in stop.cells.items()
            },
        )
        for stop in route.stops
    ]
    return scaled


def scale_truth(factor: float, turn_deg: float) -> Iterator[Truth]:
    """The yard's true figures for a copy; places on the map and what later steps measure are left out."""
    turned = turn_deg - find_site("marlisk_yard").turn_deg
    for truth in true_sizes("marlisk_yard"):
        if truth.column.startswith("map_") or truth.table == "takeoff":
            continue
        scale = factor ** next((n for end, n in POWERS.items() if truth.column.endswith(end)), 0)
        recorded = None if truth.recorded is None else truth.recorded * scale
        value = truth.value * scale
        if truth.column in HEIGHTS:
            value = scale_height(truth.value, factor)
        elif truth.column == "fall_bearing_deg":
            value = (truth.value - turned) % 360.0
        yield replace(truth, value=value, recorded=recorded)
