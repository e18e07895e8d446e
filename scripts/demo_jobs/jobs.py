# SPDX-License-Identifier: GPL-2.0-or-later
"""Whole jobs: every text file of a demo site, drawn anew from a seed."""

from __future__ import annotations

from functools import cache

import numpy as np

from . import files, marlisk_yard, sorrelback_lane
from .site import Site
from .walker import Drift, Path, draw_drift, lay_path, record

SITES = {"marlisk_yard": marlisk_yard.site, "sorrelback_lane": sorrelback_lane.site}
COMMITTED_SEEDS = {"marlisk_yard": 2, "sorrelback_lane": 1}
"""The seeds of the jobs that are shipped: of each the first whose clean job asks nothing by chance. They stay,
whatever their figures."""
VARIANTS = ("drawn", "committed", "heavy")
"""`drawn`: all from the seed. `committed`: the picture's shift is the one of the shipped picture. `heavy`: leg noise
by Student's t with 4 degrees of freedom and the same standard deviation, and one scale for all walks."""


def find_site(name: str | Site) -> Site:
    """A demo site by the name of its folder or its own."""
    if isinstance(name, Site):
        return name
    for folder, make in SITES.items():
        if name in (folder, make().name):
            return make()
    raise ValueError(f'"{name}" is no demo site. Write one of: {", ".join(SITES)}.')


def make_job(
    site: str | Site, seed: int, *, noise: bool = True, digits: int | None = 6, variant: str = "drawn"
) -> dict[str, str]:
    """All text files of a job, by name.

    Args:
        site: name or folder of the site.
        seed: everything drawn comes from it.
        noise: False leaves every error out (legs, stands, picks, shift, tapes); each walk keeps a frame of its own.
        digits: decimals; None writes every digit.
        variant: one of VARIANTS.

    Raises:
        ValueError: an unknown site or variant.
    """
    if variant not in VARIANTS:
        raise ValueError(f'"{variant}" is no variant. Write one of: {", ".join(VARIANTS)}.')
    place = find_site(site)
    rng = np.random.default_rng((place.number, seed))
    job = _write_logs(place, rng, noise=noise, digits=digits, is_heavy=variant == "heavy")
    count = len(place.control)
    picks = rng.standard_normal((count, 2)) * place.pick_sd * noise
    shift = rng.standard_normal(2) * place.shift_sd * noise
    if variant == "committed" and noise:
        shift = np.array(place.shift)
    tapes = rng.standard_normal(len(place.tapes)) * place.tape_sd * noise
    job["control.csv"] = files.write_control(place, shift, picks, digits)
    job["tapes.csv"] = files.write_tapes(place, tapes, digits)
    job["instruments.csv"] = files.write_instruments()
    job["decisions.csv"] = files.write_decisions(place)
    return job


def _write_logs(
    site: Site, rng: np.random.Generator, *, noise: bool, digits: int | None, is_heavy: bool
) -> dict[str, str]:
    drifts = [draw_drift(rng) for _ in site.walks]
    if is_heavy:
        drifts = [Drift(drifts[0].scale, drift.heading_rate) for drift in drifts]
    job = {}
    head = files.log_head(site)
    is_shipped = site.folder in SITES
    paths = _paths(site.folder) if is_shipped else _lay(site)
    tails = _tails(site.folder, digits) if is_shipped else _write_tails(site, paths, digits)
    for i, (route, path) in enumerate(zip(site.walks, paths)):
        shown = record(path, site.unit_m, drifts[i] if noise else None, rng, is_heavy=is_heavy)
        job[f"walk_{i + 1}.csv"] = files.write_log(head, route.name, shown, tails[i], digits)
    return job


def _lay(site: Site) -> tuple[Path, ...]:
    return tuple(lay_path(route, site.unit_m) for route in site.walks)


def _write_tails(site: Site, paths: tuple[Path, ...], digits: int | None) -> tuple[list[str], ...]:
    return tuple(files.row_tails(route, path.arrival, digits) for route, path in zip(site.walks, paths))


@cache
def _paths(folder: str) -> tuple[Path, ...]:
    return _lay(SITES[folder]())


@cache
def _tails(folder: str, digits: int | None) -> tuple[list[str], ...]:
    return _write_tails(SITES[folder](), _paths(folder), digits)
