# SPDX-License-Identifier: GPL-2.0-or-later
"""What nothing checks, said plainly: walks after their last mark, short tie bases, and the
mistakes that the marks could not show."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..adjust.naming import Hypothesis, not_excluded
from ..adjust.tests import RowTests
from ..adjust.walks import Adjusted
from ..findings import Decisions, Finding, Severity
from ..positions import Positions
from ..quantity import COVER_95_PLANE
from ..walk import ErrorGrowth, Walk


def tell_unchecked(adjusted: Adjusted, positions: Positions, decisions: Decisions) -> tuple[Finding, ...]:
    """CL-02 and TI-02 of the whole job."""
    out: list[Finding] = []
    for k, walk in enumerate(adjusted.walks):
        if walk.keys.growth is ErrorGrowth.POINTS:
            continue  # points of a list hang neither on a way nor on marks
        out.append(_open_end(adjusted, positions, k, walk))
        note = _hidden(adjusted, k, walk)
        if note is not None:
            out.append(note)
        short = _short_base(adjusted, positions, k, walk)
        if short is not None:
            out.append(decisions.answered(short))
    return tuple(out)


@dataclass(frozen=True)
class _Words:
    """What is the same of every finding of one kind."""

    code: str
    severity: Severity
    template: str
    remedy: str


def _finding(walk: Walk, i: int, words: _Words, data: dict[str, object]) -> Finding:
    return Finding(
        words.code,
        words.severity,
        walk.place(i),
        words.template,
        words.remedy,
        {"walk": walk.name, **data},
        file=walk.file,
        line=int(walk.line[i]),
        walk=walk.name,
        station=walk.station[i],
        answers=("accept",) if words.severity is Severity.ASK else (),
    )


def _open_end(adjusted: Adjusted, positions: Positions, k: int, walk: Walk) -> Finding:
    """CL-02: how errors grow after the last mark, or the smallest blunder that a closed walk would show."""
    marked = [i for i, mark in enumerate(walk.mark) if mark]
    last = len(walk) - 1
    if not marked:
        return _finding(
            walk, last, _Words("CL-02", Severity.NOTE, "Walk {walk} stands on no mark: nothing checks it.",
            "Begin and end a walk on marks."), {},
        )  # fmt: skip
    far = _radial_95(positions, int(adjusted.first[k]) + last)
    if marked[-1] < last:
        return _finding(
            walk,
            last,
            _Words(
                "CL-02",
                Severity.NOTE,
                "Nothing checks walk {walk} after station {station}: errors grow to {far:.2f} m (95 %) at its last "
                "station.",
                "End the walk on a mark.",
            ),
            {"station": walk.station[marked[-1]], "far": far},
        )
    sizes = _smallest(adjusted, k, walk, marked)
    return _finding(
        walk,
        last,
        _Words(
            "CL-02",
            Severity.NOTE,
            "Walk {walk} ends on mark {mark}. Between its marks a single blunder would be seen from this size on: {sizes}."
            if sizes
            else "Walk {walk} ends on mark {mark}, and nothing checks the way there.",
            "More stands on shared marks show smaller blunders.",
        ),
        {"mark": walk.mark[last], "sizes": sizes},
    )


def _radial_95(positions: Positions, row: int) -> float:
    """The longer axis of the 95 % ellipse of a station, metres."""
    values = np.linalg.eigvalsh(positions.plan_ellipses(np.array([row]))[0])
    return COVER_95_PLANE * math.sqrt(float(values[-1]))


def _smallest(adjusted: Adjusted, k: int, walk: Walk, marked: list[int]) -> str:
    """For each section between two stands: the smallest jump that the tests find with 80 %, worst direction."""
    plan = adjusted.both.plan
    stood = [o.mark for o in plan.occupations]
    names = adjusted.ties.marks
    # A mark stood on once checks nothing: the sections on either side of it are one.
    marked = [i for i in marked if stood.count(names.index(walk.mark[i])) > 1]
    tests, rows = RowTests(plan.solved), len(plan.solved.rows.residual)
    out = []
    for a, b in zip(marked, marked[1:]):
        effect = np.zeros((rows, 2))
        for i, o in enumerate(plan.occupations):
            if o.walk == k and o.row - adjusted.first[k] >= b:
                effect[2 * i, 0] = effect[2 * i + 1, 1] = 1.0
        size = tests.smallest(effect)
        found = f"{size:.2f} m" if math.isfinite(size) else "none of any size in one direction"
        out.append(f"{walk.mark[a]} to {walk.mark[b]} {found}")
    return "; ".join(out)


def _hidden(adjusted: Adjusted, k: int, walk: Walk) -> Finding | None:
    """CL-02: exchanged marks or a mirrored frame that the marks of this walk could not show."""
    hidden = not_excluded(adjusted.both, k)
    if not hidden:
        return None
    what = "; ".join(_hypothesis_text(adjusted, h) for h in hidden)
    return _finding(
        walk,
        0,
        _Words(
            "CL-02",
            Severity.NOTE,
            "Nothing in the marks of walk {walk} excludes: {what}.",
            "A third shared mark off the line of the others would; the picture shows it too.",
        ),
        {"what": what},
    )


def _hypothesis_text(adjusted: Adjusted, hypothesis: Hypothesis) -> str:
    if not hypothesis.marks:
        return "a mirrored frame"
    one, other = (adjusted.ties.marks[j] for j in hypothesis.marks)
    return f"marks {one} and {other} exchanged"


def _short_base(adjusted: Adjusted, positions: Positions, k: int, walk: Walk) -> Finding | None:
    """TI-02: the marks a walk shares lie close together for how far it reaches."""
    elsewhere = {mark for j, other in enumerate(adjusted.walks) if j != k for mark in other.mark if mark}
    shared = [i for i, mark in enumerate(walk.mark) if mark and mark in elsewhere]
    drawn = [i for i, feature in enumerate(walk.feature) if feature]
    if len({walk.mark[i] for i in shared}) < 2 or not drawn:
        return None
    places = walk.xy[shared]
    spread = np.hypot(*(places[:, None] - places[None]).transpose(2, 0, 1))
    a, b = np.unravel_index(int(np.argmax(spread)), spread.shape)
    base = float(spread[a, b])
    away = np.hypot(*(walk.xy[drawn] - (places[a] + places[b]) / 2).T)
    reach = float(away.max())
    if base >= reach / 2:
        return None
    far = drawn[int(np.argmax(away))]
    return _finding(
        walk,
        far,
        _Words("TI-02",
        Severity.ASK,
        "The marks that walk {walk} shares with the others are {base:.1f} m apart at the most, and it reaches "
        "{reach:.1f} m away: expect {far:.2f} m (95 %) at station {station}.",
        "Add a mark far out, and stand on it in two walks."),
        {"base": base, "reach": reach, "far": _radial_95(positions, int(adjusted.first[k]) + far),
         "station": walk.station[far]},
    )  # fmt: skip
