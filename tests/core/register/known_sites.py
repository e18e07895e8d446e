# SPDX-License-Identifier: GPL-2.0-or-later
"""Surveys made by hand, ready to be compared."""

from __future__ import annotations

import numpy as np

from plugin.core.quantity import Quantity
from plugin.core.register.records import Known, Stations, Table, Thing

SIGMA, HEIGHT_SIGMA = 0.02, 0.01
"""Metres, each axis, of every place here, and of every height."""


def ring(x, y, wide, high):
    """A closed rectangle."""
    return np.array([(x, y), (x + wide, y), (x + wide, y + high), (x, y + high), (x, y)], float)


def spread(count, sigma=SIGMA, common=0.0):
    return np.tile((sigma**2 + common**2) * np.eye(2), (count, 1, 1))


def area(name, path, *, size_sigma=0.3, item="PAV-01", common=0.0, sigma=SIGMA):
    xy = path[:-1]
    (x, y), (u, v) = path[:-1].T[:2], path[1:].T[:2]
    size = 0.5 * abs(float((x * v - y * u).sum()))
    return Thing(
        Table.AREA,
        name,
        "",
        item,
        (path,),
        xy,
        spread(len(xy), sigma, common),
        Quantity(size, size_sigma, "m2"),
    )


def length(name, path, *, size_sigma=0.02, common=0.0):
    path = np.array(path, float)
    size = float(np.hypot(*np.diff(path, axis=0).T).sum())
    return Thing(
        Table.LENGTH,
        name,
        "",
        "KRB-01",
        (path,),
        path,
        spread(len(path), common=common),
        Quantity(size, size_sigma, "m"),
    )


def spot(name, x, y, *, is_level=False, common=0.0):
    xy = np.array([(x, y)], float)
    return Thing(
        Table.SPOT,
        name,
        "",
        "" if is_level else "TRE-01",
        (xy,),
        xy,
        spread(1, common=common),
        None,
        is_level,
    )


def stations(xy, z, keys, *, common=0.0, z_sigma=HEIGHT_SIGMA, leg=0.0, stand=HEIGHT_SIGMA):
    """One walk; of its heights each errs by `stand`, and `leg` on the way."""
    xy = np.array(xy, float).reshape(-1, 2)
    n = len(xy)
    return Stations(
        xy,
        np.broadcast_to(np.asarray(z, float), (n,)).copy(),
        spread(n, common=common),
        np.full(n, z_sigma),
        tuple(keys),
        np.zeros(n, np.int64),
        np.full(n, leg**2),
        np.full(n, stand**2),
        np.zeros(n, bool),
    )


def known(things, more=(), *, heights=None, common=0.0):
    """A survey whose stations are the corners of its things, and more marks (name, x, y)."""
    xy = [place for thing in things for place in thing.corners.tolist()]
    keys = [(thing.feature, thing.part) for thing in things for _ in thing.corners]
    xy += [(x, y) for _, x, y in more]
    keys += [(name,) for name, _, _ in more]
    z = np.zeros(len(xy)) if heights is None else heights
    told = stations(np.array(xy, float).reshape(-1, 2), z, keys, common=common)
    return Known(tuple(things), told, common)


MARKS = (("A", 0.0, 0.0), ("B", 60.0, 0.0), ("C", 60.0, 40.0), ("D", 0.0, 40.0))
"""Round the site."""


def moved(xy, shift=(0.0, 0.0), turn=0.0):
    c, s = np.cos(turn), np.sin(turn)
    return np.asarray(xy, float) @ np.array([[c, s], [-s, c]]) + shift
