# SPDX-License-Identifier: GPL-2.0-or-later
"""Forecast: walks that are only planned, surveyed without error, for the sigmas that the real ones will have."""
