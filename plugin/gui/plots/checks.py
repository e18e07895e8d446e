# SPDX-License-Identifier: GPL-2.0-or-later
"""The figures of the checks: residuals in plan, residuals against their limits, misclosures."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ...bridge.desk import length
from ...bridge.diagnostics import Closes, Outcome
from ...bridge.text import tr
from ...core.measure.rows import ResidualKind
from .look import bare, halo, put_bar, put_label, put_legend, put_north, style_axes

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ...bridge.diagnostics import Closing, MarkDrawn, Misclosures, ResidualPlan, Standardised, Vector
    from .look import Look

THIN = 1.0
"""Pixels: arrows below this have an open head."""
ROW_INCHES = 0.19
"""Of a bar with its label."""
MARGIN_INCHES = 1.1
"""For the title, the axis and the legend of a figure of bars."""
BARS = {
    Outcome.PASSES: ("sky_blue", ""),
    Outcome.ASKS: ("yellow", "///"),
    Outcome.STOPS: ("vermillion", "xxx"),
    Outcome.LET_GO: ("white", ""),
}
"""Colour and hatch of each outcome."""
CLOSINGS = {
    Closes.WITHIN: ("sky_blue", ""),
    Closes.BEYOND: ("yellow", "///"),
    Closes.FAR: ("vermillion", "xxx"),
}


def draw_residual_plan(figure: Any, look: Look, plan: ResidualPlan) -> None:
    """The marks, their ellipses and their residuals, all but the marks' places drawn larger by one factor."""
    axes = figure.add_subplot()
    bare(axes)
    axes.set_xlim(plan.box[0], plan.box[1])
    axes.set_ylim(plan.box[2], plan.box[3])
    for mark in plan.marks:
        _put_ellipse(axes, mark, look)
    for kind, words, colours in _kinds(look):
        _put_vectors(axes, [v for v in plan.vectors if v.kind is kind], words, colours)
    xs, ys = [m.x for m in plan.marks], [m.y for m in plan.marks]
    axes.plot(
        xs, ys, "^", markersize=4.5, markerfacecolor=look.colour("orange"), markeredgecolor=look.ink, zorder=5
    )
    for mark in plan.marks:
        put_label(axes, (mark.x, mark.y), mark.mark, look, keeps=True, fontweight="bold", zorder=7)
    for vector in plan.named:
        put_label(axes, (vector.x + vector.dx, vector.y + vector.dy), vector.walk, look, fontsize=7, zorder=6)
    put_north(axes, look)
    put_bar(axes, plan.bar.metres, plan.bar.text, look)
    title = tr("Residuals and 95 % ellipses, drawn {times:g} times their size")
    axes.set_title(title.format(times=plan.times), color=look.ink, fontsize=8)
    put_legend(axes, look, columns=1, handles=_arrow_handles(plan, look))


def _put_ellipse(axes: Any, mark: MarkDrawn, look: Look) -> None:
    from matplotlib.patches import Ellipse

    if mark.width is None:
        return
    ellipse = Ellipse((mark.x, mark.y), mark.width, mark.height, angle=mark.angle_deg, fill=False)
    ellipse.set(edgecolor=look.ink, linewidth=0.7, linestyle=(0, (4, 2)), label="_ellipse", zorder=2)
    axes.add_patch(ellipse)


def _kinds(look: Look) -> tuple[tuple[ResidualKind, str, dict[str, Any]], ...]:
    """What each kind of arrow means, and how it is drawn: thin, filled, hollow."""
    blue = {"facecolor": look.colour("blue"), "edgecolor": look.colour("blue"), "linewidth": 0.6}
    return (
        (ResidualKind.STAND, tr("where a walk alone puts the mark"), {**blue, "width": 0.6}),
        (
            ResidualKind.MAP_POINT,
            tr("map point that was fitted"),
            {"facecolor": look.colour("vermillion"), "edgecolor": look.ink, "width": 2.4, "linewidth": 0.5},
        ),
        (
            ResidualKind.CHECK_POINT,
            tr("check point"),
            {"facecolor": look.paper, "edgecolor": look.ink, "width": 2.4, "linewidth": 0.8},
        ),
    )


def _put_vectors(axes: Any, vectors: Sequence[Vector], words: str, colours: dict[str, Any]) -> None:
    if not vectors:
        return
    where = [[getattr(v, name) for v in vectors] for name in ("x", "y", "dx", "dy")]
    axes.quiver(
        *where, angles="xy", scale_units="xy", scale=1.0, units="dots", label=words, zorder=4,
        headwidth=8.0 if colours["width"] < THIN else 3.2, headlength=8.0 if colours["width"] < THIN else 4.0,
        headaxislength=0.5 if colours["width"] < THIN else 3.6, minlength=0.1, **colours,
    )  # fmt: skip


def _arrow_handles(plan: ResidualPlan, look: Look) -> list[Any]:
    """What the arrows that are there, and the ellipses, mean."""
    from matplotlib.lines import Line2D
    from matplotlib.patches import Patch

    there = {vector.kind for vector in plan.vectors}
    handles: list[Any] = []
    for kind, words, colours in _kinds(look):
        if kind in there and kind is ResidualKind.STAND:
            handles.append(Line2D([], [], color=colours["edgecolor"], linewidth=1.0, label=words))
        elif kind in there:
            handles.append(Patch(label=words, **{k: v for k, v in colours.items() if k != "width"}))
    if any(mark.width is not None for mark in plan.marks):
        words = tr("the mark lies within (95 %)")
        handles.append(Line2D([], [], color=look.ink, linewidth=0.7, linestyle=(0, (4, 2)), label=words))
    return handles


def draw_standardised(figure: Any, look: Look, rows: Sequence[Standardised]) -> None:
    """A bar for each residual, in its own sigmas, beside where the tests ask and stop; the worst at the top."""
    axes = figure.add_subplot()
    style_axes(axes, look)
    shown = rows[: _room(figure)]
    places = list(range(len(shown)))
    for row, y in zip(shown, places):
        _put_bar(axes, row, y, look)
    asks = [(row.ask, y) for row, y in zip(shown, places) if row.outcome is not Outcome.LET_GO]
    stops = [(row.stop, y) for row, y in zip(shown, places) if row.outcome is not Outcome.LET_GO]
    for marks, sign, words in ((asks, "|", tr("asks from here")), (stops, "X", tr("stops from here"))):
        across, along = zip(*marks or [(float("nan"), 0)])
        axes.plot(across, along, sign, color=look.ink, markersize=6, label=words, clip_on=False)
    axes.set_yticks(places, [row.label for row in shown])
    axes.set_ylim(len(shown) - 0.4, -0.6)
    axes.set_xlim(left=0.0)
    axes.set_xlabel(tr("residual in its own sigmas"))
    axes.set_title(_left_out(len(rows) - len(shown)), color=look.ink, fontsize=8)
    put_legend(axes, look, columns=2, bbox_to_anchor=(0.35, -0.12))


def _put_bar(axes: Any, row: Standardised, y: int, look: Look) -> None:
    colour, hatch = BARS[row.outcome]
    if row.outcome is Outcome.LET_GO:
        words = tr("let go; off by {size}").format(size=row.off)
        axes.text(0.05, y, words, va="center", color=look.ink, fontsize=7, fontweight="bold")
        return
    axes.barh(
        y, row.size, height=0.7, color=look.colour(colour), edgecolor=look.ink, linewidth=0.6, hatch=hatch
    )
    _put_size(axes, row.off, y, look)


def _put_size(axes: Any, words: str, y: int, look: Look) -> None:
    """A size at the beginning of its bar, where no limit can lie on it."""
    place = {"xytext": (3, 0), "textcoords": "offset points", "va": "center", "fontsize": 7}
    axes.annotate(words, (0.0, y), path_effects=halo(look), zorder=6, **place)


def _room(figure: Any) -> int:
    return max(int((figure.get_size_inches()[1] - MARGIN_INCHES) / ROW_INCHES), 3)


def _left_out(count: int) -> str:
    if count <= 0:
        return tr("Every residual that can be tested")
    return tr("The worst; {count} more are smaller").format(count=count)


def draw_misclosures(figure: Any, look: Look, closings: Misclosures) -> None:
    """What each walk fails to close by, in plan above and in height below, beside what its instrument should give."""
    upper, lower = figure.subplots(2, 1)
    _put_closings(upper, look, closings.plan, tr("Misclosure in plan"))
    _put_closings(lower, look, closings.height, tr("Misclosure in height"))
    lower.set_xlabel(_open_words(closings.open_walks))
    put_legend(upper, look, columns=2, bbox_to_anchor=(0.5, -0.14))


def _put_closings(axes: Any, look: Look, rows: Sequence[Closing], title: str) -> None:
    style_axes(axes, look)
    axes.set_title(title, color=look.ink, fontsize=8)
    shown = _worst(rows, max(_room(axes.figure) // 3, 3))
    for y, row in enumerate(shown):
        colour, hatch = CLOSINGS[row.closes]
        axes.barh(
            y,
            row.size,
            height=0.55,
            color=look.colour(colour),
            edgecolor=look.ink,
            linewidth=0.6,
            hatch=hatch,
        )
        _put_size(axes, length(row.size), y, look)
    for name, sign, words in (
        ("expected_95", "|", tr("19 of 20 stay below (95 %)")),
        ("limit", "X", tr("blunder: three times")),
    ):
        places = [(getattr(row, name), y) for y, row in enumerate(shown)] or [(float("nan"), 0)]
        axes.plot(
            *zip(*places), sign, color=look.ink, markersize=9, markeredgewidth=1.2, label=words, clip_on=False
        )
    axes.set_yticks(list(range(len(shown))), [row.walk for row in shown])
    axes.set_ylim(len(shown) - 0.4, -0.6)
    axes.set_xlim(left=0.0)
    axes.xaxis.set_major_formatter(lambda value, _: f"{value:.2f} m")
    axes.locator_params(axis="x", nbins=4)
    if not shown:
        axes.set_axis_off()
        axes.text(0.5, 0.5, tr("no walk comes back to a mark"), ha="center", transform=axes.transAxes)


def _worst(rows: Sequence[Closing], room: int) -> Sequence[Closing]:
    """All walks in their order, or where these are too many the worst against what they should be."""
    return rows if len(rows) <= room else sorted(rows, key=lambda row: -row.size / row.limit)[:room]


def _open_words(walks: Sequence[str]) -> str:
    return tr("come back to no mark: {walks}").format(walks=", ".join(walks)) if walks else ""
