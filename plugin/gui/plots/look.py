# SPDX-License-Identifier: GPL-2.0-or-later
"""How our figures look: ink and paper of the window they are in, the palette's colours, and labels that keep apart."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from qgis.PyQt.QtGui import QPalette

from ...bridge.libraries import import_library
from ...bridge.palette import palette_colour

if TYPE_CHECKING:
    from collections.abc import Sequence

    from qgis.PyQt.QtWidgets import QWidget

FONT_SIZE = 8.0
"""Points."""
KEEPS, GIVES_WAY, LETTER = "keeps", "gives way", "letter"
"""Labels that are always there; those that are left out where they would lie on another; letters, which stay in their
place, and of which one is enough where two alike lie on each other (top and foot of a wall)."""
PLACES = ((1, 1), (-1, 1), (1, -1), (-1, -1), (0, 1), (0, -1), (1, 0), (-1, 0))
"""Where a label may stand about its point, the best first."""
APART = 4.0
"""Points between a label and what it names."""
FAR = 11.0
"""Points: the second ring of places, for labels that must be there."""
ROOM = 2.5
"""Points that labels which give way keep about them: a plan full of figures reads worse than one with every second."""


@dataclass(frozen=True)
class Look:
    """Ink and paper as hexadecimal colours."""

    ink: str
    paper: str

    def colour(self, name: str) -> str:
        """A colour of the palette; its black and white are the ink and the paper."""
        return {"black": self.ink, "white": self.paper}.get(name) or str(palette_colour(name).name())


SHEET = Look("#000000", "#ffffff")
"""Of pictures that are saved: they go on white paper, whatever the window's colours."""


def look_of(widget: QWidget) -> Look:
    """The window's own colours of text."""
    palette = widget.palette()
    ink, paper = (palette.color(role).name() for role in (QPalette.ColorRole.Text, QPalette.ColorRole.Base))
    return Look(str(ink), str(paper))


def load_matplotlib() -> Any:
    """The library that draws, at first use.

    Raises:
        MissingLibrary: this system has none.
    """
    return import_library("matplotlib")


def halo(look: Look) -> list[Any]:
    """A band of paper about a label, so that it reads over lines and hatches."""
    from matplotlib import patheffects

    return [patheffects.withStroke(linewidth=2.2, foreground=look.paper)]


def put_label(axes: Any, at: tuple[float, float], text: str, look: Look, **more: Any) -> Any:
    """A label beside a place in the data; `settle_labels` finds where. `keeps` says that it is never left out."""
    keeps = more.pop("keeps", False)
    label = axes.annotate(
        text,
        at,
        xytext=(APART, APART),
        textcoords="offset points",
        path_effects=halo(look),
        gid=KEEPS if keeps else GIVES_WAY,
        color=more.pop("color", look.ink),
        **more,
    )
    # The layout must not move when a label is left out.
    label.set_in_layout(False)
    return label


def lay_out(figure: Any, *, is_on: bool) -> None:
    """Let the library find room for titles and legends, or keep what it found."""
    if hasattr(figure, "set_layout_engine"):
        figure.set_layout_engine("constrained" if is_on else "none")
    else:  # before 3.6
        figure.set_constrained_layout(is_on)


def settle_labels(figure: Any) -> None:
    """Give every label of a figure a place about its point where it lies on no other, those that must be there first."""
    figure.draw_without_rendering()
    lay_out(figure, is_on=False)
    # Once more in the layout that stays: only now do equal axes know how far they reach.
    figure.draw_without_rendering()
    renderer = figure.canvas.get_renderer()
    taken: list[Any] = []
    for axes in figure.axes:
        frame = axes.get_window_extent(renderer)
        fixed = [*axes.artists, *(axes.texts if not axes.axison else ())]
        taken += [artist.get_window_extent(renderer) for artist in fixed if artist.get_gid() is None]
        taken += _settle_letters([text for text in axes.texts if text.get_gid() == LETTER], renderer)
        labels = [text for text in axes.texts if text.get_gid() in (KEEPS, GIVES_WAY)]
        for label in sorted(labels, key=lambda text: text.get_gid() != KEEPS):
            _place(label, taken, frame, renderer)


def _settle_letters(letters: Sequence[Any], renderer: Any) -> list[Any]:
    shown: list[tuple[str, Any]] = []
    for letter in letters:
        text, box = letter.get_text(), letter.get_window_extent(renderer)
        letter.set_visible(not any(text == other and box.overlaps(place) for other, place in shown))
        if letter.get_visible():
            shown.append((text, box))
    return [box for _, box in shown]


def _place(label: Any, taken: list[Any], frame: Any, renderer: Any) -> None:
    must = label.get_gid() == KEEPS
    room = 0.0 if must else label.figure.dpi / 72.0 * ROOM
    for reach in (APART, FAR) if must else (APART,):
        for x, y in PLACES:
            box = _box_at(label, (x, y), reach, renderer)
            inside = frame.x0 <= box.x0 and box.x1 <= frame.x1 and frame.y0 <= box.y0 and box.y1 <= frame.y1
            if inside and not any(box.padded(room).overlaps(other) for other in taken):
                label.set_visible(True)
                taken.append(box)
                return
    box = _box_at(label, PLACES[0], APART, renderer)
    label.set_visible(must)
    if must:
        taken.append(box)


def _box_at(label: Any, place: Sequence[int], reach: float, renderer: Any) -> Any:
    x, y = place
    label.set_visible(True)
    label.set_horizontalalignment(("right", "center", "left")[x + 1])
    label.set_verticalalignment(("top", "center", "bottom")[y + 1])
    label.set_position((reach * x, reach * y))
    return label.get_window_extent(renderer)


def bare(axes: Any) -> None:
    """A plan: both axes alike, no frame, no numbers."""
    axes.set_aspect("equal", adjustable="datalim")
    axes.set_axis_off()


def put_north(axes: Any, look: Look) -> None:
    """An arrow to the north in the corner at the top right."""
    axes.annotate(
        "N",
        xy=(0.96, 0.99),
        xytext=(0.96, 0.86),
        xycoords="axes fraction",
        textcoords="axes fraction",
        ha="center",
        va="center",
        color=look.ink,
        fontweight="bold",
        path_effects=halo(look),
        arrowprops={"arrowstyle": "-|>", "facecolor": look.ink, "edgecolor": look.ink, "shrinkA": 5},
    )


def put_bar(axes: Any, metres: float, text: str, look: Look) -> Any:
    """A scale bar in the corner at the bottom left: `metres` long on the ground."""
    from mpl_toolkits.axes_grid1.anchored_artists import AnchoredSizeBar

    bar = AnchoredSizeBar(
        axes.transData,
        metres,
        text,
        "lower left",
        pad=0.2,
        sep=3,
        frameon=False,
        color=look.ink,
        size_vertical=0,
    )
    bar.size_bar.get_children()[0].set_linewidth(2.0)
    axes.add_artist(bar)
    return bar


def style_axes(axes: Any, look: Look) -> None:
    """Axes in the window's ink, with no more frame than they need."""
    axes.set_facecolor(look.paper)
    for name, spine in axes.spines.items():
        spine.set_visible(name in ("left", "bottom"))
        spine.set_color(look.ink)
    axes.tick_params(colors=look.ink, length=3)
    axes.xaxis.label.set_color(look.ink)
    axes.yaxis.label.set_color(look.ink)
    axes.title.set_color(look.ink)


def put_legend(axes: Any, look: Look, columns: int = 2, **more: Any) -> Any:
    """The legend below a plot, where it covers nothing."""
    place = {"loc": "upper center", "bbox_to_anchor": (0.5, 0.0), **more}
    return axes.legend(
        ncol=columns,
        frameon=False,
        labelcolor=look.ink,
        handlelength=2.2,
        columnspacing=1.2,
        borderaxespad=0.2,
        **place,
    )
