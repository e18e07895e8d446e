# SPDX-License-Identifier: GPL-2.0-or-later
"""Ground surfaces: made of measured points and breaklines, cut, and held against each other."""
