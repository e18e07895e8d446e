# SPDX-License-Identifier: GPL-2.0-or-later
"""The project beside a survey GeoPackage: groups, styled layers, the picture underneath.

It is made from the GeoPackage alone, keeps relative paths, and opens in a QGIS that has no plugin of ours.
"""

from __future__ import annotations

import os
import zipfile
from contextlib import suppress
from pathlib import Path

from qgis.core import (
    Qgis,
    QgsLayerTree,
    QgsLayerTreeGroup,
    QgsMapLayer,
    QgsProject,
    QgsRasterLayer,
    QgsRuleBasedRenderer,
    QgsVectorLayer,
)

from ..core.errors import BadInput
from .scene import set_scene, set_terrain
from .survey_view import on_earth, set_view
from .text import tr

GROUPS = ("Survey", "Design", "Ground", "Checks", "Sheets")
"""The project's groups from the top; formats.md names them, and other programs may look for them."""
LAYERS = {
    "Survey": ("finding_places", "marks", "spots", "stations", "sides", "lengths", "legs", "areas"),
    "Ground": ("surfaces",),
    "Checks": ("findings", "walks", "placement", "runs"),
}
"""Tables by group, from the top."""
SOMETIMES = frozenset({"surfaces", "finding_places"})
"""Tables that not every survey has."""
HIDDEN = frozenset({"stations", "legs"})
"""Layers that start switched off: the working, not the plan."""
FOR_PROGRAMS = frozenset({"shape", "point_errors", "sizes_along", "z_shared"})
"""Columns that nobody reads: long texts that other steps take figures from. The attribute table shows them when asked."""
SHARED_SIDES = '"other" IS NOT NULL'
"""The rule of the sides' style for those that a neighbour shares."""


def write_project(
    geopackage: str | Path, path: str | Path | None = None, picture: str | Path | None = None
) -> Path:
    """Write the project of a survey GeoPackage, beside it and with its name unless told. The picture is the one
    that the survey was placed on; where none is named it is looked for (survey_picture).

    Raises:
        BadInput: the GeoPackage cannot be opened, or the project cannot be written.
    """
    geopackage = Path(geopackage)
    path = Path(path) if path else geopackage.with_suffix(".qgz")
    project = QgsProject()
    fill_project(project, geopackage, picture)
    project.setFilePathStorage(Qgis.FilePathType.Relative)
    _write(project, path)
    project.clear()
    return path


def fill_project(
    project: QgsProject, geopackage: Path, picture: str | Path | None = None
) -> list[QgsMapLayer]:
    """Put the groups and layers of a survey into a project, below what it holds already.

    Returns:
        The layers added, in order.

    Raises:
        BadInput: the GeoPackage cannot be opened.
    """
    is_new = not project.mapLayers()
    root = project.layerTreeRoot()
    added: list[QgsMapLayer] = []
    for group_name in GROUPS:
        group = root.findGroup(group_name) or root.addGroup(group_name)
        for table in LAYERS.get(group_name, ()):
            if table not in SOMETIMES or _has_table(geopackage, table):
                added.append(_add_table(project, group, geopackage, table))
    if is_new:
        set_view(project, added, _open_table(geopackage, "stations").crs())
        set_terrain(project, _open_table(geopackage, "stations"))
    found = Path(picture) if picture else survey_picture(geopackage)
    if found is not None:
        added.extend(_add_picture(project, root, found))
    return added


def reload_survey(project: QgsProject, geopackage: Path) -> list[QgsMapLayer]:
    """Have the layers of a survey that was made anew read their file again, in the CRS that they are in now. A project
    without a CRS takes the survey's, and its view."""
    layers = [layer for layer in project.mapLayers().values() if _is_of(layer, geopackage)]
    its = _open_table(geopackage, "stations").crs()
    crs = on_earth(its)
    for layer in layers:
        layer.dataProvider().reloadData()
        layer.updateExtents()
        if layer.isSpatial():
            layer.setCrs(crs)
        layer.triggerRepaint()
    if crs.isValid() and not project.crs().isValid():
        set_view(project, layers, its)
    return layers


def has_layers(project: QgsProject, geopackage: Path) -> bool:
    """Whether a project shows any layer of a survey."""
    return any(_is_of(layer, geopackage) for layer in project.mapLayers().values())


def _is_of(layer: QgsMapLayer, geopackage: Path) -> bool:
    """Whether a layer is a table of a survey."""
    return Path(layer.source().partition("|")[0]) == geopackage


def survey_picture(geopackage: Path) -> Path | None:
    """The picture that the survey was placed on, where it still lies: as the GeoPackage has it, else (of a picture
    in another folder it has only the name) as the project beside it has it."""
    runs = _open_table(geopackage, "runs")
    for fact in runs.getFeatures("\"kind\" = 'setting' AND \"name\" = 'picture'"):
        value = str(fact["value"])
        picture = Path(os.path.normpath(geopackage.parent / value))
        if _is_there(picture):
            return picture
        return _picture_of_project(geopackage.with_suffix(".qgz"), Path(value).name)
    return None


def _is_there(path: Path) -> bool:
    try:
        return path.exists()
    except OSError:  # it lies where this user may not look
        return False


def _picture_of_project(path: Path, name: str) -> Path | None:
    """The picture of this name that a survey's project shows, where it still lies."""
    if not _is_there(path):
        return None
    project = QgsProject()
    project.read(str(path), QgsProject.ReadFlag.FlagDontResolveLayers)
    sources = [
        Path(layer.source()) for layer in project.mapLayers().values() if isinstance(layer, QgsRasterLayer)
    ]
    project.clear()
    return next((source for source in sources if source.name == name and _is_there(source)), None)


def _open_table(geopackage: Path, table: str) -> QgsVectorLayer:
    layer = QgsVectorLayer(f"{geopackage}|layername={table}", table.capitalize(), "ogr")
    if not layer.isValid():
        raise BadInput(
            "{path} holds no table {table}. Give a GeoPackage that Survey walks has written.",
            path=str(geopackage),
            table=table,
        )
    return layer


def _has_table(geopackage: Path, table: str) -> bool:
    return QgsVectorLayer(f"{geopackage}|layername={table}", table, "ogr").isValid()


def _add_table(project: QgsProject, group: QgsLayerTreeGroup, geopackage: Path, table: str) -> QgsVectorLayer:
    layer = _open_table(geopackage, table)
    layer.setName(_title(table))
    layer.setCrs(on_earth(layer.crs()))
    layer.loadDefaultStyle()
    if table == "sides":
        _drop_unused_rule(layer, SHARED_SIDES)
    set_scene(layer, table)
    _hide_columns(layer)
    project.addMapLayer(layer, addToLegend=False)
    node = group.addLayer(layer)
    node.setItemVisibilityChecked(table not in HIDDEN)
    node.setExpanded(table in {"areas", "lengths", "sides"})
    return layer


def _hide_columns(layer: QgsVectorLayer) -> None:
    config = layer.attributeTableConfig()
    config.update(layer.fields())
    for at, column in enumerate(config.columns()):
        if column.name in FOR_PROGRAMS:
            config.setColumnHidden(at, True)  # noqa: FBT003 - the host's own
    layer.setAttributeTableConfig(config)


def _drop_unused_rule(layer: QgsVectorLayer, condition: str) -> None:
    """Take a rule out of the project's copy of a style where no row meets it, so that the legend names only what
    is there; the style in the GeoPackage keeps it."""
    renderer = layer.renderer()
    if not isinstance(renderer, QgsRuleBasedRenderer) or next(layer.getFeatures(condition), None) is not None:
        return
    for rule in renderer.rootRule().children():
        if rule.filterExpression() == condition:
            renderer.rootRule().removeChild(rule)


def _title(table: str) -> str:
    """A layer's name in the user's language."""
    return {
        "areas": tr("Areas"),
        "lengths": tr("Lengths"),
        "spots": tr("Spots"),
        "stations": tr("Stations"),
        "sides": tr("Sides"),
        "legs": tr("Legs"),
        "marks": tr("Marks"),
        "finding_places": tr("Findings on the map"),
        "findings": tr("Findings"),
        "walks": tr("Walks"),
        "placement": tr("Placement"),
        "surfaces": tr("Surfaces"),
        "runs": tr("Runs"),
    }[table]


def _add_picture(project: QgsProject, root: QgsLayerTree, picture: Path) -> list[QgsMapLayer]:
    """The picture as the lowest layer; one without a CRS of its own (a world file) is in the survey's."""
    layer = QgsRasterLayer(str(picture), tr("Picture"))
    if not layer.isValid():
        return []
    if not layer.crs().isValid():
        layer.setCrs(project.crs())
    project.addMapLayer(layer, addToLegend=False)
    root.insertLayer(-1, layer).setExpanded(False)
    return [layer]


def _write(project: QgsProject, path: Path) -> None:
    """Write beside, then put in place: a stopped write leaves the older project."""
    unfinished = path.with_name(f"{path.stem}.tmp{path.suffix}")
    try:
        if not project.write(str(unfinished)) or not zipfile.is_zipfile(unfinished):
            raise _not_written(path, project.error() or tr("the folder is not writable"))
        unfinished.replace(path)
    except OSError as error:
        raise _not_written(path, error.strerror or str(error)) from error
    finally:
        with suppress(OSError):  # what is in the way there is not ours
            unfinished.unlink(missing_ok=True)


def _not_written(path: Path, reason: str) -> BadInput:
    return BadInput(
        "{path} cannot be written: {reason}. Choose another folder or name.", path=str(path), reason=reason
    )
