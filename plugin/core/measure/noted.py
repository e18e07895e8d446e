# SPDX-License-Identifier: GPL-2.0-or-later
"""Sizes that were noted on site, from the stations to their features: one value where it is one, else by chainage."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from ..findings import Finding, Severity
from ..positions import Positions, station_of
from ..quantity import Floats, Ints
from ..segments import edge_lengths
from ..shape.records import DrawnLeg, LegShape, Piece, Shape
from ..walk import SIZE_COLUMNS, Kind, Walk
from .rows import NOTHING_NOTED, Along, Noted

SAME = 1e-9
"""Metres: sizes that differ by less were noted as one; so much is rounding of their conversion."""


def noted_at(walk: Walk, cell: int) -> Noted:
    """What one station notes, metres."""
    told = {name: float(values[cell]) for name, values in walk.sizes.items()}
    known = {name: value for name, value in told.items() if math.isfinite(value)}
    return Noted(**known) if known else NOTHING_NOTED


def noted_in(walk: Walk, cells: Ints) -> Noted:
    """What stations (k,) of one walk and feature note: a size that is noted once, or several times alike; None where none
    is, or where they differ."""
    return Noted(*(_one(walk.sizes[name][cells]) if name in walk.sizes else None for name in SIZE_COLUMNS))


def shape_noted(shape: Shape, positions: Positions) -> Noted:
    """What the stations of a shape note, as `noted_in`."""
    if not any(walk.sizes for walk in positions.walks):
        return NOTHING_NOTED
    return Noted(*(_one(_values(shape.rows, positions, name)) for name in SIZE_COLUMNS))


def noted_along(shape: Shape, positions: Positions) -> Along:
    """Of a length, the sizes that differ from station to station: by name, (chainage, size) in order, metres in plan from
    the start of its first run. A station passed on an arc lies at its arc's length, one within a run of rows at its part of
    their chords; one that is not drawn (a carry) tells nothing."""
    varying = [name for name in SIZE_COLUMNS if _differs(_values(shape.rows, positions, name))]
    if not varying or shape.kind is not Kind.LENGTH:
        return ()
    rows, at = _chainages(shape, positions)
    out = []
    for name in varying:
        values = _values(rows, positions, name)
        known = np.isfinite(values)
        out.append((name, tuple(zip(at[known].tolist(), values[known].tolist()))))
    return tuple((name, told) for name, told in out if told)


def tell_sizes(shapes: Sequence[Shape], positions: Positions) -> tuple[Finding, ...]:
    """IN-08 notes on sizes that differ within one feature."""
    names = [name for name in SIZE_COLUMNS if any(name in walk.sizes for walk in positions.walks)]
    out = []
    for shape in shapes:
        for name in names:
            values = _values(shape.rows, positions, name)
            if _differs(values):
                out.append(_differing(shape, positions, name, values))
    return tuple(out)


def _differing(shape: Shape, positions: Positions, name: str, values: Floats) -> Finding:
    walk, i = station_of(positions, int(shape.rows[np.flatnonzero(np.isfinite(values))[0]]))
    data = {
        "size": name,
        "feature": shape.place,
        "least": float(np.nanmin(values)),
        "most": float(np.nanmax(values)),
    }
    if shape.kind is Kind.LENGTH:
        template = (
            "The {size} of {feature} is noted from {least:.3f} to {most:.3f} m. Its row has none; what was noted along it "
            "stands in its column sizes_along, and by station in the table stations."
        )
        remedy = "None where it changes along the way. Else note the same at every station, or at one alone."
    else:
        template = (
            "The {size} of {feature} is noted from {least:.3f} to {most:.3f} m. Its row has none; each station's own stands "
            "in the table stations."
        )
        remedy = "Note the same at every station or at one alone, or give the size where it is used."
    return Finding(
        "IN-08",
        Severity.NOTE,
        shape.place,
        template,
        remedy,
        data,
        file=walk.file,
        line=int(walk.line[i]),
        walk=walk.name,
        station=walk.station[i],
        feature=shape.feature,
    )


def _values(rows: Ints, positions: Positions, name: str) -> Floats:
    """(k,) what stations of the survey note of a size, NaN where nothing."""
    out = np.full(len(rows), np.nan)
    walk = np.searchsorted(positions.first, rows, side="right") - 1
    for k in np.unique(walk).tolist():
        sizes = positions.walks[k].sizes.get(name)
        if sizes is not None:
            out[walk == k] = sizes[rows[walk == k] - positions.first[k]]
    return out


def _differs(values: Floats) -> bool:
    known = values[np.isfinite(values)]
    return len(known) > 1 and float(known.max() - known.min()) > SAME


def _one(values: Floats) -> float | None:
    known = values[np.isfinite(values)]
    return float(known[0]) if len(known) and not _differs(known) else None


def _chainages(shape: Shape, positions: Positions) -> tuple[Ints, Floats]:
    """(k,) the drawn stations' rows and (k,) their chainages, in order; of two stations that are one point both."""
    rows, at = list[int](), list[float]()
    begun = 0.0
    for piece in shape.pieces:
        lengths = edge_lengths(piece.curve())
        for leg in piece.legs:
            length = float(lengths[leg.first : leg.last].sum())
            start = leg.start if leg is piece.legs[0] else ()
            parts = _parts(piece, leg, length, positions.xy)
            rows += [*start, *leg.passed, *leg.end]
            at += [
                *[begun] * len(start),
                *(begun + length * parts).tolist(),
                *[begun + length] * len(leg.end),
            ]
            begun += length
    return np.array(rows, np.int64), np.array(at)


def _parts(piece: Piece, leg: DrawnLeg, length: float, xy: Floats) -> Floats:
    """(p,) of a leg's length at each station that it passes."""
    if not leg.passed:
        return np.zeros(0)
    through = xy[[leg.start[0], *leg.passed, leg.end[-1]]]
    steps = np.hypot(*np.diff(through, axis=0).T)
    if leg.shape in (LegShape.ARC, LegShape.CIRCLE):
        sweep = 2.0 * abs(float(piece.half[leg.first : leg.last].sum()))
        if sweep > 0.0:
            # The arc over a chord c of a circle of radius R is 2 R asin(c / 2R).
            radius = length / sweep
            steps = 2.0 * radius * np.arcsin(np.clip(steps / (2.0 * radius), 0.0, 1.0))
    total = float(steps.sum())
    return np.asarray(np.cumsum(steps)[:-1] / total) if total > 0.0 else np.zeros(len(leg.passed))
