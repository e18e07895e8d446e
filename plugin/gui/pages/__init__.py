# SPDX-License-Identifier: GPL-2.0-or-later
"""The forms that the dock's rows open."""
