# SPDX-License-Identifier: GPL-2.0-or-later
"""A layer that is the whole of a plain GeoPackage table: copied as a file, and columns added to the copy.

The host's way through a million rows makes a feature of each on the way in and on the way out; here neither is
needed, for nothing but the geometry is looked at and nothing of what is there changes.
"""

from __future__ import annotations

import shutil
import sqlite3
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, suppress
from dataclasses import dataclass
from itertools import chain, islice
from pathlib import Path
from typing import TYPE_CHECKING

from osgeo import gdal, ogr
from qgis.core import QgsFields, QgsProviderRegistry, QgsVectorLayer

from ..core.errors import BadInput
from ..core.measure.layer.wkb import join_pieces, read_shapes
from .fields import Kind
from .geopackage import gdal_errors
from .staging import staged

if TYPE_CHECKING:
    from collections.abc import Callable, Generator, Iterable, Iterator, Sequence

    from ..core.measure.layer.shapes import Shapes
    from .progress import Progress

    Row = tuple[object, ...]

ROWS = 8_000
"""Rows at a time: their arrays stay in the processor's cache."""
TOGETHER = 1_000
"""Rows that one statement writes."""
MOST_VALUES = 32_000
"""Values that a statement may bind: SQLite's own limit is 32,766 since 3.32."""
UPDATE_FROM = (3, 33, 0)
"""Version of SQLite since which a table can be updated from a list of rows."""
WAL = 2
"""Version of the file format, at byte 18, of a database whose newest rows may lie in another file."""
ENDING = ".gpkg"
DAMAGED = b"?"
"""What no geometry looks like."""
TYPES = {Kind.TEXT: "TEXT", Kind.REAL: "REAL", Kind.WHOLE: "INTEGER"}
ITS_OWN = ("gpkg_", "rtree_", "sqlite_", "layer_styles")
"""What tables of the format itself, and of the host's styles, begin with."""
SPATIAL = (("ST_IsEmpty", 1), ("ST_MinX", 1), ("ST_MaxX", 1), ("ST_MinY", 1), ("ST_MaxY", 1))
"""Functions that triggers of the spatial index name. They fire where a geometry changes, and none does here, but the
database wants to know them."""


@dataclass(frozen=True)
class PlainTable:
    """A file, its one table, and the table's columns of ids and geometry."""

    path: Path
    table: str
    ids: str
    geometry: str


@dataclass(frozen=True, eq=False)
class Measured:
    """The ids of some rows, and the values of each added column in their order."""

    ids: Sequence[object]
    columns: Sequence[list[object]]


def plain_table(layer: QgsVectorLayer | None) -> PlainTable | None:
    """The table that a layer is the whole of; None where it is anything else, or more or less than that, and of a GDAL
    before 3.6, which reads no arrays."""
    can = hasattr(ogr.Layer, "GetArrowStreamAsNumPy")
    path = _plain_file(layer) if can and layer is not None and _is_untouched(layer) else None
    if layer is None or path is None:
        return None
    try:
        with closing(_open(path, "ro")) as database:
            return _only_table(database, path, layer)
    except sqlite3.Error:
        return None


def _plain_file(layer: QgsVectorLayer) -> Path | None:
    """The GeoPackage file of a layer that asks for nothing but a table of it, and of which no rows lie elsewhere."""
    if layer.providerType() != "ogr" or layer.dataProvider().storageType() != "GPKG":
        return None
    uri = QgsProviderRegistry.instance().decodeUri("ogr", layer.source())
    path = Path(uri.get("path") or "")
    if (
        set(filter(uri.get, uri)) - {"path", "layerName"}
        or path.suffix.lower() != ENDING
        or not path.is_file()
    ):
        return None
    with path.open("rb") as file:
        head = file.read(20)
    return None if WAL in head[18:20] or path.with_name(path.name + "-journal").exists() else path


def _is_untouched(layer: QgsVectorLayer) -> bool:
    fields = layer.fields()
    own = all(fields.fieldOrigin(k) == QgsFields.FieldOrigin.OriginProvider for k in range(len(fields)))
    return own and not layer.isEditable() and not layer.subsetString() and not layer.vectorJoins()


def _only_table(database: sqlite3.Connection, path: Path, layer: QgsVectorLayer) -> PlainTable | None:
    tables = database.execute("SELECT table_name, column_name FROM gpkg_geometry_columns").fetchall()
    named = [
        row[0] for row in database.execute("SELECT name FROM sqlite_master WHERE type IN ('table', 'view')")
    ]
    others = [name for name in named if not name.startswith(ITS_OWN)]
    if len(tables) != 1 or others != [tables[0][0]]:
        return None
    table, geometry = tables[0]
    columns = database.execute(f"PRAGMA table_xinfo({_quoted(table)})").fetchall()
    keys = [name for _, name, _, _, _, key, _ in columns if key]
    own = {name for _, name, _, _, _, _, hidden in columns if not hidden}
    shown = {field.name() for field in layer.fields()} | {geometry}
    foreign = database.execute(
        "SELECT count(*) FROM sqlite_master WHERE type = 'trigger' AND tbl_name = ? AND name NOT LIKE 'rtree%' "
        "AND name NOT LIKE 'trigger%feature_count%'",
        (table,),
    ).fetchone()[0]
    if len(keys) != 1 or own != shown or foreign:
        return None
    return PlainTable(path, table, keys[0], geometry)


def write_with_columns(
    plain: PlainTable,
    output: Path,
    columns: Sequence[tuple[str, Kind]],
    measure: Callable[[Shapes], Sequence[list[object]]],
    progress: Progress,
) -> None:
    """A copy of the file with columns added to its table, which is named after the copy. An older file in its place
    is replaced once the new one is whole.

    Args:
        plain: what is copied.
        output: where to.
        columns: names and kinds of what is added.
        measure: the values of these columns, one sequence a column, for some of the table's rows.
        progress: is told how far it is; may raise to stop the work.
    """
    with staged(output) as made:
        shutil.copyfile(plain.path, made)
        with closing(_open(made, "rw")) as target, closing(_measured(plain, measure)) as measured:
            _add_columns(plain, target, columns, measured, progress)
        _rename(made, plain.table, output)


def _add_columns(
    plain: PlainTable,
    target: sqlite3.Connection,
    columns: Sequence[tuple[str, Kind]],
    measured: Iterable[Measured],
    progress: Progress,
) -> None:
    table = _quoted(plain.table)
    # The copy is thrown away where anything fails: it needs no journal.
    target.execute("PRAGMA journal_mode = OFF")
    target.execute("PRAGMA synchronous = OFF")
    for name, count in SPATIAL:
        target.create_function(name, count, _never)
    for name, kind in columns:
        target.execute(f"ALTER TABLE {table} ADD COLUMN {_quoted(name)} {TYPES[kind]}")
    # Names cannot be bound as values can; they are quoted.
    total = int(target.execute(f"SELECT count(*) FROM {table}").fetchone()[0])  # noqa: S608
    update = _Update(target, plain, [name for name, _ in columns])
    done = 0
    progress(0.0, "Measuring")
    target.execute("BEGIN")
    for some in measured:
        update.write(some)
        done += len(some.ids)
        progress(done / max(total, 1), "Measuring")
    if done != total:
        raise BadInput(
            "{path} gave {done} of its {total} rows: it is damaged. Export the layer to a new file, and measure that.",
            path=str(plain.path),
            done=done,
            total=total,
        )
    target.execute("COMMIT")


class _Update:
    """Writes values into columns, row by row of an id, many rows with one statement: while one runs, the other thread
    has the interpreter. What is the same in many rows is bound once for all of them, and nothing where it is nothing:
    the columns are new, and empty."""

    def __init__(self, target: sqlite3.Connection, plain: PlainTable, names: Sequence[str]) -> None:
        self._target, self._names = target, [_quoted(name) for name in names]
        self._table, self._ids = _quoted(plain.table), _quoted(plain.ids)
        self._most = TOGETHER if sqlite3.sqlite_version_info >= UPDATE_FROM else 0

    def write(self, measured: Measured) -> None:
        """Values and ids of some rows."""
        is_one = [column.count(column[0]) == len(column) for column in measured.columns]
        ones = [(name, c[0]) for name, c, one in zip(self._names, measured.columns, is_one) if one]
        ones = [(name, value) for name, value in ones if value is not None]
        names = [name for name, one in zip(self._names, is_one) if not one]
        if not (names or ones):
            return
        rows = zip(*(c for c, one in zip(measured.columns, is_one) if not one), measured.ids)
        shared = [value for _, value in ones]
        self._write([name for name, _ in ones], shared, names, rows)

    def _write(
        self, ones: Sequence[str], shared: Sequence[object], names: Sequence[str], rows: Iterator[Row]
    ) -> None:
        """Columns of one value, these values, the columns of many, and of each row its values and id."""
        same = [f"{name} = ?" for name in ones]
        places = ", ".join(same + [f"{name} = ?" for name in names])
        one = f"UPDATE {self._table} SET {places} WHERE {self._ids} = ?"  # noqa: S608 - names, quoted
        width = len(names) + 1
        count = min(self._most, (MOST_VALUES - len(ones)) // width)
        values = ", ".join([f"({', '.join('?' * width)})"] * count)
        places = ", ".join(same + [f"{name} = given.column{k}" for k, name in enumerate(names, 1)])
        many = (
            f"UPDATE {self._table} SET {places} FROM (VALUES {values}) AS given "  # noqa: S608 - names, quoted
            f"WHERE {self._table}.{self._ids} = given.column{width}"
        )
        some = list(islice(rows, count))
        while count and len(some) == count:
            self._target.execute(many, [*shared, *chain.from_iterable(some)])
            some = list(islice(rows, count))
        self._target.executemany(one, ([*shared, *row] for row in chain(some, rows)))


def _measured(
    plain: PlainTable, measure: Callable[[Shapes], Sequence[list[object]]]
) -> Generator[Measured, None, None]:
    """Some rows after others: some are read and measured while those before them are written, for reading, arrays and
    writing each leave the interpreter to the others."""
    batches = _batches(plain)

    def some() -> Measured | None:
        batch = next(batches, None)
        if batch is None:
            return None
        ids, pieces = batch
        return Measured(ids, measure(read_shapes(*join_pieces(pieces))))

    with ThreadPoolExecutor(1) as ahead:
        coming = ahead.submit(some)
        while True:
            here = coming.result()
            if here is None:
                return
            coming = ahead.submit(some)
            yield here


def _batches(plain: PlainTable) -> Iterator[tuple[list[int], list[bytes | None]]]:
    """Ids and well-known binaries, some rows at a time, with no feature made of any. GDAL gives nothing for what is no
    geometry; that differs from a row that has none."""
    dataset = gdal.OpenEx(str(plain.path), gdal.OF_VECTOR)
    layer = dataset.GetLayerByName(plain.table)
    shape = layer.GetLayerDefn()
    layer.SetIgnoredFields([shape.GetFieldDefn(k).GetName() for k in range(shape.GetFieldCount())])
    with closing(_open(plain.path, "ro")) as database:
        for batch in layer.GetArrowStreamAsNumPy([f"MAX_FEATURES_IN_BATCH={ROWS}"]):
            ids, pieces = batch[plain.ids].tolist(), batch[plain.geometry].tolist()
            for k in [k for k, piece in enumerate(pieces) if piece is None]:
                pieces[k] = DAMAGED if _has_something(database, plain, ids[k]) else None
            if ids:
                yield ids, pieces


def _has_something(database: sqlite3.Connection, plain: PlainTable, row: int) -> bool:
    table, ids, geometry = map(_quoted, (plain.table, plain.ids, plain.geometry))
    query = f"SELECT {geometry} IS NOT NULL FROM {table} WHERE {ids} = ?"  # noqa: S608 - names, quoted
    return bool(database.execute(query, (row,)).fetchone()[0])


def _rename(path: Path, table: str, output: Path) -> None:
    """The one table gets the output's name, as a new file's has it. Where GDAL cannot (an older version, a name of the
    format's own, triggers that are not as it makes them) the table keeps its name."""
    name = output.stem
    if table == name:
        return
    with suppress(BadInput), gdal_errors(output):
        dataset = gdal.OpenEx(str(path), gdal.OF_VECTOR | gdal.OF_UPDATE)
        layer = dataset.GetLayerByName(table)
        with suppress(RuntimeError):
            if layer.TestCapability(getattr(ogr, "OLCRename", "Rename")):
                layer.Rename(name)
        # After a failure closing fails too, where nobody can catch it: it is to say nothing.
        for module in (gdal, ogr):
            module.DontUseExceptions()
        del layer, dataset
        for module in (gdal, ogr):
            module.UseExceptions()


def _never(*_: object) -> None:
    raise AssertionError("a geometry was changed")


def _open(path: Path, mode: str) -> sqlite3.Connection:
    where = f"{path.absolute().as_uri()}?mode={mode}"
    database = sqlite3.connect(where, uri=True, isolation_level=None, check_same_thread=False)
    database.execute("PRAGMA query_only = ON" if mode == "ro" else "PRAGMA cache_size = -64000")
    return database


def _quoted(name: str) -> str:
    return '"' + name.replace('"', '""') + '"'
