# SPDX-License-Identifier: GPL-2.0-or-later
"""Features to quantities, each with its uncertainty."""
