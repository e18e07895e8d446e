# SPDX-License-Identifier: GPL-2.0-or-later
"""The survey GeoPackage: all layers and tables in one transaction, and in place only when whole."""

from __future__ import annotations

import os
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING

from osgeo import gdal, ogr, osr

from .fields import (
    Frame,
    Kind,
    RunFact,
    Table,
    column_kind,
    layer_geometry,
    record_geometry,
    tables_of,
)
from .geometry import POINT_Z
from .progress import Progress, quiet
from .resources import style_path
from .row_cells import record_values
from .run_facts import picture_fact
from .staging import close_database, not_written

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ..core.measure.rows import Survey

ROWS_A_REPORT = 2000
"""Rows between two looks at whether the user cancelled (about 50 ms of writing)."""
LOCAL_WKT = (
    'ENGCRS["Survey plane (not placed)",EDATUM["Site"],CS[Cartesian,2],AXIS["x",east],AXIS["y",north],'
    'LENGTHUNIT["metre",1]]'
)
"""CRS of a survey that is not placed: metres, at no known place."""
_OGR_KIND = {Kind.TEXT: ogr.OFTString, Kind.REAL: ogr.OFTReal, Kind.WHOLE: ogr.OFTInteger64}
_STYLE_COLUMNS = (
    ("f_table_catalog", 256),
    ("f_table_schema", 256),
    ("f_table_name", 256),
    ("f_geometry_column", 256),
    ("styleName", 30),
    ("styleQML", 0),
    ("styleSLD", 0),
    ("useAsDefault", None),
    ("description", 0),
    ("owner", 30),
    ("ui", 30),
)
"""The host's own table of styles: columns with their widths (None: yes or no)."""


def write_survey(
    survey: Survey,
    path: str | Path,
    picture: str | Path | None = None,
    runs: Sequence[RunFact] = (),
    progress: Progress = quiet,
    sag: float | None = None,
) -> Path:
    """Write the whole survey as a GeoPackage; an older file is replaced only by a finished one.

    Args:
        survey: what was measured, in the survey plane.
        path: the file to write; `.gpkg` is added where it has no such ending.
        picture: the orthophoto below the survey; its path is kept, relative to the GeoPackage.
        runs: facts of this run (inputs' checksums, settings, versions).
        progress: told the part done; may raise to stop.
        sag: metres; where set, arcs are written as chords that lie nowhere further from them.

    Returns:
        The file written.

    Raises:
        BadInput: the file cannot be written; nothing is left behind.
    """
    path = with_ending(Path(path))
    facts = (*runs, *picture_fact(picture, path.parent))
    with replacing(path) as unfinished, gdal_errors(path):
        _write_file(unfinished, survey, Frame(survey.plane, sag), facts, progress)
    return path


def _write_file(
    path: Path, survey: Survey, frame: Frame, facts: Sequence[RunFact], progress: Progress
) -> None:
    dataset = gdal.GetDriverByName("GPKG").Create(str(path), 0, 0, 0, gdal.GDT_Unknown)
    try:
        dataset.StartTransaction()
        _write_tables(dataset, survey, frame, facts, progress)
        _write_styles(dataset, tables_of(survey))
        dataset.CommitTransaction()
        dataset.FlushCache()
    finally:
        dataset = None  # GDAL closes a file when its last name goes; Windows removes none that is open


def chorded_name(path: Path) -> Path:
    """The name of the copy without curves, beside the survey."""
    return path.with_name(f"{path.stem}_chorded.gpkg")


def with_ending(path: Path) -> Path:
    """The path with the ending of a GeoPackage."""
    return path if path.suffix.lower() == ".gpkg" else path.with_name(path.name + ".gpkg")


@contextmanager
def replacing(path: Path) -> Iterator[Path]:
    """A name beside `path` to write to: it takes its place when all went well and is removed if not.

    Raises:
        BadInput: the folder cannot be written, or another program holds the old file.
    """
    unfinished = path.with_name(f"{path.stem}.tmp{path.suffix}")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        _remove(unfinished)
        yield unfinished
        _settle(unfinished)
        close_database(path)
        unfinished.replace(path)
    except OSError as error:
        raise not_written(path, error.strerror or str(error)) from error
    finally:
        with suppress(OSError):  # what is in the way there is not ours
            _remove(unfinished)


def _settle(path: Path) -> None:
    """Onto the disk before the name changes hands: after a power cut either file is whole."""
    with path.open("rb+") as file:
        os.fsync(file.fileno())


def _remove(path: Path) -> None:
    for ending in ("", "-journal", "-wal", "-shm"):
        try:
            path.with_name(path.name + ending).unlink()
        except (FileNotFoundError, NotADirectoryError):
            continue


@contextmanager
def gdal_errors(path: Path) -> Iterator[None]:
    """GDAL raising within, and its errors told as ours; the host's own setting comes back."""
    modules = (gdal, ogr, osr)
    before = [module.GetUseExceptions() for module in modules]
    for module in modules:
        module.UseExceptions()
    gdal.PushErrorHandler("CPLQuietErrorHandler")
    try:
        yield
    except RuntimeError as error:
        raise not_written(path, str(error)) from error
    finally:
        gdal.PopErrorHandler()
        for module, was_on in reversed(list(zip(modules, before))):  # GDAL keeps a stack
            if not was_on:
                module.DontUseExceptions()


def _write_tables(
    dataset: gdal.Dataset, survey: Survey, frame: Frame, facts: Sequence[RunFact], progress: Progress
) -> None:
    tables = tables_of(survey)
    records = [facts if table.name == "runs" else table.records(survey) for table in tables]
    total, done = max(1, sum(map(len, records))), 0
    for table, rows in zip(tables, records):
        code = layer_geometry(table, survey, frame)
        layer = _create_layer(dataset, table, code, survey)
        definition = layer.GetLayerDefn()
        for row in rows:
            if done % ROWS_A_REPORT == 0:
                progress(done / total, "Writing the GeoPackage")
            layer.CreateFeature(
                _feature(definition, record_values(row, frame), record_geometry(row, frame, code))
            )
            done += 1
        layer.SyncToDisk()
    progress(1.0, "Writing the GeoPackage")


def _create_layer(dataset: gdal.Dataset, table: Table, code: int | None, survey: Survey) -> ogr.Layer:
    srs = None if code is None else spatial_reference(survey)
    kind = ogr.wkbNone if code is None else _ogr_type(code)
    layer = dataset.CreateLayer(table.name, srs, kind, ["GEOMETRY_NAME=geom", "FID=fid"])
    for name in table.columns:
        layer.CreateField(ogr.FieldDefn(name, _OGR_KIND[column_kind(name)]))
    return layer


def _ogr_type(code: int) -> int:
    """GDAL's own number: its oldest geometry types carry z as a flag, the curves as ISO does."""
    return ogr.GT_SetZ(code - 1000) if code >= POINT_Z else code


def _feature(definition: ogr.FeatureDefn, values: Sequence[object], geometry: bytes | None) -> ogr.Feature:
    feature = ogr.Feature(definition)
    if geometry is not None:
        feature.SetGeometryDirectly(ogr.CreateGeometryFromWkb(geometry))
    for index, value in enumerate(values):
        if value is None:
            feature.SetFieldNull(index)
        else:
            feature.SetField(index, value)
    return feature


def spatial_reference(survey: Survey) -> osr.SpatialReference:
    """The layers' CRS; coordinates go in east first, whatever the order of its axes, as GeoPackage demands."""
    reference = osr.SpatialReference()
    reference.SetFromUserInput(crs_text(survey))
    reference.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
    return reference


def crs_text(survey: Survey) -> str:
    """The layers' CRS as an authority code, else as WKT."""
    if survey.plane is None:
        return LOCAL_WKT
    authority = survey.plane.crs.to_authority(min_confidence=100)
    return ":".join(authority) if authority else survey.plane.crs.to_wkt("WKT2_2019")


def _write_styles(dataset: gdal.Dataset, tables: Sequence[Table]) -> None:
    """Each layer's style as its default, in the table where the host looks for it."""
    layer = dataset.CreateLayer("layer_styles", None, ogr.wkbNone, ["FID=id"])
    for name, width in _STYLE_COLUMNS:
        field = ogr.FieldDefn(name, ogr.OFTInteger if width is None else ogr.OFTString)
        field.SetSubType(ogr.OFSTBoolean if width is None else ogr.OFSTNone)
        field.SetWidth(width or 0)
        layer.CreateField(field)
    layer.CreateField(ogr.FieldDefn("update_time", ogr.OFTDateTime))
    for table in tables:
        if style_path(table.name).exists():
            layer.CreateFeature(_style_row(layer.GetLayerDefn(), table))
    layer.SyncToDisk()


def _style_row(definition: ogr.FeatureDefn, table: Table) -> ogr.Feature:
    row = ogr.Feature(definition)
    cells = {
        "f_table_catalog": "",
        "f_table_schema": "",
        "f_table_name": table.name,
        "f_geometry_column": "geom" if table.geometry else "",
        "styleName": table.name,
        "styleQML": style_path(table.name).read_text(encoding="utf-8"),
        "useAsDefault": 1,
        "description": "Ground Tally",
    }
    for name, value in cells.items():
        row.SetField(name, value)
    return row
