# SPDX-License-Identifier: GPL-2.0-or-later
"""LandXML: points, parcels, plan features, alignments and surfaces."""
