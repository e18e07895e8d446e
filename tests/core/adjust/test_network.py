# SPDX-License-Identifier: GPL-2.0-or-later
"""The plan network against closed forms, published traverses, and the attained figures of the simplified demo
walks (shared design notes, adjustment.md section 8: computed independently, four figures)."""

from __future__ import annotations

import math

import builders
import numpy as np
import pytest
from builders import DEMO, demo_walks, make_walk, network

from plugin.core.adjust.drift import height_drift, plan_drift
from plugin.core.adjust.instrument import Model
from plugin.core.adjust.network import Field, Rows, Solved
from plugin.core.errors import Refused
from plugin.core.walk import Instrument

SQUARE = [(0, 0), (10, 0), (10, 10), (0, 10), (0, 0)]


def shoelace_gradient(count, rows, xy):
    g, places = np.zeros((count, 2)), xy[rows]
    across = np.roll(places, -1, 0) - np.roll(places, 1, 0)
    np.add.at(g[:, 0], rows, across[:, 1] / 2)
    np.add.at(g[:, 1], rows, -across[:, 0] / 2)
    return g


def length_gradient(count, a, b, xy):
    g = np.zeros((count, 2))
    unit = (xy[b] - xy[a]) / np.hypot(*(xy[b] - xy[a]))
    g[b] += unit
    g[a] -= unit
    return g


def loop_covariance(instrument):
    drift = plan_drift(make_walk(SQUARE), Model(instrument, ""))
    g = np.zeros((2, 5, 2))
    g[0, 4, 0] = g[1, 4, 1] = 1.0
    g[0, 0, 0] = g[1, 0, 1] = -1.0
    u = drift.pull(g)
    return u @ u.T


def test_loop_of_a_square_has_the_covariance_of_the_closed_form():
    assert loop_covariance(DEMO) == pytest.approx(
        np.array([[5.67323e-4, -3.2044e-6], [-3.2044e-6, 5.67323e-4]]), abs=5e-10
    )


def test_loop_of_a_square_with_heading_walk_has_the_covariance_of_the_closed_form():
    walked = Instrument(**{**DEMO.__dict__, "heading_walk": math.radians(0.05)})
    covariance = loop_covariance(walked)
    assert covariance[0, 0] == pytest.approx(1.709638e-3, abs=5e-10)
    assert covariance[0, 1] == pytest.approx(-7.64748e-4, abs=5e-10)


def test_closing_a_square_sharpens_its_area():
    square, _, _ = network([make_walk(SQUARE, mark=["A", "", "", "", "A"])])
    gradient = shoelace_gradient(5, np.arange(4), square.xy)
    free = plan_drift(make_walk(SQUARE), Model(DEMO, "")).pull(gradient)
    assert np.linalg.norm(free) == pytest.approx(0.346246, abs=1e-6)
    assert math.sqrt(square.solved.variance(gradient)) == pytest.approx(0.326314, abs=1e-6)


def test_unknowns_that_nothing_observes_are_refused():
    walk = make_walk(SQUARE, mark=["A", "", "B", "", ""])
    drift = plan_drift(walk, Model(DEMO, ""))
    field = Field((drift,), np.array([0, 5]), (0,), 2)
    rows = Rows(np.array([0, 2]), np.zeros(4), np.eye(4, 5), np.zeros(0), np.arange(5), drift.m, 3)
    with pytest.raises(Refused) as told:
        Solved(field, rows)
    assert str(told.value) == (
        "The marks, tapes and levels do not hold the walks together once what disagrees is let go. Answer the "
        "findings on marks with leave out or exchange, or mend the logs."
    )


def test_push_is_the_transpose_of_pull_and_the_diagonal_is_theirs():
    walked = Instrument(**{**DEMO.__dict__, "heading_walk": 0.01, "scale_shared": 0.002})
    drift = plan_drift(demo_walks(["W1"])[0], Model(walked, ""))
    n = len(drift.m)
    factor = drift.pull(np.eye(2 * n).reshape(2 * n, n, 2))
    u = np.random.default_rng(5).normal(size=drift.parts)
    assert drift.push(u).ravel() == pytest.approx(factor @ u, abs=1e-12)
    blocks = (factor @ factor.T).reshape(n, 2, n, 2)
    assert drift.diagonal() == pytest.approx(np.einsum("iaib->iab", blocks), abs=1e-13)


@pytest.mark.parametrize("walk_noise", [0.0, 0.01])
def test_the_covariance_of_any_two_stations_is_that_of_the_parts(walk_noise):
    model = Model(Instrument(**{**DEMO.__dict__, "heading_walk": walk_noise}), "")
    walk = demo_walks(["W1"])[0]
    some = np.array([3, 0, 17, 17, 9])
    for drift, d in ((plan_drift(walk, model), 2), (height_drift(walk, model), 1)):
        n = len(walk)
        factor = drift.pull(np.eye(d * n).reshape(d * n, n, d))
        whole = (factor @ factor.T).reshape(n, d, n, d)
        found = drift.between(some, np.arange(n))
        assert found.shape == (5, d, n, d)
        assert found == pytest.approx(whole[some], abs=1e-13)


TAPED = (("A", "B", 24.0, 0.01), ("A", "BM1", math.hypot(6, 4), 0.01))
NOTES = {
    # quantity: four walks, with both tapes (adjustment.md section 8)
    "ramp": (0.0858, 0.0843),
    "ramp 9 m": (0.0144, 0.0133),
    "bed 1": (0.1294, 0.1114),
    "bed 2": (0.1973, 0.1713),
}


@pytest.mark.parametrize("taped", [False, True], ids=["no tape", "two tapes"])
def test_four_walks_give_the_known_sigmas(taped):
    job, _, first = network(demo_walks(), TAPED if taped else ())
    n, xy, solved = int(first[-1]), job.xy, job.solved
    ramp = builders.rows_of("W2", builders.RAMP, first[1])
    bed_1 = builders.rows_of("W3", builders.BED_1, first[2])
    bed_2 = builders.rows_of("W3", builders.BED_2, first[2])
    # The pass stations of a leg stay in the outline.
    bed_2 = list(range(bed_2[0], bed_2[-1] + 1))
    bed_1 = list(range(bed_1[0], bed_1[-1] + 1))
    found = {
        "ramp": solved.variance(shoelace_gradient(n, np.array(ramp), xy)),
        "ramp 9 m": solved.variance(length_gradient(n, ramp[0], ramp[1], xy)),
        "bed 1": solved.variance(shoelace_gradient(n, np.array(bed_1), xy)),
        "bed 2": solved.variance(shoelace_gradient(n, np.array(bed_2), xy)),
    }
    for name, sigmas in NOTES.items():
        assert math.sqrt(found[name]) == pytest.approx(sigmas[taped], abs=6e-5), name


@pytest.mark.parametrize(
    ("walks", "tapes", "redundancy"),
    [(["W1"], (), 2), (["W1", "W2"], (), 3), (None, (), 7), (None, TAPED, 9)],
)
def test_redundancy_counts_what_is_left_over(walks, tapes, redundancy):
    job, _, _ = network(demo_walks(walks) if walks else demo_walks(), tapes)
    assert job.solved.redundancy == redundancy


def test_covariance_of_all_stations_agrees_with_single_figures():
    job, _, first = network(demo_walks(["W1", "W2"]), TAPED[:1])
    n = int(first[-1])
    whole = job.solved.apply(np.eye(2 * n).reshape(2 * n, n, 2)).reshape(2 * n, 2 * n)
    assert whole == pytest.approx(whole.T, abs=1e-14)
    g = np.random.default_rng(2).normal(size=(n, 2))
    assert job.solved.variance(g) == pytest.approx(g.ravel() @ whole @ g.ravel(), rel=1e-9)
    assert job.solved.whole() == pytest.approx(whole, abs=1e-13)
    some, turn = np.array([40, 3, 17, 18]), np.array([[0.6, -0.8], [0.8, 0.6]])
    its = np.einsum("pi,aibj,qj->apbq", turn, whole.reshape(n, 2, n, 2)[some][:, :, some], turn)
    assert job.solved.joint(some, turn) == pytest.approx(its.reshape(8, 8), abs=1e-13)
    blocks = np.einsum("iaib->iab", whole.reshape(n, 2, n, 2))
    assert job.solved.blocks(np.arange(n)) == pytest.approx(blocks, abs=1e-13)


def test_adjustment_agrees_with_dense_least_squares_of_scipy():
    """All errors as unknowns of their own, weighted one: scipy's general solver finds the same stations."""
    from scipy.optimize import least_squares

    rng = np.random.default_rng(11)
    walks = demo_walks(["W1", "W2"], noise=rng)
    tape = ("A", "B", 24.012, 0.01)
    job, marks, first = network(walks, [tape])
    field = job.solved.field
    ends = np.cumsum([d.parts for d in field.drifts])
    place = {m: i for i, m in enumerate(marks)}

    def unpack(x):
        return x[: ends[-1]], x[ends[-1] : ends[-1] + 3], x[ends[-1] + 3 :].reshape(-1, 2)

    def stations(x):
        u, pose, _ = unpack(x)
        error = field.push(np.concatenate([u, np.zeros(field.shared.shape[0])]))
        out = []
        for k, (origin, angle) in enumerate([(np.zeros(2), 0.0), (pose[:2], pose[2])]):
            rows = slice(first[k], first[k + 1])
            m = np.asarray(walks[k].xy - walks[k].xy[0])
            out.append(origin + builders.turn(m, job.poses[k].turn + angle) - error[rows])
        return np.concatenate(out)

    def residuals(x):
        u, _, q = unpack(x)
        p = stations(x)
        gaps = [(p[o.row] - q[o.mark]) / 1e-7 for o in job.occupations]
        length = np.hypot(*(q[place["B"]] - q[place["A"]]))
        return np.concatenate([u, np.ravel(gaps), [(length - 24.012) / 0.01]])

    start = np.concatenate([np.zeros(ends[-1]), job.poses[1].origin, [0.0], job.marks.ravel()])
    found = least_squares(residuals, start, x_scale="jac", method="trf", xtol=1e-15, ftol=1e-15, gtol=1e-12)
    assert stations(found.x) == pytest.approx(job.xy, abs=2e-6)


@pytest.mark.parametrize("change", ["turned", "moved", "re-ordered", "renamed"])
def test_sizes_do_not_depend_on_the_frame(change):
    rng = np.random.default_rng(3)
    walks = demo_walks(noise=rng)
    before, _, first = network(walks)
    names = [walk.name for walk in walks]
    if change == "turned":
        walks = [
            make_walk(turn_about(w.xy, 0.7 * k + 0.1), name=w.name, mark=w.mark) for k, w in enumerate(walks)
        ]
    elif change == "moved":
        walks = [make_walk(w.xy + (1e7, -1e7), name=w.name, mark=w.mark) for w in walks]
    elif change == "renamed":
        walks = [make_walk(w.xy, name=w.name, mark=[m and f"{m} new" for m in w.mark]) for w in walks]
    else:
        walks = [walks[k] for k in (2, 0, 3, 1)]
    after, _, first_after = network(walks)
    for name in names:
        k, j = names.index(name), [w.name for w in walks].index(name)
        a = before.xy[first[k] : first[k + 1]]
        b = after.xy[first_after[j] : first_after[j + 1]]
        size_a = np.hypot(*(a[:, None] - a[None]).reshape(-1, 2).T)
        size_b = np.hypot(*(b[:, None] - b[None]).reshape(-1, 2).T)
        # Moved by 1e7 m a coordinate itself is only good to 2e-9 m.
        assert size_b == pytest.approx(size_a, rel=1e-9, abs=2e-8 if change == "moved" else 1e-9)


def turn_about(xy, angle):
    return builders.turn(xy, angle)


def test_strong_heading_drift_is_taken_out():
    """10 degrees of turn over a loop: the sides come back to their true lengths within their sigmas."""
    rate = math.radians(10.0) / (174.37 / 1.3)
    strong = Instrument(
        **{**DEMO.__dict__, "heading_rate": rate, "scale": 1e-6, "leg": 1e-4, "leg_time": 0.0, "stand": 1e-4}
    )
    points, marks = builders.route(builders.ROUTES["W1"])
    steps = np.diff(points, axis=0)
    time = np.concatenate([[0.0], np.cumsum(np.hypot(*steps.T) / 1.3)])
    middle = (time[1:] + time[:-1]) / 2
    bent = np.vstack([[0, 0], np.cumsum([builders.turn(s, rate * t) for s, t in zip(steps, middle)], axis=0)])
    job, _, _ = network([make_walk(bent, mark=marks)], instrument=strong)
    expected = np.hypot(*(points[:, None] - points[None]).reshape(-1, 2).T)
    found = np.hypot(*(job.xy[:, None] - job.xy[None]).reshape(-1, 2).T)
    assert found == pytest.approx(expected, abs=1e-3)
