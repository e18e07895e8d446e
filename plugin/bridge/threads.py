# SPDX-License-Identifier: GPL-2.0-or-later
"""The host's background threads, and what Python libraries may keep in them."""

from __future__ import annotations

import ctypes
import threading

from qgis.core import QgsApplication
from qgis.PyQt.QtCore import QThreadPool

FOR_EVER = -1
_own = threading.local()


def keep_thread() -> None:
    """Let the Python state of a host's thread live as long as the thread.

    The host takes its threads from a pool and makes a Python state anew for each task. With it goes what libraries keep
    for the thread, and pyproj 3.7 then holds a PROJ context that is freed: on QGIS 3.40 the second run in one thread ended
    the host (seen). A state that is ensured once and never released stays; threads are few, and so is what stays with them.

    The thread itself must not end either: the pool lets a thread go that idled for 30 s, and with it the PROJ context that the
    host made the CRSs of the run's layers with. The next drawing of the map then ended QGIS 3.22 (seen).
    """
    for pool in (QThreadPool.globalInstance(), *_pools_of_tasks()):
        pool.setExpiryTimeout(FOR_EVER)
    if threading.current_thread() is threading.main_thread() or getattr(_own, "is_kept", False):
        return
    ctypes.pythonapi.PyGILState_Ensure()
    _own.is_kept = True


def _pools_of_tasks() -> list[QThreadPool]:
    """The pool that newer hosts have for their tasks alone."""
    own = getattr(QgsApplication.taskManager(), "threadPool", None)
    return [] if own is None else [own()]
