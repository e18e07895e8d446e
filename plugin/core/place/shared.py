# SPDX-License-Identifier: GPL-2.0-or-later
"""What the heights of a survey have in common, in few numbers by station, so that a surface built from them years later still
knows it: the largest parts of their covariance, and what each station then errs by itself.

Of more stations than `CHOSEN` the covariance is taken as it follows from that many of them, evenly chosen (Nystroem's way):
C' = C_ns C_ss^-1 C_sn is never more than C, and between the chosen ones a walk's drift hardly moves.

Source: Nystroem's approximation of a matrix from columns of it: Williams and Seeger, Advances in Neural Information Processing
Systems 13 (2001) 682-688. That C - C' is positive semidefinite: it is the Schur complement of C_ss.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ..quantity import Floats

if TYPE_CHECKING:
    from .fit import Placed

PARTS = 16
"""Numbers kept by station."""
CHOSEN = 160
"""Stations whose covariance with all is asked for."""
NOTHING = 1e-10
"""Of the largest eigenvalue: below it is rounding."""


@dataclass(frozen=True, eq=False)
class SharedHeights:
    """(n,) one-sigma of what each station's height errs by itself, metres; and (n, k) what it moves by with one sigma of each
    of k independent errors that the heights have in common, metres."""

    own: Floats
    shared: Floats


def shared_heights(placed: Placed, parts: int = PARTS) -> SharedHeights:
    """Of all stations of a survey: C = diag(own^2) + shared shared', the diagonal exactly, the rest as nearly as `parts`
    columns can, from the largest eigenvalues of C (of more than `CHOSEN` stations, of C')."""
    count = len(placed.xy)
    chosen = np.unique(np.linspace(0, count - 1, min(count, CHOSEN)).astype(np.int64))
    across = placed.height_columns(chosen)
    values, vectors = np.linalg.eigh(across[chosen])
    good = values > NOTHING * max(float(values[-1]), 0.0) if count else np.zeros(0, bool)
    root = across @ (vectors[:, good] / np.sqrt(values[good]))
    _, turn = np.linalg.eigh(root.T @ root)
    shared = root @ turn[:, ::-1][:, :parts]
    shared *= turned_up(shared)
    own = placed.height_sigma(np.arange(count)) ** 2 - (shared**2).sum(axis=1)
    return SharedHeights(np.sqrt(np.maximum(own, 0.0)), shared)


def turned_up(parts: Floats) -> Floats:
    """(k,) 1 or -1, by which columns have one sign on every machine: that makes the first entry positive which is at least
    half as large as the largest. Neither their sum nor the largest entry tells it: the one may be none, of the other may be two.
    """
    if not len(parts):
        return np.ones(parts.shape[1])
    size = np.abs(parts)
    first = (size >= 0.5 * size.max(axis=0)).argmax(axis=0)
    return np.where(parts[first, np.arange(parts.shape[1])] < 0.0, -1.0, 1.0)
