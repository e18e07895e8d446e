# SPDX-License-Identifier: GPL-2.0-or-later
"""The host's language: which it is, and our texts in it for as long as they are loaded."""

from __future__ import annotations

import subprocess

import pytest
from qgis.core import QgsSettings
from qgis.PyQt.QtCore import QLocale

from plugin.bridge.resources import RESOURCES
from plugin.bridge.settings import HAS_OWN_LOCALE, LOCALE, host_locale
from plugin.bridge.text import drop_translator, explain, explain_finding, explain_remedy, load_translator, tr
from plugin.core.errors import BadInput
from plugin.core.findings import Finding, Severity
from plugin.processing.survey_walks import SurveyWalks
from scripts.make_package import find_compiler
from tests.own_settings import own_settings

COMPILER = find_compiler()
FINDING = Finding(
    "GE-05",
    Severity.NOTE,
    "Pit",
    "{file}, line {line}: {hole} lies inside {area} and was taken as a hole of it.",
    "If it is none, give the two another `surface` or `option`; if it is, name the area in `hole_in`.",
    {"file": "w1.csv", "line": 4, "hole": "Pit", "area": "Yard"},
)
ENGLISH = "w1.csv, line 4: Pit lies inside Yard and was taken as a hole of it."
GERMAN = "w1.csv, Zeile 4: Pit liegt in Yard und wurde als Aussparung davon genommen."


@pytest.fixture
def settings(tmp_path, qgis_app):
    with own_settings(tmp_path / "settings"):
        yield QgsSettings()


@pytest.fixture
def catalogues(tmp_path):
    """The German texts as the zip holds them."""
    if COMPILER is None:
        pytest.skip("Qt's lrelease is not here (Debian: qttools5-dev-tools)")
    folder = tmp_path / "i18n"
    folder.mkdir()
    source = RESOURCES / "i18n" / "ground_tally_de.ts"
    subprocess.run([COMPILER, "-silent", str(source), "-qm", str(folder / "ground_tally_de.qm")], check=True)
    return folder


def choose(settings, name: str, *, own: bool = True) -> None:
    """The user's choice in the host's options."""
    settings.setValue(LOCALE, name)
    settings.setValue(HAS_OWN_LOCALE, own)


@pytest.fixture
def loaded(settings, catalogues):
    """Loads the texts of a language; they go with the test."""
    held = []

    def load(name: str):
        choose(settings, name)
        held.append(load_translator(catalogues))
        return held[-1]

    yield load
    for translator in held:
        drop_translator(translator)


def test_the_users_own_language_goes_before_the_systems(settings):
    choose(settings, "pt_BR")
    assert host_locale() == "pt_BR"
    choose(settings, "pt_BR", own=False)
    assert host_locale() == QLocale.system().name()


def test_without_a_choice_it_is_the_systems(settings):
    assert host_locale() == QLocale.system().name()
    settings.setValue(HAS_OWN_LOCALE, True)
    assert host_locale() == QLocale.system().name()


@pytest.mark.parametrize("name", ["de", "de_AT", "de_CH"])
def test_german_hosts_get_labels_findings_and_errors_in_german(name, loaded):
    assert loaded(name) is not None
    assert SurveyWalks().displayName() == "Begehungen aufmessen"
    assert explain_finding(FINDING) == GERMAN
    assert explain_remedy(FINDING).endswith("die Fläche in `hole_in` nennen.")
    error = BadInput("{path} is not there. Check the name, or choose the file again.", path="a.csv")
    assert explain(error) == "a.csv ist nicht da. Den Namen prüfen oder die Datei neu wählen."


@pytest.mark.parametrize("name", ["en_US", "C", "fr", "nonsense", ""])
def test_hosts_of_other_languages_stay_english(name, loaded):
    assert loaded(name) is None
    assert explain_finding(FINDING) == ENGLISH


def test_what_has_no_translation_stays_english(loaded):
    loaded("de")
    assert tr("Nobody has translated this.") == "Nobody has translated this."


def test_loading_twice_and_dropping_leaves_nothing(loaded):
    for _ in range(2):
        translator = loaded("de")
        assert explain_finding(FINDING) == GERMAN
        drop_translator(translator)
        assert explain_finding(FINDING) == ENGLISH
    drop_translator(None)


def test_a_repository_holds_no_compiled_texts_so_that_none_is_out_of_date():
    assert list((RESOURCES / "i18n").glob("*.qm")) == []
