# SPDX-License-Identifier: GPL-2.0-or-later
"""QGIS and GDAL objects <-> core objects, nothing else."""
