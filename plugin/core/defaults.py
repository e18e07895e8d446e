# SPDX-License-Identifier: GPL-2.0-or-later
"""What counts unless the user says otherwise, where a window shows it too: plain values, so that a window that shows
one needs no step of the work."""

from __future__ import annotations

WALKING_SPEED = 1.3
"""m/s, common practice, no source: moving time of a leg is length by this where a log has no times."""
HOLD = 1.0
"""s, common practice, no source: how long an instrument is held still at a stand. It changes no sigma."""
LEVEL_SD = 0.003
"""m, common practice, no source: one-sigma of a known level where the file does not say."""
PICK_SD = 0.05
"""m, common practice, no source: one-sigma per axis of a picked point where the control file does not say."""
JOIN_WITHIN = 0.10
"""Metres: edges farther apart than this are two, whatever they can be trusted to, unless the user says otherwise
(trade.md, GE-02)."""
PRICE_WITHIN = 0.05
"""One-sigma of a figure by the figure, common practice, no source: a phone's figure worse than this is not priced."""
LEVELS_WITHIN = 1e-3
"""Metres: points nearer to each other than this in plan are one unless told otherwise; nobody levels a millimetre apart."""
GAP_SPACINGS = 3.0
"""A place farther from every point than so many spacings of the points lies in a gap, unless told otherwise."""
CURVED_BELOW = 6.0
"""Metres of radius below which a form is a curved one (common practice, no source)."""
TREE_TIMES = 12.0
"""Radius by stem diameter, measured at 1.5 m above the ground (BS 5837:2012, from memory; 1.37 m in the US)."""
TREE_CAP = 15.0
"""Metres: the largest radius (BS 5837:2012, from memory; common practice, no source seen)."""
GROUND = "ground"
"""The surface that is meant where a row names none."""
