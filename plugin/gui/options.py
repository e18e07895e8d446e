# SPDX-License-Identifier: GPL-2.0-or-later
"""The page in Settings, Options: what all jobs begin with. A value given to a run goes before it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from qgis.gui import QgsDoubleSpinBox, QgsOptionsPageWidget, QgsOptionsWidgetFactory
from qgis.PyQt.QtGui import QIcon
from qgis.PyQt.QtWidgets import QComboBox, QFormLayout, QLabel, QLineEdit, QPushButton

from ..bridge import settings
from ..bridge.resources import icon_path
from ..bridge.settings import Number, ShownUnit
from ..bridge.text import tr

if TYPE_CHECKING:
    from qgis.PyQt.QtWidgets import QWidget

TITLE = "Ground Tally"
STEPS = {
    settings.JOIN_WITHIN: 0.01,
    settings.PRICE_WITHIN: 1.0,
    settings.DIGITISED_SIGMA: 0.01,
    settings.FIT_WITHIN: 0.01,
}
"""What one click of a number's arrows adds."""
DECIMALS = 4


class OptionsFactory(QgsOptionsWidgetFactory):
    """Makes the page whenever the host's dialog opens."""

    def __init__(self) -> None:
        super().__init__(TITLE, QIcon(icon_path("ground_tally")))

    def createWidget(self, parent: QWidget | None = None) -> QgsOptionsPageWidget:
        return OptionsPage(parent)


class OptionsPage(QgsOptionsPageWidget):
    """Every setting with its label; nothing is stored before `apply`, which the dialog's OK calls."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("GroundTallyOptions")
        form = QFormLayout(self)
        words = QLabel(
            tr(
                "What every run begins with, where nothing else is given to it. Stored figures are always metres."
            )
        )
        words.setWordWrap(True)
        form.addRow(words)
        self.numbers = {number: _number_box(number) for number in settings.NUMBERS}
        for number, box in self.numbers.items():
            form.addRow(_label(number), box)
        self.unit = QComboBox()
        for unit in ShownUnit:
            self.unit.addItem(_unit_words(unit), unit.name)
        form.addRow(tr("Labels show lengths in"), self.unit)
        self.name = QLineEdit()
        self.name.setMaxLength(settings.LONGEST_NAME)
        self.name.setPlaceholderText(settings.own_name())
        form.addRow(tr("Who answers findings"), self.name)
        self.reset_button = QPushButton(tr("Back to the defaults"))
        self.reset_button.clicked.connect(self.show_defaults)
        form.addRow("", self.reset_button)
        self.show_stored()

    def show_stored(self) -> None:
        """What is set."""
        for number, box in self.numbers.items():
            box.setValue(settings.read_number(number))
        self._show_unit(settings.read_shown_unit())
        name = settings.answerer()
        self.name.setText("" if name == settings.own_name() else name)

    def show_defaults(self) -> None:
        """The defaults, to be stored by `apply` or left by cancelling."""
        for number, box in self.numbers.items():
            box.setValue(number.default)
        self._show_unit(ShownUnit.OF_CRS)
        self.name.clear()

    def apply(self) -> None:
        """Store what is shown; a default is stored by forgetting."""
        settings.forget_all()
        for number, box in self.numbers.items():
            if box.value() != number.default:
                settings.write_number(number, box.value())
        unit = ShownUnit[self.unit.currentData()]
        if unit is not ShownUnit.OF_CRS:
            settings.write_shown_unit(unit)
        name = "".join(filter(str.isprintable, self.name.text())).strip()
        if name:
            settings.write_answerer(name)

    def _show_unit(self, unit: ShownUnit) -> None:
        self.unit.setCurrentIndex(self.unit.findData(unit.name))


def _number_box(number: Number) -> QgsDoubleSpinBox:
    box = QgsDoubleSpinBox()
    box.setObjectName(number.key)
    box.setDecimals(DECIMALS)
    box.setRange(number.least, number.most)
    box.setSingleStep(STEPS[number])
    box.setClearValue(number.default)
    box.setShowClearButton(True)
    return box


def _label(number: Number) -> str:
    """A number's label in the user's language: the same words as the parameter's."""
    return {
        settings.JOIN_WITHIN: tr("Edges of neighbours that may be one: farthest apart, metres"),
        settings.PRICE_WITHIN: tr("Phone's figures: largest uncertainty that may be priced, percent"),
        settings.DIGITISED_SIGMA: tr("One-sigma of a corner that was digitised, each axis, metres"),
        settings.FIT_WITHIN: tr("Largest distance of a vertex from its straight or arc, metres"),
    }[number]


def _unit_words(unit: ShownUnit) -> str:
    return {
        ShownUnit.OF_CRS: tr("the CRS's own unit"),
        ShownUnit.METRE: tr("metres"),
        ShownUnit.FOOT: tr("feet (international, 0.3048 m)"),
        ShownUnit.US_FOOT: tr("US survey feet (1200/3937 m)"),
    }[unit]
