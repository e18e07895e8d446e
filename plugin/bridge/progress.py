# SPDX-License-Identifier: GPL-2.0-or-later
"""Progress and cancelling: the core's callable over a host's feedback object."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from ..core.errors import Cancelled
from .text import tr

if TYPE_CHECKING:
    from qgis.core import QgsFeedback

Progress = Callable[[float, str], None]


def quiet(part: float, words: str) -> None:
    """Progress that nobody watches."""


def report_to(feedback: QgsFeedback, start: float = 0.0, end: float = 1.0) -> Progress:
    """Progress from `start` to `end` of a run (each 0 to 1); each new step is named once.

    Raises:
        Cancelled: from the callable, once the user has asked for it.
    """
    last = [""]

    def report(part: float, words: str) -> None:
        if feedback.isCanceled():
            raise Cancelled
        feedback.setProgress(100.0 * (start + part * (end - start)))
        if words and words != last[0] and hasattr(feedback, "pushInfo"):
            feedback.pushInfo(tr(words))
        last[0] = words

    return report
