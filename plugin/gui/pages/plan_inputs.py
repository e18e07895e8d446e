# SPDX-License-Identifier: GPL-2.0-or-later
"""The layers of a plan, their columns, and what the instrument and the map points are worth."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from qgis.core import QgsMapLayerProxyModel
from qgis.gui import (
    QgsCollapsibleGroupBoxBasic,
    QgsDoubleSpinBox,
    QgsFieldComboBox,
    QgsFileWidget,
    QgsMapLayerComboBox,
)
from qgis.PyQt.QtCore import pyqtSignal
from qgis.PyQt.QtWidgets import (
    QComboBox,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from ...bridge.instruments import instrument_names
from ...bridge.plan_layers import FEATURE, LEVELLED, MARK, PAIRED, SIGMA, WALK, plan_columns
from ...bridge.plan_run import PlannedInstrument, PlannedPicks, Worth, plan_parameters
from ...bridge.text import explain, tr
from ...core.errors import GroundTallyError

if TYPE_CHECKING:
    from collections.abc import Iterable

    from qgis.core import QgsVectorLayer

MOST_SIGMA_M = 100.0
STEP_M, DECIMALS = 0.01, 3
OF_MARKS = (MARK, SIGMA, PAIRED, LEVELLED)


def metres_box(value: float) -> QgsDoubleSpinBox:
    """A box for a one-sigma in metres."""
    box = QgsDoubleSpinBox()
    box.setDecimals(DECIMALS)
    box.setRange(0.0, MOST_SIGMA_M)
    box.setSingleStep(STEP_M)
    box.setSuffix(" m")
    box.setValue(value)
    box.setClearValue(value)
    return box


def narrow(*widgets: QComboBox) -> None:
    """Let boxes be as narrow as the dock, however long their entries are."""
    for widget in widgets:
        widget.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        widget.setMinimumContentsLength(6)
        widget.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)


class PlanInputs(QWidget):
    """Signals: `layers_changed` when other layers or columns are chosen, `changed` when anything else that a forecast
    hangs on is."""

    layers_changed = pyqtSignal()
    changed = pyqtSignal()

    def __init__(self) -> None:
        super().__init__()
        self.lines = self._layer_box(
            QgsMapLayerProxyModel.Filter.LineLayer, tr("none yet: drawing makes one")
        )
        self.marks = self._layer_box(
            QgsMapLayerProxyModel.Filter.PointLayer, tr("none yet: setting makes one")
        )
        self.columns = {name: QgsFieldComboBox() for name in (WALK, FEATURE, *OF_MARKS)}
        self.more = QgsCollapsibleGroupBoxBasic(tr("Columns of these layers"))
        self.instrument = InstrumentForm()
        self.common = metres_box(0.0)
        self._lay_out()
        self.lines.layerChanged.connect(lambda _: self._show_columns((WALK, FEATURE)))
        self.marks.layerChanged.connect(lambda _: self._show_columns(OF_MARKS))
        self._show_columns(tuple(self.columns))
        for box in self.columns.values():
            box.fieldChanged.connect(lambda _: self.layers_changed.emit())
        self.instrument.changed.connect(self.changed)
        self.common.valueChanged.connect(lambda _: self.changed.emit())

    def _layer_box(self, kind: QgsMapLayerProxyModel.Filter, words: str) -> QgsMapLayerComboBox:
        box = QgsMapLayerComboBox()
        box.setFilters(kind)
        box.setAllowEmptyLayer(True, words)  # noqa: FBT003 - the host's own
        box.setCurrentIndex(0)  # the empty entry with its words; setLayer(None) shows none of both
        narrow(box)
        return box

    def _lay_out(self) -> None:
        labels = {
            WALK: tr("Walk"),
            FEATURE: tr("Feature"),
            MARK: tr("Mark"),
            SIGMA: tr("One-sigma, m"),
            PAIRED: tr("Paired, yes or no"),
            LEVELLED: tr("Height known"),
        }
        columns = QFormLayout(self.more)
        for name, box in self.columns.items():
            box.setAllowEmptyFieldName(True)
            narrow(box)
            columns.addRow(labels[name], box)
        self.more.setCollapsed(True)
        form = QFormLayout(self)
        form.setContentsMargins(0, 0, 0, 0)
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.ExpandingFieldsGrow)
        form.addRow(tr("Walks"), self.lines)
        form.addRow(tr("Marks"), self.marks)
        form.addRow(self.more)
        form.addRow(tr("Instrument"), self.instrument)
        form.addRow(tr("Shift of all"), self.common)
        self.common.setToolTip(
            tr("One-sigma of how far the picture may lie off as a whole: it moves the site, not its size.")
        )

    def layers(self) -> tuple[QgsVectorLayer | None, QgsVectorLayer | None]:
        """The walks and the marks that are chosen."""
        return self.lines.currentLayer(), self.marks.currentLayer()

    def names(self) -> dict[str, str]:
        """The columns that are chosen, by our names."""
        return {name: box.currentField() for name, box in self.columns.items()}

    def _show_columns(self, names: Iterable[str]) -> None:
        lines, marks = self.layers()
        known = plan_columns(lines, marks)
        for name in names:
            box = self.columns[name]
            box.blockSignals(True)  # noqa: FBT003 - Qt's own
            box.setLayer(marks if name in OF_MARKS else lines)
            box.setField(known[name])
            box.blockSignals(False)  # noqa: FBT003
        self.layers_changed.emit()

    def parameters(self, sigma: float) -> dict[str, object]:
        """What is chosen, as a run of Plan walk takes it; `sigma` is of a map point that has none of its own, metres.

        Raises:
            BadInput: something is missing.
        """
        picks = PlannedPicks(sigma, self.common.value())
        return plan_parameters(*self.layers(), self.names(), self.instrument.told(), picks)


class InstrumentForm(QWidget):
    """What the instrument is worth: assumed, as its maker states it, or from a file. Signals: `changed`."""

    changed = pyqtSignal()

    def __init__(self) -> None:
        super().__init__()
        self.worth = QComboBox()
        self.worth.addItem(tr("not known (assumed)"), Worth.ASSUMED)
        self.worth.addItem(tr("accuracy as stated"), Worth.STATED)
        self.worth.addItem(tr("file of instruments"), Worth.FILE)
        self.accuracy, self.kind = QLineEdit(), QComboBox()
        self.accuracy.setPlaceholderText("0.02 m + 0.3 %")
        self.kind.addItems([tr("limit"), tr("95 %"), tr("sigma")])
        self.kind.setToolTip(tr("The accuracy is stated as"))
        self.file, self.name = QgsFileWidget(), QComboBox()
        self.file.setFilter(tr("Tables") + " (*.csv *.txt)")
        self.words = QLabel()
        self.words.setWordWrap(True)
        narrow(self.worth, self.name)
        self._lay_out()
        self.worth.currentIndexChanged.connect(lambda _: self._turn())
        self.accuracy.textChanged.connect(lambda _: self.changed.emit())
        self.kind.currentIndexChanged.connect(lambda _: self.changed.emit())
        self.file.fileChanged.connect(self._read)
        self.name.currentIndexChanged.connect(lambda _: self.changed.emit())

    def _lay_out(self) -> None:
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        stated = QHBoxLayout()
        stated.addWidget(self.accuracy, 1)
        stated.addWidget(self.kind)
        rows.addWidget(self.worth)
        rows.addLayout(stated)
        for widget in (self.file, self.name, self.words):
            rows.addWidget(widget)
        self._show_fields()

    def _show_fields(self) -> None:
        worth = self.worth.currentData()
        for widget in (self.accuracy, self.kind):
            widget.setVisible(worth is Worth.STATED)
        for widget in (self.file, self.name):
            widget.setVisible(worth is Worth.FILE)
        self.words.setVisible(worth is Worth.FILE and bool(self.words.text()))

    def _turn(self) -> None:
        self._show_fields()
        self.changed.emit()

    def _read(self, text: str) -> None:
        """The names that a file holds, or why it is none."""
        self.name.clear()
        self.words.clear()
        try:
            self.name.addItems(instrument_names(Path(text)) if text else [])
        except GroundTallyError as error:
            self.words.setText(explain(error))
        self._turn()

    def take_file(self, path: Path) -> None:
        """Take what the instruments are worth from a file."""
        self.worth.setCurrentIndex(self.worth.findData(Worth.FILE))
        self.file.setFilePath(str(path))

    def told(self) -> PlannedInstrument:
        """What is chosen."""
        return PlannedInstrument(
            self.worth.currentData(),
            self.accuracy.text().strip(),
            self.kind.currentIndex(),
            self.file.filePath(),
            self.name.currentText(),
        )
