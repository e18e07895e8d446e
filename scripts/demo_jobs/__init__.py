# SPDX-License-Identifier: GPL-2.0-or-later
"""The demo jobs, made from a geometry that is known exactly.

They share no code with the plugin: they are the independent truth that the plugin is held against.
"""

from __future__ import annotations

from .batch import Plot, make_batch
from .faults import FAULTS, Expected, faulty_job
from .jobs import COMMITTED_SEEDS, SITES, VARIANTS, find_site, make_job
from .site import Site, Truth
from .truth import true_sizes

__all__ = [
    "COMMITTED_SEEDS",
    "FAULTS",
    "SITES",
    "VARIANTS",
    "Expected",
    "Plot",
    "Site",
    "Truth",
    "faulty_job",
    "find_site",
    "make_batch",
    "make_job",
    "true_sizes",
]
