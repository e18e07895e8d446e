# SPDX-License-Identifier: GPL-2.0-or-later
"""The figures of the window: what they show comes ready from the bridge, here it is drawn."""
