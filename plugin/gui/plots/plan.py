# SPDX-License-Identifier: GPL-2.0-or-later
"""The plan preview: every meaning by hatch, line kind and letter, so that a copy in black and white reads."""

from __future__ import annotations

from textwrap import shorten
from typing import TYPE_CHECKING, Any

import numpy as np

from ...bridge.plan_preview import Shown, shown_words
from ...bridge.text import tr
from .look import LETTER, bare, halo, put_bar, put_label, put_north

if TYPE_CHECKING:
    from ...bridge.plan_preview import AreaDrawn, LengthDrawn, PlanPreview, PointDrawn
    from .look import Look

FILLS = {
    Shown.NEW: ("sky_blue", "//", "-"),
    Shown.EXISTING: ("yellow", "..", "-"),
    Shown.RETAIN: ("bluish_green", "||", "-."),
    Shown.REMOVE: ("vermillion", "xx", "--"),
    Shown.NO_FIGURES: ("white", "--", "--"),
    Shown.HOLE: ("white", "", ":"),
}
"""Of areas: colour, hatch, outline."""
LINES = {
    Shown.NEW: ("blue", "-"),
    Shown.EXISTING: ("black", ":"),
    Shown.RETAIN: ("black", ":"),
    Shown.REMOVE: ("vermillion", "-."),
    Shown.NO_FIGURES: ("vermillion", "--"),
    Shown.HOLE: ("black", ":"),
}
TINT = 0.3
LINE_INCHES = 0.155
"""Of a line of the key."""
LETTER_INCHES = 0.068
"""Of the key's letters, on the wide side."""
MOST_KEY = 0.4
"""Of the figure's height: the key never takes more."""


def draw_plan(figure: Any, look: Look, plan: PlanPreview) -> None:
    """Areas, lengths, spots and marks, with the key of letters below."""
    height = figure.get_size_inches()[1]
    room = max(int(MOST_KEY * height / LINE_INCHES), 3)
    lines = _key_lines(plan, room, int(figure.get_size_inches()[0] / LETTER_INCHES))
    kinds = (len(plan.kinds) + 2) // 2
    below = (len(lines) + kinds + 1.0) * LINE_INCHES
    axes, key = figure.subplots(2, 1, height_ratios=(max(height - below, 1.0), below))
    bare(axes)
    axes.set_xlim(plan.box[0], plan.box[1])
    axes.set_ylim(plan.box[2], plan.box[3])
    for area in plan.areas:
        _put_area(axes, area, look)
    for length in plan.lengths:
        _put_length(axes, length, look)
    _put_points(axes, plan, look)
    put_north(axes, look)
    put_bar(axes, plan.bar.metres, plan.bar.text, look)
    key.set_axis_off()
    legend = key.legend(
        handles=_handles(plan, look), ncol=2, loc="upper left", frameon=False, labelcolor=look.ink,
        borderpad=0.0, borderaxespad=0.0, handleheight=1.1, columnspacing=1.0, labelspacing=0.25,
    )  # fmt: skip
    legend.set_in_layout(False)
    key.text(0.0, 0.0, "\n".join(lines), transform=key.transAxes, va="bottom", fontsize=7.5).set_in_layout(
        False
    )


def _put_area(axes: Any, area: AreaDrawn, look: Look) -> None:
    from matplotlib.colors import to_rgba
    from matplotlib.patches import PathPatch
    from matplotlib.path import Path

    colour, hatch, style = FILLS[area.shown]
    path = Path.make_compound_path(*(Path(ring, closed=True) for ring in area.rings))
    patch = PathPatch(path, facecolor=to_rgba(look.colour(colour), TINT), edgecolor=look.ink, linewidth=0.8)
    # The hatch is drawn thin, in the ink: that is what is left of it in a copy.
    patch.set(hatch=hatch, linestyle=style, label=area.name, zorder=1)
    axes.add_patch(patch)
    if area.letter:
        _put_letter(axes, area.at, area.letter, look)


def _put_length(axes: Any, length: LengthDrawn, look: Look) -> None:
    colour, style = LINES[length.shown]
    for run in length.runs:
        axes.plot(*run.T, color=look.paper, linewidth=3.0, zorder=2)
        axes.plot(
            *run.T, color=look.colour(colour), linestyle=style, linewidth=1.6, label=length.name, zorder=3
        )
    _put_letter(axes, length.at, length.letter, look)


def _put_letter(axes: Any, at: tuple[float, float], letter: str, look: Look) -> None:
    text = axes.text(
        *at, letter, ha="center", va="center", fontweight="bold", fontsize=9, zorder=8, color=look.ink
    )
    text.set(path_effects=halo(look), clip_on=True, gid=LETTER)


def _put_points(axes: Any, plan: PlanPreview, look: Look) -> None:
    axes.plot(*_places(plan.spots), "+", color=look.ink, markersize=4, markeredgewidth=0.7, zorder=4)
    axes.plot(
        *_places(plan.marks),
        "^",
        markersize=5,
        markerfacecolor=look.colour("orange"),
        markeredgecolor=look.ink,
        zorder=6,
    )
    for mark in plan.marks:
        put_label(axes, (mark.x, mark.y), mark.text, look, keeps=True, fontweight="bold", zorder=7)
    for spot in plan.spots:
        put_label(axes, (spot.x, spot.y), spot.text, look, fontsize=6, zorder=5)


def _places(points: tuple[PointDrawn, ...]) -> Any:
    return np.array([(point.x, point.y) for point in points], float).reshape(-1, 2).T


def _handles(plan: PlanPreview, look: Look) -> list[Any]:
    """What the hatches, lines and signs mean, as far as they are there."""
    from matplotlib.colors import to_rgba
    from matplotlib.lines import Line2D
    from matplotlib.patches import Patch

    handles: list[Any] = []
    areas, lengths = ({thing.shown for thing in things} for things in (plan.areas, plan.lengths))
    for kind in plan.kinds:
        words = shown_words(kind)
        if kind in areas:
            colour, hatch, style = FILLS[kind]
            tint = to_rgba(look.colour(colour), TINT)
            handles.append(
                Patch(
                    facecolor=tint,
                    edgecolor=look.ink,
                    hatch=hatch * 2,
                    linestyle=style,
                    linewidth=0.8,
                    label=words,
                )
            )
        if kind in lengths:
            colour, style = LINES[kind]
            label = tr("length, {words}").format(words=words)
            handles.append(
                Line2D([], [], color=look.colour(colour), linestyle=style, linewidth=1.6, label=label)
            )
    for points, sign, words in ((plan.marks, "^", tr("mark")), (plan.spots, "+", tr("spot with its height"))):
        if points:
            handles.append(
                Line2D(
                    [],
                    [],
                    color=look.ink,
                    linestyle="",
                    marker=sign,
                    markersize=5,
                    markerfacecolor=look.colour("orange"),
                    label=words,
                )
            )
    return handles


def _key_lines(plan: PlanPreview, room: int, width: int) -> list[str]:
    """The key in so many lines of so many letters; what is longer ends in dots."""
    lines = [
        f"{letter}   {shorten(words, max(width - 6, 10), placeholder=' ...')}" for letter, words in plan.key
    ]
    if len(lines) <= room:
        return lines
    return [*lines[: room - 1], tr("and {count} more: enlarge").format(count=len(lines) - room + 1)]
