# SPDX-License-Identifier: GPL-2.0-or-later
"""The section of a drawn line: the levels that are known, and nothing that is not."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ...bridge.text import tr
from .look import put_label, put_legend, style_axes

if TYPE_CHECKING:
    from ...bridge.section import DrawnSection
    from .look import Look

SURFACE_STYLES = ("-", "--", "-.", ":")


def draw_section(figure: Any, look: Look, section: DrawnSection) -> Any:
    """Each level with its 95 %, numbered as in the table; a thin dashed join is no ground. Gives the axes of distances."""
    axes = figure.add_subplot()
    style_axes(axes, look)
    along, level = [p.along for p in section.points], [p.level for p in section.points]
    axes.plot(along, level, color=look.ink, linewidth=0.6, linestyle=(0, (3, 4)), label="_join", zorder=1)
    for k, (name, x, z) in enumerate(section.surfaces):
        style = SURFACE_STYLES[k % len(SURFACE_STYLES)]
        words = tr("surface {name}, as in its file").format(name=name)
        axes.plot(
            x, z, color=look.colour("bluish_green"), linewidth=1.2, linestyle=style, label=words, zorder=2
        )
    for is_point, sign, face, words in (
        (False, "o", look.colour("sky_blue"), tr("walked edge, with its 95 %")),
        (True, "s", look.colour("orange"), tr("station, with its 95 %")),
    ):
        _put_levels(axes, section, is_point, {"fmt": sign, "markerfacecolor": face, "label": words}, look)
    for number, point in enumerate(section.points, start=1):
        put_label(axes, (point.along, point.level), str(number), look, keeps=True, fontsize=7, zorder=5)
    _finish(axes, section, look)
    return axes


def _put_levels(axes: Any, section: DrawnSection, is_point: bool, style: dict[str, Any], look: Look) -> None:
    points = [point for point in section.points if point.is_point is is_point]
    if not points:
        return
    axes.errorbar(
        [p.along for p in points], [p.level for p in points], yerr=[p.half_95 for p in points],
        linestyle="none", ecolor=look.ink, elinewidth=0.9, capsize=2.5, markersize=4.5, markeredgecolor=look.ink,
        markeredgewidth=0.7, zorder=4, **style,
    )  # fmt: skip


def _finish(axes: Any, section: DrawnSection, look: Look) -> None:
    sign = section.unit.sign
    axes.set_xlim(0.0, section.length)
    axes.margins(y=0.15)
    axes.set_xlabel(tr("along the line, {unit}").format(unit=sign))
    datum = section.datum or tr("relative")
    axes.set_ylabel(tr("level, {unit} ({datum})").format(unit=sign, datum=datum))
    axes.ticklabel_format(axis="y", useOffset=False, style="plain")
    words = tr("Heights between the edges are not known")
    axes.figure.suptitle(words, color=look.ink, fontsize=8, fontstyle="italic")
    put_legend(axes, look, columns=2, loc="lower left", bbox_to_anchor=(-0.08, 1.0))
