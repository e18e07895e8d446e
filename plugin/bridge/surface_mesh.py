# SPDX-License-Identifier: GPL-2.0-or-later
"""Surfaces as meshes: the text format .2dm, which the host opens as a mesh layer, and mesh layers read back."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsMesh

from ..core.errors import BadInput
from .geometry import MapFrame
from .staging import staged

if TYPE_CHECKING:
    from qgis.core import QgsMeshLayer

    from ..core.ground.surface import Surface
    from ..core.quantity import Floats
    from .planned import Plane

ENDING = ".2dm"
LEAST_CORNERS = 3


def write_mesh(surface: Surface, name: str, path: str | Path, plane: Plane) -> Path:
    """The surface as a .2dm file (which ending is added where there is none) in the layer's CRS (the file itself names none), heights in its unit of length.

    Numbers are written so that they read back to the bit. An older file is replaced only by a finished one.

    Raises:
        BadInput: the file cannot be written.
    """
    path = Path(path)
    path = path if path.suffix else path.with_name(path.name + ENDING)
    drawn = MapFrame(plane).points(surface.points).tolist()
    lines = ["MESH2D", f'MESHNAME "{name.replace(chr(34), " ")}"']
    faces = (surface.triangles + 1).tolist()
    lines += [f"E3T {k} {a} {b} {c} 1" for k, (a, b, c) in enumerate(faces, 1)]
    lines += [f"ND {k} {x!r} {y!r} {z!r}" for k, (x, y, z) in enumerate(drawn, 1)]
    with staged(path) as made:
        made.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return path


def mesh_corners(layer: QgsMeshLayer) -> Floats:
    """(m, 3, 3) corners of a mesh layer's faces in its CRS, quadrangles and wider faces cut into triangles.

    Raises:
        BadInput: the mesh cannot be opened, or holds no faces.
    """
    mesh = QgsMesh()
    provider = layer.dataProvider()
    if provider is not None and layer.isValid():
        provider.populateMesh(mesh)
    if not mesh.faceCount():
        raise BadInput(
            "The mesh {name} holds no faces. Choose a mesh layer of triangles.",
            name=layer.name(),
        )
    count = mesh.vertexCount()
    points = np.array([(p.x(), p.y(), p.z()) for p in map(mesh.vertex, range(count))], float)
    faces = [mesh.face(k) for k in range(mesh.faceCount())]
    corners = [
        (face[0], face[k], face[k + 1])
        for face in faces
        if len(face) >= LEAST_CORNERS
        for k in range(1, len(face) - 1)
    ]
    return np.asarray(points[np.array(corners, np.int64)])
