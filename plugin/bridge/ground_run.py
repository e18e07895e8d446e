# SPDX-License-Identifier: GPL-2.0-or-later
"""Runs on the ground: what Build surface and Measure volumes are given, where their layers lie, and how they are shown."""

from __future__ import annotations

import re
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from qgis.core import QgsProcessingFeatureSourceDefinition, QgsVectorLayer, QgsWkbTypes

from ..core.defaults import GROUND
from ..core.quantity import COVER_95
from .deepest import DEPTH_COLUMNS, tell_deepest
from .ground_survey import has_areas
from .resources import style_path
from .survey_file import METRE, Unit
from .survey_view import on_earth
from .text import tr

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from qgis.core import QgsLayerTreeGroup, QgsMapLayer, QgsProject

    from .jobs import DeskJob

GROUP = "Ground"
"""The group of the project; formats.md names it."""
IN_MEMORY = "memory:"
LEVEL_DIGITS = 6
"""Of a level in words, so that one that was typed in feet reads as it was typed."""
TRIANGLES, CONTOURS = "OUTPUT", "CONTOURS"
VOLUMES, DEPTHS, ZERO_LINE = "OUTPUT", "THICKNESS", "ZERO_LINE"
OF_BUILD = {TRIANGLES: ("surface", "triangles"), CONTOURS: ("contours", "contours")}
OF_VOLUMES = {VOLUMES: ("volumes", ""), DEPTHS: ("depths", "depths"), ZERO_LINE: ("zero_line", "zero_line")}
"""Of each output of a run what its file's name ends with, and its style."""
NAMED = ("areas", "lengths", "spots", "stations")
"""Tables of a survey whose rows name surfaces."""


# --- build ---


def surface_names(survey: Path) -> tuple[str, ...]:
    """The surfaces that a survey's rows name, ground first; rows that name none are of the ground."""
    found = set()
    try:
        with closing(sqlite3.connect(f"{survey.absolute().as_uri()}?mode=ro", uri=True)) as database:
            for table in NAMED:
                query = f"SELECT DISTINCT surface FROM {table} WHERE surface <> ''"  # noqa: S608 - the names above
                found |= {str(row[0]) for row in database.execute(query)}
    except sqlite3.Error:
        return (GROUND,)
    return (GROUND, *sorted(found - {GROUND}))


def build_parameters(job: DeskJob, name: str, interval: float) -> dict[str, object]:
    """What Build surface is given for a surface of a survey; its layers lie beside the survey. The ground goes on between what
    was walked; of any other surface only the insides of its areas are sure to be there."""
    files = {key: str(job.survey.with_name(_file_name(job, name, of))) for key, (of, _) in OF_BUILD.items()}
    told: dict[str, object] = {"SURVEY": str(job.survey), "NAME": name, "INTERVAL": interval, **files}
    if name != GROUND and has_areas(job.survey, name):
        told["INSIDE"] = True
    return told


def _file_name(job: DeskJob, *parts: str) -> str:
    words = "_".join(re.sub(r"[^\w.+-]+", "_", part) for part in parts)
    return f"{job.survey.stem}_{words}.gpkg"


def build_titles(name: str) -> dict[str, str]:
    """What the layers of a surface are called."""
    return {
        TRIANGLES: tr("Surface {name}").format(name=name),
        CONTOURS: tr("Contours of {name}").format(name=name),
    }


# --- volumes ---


@dataclass(frozen=True)
class VolumeAsk:
    """What is to be measured: layers by their ids.

    Attributes:
        surface, name: of the ground as it is. to_surface, to_name: what it is held against; empty for a level.
        level: metres. strip: metres taken off beforehand. areas: layer of outlines; empty for all of the ground.
        is_selected: whether only its selected rows count. step: of the classes of depth, metres. unit: that words are in.
    """

    surface: str
    name: str
    to_surface: str = ""
    to_name: str = ""
    level: float = 0.0
    strip: float = 0.0
    areas: str = ""
    is_selected: bool = False
    step: float = 0.1
    unit: Unit = METRE

    @property
    def target(self) -> str:
        """What it is held against, in words."""
        return (
            self.to_name
            if self.to_surface
            else tr("level {level:g} {unit}").format(
                level=round(self.unit.of(self.level), LEVEL_DIGITS), unit=self.unit.sign
            )
        )


def volume_parameters(ask: VolumeAsk, job: DeskJob | None) -> dict[str, object]:
    """What Measure volumes is given; its layers lie beside the survey, where there is one."""
    told: dict[str, object] = {"SURFACE": ask.surface, "STRIP": ask.strip, "STEP": ask.step}
    told.update({"TO_SURFACE": ask.to_surface} if ask.to_surface else {"LEVEL": ask.level})
    if ask.areas:
        told["AREAS"] = QgsProcessingFeatureSourceDefinition(ask.areas, ask.is_selected)
    for key, (of, _) in OF_VOLUMES.items():
        target = ask.to_name or f"{ask.level:g}"
        told[key] = (
            IN_MEMORY
            if job is None or not job.is_surveyed
            else str(job.survey.with_name(_file_name(job, ask.name, "to", target, of)))
        )
    return told


def volume_titles(ask: VolumeAsk) -> dict[str, str]:
    """What the layers of a measured volume are called."""
    told = {"name": ask.name, "target": ask.target}
    return {
        VOLUMES: tr("Volumes of {name} to {target}").format(**told),
        DEPTHS: tr("Depths of {name} to {target}").format(**told),
        ZERO_LINE: tr("Zero line of {name} to {target}").format(**told),
    }


@dataclass(frozen=True)
class VolumeRow:
    """Cut, fill and net of one area in words, and what is to be known of it."""

    name: str
    cut: str
    fill: str
    net: str
    words: str


def read_volumes(layer: QgsVectorLayer, unit: Unit) -> tuple[VolumeRow, ...]:
    """The rows of measured volumes, with their 95 %."""
    columns = {field.name() for field in layer.fields()}
    name = next((name for name in ("name", "feature", "section") if name in columns), None)
    return tuple(_volume_row(row, name, unit, at) for at, row in enumerate(layer.getFeatures(), 1))


def _volume_row(row: object, name: str | None, unit: Unit, at: int) -> VolumeRow:
    told = str(row[name]) if name and isinstance(row[name], str) else tr("row {n}").format(n=at)  # type: ignore[index]
    cut, fill, net = (_volume(row, key, unit) for key in ("cut", "fill", "net"))
    finding = row["finding"]  # type: ignore[index]
    return VolumeRow(told, cut, fill, net, finding if isinstance(finding, str) else "")


UNEVEN = 0.05
"""Of a volume's 95 %: where its range is no more than that off its middle, it is told as either way."""


def _volume(row: object, name: str, unit: Unit) -> str:
    keys = (f"{name}_m3", f"{name}_m3_sigma", f"{name}_low_m3", f"{name}_high_m3")
    value, sigma, low, high = (row[key] if key in _names(row) else None for key in keys)  # type: ignore[index]
    if not isinstance(value, float):
        return tr("no figure")
    cubic = unit.metres**3
    sign = f"{unit.sign}³"
    if (
        isinstance(low, float)
        and isinstance(high, float)
        and abs(high + low - 2.0 * value) > UNEVEN * (high - low)
    ):
        words = tr("{value}, between {low} and {high}")
        ends = {key: f"{each / cubic:.2f}" for key, each in (("value", value), ("low", low), ("high", high))}
        return f"{words.format(**ends)} {sign}"
    half = f" ± {COVER_95 * sigma / cubic:.2f}" if isinstance(sigma, float) else ""
    return f"{value / cubic:.2f}{half} {sign}"


def _names(row: object) -> list[str]:
    return [field.name() for field in row.fields()]  # type: ignore[attr-defined]


# --- the layers in the project ---


def open_results(
    results: Mapping[str, object], made: Mapping[str, QgsMapLayer | None]
) -> dict[str, QgsVectorLayer]:
    """The layers of a run by output: those it made in memory, and those that lie in files."""
    opened = {}
    for key, place in results.items():
        layer = made.get(key)
        if layer is None and isinstance(place, str):
            layer = QgsVectorLayer(place, key, "ogr")
        if isinstance(layer, QgsVectorLayer) and layer.isValid():
            opened[key] = layer
    return opened


def add_results(
    project: QgsProject,
    layers: Mapping[str, QgsVectorLayer],
    titles: Mapping[str, str],
    kinds: Mapping[str, tuple[str, str]],
) -> dict[str, QgsVectorLayer]:
    """Put a run's layers into the group Ground, styled, the lines on top; a layer of the same file is read anew instead.

    Returns:
        The layers as the project has them, by output.
    """
    root = project.layerTreeRoot()
    group = root.findGroup(GROUP) or root.insertGroup(0, GROUP)
    shown = {}
    for key in (key for key in (TRIANGLES, DEPTHS, CONTOURS, ZERO_LINE) if key in layers):
        layer = layers[key]
        there = _of_file(project, layer)
        if there is not None:
            there.dataProvider().reloadData()
            there.updateExtents()
            tell_deepest(there, DEPTH_COLUMNS.get(kinds[key][1], ()))
            there.triggerRepaint()
            there.dataChanged.emit()
            shown[key] = there
            continue
        layer.setName(titles[key])
        layer.setCrs(on_earth(layer.crs()))
        if kinds[key][1]:
            layer.loadNamedStyle(str(style_path(kinds[key][1])))
            tell_deepest(layer, DEPTH_COLUMNS.get(kinds[key][1], ()))
        project.addMapLayer(layer, addToLegend=False)
        group.insertLayer(_place_for(group, layer), layer).setExpanded(False)
        shown[key] = layer
    return shown


def _place_for(group: QgsLayerTreeGroup, layer: QgsVectorLayer) -> int:
    """Lines and tables at the top, areas below all lines."""
    areas = QgsWkbTypes.GeometryType.PolygonGeometry
    if layer.geometryType() != areas:
        return 0
    kinds = [getattr(node.layer(), "geometryType", lambda: areas)() for node in group.findLayers()]
    return next((k for k, kind in enumerate(kinds) if kind == areas), len(kinds))


def _of_file(project: QgsProject, layer: QgsVectorLayer) -> QgsVectorLayer | None:
    """The layer of a project that shows the same file."""
    if layer.providerType() != "ogr":
        return None
    path = layer.source().partition("|")[0]
    others: Iterable[QgsMapLayer] = project.mapLayers().values()
    return next(
        (one for one in others if isinstance(one, QgsVectorLayer) and one.source().partition("|")[0] == path),
        None,
    )
