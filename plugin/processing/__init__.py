# SPDX-License-Identifier: GPL-2.0-or-later
"""The toolbox: names, labels and wiring of the algorithms; no arithmetic."""
