# SPDX-License-Identifier: GPL-2.0-or-later
"""Lists of single points, of whatever columns."""
