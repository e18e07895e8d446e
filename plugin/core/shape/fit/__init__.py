# SPDX-License-Identifier: GPL-2.0-or-later
"""The straights and tangent arcs of an edge that was walked point by point."""
