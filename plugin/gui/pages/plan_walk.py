# SPDX-License-Identifier: GPL-2.0-or-later
"""What a walk may be expected to give, before it is walked: a plan drawn on the map or chosen, forecast as often as it
changes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from qgis.core import QgsGeometry, QgsLayerTree, QgsPointXY, QgsProject, QgsRectangle, QgsVectorLayer
from qgis.PyQt.QtCore import Qt
from qgis.PyQt.QtWidgets import (
    QGroupBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from ...bridge.ellipses import draw_ellipses
from ...bridge.expected import OUTPUTS, Forecast, Suggestion, read_forecast
from ...bridge.plan_layers import (
    FEATURE,
    MARK,
    WALK,
    PlannedMark,
    Seen,
    add_line,
    add_mark,
    free_mark,
    marks_near,
    names_in,
    new_lines,
    new_marks,
    pair_mark,
)
from ...bridge.text import explain, tr
from ...core.errors import GroundTallyError
from ..plan_changes import PlanChanges
from ..runner import Runner
from ..tools.plan_signs import PlanSigns
from ..tools.plan_tool import MarkTool, PlanTool, WalkTool
from .plan_draw import DrawForm
from .plan_inputs import PlanInputs
from .plan_results import ExpectedView, SentenceList, show_told

if TYPE_CHECKING:
    from qgis.core import QgsCoordinateReferenceSystem
    from qgis.gui import QgsMapTool

    from ...bridge.jobs import DeskJob

PLAN, EXPECTED, CHECKS = range(3)
INSTRUMENTS_FILE = "instruments.csv"


class PlanWalkPage(QWidget):
    """Owns its run, its map tools and what it shows on the map; `close_down` gives all back but the plan's own layers."""

    def __init__(self, iface: Any) -> None:
        super().__init__()
        self._canvas = iface.mapCanvas()
        self._project = QgsProject.instance()
        self._before: QgsMapTool | None = None
        self._shown: Forecast | None = None
        self._is_wanted = False
        self._ellipses = ""
        self.inputs, self.form, self.expected = PlanInputs(), DrawForm(), ExpectedView()
        self.checks = SentenceList()
        self.tabs, self.words = QTabWidget(), QLabel()
        self.undo, self.run = QPushButton(tr("&Undo")), QPushButton(tr("&Forecast"))
        self.fresh, self.stop = QPushButton(tr("&New plan")), QPushButton(tr("Stop"))
        self.walk_tool = WalkTool(self._canvas, self._near)
        self.mark_tool = MarkTool(self._canvas, self._near)
        self.signs = PlanSigns(self._canvas)
        self.changes, self.runner = PlanChanges(self), Runner(self)
        self._lay_out()
        self._connect()
        self._offer()

    def _lay_out(self) -> None:
        drawing, plan = QGroupBox(tr("Draw on the map")), QWidget()
        QVBoxLayout(drawing).addWidget(self.form)
        column = QVBoxLayout(plan)
        column.setContentsMargins(4, 4, 4, 4)
        for widget in (drawing, self.inputs):
            column.addWidget(widget)
        column.addStretch(1)
        scroll = QScrollArea()
        scroll.setWidget(plan)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.tabs.addTab(scroll, tr("Plan"))
        self.tabs.addTab(self.expected, tr("Expected"))
        self.tabs.addTab(self.checks, tr("Checks"))
        self.words.setWordWrap(True)
        self.words.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.stop.hide()
        buttons = QHBoxLayout()
        for widget, stretch in ((self.fresh, 0), (self.undo, 0), (self.run, 1), (self.stop, 1)):
            buttons.addWidget(widget, stretch)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.addWidget(self.tabs, 1)
        rows.addWidget(self.words)
        rows.addLayout(buttons)

    def _connect(self) -> None:
        self.form.walk_wanted.connect(lambda on: self._take(self.walk_tool if on else None))
        self.form.mark_wanted.connect(lambda on: self._take(self.mark_tool if on else None))
        self.form.kind_changed.connect(self._turn_tool)
        for tool, button in ((self.walk_tool, self.form.draw), (self.mark_tool, self.form.set)):
            tool.setButton(button)
            tool.told.connect(self.words.setText)
            tool.left.connect(lambda: self._take(None))
        self.walk_tool.drawn.connect(self._add_line)
        self.mark_tool.placed.connect(self._add_mark)
        self.mark_tool.taken_back.connect(self.changes.undo)
        self.inputs.layers_changed.connect(self._layers_changed)
        self.inputs.changed.connect(self._make_stale)
        self.form.sigma.valueChanged.connect(lambda _: self._make_stale())
        self.changes.changed.connect(self._plan_changed)
        self.expected.looked_at.connect(self._flash)
        self.expected.mark_wanted.connect(self._follow)
        self.undo.clicked.connect(self.changes.undo)
        self.fresh.clicked.connect(self.start_plan)
        self.run.clicked.connect(self.forecast)
        self.stop.clicked.connect(self.runner.cancel)
        self.runner.ended.connect(self._end)
        self._project.cleared.connect(self._forget)

    def show_job(self, job: DeskJob, crs: QgsCoordinateReferenceSystem) -> None:
        """Take a job's file of instruments, where it has one and none is chosen."""
        file = job.folder / INSTRUMENTS_FILE
        if file.is_file() and not self.inputs.instrument.file.filePath():
            self.inputs.instrument.take_file(file)

    # --- the plan ---

    def start_plan(self) -> None:
        """Two new layers, empty."""
        self.walk_tool.give_up()
        self.inputs.lines.setCurrentIndex(0)
        self.inputs.marks.setCurrentIndex(0)
        self._lines()
        self._marks()
        self.words.setText(tr("A new plan: set two marks at least, then draw the walk over them."))

    def _lines(self) -> QgsVectorLayer:
        """The layer that lines are drawn into, made where there is none."""
        if self.inputs.lines.currentLayer() is None:
            # Below the marks, so that their letters stay to be read.
            layers = self._project.layerTreeRoot().children()
            names = [node.layerId() if QgsLayerTree.isLayer(node) else "" for node in layers]
            marks = self.inputs.marks.currentLayer()
            at = names.index(marks.id()) + 1 if marks is not None and marks.id() in names else 0
            self.inputs.lines.setLayer(self._put(new_lines(self._crs()), at))
        return self.inputs.lines.currentLayer()

    def _marks(self) -> QgsVectorLayer:
        if self.inputs.marks.currentLayer() is None:
            self.inputs.marks.setLayer(self._put(new_marks(self._crs())))
        return self.inputs.marks.currentLayer()

    def _put(self, layer: QgsVectorLayer, at: int = 0) -> QgsVectorLayer:
        self._project.addMapLayer(layer, addToLegend=False)
        self._project.layerTreeRoot().insertLayer(at, layer)
        return layer

    def _crs(self) -> QgsCoordinateReferenceSystem:
        """The map's."""
        return self._canvas.mapSettings().destinationCrs()

    def _near(self, about: QgsRectangle) -> list[Seen]:
        layer, column = self.inputs.marks.currentLayer(), self.inputs.names()[MARK]
        return marks_near(layer, column, about, self._crs())

    def _add_line(self, points: list[QgsPointXY]) -> None:
        layer = self._tried(self._lines)
        if layer is None:
            return
        names = self.inputs.names()
        told = {WALK: self.form.walked(), FEATURE: self.form.feature()}
        cells = {names[key]: value for key, value in told.items() if names[key]}
        before = layer.featureCount()
        self._tried(lambda: add_line(layer, points, self._crs(), cells))
        if layer.featureCount() > before:
            self.words.setText(tr("Drawn. Click the first station of the next line, or press Forecast."))

    def _add_mark(self, at: QgsPointXY) -> None:
        mark = PlannedMark(
            self.form.mark.text().strip(), self.form.sigma.value(), self.form.level.isChecked()
        )
        self._tried(lambda: add_mark(self._marks(), at, self._crs(), mark, self.inputs.names()))

    def _follow(self, suggestion: Suggestion) -> None:
        """Set the mark that was suggested, or pair the one that is there."""
        forecast = self._shown
        if forecast is None:
            return
        layer, names = self._marks(), self.inputs.names()
        if suggestion.mark:
            self._tried(lambda: pair_mark(layer, suggestion.mark, names))
            return
        mark = PlannedMark(free_mark(names_in(layer, names[MARK])), suggestion.sigma)
        self._tried(lambda: add_mark(layer, suggestion.at, forecast.crs, mark, self.inputs.names()))

    def _tried(self, change: Any) -> Any:
        """What a change gives; one that is refused says why."""
        try:
            return change()
        except GroundTallyError as error:
            self.words.setText(explain(error))
            return None

    def _plan_changed(self) -> None:
        self._offer()
        self._make_stale()

    def _layers_changed(self) -> None:
        for layer in self.inputs.layers():
            self.changes.watch(layer)
        self._offer()
        self._make_stale()

    def _offer(self) -> None:
        """Names that are free, and what the buttons can do."""
        lines, marks = self.inputs.layers()
        names = self.inputs.names()
        walks = names_in(lines, names[WALK])
        self.form.offer(names_in(lines, names[FEATURE]), walks, names_in(marks, names[MARK]))
        self.undo.setEnabled(self.changes.can_undo)

    # --- the tools ---

    def _take(self, tool: PlanTool | None) -> None:
        """Take a map tool up; None: give back the one that was there before."""
        now = self._canvas.mapTool()
        if tool is None:
            if isinstance(now, PlanTool):
                self._canvas.unsetMapTool(now)
                if self._before is not None:
                    self._canvas.setMapTool(self._before)
            return
        if not isinstance(now, PlanTool):
            self._before = now
        self._canvas.setMapTool(tool)

    def _turn_tool(self) -> None:
        self.walk_tool.is_outline = self.form.is_area()

    # --- the forecast ---

    def forecast(self) -> None:
        """Start Plan walk on the plan as it is."""
        if self.runner.is_busy:
            return
        parameters = self._tried(lambda: self.inputs.parameters(self.form.sigma.value()))
        if parameters is None:
            return
        self._show_run(is_on=True)
        self.words.setText(tr("Forecasting"))
        self._clear_map()
        self._is_wanted = True
        self.runner.start("plan_walk", parameters)

    def _show_run(self, *, is_on: bool) -> None:
        self.run.setVisible(not is_on)
        self.stop.setVisible(is_on)

    def _end(self, was_good: bool, results: dict[str, object], said: str) -> None:
        self._show_run(is_on=False)
        layers = {name: self.runner.take_layer(results[name]) for name in OUTPUTS if name in results}
        if not self._is_wanted:  # another project, or the page is gone
            return
        if not was_good or len(layers) < len(OUTPUTS):
            self.words.setText(said)
            self.expected.clear(tr("No forecast: {why}").format(why=said))
            return
        forecast = self._tried(lambda: read_forecast(layers))
        if forecast is not None:
            self._show(forecast)

    def _show(self, forecast: Forecast) -> None:
        drawn = draw_ellipses(forecast)
        self._shown = forecast
        self._clear_map()
        self._ellipses = self._put(drawn.layer).id()
        self.signs.show([(str(one.rank), one.at) for one in forecast.suggestions], forecast.crs)
        self.expected.show_forecast(forecast, drawn)
        show_told(self.checks, forecast)
        self.tabs.setTabText(CHECKS, tr("Checks ({n})").format(n=len(forecast.told)))
        self.tabs.setCurrentIndex(EXPECTED)
        self.words.setText("")

    def _make_stale(self) -> None:
        """Say that the figures are of an older plan."""
        if self._shown is not None:
            self.words.setText(tr("The plan was changed since: forecast again."))

    def _clear_map(self) -> None:
        """Take the ellipses and the signs off the map."""
        self.signs.clear()
        if self._ellipses and self._project.mapLayer(self._ellipses) is not None:
            self._project.removeMapLayer(self._ellipses)
        self._ellipses = ""

    def _flash(self, places: list[QgsPointXY]) -> None:
        if self._shown is not None and places:
            self._canvas.flashGeometries(
                [QgsGeometry.fromPointXY(place) for place in places], self._shown.crs
            )

    def _forget(self) -> None:
        """Another project: nothing of the old one stays."""
        self.runner.cancel()
        self._shown, self._is_wanted = None, False
        self._clear_map()
        self.walk_tool.give_up()
        self.expected.clear(tr("No forecast yet: draw or choose a plan, then press Forecast."))
        self.checks.clear()
        self.words.setText("")

    def close_down(self) -> None:
        """Give back the map and the project; the plan's layers stay, for they are the user's."""
        self.runner.cancel()
        self._take(None)
        self.walk_tool.give_up()
        self._clear_map()
        self._shown, self._is_wanted = None, False
        self.changes.close_down()
        self._project.cleared.disconnect(self._forget)
