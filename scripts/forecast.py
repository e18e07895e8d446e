#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-2.0-or-later
"""Whether a plan's error budget comes true: plans of Marlisk Yard's own ways against surveys of drawn walks (drift,
picks, picture shift, levels and tapes drawn anew by scripts/demo_jobs, which shares no code with the core), the whole
core chain each. Realised is the root mean square of survey less truth.

    scripts/forecast.py [--seeds 1000] [--first 1] [--jobs 2]
"""

from __future__ import annotations

import argparse
import math
import sys
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from functools import lru_cache
from multiprocessing import get_context
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).absolute().parent.parent))

from plugin.core.errors import GroundTallyError
from plugin.core.findings import Decisions
from plugin.core.measure.chain import Settings, measure_job
from plugin.core.measure.planned.forecast import forecast_plan
from plugin.core.measure.planned.records import Budget, Pace, Plan, PlannedTape, PlannedWalk
from plugin.core.measure.rows import Survey
from plugin.core.place.locate import centre_of
from plugin.core.plane import SurveyPlane, open_crs
from plugin.core.read.job import read_job
from plugin.core.walk import Instrument, Kind, Leg
from scripts.demo_jobs import find_site, make_job, walker
from scripts.demo_jobs.marlisk_yard import walk_court
from scripts.demo_jobs.route import STAND_S
from scripts.demo_jobs.site import ControlMark, Site

INSTRUMENT = Instrument(
    name="planned",
    scale=walker.SCALE,
    heading_rate=math.radians(walker.HEADING_DEG_MIN) / 60.0,
    leg=walker.LEG,
    leg_time=walker.LEG_TIME,
    stand=walker.STAND,
    height_leg=walker.HEIGHT_LEG,
    height_leg_time=walker.HEIGHT_LEG_TIME,
    height_stand=walker.HEIGHT_STAND,
)
"""What the walker really does."""
WHOLE, ALONE = "four walks, two tapes", "the court's walk alone"
SITES = (WHOLE, ALONE)


@lru_cache(maxsize=2)
def site_named(name: str) -> Site:
    """Marlisk Yard, or only the first of its walks, held to A and B alone."""
    site = find_site("marlisk_yard")
    if name == WHOLE:
        return site
    control = (ControlMark("A", "fit", has_level=True), ControlMark("B", "fit"))
    return replace(site, folder="planned", walks=(walk_court(),), control=control, tapes=(), answers=())


@lru_cache(maxsize=2)
def plane_of(name: str) -> SurveyPlane:
    """A survey plane about the middle of the site's marks, at their mean height."""
    site = site_named(name)
    crs = open_crs(site.crs)
    places = np.array([site.to_map(x, y) for x, y, _ in site.marks.values()])
    height = float(np.mean([z for *_, z in site.marks.values()]))
    return SurveyPlane(crs, *centre_of(crs, places), height)


def planned_walks(name: str) -> tuple[PlannedWalk, ...]:
    """The true ways of a site as planned walks, in its survey plane."""
    out = []
    for route in site_named(name).walks:
        cells = [stop.cells for stop in route.stops]
        on_map = np.array([site_named(name).to_map(stop.x, stop.y) for stop in route.stops])
        text = {key: tuple(c.get(key, "") for c in cells) for key in ("mark", "feature", "part", "hole_in")}
        out.append(
            PlannedWalk(
                route.name,
                plane_of(name).from_crs(on_map),
                z=np.array([stop.z for stop in route.stops]),
                kind=tuple(Kind(c["geometry"]) if "geometry" in c else None for c in cells),
                leg=tuple(Leg(stop.leg) if stop.leg else Leg.DIRECT for stop in route.stops),
                hold=np.array([stop.hold for stop in route.stops]),
                **text,
            )
        )
    return tuple(out)


@lru_cache(maxsize=2)
def budget_of(name: str) -> Budget:
    """The error budget of a site's plan."""
    site = site_named(name)
    picked = [point.mark for point in site.control if point.use == "fit" and point.is_picked]
    levelled = [point.mark for point in site.control if point.has_level]
    return forecast_plan(
        Plan(
            planned_walks(name),
            Pace(walker.PACE, STAND_S),
            INSTRUMENT,
            picks=dict.fromkeys(picked, site.pick_sd),
            common=site.shift_sd,
            levels=dict.fromkeys(levelled, site.level_sd),
            tapes=tuple(PlannedTape(*ends, site.tape_sd) for ends in site.tapes),
        )
    )


@dataclass(frozen=True)
class Forecast:
    """One figure of a plan: its name, its true value (0 for what is an error by itself) and its sigma."""

    name: str
    value: float
    sigma: float


def forecasts(name: str) -> list[Forecast]:
    """What is compared: the size of every feature, the far corner along both axes of its ellipse, and its height."""
    budget = budget_of(name)
    out = []
    for row in budget.features:
        for what, figure in (("area", row.area), ("perimeter", row.perimeter), ("length", row.length)):
            if figure is not None:
                out.append(
                    Forecast(
                        f"{row.feature} {row.part} {what}".replace("  ", " "), figure.value, figure.sigma
                    )
                )
    corner = budget.worst
    return [
        *out,
        Forecast(f"far corner {corner.walk}:{corner.station} along", 0.0, corner.ellipse.major),
        Forecast("far corner across", 0.0, corner.ellipse.minor),
        Forecast("far corner height", 0.0, corner.z_sigma or math.nan),
    ]


def realised(name: str, seed: int) -> list[float] | None:
    """The errors of one drawn survey, figure by figure as `forecasts` has them; None where it was refused."""
    files = {file: text.encode() for file, text in make_job(site_named(name), seed).items()}
    read = read_job(files)
    try:
        survey, _ = measure_job(read.job, Decisions(), Settings(), read.findings)
    except GroundTallyError:
        return None
    sizes = {}
    for row in (*survey.areas, *survey.lengths):
        for what in ("area", "perimeter", "length"):
            figure = getattr(row, what, None)
            if figure is not None:
                sizes[f"{row.tags.feature} {row.tags.part} {what}".replace("  ", " ")] = figure.value
    told = forecasts(name)
    return [*(sizes[one.name] - one.value for one in told[:-3]), *_corner(name, survey)]


def _corner(name: str, survey: Survey) -> tuple[float, float, float]:
    """How far off the far corner lies along and across its forecast ellipse, and in height."""
    corner = budget_of(name).worst
    row = next(r for r in survey.stations if (r.tags.walk, r.station) == (corner.walk, corner.station))
    on_map = survey.plane.to_crs(np.array([row.point[:2]]))
    gap = plane_of(name).from_crs(on_map)[0] - corner.point[:2]
    along = np.array([math.cos(corner.ellipse.angle), math.sin(corner.ellipse.angle)])
    return float(gap @ along), float(gap @ (-along[1], along[0])), row.point[2] - corner.point[2]


def run_many(name: str, seeds: range, jobs: int) -> list[list[float]]:
    """The errors of all seeds that were not refused, on several processes."""
    if jobs == 1:
        found = [realised(name, seed) for seed in seeds]
    else:
        with ProcessPoolExecutor(jobs, mp_context=get_context("spawn")) as pool:
            found = list(pool.map(realised, [name] * len(seeds), seeds, chunksize=10))
    return [errors for errors in found if errors is not None]


@dataclass(frozen=True)
class Outcome:
    """One figure: forecast sigma, realised sigma, mean error."""

    name: str
    sigma: float
    realised: float
    mean: float

    @property
    def ratio(self) -> float:
        """Realised by forecast."""
        return self.realised / self.sigma


def compare(name: str, errors: list[list[float]]) -> list[Outcome]:
    """Forecast and realised, figure by figure."""
    all_errors = np.array(errors)
    rms, mean = np.sqrt(np.mean(all_errors**2, axis=0)), all_errors.mean(axis=0)
    return [Outcome(one.name, one.sigma, float(r), float(m)) for one, r, m in zip(forecasts(name), rms, mean)]


def report(name: str, outcomes: list[Outcome], runs: int, asked: int) -> str:
    """The table as text."""
    lines = [
        f"{name}: {runs} of {asked} surveys",
        f"{'figure':<28}{'forecast':>10}{'realised':>10}{'ratio':>8}{'mean':>10}",
    ]
    lines += [
        f"{o.name:<28}{o.sigma:>10.4f}{o.realised:>10.4f}{o.ratio:>8.3f}{o.mean:>10.4f}" for o in outcomes
    ]
    return "\n".join(lines)


def main() -> None:
    """Run the seeds on both sites and print the tables."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--seeds", type=int, default=1000)
    parser.add_argument("--first", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=2)
    args = parser.parse_args()
    for name in SITES:
        errors = run_many(name, range(args.first, args.first + args.seeds), args.jobs)
        print(report(name, compare(name, errors), len(errors), args.seeds), flush=True)


if __name__ == "__main__":
    main()
