# SPDX-License-Identifier: GPL-2.0-or-later
"""What a surface is built from: levels and lines in the survey plane, and the net that they become."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from ..quantity import Floats, Ints
from .surface import no_shared


@dataclass(frozen=True, eq=False)
class Levels:
    """Points of known height: (n, 3) east, north, height in metres of one survey plane, (n,) one-sigma of what each height
    errs by itself, and (n, k) what it moves by with errors that several have in common (`Surface.shared`); without, none."""

    points: Floats
    sigma: Floats
    shared: Floats = field(default_factory=no_shared)

    def __post_init__(self) -> None:
        """A row for each point, also where none errs together with another."""
        if not self.shared.shape[1]:
            object.__setattr__(self, "shared", no_shared(len(self.points)))

    @classmethod
    def joined(cls, some: Sequence[Levels]) -> Levels:
        """Several as one, in their order. Column j of what is shared is the same error in all of them."""
        points = [np.asarray(levels.points, float).reshape(-1, 3) for levels in some]
        sigma = [np.asarray(levels.sigma, float).reshape(-1) for levels in some]
        width = max((levels.shared.shape[1] for levels in some), default=0)
        shared = [widened(levels.shared, len(xyz), width) for levels, xyz in zip(some, points)]
        return cls(
            np.vstack([np.empty((0, 3)), *points]),
            np.concatenate([np.empty(0), *sigma]),
            np.vstack([np.empty((0, width)), *shared]),
        )


def widened(shared: Floats, count: int, width: int) -> Floats:
    """(count, width) what heights share, with 0 for errors that they have no part in."""
    out = np.zeros((count, width))
    if shared.shape[1]:
        out[:, : shared.shape[1]] = shared
    return out


@dataclass(frozen=True, eq=False)
class GroundLine:
    """A breakline, or a ring of a boundary or a void: straights from point to point, heights running evenly.

    Attributes:
        points: (k, 3) metres in the survey plane; heights of a ring may be NaN: it then lies on the ground.
        sigma: (k,) one-sigma of what each height errs by itself, metres.
        name: for messages.
        shared: (k, j) as of `Levels`.
        face: of a wall's foot and of its top the same word: such lines may stand over each other.
        bounds: the area whose ring it is, where only the inside of such areas is ground; empty of other lines.
    """

    points: Floats
    sigma: Floats
    name: str = ""
    shared: Floats = field(default_factory=no_shared)
    face: str = ""
    bounds: str = ""

    def __post_init__(self) -> None:
        """A row for each point, also where none errs together with another."""
        if not self.shared.shape[1]:
            object.__setattr__(self, "shared", no_shared(len(self.points)))


@dataclass(frozen=True, eq=False)
class Net:
    """Points and the segments between them; segments meet at their ends alone.

    Attributes:
        points: (n, 3) metres, all different in plan. sigma: (n,) one-sigma of what each height errs by itself.
        segments: (s, 2) rows of `points`, lower first, each once. owner: (s,) the line that each belongs to.
        first: (k,) for each of the points that were given, in order, the row that it became.
        shared: (n, j) as of `Levels`.
    """

    points: Floats
    sigma: Floats
    segments: Ints
    owner: Ints
    first: Ints
    shared: Floats = field(default_factory=no_shared)

    def __post_init__(self) -> None:
        """A row for each point, also where none errs together with another."""
        if not self.shared.shape[1]:
            object.__setattr__(self, "shared", no_shared(len(self.points)))
