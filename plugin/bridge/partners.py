# SPDX-License-Identifier: GPL-2.0-or-later
"""Rows of a layer that are two edges of one thing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.core import QgsFeatureRequest

from ..core.errors import BadInput
from .compat import IGNORE_INVALID
from .drawn import text_of
from .text import tr

if TYPE_CHECKING:
    from collections.abc import Mapping

    from qgis.core import QgsFeature, QgsProcessingFeatureSource

PARTNER = {"foot": "top", "left": "right"}
"""Parts of one thing with two edges: that which carries the figures, and the other."""


class Partners:
    """The second edges of things that were walked by two: top over foot, right beside left, of one feature and site."""

    def __init__(
        self,
        source: QgsProcessingFeatureSource,
        feature: str | None,
        part: str | None,
        pairs: Mapping[str, str] = PARTNER,
    ) -> None:
        """The layer, its columns of features' names and of parts (without them nothing has a partner), and which parts
        belong together: that which carries the figures, and the other."""
        self._pairs, self._mains = pairs, {other: main for main, other in pairs.items()}
        names = [field.name() for field in source.fields()]
        self._feature = feature or ("feature" if "feature" in names else None)
        self._part = part or ("part" if "part" in names else None)
        self._site = "site" if "site" in names else None
        self._rows: dict[tuple[str, str, str], list[QgsFeature]] = {}
        self._numbers: dict[int, int] = {}
        if self._feature and self._part:
            for number, row in enumerate(source.getFeatures(QgsFeatureRequest(), IGNORE_INVALID), 1):
                if self.part(row) in (*self._pairs, *self._mains):
                    self._numbers[row.id()] = number
                    self._rows.setdefault(self._key(row, self.part(row)), []).append(row)

    def part(self, row: QgsFeature) -> str:
        """A row's part, in small letters; "" where there is none."""
        return text_of(row.attribute(self._part)).lower() if self._part and self._feature else ""

    def name(self, row: QgsFeature) -> str:
        """A row's feature; "" where there is none."""
        return text_of(row.attribute(self._feature)) if self._feature else ""

    def _key(self, row: QgsFeature, part: str) -> tuple[str, str, str]:
        site = text_of(row.attribute(self._site)) if self._site else ""
        return site, self.name(row), part

    def other(self, row: QgsFeature) -> QgsFeature | None:
        """The other edge of a row's thing; None where it was not walked, or the row has no such part.

        Raises:
            BadInput: two rows are the same edge of one thing.
        """
        part = self.part(row)
        wanted = self._pairs.get(part) or self._mains.get(part)
        if wanted is None:
            return None
        for name in (part, wanted):
            if len(self._rows.get(self._key(row, name), [])) > 1:
                raise BadInput(
                    "Two rows are the {part} of {feature}. Give each thing a name of its own, or join the rows.",
                    part=name,
                    feature=self.name(row),
                )
        found = self._rows.get(self._key(row, wanted), [])
        return found[0] if found else None

    def is_other(self, row: QgsFeature) -> bool:
        """Whether a row is an edge whose figures stand in the row of the other one."""
        return self.part(row) in self._mains and self.other(row) is not None

    def counted_with(self, row: QgsFeature) -> str:
        """Of such a row, for its column method: which row has its figures, counted from 1 in what was given."""
        other = self.other(row)
        assert other is not None  # noqa: S101 - it is asked of rows whose other edge is there
        words = tr("counted with {feature}, {part} (row {row})")
        return words.format(feature=self.name(other), part=self.part(other), row=self._numbers[other.id()])
