# SPDX-License-Identifier: GPL-2.0-or-later
"""A length that is typed in the unit that the project's labels show, and told in metres."""

from __future__ import annotations

from qgis.gui import QgsDoubleSpinBox

from ...bridge.survey_file import METRE, Unit

DECIMALS = 3
STEP_M = 0.05


class LengthBox(QgsDoubleSpinBox):
    """What it shows counts, to its digits; another unit shows the same length again, rounded to that unit's digits, and
    changes nothing until somebody types."""

    def __init__(self, least: float, most: float, metres: float, decimals: int = DECIMALS) -> None:
        super().__init__()
        self._unit, self._span, self._metres = METRE, (least, most), metres
        self.setDecimals(decimals)
        self.setSingleStep(STEP_M)
        self.setShowClearButton(False)
        self.valueChanged.connect(self._typed)
        self._show()

    def metres(self) -> float:
        """What it holds."""
        return self._metres

    def set_metres(self, metres: float) -> None:
        """Hold a length as it is shown, which is nobody's typing: no signal is sent."""
        shown = round(self._unit.of(metres), self.decimals())
        self._typed(shown)
        self._show()

    def show_unit(self, unit: Unit) -> None:
        """Show the same length in another unit."""
        if unit != self._unit:
            self._unit = unit
            self._show()

    def _typed(self, value: float) -> None:
        self._metres = min(max(value * self._unit.metres, self._span[0]), self._span[1])

    def _show(self) -> None:
        before = self.blockSignals(True)  # noqa: FBT003 - Qt's own
        self.setSuffix(f" {self._unit.sign}")
        self.setRange(*map(self._unit.of, self._span))
        self.setValue(self._unit.of(self._metres))
        self.blockSignals(before)
