# SPDX-License-Identifier: GPL-2.0-or-later
"""A table of limits for the made survey, whose ground falls 1:50 with a sigma of 0.0004, so that what is allowed decides:
95 % of 1:50 is 1:48.1 to 1:52.0."""

from __future__ import annotations

OWN = """limit,applies_to,quantity,at_most,at_least,unit,source,seen_or_memory,note
Drains,fall,gradient,,60,1:n,"Office, page 3",seen,Water runs off.
"Even, or nearly",fall,gradient,50.2,,1:n,"Office, page 4",memory,
Even,fall,gradient,20,,1:n,Office,seen,
Steep,fall,gradient,,40,1:n,Town,seen,
"""
"""Of Court: passes, cannot be told, passes, fails."""
AREAS = ("Court", "Bed 1", "Old slab")
"""What has a fall; Bed 3 was kept out of the survey's figures, the hole in Bed 1 is nothing that could fall, and Kerb is a path,
which no limit is of, so that it has no row."""
