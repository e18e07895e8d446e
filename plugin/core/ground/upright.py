# SPDX-License-Identifier: GPL-2.0-or-later
"""Upright faces of lines, which no triangulation can hold: each is built leaning by a small run, and is told.

A face is known by a line that stands: two vertices that follow each other in one place, unlike in height (a riser); or by
two legs of one line, or of two lines of one face, that lie over each other, unlike in height (a wall's top and foot). Lines
that meet anywhere else at unlike heights are no face, and are told as before.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from ..findings import Finding, Severity
from ..quantity import Floats, Ints
from .face_sides import NO_SIDE, FaceSides
from .near import find_points_near
from .records import GroundLine, Levels
from .riser_joins import Legs, find_joins
from .unlike import is_unlike
from .weld import number_places

LEAN_M = 0.002
"""Metres between the foot and the top of a face in plan: twice what makes two points one, so that they stay two, and far
below what anybody builds to. A face of height h holds LEAN_M h / 2 by metre of its length too much or too little."""
LEAN_WITHINS = 2.0
"""And at least so many times the distance within which points are one."""
MOST_MITRE = 2.0
"""Of the run: a face's corner is moved no farther."""


@dataclass(frozen=True, eq=False)
class Leaned:
    """Levels and lines without upright faces, and the notes (GR-05) of what was made to lean."""

    levels: Levels
    lines: tuple[GroundLine, ...]
    findings: tuple[Finding, ...]


def lean_faces(levels: Levels, lines: Sequence[GroundLine], within: float) -> Leaned:
    """Let upright faces of lines lean, the foot by the run off the top.

    The foot of a riser goes along the leg that leads on from it, at a line's end along the way that led there. The foot of a
    wall goes to the side whose ground is lower; where the ground beside it does not tell, nothing is moved. Where another
    line runs through the foot alone, the top goes the other way instead. Everything of the same place and the same half of
    the height goes along. Heights, and what they are worth, stay.

    Args:
        levels: single points, all known.
        lines: all heights known.
        within: metres in plan in which points are one.
    """
    # Levels come in millions, and tell of no face: the lines alone are asked first.
    if not lines or not _Faces(Levels.joined([]), lines, within).is_any:
        return Leaned(levels, tuple(lines), ())
    return _Faces(levels, lines, within).leaned()


class _Faces:
    """Everything that stands, level by level and line by line in rows, and where its feet go."""

    def __init__(self, levels: Levels, lines: Sequence[GroundLine], within: float) -> None:
        self._levels, self._lines, self._within = levels, lines, within
        self._run = max(LEAN_M, LEAN_WITHINS * within)
        everything = [levels, *(Levels(line.points, line.sigma) for line in lines)]
        self._points = np.vstack([np.empty((0, 3)), *(np.reshape(one.points, (-1, 3)) for one in everything)])
        self._own = np.concatenate([np.asarray(one.sigma, float).reshape(-1) ** 2 for one in everything])
        shared = [levels.shared, *(line.shared for line in lines)]
        self._variance = self._own + np.concatenate([(some**2).sum(axis=1) for some in shared])
        self._shifts: dict[int, float] = {}
        self._starts = np.cumsum([0, *(len(one.points) for one in everything)])
        self._line = np.repeat(np.arange(-1, len(lines)), np.diff(self._starts))
        self._place, _ = number_places(self._points[:, :2], within)
        self._by_place = np.argsort(self._place, kind="stable")
        self._sorted = self._place[self._by_place]
        self._runs()
        self._moves = np.zeros((len(self._points), 2))
        self._is_moved = np.zeros(len(self._points), bool)
        self._findings: list[Finding] = []
        self._twins = self._twin_legs()
        self._tall = self._tall_runs()

    @property
    def is_any(self) -> bool:
        """Whether anything stands."""
        return bool(len(self._tall) or len(self._twins) or self._seams())

    def _runs(self) -> None:
        """Rows that follow each other in one place of one line: (n,) number, (r,) first and last row."""
        starts = np.ones(len(self._points), bool)
        starts[1:] = (np.diff(self._place) != 0) | (np.diff(self._line) != 0) | (self._line[1:] < 0)
        self._run_of = np.cumsum(starts) - 1
        self._first = np.flatnonzero(starts)
        self._last = np.append(self._first[1:], len(self._points)) - 1

    def _tall_runs(self) -> Ints:
        """Runs whose heights are unlike by what each is worth itself: what they share cancels between them."""
        many = np.flatnonzero(self._last > self._first)
        if not len(many):
            return many
        z = self._points[:, 2]
        high, low = np.maximum.reduceat(z, self._first)[many], np.minimum.reduceat(z, self._first)[many]
        own = np.maximum.reduceat(self._own, self._first)[many]
        return np.asarray(many[is_unlike(high - low, 2.0 * own)])

    def _seams(self) -> list[int]:
        """Lines whose first and last vertex stand over each other, unlike in height."""
        first, last = self._starts[1:-1], self._starts[2:] - 1
        k = np.flatnonzero(last - first > 1)
        k = k[self._place[first[k]] == self._place[last[k]]]
        return [line for line in k.tolist() if self._is_face(int(first[line]), int(last[line]))]

    def _is_face(self, a: int, b: int) -> bool:
        off = self._points[a, 2] - self._points[b, 2]
        return bool(self._place[a] == self._place[b] and is_unlike(off, self._own[a] + self._own[b]))

    def _legs(self) -> Ints:
        """Rows where legs of lines start."""
        return np.flatnonzero((np.diff(self._line) == 0) & (self._line[1:] >= 0))

    def _twin_legs(self) -> Ints:
        """(t, 2) rows where a lower leg and a higher one over it start; the higher runs either way."""
        a = self._legs()
        a = a[self._place[a] != self._place[a + 1]]
        ends = np.sort(np.column_stack([self._place[a], self._place[a + 1]]), axis=1)
        keys = np.column_stack([ends, self._face_numbers()[self._line[a]]]) if len(a) else ends
        order = np.lexsort((self._points[a, 2] + self._points[a + 1, 2], *keys.T[::-1]))
        same = (keys[order][1:] == keys[order][:-1]).all(axis=1)
        twins = []
        for one, other in zip(a[order][:-1][same].tolist(), a[order][1:][same].tolist()):
            pair = self._lower_first(one, other)
            twins += [] if pair is None else [pair]
        return np.array(twins, np.int64).reshape(-1, 2)

    def _face_numbers(self) -> Ints:
        """Of each line the face that it is of; a line without one is its own."""
        names: dict[str, int] = {}
        return np.array([names.setdefault(line.face or f"\0{k}", k) for k, line in enumerate(self._lines)])

    def _lower_first(self, one: int, other: int) -> tuple[int, int] | None:
        """Two legs over each other, the lower first; None where they are like, or neither is the lower at both ends."""
        theirs = [other, other + 1] if self._place[other] == self._place[one] else [other + 1, other]
        off = self._points[[one, one + 1], 2] - self._points[theirs, 2]
        unlike = is_unlike(off, self._own[[one, one + 1]] + self._own[theirs])
        if not unlike.any() or ((off[0] < 0.0) != (off[1] < 0.0) and unlike.all()):
            return None
        return (one, other) if off[unlike][0] < 0.0 else (other, one)

    # --- where to ---

    def leaned(self) -> Leaned:
        """Everything moved, and what is told of it."""
        standing = set(self._walls())
        tall = [run for run in self._tall.tolist() if int(self._place[self._first[run]]) not in standing]
        self._join(tall)
        for run in tall:
            self._lean_run(run)
        for line in self._seams():
            a, b = int(self._starts[line + 1]), int(self._starts[line + 2]) - 1
            low, high = (a, b) if self._points[a, 2] < self._points[b, 2] else (b, a)
            if int(self._place[a]) not in standing:
                self._lean(
                    low, high, self._way(low, 1 if low == a else -1), self._way(high, 1 if high == a else -1)
                )
        points = self._points.copy()
        points[:, :2] += self._moves
        lines = tuple(
            replace(line, points=points[a:b])
            for line, a, b in zip(self._lines, self._starts[1:], self._starts[2:])
        )
        return Leaned(replace(self._levels, points=points[: self._starts[1]]), lines, tuple(self._findings))

    def _way(self, row: int, step: int) -> Floats | None:
        """From a row along its line, forward (1) or back (-1), to the next place: a unit vector. At the line's end it goes on
        as the line came; None of a line of one place."""
        ahead = self._next(row, step)
        behind = self._next(row, -step) if ahead is None else None
        if ahead is None and behind is None:
            return None
        way = (
            self._points[ahead, :2] - self._points[row, :2]
            if ahead is not None
            else self._points[row, :2] - self._points[behind, :2]
        )
        return np.asarray(way / np.hypot(*way))

    def _next(self, row: int, step: int) -> int | None:
        """The next row of a line in another place; round a closed line over its seam."""
        line = self._line[row]
        begin, end = int(self._starts[line + 1]), int(self._starts[line + 2]) - 1
        run = self._run_of[row]
        beside = int(self._last[run]) + 1 if step > 0 else int(self._first[run]) - 1
        if begin <= beside <= end:
            return beside
        if end - begin < 2 or self._place[begin] != self._place[end]:
            return None
        over = self._run_of[begin if step > 0 else end]
        beside = int(self._last[over]) + 1 if step > 0 else int(self._first[over]) - 1
        return beside if begin <= beside <= end else None

    def _join(self, runs: Sequence[int]) -> None:
        """Risers that were walked a little off the edge that they stand on go there, foot and top."""
        rows = []
        for run in runs:
            first, last = int(self._first[run]), int(self._last[run])
            is_alone = (self._line[self._rows_at(first)] == self._line[first]).all()
            for row, other, step in ((first, last, -1), (last, first, 1)):
                ahead = self._next(row, step)
                if is_alone and ahead is not None and self._is_face(row, other):
                    rows.append((row, ahead, other))
        start, ahead, other = np.array(rows, np.int64).reshape(-1, 3).T
        for row, way in find_joins(
            Legs(self._points, self._variance, self._line, self._legs()), start, ahead, other
        ).items():
            if int(self._place[row]) not in self._shifts:
                self._points[self._rows_at(row), :2] += way
                self._shifts[int(self._place[row])] = float(np.hypot(*way))

    def _lean_run(self, run: int) -> None:
        """A riser: from where the line comes up to its top, and from there down again."""
        rows = np.arange(self._first[run], self._last[run] + 1)
        z = self._points[rows, 2]
        top = int(np.argmax(z))
        if (np.diff(z[: top + 1]) < 0.0).any() or (np.diff(z[top:]) > 0.0).any():
            return
        feet = [(int(rows[0]), -1)] if self._is_face(int(rows[0]), int(rows[top])) else []
        feet += [(int(rows[-1]), 1)] if self._is_face(int(rows[-1]), int(rows[top])) else []
        for foot, step in feet:
            between = rows[(rows > min(foot, rows[top])) & (rows < max(foot, rows[top]))]
            self._flatten(between, foot, int(rows[top]))
            if len(feet) > 1:
                self._move_alone(foot, self._way(foot, step))
                self._findings.append(self._told(foot, int(rows[top])))
            else:
                self._lean(foot, int(rows[top]), self._way(foot, step), self._way(int(rows[top]), -step))

    def _lean(self, foot: int, top: int, foot_way: Floats | None, top_way: Floats | None) -> None:
        """A riser by its foot, or by its top where another line runs through the foot alone."""
        row, other, way = foot, top, foot_way
        if self._stands_on_another(foot, top):
            row, other, way = top, foot, top_way
        if way is not None and not self._is_moved[row]:
            self._move(row, other, way)
            self._findings.append(self._told(row, other))

    def _flatten(self, rows: Ints, foot: int, top: int) -> None:
        """Vertices half way up a face say nothing more of it: each becomes the nearer of its ends."""
        middle = 0.5 * (self._points[foot, 2] + self._points[top, 2])
        for row in rows.tolist():
            end = foot if self._points[row, 2] < middle else top
            self._points[row], self._own[row] = self._points[end], self._own[end]

    def _stands_on_another(self, foot: int, top: int) -> bool:
        """Whether legs of lines run through a face's place at the height of its foot, and nothing of another line is at that
        of its top."""
        middle = 0.5 * (self._points[foot, 2] + self._points[top, 2])
        heights = self._passing.get(int(self._place[foot]), [])
        beside = self._rows_at(top)
        beside = beside[(self._line[beside] >= 0) & (self._line[beside] != self._line[top])]
        is_joined = bool((self._points[beside, 2] >= middle).any()) or any(z >= middle for z in heights)
        return not is_joined and any(z < middle for z in heights)

    @cached_property
    def _passing(self) -> dict[int, list[float]]:
        """By place, the heights of the legs that run through where something stands, without a vertex there."""
        p, place, legs = self._points, self._place, self._legs()
        seams = [int(self._starts[line + 1]) for line in self._seams()]
        feet = np.concatenate([self._twins[:, 0], self._twins[:, 0] + 1])
        rows = np.concatenate([self._first[self._tall], feet, np.array(seams, np.int64)])
        rows = rows[np.unique(place[rows], return_index=True)[1]]
        out: dict[int, list[float]] = {}
        for some, at in find_points_near(p[legs, :2], p[legs + 1, :2], p[rows, :2], self._within):
            leg, row = legs[some], rows[at]
            through = (place[leg] != place[row]) & (place[leg + 1] != place[row])
            leg, row = leg[through], row[through]
            way, to = p[leg + 1, :2] - p[leg, :2], p[row, :2] - p[leg, :2]
            square = np.maximum((way**2).sum(axis=1), self._within**2)
            part = (way * to).sum(axis=1) / square
            off = np.abs(way[:, 0] * to[:, 1] - way[:, 1] * to[:, 0]) / np.sqrt(square)
            on = (off <= self._within) & (part > 0.0) & (part < 1.0)
            z = p[leg, 2] * (1.0 - part) + p[leg + 1, 2] * part
            for number, height in zip(place[row[on]].tolist(), z[on].tolist()):
                out.setdefault(number, []).append(height)
        return out

    def _rows_at(self, row: int) -> Ints:
        """All rows at a row's place."""
        place = self._place[row]
        a, b = np.searchsorted(self._sorted, [place, place + 1])
        return np.asarray(self._by_place[a:b])

    def _move(self, row: int, other: int, way: Floats) -> None:
        """One end of a face by the run along a way, and what else is at its place and in its half of the height."""
        middle = 0.5 * (self._points[row, 2] + self._points[other, 2])
        rows = self._rows_at(row)
        below = self._points[row, 2] < middle
        along = rows[((self._points[rows, 2] < middle) == below) & ~self._is_moved[rows]]
        self._moves[along] = self._run * way
        self._is_moved[along] = True

    def _move_alone(self, row: int, way: Floats | None) -> None:
        if way is not None:
            self._moves[row] = self._run * way
            self._is_moved[row] = True

    # --- walls ---

    def _walls(self) -> Iterator[int]:
        """Move the feet of walls; yields the places of all of them."""
        for stretch in self._stretches():
            pairs = self._twins[stretch]
            feet = np.append(pairs[:, 0], pairs[-1, 0] + 1)
            yield from self._place[feet].tolist()
            tops = self._tops(pairs)
            side = self._sides.foot_side(feet, tops)
            if side == NO_SIDE:
                continue
            is_on_another = any(map(self._stands_on_another, feet.tolist(), tops.tolist()))
            rows, others, side = (tops, feet, -side) if is_on_another else (feet, tops, side)
            for row, other, way in zip(rows.tolist(), others.tolist(), self._sideways(feet)):
                self._move(row, other, side * way)
            tallest = int(np.argmax(self._points[tops, 2] - self._points[feet, 2]))
            self._findings.append(self._told(int(rows[tallest]), int(others[tallest])))

    @cached_property
    def _sides(self) -> FaceSides:
        return FaceSides(self._points, self._place)

    def _tops(self, pairs: Ints) -> Ints:
        """The rows of the higher legs over the feet of a stretch."""
        first, higher = self._place[pairs[:, 0]], pairs[:, 1]
        at = np.where(self._place[higher] == first, higher, higher + 1)
        last = int(pairs[-1, 1])
        return np.append(at, last + 1 if at[-1] == last else last)

    def _stretches(self) -> Iterator[Ints]:
        """Rows of the twins whose lower legs follow each other."""
        if not len(self._twins):
            return
        order = np.argsort(self._twins[:, 0], kind="stable")
        lower = self._twins[order, 0]
        order = order[np.concatenate([[True], np.diff(lower) > 0])]
        breaks = np.flatnonzero(np.diff(self._twins[order, 0]) != 1) + 1
        yield from np.split(order, breaks)

    def _sideways(self, feet: Ints) -> Floats:
        """(k, 2) to the left of the way along feet, mitred at its corners, in units of the run."""
        xy = self._points[feet, :2]
        way = np.diff(xy, axis=0)
        left = np.column_stack([-way[:, 1], way[:, 0]]) / np.hypot(*way.T)[:, None]
        before, after = np.vstack([left[:1], left]), np.vstack([left, left[-1:]])
        if self._place[feet[0]] == self._place[feet[-1]]:
            before[0], after[-1] = left[-1], left[0]
        both = before + after
        square = (both**2).sum(axis=1)
        # Of two normals n and m the mitre is (n + m) 2 / |n + m|^2.
        size = np.minimum(2.0 / np.sqrt(np.maximum(square, 1e-12)), MOST_MITRE)
        return np.asarray(both / np.sqrt(np.maximum(square, 1e-12))[:, None] * size[:, None])

    def _told(self, row: int, other: int) -> Finding:
        x, y, z = self._points[row].tolist()
        line = self._lines[int(self._line[row])].name
        shift, off = self._shifts.get(int(self._place[row]), 0.0), float(np.hypot(*self._moves[row]))
        low, high = sorted((z, float(self._points[other, 2])))
        place = f"{x:.3f}, {y:.3f} (survey plane)"
        data = {"place": place, "low": low, "high": high, "off": off, "line": line, "shift": shift}
        return replace(_SHIFTED if shift else _LEANING, data=data, at=(x, y))


_LEANING = Finding(
    "GR-05",
    Severity.NOTE,
    "survey",
    "An upright face of the breakline {line} at {place}, {low:.3f} to {high:.3f} m, is built leaning: its foot stands "
    "{off:.4f} m off its top in plan.",
    "Nothing has to be done; volumes over it are off by at most half that run times its height, per metre of its length. Draw "
    "foot and top apart where the face leans more.",
)
_SHIFTED = Finding(
    "GR-05",
    Severity.NOTE,
    "survey",
    "An upright face of the breakline {line} was drawn {shift:.3f} m off the edge at {place} that it stands on; it is put there, "
    "{low:.3f} to {high:.3f} m, and built leaning: its foot stands {off:.4f} m off its top in plan.",
    "Nothing has to be done where the face stands on that edge. Else correct the heights where the two lines cross.",
)
