# SPDX-License-Identifier: GPL-2.0-or-later
"""What the algorithms do when they are started, each in a file of its name; nothing of it is imported before."""
