# SPDX-License-Identifier: GPL-2.0-or-later
"""Features as straights and tangent arcs: their geometry in the layer's CRS, and the columns that go with it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from qgis.core import QgsGeometry, QgsMultiCurve, QgsMultiSurface, QgsWkbTypes

from ..core.measure.radii import RadiusRow, radius_schedule
from ..core.shape.fit.outline import OutlineKind
from .fields import Kind
from .geometry import MapFrame
from .measured import ASSUMED, tell

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from ..core.measure.layer.fits import FeatureFit, FittedRun
    from ..core.shape.fit.outline import OutlinePiece

FEATURES = (
    ("straights", Kind.WHOLE),
    ("arcs", Kind.WHOLE),
    ("as_recorded", Kind.WHOLE),
    ("rms_m", Kind.REAL),
    ("largest_m", Kind.REAL),
    ("point_m_sigma", Kind.REAL),
    ("method", Kind.TEXT),
    ("sigma_from", Kind.TEXT),
    ("finding", Kind.TEXT),
)
"""What a fitted feature gets."""
SIDES = (
    ("row", Kind.WHOLE),
    ("part", Kind.WHOLE),
    ("ring", Kind.WHOLE),
    ("side", Kind.WHOLE),
    ("kind", Kind.TEXT),
    ("length_m", Kind.REAL),
    ("length_m_sigma", Kind.REAL),
    ("radius_m", Kind.REAL),
    ("radius_m_sigma", Kind.REAL),
    ("sweep_deg", Kind.REAL),
    ("sweep_deg_sigma", Kind.REAL),
    ("chord_m", Kind.REAL),
    ("rise_m", Kind.REAL),
    ("centre_x", Kind.REAL),
    ("centre_y", Kind.REAL),
    ("starts_tangent", Kind.WHOLE),
    ("ends_tangent", Kind.WHOLE),
    ("points", Kind.WHOLE),
    ("rms_m", Kind.REAL),
    ("largest_m", Kind.REAL),
)
"""What one side has: `row` is the id of its feature, `ring` 0 for the outer one; the rise of an arc is that over its
chord, positive where it turns left; `largest_m` the farthest that a vertex or the middle of a chord lies off."""
SCHEDULE = (
    ("radius_m", Kind.REAL),
    ("radius_m_sigma", Kind.REAL),
    ("count", Kind.WHOLE),
    ("length_m", Kind.REAL),
    ("least_sweep_deg", Kind.REAL),
    ("most_sweep_deg", Kind.REAL),
    ("sides", Kind.TEXT),
)
"""One radius: how many sides have it, their length together, and which they are, as row/side."""
MOST_NAMED = 20
"""Sides that are named in a row of the schedule."""


def feature_values(fit: FeatureFit, tolerance: float, *, is_stated: bool) -> list[object]:
    """The columns of a fitted feature."""
    if fit.finding is not None:
        return [None] * 8 + [tell(fit.finding)]
    if not fit.runs:
        return [fit.straights, 0, 0, 0.0, 0.0, None, "as given", None, None]
    counts = [
        fit.count(OutlineKind.STRAIGHT),
        fit.count(OutlineKind.ARC, OutlineKind.GIVEN_ARC),
        fit.count(OutlineKind.AS_RECORDED),
    ]
    way = "straights and tangent arcs within {tolerance:g} m" if fit.is_fitted else "as given"
    told = _number(fit.sigma)
    source = None if told is None else (ASSUMED if is_stated else "residuals")
    return [*counts, fit.rms, fit.largest, told, way.format(tolerance=tolerance), source, None]


def fitted_geometry(fit: FeatureFit, given: QgsGeometry) -> QgsGeometry:
    """The feature with its arcs; as it was, but of the curved kind that the layer is of, where nothing is another."""
    if not fit.is_fitted:
        return QgsGeometry(given.constGet().toCurveType())
    frame = MapFrame(fit.plane)
    shape = given.constGet()
    if shape.dimension() == 1:
        parts = [frame.line(run.curve()) for run in fit.runs]
    else:
        parts = [
            frame.polygon([run.curve() for run in fit.runs if run.part == part])
            for part in dict.fromkeys(run.part for run in fit.runs)
        ]
    return _joined(parts, shape.wkbType())


def _joined(parts: Sequence[bytes], kind: QgsWkbTypes.Type) -> QgsGeometry:
    """Parts as one geometry, with heights where it had them."""
    pieces = [_geometry(part, has_z=QgsWkbTypes.hasZ(kind)) for part in parts]
    if not QgsWkbTypes.isMultiType(kind):
        return pieces[0]
    of_areas = QgsWkbTypes.geometryType(kind) == QgsWkbTypes.GeometryType.PolygonGeometry
    whole = QgsMultiSurface() if of_areas else QgsMultiCurve()
    for piece in pieces:
        whole.addGeometry(piece.constGet().clone())
    return QgsGeometry(whole)


def _geometry(wkb: bytes, *, has_z: bool) -> QgsGeometry:
    geometry = QgsGeometry()
    geometry.fromWkb(wkb)
    if not has_z:
        geometry.get().dropZValue()
    return geometry


def side_rows(fit: FeatureFit, row: int, *, has_z: bool) -> Iterator[tuple[QgsGeometry, list[object]]]:
    """Each side of a feature: its geometry and its columns."""
    frame = MapFrame(fit.plane)
    rings: dict[int, int] = {}
    for run in fit.runs:
        ring = rings[run.part] = rings.get(run.part, -1) + 1
        for number, piece in enumerate(run.outline.pieces, 1):
            place = [row, run.part + 1, ring, number]
            yield _geometry(frame.line(run.side(piece)), has_z=has_z), place + _side(piece, run, frame)


def _side(piece: OutlinePiece, run: FittedRun, frame: MapFrame) -> list[object]:
    x, y = frame.map_xy(tuple(piece.centre.tolist())) if piece.is_arc else (None, None)
    # The last point of a ring is its first, and does not count again.
    points = len(run.z) - 1 if run.outline.closed else len(run.z)
    count = points if piece.last == piece.first else (piece.last - piece.first) % points + 1
    return [
        piece.kind.value,
        piece.length,
        _number(piece.length_sigma),
        _number(piece.radius),
        _number(piece.radius_sigma),
        math.degrees(piece.sweep) if piece.is_arc else None,
        _number(math.degrees(piece.sweep_sigma)),
        piece.chord,
        piece.rise if piece.is_arc else None,
        x,
        y,
        int(piece.starts_tangent),
        int(piece.ends_tangent),
        count,
        piece.rms,
        max(piece.largest, piece.largest_middle),
    ]


def schedule_rows(arcs: Sequence[tuple[str, OutlinePiece]], rounding: float | None) -> Iterable[list[object]]:
    """The schedule of radii of named arcs."""
    for row in radius_schedule([piece for _, piece in arcs], rounding=rounding):
        its = [arcs[k] for k in row.members]
        # True curves are as exact as they were drawn, which nobody knows.
        is_known = any(math.isfinite(piece.radius_sigma) for _, piece in its)
        yield _radius(row, [name for name, _ in its], row.sigma if is_known else None)


def _radius(row: RadiusRow, names: Sequence[str], sigma: float | None) -> list[object]:
    named = ", ".join(names[:MOST_NAMED]) + (", ..." if len(names) > MOST_NAMED else "")
    sweeps = [math.degrees(row.least_sweep), math.degrees(row.most_sweep)]
    return [row.radius, sigma, row.count, row.length, *sweeps, named]


def _number(value: float) -> float | None:
    return value if math.isfinite(value) else None
