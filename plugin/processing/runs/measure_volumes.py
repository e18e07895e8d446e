# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of measure_volumes, which its form imports when it starts."""

from __future__ import annotations

from contextlib import ExitStack
from functools import partial
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsFeature,
    QgsFields,
    QgsMeshLayer,
    QgsVectorLayer,
    QgsWkbTypes,
)

from ...bridge.layers import extended, fields_with
from ...bridge.measured import ASSUMED
from ...bridge.surfaces import read_surfaces
from ...bridge.text import tr
from ...bridge.volumes import (
    COLUMNS,
    OVER_TRIANGLES,
    depth_features,
    depth_fields,
    far_words,
    left_out_words,
    line_features,
    line_fields,
    no_ground_values,
    read_plane_points,
    read_volume_areas,
    refused_values,
    volume_values,
    weak_words,
)
from ...core.errors import BadInput
from ...core.ground.depths import Ground
from ...core.ground.earthwork import Soil, reckon_earthwork
from ...core.ground.ranges import volume_ranges
from ...core.ground.surface import Surface
from ...core.ground.target import TargetPlane
from ...core.ground.thickness import depth_bounds, map_depths, zero_lines
from ...core.ground.volume import measure_ground
from ..algorithm import Ask
from ..layers import SIGMA
from ..measure_volumes import (
    AREAS,
    BULKING,
    COMMON_SIGMA,
    CUT,
    DENSITY,
    FILL,
    FIT,
    LEVEL,
    LOAD_M3,
    LOAD_T,
    PLANE,
    SHRINK,
    STEP,
    STEP_M,
    STRIP,
    STRIP_SIGMA,
    SURFACE,
    THICKNESS,
    TO_SURFACE,
    ZERO_LINE,
)
from ..parameters import HEIGHT, OUTPUT

if TYPE_CHECKING:
    from collections.abc import Callable

    from ...bridge.surfaces import OpenedSurfaces
    from ..outputs import Rows

OUTPUTS = (OUTPUT, THICKNESS, ZERO_LINE)
TARGETS = (TO_SURFACE, LEVEL, PLANE)


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    ask.need_one(OUTPUTS)
    outputs = {name: ask.output(name) for name in OUTPUTS if ask.is_given(name)}
    job = _Job(ask)
    for output in outputs.values():
        output.name_by(job.name)
    with ExitStack() as stack:
        kinds = job.kinds()
        job.run({name: stack.enter_context(output.open(*kinds[name])) for name, output in outputs.items()})
    return {**{name: output.destination for name, output in outputs.items()}, **job.totals}


class _Job:
    """One run: surfaces and areas in, rows of volumes, classes of depth and zero lines out."""

    def __init__(self, ask: Ask) -> None:
        self._ask = ask
        self._opened, self._target, names = _opened(ask)
        self._to_surface = isinstance(self._target, Surface)
        self._strip, self._strip_sigma = ask.number(STRIP) or 0.0, ask.number(STRIP_SIGMA) or 0.0
        self._common = float(np.hypot(ask.number(COMMON_SIGMA) or 0.0, self._strip_sigma))
        self._soil = _soil(ask)
        self._source = ask.source(AREAS) if ask.is_given(AREAS) else None
        self.name = f"{names[0]} to {names[1]}"
        self._method = f"{OVER_TRIANGLES}, {self.name}"
        level = ask.number(LEVEL) if ask.is_given(LEVEL) else None
        self._far = "" if level is None else far_words(self._opened.surfaces[0], level)
        self.totals = {CUT: 0.0, FILL: 0.0}

    def kinds(self) -> dict[str, tuple[QgsFields, QgsWkbTypes.Type, QgsCoordinateReferenceSystem]]:
        """Columns, geometry and CRS of each output."""
        source, crs = self._source, self._opened.crs
        own = (QgsFields(), QgsWkbTypes.Type.NoGeometry, QgsCoordinateReferenceSystem())
        if source is not None:
            own = (source.fields(), source.wkbType(), source.sourceCrs())
        return {
            OUTPUT: (fields_with(own[0], COLUMNS), *own[1:]),
            THICKNESS: (depth_fields(), QgsWkbTypes.Type.MultiPolygon, crs),
            ZERO_LINE: (line_fields(), QgsWkbTypes.Type.LineStringZ, crs),
        }

    def run(self, sinks: dict[str, Rows]) -> None:
        """Every area, one after the other."""
        whole = Ground(self._opened.surfaces[0], self._target, None, self._strip)
        progress = self._ask.progress()
        progress(0.0, "Measuring")
        if self._source is None:
            values = self._row(whole, sinks, "", partial(progress, 0.5, ""))
            self._tell(1, values[0] is None, str(values[-1] or ""))
            if OUTPUT in sinks:
                feature = QgsFeature(self.kinds()[OUTPUT][0])
                feature.setAttributes(values)
                sinks[OUTPUT].add([feature])
            return
        areas = read_volume_areas(self._source, self._opened.plane)
        anew = self._ask.clashing_ids(OUTPUT, self._source, AREAS) if OUTPUT in sinks else None
        refused = 0
        for number, area in enumerate(areas):
            part = number / len(areas)
            progress(part, "Measuring")
            if area.refused:
                values = refused_values(area.refused)
            else:
                values = self._row(whole.within(area.rings), sinks, area.name, partial(progress, part, ""))
            refused += values[0] is None
            if OUTPUT in sinks:
                sinks[OUTPUT].add([extended(area.feature, values, None, anew)])
        self._tell(len(areas), refused, "")

    def _row(
        self, ground: Ground, sinks: dict[str, Rows], name: str, tick: Callable[[], None]
    ) -> list[object]:
        """The figures of one area; its depths and zero lines go out on the way."""
        volumes = measure_ground(ground, self._common, tick)
        if volumes.area == 0.0:
            return no_ground_values(to_surface=self._to_surface)
        self.totals[CUT] += volumes.cut.value
        self.totals[FILL] += volumes.fill.value
        plane, step = self._opened.plane, self._ask.number(STEP)
        if THICKNESS in sinks:
            bounds = depth_bounds(STEP_M if step is None else step, volumes.least.value, volumes.most.value)
            sinks[THICKNESS].add(depth_features(map_depths(ground, bounds, tick), plane, name, self._method))
        if ZERO_LINE in sinks:
            sinks[ZERO_LINE].add(line_features(zero_lines(ground, tick), plane, name, self._method))
        work = reckon_earthwork(volumes, self._soil, self._strip, self._strip_sigma)
        ranges = volume_ranges(ground, volumes, self._common, tick)
        found = " ".join(
            filter(None, (left_out_words(volumes, to_surface=self._to_surface), weak_words(volumes)))
        )
        return volume_values(volumes, ranges, work, (self._method, self._sigma_from(), found))

    def _tell(self, rows: int, refused: int, found: str) -> None:
        """What the run has come to."""
        words = tr("Rows measured: {measured}; cut {cut:.3f} m3 and fill {fill:.3f} m3 in all.")
        told = {"measured": rows - refused, "cut": self.totals[CUT], "fill": self.totals[FILL]}
        self._ask.feedback.pushInfo(words.format(**told))
        if refused:
            words = tr("Rows without figures: {refused}. The column finding says why, and what to do.")
            self._ask.feedback.pushWarning(words.format(refused=refused))
        for sentence in filter(None, (found, self._far)):
            self._ask.feedback.pushWarning(sentence)

    def _sigma_from(self) -> str:
        """A surface that says nothing has the one sigma that was stated at every point."""
        stated = self._ask.number(SIGMA) or 0.0
        told = [
            bool((surface.sigma != stated).any()) or surface.rough > 0.0 for surface in self._opened.surfaces
        ]
        return "surface" if all(told) else ASSUMED


def _opened(ask: Ask) -> tuple[OpenedSurfaces, Surface | TargetPlane, tuple[str, str]]:
    """The surfaces, what the first is measured to, and what both are called.

    Raises:
        BadInput: not one target, or a layer that does not hold one surface.
    """
    given = [name for name in TARGETS if ask.is_given(name)]
    if len(given) != 1:
        if not given:
            raise BadInput("Nothing is given to measure to: choose a surface, a level, or a plane.")
        words = {TO_SURFACE: tr("a surface"), LEVEL: tr("a level"), PLANE: tr("a plane")}
        raise BadInput(
            "More than one is given to measure to: {given}. Choose one of them.",
            given=", ".join(words[name] for name in given),
        )
    layers = [_surface_layer(ask, name) for name in (SURFACE, TO_SURFACE) if ask.is_given(name)]
    opened = read_surfaces(layers, ask.number(SIGMA) or 0.0, ask.number(HEIGHT))
    if len(opened.surfaces) != len(layers):
        raise BadInput(
            "The layers hold {count} surfaces: {names}. Filter each layer to the one that is meant.",
            count=len(opened.surfaces),
            names=", ".join(opened.names),
        )
    if given == [TO_SURFACE]:
        return opened, opened.surfaces[1], (opened.names[0], opened.names[1])
    if given == [LEVEL]:
        level = ask.number(LEVEL)
        assert level is not None  # noqa: S101 - it is given
        return opened, TargetPlane.at_level(level), (opened.names[0], f"level {level:g} m")
    return opened, read_plane_points(ask.source(PLANE), opened.plane), (opened.names[0], "a plane")


def _surface_layer(ask: Ask, name: str) -> QgsVectorLayer | QgsMeshLayer:
    layer = ask.one_layer(name)
    if not isinstance(layer, (QgsVectorLayer, QgsMeshLayer)):
        raise BadInput(
            "{layer} holds no triangles. Choose a layer of triangles with heights, or a mesh, as a surface.",
            layer=layer.name(),
        )
    return layer


def _soil(ask: Ask) -> Soil:
    bulking, shrink, fit = ask.number(BULKING), ask.number(SHRINK), ask.number(FIT)
    return Soil(
        1.0 if bulking is None else bulking,
        1.0 if shrink is None else shrink,
        1.0 if fit is None else fit,
        ask.number(DENSITY),
        ask.number(LOAD_M3),
        ask.number(LOAD_T),
    )
