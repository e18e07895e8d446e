# SPDX-License-Identifier: GPL-2.0-or-later
"""Things that both pictures show: grass, beds, trees, roofs, painted marks, shadows."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from .canvas import Canvas, Colour, Mask
    from .geometry import Point

GRASS: Colour = (0.42, 0.47, 0.30)
MULCH: Colour = (0.33, 0.26, 0.20)
LEAF: Colour = (0.27, 0.36, 0.19)
ASPHALT: Colour = (0.40, 0.40, 0.41)
CONCRETE: Colour = (0.70, 0.68, 0.64)
STONE: Colour = (0.66, 0.60, 0.52)
EARTH: Colour = (0.55, 0.46, 0.35)
SUN = (0.50, 0.62)
"""East and north by which a thing one unit high throws its shadow."""
SHADOW = 0.50


def paint_grass(canvas: Canvas, mask: Mask, colour: Colour = GRASS) -> None:
    """Grass with dry patches and tufts."""
    texture = 0.045 * canvas.noise(30.0) + 0.04 * canvas.noise(8.0) + 0.06 * canvas.noise(2.0)
    canvas.paint(mask, colour, texture, grain=0.06)


def paint_bed(canvas: Canvas, mask: Mask, unit: float) -> None:
    """A planted bed: mulch with shrubs of mixed greens; `unit` is a metre in the site's unit."""
    canvas.paint(mask, MULCH, 0.12 * canvas.noise(2.0), grain=0.08)
    clumps = canvas.noise(0.28 / canvas.pixel * unit)
    shrubs = mask & (clumps > 0.55)
    canvas.shade(mask & (clumps > 0.40) & ~shrubs, 0.72)
    canvas.paint(shrubs, LEAF, 0.22 * np.clip(clumps - 0.9, -1.0, 1.5) + 0.10 * canvas.noise(2.0), grain=0.08)
    bloom = shrubs & (canvas.noise(2.5) > 1.9)
    canvas.paint(bloom, (0.62, 0.50, 0.56))


def cast(canvas: Canvas, centre: Point, radius: float, high: float) -> None:
    """The shadow of a round thing whose crown is `high` above the ground."""
    dx, dy = canvas.away(SUN[0] * high, SUN[1] * high)
    rough = 1.0 + 0.12 * canvas.noise(0.25 * radius / canvas.pixel)
    gap = np.hypot(canvas.x - centre[0] - dx, canvas.y - centre[1] - dy)
    canvas.shade(gap <= radius * rough, SHADOW)


def paint_tree(canvas: Canvas, centre: Point, radius: float, colour: Colour = LEAF) -> None:
    """A crown from above, lit from the side of the sun."""
    rough = 1.0 + 0.10 * canvas.noise(0.30 * radius / canvas.pixel)
    dx, dy = canvas.x - centre[0], canvas.y - centre[1]
    crown = np.hypot(dx, dy) <= radius * rough
    sx, sy = canvas.away(*SUN)
    light = -(dx * sx + dy * sy) / (radius * np.hypot(sx, sy))
    leaves = canvas.noise(0.10 * radius / canvas.pixel)
    canvas.paint(crown, colour, 0.25 * light + 0.20 * leaves, grain=0.10)


def paint_roof(canvas: Canvas, box: tuple[float, float, float, float], high: float, lean: Point) -> None:
    """A ridged roof over a box (left, low, right, high): the eaves lean away by `lean`, the walls below show."""
    left, low, right, top = box
    sx, sy = canvas.away(SUN[0] * high, SUN[1] * high)
    steps = np.linspace(0.0, 1.0, 25)
    shadow = np.zeros(canvas.x.shape, bool)
    for t in steps:
        shadow |= canvas.box(left + t * sx, low + t * sy, right + t * sx, top + t * sy)
    canvas.shade(shadow, SHADOW)
    canvas.paint(canvas.box(*box), (0.74, 0.70, 0.63))
    dx, dy = canvas.away(*lean)
    roof = canvas.box(left + dx, low + dy, right + dx, top + dy)
    middle = (low + top) / 2.0 + dy
    tiles, joint = canvas.units(canvas.x, canvas.y, 6.0 * canvas.pixel, 5.0 * canvas.pixel)
    texture = 0.05 * tiles - 0.10 * (joint < 0.5 * canvas.pixel) + np.where(canvas.y < middle, 0.14, -0.14)
    canvas.paint(roof, (0.52, 0.38, 0.31), texture)
    ridge = roof & (np.abs(canvas.y - middle) < 2.0 * canvas.pixel)
    canvas.paint(ridge, (0.60, 0.47, 0.40))


def paint_marks(canvas: Canvas, unit: float) -> None:
    """A small white cross, painted on the ground, at every mark."""
    half, arm = 0.05 * unit, 0.22 * unit
    for x, y, _ in canvas.site.marks.values():
        dx, dy = np.abs(canvas.x - x), np.abs(canvas.y - y)
        canvas.shade((np.hypot(dx, dy) < 1.5 * arm), 0.85)
        cross = ((dx < half) & (dy < arm)) | ((dy < half) & (dx < arm))
        canvas.paint(cross, (0.97, 0.96, 0.92), grain=0.01)
