#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-2.0-or-later
"""How often the stated 95 % intervals cover the truth: Marlisk Yard of many seeds (drift, picks, picture shift
and tape drawn anew), the whole core chain each, with a surface of the ground and figures of it. A right model covers 95 %.

    scripts/coverage.py [--seeds 2000] [--first 1] [--heavy] [--jobs 2]

--heavy draws leg noise from Student's t with 4 degrees of freedom and one scale for all four walks, which the
model does not hold.
"""

from __future__ import annotations

import argparse
import math
import sys
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from multiprocessing import get_context
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).absolute().parent.parent))

from plugin.core.errors import GroundTallyError
from plugin.core.findings import Severity
from plugin.core.measure.chain import Settings, measure_job
from plugin.core.measure.rows import Survey
from plugin.core.read.job import read_job
from scripts.demo_jobs import make_job, true_sizes
from scripts.ground_figures import ground_figures
from scripts.trade_figures import trade_figures

SITE = "marlisk_yard"
FIGURES = ("court area", "court perimeter", "kerb length", "height of G3")
GROUND = ("court cut", "court fill", "court cut less fill", "section level", "gradient", "dished face")
OF_SURFACE = GROUND[:5]
"""Figures that a surface gives, also by the survey's whole covariance of its heights."""
TRADE = ("wall face", "bank face", "wall height", "ramp gradient", "ramp width", "seat front")
"""Figures of the trade, by what the survey's rows say of their points' errors; the last also as the survey has it."""
END = "swale end"
CHI2_95 = -2.0 * math.log(0.05)
MODEL_GE = "GE-02"
"""The shared edges of the clean job are asked about by intention (demo.md)."""


@dataclass(frozen=True)
class Run:
    """One seed: errors over sigmas of the figures, of those of the ground as the surface says them, of the trade's as the
    rows say them, and of these again by the survey's whole covariance; the position's decorrelated error (two axes), the worst finding, or why nothing was written."""

    seed: int
    ratios: tuple[float, ...] = ()
    ground: tuple[float, ...] = ()
    trade: tuple[float, ...] = ()
    whole: tuple[float, ...] = ()
    position: tuple[float, float] = (math.nan, math.nan)
    stops: tuple[str, ...] = ()
    asks: tuple[str, ...] = ()
    refused: str = ""


def run_seed(seed: int, variant: str = "drawn") -> Run:
    """The whole core chain on one drawn job."""
    files = {name: text.encode() for name, text in make_job(SITE, seed, variant=variant).items()}
    read = read_job(files)
    try:
        survey, findings = measure_job(read.job, read.decisions, Settings(), read.findings)
    except GroundTallyError as error:
        return Run(seed, refused=str(error))
    ground, trade = ground_figures(survey, seed), trade_figures(survey)
    open_codes = [(f.severity, f"{f.code} {f.place}") for f in findings if f.is_open and f.code != MODEL_GE]
    return Run(
        seed,
        tuple(_ratios(survey)),
        tuple(figure.error / figure.stated for figure in ground),
        tuple(figure.error / figure.stated for figure in trade),
        tuple(figure.error / figure.whole for figure in (*ground[: len(OF_SURFACE)], trade[-1])),
        _position(survey),
        tuple(code for severity, code in open_codes if severity is Severity.STOP),
        tuple(code for severity, code in open_codes if severity is Severity.ASK),
    )


TRUTH = {(t.table, t.feature, t.part, t.column): t.value for t in true_sizes(SITE)}


def _ratios(survey: Survey) -> list[float]:
    court = next(row for row in survey.areas if row.tags.feature == "Paved court")
    kerb = next(row for row in survey.lengths if row.tags.feature == "Kerb")
    g3 = next(row for row in survey.spots if row.tags.feature == "G3")
    pairs = [
        (court.area, TRUTH["areas", "Paved court", "", "area_m2"]),
        (court.perimeter, TRUTH["areas", "Paved court", "", "perimeter_m"]),
        (kerb.length, TRUTH["lengths", "Kerb", "", "length_m"]),
        (g3.height, TRUTH["spots", "G3", "", "height_m"]),
    ]
    return [(q.value - true) / q.sigma for q, true in pairs if q is not None]


def _position(survey: Survey) -> tuple[float, float]:
    """Error of the swale's end along its ellipse's axes, over their sigmas."""
    row = [r for r in survey.stations if r.tags.feature == "Swale"][-1]
    true = survey.plane.from_crs(
        np.array([[TRUTH["points", "Swale", "end", "map_x"], TRUTH["points", "Swale", "end", "map_y"]]])
    )[0]
    gap = np.array(row.point[:2]) - true
    ellipse = row.ellipse
    along = np.array([math.cos(ellipse.angle), math.sin(ellipse.angle)])
    across = np.array([-along[1], along[0]])
    return float(gap @ along / ellipse.major), float(gap @ across / ellipse.minor)


def run_many(seeds: range, variant: str, jobs: int) -> list[Run]:
    """All seeds, on several processes."""
    if jobs == 1:
        return [run_seed(seed, variant) for seed in seeds]
    with ProcessPoolExecutor(jobs, mp_context=get_context("spawn")) as pool:
        return list(pool.map(run_seed, seeds, [variant] * len(seeds), chunksize=20))


@dataclass(frozen=True)
class Cover:
    """Of one figure: the part of runs covered at 95 %, and the RMS of error over sigma."""

    name: str
    covered: float
    rms: float


def summarise(runs: list[Run]) -> list[Cover]:
    """Cover and RMS of each figure; the position's RMS is the larger of its two axes."""
    good = [run for run in runs if not run.refused]
    position = np.array([run.position for run in good])
    out = [
        *_covers(FIGURES, [run.ratios for run in good]),
        *_covers(GROUND, [run.ground for run in good]),
        *_covers(TRADE, [run.trade for run in good]),
    ]
    rms = np.sqrt(np.mean(position**2, axis=0))
    worst = float(rms[np.argmax(np.abs(rms - 1))])
    return [*out, Cover(END, float(np.mean((position**2).sum(axis=1) < CHI2_95)), worst)]


def summarise_whole(runs: list[Run]) -> list[Cover]:
    """Cover and RMS of a surface's figures and of the trade's last by the survey's whole covariance."""
    return _covers((*OF_SURFACE, TRADE[-1]), [run.whole for run in runs if not run.refused])


def _covers(names: tuple[str, ...], ratios: list[tuple[float, ...]]) -> list[Cover]:
    return [
        Cover(name, float(np.mean(np.abs(z) < 1.959964)), float(np.sqrt(np.mean(z**2))))
        for name, z in zip(names, np.array(ratios).T)
    ]


def report(runs: list[Run], title: str) -> str:
    """The table as text."""
    lines = [title, f"{'figure':<22}{'covered':>9}{'rms':>8}"]
    lines += [f"{c.name:<22}{c.covered:>8.1%}{c.rms:>8.3f}" for c in summarise(runs)]
    lines.append("by the survey's whole covariance:")
    lines += [f"{c.name:<22}{c.covered:>8.1%}{c.rms:>8.3f}" for c in summarise_whole(runs)]
    stopped = [run for run in runs if run.stops or run.refused]
    asked = [run for run in runs if run.asks]
    lines.append(
        f"runs {len(runs)}, wrongly stopped {len(stopped)} ({len(stopped) / len(runs):.2%}), asked {len(asked)} ({len(asked) / len(runs):.2%})"
    )
    kinds: dict[str, int] = {}
    for run in runs:
        for code in {c.split()[0] for c in (*run.stops, *run.asks)} | ({"refused"} if run.refused else set()):
            kinds[code] = kinds.get(code, 0) + 1
    lines.append("by code: " + (", ".join(f"{code} {n}" for code, n in sorted(kinds.items())) or "none"))
    return "\n".join(lines)


def main() -> None:
    """Run the seeds and print the table."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--seeds", type=int, default=2000)
    parser.add_argument("--first", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--heavy", action="store_true")
    args = parser.parse_args()
    variant = "heavy" if args.heavy else "drawn"
    runs = run_many(range(args.first, args.first + args.seeds), variant, args.jobs)
    print(report(runs, f"Marlisk Yard, seeds {args.first} to {args.first + args.seeds - 1}, drift {variant}"))


if __name__ == "__main__":
    main()
