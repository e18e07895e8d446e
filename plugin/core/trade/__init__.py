# SPDX-License-Identifier: GPL-2.0-or-later
"""Quantities of the trade: faces, strips, walls, slabs, trees and planting."""
