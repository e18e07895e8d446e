# SPDX-License-Identifier: GPL-2.0-or-later
"""The section of a drawn line: the levels that are known, and nothing that is not."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ...bridge.text import tr
from .look import LETTER, halo, put_label, put_legend, style_axes

if TYPE_CHECKING:
    from ...bridge.section import DrawnSection
    from .look import Look

SURFACE_STYLES = ("-", "--", "-.", ":")
LONGEST_NAME = 24
"""Letters of a name in the legend."""


def draw_section(figure: Any, look: Look, section: DrawnSection) -> Any:
    """Each level with its 95 %, numbered as in the table; where there is no surface a thin dashed join stands for what nobody
    measured. Gives the axes of distances."""
    axes = figure.add_subplot()
    style_axes(axes, look)
    along, level = [p.along for p in section.points], [p.level for p in section.points]
    if not section.is_chosen:
        words = tr("between: not known")
        axes.plot(along, level, color=look.ink, linewidth=0.6, linestyle=(0, (3, 4)), label=words, zorder=1)
    _put_bands(axes, section, look)
    for k, (name, x, z) in enumerate(section.surfaces):
        style = SURFACE_STYLES[k % len(SURFACE_STYLES)]
        words = "{name}" if section.is_chosen else tr("surface {name}, as in its file")
        words = words.format(name=_short(name))
        axes.plot(
            x, z, color=look.colour("bluish_green"), linewidth=1.2, linestyle=style, label=words, zorder=2
        )
    for is_point, sign, face, words in (
        (False, "o", look.colour("sky_blue"), tr("walked edge ± 95 %")),
        (True, "s", look.colour("orange"), tr("station ± 95 %")),
    ):
        _put_levels(axes, section, is_point, {"fmt": sign, "markerfacecolor": face, "label": words}, look)
    for number, point in enumerate(section.points, start=1):
        put_label(axes, (point.along, point.level), str(number), look, keeps=True, fontsize=7, zorder=5)
    _finish(axes, section, look)
    return axes


def _short(name: str) -> str:
    return name if len(name) <= LONGEST_NAME else f"{name[: LONGEST_NAME - 1]}…"


def _put_bands(axes: Any, section: DrawnSection, look: Look) -> None:
    """Cut and fill between two surfaces by colour, hatch and letter; stretches that are weak by a broad pale line."""
    told: set[bool] = set()
    for band in section.cuts.bands:
        colour, hatch, letter, words = _kind(is_cut=band.is_cut)
        label = "_again" if band.is_cut in told else words
        told.add(band.is_cut)
        axes.fill_between(
            band.along, band.other, band.ground, facecolor="none", edgecolor=look.colour(colour), hatch=hatch,
            linewidth=0.0, label=label, zorder=1,
        )  # fmt: skip
        axes.annotate(
            letter, band.middle, ha="center", va="center", color=look.ink, fontweight="bold", fontsize=8, gid=LETTER,
            path_effects=halo(look), zorder=6,
        )  # fmt: skip
    for number, (x, z) in enumerate(section.cuts.weak):
        words = "_again" if number else tr("weak")
        axes.plot(x, z, color=look.colour("yellow"), linewidth=5.0, alpha=0.7, label=words, zorder=1.5)


def _kind(*, is_cut: bool) -> tuple[str, str, str, str]:
    """Colour, hatch, letter and words of what lies between two surfaces."""
    if is_cut:
        return "vermillion", "////", tr("C"), tr("cut (C)")
    return "blue", "\\\\\\\\", tr("F"), tr("fill (F)")


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
    put_legend(axes, look, columns=2, loc="lower left", bbox_to_anchor=(-0.08, 1.0))
