# SPDX-License-Identifier: GPL-2.0-or-later
"""Make the zip that QGIS installs: the plugin, what it ships, and the libraries that users' QGIS lacks.

Usage: make_package.py FOLDER [WHEELS]

FOLDER gets ground_tally-VERSION.zip; the same tree gives the same bytes. The translations are compiled with Qt's
lrelease; where there is none the zip goes without them, and that is said. WHEELS (build/wheels) keeps the libraries of
carried.txt between runs; what is there is used only if its SHA-256 is right.
"""

from __future__ import annotations

import email
import hashlib
import shutil
import subprocess
import sys
import tempfile
import zipfile
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(ROOT))

from scripts.link_profile import INIT, NAME

CARRIED = ROOT / "scripts" / "carried.txt"
WHEELS = ROOT / "build" / "wheels"
SHIPPED = ("LICENSE", "metadata.txt", "plugin", "resources")
LEFT_OUT = ("resources/faults", "resources/pictures")
"""Of resources/, what only tests, the README and scripts need."""
LEFT_OUT_NAMES = ("truth.json",)
LEFT_OUT_ENDINGS = (".pyc", ".aux.xml", ".ts")
CATALOGUES = "resources/i18n"
COMPILERS = ("lrelease", "lrelease-qt5", "lrelease-qt6", "pyside6-lrelease")
"""What Qt's compiler of translations is called in different places; all write the same format."""
MOMENT = (1980, 1, 1, 0, 0, 0)
"""The date of every file in the zip, the oldest that a zip can hold."""
PLAIN_FILE = 0o100644 << 16
"""Mode of every file: readable by all."""

PIP_WORDS = (
    *("--no-deps", "--require-hashes", "--only-binary", ":all:"),
    *("--platform", "any", "--implementation", "py", "--abi", "none", "--python-version", "3.9"),
)
"""Wheels for any system and the oldest Python only: what the zip carries is not compiled."""


@dataclass(frozen=True)
class Wheel:
    """One library as it was fetched."""

    name: str
    version: str
    licence: str
    files: dict[str, bytes]
    """Its modules, by the path below _vendor/, with its licence files below licences/."""


def version() -> str:
    """The version that metadata.txt states."""
    lines = (ROOT / "metadata.txt").read_text(encoding="utf-8").splitlines()
    return next(line.partition("=")[2].strip() for line in lines if line.startswith("version="))


def own_files(root: Path = ROOT) -> Iterator[tuple[str, bytes]]:
    """What the zip has of the repository: path inside the plugin's folder, content."""
    yield "__init__.py", INIT.encode()
    for name in SHIPPED:
        top = root / name
        for path in sorted(top.rglob("*")) if top.is_dir() else [top]:
            inside = path.relative_to(root).as_posix()
            if not is_shipped(inside):
                continue
            if path.is_symlink():
                sys.exit(f"{inside} is a link, which not every system can unpack. Put the file itself there.")
            if path.is_file():
                yield inside, path.read_bytes()


def is_shipped(inside: str) -> bool:
    """Whether a file of a shipped folder goes into the zip."""
    path = PurePosixPath(inside)
    if any(part == "__pycache__" or part.startswith(".") for part in path.parts):
        return False
    if path.name in LEFT_OUT_NAMES or path.name.endswith(LEFT_OUT_ENDINGS):
        return False
    return not any(inside == left or inside.startswith(f"{left}/") for left in LEFT_OUT)


def find_compiler() -> str | None:
    """Qt's compiler of translations, where this machine has it."""
    return next((path for path in map(shutil.which, COMPILERS) if path and _runs(path)), None)


def _runs(path: str) -> bool:
    """Debian has the name as a pointer to what need not be there."""
    return subprocess.run([path, "-version"], check=False, capture_output=True).returncode == 0


def catalogue_files(compiler: str, root: Path = ROOT) -> Iterator[tuple[str, bytes]]:
    """The translations as the host reads them; a text that has none stays English."""
    for source in sorted((root / CATALOGUES).glob("ground_tally_*.ts")):
        with tempfile.TemporaryDirectory() as folder:
            made = Path(folder) / f"{source.stem}.qm"
            subprocess.run([compiler, "-silent", str(source), "-qm", str(made)], check=True)
            yield f"{CATALOGUES}/{made.name}", made.read_bytes()


def pins(text: str) -> dict[str, str]:
    """SHA-256 of each wheel to the requirement that it is of, from the text of carried.txt."""
    rows = [line.split() for line in text.splitlines() if line and not line.startswith("#")]
    return {row[1].partition("sha256:")[2]: row[0] for row in rows}


def fetch_wheels(folder: Path, wanted: Path = CARRIED) -> list[Path]:
    """The wheels of carried.txt, fetched with pip unless they are there, in the file's order."""
    needed = pins(wanted.read_text(encoding="utf-8"))
    found = find_wheels(folder, needed)
    if len(found) < len(needed):
        folder.mkdir(parents=True, exist_ok=True)
        pip = [sys.executable, "-m", "pip", "-q", "--disable-pip-version-check", "download", *PIP_WORDS]
        subprocess.run([*pip, "-r", str(wanted), "-d", str(folder)], check=True)
        found = find_wheels(folder, needed)
    missing = [needed[digest] for digest in needed if digest not in found]
    if missing:
        sys.exit(f"pip gave no wheel of the right SHA-256 for: {', '.join(missing)}.")
    return [found[digest] for digest in needed]


def find_wheels(folder: Path, needed: dict[str, str]) -> dict[str, Path]:
    """The wheels in a folder whose SHA-256 is wanted, by it."""
    by_digest = {hashlib.sha256(path.read_bytes()).hexdigest(): path for path in sorted(folder.glob("*.whl"))}
    return {digest: path for digest, path in by_digest.items() if digest in needed}


def read_wheel(path: Path) -> Wheel:
    """A wheel's modules and licences; what serves only to install it is left."""
    with zipfile.ZipFile(path) as archive:
        content = {name: archive.read(name) for name in archive.namelist() if not name.endswith("/")}
    info = next(name.partition("/")[0] for name in content if name.endswith(".dist-info/METADATA"))
    if not path.name.endswith("-none-any.whl") or b"Root-Is-Purelib: true" not in content[f"{info}/WHEEL"]:
        sys.exit(f"{path.name} is no pure-Python wheel.")
    facts = email.message_from_bytes(content[f"{info}/METADATA"])
    files = {
        name: data
        for name, data in content.items()
        if not name.partition("/")[0].endswith((".dist-info", ".data"))
    }
    for named in facts.get_all("License-File") or []:
        data = content.get(f"{info}/licenses/{named}") or content.get(f"{info}/{named}")
        if data is not None:
            files[f"licences/{facts['Name']}/{named}"] = data
    licence = (
        facts["License-Expression"] or facts["License"] or licence_class(facts.get_all("Classifier") or [])
    )
    return Wheel(facts["Name"], facts["Version"], licence, files)


def licence_class(classifiers: list[str]) -> str:
    """The licence that a wheel's classifiers name, without the word License."""
    named = [text.rpartition(" :: ")[2] for text in classifiers if text.startswith("License :: ")]
    if not named:
        sys.exit("A wheel names no licence.")
    return named[0].replace(" License", "")


def carried_files(wheels: list[Wheel]) -> Iterator[tuple[str, bytes]]:
    """What stands below _vendor/: the libraries and a page that names them."""
    for wheel in wheels:
        yield from ((f"_vendor/{name}", data) for name, data in wheel.files.items())
    rows = [f"{wheel.name} {wheel.version}, {wheel.licence}: licences/{wheel.name}/" for wheel in wheels]
    head = "Libraries of others, unchanged, used only where the system has none of its own."
    yield "_vendor/README", "\n".join([head, "", *rows, ""]).encode()


def write_zip(path: Path, files: dict[str, bytes]) -> None:
    """Files below the plugin's folder, sorted and with one date, so that the same files give the same bytes."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name in sorted(files):
            entry = zipfile.ZipInfo(f"{NAME}/{name}", MOMENT)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.create_system = 3  # Unix, whose modes external_attr holds, on whatever this runs
            entry.external_attr = PLAIN_FILE
            archive.writestr(entry, files[name])


def make_package(folder: Path, wheels: Path = WHEELS) -> Path:
    """The zip; returns where it is."""
    carried = [read_wheel(path) for path in fetch_wheels(wheels)]
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{NAME}-{version()}.zip"
    compiler = find_compiler()
    if compiler is None:
        print("No lrelease is here (Debian: qttools5-dev-tools), so the zip goes without translations.")
    catalogues = catalogue_files(compiler) if compiler else ()
    write_zip(path, dict([*own_files(), *catalogues, *carried_files(carried)]))
    return path


def main() -> None:
    """Make it and say where it is."""
    folder, *wheels = map(Path, sys.argv[1:3])
    path = make_package(folder, *wheels)
    print(f"{path} ({path.stat().st_size / 1e6:.1f} MB)")


if __name__ == "__main__":
    main()
