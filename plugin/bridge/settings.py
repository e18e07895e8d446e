# SPDX-License-Identifier: GPL-2.0-or-later
"""What the user has set for all jobs: every key, its default, and what it may be. Nothing else names a key.

Read when it is needed, so that a change counts at once. What cannot be used is told once in the message log, and the
default goes in its place: a profile that somebody edited by hand must not stop the work.
"""

from __future__ import annotations

import math
from contextlib import suppress
from dataclasses import dataclass
from enum import Enum

from qgis.core import Qgis, QgsApplication, QgsMessageLog, QgsSettings
from qgis.PyQt.QtCore import QLocale

from ..core.defaults import JOIN_WITHIN as DEFAULT_JOIN_WITHIN
from ..core.defaults import PRICE_WITHIN as DEFAULT_PRICE_WITHIN
from ..core.errors import BadInput
from .text import tr

PLUGIN = "Ground Tally"
PREFIX = "ground_tally/"
LOCALE, HAS_OWN_LOCALE = "locale/userLocale", "locale/overrideFlag"
"""The host's own keys."""
LONGEST_NAME = 200
"""Letters of who answers findings."""


class ShownUnit(Enum):
    """The unit that labels show lengths in. Stored figures are metres whatever it is."""

    OF_CRS = "of the CRS"
    METRE = "m"
    FOOT = "ft"
    US_FOOT = "US ft"


@dataclass(frozen=True)
class Number:
    """A number that may be set: its key, the default, the least and the most."""

    key: str
    default: float
    least: float
    most: float

    def fits(self, value: float) -> bool:
        """Whether a value can be used."""
        return math.isfinite(value) and self.least <= value <= self.most


JOIN_WITHIN = Number("join_within_m", DEFAULT_JOIN_WITHIN, 0.0, 1.0)
"""Metres between edges of neighbours that may be one."""
PRICE_WITHIN = Number("price_within_percent", 100.0 * DEFAULT_PRICE_WITHIN, 0.0, 100.0)
"""Percent of uncertainty with which a phone's figures may be priced."""
DIGITISED_SIGMA = Number("digitised_sigma_m", 0.1, 0.0, 1000.0)
"""Metres, one sigma of a point that somebody digitised: common practice, no source."""
FIT_WITHIN = Number("fit_within_m", 0.05, 0.0001, 100.0)
"""Metres that a vertex may lie off its straight or arc: five times a good digitiser's centimetre."""
NUMBERS = (JOIN_WITHIN, PRICE_WITHIN, DIGITISED_SIGMA, FIT_WITHIN)
SHOWN_UNIT, ANSWERS_BY = "shown_unit", "answers_by"
KEYS = (*(number.key for number in NUMBERS), SHOWN_UNIT, ANSWERS_BY)

_told: set[tuple[str, str]] = set()


def read_number(number: Number) -> float:
    """What is set, or the default."""
    text = _stored(number.key)
    if text is None:
        return number.default
    with suppress(ValueError):
        value = float(text)
        if number.fits(value):
            return value
    _tell_broken(number.key, text, number.default)
    return number.default


def read_shown_unit() -> ShownUnit:
    """The unit of labels."""
    text = _stored(SHOWN_UNIT)
    unit = ShownUnit.OF_CRS if text is None else ShownUnit.__members__.get(text)
    if unit is None:
        _tell_broken(SHOWN_UNIT, str(text), tr("the CRS's own unit"))
    return unit or ShownUnit.OF_CRS


def metres_in(unit: ShownUnit) -> float | None:
    """Metres in the unit of labels; None where that is the CRS's own."""
    from ..core.units import convert

    names = {ShownUnit.METRE: "m", ShownUnit.FOOT: "ft", ShownUnit.US_FOOT: "us-ft"}
    return convert(1.0, names[unit], "m") if unit in names else None


def answerer() -> str:
    """Who answers findings, as it goes into the column `by` of decisions: the name set, else the system's own user."""
    text = _stored(ANSWERS_BY) or ""
    if not _is_name(text):
        _tell_broken(ANSWERS_BY, text[:LONGEST_NAME], own_name())
        text = ""
    return text or own_name()


def own_name() -> str:
    """What the system calls its user."""
    return str(QgsApplication.userFullName() or QgsApplication.userLoginName())


def write_number(number: Number, value: float) -> None:
    """Set a number.

    Raises:
        BadInput: it is none, or not between the least and the most.
    """
    if not number.fits(value):
        raise BadInput(
            "{value} cannot be set here. Give a number from {least} to {most}.",
            value=value,
            least=number.least,
            most=number.most,
        )
    _store(number.key, repr(float(value)))


def write_shown_unit(unit: ShownUnit) -> None:
    """Set the unit of labels, by its name."""
    _store(SHOWN_UNIT, unit.name)


def write_answerer(name: str) -> None:
    """Set who answers findings; nothing for the system's own user.

    Raises:
        BadInput: a name of more than one line, or far too long.
    """
    name = name.strip()
    if not _is_name(name):
        raise BadInput(
            'A name is one line of {most} letters at the most; "{name}" is none. Give a shorter one.',
            most=LONGEST_NAME,
            name=name[:LONGEST_NAME],
        )
    _store(ANSWERS_BY, name)


def forget_all() -> None:
    """Back to every default."""
    settings = QgsSettings()
    for key in KEYS:
        settings.remove(PREFIX + key)
    _told.clear()


def host_locale() -> str:
    """The language that the host runs in, as de or pt_BR: the user's own choice, else the system's."""
    settings = QgsSettings()
    chosen = str(settings.value(LOCALE, "") or "")
    has_own = str(settings.value(HAS_OWN_LOCALE, "false")).lower() in ("true", "1")
    return chosen if has_own and chosen else QLocale.system().name()


def _stored(key: str) -> str | None:
    value = QgsSettings().value(PREFIX + key, None)
    # The host hands a text with commas back as a list.
    if isinstance(value, list):
        value = ", ".join(map(str, value))
    return None if value is None else str(value)


def _store(key: str, text: str) -> None:
    QgsSettings().setValue(PREFIX + key, text)


def _is_name(text: str) -> bool:
    return len(text) <= LONGEST_NAME and text.isprintable()


def _tell_broken(key: str, text: str, default: object) -> None:
    """That the default is taken, once for each bad value."""
    if (key, text) in _told:
        return
    _told.add((key, text))
    words = tr(
        'The setting {key} is "{value}", which cannot be used; {default} is taken. Set it in Settings, Options, '
        "Ground Tally."
    )
    sentence = words.format(key=PREFIX + key, value=text, default=default)
    QgsMessageLog.logMessage(sentence, PLUGIN, Qgis.MessageLevel.Warning)
