# SPDX-License-Identifier: GPL-2.0-or-later
"""The run of protect_trees, which its form imports when it starts."""

from __future__ import annotations

from contextlib import ExitStack
from typing import TYPE_CHECKING

from qgis.core import QgsFeature, QgsWkbTypes

from ...bridge.drawn import text_of
from ...bridge.fields import Kind
from ...bridge.layers import extended, fields_with, without_ids
from ...bridge.measured import ASSUMED
from ...bridge.sources import ground_of, read_chunks, refuse_other_kind
from ...bridge.text import tr
from ...bridge.trade import GroundReader
from ...bridge.trade_columns import columns_of, figure, plain, reason, refused, unasked, values_of
from ...bridge.tree_works import TreeRow, Works, overlap_geometry, tree_row
from ...core.errors import BadInput, GroundTallyError
from ...core.trade.trees import protect_tree, read_stems
from ..algorithm import Ask
from ..layers import SIGMA, tell_take_off
from ..parameters import HEIGHT, INPUT, OUTPUT
from ..protect_trees import LARGEST_RADIUS, OVERLAPS, STEM, STEM_COLUMN, STEM_SIGMA, STEMS, TIMES_STEM, WORKS
from .noted import size_by_row

if TYPE_CHECKING:
    from qgis.core import QgsProcessingFeatureSource

    from ..outputs import Rows

CHUNK = 500
MOST_NAMED = 5
"""Rows of works that a tree's question names."""
MOST_STEMS = 1000
COLUMNS = (
    *figure("protected_m2", "protection.area"),
    *figure("stem_m", "protection.stem"),
    *figure("radius_m", "protection.radius"),
    *figure("fence_m", "protection.fence"),
    *figure("taken_m2", "area_taken"),
    plain("taken_ratio", "share_taken"),
)
TAKEN = (
    ("tree_row", Kind.WHOLE),
    ("works_row", Kind.WHOLE),
    ("works_item", Kind.TEXT),
    ("overlap_m2", Kind.REAL),
    ("overlap_m2_sigma", Kind.REAL),
    ("overlap_ratio", Kind.REAL),
    ("overlap_finding", Kind.TEXT),
)


def run(ask: Ask) -> dict[str, object]:
    """What the run has made, by the names of its outputs."""
    names = (OUTPUT, OVERLAPS)
    ask.need_one(names)
    job = _Job(ask, ask.source(INPUT))
    outputs = {name: ask.output(name) for name in names if ask.is_given(name)}
    for output in outputs.values():
        output.name_by(ask.source(INPUT).sourceName())
    with ExitStack() as stack:
        rows = {name: stack.enter_context(out.open(*job.kinds[name])) for name, out in outputs.items()}
        told = job.write(rows.get(OUTPUT), rows.get(OVERLAPS))
    return {**{name: output.destination for name, output in outputs.items()}, **told}


class _Job:
    """One run: trees in, circles and overlaps out."""

    def __init__(self, ask: Ask, source: QgsProcessingFeatureSource) -> None:
        refuse_other_kind(source, QgsWkbTypes.GeometryType.PointGeometry)
        self._ask, self._source = ask, source
        way = ground_of(source.sourceCrs(), source.sourceName())
        self._reader = GroundReader(way, ask.number(HEIGHT) or 0.0)
        self._works = Works(ask.source(WORKS) if ask.is_given(WORKS) else None, source.sourceCrs())
        self._by_row = {name: ask.by_row(name, source) for name in (SIGMA, STEMS)}
        self._by_row[STEM] = size_by_row(ask, STEM, source, "stem_d_m")
        self._column = ask.text(STEM_COLUMN)
        self._stem_sigma, self._times, self._cap = (
            ask.number(name) or 0.0 for name in (STEM_SIGMA, TIMES_STEM, LARGEST_RADIUS)
        )
        crs = source.sourceCrs()
        self.kinds = {
            OUTPUT: (fields_with(source.fields(), columns_of(COLUMNS)), QgsWkbTypes.Type.CurvePolygon, crs),
            OVERLAPS: (fields_with(without_ids(source.fields()), TAKEN), QgsWkbTypes.Type.MultiPolygon, crs),
        }

    def write(self, circles: Rows | None, overlaps: Rows | None) -> dict[str, object]:
        """A row for every tree, and for every tree and outline of works that overlap."""
        progress, every = self._ask.progress(), max(self._source.featureCount(), 1)
        progress(0.0, "Measuring")
        anew = self._ask.clashing_ids(OUTPUT, self._source) if circles is not None else None
        measured, count, total = 0, 0, 0.0
        for chunk in read_chunks(self._source, CHUNK):
            told = {name: value(chunk.features).tolist() for name, value in self._by_row.items()}
            for k, feature in enumerate(chunk.features):
                tree = self._tree(feature, told[SIGMA][k], (told[STEM][k], told[STEMS][k]))
                if isinstance(tree, TreeRow):
                    measured, total = measured + 1, total + tree.protection.area.value
                    if overlaps is not None:
                        overlaps.add(self._overlaps(feature, count + k + 1, tree))
                if circles is not None:
                    circles.add([self._circle(feature, tree, anew)])
            count += len(chunk.features)
            progress(min(count / every, 1.0), "Measuring")
        return tell_take_off(self._ask, COLUMNS[0].name, measured, count - measured, total)

    def _tree(self, feature: QgsFeature, sigma: float, stem: tuple[float, float]) -> TreeRow | str:
        try:
            protection = protect_tree(self._stems(feature, stem), self._stem_sigma, self._times, self._cap)
            return tree_row(feature, protection, self._works, self._reader, sigma)
        except GroundTallyError as error:
            return reason(error)

    def _stems(self, feature: QgsFeature, stem: tuple[float, float]) -> tuple[float, ...]:
        noted = text_of(feature.attribute(self._column)) if self._column else ""
        if noted:
            return read_stems(noted)
        if stem[1] != round(stem[1]) or not 1.0 <= stem[1] <= MOST_STEMS:
            raise BadInput("The tree has {count:g} stems. Give a whole number from 1 to 1000.", count=stem[1])
        return (stem[0],) * round(stem[1])

    def _overlaps(self, feature: QgsFeature, number: int, tree: TreeRow) -> list[QgsFeature]:
        fields = self.kinds[OVERLAPS][0]
        own = [v for field, v in zip(feature.fields(), feature.attributes()) if field.name().lower() != "fid"]
        out = []
        for taken in tree.taken:
            row = QgsFeature(fields)
            names = [field.name() for field in taken.works.fields()]
            item = text_of(taken.works.attribute("item")) if "item" in names else ""
            figures: list[object] = [None, None, None]
            if taken.overlap is not None:
                figures = [taken.overlap.area.value, taken.overlap.area.sigma, taken.overlap.share]
                row.setGeometry(overlap_geometry(tree, taken))
            works = self._works.number(taken.works)
            row.setAttributes([*own, number, works, item or None, *figures, taken.why or None])
            out.append(row)
        return out

    def _circle(self, feature: QgsFeature, tree: TreeRow | str, anew: int | None) -> QgsFeature:
        """The tree's row with its circle; without one where it was refused."""
        row = QgsFeature(feature)
        if isinstance(tree, str):
            row.clearGeometry()
            return extended(row, refused(COLUMNS, tree), None, anew)
        numbers = [(self._works.number(taken.works), taken.overlap is None) for taken in tree.taken]
        asked = _asked(tree, [k for k, _ in numbers], [k for k, is_bad in numbers if is_bad])
        values = values_of(COLUMNS, tree, ASSUMED, asked)
        if not self._ask.is_given(WORKS):
            values = unasked(COLUMNS, values, ("taken_m2", "taken_ratio"))
        return extended(row, values, tree.circle, anew)


def _asked(tree: TreeRow, rows: list[int], bad: list[int]) -> str:
    """The question about works inside the circle.

    Args:
        tree: with what works take of it.
        rows: the works' numbers.
        bad: those of them that cannot be measured.
    """
    if not tree.taken:
        return ""
    if tree.area_taken is None:
        words = tr(
            "TR-01: Works lie at the protected root area (rows {rows}), and what they take is not known, for some cannot be "
            "measured (rows {bad}). Mend their outlines; see the overlaps for why."
        )
        return words.format(rows=_named(rows), bad=_named(bad))
    words = tr(
        "TR-01: Works take {area:.2f} m2 of the protected root area (rows {rows}). Move them, dig by hand, or enter the "
        "arborist's name."
    )
    told = words.format(area=tree.area_taken.value, rows=_named(rows))
    return f"{told} {tr('Some of them overlap: what two cover counts twice.')}" if tree.counts_twice else told


def _named(rows: list[int]) -> str:
    """The first few of some rows' numbers."""
    return ", ".join(map(str, rows[:MOST_NAMED])) + (", ..." if len(rows) > MOST_NAMED else "")
