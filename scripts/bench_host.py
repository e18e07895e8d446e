# SPDX-License-Identifier: GPL-2.0-or-later
"""What the host itself does of the ground, for the bench: meshes of points and breaklines, heights along a line, and
rasters of a mesh."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from qgis.core import QgsMeshLayer

    from plugin.core.ground.surface import Surface

CRS = "EPSG:32631"
POINT, BREAKLINE = 0, 2
"""What the host's mesh takes a layer for (vertices; structure lines are 1, breaklines 2)."""
UP = -1
"""The attribute of a layer that stands for its third coordinate."""


def peak_megabytes() -> float:
    """The most memory that this process has held."""
    status = Path("/proc/self/status").read_text().splitlines()
    return int(next(line for line in status if line.startswith("VmHWM")).split()[1]) / 1024


class HostGround:
    """The host's ways with one ground at a time; files go to a folder."""

    def __init__(self, folder: Path) -> None:
        """Nothing is loaded yet."""
        self._folder, self._made = folder, 0
        self._sources: list[dict[str, object]] = []
        self._mesh: QgsMeshLayer | None = None

    def load_ground(self, points: np.ndarray, segments: np.ndarray) -> None:
        """Layers in memory of (n, 3) points and of the breaklines that segments (s, 2) make up."""
        from qgis.core import QgsGeometry, QgsLineString, QgsPoint, QgsProject

        places = [QgsGeometry(QgsPoint(*point)) for point in points.tolist()]
        ends = np.flatnonzero(segments[1:, 0] != segments[:-1, 1]) + 1
        lines = []
        for chain in np.split(segments, ends):
            rows = points[np.append(chain[:, 0], chain[-1, 1])]
            lines.append(QgsGeometry(QgsLineString(*(rows[:, axis].tolist() for axis in range(3)))))
        layers = [self._layer("PointZ", places), self._layer("LineStringZ", lines)]
        QgsProject.instance().addMapLayers(layers, False)
        self._sources = [
            {"source": layer.id(), "type": kind, "attributeIndex": UP}
            for layer, kind in zip(layers, (POINT, BREAKLINE))
        ]

    @staticmethod
    def _layer(kind: str, shapes: Sequence[object]) -> object:
        from qgis.core import QgsFeature, QgsVectorLayer

        layer = QgsVectorLayer(f"{kind}?crs={CRS}", kind, "memory")
        features = []
        for shape in shapes:
            feature = QgsFeature()
            feature.setGeometry(shape)
            features.append(feature)
        layer.dataProvider().addFeatures(features)
        return layer

    def triangulate(self) -> object:
        """The host's mesh of what is loaded; its file."""
        import processing

        path = str(self._folder / "host.2dm")
        given = {"SOURCE_DATA": self._sources, "MESH_FORMAT": 0, "CRS_OUTPUT": CRS, "OUTPUT_MESH": path}
        return processing.run("native:tinmeshcreation", given)["OUTPUT_MESH"]

    def triangles(self, xy: np.ndarray) -> np.ndarray:
        """(m, 3) of the mesh that `triangulate` wrote, as rows of places (n, 2) (the nearest within 1 cm)."""
        from scipy.spatial import cKDTree

        nodes, faces = [], []
        for line in (self._folder / "host.2dm").read_text().splitlines():
            words = line.split()
            if words[:1] == ["ND"]:
                nodes.append([float(word) for word in words[2:4]])
            elif words[:1] == ["E3T"]:
                faces.append([int(word) - 1 for word in words[2:5]])
        away, row = cKDTree(xy).query(np.array(nodes))
        row[away > 0.01] = len(xy)
        made = row[np.array(faces)]
        return made[(made < len(xy)).all(axis=1)]

    def load_mesh(self, surface: Surface) -> QgsMeshLayer:
        """A surface as a mesh layer, ready to be asked; it becomes the one that `sample` asks."""
        from qgis.core import QgsMeshLayer

        from plugin.bridge.surface_mesh import write_mesh
        from plugin.core.measure.layer.fits import FlatPlane

        self._made += 1
        path = write_mesh(surface, "ground", self._folder / f"mesh_{self._made}.2dm", FlatPlane(1.0))
        layer = QgsMeshLayer(str(path), "ground", "mdal")
        layer.updateTriangularMesh()
        self._mesh = layer
        return layer

    def sample(self, line: np.ndarray, places: int) -> list[float]:
        """Heights at even distances along a line (2, 2)."""
        from qgis.core import QgsMeshDatasetIndex, QgsPointXY

        assert self._mesh is not None  # noqa: S101 - it is loaded first
        index, ask = QgsMeshDatasetIndex(0, 0), self._mesh.datasetValue
        along = np.linspace(0.0, 1.0, places)[:, None]
        xy = ((1.0 - along) * line[0] + along * line[1]).tolist()
        return [ask(index, QgsPointXY(x, y)).scalar() for x, y in xy]

    def raster_difference(
        self, meshes: Sequence[QgsMeshLayer], side: float, cell: float
    ) -> tuple[float, float]:
        """Cut and fill by the host's rasters of two meshes over a square at the origin, m3."""
        import processing
        from osgeo import gdal
        from qgis.core import QgsCoordinateReferenceSystem

        grids = []
        for number, mesh in enumerate(meshes):
            mesh.setCrs(QgsCoordinateReferenceSystem(CRS))
            given = {
                "INPUT": mesh,
                "DATASET_GROUPS": [0],
                "DATASET_TIME": {"type": "static"},
                "EXTENT": f"0,{side},0,{side} [{CRS}]",
                "PIXEL_SIZE": cell,
                "CRS_OUTPUT": CRS,
                "OUTPUT": str(self._folder / f"grid_{number}.tif"),
            }
            path = processing.run("native:meshrasterize", given)["OUTPUT"]
            grid = gdal.Open(path)  # a band lives no longer than this
            band = grid.GetRasterBand(1)
            values = band.ReadAsArray().astype(float)
            grids.append(np.where(values == band.GetNoDataValue(), np.nan, values))
        depth = (grids[0] - grids[1]) * cell * cell
        return float(np.nansum(depth[depth > 0.0])), float(-np.nansum(depth[depth < 0.0]))
