# SPDX-License-Identifier: GPL-2.0-or-later
"""The zip that users install: what is in it, and that it works in a fresh profile where nothing else of ours is."""

from __future__ import annotations

import configparser
import json
import os
import re
import shutil
import sqlite3
import subprocess
import sys
import zipfile
from contextlib import closing
from functools import partial
from pathlib import Path
from urllib.parse import urlparse

import pytest

from plugin.bridge.libraries import install_advice
from scripts import make_package as packing
from scripts.link_profile import INI

ROOT = Path(__file__).parents[2]
JOB = ROOT / "resources" / "demo" / "marlisk_yard"
SYSTEM_PYTHON = "/usr/bin/python3"
PICTURES = {".jpg", ".png", ".svg", ".tif"}
SOURCES = {".py", ".pyx", ".pxd", ".h"}
WORDS = {
    "",
    ".txt",
    ".md",
    ".rst",
    ".csv",
    ".json",
    ".qml",
    ".python",
    ".external",
    ".typed",
    ".prj",
    ".nmea",
    ".gpx",
}


@pytest.fixture(scope="module")
def package(tmp_path_factory):
    return packing.make_package(tmp_path_factory.mktemp("package"))


@pytest.fixture(scope="module")
def names(package):
    with zipfile.ZipFile(package) as archive:
        return archive.namelist()


@pytest.fixture(scope="module")
def facts(package):
    """What metadata.txt states, read as the plugins' site reads it (a per cent sign would break that)."""
    parser = configparser.ConfigParser()
    parser.optionxform = str
    with zipfile.ZipFile(package) as archive:
        parser.read_string(archive.read("ground_tally/metadata.txt").decode("utf-8"))
    return dict(parser.items("general"))


@pytest.fixture(scope="module")
def profile(package, tmp_path_factory):
    """A fresh profile with the zip unpacked into it, as the plugin manager does, and the plugin switched on."""
    folder = tmp_path_factory.mktemp("profile")
    plugins = folder / "profiles" / "default" / "python" / "plugins"
    plugins.mkdir(parents=True)
    with zipfile.ZipFile(package) as archive:
        archive.extractall(plugins)
    ini = folder / "profiles" / "default" / "QGIS" / "QGIS3.ini"
    ini.parent.mkdir()
    ini.write_text(INI, encoding="utf-8")
    return folder


@pytest.fixture
def elsewhere(profile, tmp_path):
    """The surroundings of a process that sees the profile and nothing of the checkout or the tests' environment."""
    hidden = {"QGIS_PLUGINPATH", "PYTHONPATH", "PYTHONHOME", "VIRTUAL_ENV"}
    env = {name: value for name, value in os.environ.items() if name not in hidden}
    env |= {
        "QGIS_CUSTOM_CONFIG_PATH": str(profile),
        "XDG_RUNTIME_DIR": str(tmp_path),
        "PYTHONNOUSERSITE": "1",
    }
    tmp_path.chmod(0o700)  # Qt wants it private
    return {"env": env, "cwd": tmp_path, "text": True, "capture_output": True, "timeout": 60}


def python(code: str, profile: Path, elsewhere: dict, *words: str) -> str:
    """What a piece of code prints in the system's own Python, where the profile's plugins can be imported."""
    plugins = profile / "profiles" / "default" / "python" / "plugins"
    head = f"import sys\nsys.dont_write_bytecode = True\nsys.path.insert(0, {str(plugins)!r})\n"
    done = subprocess.run(
        [SYSTEM_PYTHON, "-W", "ignore", "-c", head + code, *words], check=False, **elsewhere
    )
    assert done.returncode == 0, done.stderr
    assert "Traceback" not in done.stderr, done.stderr
    return done.stdout


def tables(path: Path) -> dict[str, list[tuple]]:
    """Every row of every table of ours; of a geometry its size. `runs` and styles hold times and are left out."""
    with closing(sqlite3.connect(path)) as base:
        rows = base.execute(
            "select table_name from gpkg_contents where table_name not in ('runs', 'layer_styles')"
        ).fetchall()
        found = {name: base.execute(f'select * from "{name}"').fetchall() for (name,) in rows}
    return {
        name: [tuple(len(v) if isinstance(v, bytes) else v for v in row) for row in rows]
        for name, rows in found.items()
    }


def is_same(ours: object, theirs: object, within: float = 1e-9) -> bool:
    """Equal; numbers to 1e-9 m (a process may add up in another order), far below what an instrument can see, and those that
    are written with six decimals to one of the last."""
    if all(isinstance(told, str) and told.startswith("[") for told in (ours, theirs)):
        return is_same(json.loads(str(ours)), json.loads(str(theirs)), 1.1e-6)
    if all(isinstance(told, str) and told.startswith("{") for told in (ours, theirs)):
        return is_same(json.loads(str(ours)), json.loads(str(theirs)))
    if isinstance(ours, dict) and isinstance(theirs, dict):
        return ours.keys() == theirs.keys() and all(is_same(ours[key], theirs[key], within) for key in ours)
    if isinstance(ours, list) and isinstance(theirs, list):
        return len(ours) == len(theirs) and all(map(partial(is_same, within=within), ours, theirs))
    is_number = isinstance(ours, float) and isinstance(theirs, float)
    return ours == pytest.approx(theirs, rel=1e-9, abs=within) if is_number else ours == theirs


def test_the_same_tree_gives_the_same_bytes(package, tmp_path):
    again = packing.make_package(tmp_path)
    assert again.name == package.name
    assert again.read_bytes() == package.read_bytes()


def test_files_are_sorted_plain_and_of_one_date(package):
    with zipfile.ZipFile(package) as archive:
        entries = archive.infolist()
    assert [e.filename for e in entries] == sorted(e.filename for e in entries)
    assert {e.date_time for e in entries} == {(1980, 1, 1, 0, 0, 0)}
    assert {e.external_attr >> 16 for e in entries} == {0o100644}, "no links, no folders, nothing to run"


def test_the_zip_has_one_folder_of_the_plugins_name(names, package, facts):
    assert {name.split("/")[0] for name in names} == {"ground_tally"}
    assert package.name == f"ground_tally-{facts['version']}.zip"
    assert not [name for name in names if ".." in name or name.startswith("/")]


def test_the_zip_has_all_of_the_plugin_and_nothing_of_the_workshop(names):
    inside = {name.partition("/")[2] for name in names}
    code = {p.relative_to(ROOT).as_posix() for p in (ROOT / "plugin").rglob("*.py")}
    assert code == {name for name in inside if name.startswith("plugin/")}
    folders = {name.split("/")[1] for name in inside if name.startswith("resources/")}
    left_out = {"faults", "pictures"} | (set() if packing.find_compiler() else {"i18n"})
    assert folders == {p.name for p in (ROOT / "resources").iterdir()} - left_out
    assert not [
        n for n in names if "__pycache__" in n or n.endswith((".pyc", ".aux.xml", "truth.json", ".ts"))
    ]
    assert {"LICENSE", "metadata.txt", "__init__.py"} <= inside


def test_the_zip_holds_no_binaries_and_is_small(names, package):
    assert {Path(name).suffix for name in names} <= PICTURES | SOURCES | WORDS | {".qm"}
    assert package.stat().st_size < 20e6
    with zipfile.ZipFile(package) as archive:
        starts = {name: archive.read(name)[:4] for name in names}
    compiled = (b"\x7fELF", b"MZ", b"\xca\xfe\xba\xbe", b"\xcf\xfa\xed\xfe", b"PK\x03\x04")
    assert not [name for name, start in starts.items() if start.startswith(compiled)]


@pytest.mark.skipif(packing.find_compiler() is None, reason="Qt's lrelease is not here")
def test_the_zip_holds_every_translation_compiled(names):
    languages = {p.stem for p in (ROOT / "resources" / "i18n").glob("ground_tally_*.ts")}
    assert languages >= {"ground_tally_de"}
    compiled = {Path(name).stem for name in names if name.endswith(".qm")}
    assert compiled == languages


def test_without_a_compiler_the_zip_goes_without_translations_and_says_so(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(packing.shutil, "which", lambda name: None)
    with zipfile.ZipFile(packing.make_package(tmp_path)) as archive:
        assert [name for name in archive.namelist() if name.endswith((".qm", ".ts"))] == []
    assert capsys.readouterr().out == (
        "No lrelease is here (Debian: qttools5-dev-tools), so the zip goes without translations.\n"
    )


SPEAK = """
import os
from qgis.core import QgsApplication, QgsSettings
from qgis.PyQt.QtCore import QCoreApplication, QSettings

QCoreApplication.setOrganizationName("QGIS")
QCoreApplication.setApplicationName("QGIS3")
QSettings.setDefaultFormat(QSettings.Format.IniFormat)
QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, os.getcwd())
application = QgsApplication([], False)
assert QgsSettings().fileName().startswith(os.getcwd()), "settings of the test's own"
QgsSettings().setValue("locale/userLocale", sys.argv[1])
QgsSettings().setValue("locale/overrideFlag", True)
import ground_tally
for _ in range(2):
    plugin = ground_tally.classFactory(None)
    plugin.initProcessing()
    provider = QgsApplication.processingRegistry().providerById("groundtally")
    print(provider.algorithm("survey_walks").create().displayName())
    plugin.unload()
from ground_tally.plugin.bridge.text import tr
print(tr("Survey walks"))
"""


@pytest.mark.skipif(packing.find_compiler() is None, reason="Qt's lrelease is not here")
@pytest.mark.parametrize(
    ("locale", "label"),
    [("de", "Begehungen aufmessen"), ("de_CH", "Begehungen aufmessen"), ("fr", "Survey walks")],
)
def test_the_installed_plugin_speaks_the_hosts_language_while_it_is_loaded(locale, label, profile, elsewhere):
    assert python(SPEAK, profile, elsewhere, locale).splitlines() == [label, label, "Survey walks"]


def test_the_page_of_the_carried_libraries_names_each_with_version_and_licence(package, names):
    with zipfile.ZipFile(package) as archive:
        page = archive.read("ground_tally/_vendor/README").decode("utf-8").splitlines()
    assert page[2:] == [
        "ezdxf 1.4.2, MIT: licences/ezdxf/",
        "fonttools 4.60.2, MIT: licences/fonttools/",
        "pyparsing 3.3.3, MIT: licences/pyparsing/",
        "typing_extensions 4.16.0, PSF-2.0: licences/typing_extensions/",
        "openpyxl 3.1.5, MIT: licences/openpyxl/",
        "et_xmlfile 2.0.0, MIT: licences/et_xmlfile/",
    ]
    for row in page[2:]:
        folder = f"ground_tally/_vendor/{row.partition(': ')[2]}"
        licences = [name for name in names if name.startswith(folder)]
        assert [name for name in licences if re.search(r"LICEN[CS]E", name)], row


@pytest.mark.parametrize(
    "key", ["name", "description", "about", "version", "author", "email", "repository", "tracker", "homepage"]
)
def test_metadata_states_what_the_plugins_site_asks_for(key, facts):
    assert facts[key].strip()


def test_metadata_is_of_the_right_kind(facts, names):
    assert re.fullmatch(r"\d+\.\d+\.\d+", facts["version"])
    assert re.fullmatch(r"3\.22(\.\d+)?", facts["qgisMinimumVersion"])
    assert re.fullmatch(r"[^@\s]+@[^@\s]+\.[a-z]+", facts["email"])
    assert "/" not in facts["author"]
    for key in ("repository", "tracker", "homepage"):
        assert urlparse(facts[key]).scheme == "https"
        assert urlparse(facts[key]).netloc
    tags = facts["tags"].split(",")
    assert len(tags) >= 3
    assert all(re.fullmatch(r"[a-z ]+", tag) for tag in tags)
    assert facts["category"] in {"Raster", "Vector", "Database", "Mesh", "Web"}
    assert facts["hasProcessingProvider"] == "yes"
    assert facts["experimental"] in {"True", "False"}
    assert facts["deprecated"] == "False"
    assert facts["supportsQt6"] == "yes"
    assert f"ground_tally/{facts['icon']}" in names


def test_the_changelog_has_ten_versions_at_most_and_this_one(facts):
    rows = facts["changelog"].strip().splitlines()
    versions = [row for row in rows if not row.startswith("- ")]
    assert facts["version"] in versions
    assert len(versions) <= 10
    assert all(re.fullmatch(r"\d+\.\d+\.\d+|Unreleased", row) for row in versions)
    assert len(rows) > len(versions)


def test_the_icon_is_a_drawing_that_the_host_can_draw(qgis_app, profile, facts):
    from qgis.PyQt.QtGui import QIcon

    folder = profile / "profiles" / "default" / "python" / "plugins" / "ground_tally"
    picture = QIcon(str(folder / facts["icon"])).pixmap(64, 64).toImage()
    assert len({picture.pixel(x, y) for x in range(64) for y in range(64)}) > 4


def test_the_installed_zip_measures_as_the_checkout_does(elsewhere, groundtally, tmp_path):
    import processing

    # Debian 12's wrapper passes an option that its own binary refuses.
    runner = shutil.which("qgis_process.bin") or shutil.which("qgis_process")
    words = [f"LOGS={JOB}", f"OUTPUT={tmp_path / 'zip.gpkg'}"]
    done = subprocess.run([runner, "run", "groundtally:survey_walks", "--", *words], check=False, **elsewhere)
    assert done.returncode == 0, done.stderr
    processing.run("groundtally:survey_walks", {"LOGS": [str(JOB)], "OUTPUT": str(tmp_path / "tree.gpkg")})
    installed, tree = tables(tmp_path / "zip.gpkg"), tables(tmp_path / "tree.gpkg")
    assert installed.keys() == tree.keys()
    assert len(installed["areas"]) >= 3
    for name, rows in tree.items():
        assert len(installed[name]) == len(rows), name
        for ours, theirs in zip(installed[name], rows):
            assert all(map(is_same, ours, theirs)), (name, ours, theirs)


USE_CARRIED = """
import importlib.util
from ground_tally.plugin.bridge.libraries import import_library
import ground_tally.plugin.plugin
print(any("_vendor" in folder for folder in sys.path), "ezdxf" in sys.modules, "openpyxl" in sys.modules)
has_own = [importlib.util.find_spec(name) is not None for name in ("ezdxf", "openpyxl")]
ezdxf, openpyxl = import_library("ezdxf"), import_library("openpyxl")
for library, own in zip((ezdxf, openpyxl), has_own):
    print("own" if own else library.__file__, library.__version__)
drawing = ezdxf.new("R2010")
drawing.modelspace().add_lwpolyline([(0, 0, 1), (2, 0, 0)], format="xyb")
drawing.saveas("arc.dxf")
again = ezdxf.readfile("arc.dxf")
print(len(again.audit().errors), [tuple(map(float, p)) for p in again.modelspace()[0].get_points("xyb")])
book = openpyxl.Workbook()
book.active["B2"] = 253.563
book.save("book.xlsx")
print(openpyxl.load_workbook("book.xlsx").active["B2"].value)
"""


def test_the_carried_libraries_work_in_the_systems_python_and_wait_until_they_are_asked_for(
    profile, elsewhere
):
    rows = python(USE_CARRIED, profile, elsewhere).splitlines()
    assert rows[0] == "False False False", "nothing carried is loaded at the start"
    carried = profile / "profiles" / "default" / "python" / "plugins" / "ground_tally" / "_vendor"
    for row, library, version in zip(rows[1:3], ("ezdxf", "openpyxl"), ("1.4.2", "3.1.5")):
        assert row == f"{carried / library / '__init__.py'} {version}" or row.startswith("own ")
    assert rows[3:] == ["0 [(0.0, 0.0, 1.0), (2.0, 0.0, 0.0)]", "253.563"]


WITHOUT = """
from qgis.core import QgsApplication  # newer hosts import numpy for themselves

class Blocker:
    def find_spec(self, name, path=None, target=None):
        if name.partition(".")[0] in sys.argv[1:]:
            raise ModuleNotFoundError(f"No module named {name!r}", name=name)
sys.meta_path.insert(0, Blocker())
for name in [name for name in sys.modules if name.partition(".")[0] in sys.argv[1:]]:
    del sys.modules[name]

class Window:
    def messageBar(self):
        return self
    def pushMessage(self, *words):
        print(*words[:2], sep=": ")

application = QgsApplication([], False)
application.messageLog().messageReceived.connect(lambda text, tag, level: print("log", tag, text, sep=": "))
import ground_tally
plugin = ground_tally.classFactory(Window())
print(type(plugin).__name__)
plugin.initGui()
plugin.unload()
"""


@pytest.mark.parametrize("missing", [("numpy",), ("pyproj",), ("numpy", "pyproj")])
def test_a_library_that_is_missing_at_the_start_is_one_message(missing, profile, elsewhere):
    said = python(WITHOUT, profile, elsewhere, *missing).splitlines()
    sentences = [
        f"The library {name} is not installed. {install_advice(name).format(library=name)}"
        for name in missing
    ]
    message = f"Ground Tally: {' '.join(sentences)}"
    assert said == ["UnreadyPlugin", f"log: {message}", message]


def test_a_link_in_the_tree_is_refused(tmp_path):
    for name in ("LICENSE", "metadata.txt"):
        (tmp_path / name).write_text("", encoding="utf-8")
    for name in ("plugin", "resources"):
        (tmp_path / name).mkdir()
    (tmp_path / "plugin" / "linked").symlink_to(tmp_path / "resources")
    with pytest.raises(SystemExit) as told:
        list(packing.own_files(tmp_path))
    assert told.value.code == (
        "plugin/linked is a link, which not every system can unpack. Put the file itself there."
    )


def test_a_wheel_of_another_sha_256_is_not_used(tmp_path, monkeypatch):
    (tmp_path / "ezdxf-1.4.2-py3-none-any.whl").write_bytes(b"not what was pinned")
    monkeypatch.setattr(packing.subprocess, "run", lambda *words, **more: None)
    with pytest.raises(SystemExit) as told:
        packing.fetch_wheels(tmp_path)
    assert told.value.code == (
        "pip gave no wheel of the right SHA-256 for: ezdxf==1.4.2, fonttools==4.60.2, pyparsing==3.3.3, "
        "typing_extensions==4.16.0, openpyxl==3.1.5, et_xmlfile==2.0.0."
    )


def test_a_wheel_with_compiled_parts_is_refused(tmp_path):
    path = tmp_path / "ezdxf-1.4.2-cp39-cp39-linux_x86_64.whl"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("ezdxf-1.4.2.dist-info/METADATA", "Name: ezdxf\nVersion: 1.4.2\nLicense: MIT\n")
        archive.writestr("ezdxf-1.4.2.dist-info/WHEEL", "Root-Is-Purelib: false\n")
    with pytest.raises(SystemExit) as told:
        packing.read_wheel(path)
    assert told.value.code == "ezdxf-1.4.2-cp39-cp39-linux_x86_64.whl is no pure-Python wheel."
