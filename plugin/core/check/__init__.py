# SPDX-License-Identifier: GPL-2.0-or-later
"""What the walks themselves show before anything is adjusted."""
