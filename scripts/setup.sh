# SPDX-License-Identifier: GPL-2.0-or-later
# Sourced by the other scripts: what a bare Debian machine lacks is installed and named; nothing is touched
# that is there. Sets ROOT, PYTHON (the one that sees QGIS), VENV and QGIS_PROCESS.

ROOT="$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)"
PYTHON=/usr/bin/python3
VENV="$ROOT/build/venv"
PLUGINS="$ROOT/build/plugins"
PROFILES="$ROOT/build/profiles"

# A virtual environment hides PROJ's data from pyproj; an older value may name a folder that is gone.
if [ -f /usr/share/proj/proj.db ]; then export PROJ_DATA=/usr/share/proj; fi

say() { printf '%s\n' "$*" >&2; }

as_root() {
  if [ "$(id -u)" -eq 0 ]; then "$@"
  elif command -v sudo >/dev/null; then sudo "$@"
  else say "Needs root for: $*  (install sudo, or run it as root)"; return 1
  fi
}

# The Debian packages named that are not installed, installed.
need_packages() {
  local missing=() package
  for package in "$@"; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing+=("$package")
  done
  [ ${#missing[@]} -eq 0 ] && return 0
  if ! command -v apt-get >/dev/null; then
    say "Missing: ${missing[*]}. Install what your system calls them, then run this again."
    return 1
  fi
  say "Installing with apt-get (some minutes where QGIS is among them): ${missing[*]}"
  as_root apt-get -qq update
  as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq install --no-install-recommends -y "${missing[@]}" >/dev/null
}

need_qgis() { need_packages qgis python3-qgis python3-shapely; }

# The command-line runner: Debian 12's wrapper passes an option that its own binary refuses.
find_runner() {
  if command -v qgis_process.bin >/dev/null; then QGIS_PROCESS=qgis_process.bin
  elif command -v qgis_process >/dev/null; then QGIS_PROCESS=qgis_process
  else say "qgis_process is not there; it comes with the package qgis."; return 1
  fi
}

# The plugin as QGIS wants to find it, and a profile of our own with it switched on.
need_profile() { "$PYTHON" "$ROOT/scripts/link_profile.py" "$PLUGINS" "$PROFILES"; }

need_venv() {
  need_packages python3-venv python3-pip
  if [ ! -x "$VENV/bin/python" ]; then
    say "Making build/venv"
    "$PYTHON" -m venv --system-site-packages "$VENV"
  fi
  if ! "$VENV/bin/python" -c 'import pytest, pytest_qgis, pytestqt, hypothesis' 2>/dev/null; then
    say "Installing into build/venv: pytest, pytest-qgis, pytest-qt, hypothesis"
    "$VENV/bin/python" -m pip -q --disable-pip-version-check install \
      'pytest<10' 'pytest-qgis>=2,<6' 'pytest-qt<5' 'hypothesis<7' >&2
  fi
}

# The linters, of the versions whose rules the code is held to.
need_linters() {
  need_venv
  if ! "$VENV/bin/python" -c 'import ruff, mypy' 2>/dev/null; then
    say "Installing into build/venv: ruff, mypy"
    "$VENV/bin/python" -m pip -q --disable-pip-version-check install 'ruff==0.17.6' 'mypy==2.4.1' >&2
  fi
}
