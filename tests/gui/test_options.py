# SPDX-License-Identifier: GPL-2.0-or-later
"""The page in the host's options: shows what is set, stores on OK, leaves all on Cancel, and goes with the plugin."""

from __future__ import annotations

import pytest
from qgis.core import QgsSettings
from qgis.gui import QgsDoubleSpinBox
from qgis.PyQt.QtCore import Qt
from qgis.PyQt.QtTest import QTest
from qgis.PyQt.QtWidgets import QLabel, QTabWidget

from plugin.bridge import settings
from plugin.bridge.settings import PREFIX, ShownUnit
from plugin.gui.options import OptionsFactory, OptionsPage
from tests.own_settings import own_settings


@pytest.fixture
def stored(tmp_path, qgis_app):
    with own_settings(tmp_path / "settings"):
        settings.forget_all()
        yield
        settings.forget_all()


@pytest.fixture
def open_page(stored, qtbot):
    """Opens the page as the host does; pages of before are gone by then."""

    def open_one() -> OptionsPage:
        page = OptionsFactory().createWidget(None)
        qtbot.addWidget(page)
        return page

    return open_one


def shown(page: OptionsPage) -> dict[str, float]:
    return {number.key: box.value() for number, box in page.numbers.items()}


def keys() -> list[str]:
    """What is stored of ours."""
    return sorted(key[len(PREFIX) :] for key in QgsSettings().allKeys() if key.startswith(PREFIX))


def type_in(box: QgsDoubleSpinBox, text: str) -> None:
    box.selectAll()
    QTest.keyClicks(box.lineEdit(), text)
    QTest.keyClick(box.lineEdit(), Qt.Key.Key_Tab)


def test_the_factory_has_the_plugins_name_and_icon(stored):
    factory = OptionsFactory()
    assert factory.title() == "Ground Tally"
    assert not factory.icon().isNull()


def test_every_field_has_a_label_and_shows_the_default(open_page):
    page = open_page()
    labels = [label.text() for label in page.findChildren(QLabel)]
    assert labels[1:] == [
        "Edges of neighbours that may be one: farthest apart, metres",
        "Phone's figures: largest uncertainty that may be priced, percent",
        "One-sigma of a corner that was digitised, each axis, metres",
        "Largest distance of a vertex from its straight or arc, metres",
        "Labels show lengths in",
        "Who answers findings",
    ]
    assert shown(page) == {
        "join_within_m": 0.1,
        "price_within_percent": 5.0,
        "digitised_sigma_m": 0.1,
        "fit_within_m": 0.05,
    }
    assert page.unit.currentText() == "the CRS's own unit"
    assert (page.name.text(), page.name.placeholderText()) == ("", settings.own_name())
    assert keys() == []


def test_what_is_stored_is_shown(open_page):
    settings.write_number(settings.JOIN_WITHIN, 0.25)
    settings.write_shown_unit(ShownUnit.US_FOOT)
    settings.write_answerer("Site team")
    page = open_page()
    assert shown(page)["join_within_m"] == 0.25
    assert page.unit.currentText() == "US survey feet (1200/3937 m)"
    assert page.name.text() == "Site team"


def test_what_is_typed_is_stored_by_ok_and_not_before(open_page):
    page = open_page()
    type_in(page.numbers[settings.DIGITISED_SIGMA], "0.035")
    QTest.keyClicks(page.name, "  Site team ")
    page.unit.setCurrentIndex(2)
    assert keys() == []
    page.apply()
    assert settings.read_number(settings.DIGITISED_SIGMA) == 0.035
    assert settings.read_shown_unit() is ShownUnit.FOOT
    assert settings.answerer() == "Site team"
    assert keys() == ["answers_by", "digitised_sigma_m", "shown_unit"], "defaults are not stored"


def test_a_page_that_is_cancelled_leaves_what_was_there(open_page, qtbot):
    settings.write_number(settings.FIT_WITHIN, 0.02)
    page = open_page()
    type_in(page.numbers[settings.FIT_WITHIN], "0.5")
    page.close()
    assert settings.read_number(settings.FIT_WITHIN) == 0.02
    assert shown(open_page())["fit_within_m"] == 0.02


def test_back_to_the_defaults_is_stored_only_by_ok(open_page, qtbot):
    settings.write_number(settings.PRICE_WITHIN, 20.0)
    settings.write_answerer("Site team")
    page = open_page()
    qtbot.mouseClick(page.reset_button, Qt.MouseButton.LeftButton)
    assert (shown(page)["price_within_percent"], page.name.text()) == (5.0, "")
    assert settings.read_number(settings.PRICE_WITHIN) == 20.0
    page.apply()
    assert settings.read_number(settings.PRICE_WITHIN) == 5.0
    assert keys() == []


def test_a_broken_value_is_shown_as_the_default_and_goes_with_ok(open_page):
    QgsSettings().setValue(PREFIX + "join_within_m", "much")
    QgsSettings().setValue(PREFIX + "shown_unit", "furlong")
    page = open_page()
    assert (shown(page)["join_within_m"], page.unit.currentData()) == (0.1, "OF_CRS")
    page.apply()
    assert keys() == []


@pytest.mark.parametrize(("typed", "kept"), [("5000", 1.0), ("-3", 0.0)])
def test_a_number_is_kept_in_its_limits(typed, kept, open_page):
    page = open_page()
    box = page.numbers[settings.JOIN_WITHIN]
    box.setValue(float(typed))
    page.apply()
    assert settings.read_number(settings.JOIN_WITHIN) == kept


def test_a_pasted_name_of_two_lines_becomes_one(open_page):
    page = open_page()
    page.name.setText("Site\u2028team\t2")
    page.apply()
    assert settings.answerer() == "Siteteam2"


def test_the_page_stands_in_a_dialog_of_the_host_and_goes_with_it(stored, qtbot):
    """The host puts pages into a stack, applies all, and deletes them with the dialog."""
    tabs = QTabWidget()
    qtbot.addWidget(tabs)
    page = OptionsFactory().createWidget(tabs)
    tabs.addTab(page, "one")
    assert tabs.findChildren(OptionsPage) == [page]
    page.apply()
    page.setParent(None)
    page.deleteLater()
    qtbot.wait(20)
    assert tabs.findChildren(OptionsPage) == []
