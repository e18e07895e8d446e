# SPDX-License-Identifier: GPL-2.0-or-later
"""Volumes from areas of sections: average end area, pyramid and prismoid, for the working; the exact one is volume.py's.

Between two sections L apart with the areas a and b the average end area is L (a + b) / 2; where one of them is 0 the
solid comes to a point, and the pyramid rule L a / 3 counts. With the middle section m the prismoid is L (a + 4 m + b) / 6,
exact where areas go with the chainage to the third power or less.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

import numpy as np

from ..errors import BadInput
from ..quantity import Floats
from .levels import sum_gradients
from .profile import SectionArea
from .surface import Surface


class Rule(Enum):
    """How a volume between two sections was come by."""

    AVERAGE = "average end area"
    PYRAMID = "pyramid"
    NONE = "nothing there"


@dataclass(frozen=True, eq=False)
class EndAreas:
    """Volumes of the (k-1,) lengths between sections, m3.

    Attributes:
        rules: of each length. volumes: by that rule. average: by the average end area alone, for comparison.
        total, plain_total: of both, m3.
    """

    rules: tuple[Rule, ...]
    volumes: Floats
    average: Floats

    @property
    def total(self) -> float:
        """By the rules, m3."""
        return float(self.volumes.sum())

    @property
    def plain_total(self) -> float:
        """By the average alone, m3."""
        return float(self.average.sum())


def end_area_volumes(chainage: Floats, areas: Floats) -> EndAreas:
    """Average end area, with the pyramid rule where an end is 0; for cut and for fill apart, never for what is left.

    Args:
        chainage: (k,) of the sections, metres, rising.
        areas: (k,) m2, none negative.
    Raises:
        BadInput: fewer than two sections, chainages that do not rise, or an area that is none.
    Source:
        Wikibooks, Fundamentals of Transportation, Earthwork (tests/published/test_sections.py holds its example).
    Example:
        >>> end_area_volumes(np.array([0.0, 15.0]), np.array([5.0, 0.0])).total
        25.0
    """
    length = _lengths(chainage, areas)
    a, b = areas[:-1], areas[1:]
    average = 0.5 * length * (a + b)
    pointed = (a == 0.0) != (b == 0.0)
    rules = tuple(
        Rule.NONE if not v else Rule.PYRAMID if p else Rule.AVERAGE for v, p in zip(average.tolist(), pointed)
    )
    return EndAreas(rules, np.where(pointed, length * (a + b) / 3.0, average), average)


def prismoid_volumes(chainage: Floats, areas: Floats, middles: Floats) -> Floats:
    """(k-1,) m3 by the prismoidal rule, from (k,) chainages in metres, (k,) areas and the (k-1,) half way between, m2.

    Raises:
        BadInput: as `end_area_volumes`.
    """
    length = _lengths(chainage, areas)
    if len(middles) != len(length) or not (np.isfinite(middles) & (middles >= 0.0)).all():
        raise BadInput("Each length between two sections needs one middle section with an area of 0 or more.")
    return np.asarray(length * (areas[:-1] + 4.0 * middles + areas[1:]) / 6.0)


def prismoidal_correction(widths: tuple[float, float], depths: tuple[float, float], length: float) -> float:
    """m3 to take off the average end area of two triangular sections: L / 12 (w1 - w2) (d1 - d2).

    Args:
        widths: of the two sections, metres.
        depths: of them, metres.
        length: between them, metres.
    """
    return length / 12.0 * (widths[0] - widths[1]) * (depths[0] - depths[1])


def _lengths(chainage: Floats, areas: Floats) -> Floats:
    length = np.diff(chainage)
    if len(chainage) < 2 or len(areas) != len(chainage) or not (length > 0.0).all():
        raise BadInput("A volume from end areas needs two sections or more, in the order of their chainages.")
    bad = np.flatnonzero(~(np.isfinite(areas) & (areas >= 0.0)))
    if len(bad):
        raise BadInput(
            "The section at chainage {chainage:.3f} m has an area of {area:g} m2. Areas of cut and of fill are 0 or more, "
            "and are never netted.",
            chainage=chainage[bad[0]],
            area=areas[bad[0]],
        )
    return length


def end_area_sigmas(
    chainage: Floats, sections: tuple[SectionArea, ...], pair: tuple[Surface, Surface], reach: float
) -> Floats:
    """(k-1,) one-sigma of each length's volume, m3, and behind them that of the total.

    From the points of both surfaces exactly, with those that several sections share; from the ground between the points
    with the correlation exp(-distance / reach) of sections so far apart. What the rule itself leaves out between the
    sections is in none of them: hold the total against the exact volume.

    Args:
        chainage: (k,) metres.
        sections: (k,) areas of cut, or of fill.
        pair: the two surfaces, taken as independent of each other.
        reach: the larger of the surfaces', metres.
    """
    areas = np.array([s.area.value for s in sections])
    length = _lengths(chainage, areas)
    pointed = (areas[:-1] == 0.0) != (areas[1:] == 0.0)
    factor = length * np.where(pointed, 1.0 / 3.0, 0.5)
    alike = np.exp(-length / reach) if reach > 0.0 else np.zeros(len(length))
    rough = np.array([s.rough for s in sections])
    out = np.empty(len(length) + 1)
    for k, f in enumerate(factor):
        one, other = sections[k : k + 2]
        points = sum(
            sum_gradients((g, h), (1.0, 1.0)).variance(s)
            for g, h, s in zip(one.gradients, other.gradients, pair)
        )
        ground = rough[k] ** 2 + rough[k + 1] ** 2 + 2.0 * alike[k] * rough[k] * rough[k + 1]
        out[k] = f * np.sqrt(points + ground)
    by_section = np.concatenate([factor, [0.0]]) + np.concatenate([[0.0], factor])
    out[-1] = np.sqrt(
        sum(
            sum_gradients([s.gradients[side] for s in sections], by_section.tolist()).variance(pair[side])
            for side in (0, 1)
        )
        + _ground_variance(by_section * rough, chainage, reach)
    )
    return out


def _ground_variance(change: Floats, chainage: Floats, reach: float) -> float:
    if not reach > 0.0:
        return float((change**2).sum())
    return float(
        sum(
            c * (change * np.exp(-np.abs(chainage - at) / reach)).sum()
            for c, at in zip(change.tolist(), chainage.tolist())
        )
    )
