# SPDX-License-Identifier: GPL-2.0-or-later
"""Libraries that keep something for a thread, in the host's own threads."""

from __future__ import annotations

import threading

import pyproj
from qgis.core import QgsApplication, QgsTask
from qgis.PyQt.QtCore import QThreadPool

from plugin.bridge.threads import keep_thread


def test_pyproj_can_be_used_in_one_task_after_the_other(qgis_app, qtbot):
    """On QGIS 3.40 with pyproj 3.7 the second task in one thread ended the host."""

    def place():
        way = pyproj.Transformer.from_crs(pyproj.CRS("EPSG:25831"), "EPSG:4326", always_xy=True)
        return way.transform(500000.0, 5600000.0)

    def work(_task):
        keep_thread()
        return place()

    expected = place()
    for _ in range(6):
        done = []
        task = QgsTask.fromFunction(
            "work", work, on_finished=lambda error, result=None, done=done: done.append((error, result))
        )
        QgsApplication.taskManager().addTask(task)
        qtbot.waitUntil(lambda done=done: bool(done), timeout=20_000)
        assert done == [(None, expected)]


def test_the_main_thread_is_left_alone():
    keep_thread()
    assert threading.current_thread() is threading.main_thread()


def test_a_pooled_thread_stays_when_it_has_nothing_to_do():
    """With it went the PROJ context of the CRSs that it had made, and the host at the next drawing of the map."""
    pool = QThreadPool.globalInstance()
    pool.setExpiryTimeout(30_000)  # as Qt has it
    keep_thread()
    assert pool.expiryTimeout() == -1
