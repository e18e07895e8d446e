# SPDX-License-Identifier: GPL-2.0-or-later
"""Edges and ground that two features may share."""
