# SPDX-License-Identifier: GPL-2.0-or-later
"""A survey's layers and the algorithms on them, as somebody in the toolbox would use them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from qgis.core import QgsLineString, QgsVectorLayer

Row = dict[str, object]
KEPT = "memory:"


def without_journals() -> None:
    """GeoPackages are opened as they lie. With its write-ahead journals the host takes a file's journal away while
    another layer of the same file still reads, and that one then finds no database."""
    from qgis.core import QgsSettings

    QgsSettings().setValue("qgis/walForSqlite3", False)


class Layers:
    """One survey's tables, and a folder for what is kept.

    Args:
        survey: its GeoPackage.
        folder: where surfaces and tables of the takeoff go.
    """

    def __init__(self, survey: Path, folder: Path) -> None:
        """Take the survey."""
        self.survey, self._folder = survey, folder

    def table(self, name: str, where: str) -> QgsVectorLayer:
        """Rows of a table."""
        from qgis.core import QgsVectorLayer

        layer = QgsVectorLayer(f"{self.survey}|layername={name}", name, "ogr")
        if not layer.isValid() or not layer.setSubsetString(where) or not layer.featureCount():
            raise SystemExit(f"{self.survey} has no rows in {name} where {where}.")
        return layer

    def run(self, algorithm: str, **parameters: object) -> QgsVectorLayer:
        """The main output of an algorithm, kept in memory."""
        import processing

        return processing.run(algorithm, {"OUTPUT": KEPT, **parameters})["OUTPUT"]

    def surface(self, name: str, **sources: object) -> str:
        """A surface of that name, built and written beside the survey; its file."""
        path = self._folder / f"{name}.gpkg"
        path.unlink(missing_ok=True)
        self.run("groundtally:build_surface", NAME=name, OUTPUT=str(path), CONTOURS=None, **sources)
        return str(path)

    def rows(self, algorithm: str, keep: str = "", **parameters: object) -> list[Row]:
        """The rows of the main output; with a name to keep they are written beside the survey too."""
        (rows,) = self.both(algorithm, ("OUTPUT",), keep, **parameters)
        return rows

    def both(
        self, algorithm: str, outputs: Sequence[str], keep: str, **parameters: object
    ) -> list[list[Row]]:
        """The rows of some outputs."""
        import processing
        from qgis.core import QgsVectorLayer

        targets: dict[str, str] = dict.fromkeys(outputs, KEPT)
        if keep:
            targets = {name: str(self._folder / f"{_file(keep, name)}.gpkg") for name in outputs}
            for path in targets.values():
                Path(path).unlink(missing_ok=True)
        found = processing.run(algorithm, {**parameters, **targets})
        layers = [found[name] for name in outputs]
        opened = [QgsVectorLayer(one, "", "ogr") if isinstance(one, str) else one for one in layers]
        return [_rows(layer) for layer in opened]

    def with_figures(self, rows: Sequence[Row], column: str) -> Row:
        """The one row that carries the figures of a thing of two edges."""
        (row,) = [row for row in rows if row[column] is not None]
        return row

    def height_sigma(self, table: str, column: str, where: str) -> float:
        """Root mean square of a column of sigmas, metres."""
        values = [float(str(row[column])) for row in _rows(self.table(table, where))]
        return (sum(value**2 for value in values) / len(values)) ** 0.5

    def line(self, name: str, marks: Sequence[str]) -> QgsVectorLayer:
        """A line from mark to mark."""
        places = [self._mark(mark) for mark in marks]
        return self._drawn("LineString", name, ", ".join(f"{x!r} {y!r}" for x, y in places))

    def straight_part(self, area: QgsVectorLayer) -> QgsVectorLayer:
        """An area of one row without what lies beyond the chords of its arcs; holes stay."""
        from qgis.core import QgsPolygon

        (feature,) = area.getFeatures()
        shape = feature.geometry().constGet()
        rings = [shape.exteriorRing(), *(shape.interiorRing(k) for k in range(shape.numInteriorRings()))]
        whole = QgsPolygon()
        for number, ring in enumerate(rings):
            line = _ends(ring)
            whole.addInteriorRing(line) if number else whole.setExteriorRing(line)
        return self._drawn("Polygon", str(feature["feature"]), whole.asWkt(9).split(" ", 1)[1][1:-1])

    def _drawn(self, kind: str, name: str, inside: str) -> QgsVectorLayer:
        from qgis.core import QgsFeature, QgsGeometry, QgsVectorLayer

        crs = self.table("marks", "mark IS NOT NULL").crs().authid()
        layer = QgsVectorLayer(f"{kind}?crs={crs}&field=name:string", name, "memory")
        feature = QgsFeature(layer.fields())
        feature.setAttributes([name])
        feature.setGeometry(QgsGeometry.fromWkt(f"{kind}({inside})"))
        layer.dataProvider().addFeatures([feature])
        return layer

    def _mark(self, name: str) -> tuple[float, float]:
        (feature,) = self.table("marks", f"mark = '{name}'").getFeatures()
        point = next(feature.geometry().vertices())
        return point.x(), point.y()


def _file(keep: str, output: str) -> str:
    return keep if output == "OUTPUT" else f"{keep}_{output.lower()}"


def _ends(ring: object) -> QgsLineString:
    """A ring's pieces from end to end, in plan."""
    from qgis.core import QgsCircularString, QgsLineString

    pieces = [ring.curveAt(k) for k in range(ring.nCurves())] if hasattr(ring, "nCurves") else [ring]
    x, y = [], []
    for piece in pieces:
        step = piece.numPoints() - 1 if isinstance(piece, QgsCircularString) and len(pieces) > 1 else 1
        x += [piece.xAt(k) for k in range(0, piece.numPoints(), step)]
        y += [piece.yAt(k) for k in range(0, piece.numPoints(), step)]
    return QgsLineString(x, y)


def _rows(layer: QgsVectorLayer) -> list[Row]:
    """The rows by column; what is not given is None."""
    return [
        {name: None if str(value) == "NULL" else value for name, value in feature.attributeMap().items()}
        for feature in layer.getFeatures()
    ]
