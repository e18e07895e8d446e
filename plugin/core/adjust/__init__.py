# SPDX-License-Identifier: GPL-2.0-or-later
"""Walks to one survey plane, tested before anything is spread."""
