# SPDX-License-Identifier: GPL-2.0-or-later
"""Every text that users see can be translated: literals only, all in the catalogue, and no field lost on the way."""

from __future__ import annotations

import re
import string
import textwrap
import xml.etree.ElementTree as ET

import pytest

from scripts import update_translations as translations
from scripts.update_translations import FOLDER, VARIABLES, Catalogue, language_of, read_translations, updated

CATALOGUES = sorted(FOLDER.glob("*.ts"))
TRANSLATED = [path for path in CATALOGUES if language_of(path)]
ANSWERS = re.compile(
    r"[Aa]nswer (join|leave|split|reverse|one|level)\b|confirm with: (as recorded)|(?:,| or) (leave|split|two|drop|"
    r"replace|newer|both|exchange) ?[(:]| or (both) where|[Aa]nswer split: |believe: (older)"
)
"""Words of answers in a remedy."""


@pytest.fixture(scope="module")
def catalogue():
    return Catalogue()


def made(tmp_path, source: str, name: str = "bridge/one.py") -> Catalogue:
    """The catalogue of a plugin of one file."""
    path = tmp_path / name
    path.parent.mkdir(parents=True)
    path.write_text(textwrap.dedent(source), encoding="utf-8")
    return Catalogue(tmp_path)


def fields(text: str) -> list[tuple[str, str, str]]:
    """The fields of a template in no order: name, format, conversion."""
    parts = string.Formatter().parse(text)
    return sorted((name, form or "", how or "") for _, name, form, how in parts if name is not None)


def test_every_text_that_is_translated_is_a_literal(catalogue):
    assert [str(unclear) for unclear in catalogue.unclear] == []


def test_what_is_translated_by_a_variable_is_still_there():
    """An exception that nothing needs any more would hide the next one."""
    for path, expression in VARIABLES:
        assert f"tr({expression})" in (translations.PLUGIN / path).read_text(encoding="utf-8"), path


@pytest.mark.parametrize("path", CATALOGUES, ids=lambda p: p.name)
def test_a_catalogue_is_up_to_date(path, catalogue):
    told = "run scripts/update_translations.py"
    assert path.read_text(encoding="utf-8") == updated(catalogue)[path], told


def test_the_source_catalogue_has_every_text_and_no_translation(catalogue):
    root = ET.parse(FOLDER / "ground_tally.ts").getroot()  # noqa: S314 - our own file
    assert [root.findtext("context/name")] == ["GroundTally"]
    assert {m.findtext("source") for m in root.iter("message")} == set(catalogue.texts)
    assert read_translations(FOLDER / "ground_tally.ts") == {}
    assert len(catalogue.texts) > 500


@pytest.mark.parametrize("path", TRANSLATED, ids=lambda p: p.name)
def test_a_translation_keeps_every_field_with_its_format(path):
    lost = {
        source: told for source, told in read_translations(path).items() if fields(source) != fields(told)
    }
    assert lost == {}


@pytest.mark.parametrize("path", TRANSLATED, ids=lambda p: p.name)
def test_a_translation_names_the_same_codes_and_keys_in_backticks(path):
    """What is typed into a log or a decisions file is English in every language."""
    for source, told in read_translations(path).items():
        assert sorted(source.split("`")[1::2]) == sorted(told.split("`")[1::2])


@pytest.mark.parametrize("path", TRANSLATED, ids=lambda p: p.name)
def test_the_answers_that_a_remedy_names_stay_as_the_decisions_file_takes_them(path):
    named = 0
    for source, told in read_translations(path).items():
        words = {word for found in ANSWERS.findall(source) for word in found if word}
        named += len(words)
        assert {word for word in words if not re.search(rf"\b{word}\b", told)} == set(), source
    assert named > 20


@pytest.mark.parametrize("path", TRANSLATED, ids=lambda p: p.name)
def test_menu_labels_parameters_and_findings_of_the_main_job_are_translated(path, catalogue):
    done = read_translations(path)
    main = (
        "processing/survey_walks.py",
        "processing/parameters.py",
        "core/shape/faults.py",
        "core/adjust/tell.py",
    )
    texts = [text for text, where in catalogue.texts.items() if where in main]
    assert len(texts) > 80
    assert [text for text in texts if text not in done] == []


def test_literals_are_found_through_names_tables_functions_and_records(tmp_path):
    found = made(
        tmp_path,
        """
        NAMED = "by a name"
        TABLE = {1: ("by a table", "second of a table")}
        class Fault:
            code: str
            template: str
            remedy: str = "by a default"
        class Told:
            def note(self, template, line=None, remedy="of a parameter"):
                pass
        def words(kind):
            return "by a function" if kind else "by its other way"
        def use(told, kind, fault):
            template, remedy = TABLE[kind]
            tr("at once")
            Fault("XX-01", "in order", remedy="by keyword")
            Fault("XX-02", template, remedy)
            Fault("XX-03", words(kind), NAMED)
            Fault("XX-04", fault.template, fault.remedy)
            told.note("by a method", 3)
            progress(0.5, "of a step")
            open("not a text")
        """,
    )
    assert found.unclear == []
    assert sorted(found.texts) == sorted(
        [
            *("at once", "by a default", "by a function", "by a method", "by a name", "by a table", "by its other way"),
            *("by keyword", "in order", "of a parameter", "of a step", "second of a table"),
        ]
    )  # fmt: skip


@pytest.mark.parametrize(
    ("source", "told"),
    [
        ("def f(name):\n    tr(f'{name} is there')", "f'{name} is there'"),
        ("def f(name):\n    tr(name)", "name"),
        ("def f(a):\n    tr('one ' + a)", "'one ' + a"),
        ("def f(a):\n    Finding(template='x'.join(a))", "'x'.join(a)"),
        ("def f(a):\n    Finding(remedy=a.words)", "a.words"),
        ("T = T\ntr(T)", "T"),
        ("tr(NOWHERE)", "NOWHERE"),
    ],
)
def test_what_is_no_literal_is_told_with_its_place(source, told, tmp_path):
    (unclear,) = made(tmp_path, source).unclear
    line = source[: source.rindex(told)].count("\n") + 1
    line = 1 if told == "T" else line
    assert str(unclear) == (f"bridge/one.py, line {line}: {told} is no literal, so no catalogue finds it.")


def test_a_translation_stays_when_texts_come_and_go(tmp_path, monkeypatch):
    path = tmp_path / "ground_tally_de.ts"
    texts = {"stays <&\"'": "a.py", "goes": "a.py", "comes\n\nin lines": "a.py"}
    path.write_text(
        translations.written(texts, "de", {"stays <&\"'": "bleibt <&\"'", "goes": "geht"}), encoding="utf-8"
    )
    catalogue = made(tmp_path / "plugin", "tr('stays <&\"\\'')\ntr('comes\\n\\nin lines')")
    text = updated(catalogue, tmp_path)[path]
    path.write_text(text, encoding="utf-8")
    assert read_translations(path) == {"stays <&\"'": "bleibt <&\"'"}
    assert updated(catalogue, tmp_path)[path] == text
    sources = [m.findtext("source") for m in ET.fromstring(text).iter("message")]  # noqa: S314 - made above
    assert sources == ["comes\n\nin lines", "stays <&\"'"]


def test_a_new_language_gets_a_file_of_its_own(tmp_path):
    catalogue = made(tmp_path / "plugin", "tr('one')")
    paths = updated(catalogue, tmp_path, ("pt_BR",))
    assert [path.name for path in paths] == ["ground_tally.ts", "ground_tally_pt_BR.ts"]
    assert 'language="pt_BR"' in paths[tmp_path / "ground_tally_pt_BR.ts"]
