# SPDX-License-Identifier: GPL-2.0-or-later
"""Whatever a log says, shaping and measuring end with rows and findings: no crash, no figure without a sigma."""

from __future__ import annotations

import math

import numpy as np
from fake_positions import FakePositions, trail, walk_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from plugin.core.findings import Decisions
from plugin.core.measure.shapes import measure_shapes
from plugin.core.shape.features import shape_features

PLACES = st.tuples(
    st.integers(-4, 4).map(float), st.integers(-4, 4).map(float), st.sampled_from([0.0, 0.5, math.nan])
)
LEGS = st.sampled_from(["", "direct", "curve", "curve", "curve-end", "as-walked", "carry"])
STATIONS = st.lists(st.tuples(PLACES, LEGS, st.sampled_from([0.0, 0.0, 0.3, -0.3]), st.sampled_from(["", "", "A"])),
                    min_size=1, max_size=9)  # fmt: skip
FEATURES = st.lists(
    st.tuples(STATIONS, st.sampled_from(["area", "length", ""]), st.booleans()), min_size=1, max_size=3
)


def rows_of(features):
    rows = []
    for k, (stations, geometry, is_hole) in enumerate(features):
        own = trail(
            f"F{k}",
            [s[0] for s in stations],
            [s[1] for s in stations],
            geometry,
            hole_in="F0" if is_hole else "",
        )
        for row, (_, _, offset, mark) in zip(own, stations):
            row.update(offset=offset, mark=mark, side_item=mark)
        rows += own
    return rows


def quantities(rows):
    for row in (*rows.areas, *rows.lengths, *rows.spots, *rows.sides, *rows.legs):
        for name in (
            "area",
            "sloped_area",
            "perimeter",
            "fall",
            "length",
            "slope_length",
            "rise",
            "gradient",
            "height",
        ):
            quantity = getattr(row, name, None)
            if quantity is not None:
                yield f"{type(row).__name__}.{name}", quantity


@settings(max_examples=400, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(FEATURES, st.sampled_from([0.0, 0.01]))
def test_any_log_ends_in_rows_whose_figures_all_have_a_sigma(features, sigma):
    walk = walk_of(rows_of(features))
    n = len(walk)
    positions = FakePositions([walk], sigma**2 * np.eye(2 * n), sigma**2 * np.eye(n))
    shapes, findings = shape_features(positions, Decisions())
    measured = measure_shapes(shapes, positions, site="s", sigma_from={})
    for finding in findings:
        assert "{" not in finding.message + finding.remedy_text
    for name, quantity in quantities(measured):
        assert math.isfinite(quantity.value), name
        assert math.isfinite(quantity.sigma), name
    for area in measured.areas:
        for ring in area.outline:
            assert (ring.points[0, :2] == ring.points[-1, :2]).all()
            assert np.isfinite(ring.bulge).all()
    for length in measured.lengths:
        for run in length.runs:
            assert np.isfinite(run.points[:, :2]).all()
            assert np.isfinite(run.bulge).all()
