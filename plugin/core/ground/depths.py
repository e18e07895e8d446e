# SPDX-License-Identifier: GPL-2.0-or-later
"""Ground over what it is measured to: the pieces of both, and how deep each is, split where the depth is zero."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from ..errors import BadInput
from ..quantity import Floats, Ints
from .outline import Filled, fill_outline
from .overlay import Facets, Pieces, clip, facets_of, lay_over
from .surface import Surface
from .target import TargetPlane

SAME = 1e-9
"""Metres: depths below a nanometre are none, so that a surface measured to itself, however triangulated, is level and
not half cut and half fill by rounding."""


@dataclass(frozen=True, eq=False)
class Depths:
    """Pieces and the depth of each at its corners: positive where the ground lies above (cut).

    Attributes:
        pieces: convex, not split yet, or split at zero.
        depth: (s, n) metres; a piece of fewer corners repeats its first.
    """

    pieces: Pieces
    depth: Floats

    def split(self) -> tuple[Depths, Depths, Depths]:
        """What is cut, what is fill, and what is neither; the split is exact, as a piece's depth is affine."""
        above, below = (self.depth > 0.0).any(axis=0), (self.depth < 0.0).any(axis=0)
        level = self.only(np.flatnonzero(~above & ~below))
        if not (above & below).any():
            return self.only(np.flatnonzero(above)), self.only(np.flatnonzero(below)), level
        return self.part(0.0, np.inf), self.part(-np.inf, 0.0), level

    def part(self, least: float, most: float) -> Depths:
        """What lies between two depths, metres; what only touches them is left out."""
        out = self
        for sign, bound in ((1.0, least), (-1.0, most)):
            if not np.isfinite(bound):
                continue
            d = sign * (out.depth - bound)
            # The depth is affine, so it is cut as the places are.
            (x, y, depth), kept = clip((out.pieces.x, out.pieces.y, out.depth), d)
            pieces = out.pieces.only(kept)
            cut = Pieces(x, y, pieces.upper, pieces.lower)
            out = Depths(cut, np.where(np.abs(depth - bound) < SAME, bound, depth))
        return out

    def at(self, bounds: Floats) -> Depths:
        """The same, depths that are a bound but for rounding being that."""
        depth = self.depth.copy()
        for bound in bounds:
            depth[np.abs(depth - bound) < SAME] = bound
        return Depths(self.pieces, depth)

    def only(self, keep: Ints) -> Depths:
        """Some of them, by number."""
        return Depths(self.pieces.only(keep), self.depth.take(keep, axis=1))


@dataclass(frozen=True, eq=False)
class Ground:
    """A surface over another or over a plane, within outlines.

    Attributes:
        upper: the ground there is.
        target: what it is measured to, a surface or a plane.
        rings: outlines with voids, (k, 2) each in metres, of which what is enclosed an odd number of times counts; None:
            the whole surface.
        strip: metres that are taken off the ground beforehand.
    """

    upper: Surface
    target: Surface | TargetPlane
    rings: Sequence[Floats] | None = None
    strip: float = 0.0

    def __post_init__(self) -> None:
        if not np.isfinite(self.strip) or self.strip < 0.0:
            raise BadInput("The strip is {strip} m deep. Give a depth that is 0 or more.", strip=self.strip)
        for surface in self.surfaces:
            if not len(surface.triangles):
                raise BadInput("A surface has no triangles, so there is nothing to measure.")
            if not np.isfinite(surface.points).all():
                raise BadInput("A surface has a point without place or height. Build it again.")

    @property
    def surfaces(self) -> tuple[Surface, ...]:
        """The one or two that points are of."""
        return (self.upper, self.target) if isinstance(self.target, Surface) else (self.upper,)

    @cached_property
    def centre(self) -> Floats:
        """(3,) of the upper surface; every product is about it."""
        return np.asarray(0.5 * (self.upper.points.min(axis=0) + self.upper.points.max(axis=0)))

    @cached_property
    def above(self) -> Facets:
        """The upper surface about the centre."""
        return facets_of(self.upper, self.centre)

    @cached_property
    def below(self) -> Facets | None:
        """The lower surface about the centre; None of a plane."""
        return facets_of(self.target, self.centre) if isinstance(self.target, Surface) else None

    @cached_property
    def filled(self) -> Filled | None:
        """The outlines' ground, metres from the centre."""
        return None if self.rings is None else fill_outline([ring - self.centre[:2] for ring in self.rings])

    def within(self, rings: Sequence[Floats]) -> Ground:
        """The same within outlines, with only the triangles that come near them."""
        xy = np.vstack(list(rings)) if len(rings) else np.empty((0, 2))
        if not len(xy) or not np.isfinite(xy).all():
            return replace(self, rings=rings)
        low, high = xy.min(axis=0), xy.max(axis=0)
        target = self.target
        below = _near(target, low, high) if isinstance(target, Surface) else target
        return replace(self, upper=_near(self.upper, low, high), target=below, rings=rings)

    def depths(self) -> Iterator[Depths]:
        """The pieces, in blocks."""
        for pieces in lay_over(self.above, self.below, self.filled):
            if len(pieces):
                depth = self.depth_at(pieces, pieces.x, pieces.y)
                depth[np.abs(depth) < SAME] = 0.0
                yield Depths(pieces, depth)

    def depth_at(self, pieces: Pieces, x: Floats, y: Floats) -> Floats:
        """Depths at places (..., n) of pieces, metres."""
        top = self.above.heights_at(pieces.upper, x, y)
        if self.below is not None:
            return np.asarray(top - self.strip - self.below.heights_at(pieces.lower, x, y))
        assert isinstance(self.target, TargetPlane)  # noqa: S101 - else there is a surface below
        return np.asarray(top - self.strip - self.target.heights_at(x, y, self.centre))


def _near(surface: Surface, low: Floats, high: Floats) -> Surface:
    """The triangles that meet a box; of none, the first, so that there is a surface."""
    keep = surface.box_order.meeting(low, high)
    keep = keep if len(keep) else np.arange(1)
    used, number = np.unique(surface.triangles[keep], return_inverse=True)
    return replace(
        surface,
        points=surface.points[used],
        triangles=number.reshape(-1, 3).astype(np.int64),
        sigma=surface.sigma[used],
        shared=surface.shared[used],
        is_weak=surface.is_weak[keep],
    )
