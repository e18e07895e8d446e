# SPDX-License-Identifier: GPL-2.0-or-later
"""Outlines and lines of any layer, measured true to the ground, thousands at a time."""
