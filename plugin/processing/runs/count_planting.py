# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of count_planting, which its form imports when it starts."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from qgis.core import QgsFeature

from ...bridge.fields import Kind
from ...bridge.measured import ASSUMED
from ...bridge.sources import ground_of
from ...bridge.text import tr
from ...bridge.trade import GroundReader, is_area
from ...bridge.trade_columns import columns_of, figure, plain, reason, refused, unasked, values_of
from ...core.errors import GroundTallyError
from ...core.trade.planting import Pattern, PlantingSpec, plant_bed, plant_row
from ..algorithm import Ask
from ..count_planting import (
    EXTRA,
    LOOSENING,
    MULCH,
    PATTERN,
    ROLL_LENGTH,
    ROLL_WIDTH,
    SEED,
    SEED_ALIVE,
    SET_BACK,
    SPACING,
)
from ..layers import SIGMA, SIZE_SIGMA, take_off_layer
from ..parameters import HEIGHT, INPUT

if TYPE_CHECKING:
    from collections.abc import Callable

    from qgis.core import QgsProcessingFeatureSource

    from ...bridge.trade import GroundRow, PlanArea

PATTERNS = (Pattern.SQUARE, Pattern.STAGGERED)
COLUMNS = (
    plain("plants", "plants", Kind.WHOLE),
    plain("plants_sigma", "plants_sigma"),
    plain("plants_ordered", "ordered", Kind.WHOLE),
    *figure("planted_m2", "area"),
    plain("turf_m2", "turf"),
    plain("rolls", "rolls", Kind.WHOLE),
    *figure("seed_kg", "seed"),
    *figure("mulch_m3", "mulch"),
    *figure("mulch_loose_m3", "loose"),
)

OF_BEDS = ("turf_m2", "rolls", "seed_kg", "mulch_m3", "mulch_loose_m3")
"""What a row of plants has none of."""


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    source = ask.source(INPUT)
    return take_off_layer(ask, source, columns_of(COLUMNS), _Job(ask, source).values)


class _Job:
    """One run: the layer and what is planted."""

    def __init__(self, ask: Ask, source: QgsProcessingFeatureSource) -> None:
        self._reader = GroundReader(
            ground_of(source.sourceCrs(), source.sourceName()), ask.number(HEIGHT) or 0.0
        )
        self._by_row = {name: ask.by_row(name, source) for name in (SIGMA, SPACING, SET_BACK)}
        number = {
            name: ask.number(name) or 0.0 for name in (EXTRA, SEED, SEED_ALIVE, MULCH, LOOSENING, SIZE_SIGMA)
        }
        self._common = {
            "extra": number[EXTRA] / 100.0,
            "seed": number[SEED],
            "live": number[SEED_ALIVE] / 100.0,
            "mulch": number[MULCH],
            "loosening": number[LOOSENING],
            "size_sigma": number[SIZE_SIGMA],
        }
        self._pattern = PATTERNS[int(ask.number(PATTERN) or 0)]
        self._roll = (ask.number(ROLL_LENGTH) or 0.0, ask.number(ROLL_WIDTH) or 0.0)
        self._is_area = is_area(source)

    def values(self, features: list[QgsFeature]) -> list[list[object]]:
        """The added columns of some rows."""
        sigma, spacing, set_back = (self._by_row[name](features) for name in (SIGMA, SPACING, SET_BACK))
        specs = [
            PlantingSpec(spacing=s, set_back=b, pattern=self._pattern, roll=self._roll, **self._common)
            for s, b in zip(spacing.tolist(), set_back.tolist())
        ]
        block = self._reader.block(features)
        reads = [partial(block.row, k) for k in range(len(features))]
        if not self._is_area:
            return [self._row(read, spec, worth) for read, spec, worth in zip(reads, specs, sigma.tolist())]
        areas = self._reader.areas(features, sigma)
        return [self._bed(read, spec, plan) for read, spec, plan in zip(reads, specs, areas)]

    def _row(self, read: Callable[[], GroundRow], spec: PlantingSpec, sigma: float) -> list[object]:
        try:
            planting = plant_row(read().line, spec, sigma)
        except GroundTallyError as error:
            return refused(COLUMNS, reason(error))
        told = ""
        if planting.is_gone:
            told = tr(
                "Nothing is left to plant: the row is shorter than its set-back at both ends. Give a smaller one."
            )
        return unasked(COLUMNS, values_of(COLUMNS, planting, ASSUMED, told), OF_BEDS)

    def _bed(self, read: Callable[[], GroundRow], spec: PlantingSpec, plan: PlanArea) -> list[object]:
        if plan.why:
            return refused(COLUMNS, plan.why)
        try:
            planting = plant_bed(read().rings, plan.area, spec)
        except GroundTallyError as error:
            return refused(COLUMNS, reason(error))
        told = ""
        if planting.is_gone:
            told = tr("Nothing is left to plant: the set-back takes all of the bed. Give a smaller one.")
        return unasked(COLUMNS, values_of(COLUMNS, planting, plan.sigma_from, told), _unasked(spec))


def _unasked(spec: PlantingSpec) -> list[str]:
    """Columns of what is not planted, laid, sown or spread."""
    given = (
        ("plants", spec.spacing),
        ("plants_ordered", spec.spacing),
        ("turf_m2", min(spec.roll)),
        ("rolls", min(spec.roll)),
        ("seed_kg", spec.seed),
        ("mulch_m3", spec.mulch),
        ("mulch_loose_m3", spec.mulch),
    )
    return [name for name, size in given if not size]
