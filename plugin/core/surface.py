# SPDX-License-Identifier: GPL-2.0-or-later
"""A surface of triangles as it was read from a file."""

from __future__ import annotations

from dataclasses import dataclass

from .quantity import Floats, Ints


@dataclass(frozen=True, eq=False)
class TriangleSurface:
    """Points and the triangles between them.

    Attributes:
        name: of the surface. file: it came from.
        points: (n, 3) east, north and height; heights in metres, the plan in metres too, or in the units of
            `crs` where that is given.
        triangles: (m, 3) rows of `points`, anticlockwise in plan; invisible ones are left out.
        crs: of the plan, None where the file names none.
        breaklines: each (k, 3), as `points`. boundary: outer one, (k, 3), None where the file has none.
        voids: boundaries of holes.
    """

    name: str
    file: str
    points: Floats
    triangles: Ints
    crs: str | None = None
    breaklines: tuple[Floats, ...] = ()
    boundary: Floats | None = None
    voids: tuple[Floats, ...] = ()
