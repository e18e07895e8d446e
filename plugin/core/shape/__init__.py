# SPDX-License-Identifier: GPL-2.0-or-later
"""Stations and legs to features of straights and arcs."""
