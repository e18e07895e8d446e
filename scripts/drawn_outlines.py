# SPDX-License-Identifier: GPL-2.0-or-later
"""Random outlines as a trade person would draw them, recorded row by row with noise: the truth that fits are held to.

Straights of 1 to 20 m; arcs of radius 1 to 30 m and a sweep of 20 to 180 degrees; two to eight pieces (closed ones up
to fourteen); full circles. Of the joints next to an arc four in five are tangent, so that there are S-curves (the turn
changes its side) and compound curves (it does not; their radii differ by a fifth at least); all others are corners
that turn by 30 to 120 degrees. A line does not cross itself.

Rows come each 0.1 to 0.5 m, uneven by 30 % of that, and close enough that every piece has eight or more; an outline
has 1,500 at most. Noise is 2 to 10 mm, one sigma of each axis, from row to row independent; the tolerance is 5 to 6
sigma.

Ragged edges are lines of which no straight or arc is true: noise of one to three tolerances on such an outline, even
errors of up to three tolerances, a heading that walks at random, waves of one to two tolerances, and stones whose faces
lie two tolerances (one sigma) to and fro.

This file shares no code with the core, so that it is a truth. Nothing in it is chosen by what a fit makes of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]

STRAIGHT = (1.0, 20.0)
RADIUS = (1.0, 30.0)
SWEEP = (np.radians(20.0), np.radians(180.0))
CORNER = (np.radians(30.0), np.radians(120.0))
STEP = (0.1, 0.5)
SIGMA = (0.002, 0.010)
TOLERANCE = (5.0, 6.0)
"""Sigma."""
UNEVEN = 0.3
TANGENT = 0.8
COMPOUND = 1.2
"""Times that one radius of a compound curve is larger than the other, at least."""
LEAST_ROWS = 8
MOST_ROWS = 1500
TELLING = 25.0
"""Chi-square: five sigma. A method that invents such a piece in one outline of a thousand only, wherever in it, asks
for some 3.7 sigma, and then still misses one piece in ten that is worth five."""


@dataclass(frozen=True)
class Piece:
    """One true piece: where it starts, its heading there (radians), its length, its curvature (1/m, positive to the
    left), and whether it starts tangent to the one before."""

    start: complex
    heading: float
    length: float
    curvature: float
    is_tangent: bool

    def at(self, u: Floats | float) -> npt.NDArray[np.complex128]:
        """The place u metres along it."""
        chord = u * np.sinc(0.5 * self.curvature * u / np.pi)
        return np.asarray(self.start + chord * np.exp(1j * (self.heading + 0.5 * self.curvature * u)))

    @property
    def turn(self) -> float:
        """Its sweep, radians."""
        return self.curvature * self.length


@dataclass
class Pen:
    """Draws pieces one after another."""

    pieces: list[Piece] = field(default_factory=list)
    place: complex = 0j
    heading: float = 0.0

    def go(self, length: float, curvature: float = 0.0, turn: float = 0.0) -> Pen:
        """One more piece, after a turn on the spot."""
        self.heading += turn
        is_tangent = turn == 0.0 and bool(self.pieces)
        piece = Piece(self.place, self.heading, length, curvature, is_tangent)
        self.pieces.append(piece)
        self.place, self.heading = complex(piece.at(length)), self.heading + piece.turn
        return self


@dataclass(frozen=True, eq=False)
class Drawn:
    """A recorded outline and its truth: `exact` and `points` (n, 2) without and with noise, metres; `piece` (n,) the
    true piece of each row, numbered along the line, a closed one from where its rows begin."""

    pieces: tuple[Piece, ...]
    closed: bool
    exact: Floats
    points: Floats
    piece: Ints
    sigma: float
    tolerance: float

    @property
    def kinds(self) -> str:
        """A letter a piece: S or A, small where it starts at a corner."""
        return told([p.curvature != 0.0 for p in self.pieces], [p.is_tangent for p in self.pieces])


def told(is_arc: Sequence[bool], is_tangent: Sequence[bool]) -> str:
    """Pieces as letters: S or A where a piece starts as a tangent, s or a where at a corner."""
    return "".join("sSaA"[2 * bool(arc) + bool(tangent)] for arc, tangent in zip(is_arc, is_tangent))


def draw_outline(seed: int) -> Drawn:
    """One outline: of 20 are seven open lines, six closed by a last straight, six polygons with corners rounded or
    not, one a full circle."""
    rng = np.random.default_rng(seed)
    family = rng.choice(["line", "closed", "rounded", "circle"], p=[0.35, 0.30, 0.30, 0.05])
    sigma = rng.uniform(*SIGMA)
    tolerance = sigma * rng.uniform(*TOLERANCE)
    while True:
        pieces, closed = _DRAW[family](rng)
        lengths = np.array([piece.length for piece in pieces])
        most = min(STEP[1], lengths.min() / (LEAST_ROWS + 1))
        least = max(STEP[0], lengths.sum() / MOST_ROWS)
        if most < least or not _is_simple(pieces, closed=closed):
            continue
        drawn = _record(rng, pieces, rng.uniform(least, most), (sigma, tolerance), closed=closed)
        if np.bincount(drawn.piece, minlength=len(pieces)).min() >= LEAST_ROWS:
            return drawn


RAGGED = ("white", "even", "heading", "waves", "stones")
RAGGED_TOLERANCE = 0.05
RAGGED_ROWS = 150


def draw_ragged(seed: int) -> Floats:
    """(n, 2) a ragged edge, metres; by the seed one of five kinds in turn, tolerance 0.05 m."""
    rng, kind = np.random.default_rng([seed, 1]), RAGGED[seed % len(RAGGED)]
    tolerance, n = RAGGED_TOLERANCE, RAGGED_ROWS
    x = np.arange(n) * 0.2
    if kind == "white":
        exact = draw_outline(seed).exact
        return np.asarray(exact + rng.normal(0.0, rng.uniform(1.0, 3.0) * tolerance, exact.shape))
    if kind == "even":
        return np.column_stack([x, rng.uniform(-3.0, 3.0, n) * tolerance])
    if kind == "heading":
        heading = np.cumsum(rng.normal(0.0, 0.7, n))
        return np.cumsum(0.2 * np.column_stack([np.cos(heading), np.sin(heading)]), axis=0)
    noise = rng.normal(0.0, 0.01, (n, 2))
    if kind == "stones":
        faces = np.repeat(rng.normal(0.0, 2.0 * tolerance, n), rng.integers(2, 6))[:n]
        return np.asarray(np.column_stack([0.5 * x, faces]) + noise)
    lengths = rng.uniform(0.6, 2.5, 4)
    waves = [rng.uniform(1.0, 2.0) * tolerance * np.sin(2.0 * np.pi * x / u) for u in lengths]
    return np.asarray(np.column_stack([x, np.sum(waves, axis=0)]) + noise)


def _record(
    rng: np.random.Generator,
    pieces: Sequence[Piece],
    step: float,
    noise: tuple[float, float],
    *,
    closed: bool,
) -> Drawn:
    ends = np.cumsum([piece.length for piece in pieces])
    n = int(ends[-1] / step) + 1
    s = np.linspace(0.0, ends[-1], n, endpoint=not closed)
    s[slice(None) if closed else slice(1, -1)] += rng.uniform(-UNEVEN, UNEVEN, n if closed else n - 2) * step
    if closed:
        s = np.sort((s + rng.uniform(0.0, ends[-1])) % ends[-1])
        s = np.roll(s, rng.integers(n))
    k = np.minimum(np.searchsorted(ends, s), len(pieces) - 1)
    at = np.array([complex(pieces[i].at(u - ends[i] + pieces[i].length)) for i, u in zip(k, s)])
    exact = np.column_stack([at.real, at.imag])
    points = exact + rng.normal(0.0, noise[0], exact.shape)
    order = list(dict.fromkeys(k.tolist()))
    place = np.argsort(order)
    return Drawn(tuple(pieces[i] for i in order), closed, exact, points, place[k], *noise)


def _corner(rng: np.random.Generator) -> float:
    return float(rng.choice([-1.0, 1.0]) * rng.uniform(*CORNER))


def _radius(rng: np.random.Generator) -> float:
    return float(np.exp(rng.uniform(*np.log(RADIUS))))


def _draw_pieces(rng: np.random.Generator, count: int) -> Pen:
    pen = Pen()
    for _ in range(count):
        before = pen.pieces[-1].curvature if pen.pieces else None
        is_arc = bool(rng.random() < (0.5 if before is None or before != 0.0 else 0.7))
        touches = before is not None and (is_arc or before != 0.0) and rng.random() < TANGENT
        turn = 0.0 if touches or before is None else _corner(rng)
        radius, side = _radius(rng), rng.choice([-1.0, 1.0])
        while touches and is_arc and before and before * side > 0 and _like(radius, 1.0 / abs(before)):
            radius = _radius(rng)
        if is_arc:
            pen.go(radius * rng.uniform(*SWEEP), side / radius, turn)
        else:
            pen.go(rng.uniform(*STRAIGHT), 0.0, turn)
    return pen


def _like(one: float, other: float) -> bool:
    return max(one, other) < COMPOUND * min(one, other)


def _draw_line(rng: np.random.Generator) -> tuple[list[Piece], bool]:
    return _draw_pieces(rng, int(rng.integers(2, 9))).pieces, False


def _draw_closed(rng: np.random.Generator) -> tuple[list[Piece], bool]:
    """A line closed by a straight that meets it at two corners."""
    while True:
        pen = _draw_pieces(rng, int(rng.integers(2, 8)))
        back = pen.pieces[0].start - pen.place
        heading = float(np.angle(back))
        turns = np.angle(np.exp(1j * np.array([heading - pen.heading, pen.pieces[0].heading - heading])))
        is_corner = (np.abs(turns) >= CORNER[0]) & (np.abs(turns) <= CORNER[1])
        if is_corner.all() and STRAIGHT[0] <= abs(back) <= STRAIGHT[1]:
            return [*pen.pieces, Piece(pen.place, heading, abs(back), 0.0, is_tangent=False)], True


def _draw_rounded(rng: np.random.Generator) -> tuple[list[Piece], bool]:
    """A polygon of three to seven corners, two in three of them rounded by a tangent arc."""
    while True:
        n = int(rng.integers(3, 8))
        angle = np.sort(rng.uniform(0.0, 2.0 * np.pi, n))
        size = rng.uniform(3.0, 20.0)
        corners = size * rng.uniform(0.5, 1.0, n) * np.exp(1j * angle)
        side = np.roll(corners, -1) - corners
        turns = np.angle(side / np.roll(side, 1))
        if np.abs(turns).min() < CORNER[0] or np.abs(turns).max() > CORNER[1]:
            continue
        radius = np.where(rng.random(n) < 2 / 3, [_radius(rng) for _ in range(n)], 0.0)
        cut = radius * np.tan(0.5 * np.abs(turns))
        left = np.abs(side) - cut - np.roll(cut, -1)
        if left.min() < STRAIGHT[0] or left.max() > STRAIGHT[1]:
            continue
        return _rounded(corners, side, turns, radius, cut), True


def _rounded(
    corners: npt.NDArray[np.complex128], side: npt.NDArray[np.complex128], *told: Floats
) -> list[Piece]:
    turns, radius, cut = told
    unit = side / np.abs(side)
    pieces: list[Piece] = []
    for i, corner in enumerate(corners):
        into = unit[i - 1]
        if radius[i]:
            heading, length = float(np.angle(into)), float(radius[i] * abs(turns[i]))
            curvature = float(np.sign(turns[i]) / radius[i])
            pieces.append(Piece(corner - cut[i] * into, heading, length, curvature, is_tangent=True))
        j = (i + 1) % len(corners)
        length = float(abs(side[i]) - cut[i] - cut[j])
        heading = float(np.angle(unit[i]))
        pieces.append(Piece(corner + cut[i] * unit[i], heading, length, 0.0, is_tangent=bool(radius[i])))
    return pieces


def _draw_circle(rng: np.random.Generator) -> tuple[list[Piece], bool]:
    radius = _radius(rng)
    side = float(rng.choice([-1.0, 1.0]))
    return [Piece(0j, 0.0, 2.0 * np.pi * radius, side / radius, is_tangent=True)], True


_DRAW = {"line": _draw_line, "closed": _draw_closed, "rounded": _draw_rounded, "circle": _draw_circle}


def _is_simple(pieces: Sequence[Piece], *, closed: bool) -> bool:
    from shapely.geometry import LinearRing, LineString

    at = np.concatenate([piece.at(np.linspace(0.0, piece.length, 24)[:-1]) for piece in pieces])
    xy = np.column_stack([at.real, at.imag])
    return bool((LinearRing(xy) if closed else LineString(xy)).is_simple)


def can_be_told(drawn: Drawn) -> bool:
    """Whether every piece differs from its neighbours by more than the noise could hide: of the exact rows, taking it
    as one with a neighbour (the best straight or circle through the rows of both), or leaving it out (its rows beside
    the nearer of its neighbours, drawn on), costs a chi-square of TELLING at least."""
    k, count = drawn.piece, len(drawn.pieces)
    pairs = [(j, (j + 1) % count) for j in range(count if drawn.closed else count - 1)]
    for i, j in pairs if count > 1 else []:
        own = drawn.exact[(k == i) | (k == j)]
        if _least_squares(own) < TELLING * drawn.sigma**2:
            return False
    return all(_left_out(drawn, j) >= TELLING * drawn.sigma**2 for j in range(count) if count > 2)


def _least_squares(own: Floats) -> float:
    """Sum of squares beside the best straight or circle, the smaller one, m2."""
    from scipy.optimize import least_squares

    q = own - own.mean(axis=0)
    straight = float(np.linalg.svd(q, compute_uv=False)[1] ** 2)
    start = np.linalg.lstsq(np.column_stack([2 * q, np.ones(len(q))]), (q**2).sum(axis=1), rcond=None)[0]
    radius = np.sqrt(max(start[2] + start[:2] @ start[:2], 1e-12))

    def misses(x: Floats) -> Floats:
        return np.asarray(np.hypot(q[:, 0] - x[0], q[:, 1] - x[1]) - x[2])

    arc = least_squares(misses, [*start[:2], radius], method="lm", x_scale="jac")
    return min(straight, float(2.0 * arc.cost))


def _left_out(drawn: Drawn, j: int) -> float:
    own, count = drawn.exact[drawn.piece == j], len(drawn.pieces)
    beside = [i % count for i in (j - 1, j + 1) if drawn.closed or 0 <= i < count]
    distances = [_distance(drawn.pieces[i], own) for i in beside]
    return float((np.min(distances, axis=0) ** 2).sum())


def _distance(piece: Piece, points: Floats) -> Floats:
    """From the straight or circle that a piece lies on."""
    away = (points[:, 0] + 1j * points[:, 1] - piece.start) * np.exp(-1j * piece.heading)
    if piece.curvature == 0.0:
        return np.asarray(np.abs(away.imag))
    return np.asarray(np.abs(np.abs(away - 1j / piece.curvature) - 1.0 / abs(piece.curvature)))
