# SPDX-License-Identifier: GPL-2.0-or-later
"""Surfaces that files held, brought into the survey plane as they are: nothing of them is measured here."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..errors import Refused
from ..findings import Finding, Severity
from ..place.frames import onto_plane
from ..plane import SurveyPlane
from ..surface import TriangleSurface
from .rows import SurfaceRow


def surface_rows(
    surfaces: Sequence[TriangleSurface], plane: SurveyPlane | None
) -> tuple[tuple[SurfaceRow, ...], tuple[Finding, ...]]:
    """The surfaces in the survey plane. One that names no CRS lies nowhere on a placed survey, and one that names one
    nowhere in a survey that is not placed: it is left out, with a note."""
    rows, said = [], []
    for surface in surfaces:
        if (surface.crs is None) != (plane is None):
            said.append(_left_out(surface))
            continue
        points = surface.points
        if plane is not None and surface.crs is not None:
            try:
                xy = onto_plane(points[:, :2], surface.crs, plane, surface.file)
            except Refused:
                said.append(_left_out(surface))
                continue
            points = np.column_stack([xy, points[:, 2]])
        rows.append(SurfaceRow(surface.name, surface.file, points, surface.triangles))
    return tuple(rows), tuple(said)


def _left_out(surface: TriangleSurface) -> Finding:
    return Finding(
        "IN-06",
        Severity.NOTE,
        "survey",
        "{file}: the surface {name} lies nowhere in this survey: of the two only one has a place on the map, or there is "
        "no good way between their CRSs.",
        "Name the surface's CRS in its file, or give the survey control. Read walks gives the surface by itself.",
        {"file": surface.file, "name": surface.name},
        file=surface.file,
    )
