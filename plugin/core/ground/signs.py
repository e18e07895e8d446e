# SPDX-License-Identifier: GPL-2.0-or-later
"""On which side of a line a point lies, exactly: in floats where their rounding leaves no doubt, else in fractions.

Source: the error bound of the float's determinant is Shewchuk, Adaptive precision floating-point arithmetic and fast
robust geometric predicates, Discrete and Computational Geometry 18 (1997) 305-363, bound A of the orientation.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import numpy as np
import numpy.typing as npt

from ..quantity import Floats

Signs = npt.NDArray[np.int64]
Place = Sequence[float]

DOUBT = (3.0 + 16.0 * 2.0**-53) * 2.0**-53
"""Of the sum of the products' sizes: a determinant below this may have the wrong sign."""
TINY = 1e-290
"""Below this, products may have lost digits at the small end of the floats."""


def sides_of(a: Floats, b: Floats, c: Floats) -> Signs:
    """(n,) 1 where c (n, 2) lies left of the line from a to b, -1 right of it, 0 on it; exact."""
    left = (a[:, 0] - c[:, 0]) * (b[:, 1] - c[:, 1])
    right = (a[:, 1] - c[:, 1]) * (b[:, 0] - c[:, 0])
    det: Floats = left - right
    signs: Signs = np.sign(det).astype(np.int64)
    doubtful = np.flatnonzero(np.abs(det) <= DOUBT * (np.abs(left) + np.abs(right)) + TINY)
    for k in doubtful.tolist():
        signs[k] = _exact(a[k].tolist(), b[k].tolist(), c[k].tolist())
    return signs


def side_of(a: Place, b: Place, c: Place) -> int:
    """1 where c lies left of the line from a to b, -1 right of it, 0 on it; exact."""
    left = (a[0] - c[0]) * (b[1] - c[1])
    right = (a[1] - c[1]) * (b[0] - c[0])
    det = left - right
    if abs(det) > DOUBT * (abs(left) + abs(right)) + TINY:
        return 1 if det > 0.0 else -1
    return _exact(a, b, c)


def _exact(a: Place, b: Place, c: Place) -> int:
    cx, cy = Fraction(c[0]), Fraction(c[1])
    det = (Fraction(a[0]) - cx) * (Fraction(b[1]) - cy) - (Fraction(a[1]) - cy) * (Fraction(b[0]) - cx)
    return (det > 0) - (det < 0)


def exact_cotangent(a: Place, b: Place, c: Place) -> Fraction:
    """Cotangent of the angle at c over the base from a to b, for c strictly left of it: of several points the one
    with the least cotangent has the others outside its circle through a and b."""
    ax, ay, bx, by, cx, cy = map(Fraction, (*a, *b, *c))
    cross = (ax - cx) * (by - cy) - (ay - cy) * (bx - cx)
    return ((ax - cx) * (bx - cx) + (ay - cy) * (by - cy)) / cross
