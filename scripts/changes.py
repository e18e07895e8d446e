#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-2.0-or-later
"""How often two walks of one unchanged site are told as changed, and how often a small hollow is found: Marlisk Yard
walked twice, everything drawn anew (drift, picks, picture shift, tapes), the whole core chain each.

    scripts/changes.py [--pairs 400] [--first 1] [--jobs 2]

The hollow is 2 m by 2 m and 50 mm deep, with nine spots on it that both walks stand on. Each pair is held against each other
as two surveys, and as the two surfaces through their stations on the ground.
"""

from __future__ import annotations

import argparse
import sys
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from functools import lru_cache
from multiprocessing import get_context
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).absolute().parent.parent))

from plugin.core.errors import GroundTallyError
from plugin.core.measure.chain import Settings, survey_job
from plugin.core.measure.rows import Survey
from plugin.core.read.job import read_job
from plugin.core.register.compare import compare_surveys
from plugin.core.register.ground import GroundComparison, compare_grounds
from plugin.core.register.known import known_survey
from plugin.core.register.records import Asked, Comparison, Outcome, Patch
from scripts.demo_jobs import Site, find_site, make_job
from scripts.demo_jobs import marlisk_yard as yard
from scripts.demo_jobs.route import Route
from scripts.ground_figures import build_ground

HOLLOW_LOW, HOLLOW_SIZE, DEPTH = (25.0, 7.0), 2.0, 0.050
"""Metres: the hollow's corner, its side, and how deep it is."""
SPOTS = 3
"""Along each side of the hollow."""
BEFORE_IT = (24.0, 6.0)
"""The level of the yard's grid after which the hollow's spots are walked."""
OTHER_SEEDS = 1_000_000
"""The second walk of a pair has its first's seed and this."""


def hollow_places() -> list[tuple[float, float]]:
    """The nine spots, to and fro: each in the middle of its ninth."""
    step = HOLLOW_SIZE / SPOTS
    rows = []
    for i in range(SPOTS):
        y = HOLLOW_LOW[1] + (i + 0.5) * step
        row = [(HOLLOW_LOW[0] + (k + 0.5) * step, y) for k in range(SPOTS)]
        rows += row if i % 2 == 0 else row[::-1]
    return rows


def _in_hollow(x: float, y: float) -> bool:
    return all(low <= v <= low + HOLLOW_SIZE for v, low in zip((x, y), HOLLOW_LOW))


@lru_cache(maxsize=2)
def walked_site(depth: float) -> Site:
    """The yard with the nine spots in its walk of levels, the hollow so deep."""

    def ground(x: float, y: float) -> float:
        return yard.ground(x, y) - (depth if _in_hollow(x, y) else 0.0)

    route = Route("W4", ground, yard.LONGEST)
    for mark in ("A", "B"):
        route.stand_on(mark, yard.PLAN_MARKS[mark])
    for name, x, y in yard.level_rows():
        route.begin(name, (x, y), geometry="spot", status="existing", surface="ground")
        if (x, y) == BEFORE_IT:
            for k, place in enumerate(hollow_places(), 1):
                route.begin(f"Hollow {k}", place, geometry="spot", status="existing", surface="ground")
        for mark in ("C", "D", "BM1"):
            if {"C": (40.0, 14.0), "D": (-8.0, 14.0), "BM1": (-8.0, -2.0)}[mark] == (x, y):
                route.stand_on(mark, yard.PLAN_MARKS[mark])
    route.stand_on("A", yard.PLAN_MARKS["A"])
    site = find_site("marlisk_yard")
    return replace(site, folder="walked_again", walks=(*site.walks[:3], route))


def walk(seed: int, depth: float) -> Survey:
    """One drawn survey of it."""
    job = make_job(walked_site(depth), seed)
    read = read_job({name: text.encode() for name, text in job.items()})
    return survey_job(read.job, read.decisions, Settings(), read.findings)


def compare_pair(one: Survey, other: Survey, asked: Asked | None = None) -> Comparison:
    """Two surveys, the later one in the plane of the earlier."""
    assert one.plane is not None and other.plane is not None  # noqa: S101, PT018 - both have control
    here, there = one.plane, other.plane
    later = known_survey(other, lambda xy: here.from_crs(there.to_crs(xy)))
    return compare_surveys(known_survey(one), later, asked)


def compare_surfaces(one: Survey, other: Survey) -> GroundComparison:
    """The ground of two surveys, the later one in the plane of the earlier."""
    assert one.plane is not None and other.plane is not None  # noqa: S101, PT018 - both have control
    later = build_ground(other).surface
    xy = one.plane.from_crs(other.plane.to_crs(later.points[:, :2]))
    return compare_grounds(
        build_ground(one).surface, replace(later, points=np.column_stack([xy, later.points[:, 2]]))
    )


@dataclass(frozen=True)
class Run:
    """One pair: what of it was told as changed, wrongly; the same with the hollow; whether that was found and by how much
    it was told; whether their surfaces were told as changed, and the hollow found in them; or why there is no survey."""

    seed: int
    told: tuple[str, ...] = ()
    elsewhere: tuple[str, ...] = ()
    is_found: bool = False
    change: float = 0.0
    sigma: float = 0.0
    is_ground_told: bool = False
    is_found_in_ground: bool = False
    refused: str = ""


def changes_of(comparison: Comparison) -> tuple[str, ...]:
    """What is told as changed, added or gone."""
    rows = [
        f"{row.told.feature}/{row.told.part} {row.outcome.value} "
        + ",".join(test.figure.value for test in row.tests if test.p < Asked().level)
        for row in comparison.rows
        if row.outcome in (Outcome.CHANGED, Outcome.ADDED, Outcome.GONE)
    ]
    return (*rows, *(f"patch of {len(patch.rows)}" for patch in comparison.patches))


def run_pair(seed: int) -> Run:
    """An unchanged pair, and the same first walk against one of the hollow."""
    try:
        before, again = walk(seed, 0.0), walk(seed + OTHER_SEEDS, 0.0)
        dug = walk(seed + OTHER_SEEDS, DEPTH)
        null, lowered = compare_pair(before, again), compare_pair(before, dug)
    except GroundTallyError as error:
        return Run(seed, refused=str(error))
    assert before.plane is not None  # noqa: S101 - the yard has control
    low = before.plane.from_crs(_hollow_middle())[0]
    its = [patch for patch in lowered.patches if _is_there(patch, low)]
    rest = tuple(f"patch of {len(p.rows)}" for p in lowered.patches if not _is_there(p, low))
    rest += tuple(told for told in changes_of(lowered) if not told.startswith(("Hollow", "patch")))
    found = [patch for patch in its if patch.change.value < 0.0]
    told = found[0].change if found else None
    in_ground = [one.patch for one in compare_surfaces(before, dug).patches]
    return Run(
        seed,
        changes_of(null),
        rest,
        bool(found),
        told.value if told else 0.0,
        told.sigma if told else 0.0,
        bool(compare_surfaces(before, again).patches),
        any(_is_there(patch, low) and patch.change.value < 0.0 for patch in in_ground),
    )


def _is_there(patch: Patch, low: np.ndarray) -> bool:
    """Whether a patch is the hollow, about (2,) its middle."""
    return bool(np.abs(patch.xy.mean(axis=0) - low).max() < HOLLOW_SIZE)


def _hollow_middle() -> np.ndarray:
    half = 0.5 * HOLLOW_SIZE
    return np.array([walked_site(0.0).to_map(HOLLOW_LOW[0] + half, HOLLOW_LOW[1] + half)])


def run_many(seeds: range, jobs: int) -> list[Run]:
    """All pairs, on several processes."""
    if jobs == 1:
        return [run_pair(seed) for seed in seeds]
    with ProcessPoolExecutor(jobs, mp_context=get_context("spawn")) as pool:
        return list(pool.map(run_pair, seeds, chunksize=10))


def report(runs: list[Run]) -> str:
    """The figures as text."""
    good = [run for run in runs if not run.refused]
    false = [run for run in good if run.told]
    found = [run for run in good if run.is_found]
    lines = [
        f"pairs {len(good)} (refused {len(runs) - len(good)})",
        f"unchanged, told as changed at 1 %: {len(false)} ({len(false) / len(good):.2%})",
        f"hollow of 50 mm found: {len(found)} ({len(found) / len(good):.2%})",
        f"with the hollow, pairs with more told elsewhere: {sum(bool(run.elsewhere) for run in good)}",
        f"as surfaces: told as changed {_part(good, 'is_ground_told')}, hollow found {_part(good, 'is_found_in_ground')}",
    ]
    if found:
        ratios = [(run.change + DEPTH) / run.sigma for run in found]
        rms = (sum(r * r for r in ratios) / len(ratios)) ** 0.5
        mean = sum(run.change for run in found) / len(found)
        lines.append(f"its change in the mean {1000 * mean:.1f} mm, error over sigma in the RMS {rms:.2f}")
    lines += [f"seed {run.seed}: {', '.join(run.told)}" for run in false]
    lines += [f"seed {run.seed}: refused, {run.refused}" for run in runs if run.refused]
    return "\n".join(lines)


def _part(runs: list[Run], name: str) -> str:
    count = sum(getattr(run, name) for run in runs)
    return f"{count} ({count / len(runs):.2%})"


def main() -> None:
    """Run the pairs and print what came of them."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--pairs", type=int, default=400)
    parser.add_argument("--first", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=2)
    args = parser.parse_args()
    print(report(run_many(range(args.first, args.first + args.pairs), args.jobs)))


if __name__ == "__main__":
    main()
