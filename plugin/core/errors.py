# SPDX-License-Identifier: GPL-2.0-or-later
"""One tree of errors: what stops the work. What lets it go on is a finding (findings.py)."""

from __future__ import annotations


class GroundTallyError(Exception):
    """Something that stops the work; the message names the place, what stood there, and what to do.

    `template` is translated by the outer ring and then filled with `fields`, so it is always a literal.
    """

    template: str = "The work stopped."

    def __init__(self, template: str | None = None, **fields: object) -> None:
        """Keep the literal template and its fields apart, so that the outer ring can translate."""
        self.template = template if template is not None else type(self).template
        self.fields = fields
        super().__init__(self.template.format(**fields))


class BadInput(GroundTallyError, ValueError):
    """A file or a value that cannot be used at all."""


class BadUnit(BadInput):
    """A unit name that is not known."""


class Refused(GroundTallyError, ValueError):
    """A stop in reading or placing that makes every figure wrong: no survey is written."""


class TooFewPoints(GroundTallyError, ValueError):
    """Fewer different points than the shape needs."""


class PointsInLine(GroundTallyError, ValueError):
    """The points lie on a line, so no circle goes through them."""


class BadCrs(GroundTallyError, ValueError):
    """A coordinate reference system that is unknown, not projected, or cannot be reached safely."""


class MissingLibrary(GroundTallyError, ImportError):
    """A library that users' QGIS may lack is needed; field `library` names it, the bridge says what to install."""


class Cancelled(GroundTallyError):
    """The user stopped the work; nothing was written."""

    template = "Cancelled; nothing was written."
