# SPDX-License-Identifier: GPL-2.0-or-later
"""Small symmetric systems, solved without waiting for the threads of a matrix library."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numpy as np

from ...quantity import Floats

DENSE = 1200
"""Unknowns up to which a system is solved dense."""


@lru_cache(maxsize=1)
def _kernel() -> Any | None:
    try:
        from scipy.linalg.lapack import dsysv
    except ImportError:
        return None
    return dsysv


def solve_symmetric(matrix: Floats, right: Floats) -> Floats:
    """X of matrix x = right, for a symmetric matrix that need not be positive; NaN where it is singular.

    Where scipy is there, by its plain factorisation (Bunch and Kaufman): numpy's general one hands even 20 unknowns
    to several threads, and on a busy machine waits milliseconds for them.

    Args:
        matrix: (n, n), symmetric.
        right: (n,) or (n, m).
    """
    if len(matrix) > DENSE and right.ndim == 1:
        from scipy.sparse import csc_matrix
        from scipy.sparse.linalg import splu

        return np.asarray(splu(csc_matrix(matrix)).solve(right))
    kernel = _kernel()
    if kernel is None:
        try:
            return np.asarray(np.linalg.solve(matrix, right))
        except np.linalg.LinAlgError:
            return np.full(right.shape, np.nan)
    _, _, found, info = kernel(matrix, right)
    return np.asarray(found).reshape(right.shape) if info == 0 else np.full(right.shape, np.nan)


def invert_symmetric(matrix: Floats) -> Floats:
    """(n, n) inverse of a symmetric matrix; NaN where there is none."""
    return solve_symmetric(matrix, np.eye(len(matrix)))
