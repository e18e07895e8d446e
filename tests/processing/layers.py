# SPDX-License-Identifier: GPL-2.0-or-later
"""Layers as files and in memory, made from lists of WKT."""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING

from osgeo import gdal, ogr, osr
from qgis.core import QgsFeature, QgsGeometry, QgsVectorLayer

if TYPE_CHECKING:
    from pathlib import Path


@contextmanager
def raising():
    """GDAL's errors as exceptions, the setting given back."""
    before = [module.GetUseExceptions() for module in (gdal, ogr, osr)]
    for module in (gdal, ogr, osr):
        module.UseExceptions()
    yield
    for module, was_on in reversed(list(zip((gdal, ogr, osr), before))):
        if not was_on:
            module.DontUseExceptions()


def write_layer(path: Path, texts: list[str | None], crs: str | None, kind: int = ogr.wkbUnknown) -> Path:
    """A GeoPackage of one table, named as the file, with the columns name and size."""
    with raising():
        dataset = gdal.GetDriverByName("GPKG").Create(str(path), 0, 0, 0, gdal.GDT_Unknown)
        reference = None
        if crs:
            reference = osr.SpatialReference()
            reference.SetFromUserInput(crs)
        if kind == ogr.wkbUnknown:
            first = next(text for text in texts if text)
            kind = ogr.CreateGeometryFromWkt(first).GetGeometryType()
        layer = dataset.CreateLayer(path.stem, reference, kind)
        layer.CreateField(ogr.FieldDefn("name", ogr.OFTString))
        layer.CreateField(ogr.FieldDefn("size", ogr.OFTReal))
        for k, text in enumerate(texts):
            feature = ogr.Feature(layer.GetLayerDefn())
            feature["name"] = f"row {k}"
            feature["size"] = 0.01 * (k + 1)
            if text is not None:
                feature.SetGeometryDirectly(ogr.CreateGeometryFromWkt(text))
            layer.CreateFeature(feature)
        del layer, dataset
    return path


def memory_layer(kind: str, crs: str, texts: list[str | None]) -> QgsVectorLayer:
    """A layer in memory, with a column name."""
    layer = QgsVectorLayer(f"{kind}?crs={crs}&field=name:string&field=size:double", "layer", "memory")
    features = []
    for k, text in enumerate(texts):
        feature = QgsFeature(layer.fields())
        feature.setAttributes([f"row {k}", 0.01 * (k + 1)])
        if text is not None:
            feature.setGeometry(QgsGeometry.fromWkt(text))
        features.append(feature)
    assert layer.dataProvider().addFeatures(features)[0]
    return layer


def rows_of(layer: QgsVectorLayer | str) -> list[dict[str, object]]:
    """Its rows by column, in order; NULL is None."""
    if isinstance(layer, str):
        layer = QgsVectorLayer(layer, "rows", "ogr")
        assert layer.isValid()
    names = [field.name() for field in layer.fields()]
    return [
        {
            name: None if value is None or str(value) == "NULL" else value
            for name, value in zip(names, f.attributes())
        }
        for f in layer.getFeatures()
    ]
