# SPDX-License-Identifier: GPL-2.0-or-later
"""What ties the walks together: the marks stood on, the tapes between them, the levels known."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..defaults import LEVEL_SD
from ..quantity import Ints
from ..walk import ControlPoint, ErrorGrowth, Instrument, Job, Tape, Walk
from .drift import FLOOR
from .heights import Level
from .instrument import Model, model_of
from .network import Occupation
from .plan import TapeRow

TAPE_SD = 0.010
"""m, common practice, no source: one-sigma of a taped length where the file does not say."""


@dataclass(frozen=True, eq=False)
class Ties:
    """All walks' stations in one count, and everything observed on them.

    Attributes:
        walks, models, first: as everywhere; marks: names, in order of first stand (tape ends that are
            stations of no mark are named `walk:station`, and come last).
        occupations: stands on marks. tapes, levels: the usable ones, with the file rows they came from.
        control_file: where the levels come from.
    """

    walks: tuple[Walk, ...]
    models: tuple[Model, ...]
    first: Ints
    marks: tuple[str, ...]
    occupations: tuple[Occupation, ...]
    tapes: tuple[Tape, ...]
    levels: tuple[Level, ...]
    control_file: str = ""

    @property
    def held(self) -> tuple[int, ...]:
        """Walks whose stations have a place of their own in the plane (numbers)."""
        return own_places(self.walks)

    def walk_of(self, occupation: Occupation) -> Walk:
        """The walk of a stand."""
        return self.walks[occupation.walk]

    def row_in_walk(self, occupation: Occupation) -> int:
        """The station's number within its walk."""
        return occupation.row - int(self.first[occupation.walk])

    def place(self, occupation: Occupation) -> str:
        """The finding's key of a stand: `walk:station`."""
        return self.walk_of(occupation).place(self.row_in_walk(occupation))

    def stood(self, walk: int) -> set[int]:
        """Marks that a walk stands on."""
        return {o.mark for o in self.occupations if o.walk == walk}

    def plan_tapes(self, heights: dict[int, tuple[float, float]]) -> tuple[TapeRow, ...]:
        """Tapes as plan lengths: a slope tape by the heights (value, sigma) of its ends, where both are known."""
        return tuple(self._plan_tape(tape, heights) for tape in self.tapes)

    def _plan_tape(self, tape: Tape, heights: dict[int, tuple[float, float]]) -> TapeRow:
        start, end = self.marks.index(tape.start), self.marks.index(tape.end)
        distance, sd = tape.distance, TAPE_SD if tape.sd is None else max(tape.sd, FLOOR)
        if tape.is_slope and start in heights and end in heights:
            rise = heights[end][0] - heights[start][0]
            rise_sd = math.hypot(heights[end][1], heights[start][1])
            plan = math.sqrt(max(distance**2 - rise**2, 1e-6))
            sd = math.hypot(sd * distance / plan, rise_sd * rise / plan)
            distance = plan
        return TapeRow(start, end, distance, sd)


def own_places(walks: Sequence[Walk]) -> tuple[int, ...]:
    """Numbers of the walks whose place needs no mark: recorded station by station in a CRS; where none is, those of
    the first file whose several walks are in one frame of its own (a drawing's parcels and points)."""
    apart = [k for k, walk in enumerate(walks) if walk.keys.growth is not ErrorGrowth.WALKED]
    on_map = tuple(k for k in apart if walks[k].keys.crs is not None)
    if on_map:
        return on_map
    files = [walks[k].file for k in apart]
    together = next((file for file in files if files.count(file) > 1), None)
    return tuple(k for k in apart if walks[k].file == together)


def tie(job: Job, walks: tuple[Walk, ...]) -> Ties:
    """Number the stations, marks, tapes and levels of some walks of a job."""
    first = np.concatenate([[0], np.cumsum([len(walk) for walk in walks])]).astype(np.int64)
    named = list(dict.fromkeys(mark for walk in walks for mark in walk.mark if mark))
    places = {walk.place(i): (k, i) for k, walk in enumerate(walks) for i in range(len(walk))}
    ends = dict.fromkeys(end for tape in job.tapes for end in (tape.start, tape.end) if end not in named)
    marks = named + [end for end in ends if end in places]
    number = {mark: j for j, mark in enumerate(marks)}
    stands = [
        (k, i, number[mark]) for k, walk in enumerate(walks) for i, mark in enumerate(walk.mark) if mark
    ]
    stands += [(*places[end], number[end]) for end in marks[len(named) :]]
    usable = tuple(tape for tape in job.tapes if tape.start in number and tape.end in number)
    return Ties(
        walks=walks,
        models=_models(walks, dict(job.instruments or {})),
        first=first,
        marks=tuple(marks),
        occupations=tuple(Occupation(k, int(first[k]) + i, mark) for k, i, mark in stands),
        tapes=usable,
        levels=tuple(_level(p, number) for p in job.control.points if _is_level(p) and p.mark in number),
        control_file=job.control.file,
    )


def _models(walks: tuple[Walk, ...], instruments: dict[str, Instrument]) -> tuple[Model, ...]:
    return tuple(model_of(walk, instruments) for walk in walks)


def _level(point: ControlPoint, number: dict[str, int]) -> Level:
    assert point.z is not None  # noqa: S101 - chosen by the caller
    sd = LEVEL_SD if point.sd_z is None else max(point.sd_z, FLOOR)
    return Level(number[point.mark], point.z, sd, point.line)


def _is_level(point: ControlPoint) -> bool:
    return point.z is not None and not point.is_check
