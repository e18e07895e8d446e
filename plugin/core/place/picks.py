# SPDX-License-Identifier: GPL-2.0-or-later
"""Map points picked from a picture: what each is worth."""

from __future__ import annotations

import math

from ..errors import BadInput


def pick_sigma(pixel: float, accuracy: float = 0.0) -> float:
    """One-sigma, each axis, of a point picked from a picture.

    Args:
        pixel: its size on the ground, metres: a point is told to half of it.
        accuracy: one-sigma of what the picture's points err by against each other, metres. What shifts the whole
            picture is no part of it: it moves the site and turns nothing.
    Raises:
        BadInput: one is negative or no number.
    Source:
        Half a pixel, common practice, no source; the two in quadrature (GUM, JCGM 100:2008, 5.1.2).
    """
    if not (math.isfinite(pixel) and math.isfinite(accuracy) and pixel >= 0.0 and accuracy >= 0.0):
        raise BadInput(
            "A pixel of {pixel} m and an accuracy of {accuracy} m are no sizes. Give both as 0 or more.",
            pixel=pixel,
            accuracy=accuracy,
        )
    return math.hypot(0.5 * pixel, accuracy)
