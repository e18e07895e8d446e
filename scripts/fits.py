#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-2.0-or-later
"""How often fits find the pieces that were drawn, invent none on ragged edges, and cover the true radii.

    scripts/fits [SEEDS] [--jobs 2]

prints, of SEEDS (1,000 unless told) random outlines (drawn_outlines.py has their ranges), the share of which all
pieces and joints come out as drawn, over all and over those whose rows can tell them; of as many ragged edges the share
on which nothing smooth is claimed; and over twice as many outlines how often a radius lies within its 95 % interval,
of arcs of 30 degrees and more in those found right.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Callable, Iterable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from multiprocessing import get_context
from pathlib import Path
from typing import TypeVar

import numpy as np

sys.path.insert(0, str(Path(__file__).absolute().parent.parent))

from plugin.core.shape.fit.pieces import FittedRun, PieceKind, fit_pieces
from scripts.drawn_outlines import (
    RAGGED,
    RAGGED_TOLERANCE,
    Drawn,
    can_be_told,
    draw_outline,
    draw_ragged,
    told,
)

LEAST_SWEEP = np.radians(30.0)
Z_95 = 1.959964
Row = TypeVar("Row")


@dataclass(frozen=True)
class Found:
    """One outline: what was drawn and what came out (drawn_outlines.told, a stretch as recorded is -), whether they
    are the same, whether the rows can tell; errors of the radii by their sigmas; rows and seconds."""

    seed: int
    drawn: str
    fitted: str
    same: bool
    telling: bool
    ratios: tuple[float, ...]
    rows: int
    seconds: float


@dataclass(frozen=True)
class Ragged:
    """One ragged edge, with or without a sigma: what came out."""

    seed: int
    kind: str
    fitted: str


def letters(run: FittedRun) -> str:
    """A fitted run as drawn outlines are told."""
    return "".join(
        "-" if p.kind is PieceKind.AS_WALKED else told([p.kind is PieceKind.ARC], [p.starts_tangent])
        for p in run.pieces
    )


def fit_drawn(seed: int) -> Found:
    """One drawn outline, fitted."""
    drawn = draw_outline(seed)
    start = time.perf_counter()
    run = fit_pieces(drawn.points, drawn.tolerance, sigma=drawn.sigma, closed=drawn.closed)
    seconds = time.perf_counter() - start
    fitted, shift = letters(run), 0
    if drawn.closed and len(fitted) == len(drawn.kinds):
        shift = max(_shifts(drawn, run), key=lambda k: fitted[k:] + fitted[:k] == drawn.kinds)
        fitted = fitted[shift:] + fitted[:shift]
    same = fitted == drawn.kinds
    ratios = tuple(_ratios(drawn, run, shift)) if same else ()
    return Found(seed, drawn.kinds, fitted, same, can_be_told(drawn), ratios, len(drawn.points), seconds)


def _shifts(drawn: Drawn, run: FittedRun) -> list[int]:
    """Pieces that may be the first one drawn, that whose middle row is of it foremost."""
    n, pieces = len(drawn.points), run.pieces
    middles = [(p.first + (p.last - p.first) % n // 2) % n for p in pieces]
    true = drawn.piece[middles]
    return sorted(range(len(pieces)), key=lambda k: (true[k] != 0, k))


def _ratios(drawn: Drawn, run: FittedRun, shift: int) -> Iterable[float]:
    pieces = (*run.pieces[shift:], *run.pieces[:shift])
    for true, piece in zip(drawn.pieces, pieces):
        if abs(true.turn) >= LEAST_SWEEP:
            radius = 1.0 / abs(true.curvature)
            yield (piece.radius - radius) / piece.radius_sigma


def fit_ragged(seed: int) -> Ragged:
    """One ragged edge, fitted; of each ten seeds five are told a sigma of 1 cm."""
    sigma = 0.01 if seed // len(RAGGED) % 2 else None
    run = fit_pieces(draw_ragged(seed), RAGGED_TOLERANCE, sigma=sigma)
    return Ragged(seed, RAGGED[seed % len(RAGGED)], letters(run))


def run_many(one: Callable[[int], Row], seeds: range, jobs: int) -> list[Row]:
    """All seeds, on several processes."""
    if jobs == 1:
        return [one(seed) for seed in seeds]
    with ProcessPoolExecutor(jobs, mp_context=get_context("spawn")) as pool:
        return list(pool.map(one, seeds, chunksize=25))


def share(rows: Iterable[bool]) -> float:
    """Part of these that are so."""
    return float(np.mean(list(rows)))


def covered(found: Iterable[Found]) -> tuple[int, float, float]:
    """How many radii, the part within their 95 % interval, and the RMS of their errors by their sigmas."""
    z = np.array([ratio for one in found for ratio in one.ratios])
    return len(z), float(np.mean(np.abs(z) < Z_95)), float(np.sqrt(np.mean(z**2)))


def report(found: list[Found], ragged: list[Ragged], seeds: int) -> str:
    """The figures as text."""
    first = found[:seeds]
    telling = [one for one in first if one.telling]
    count, part, rms = covered(found)
    per_row = 1e3 * sum(one.seconds for one in found) / sum(one.rows for one in found)
    lines = [
        f"outlines {len(first)}: as drawn {share(one.same for one in first):.1%}",
        f"of these the rows can tell {len(telling)}: as drawn {share(one.same for one in telling):.1%}",
        f"ragged edges {len(ragged)}: nothing claimed on {share(one.fitted == '-' for one in ragged):.1%}",
        f"radii {count} of {len(found)} outlines: within 95 % {part:.1%}, rms of error by sigma {rms:.3f}",
        f"milliseconds a row {per_row:.3f}",
    ]
    wrong = [one for one in first if not one.same]
    lines += [f"  outline {one.seed}: {one.drawn} came out {one.fitted}" for one in wrong]
    smooth = [one for one in ragged if one.fitted != "-"]
    lines += [f"  ragged {one.seed} ({one.kind}) came out {one.fitted}" for one in smooth]
    return "\n".join(lines)


def main() -> None:
    """Run the seeds and print the figures."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("seeds", type=int, nargs="?", default=1000)
    parser.add_argument("--jobs", type=int, default=2)
    args = parser.parse_args()
    found = run_many(fit_drawn, range(2 * args.seeds), args.jobs)
    ragged = run_many(fit_ragged, range(args.seeds), args.jobs)
    print(report(found, ragged, args.seeds))


if __name__ == "__main__":
    main()
