# SPDX-License-Identifier: GPL-2.0-or-later
"""The map projection about many places at once: how longitude and latitude change with the map's coordinates.

The map is cut into square cells. In each, longitude and latitude are polynomials of the fourth degree of the place,
through places that PROJ gave; their derivatives are the metric at any point of the cell, at a tenth of what PROJ
would take for every corner of every outline.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from math import perm

import numpy as np

from ...quantity import Floats, Ints

CELL = 10_000.0
"""Metres: side of a cell. At a cell's corner 7 km from its middle the first derivatives are good to 1e-10 at 75 degrees
of latitude (measured against PROJ), and better nearer to the equator."""
SPAN = 1 << 32
"""Rows of cells, more than any map has: column and row of a cell are one number."""
NODES = 5
"""Places of PROJ along each side of a cell."""
POWERS = [(i, j) for i in range(5) for j in range(5 - i)]
MOST_CELLS = 200_000
"""Cells that are remembered: some 50 MB."""


@dataclass(eq=False)
class CellMetric:
    """The metric of one projection, cell by cell as they are asked for.

    Attributes:
        lonlat: (n, 2) map coordinates -> (n, 2) degrees, infinite where there is no such place.
        unit_m: metres by unit of the map.
    """

    lonlat: Callable[[Floats], Floats]
    unit_m: float
    _ids: Ints = field(default_factory=lambda: np.zeros(0, np.int64))
    _terms: Floats = field(default_factory=lambda: np.zeros((0, 2, len(POWERS))))

    def derivatives(self, places: Floats) -> Floats:
        """(2, 6, n) of longitude and latitude, in radians, at map places (n, 2) in the map's own unit: the value, by x,
        by y, by x twice, by x and y, by y twice."""
        size = CELL / self.unit_m
        cell = np.floor(places / size)
        ids = cell[:, 0].astype(np.int64) * SPAN + cell[:, 1].astype(np.int64) + SPAN // 2
        wanted, which = np.unique(ids, return_inverse=True)
        terms = self._terms_of(wanted, size)[which]
        x, y = ((places - (cell + 0.5) * size) / (0.5 * size)).T
        return _evaluate(terms, x, y, 0.5 * size)

    def _terms_of(self, wanted: Ints, size: float) -> Floats:
        """(c, 2, t) polynomials of cells, new ones taken from PROJ."""
        at = np.searchsorted(self._ids, wanted)
        known = at < len(self._ids)
        known[known] = self._ids[at[known]] == wanted[known]
        if not known.all():
            self._add(wanted[~known], size)
            at = np.searchsorted(self._ids, wanted)
        return np.asarray(self._terms[at])

    def _add(self, ids: Ints, size: float) -> None:
        cells = np.column_stack([ids // SPAN, ids % SPAN - SPAN // 2]).astype(float)
        places = ((cells + 0.5) * size)[:, None, :] + _GRID[None] * (0.5 * size)
        told = np.radians(self.lonlat(places.reshape(-1, 2))).reshape(len(ids), -1, 2)
        # Beyond the date line longitude goes on.
        first = told[:, :1, 0]
        told[:, :, 0] = first + np.remainder(told[:, :, 0] - first + np.pi, 2.0 * np.pi) - np.pi
        terms = np.einsum("tg,cgk->ckt", _SOLVE, told)
        kept, kept_terms = (
            (self._ids, self._terms) if len(self._ids) < MOST_CELLS else (self._ids[:0], self._terms[:0])
        )
        ids, terms = np.concatenate([kept, ids]), np.concatenate([kept_terms, terms])
        order = np.argsort(ids)
        self._ids, self._terms = ids[order], terms[order]


def _grid() -> Floats:
    """(g, 2) Chebyshev's places in a square from -1 to 1: a polynomial through them errs least at the edges."""
    line = np.cos((np.arange(NODES) + 0.5) * np.pi / NODES)
    return np.array([(x, y) for x in line for y in line])


_GRID = _grid()
_SOLVE = np.linalg.pinv(np.column_stack([_GRID[:, 0] ** i * _GRID[:, 1] ** j for i, j in POWERS]))


def _derived() -> list[tuple[int, int, int, int, int]]:
    """Of each term and each derivative that it does not lose: their numbers, a factor, and the powers that are left."""
    orders = [(0, 0), (1, 0), (0, 1), (2, 0), (1, 1), (0, 2)]
    return [
        (t, k, perm(i, p) * perm(j, q), i - p, j - q)
        for t, (i, j) in enumerate(POWERS)
        for k, (p, q) in enumerate(orders)
        if i >= p and j >= q
    ]


_DERIVED = _derived()


def _evaluate(terms: Floats, x: Floats, y: Floats, half: float) -> Floats:
    """Values and derivatives of (n, 2, t) polynomials at places from -1 to 1, the derivatives by unit of the map."""
    xs, ys = [np.ones_like(x), x], [np.ones_like(y), y]
    for _ in range(3):
        xs.append(xs[-1] * x)
        ys.append(ys[-1] * y)
    out = np.zeros((2, 6, len(x)))
    columns = np.ascontiguousarray(terms.transpose(1, 2, 0))
    for t, k, factor, i, j in _DERIVED:
        basis = factor * xs[i] * ys[j]
        out[0, k] += columns[0, t] * basis
        out[1, k] += columns[1, t] * basis
    out[:, 1:3] /= half
    out[:, 3:] /= half * half
    return out
