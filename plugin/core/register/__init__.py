# SPDX-License-Identifier: GPL-2.0-or-later
"""Placed and measured sites in the register, and one survey held against another."""
