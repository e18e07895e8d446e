# SPDX-License-Identifier: GPL-2.0-or-later
"""The mathematics and the records: metres and radians; no QGIS, Qt or GDAL."""
