# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of measure_slabs, which its form imports when it starts."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import numpy as np
from qgis.core import QgsFeature, QgsWkbTypes

from ...bridge.edge_sides import EdgeSides
from ...bridge.fields import Kind
from ...bridge.gradient_rows import open_surface
from ...bridge.measured import ASSUMED
from ...bridge.sources import ground_of, refuse_other_kind
from ...bridge.survey_worth import seat_outline
from ...bridge.text import tr
from ...bridge.trade import GroundReader
from ...bridge.trade_columns import columns_of, figure, plain, reason, refused, unasked, values_of
from ...core.errors import GroundTallyError
from ...core.trade.slab_edges import Named, edges_along
from ...core.trade.slabs import SlabSpec, measure_slab
from ..algorithm import Ask
from ..layers import SIGMA, SIZE_SIGMA, take_off_layer
from ..measure_slabs import (
    BOTTOM,
    EDGE_DEPTH,
    EDGE_SPLAY,
    EDGE_WIDTH,
    EDGES,
    EXTRA,
    JOINT_FACTOR,
    LAP,
    SHEET_LENGTH,
    SHEET_WIDTH,
    STEP,
    SURFACE,
    THICKNESS,
    TIGHT_RADIUS,
    WASTE,
)
from ..parameters import HEIGHT, INPUT
from .noted import size_by_row

if TYPE_CHECKING:
    from collections.abc import Callable

    from qgis.core import QgsProcessingFeatureSource

    from ...bridge.planned import Plane
    from ...bridge.trade import GroundRow, PlanArea
    from ...core.ground.surface import Surface
    from ...core.trade.lines import Line
    from ...core.trade.worth import Worth

COLUMNS = (
    *figure("concrete_m3", "concrete"),
    *figure("edge_m3", "edges"),
    plain("ordered_m3", "ordered"),
    *figure("slab_m2", "area"),
    plain("thickness_min_m", "thinnest"),
    *figure("thickness_mean_m", "mean"),
    plain("thickness_max_m", "thickest"),
    plain("form_straight_150_m", "forms.straight.0"),
    plain("form_straight_300_m", "forms.straight.1"),
    plain("form_straight_over_m", "forms.straight.2"),
    plain("form_curved_150_m", "forms.curved.0"),
    plain("form_curved_300_m", "forms.curved.1"),
    plain("form_curved_over_m", "forms.curved.2"),
    plain("form_m2", "forms.area"),
    plain("off_plane_m", "off_plane"),
    plain("joint_m", "joints"),
    plain("bays", "bays", Kind.WHOLE),
    plain("sheets", "sheets", Kind.WHOLE),
    plain("sheet_net_m2", "net_sheet"),
)


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    source = ask.source(INPUT)
    refuse_other_kind(source, QgsWkbTypes.GeometryType.PolygonGeometry)
    return take_off_layer(ask, source, columns_of(COLUMNS), _Job(ask, source).values)


class _Job:
    """One run: the layer and how its slabs are made."""

    def __init__(self, ask: Ask, source: QgsProcessingFeatureSource) -> None:
        self._reader = GroundReader(
            ground_of(source.sourceCrs(), source.sourceName()), ask.number(HEIGHT) or 0.0
        )
        self._by_row = {
            SIGMA: ask.by_row(SIGMA, source),
            THICKNESS: size_by_row(ask, THICKNESS, source, "depth_m"),
        }
        self._bottom = ask.number(BOTTOM)
        names = (EXTRA, EDGE_DEPTH, EDGE_WIDTH, EDGE_SPLAY, JOINT_FACTOR, LAP, STEP, SIZE_SIGMA)
        self._sizes = {name.lower(): ask.number(name) or 0.0 for name in names}
        self._sizes["tight"] = ask.number(TIGHT_RADIUS) or 0.0
        self._sizes["waste"] = (ask.number(WASTE) or 0.0) / 100.0
        self._under, self._plane = _under(ask)
        height = ask.number(HEIGHT) or 0.0
        self._sides = (
            EdgeSides(ask.source(EDGES), source.sourceCrs(), height) if ask.is_given(EDGES) else None
        )
        self._sheet = (ask.number(SHEET_LENGTH) or 0.0, ask.number(SHEET_WIDTH) or 0.0)
        self._unasked = [
            *(() if self._sizes["joint_factor"] else ("joint_m", "bays")),
            *(() if min(self._sheet) > 0.0 else ("sheets", "sheet_net_m2")),
        ]

    def values(self, features: list[QgsFeature]) -> list[list[object]]:
        """The added columns of some rows."""
        told = {name: value(features).tolist() for name, value in self._by_row.items()}
        areas, block = self._reader.areas(features, np.array(told[SIGMA])), self._reader.block(features)
        return [
            self._row(f, partial(block.row, k), told[SIGMA][k], told[THICKNESS][k], areas[k])
            for k, f in enumerate(features)
        ]

    def _row(
        self,
        feature: QgsFeature,
        read: Callable[[Plane | None], GroundRow],
        sigma: float,
        thickness: float,
        plan: PlanArea,
    ) -> list[object]:
        if plan.why:
            return refused(COLUMNS, plan.why)
        try:
            row = read(self._plane)
            rings, worth = self._rings(feature, row, sigma, plan)
            named = self._named(feature, row, rings)
            spec = SlabSpec(
                thickness,
                self._bottom,
                self._under,
                sheet=self._sheet,
                thickened=named.stretches if named else None,
                **self._sizes,
            )
            slab = measure_slab(rings, plan.area, spec, worth)
        except GroundTallyError as error:
            return refused(COLUMNS, reason(error))
        told = _unmatched(named) if named and self._sizes["edge_depth"] > 0.0 else ""
        return unasked(COLUMNS, values_of(COLUMNS, slab, plan.sigma_from, told), self._unasked)

    def _named(self, feature: QgsFeature, row: GroundRow, rings: list[Line]) -> Named | None:
        """What of the outline is drawn as sides to be thickened; None where no sides are."""
        return None if self._sides is None else edges_along(rings, self._sides.near(feature, row.plane))

    def _rings(
        self, feature: QgsFeature, row: GroundRow, sigma: float, plan: PlanArea
    ) -> tuple[list[Line], float | Worth]:
        """The rings, and what their points are worth: as the survey says where it drew them."""
        seated = seat_outline(feature, row.rings) if plan.sigma_from != ASSUMED else None
        return (list(seated.lines), seated.worth) if seated else (row.rings, sigma)


def _unmatched(named: Named) -> str:
    """What is to be told of sides that thicken nothing; "" where there is nothing to tell."""
    if named.off:
        words = tr(
            "Thickened sides that lie near the outline and not along its outer edge within 20 mm: {count}. What lies off it "
            "thickens nothing: move it onto the edge."
        )
        return words.format(count=named.off)
    if named.is_none:
        return tr(
            "No thickened side runs along the outer edge: nothing is thickened. Draw its sides along it."
        )
    return ""


def _under(ask: Ask) -> tuple[Surface | None, Plane | None]:
    """The surface under the slabs and its plane; none where none is given."""
    if not ask.is_given(SURFACE):
        return None, None
    layer = ask.one_layer(SURFACE)
    opened = open_surface(layer, ask.number(SIGMA) or 0.0, ask.number(HEIGHT))
    return opened.surfaces[0], opened.plane
