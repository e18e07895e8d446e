# SPDX-License-Identifier: GPL-2.0-or-later
"""What satellite receivers record: NMEA 0183 and GPX."""
