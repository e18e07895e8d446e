# SPDX-License-Identifier: GPL-2.0-or-later
"""What the third coordinates of a layer are worth: heights, or none."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ...quantity import Floats
from .shapes import Flags, Shapes


@dataclass(frozen=True, eq=False)
class Heights:
    """Heights of points (n,) in metres, NaN where a feature has none; their means (f,); whether a feature has them.

    Heights that are all zero are none: many programs write z as 0 where nobody measured it. So are those of a
    feature of which one is missing.
    """

    z: Floats
    mean: Floats
    has: Flags


def heights_of(shapes: Shapes, unit_m: float, otherwise: float) -> Heights:
    """The heights of a block of features, and `otherwise` (metres) as the mean of those that have none."""
    f = len(shapes)
    if np.isnan(shapes.z).all():
        return Heights(shapes.z, np.full(f, otherwise), np.zeros(f, bool))
    feature = shapes.of_point
    count = np.bincount(feature, minlength=f)
    given = np.bincount(feature, weights=np.isfinite(shapes.z), minlength=f)
    some = np.bincount(feature, weights=np.nan_to_num(shapes.z) != 0.0, minlength=f)
    has = (count > 0) & (given == count) & (some > 0)
    z = np.where(has[feature], shapes.z * unit_m, np.nan)
    total = np.bincount(feature, weights=np.nan_to_num(z), minlength=f)
    return Heights(z, np.where(has, total / np.maximum(count, 1), otherwise), has)
