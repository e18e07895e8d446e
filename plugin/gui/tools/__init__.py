# SPDX-License-Identifier: GPL-2.0-or-later
"""The tools that work on the map."""
