# SPDX-License-Identifier: GPL-2.0-or-later
"""What could be meant by an outline that crosses itself, each with the area it would give."""

from __future__ import annotations

import numpy as np

from ...quantity import Floats
from ...segments import Curve, ring_area
from ...shape.crossing import find_crossing
from .shapes import Shapes

NOTHING = 1e-9
"""Square metres: no area."""


def tell_remedies(
    shapes: Shapes, ground: Floats, run: int, edges: tuple[int, int]
) -> tuple[str, dict[str, object]]:
    """A remedy as a template and what fills it: areas in m2 on the ground of the outline with the points between the
    two crossing sides in reverse order, cut in two where they cross, and without one point, where these mend it."""
    first, last = int(shapes.start[run]), int(shapes.start[run + 1])
    if shapes.is_mid[first:last].any():
        return "Redraw the arc or its neighbours so that they do not meet again.", {}
    points = ground[first : last - 1]
    i, j = edges
    turned = np.vstack([points[: i + 1], points[i + 1 : j + 1][::-1], points[j + 1 :]])
    reverse = _area(turned) if _is_simple(turned) else None
    split = _split(points, i, j)
    dropped = _without_one(points, (j, i + 1, i, j + 1))
    data: dict[str, object] = {"first": i + 2, "last": j + 1, "reverse": reverse}
    data.update({"one": split[0], "two": split[1]} if split else {})
    data.update({"corner": dropped[0] + 1, "without": dropped[1]} if dropped else {})
    return _TEMPLATES[reverse is not None, split is not None, dropped is not None], data


_TEMPLATES = {
    (False, False, False): "Redraw it.",
    (True, False, False): "List points {first} to {last} in reverse order ({reverse:.3f} m2).",
    (False, True, False): "Split it there ({one:.3f} and {two:.3f} m2).",
    (False, False, True): "Delete point {corner} ({without:.3f} m2).",
    (
        True,
        True,
        False,
    ): "List points {first} to {last} in reverse order ({reverse:.3f} m2), or split it there "
    "({one:.3f} and {two:.3f} m2).",
    (True, False, True): "List points {first} to {last} in reverse order ({reverse:.3f} m2), or delete point "
    "{corner} ({without:.3f} m2).",
    (
        False,
        True,
        True,
    ): "Split it there ({one:.3f} and {two:.3f} m2), or delete point {corner} ({without:.3f} m2).",
    (True, True, True): "List points {first} to {last} in reverse order ({reverse:.3f} m2), split it there "
    "({one:.3f} and {two:.3f} m2), or delete point {corner} ({without:.3f} m2).",
}


def _split(points: Floats, i: int, j: int) -> tuple[float, float] | None:
    n = len(points)
    a, b, c, d = points[i], points[(i + 1) % n], points[j], points[(j + 1) % n]
    ab, cd, ac = b - a, d - c, c - a
    det = ab[0] * cd[1] - ab[1] * cd[0]
    if det == 0.0:
        return None
    at = a + (ac[0] * cd[1] - ac[1] * cd[0]) / det * ab
    loop = np.vstack([at, points[i + 1 : j + 1]])
    rest = np.vstack([points[: i + 1], at, points[j + 1 :]])
    areas = _area(loop), _area(rest)
    return areas if min(areas) > NOTHING and _is_simple(loop) and _is_simple(rest) else None


def _without_one(points: Floats, corners: tuple[int, ...]) -> tuple[int, float] | None:
    """The first of some corners without which nothing crosses, and the area then."""
    if len(points) < 4:
        return None
    for k in (c % len(points) for c in corners):
        rest = np.delete(points, k, axis=0)
        if _is_simple(rest) and _area(rest) > NOTHING:
            return k, _area(rest)
    return None


def _curve(points: Floats) -> Curve:
    ring = np.vstack([points, points[:1]])
    return Curve(np.column_stack([ring, np.full(len(ring), np.nan)]), np.zeros(len(points)))


def _area(points: Floats) -> float:
    return abs(ring_area(_curve(points)))


def _is_simple(points: Floats) -> bool:
    return len(points) > 2 and find_crossing(_curve(points)) is None
