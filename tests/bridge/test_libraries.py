# SPDX-License-Identifier: GPL-2.0-or-later
"""Libraries that may be missing: the system's go first, then the carried ones, then a message on what to install."""

from __future__ import annotations

import sys

import pytest

from plugin.bridge.libraries import (
    System,
    find_system,
    import_library,
    install_advice,
    missing_at_start,
    read_os_release,
)
from plugin.bridge.text import explain, explain_finding, explain_remedy
from plugin.core.errors import MissingLibrary
from plugin.core.findings import Finding, Severity

DEBIAN = 'PRETTY_NAME="Debian GNU/Linux 12 (bookworm)"\nVERSION_ID="12"\nID=debian\n'
UBUNTU = "ID=ubuntu\nID_LIKE=debian\n"
MINT = 'ID=linuxmint\nID_LIKE="ubuntu debian"\n'
FEDORA = "ID=fedora\n# ID_LIKE=debian\n"


@pytest.fixture
def path(monkeypatch):
    """The path of imports, which a test may lengthen."""
    monkeypatch.setattr(sys, "path", list(sys.path))
    return sys.path


@pytest.fixture
def carried(tmp_path, monkeypatch):
    """A folder of carried libraries: one of its own, and one that the system has too."""
    folder = tmp_path / "_vendor"
    folder.mkdir()
    (folder / "carried_alone.py").write_text("import carried_part\nFROM = 'zip'\n", encoding="utf-8")
    (folder / "carried_part.py").write_text("", encoding="utf-8")
    (folder / "on_both.py").write_text("FROM = 'zip'\n", encoding="utf-8")
    system = tmp_path / "system"
    system.mkdir()
    (system / "on_both.py").write_text("FROM = 'system'\n", encoding="utf-8")
    monkeypatch.syspath_prepend(str(system))
    yield folder
    for name in ("carried_alone", "carried_part", "on_both"):
        sys.modules.pop(name, None)


@pytest.mark.parametrize(
    ("platform", "os_release", "system"),
    [
        ("linux", DEBIAN, System.DEBIAN),
        ("linux", UBUNTU, System.DEBIAN),
        ("linux", MINT, System.DEBIAN),
        ("linux", FEDORA, System.OTHER),
        ("linux", "", System.OTHER),
        ("linux", "ID='debian'", System.DEBIAN),
        ("linux", "ID=notdebian\nNAME=debian", System.OTHER),
        ("freebsd14", "ID=freebsd", System.OTHER),
        ("win32", "", System.WINDOWS),
        ("darwin", "", System.MACOS),
    ],
)
def test_the_system_is_told_from_its_platform_and_what_it_says_of_itself(platform, os_release, system):
    assert find_system(platform, os_release) is system


def test_a_system_that_says_nothing_of_itself_is_none_in_particular(tmp_path):
    assert read_os_release(tmp_path / "os-release") == ""
    (tmp_path / "os-release").write_bytes(b"ID=debian\nNAME=\xff\n")
    assert find_system("linux", read_os_release(tmp_path / "os-release")) is System.DEBIAN


@pytest.mark.parametrize(
    ("system", "sentence"),
    [
        (System.DEBIAN, "Install it (apt install python3-shapely) and start QGIS again."),
        (System.WINDOWS, "Install it (the package python3-shapely in OSGeo4W Setup) and start QGIS again."),
        (
            System.MACOS,
            "QGIS for macOS brings it: install QGIS again from its own installer and start it again.",
        ),
        (System.OTHER, "Install it for the Python that QGIS runs in and start QGIS again."),
    ],
)
def test_the_advice_is_in_the_ways_of_the_system(system, sentence):
    assert install_advice("shapely", system).format(library="shapely") == sentence


@pytest.mark.parametrize("system", System)
@pytest.mark.parametrize("library", ["ezdxf", "openpyxl"])
def test_a_library_that_the_zip_carries_comes_with_the_zip_on_every_system(library, system):
    assert install_advice(library, system) == (
        "The plugin's zip brings it: install the plugin again from the zip and start QGIS again."
    )


def test_the_systems_own_copy_goes_before_the_carried_one(carried, path):
    assert import_library("on_both", carried).FROM == "system"
    assert str(carried) not in path, "nothing carried was needed"


def test_a_carried_library_is_found_with_the_parts_that_it_imports(carried, path):
    assert import_library("carried_alone", carried).FROM == "zip"
    assert path[-1] == str(carried), "behind all that the system has"
    assert import_library("carried_alone", carried).FROM == "zip"
    assert path.count(str(carried)) == 1


def test_a_library_that_is_nowhere_is_named_with_what_to_install(carried, path, monkeypatch):
    monkeypatch.setattr("plugin.bridge.libraries.read_os_release", lambda: DEBIAN)
    monkeypatch.setattr("plugin.bridge.libraries.sys.platform", "linux")
    with pytest.raises(MissingLibrary) as told:
        import_library("nowhere", carried)
    assert str(told.value) == "The library nowhere is not installed."
    assert explain(told.value) == (
        "The library nowhere is not installed. Install it (apt install python3-nowhere) and start QGIS again."
    )


def test_without_a_folder_of_carried_libraries_the_path_stays(tmp_path, path):
    with pytest.raises(MissingLibrary):
        import_library("nowhere", tmp_path / "_vendor")
    assert str(tmp_path / "_vendor") not in path


def test_a_library_whose_own_code_fails_is_not_called_missing(carried, path):
    (carried / "carried_alone.py").write_text("import a_part_that_is_not_there\n", encoding="utf-8")
    with pytest.raises(ModuleNotFoundError, match="a_part_that_is_not_there"):
        import_library("carried_alone", carried)


def test_nothing_is_missing_at_the_start_here_and_each_that_is_gets_its_error(monkeypatch):
    assert missing_at_start() == ()
    monkeypatch.setitem(sys.modules, "numpy", None)
    monkeypatch.setitem(sys.modules, "pyproj", None)
    assert [error.fields["library"] for error in missing_at_start()] == ["numpy", "pyproj"]


def test_a_finding_on_a_missing_library_says_what_to_install_here(monkeypatch):
    monkeypatch.setattr("plugin.bridge.libraries.read_os_release", lambda: "")
    monkeypatch.setattr("plugin.bridge.libraries.sys.platform", "win32")
    data = {"library": "shapely"}
    note = Finding("GE-06", Severity.NOTE, "survey", "{library} is missing.", "Install {library}.", data)
    assert explain_finding(note) == "shapely is missing."
    assert explain_remedy(note) == (
        "Install it (the package python3-shapely in OSGeo4W Setup) and start QGIS again."
    )
