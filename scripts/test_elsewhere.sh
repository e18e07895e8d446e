# SPDX-License-Identifier: GPL-2.0-or-later
# All tests on the QGIS of another Debian release: test_elsewhere.sh RELEASE [ARGS of pytest]
# A root of that release is made under build/RELEASE with debootstrap and kept; the working tree is copied into it,
# and scripts/test of the copy does the rest there. Nothing of this checkout but build/RELEASE is written. Needs root.
set -euo pipefail
source "$(dirname "${BASH_SOURCE[0]}")/setup.sh"

RELEASE="${1:-}"
BASE="$ROOT/build/$RELEASE"
WHOLE="$BASE/complete-1" # written last, so that a root broken off half way is made again

check_call() {
  if [[ ! "$RELEASE" =~ ^[a-z]+$ ]]; then
    say "Usage: scripts/test --qgis RELEASE [ARGS], with the name of a Debian release such as trixie."
    return 2
  fi
  if [ "$(id -u)" -ne 0 ]; then
    say "scripts/test --qgis makes and enters a root of Debian $RELEASE, which only root may do: run it with sudo."
    return 1
  fi
}

# The machine's own package sources, for that release.
own_sources() {
  local file
  for file in /etc/apt/sources.list /etc/apt/sources.list.d/*.{list,sources}; do
    if [ -f "$file" ]; then printf '%s\n' "$file"; fi
  done
}

own_release() { (. /etc/os-release && printf '%s' "${VERSION_CODENAME:-}"); }

own_mirror() {
  local here
  here="$(own_release)"
  own_sources | while read -r file; do
    awk -v here="$here" '
      /^URIs:/ { uri = $2 } /^Suites:/ && ($2 == here) && uri { print uri; exit }
      /^deb / { sub(/\[[^]]*\] */, ""); if ($3 == here) { print $2; exit } }' "$file"
  done | head -n 1
}

copy_sources() {
  local file here
  here="$(own_release)"
  rm -f "$BASE/etc/apt/sources.list"
  mkdir -p "$BASE/etc/apt/sources.list.d"
  own_sources | while read -r file; do
    grep -qw "$here" "$file" || continue
    sed "s/\b$here\b/$RELEASE/g" "$file" >"$BASE/etc/apt/sources.list.d/${file##*/}"
  done
}

# How this machine reaches its registries holds in there as well: certificates, pip's and apt's settings, names.
copy_settings() {
  local file
  cp -L /etc/resolv.conf /etc/hosts "$BASE/etc/"
  for file in /etc/pip.conf /etc/apt/apt.conf.d/*; do
    if [ -f "$file" ]; then cp "$file" "$BASE$file"; fi
  done
  if [ -d /usr/local/share/ca-certificates ]; then
    cp -rL /usr/local/share/ca-certificates "$BASE/usr/local/share/"
    chroot "$BASE" update-ca-certificates >/dev/null
  fi
}

make_root() {
  local mirror
  if [ -f "$WHOLE" ]; then return 0; fi
  need_packages debootstrap
  mirror="$(own_mirror)"
  if [ -z "$mirror" ]; then
    say "The package sources in /etc/apt name no mirror for Debian $(own_release), so none is known for $RELEASE."
    return 1
  fi
  say "Making build/$RELEASE (some minutes, 3 GB)"
  rm -rf "$BASE"
  debootstrap --variant=minbase --include=ca-certificates "$RELEASE" "$BASE" "$mirror" >&2
  copy_sources
  copy_settings
  touch "$WHOLE"
}

# The working tree as it is, without what was built here but for the samples, so that both hosts are held against the
# same ones; what was built there is kept.
copy_tree() {
  local copy="$BASE/checkout"
  mkdir -p "$copy"
  find "$copy" -mindepth 1 -maxdepth 1 ! -name build -exec rm -rf {} +
  tar -C "$ROOT" --exclude-vcs --exclude=./build --exclude=__pycache__ --exclude='./.*_cache' \
    --exclude=./.hypothesis --exclude=./.qgis-settings -cf - . | tar -C "$copy" -xf -
  if need_samples; then
    mkdir -p "$copy/build"
    rm -rf "$copy/build/samples"
    cp -r "$SAMPLES" "$copy/build/"
  fi
}

# Mounts of a namespace of their own: they go with the last process of it, however that ends.
enter() {
  unshare --mount --propagation private bash -euo pipefail -c '
    base="$1"; shift
    mount -t proc proc "$base/proc"
    mount --rbind /dev "$base/dev"
    exec chroot "$base" /usr/bin/env -C /checkout HOME=/root TMPDIR=/tmp scripts/test "$@"' - "$BASE" "$@"
}

check_call || exit
shift
mkdir -p "$ROOT/build"
exec 9>"$BASE.lock" # held until the last process of the run has ended
flock -n 9 || { say "A run on $RELEASE is under way; this one would change its files."; exit 1; }
make_root
copy_tree
enter "$@"
