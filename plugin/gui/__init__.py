# SPDX-License-Identifier: GPL-2.0-or-later
"""The window's entries: labels and wiring; no arithmetic."""
