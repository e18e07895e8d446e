# SPDX-License-Identifier: GPL-2.0-or-later
"""Read: text and bytes of the logs and of what lies beside them -> records; nothing lost."""
