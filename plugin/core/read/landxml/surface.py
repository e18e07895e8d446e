# SPDX-License-Identifier: GPL-2.0-or-later
"""Surfaces of triangles in LandXML -> TriangleSurface."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ...quantity import Floats, Ints
from ...surface import TriangleSurface
from ..cells import LARGEST_LENGTH
from ..faults import Fault
from ..xml_text import Element, Leaves
from .faults import (
    BAD_EDGES,
    BAD_FACES,
    BAD_SURFACE_POINTS,
    IS_CUT,
    POINT_IDS_AGAIN,
    SAME_TRIANGLES,
    Bad,
    Told,
)
from .frame import Frame
from .points import read_list, read_number

LEAVES = {"P": ("id",), "F": ("i",)}
"""What is kept of a surface's points and faces besides their texts."""
AREA_PLAY = 1e-3
"""Part of a surface's area by which the stated one may differ."""
BATCH = 100_000
"""Texts that are turned into numbers at once."""
_INVISIBLE = ("1", "true")
_NOT_READ = ("Contours", "DataPoints", "PointFiles", "Chain", "RetWall")


@dataclass(frozen=True, eq=False)
class _Points:
    """(n, 3) east, north, height in the file's units of the points that can be read, and their rows by id."""

    at: Floats
    rows: dict[str, int]


def read_surface(element: Element, frame: Frame, told: Told) -> TriangleSurface | None:
    """The surface of an element Surface; None where it has no triangles that can be read, which is told."""
    name = element.attributes.get("name", "").strip()
    if not element.is_whole:
        told.bad(Bad(IS_CUT, element.line, {"element": element.name}), feature=name)
        return None
    definition = element.child("Definition")
    kind = definition.attributes.get("surfType", "TIN").strip().upper() if definition else ""
    if definition is None or kind != "TIN":
        told.note(
            "{file}, line {line}: the surface {name} is not read: it has no triangles but {kind}.",
            element.line,
            "Write it as a TIN: its points and faces.",
            name=name, kind=kind or "its sources alone",
        )  # fmt: skip
        return None
    points = _read_points(_gathered(definition, "P"), name, frame, told)
    triangles = _read_faces(_gathered(definition, "F"), points, name, told)
    triangles = _turned(triangles, points.at, name, element.line, told)
    if not len(triangles):
        told.note(
            "{file}, line {line}: the surface {name} is not read: no face of it can be used.",
            element.line, "Give it points and faces.", name=name,
        )  # fmt: skip
        return None
    _compare_area(definition, points.at, triangles, frame, told)
    return _with_edges(element, (name, told.file, points.at, triangles), frame, told)


def _compare_area(definition: Element, at: Floats, triangles: Ints, frame: Frame, told: Told) -> None:
    """Note where the area in plan that the file states is not that of its triangles."""
    stated = read_number(definition.attributes.get("area2DSurf", "").strip() or "_")
    if stated is None or not frame.has_own_area:
        return
    a, b, c = (at[triangles[:, k], :2] for k in range(3))
    area = (
        float(((b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])).sum())
        / 2
    )
    if not abs(area - stated) <= AREA_PLAY * area:
        told.note(
            "{file}, line {line}: the surface is said to cover {stated:.10g} in plan; its triangles cover {area:.10g} "
            "(in the square of the file's unit of length).",
            definition.line, "Look whether triangles are missing, hidden or doubled.", stated=stated, area=area,
        )  # fmt: skip


def _with_edges(
    element: Element, parts: tuple[str, str, Floats, Ints], frame: Frame, told: Told
) -> TriangleSurface:
    """The surface with its breaklines and boundaries."""
    name, file, at, triangles = parts
    sources = element.child("SourceData")
    edges: dict[str, list[Floats]] = {"Breakline": [], "outer": [], "void": []}
    unread = {child.name: child.line for child in _below(sources, _NOT_READ)}
    for child in _below(sources, ("Breakline", "Boundary")):
        kind = child.attributes.get("bndType", "").strip().lower() if child.name == "Boundary" else child.name
        if kind not in edges or (kind == "outer" and edges["outer"]):
            unread.setdefault(f"Boundary {kind}".strip(), child.line)
            continue
        edges[kind] += [_placed(row, frame) for row in _read_edges(child, name, frame, told)]
    if unread:
        told.note(
            "{file}, from line {line} on: of the surface {name} is not read: {names}.",
            min(unread.values()), name=name, names=", ".join(unread),
        )  # fmt: skip
    return TriangleSurface(
        name,
        file,
        _placed(at, frame),
        _frozen(triangles),
        crs=frame.keys.crs,
        breaklines=tuple(edges["Breakline"]),
        boundary=edges["outer"][0] if edges["outer"] else None,
        voids=tuple(edges["void"]),
    )


def _below(sources: Element | None, names: Sequence[str]) -> list[Element]:
    """Elements of some names in SourceData or in the groups there."""
    groups = sources.children if sources else ()
    both = [one for group in groups for one in (group, *group.children)]
    return [element for element in both if element.name in names]


def _read_edges(element: Element, name: str, frame: Frame, told: Told) -> list[Floats]:
    """(k, 3) of each list of points in a breakline or boundary."""
    found: list[Floats] = []
    lists = [child for child in element.children if child.name in ("PntList2D", "PntList3D")]
    for child in lists:
        rows = read_list(child, 3 if child.name == "PntList3D" else 2, frame)
        if isinstance(rows, Bad):
            cell = " ".join(child.text.split(None, 3)[:3])
            told.bad(Bad(BAD_EDGES, child.line, {"element": element.name, "cell": cell}), feature=name)
        else:
            found.append(rows)
    return found


def _placed(at: Floats, frame: Frame) -> Floats:
    return _frozen(np.column_stack([at[:, :2] * frame.plan, at[:, 2] * frame.height_m]))


def _frozen(values: np.ndarray) -> np.ndarray:  # type: ignore[type-arg]  # of floats or whole numbers
    values.setflags(write=False)
    return values


def _gathered(definition: Element, name: str) -> list[Leaves]:
    """The columns of P or F, wherever below the definition they stand."""
    found = [definition.leaves[name]] if name in definition.leaves else []
    for child in definition.children:
        found += _gathered(child, name)
    return found


def _read_points(groups: Sequence[Leaves], name: str, frame: Frame, told: Told) -> _Points:
    parts: list[Floats] = [np.empty((0, 3))]
    rows: dict[str, int] = {}
    wrong: list[tuple[int, str]] = []
    again: list[tuple[int, str]] = []
    count = 0
    for group in groups:
        ids = group.attributes["id"]
        for start in range(0, len(group.text), BATCH):
            texts = group.text[start : start + BATCH]
            at = _numbers(texts)
            good = _is_usable(at, frame)
            wrong += [(group.line[start + k], texts[k]) for k in np.flatnonzero(~good).tolist()]
            parts.append(at[good])
            for k in np.flatnonzero(good).tolist():
                row = rows.setdefault(ids[start + k].strip(), count)
                if row != count and ids[start + k]:
                    again.append((group.line[start + k], ids[start + k]))
                count += 1
    north_east = np.concatenate(parts)
    at = north_east[:, [1, 0, 2]]
    rows.pop("", None)
    _tell_many(BAD_SURFACE_POINTS, wrong, name, told)
    _tell_many(POINT_IDS_AGAIN, again, name, told)
    return _Points(at, rows)


def _is_usable(at: Floats, frame: Frame) -> np.ndarray:  # type: ignore[type-arg]  # of flags
    size = np.abs(at) * (frame.unit_m, frame.unit_m, frame.height_m)
    return np.asarray((size <= LARGEST_LENGTH).all(axis=1))


def _numbers(texts: Sequence[str]) -> Floats:
    """(n, 3) numbers of texts; a text that is not three numbers gives NaN."""
    words = [text.split(None, 4) for text in texts]
    if all(len(row) == 3 for row in words) and not any("_" in text for text in texts):
        try:
            return np.array(words, dtype=float).reshape(-1, 3)
        except ValueError:
            pass
    rows = [[read_number(word) for word in row] for row in words]
    return np.array([row if len(row) == 3 and None not in row else [np.nan] * 3 for row in rows], dtype=float)


def _tell_many(fault: Fault, found: Sequence[tuple[int, str]], name: str, told: Told) -> None:
    """One finding for all: how many, the first line, and what stands there."""
    if found:
        line, cell = found[0]
        data = {"count": len(found), "cell": " ".join(cell.split())}
        told.bad(Bad(fault, line, data), feature=name)


def _read_faces(groups: Sequence[Leaves], points: _Points, name: str, told: Told) -> Ints:
    """(m, 3) rows of the points; invisible faces are left out, and those that name no three points."""
    parts: list[Ints] = [np.empty((0, 3), dtype=np.int64)]
    wrong: list[tuple[int, str]] = []
    for group in groups:
        for start in range(0, len(group.text), BATCH):
            hidden = [
                cell.strip().lower() in _INVISIBLE for cell in group.attributes["i"][start : start + BATCH]
            ]
            texts = group.text[start : start + BATCH]
            rows = _rows_of(texts, points.rows)
            bad = (rows < 0).any(axis=1) & ~np.array(hidden, dtype=bool)
            wrong += [(group.line[start + k], texts[k]) for k in np.flatnonzero(bad).tolist()]
            parts.append(rows[~bad & ~np.array(hidden, dtype=bool)])
    _tell_many(BAD_FACES, wrong, name, told)
    return np.concatenate(parts)


def _rows_of(texts: Sequence[str], rows: dict[str, int]) -> Ints:
    """(n, 3) rows of the ids in texts; -1 where there is no such id, or not three of them."""
    find = rows.get
    words = [text.split(None, 4) for text in texts]
    found = [[find(word, -1) for word in row] if len(row) == 3 else [-1, -1, -1] for row in words]
    return np.array(found, dtype=np.int64).reshape(-1, 3)


def _turned(triangles: Ints, at: Floats, name: str, line: int, told: Told) -> Ints:
    """The triangles anticlockwise in plan, each once; those without an area in plan are left out."""
    a, b, c = (at[triangles[:, k], :2] for k in range(3))
    doubled: Floats = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    turned: Ints = np.where((doubled < 0)[:, None], triangles[:, [0, 2, 1]], triangles)[doubled != 0]
    flat, clockwise = np.count_nonzero(doubled == 0), np.count_nonzero(doubled < 0)
    if flat:
        told.note(
            "{file}, line {line}: faces of the surface {name} without an area in plan, which are left out: {count}.",
            line, name=name, count=flat,
        )  # fmt: skip
    if clockwise:
        told.note(
            "{file}, line {line}: faces of the surface {name} that ran clockwise and were turned: {count}.",
            line, name=name, count=clockwise,
        )  # fmt: skip
    first = _first_of_each(turned)
    if len(first) < len(turned):
        told.bad(Bad(SAME_TRIANGLES, line, {"count": len(turned) - len(first)}), feature=name)
    return turned[first]


def _first_of_each(triangles: Ints) -> Ints:
    """Numbers, in order, of the first triangle of each three points."""
    points = np.sort(triangles, axis=1)
    order = np.lexsort((np.arange(len(points)), points[:, 2], points[:, 1], points[:, 0]))
    is_new = np.ones(len(points), dtype=bool)
    is_new[1:] = (points[order][1:] != points[order][:-1]).any(axis=1)
    kept: Ints = np.sort(order[is_new])
    return kept
