# SPDX-License-Identifier: GPL-2.0-or-later
"""Stands in the fixes of a satellite receiver: where the walker held still, and how well the place is known.

A stand is told from a slow walk by its speed: the mean of the fixes just after against that of the fixes just
before, over a time long enough for the receiver's own noise to show less than slow walking does. What is slow is then
grown to all fixes about its middle, and kept where it lasts and has moved no further than the receiver may drift.
The method and its limits are this project's own; the limits are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from ...quantity import Floats

SHORTEST = 5.0
"""s: held for less is no stand."""
FEWEST = 4
"""Fixes of a stand."""
STILL = 0.15
"""m/s: slower is held still. Half the pace of the slowest walk that must not be taken for a stand, 0.3 m/s."""
SPEED_SIGMA = 0.05
"""m/s: one-sigma of a speed that tells STILL from 0.3 m/s with three sigma; windows are widened until they have it."""
NARROWEST, WIDEST = 2.5, 60.0
"""s: of a speed's window, on either side."""
WIDER = 1.3
"""By which a window is widened at a time."""
SWAY = 0.02
"""m: a receiver held by hand moves so much, whatever its own sigma."""
FAR = 4.0
"""Sigma from the middle of a stand: an outlier."""
DRIFT = 2.0 * np.sqrt(2.0)
"""Sigma that the receiver may drift over a stand: two of the difference of two fixes."""
LONGEST_OUTAGE = 3.0
"""s: outliers for so long end no stand, if the fixes come back."""
LEAST_SIGMA = 0.005
"""m: no stand is known better."""
INDEPENDENT = 20.0
"""s: fixes nearer in time than this err alike (common practice, no source)."""
MAD_TO_SIGMA = 1.4826022185056018
"""1 / (the normal quantile of 3/4): sigma from the median of absolute deviations."""
AXIS, FLATTENING = 6_378_137.0, 1.0 / 298.257223563
"""WGS 84: semi-major axis in metres, flattening (NIMA TR 8350.2, 3rd edition)."""


@dataclass(frozen=True)
class Stand:
    """Fixes [first, end) of which those in `rows` are no outliers; `sd_xy` of their mean, metres per axis."""

    first: int
    end: int
    rows: tuple[int, ...]
    sd_xy: float


def walked_metres(lon: Floats, lat: Floats) -> Floats:
    """(n, 2) metres east and north of the first fix, summed along the track.

    Each step is measured with the radii of curvature of WGS 84 at its own middle latitude, so that lengths near one
    another are right (1e-6 over steps of kilometres) however long the track is and wherever it crosses 180 degrees.

    Args:
        lon: (n,) degrees.
        lat: (n,) degrees.

    Source:
        Snyder, Map Projections - A Working Manual (USGS Professional Paper 1395, 1987), (4-18) and (4-20).
    """
    if not len(lon):
        return np.zeros((0, 2))
    middle = np.radians((lat[1:] + lat[:-1]) / 2)
    e2 = FLATTENING * (2 - FLATTENING)
    w2 = 1 - e2 * np.sin(middle) ** 2
    across = AXIS / np.sqrt(w2)  # (4-20)
    along = AXIS * (1 - e2) / w2**1.5  # (4-18)
    turned = (np.diff(lon) + 180) % 360 - 180
    steps = np.column_stack([across * np.cos(middle) * np.radians(turned), along * np.radians(np.diff(lat))])
    return np.concatenate([np.zeros((1, 2)), np.cumsum(steps, axis=0)])


def find_stands(time: Floats, xy: Floats, sd: Floats) -> tuple[Stand, ...]:
    """The stands of a walk, in order.

    Args:
        time: (n,) seconds, finite and never falling.
        xy: (n, 2) metres (walked_metres).
        sd: (n,) one-sigma of each fix per axis in metres, stated or by its quality; finite.
    """
    if len(time) < FEWEST or time[-1] - time[0] < SHORTEST:
        return ()
    noise = _noise(xy)
    window = _window(time, noise)
    if window is None:
        return ()
    is_slow = _speeds(time, _without_spikes(xy), window) < STILL
    edges = np.flatnonzero(np.diff(np.concatenate([[False], is_slow, [False]]).astype(np.int8)))
    grower = _Grower(time, xy, sd, noise)
    pieces: list[_Piece] = []
    done = 0
    for first, end in edges.reshape(-1, 2).tolist():
        # a window shows its own edges as moving: a stand is that much longer than what is slow
        if end > done and time[end - 1] - time[first] + 2 * window >= SHORTEST:
            piece = grower.grown(max(first, done), end, done)
            done = piece.end
            pieces.append(piece)
    chains = grower.chained(piece for piece in pieces if piece.rows)
    return tuple(stand for chain in chains if (stand := grower.stand_of(chain)))


def _noise(xy: Floats) -> float:
    """One-sigma per axis of the fixes' own noise from one to the next: steady walking cancels out."""
    bend = xy[1:-1] - (xy[2:] + xy[:-2]) / 2
    # the variance of a fix less the mean of two others is 3/2 of one fix's
    return float(MAD_TO_SIGMA * np.median(np.abs(bend)) / np.sqrt(1.5))


def _window(time: Floats, noise: float) -> float | None:
    """Seconds on either side over which a speed is known to SPEED_SIGMA; None where the noise is too great."""
    steps = np.diff(time)
    step = float(np.median(steps[steps > 0])) if (steps > 0).any() else np.inf
    window = max(NARROWEST, 2 * step)
    while noise * np.sqrt(2 / (window / step + 1)) / window > SPEED_SIGMA:
        window *= WIDER
        if window > WIDEST:
            return None
    return window if np.isfinite(window) else None


def _without_spikes(xy: Floats) -> Floats:
    """(n, 2) the median of five fixes in place of each: two wrong ones among them do not show."""
    padded = np.pad(xy, ((2, 2), (0, 0)), mode="edge")
    return np.asarray(np.median(np.lib.stride_tricks.sliding_window_view(padded, 5, axis=0), axis=-1))


def _speeds(time: Floats, xy: Floats, window: float) -> Floats:
    """(n,) m/s: mean place after less mean place before; infinite where there are too few fixes on either side."""
    i = np.arange(len(time))
    low, high = np.searchsorted(time, time - window), np.searchsorted(time, time + window, side="right")
    sums = np.concatenate([np.zeros((1, 3)), np.cumsum(np.column_stack([xy, time - time[0]]), axis=0)])
    before, after = i + 1 - low, high - i
    step = (sums[high] - sums[i]) / after[:, None] - (sums[i + 1] - sums[low]) / before[:, None]
    is_known = (before + after > FEWEST - 1) & (step[:, 2] > 0)
    lapse = np.where(is_known, step[:, 2], 1.0)
    return np.where(is_known, np.hypot(step[:, 0], step[:, 1]) / lapse, np.inf)


@dataclass(frozen=True, eq=False)
class _Piece:
    """Fixes [first, end) looked at, of which `rows` lie about the middle (2,); `level` the receiver's sigma."""

    first: int
    end: int
    rows: tuple[int, ...]
    level: float
    middle: Floats


class _Grower:
    """Grows what is slow to the whole stand."""

    def __init__(self, time: Floats, xy: Floats, sd: Floats, noise: float) -> None:
        self._xy, self._sd, self._noise = xy, sd, noise
        self._times: list[float] = time.tolist()
        # fixes sparser than the longest outage end no stand by themselves
        self._outage = max(LONGEST_OUTAGE, 2 * float(np.median(np.diff(time))))
        self._places: list[tuple[float, float]] = list(map(tuple, xy.tolist()))

    def grown(self, first: int, end: int, free: int) -> _Piece:
        """The piece about the fixes [first, end) that begins at `free` at the earliest; without rows if it is short."""
        low, high = first, end
        for _ in range(2):
            middle, reach, level = self._middle(low, high)
            within = self._within(middle, reach)
            core = [i for i in range(low, high) if within(i)] or [(low + high) // 2]
            low = self._follow(core[0], -1, free - 1, within)
            high = self._follow(core[-1], 1, len(self._times), within) + 1
        rows = [i for i in range(low, high) if within(i)]
        is_long = len(rows) >= FEWEST and self._times[high - 1] - self._times[low] >= SHORTEST
        return _Piece(low, max(high, end), tuple(rows) if is_long else (), level, middle)

    def chained(self, pieces: Iterable[_Piece]) -> Iterator[list[_Piece]]:
        """Pieces that follow one another without a step away: a drifting receiver breaks one stand into several."""
        chain: list[_Piece] = []
        for piece in pieces:
            if chain and not self._goes_on(chain, piece):
                yield chain
                chain = []
            chain.append(piece)
        if chain:
            yield chain

    def _goes_on(self, chain: list[_Piece], piece: _Piece) -> bool:
        last = chain[-1]
        if self._times[piece.rows[0]] - self._times[last.rows[-1]] > self._outage:
            return False
        lapse = self._middle_time(piece) - self._middle_time(last)
        from_first = float(np.hypot(*(piece.middle - chain[0].middle)))
        return (
            float(np.hypot(*(piece.middle - last.middle))) < STILL * lapse
            and from_first <= DRIFT * piece.level
        )

    def _middle_time(self, piece: _Piece) -> float:
        return (self._times[piece.rows[0]] + self._times[piece.rows[-1]]) / 2

    def _middle(self, low: int, high: int) -> tuple[Floats, float, float]:
        """Median place, how far from it a fix may lie, and the receiver's sigma."""
        some = self._xy[low:high]
        middle = np.median(some, axis=0)
        scatter = MAD_TO_SIGMA * float(np.median(np.abs(some - middle)))
        level = max(float(np.median(self._sd[low:high])), SWAY)
        # a receiver may scatter more than it states, but no more than its fixes differ from one to the next
        reach = FAR * max(min(scatter, max(level, self._noise)), min(self._noise, level), SWAY / 2)
        # a quarter of its own sigma lets a wandering receiver be, and keeps the ends of the walks out
        return middle, max(reach, level / 4), level

    def _within(self, middle: Floats, reach: float) -> Callable[[int], bool]:
        x, y = float(middle[0]), float(middle[1])
        places, limit = self._places, reach * reach

        def within(i: int) -> bool:
            place = places[i]
            return (place[0] - x) ** 2 + (place[1] - y) ** 2 <= limit

        return within

    def _follow(self, start: int, step: int, stop: int, within: Callable[[int], bool]) -> int:
        """The last fix within, going from one that is; outliers for a short time are passed over."""
        last, i = start, start + step
        while i != stop and abs(self._times[i] - self._times[last]) <= self._outage:
            if within(i):
                last = i
            i += step
        return last

    def stand_of(self, chain: list[_Piece]) -> Stand | None:
        """The stand, if it moved no further than the receiver drifts."""
        rows = np.array([row for piece in chain for row in piece.rows], dtype=np.int64)
        low, high = int(rows[0]), int(rows[-1]) + 1
        places, span = self._xy[rows], self._times[high - 1] - self._times[low]
        third = max(len(rows) // 3, 1)
        net = float(np.hypot(*(np.median(places[-third:], axis=0) - np.median(places[:third], axis=0))))
        if net > min(DRIFT * max(piece.level for piece in chain), STILL * span * 2 / 3):
            return None
        scatter = float(np.sqrt(np.mean((places - places.mean(axis=0)) ** 2)))
        apart = max(span / INDEPENDENT, 1.0)
        sigma = max(float(np.median(self._sd[rows])), scatter / np.sqrt(apart), LEAST_SIGMA)
        return Stand(low, high, tuple(rows.tolist()), sigma)
