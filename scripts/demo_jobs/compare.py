# SPDX-License-Identifier: GPL-2.0-or-later
"""The tool's figures beside the true ones, whether they come from the core's records or from a GeoPackage."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from .site import Truth

Key = tuple[str, str, str, str, int]
"""Table, feature, part, column, and the number of the side as walked (0 elsewhere)."""
COVER_95 = 1.959964


@dataclass(frozen=True)
class Found:
    """A figure of the tool: its value and one-sigma (None where it carries none)."""

    value: float
    sigma: float | None


@dataclass(frozen=True)
class Compared:
    """One figure beside its truth. A figure that should be there and is not has no `found`."""

    truth: Truth
    found: Found | None

    @property
    def error(self) -> float:
        """Found less true; an angle the short way round."""
        assert self.found is not None  # noqa: S101
        error = self.found.value - self.truth.value
        return (error + 180.0) % 360.0 - 180.0 if self.truth.column.endswith("_deg") else error

    @property
    def ratio(self) -> float | None:
        """Error over sigma, None where the figure carries no sigma."""
        if self.found is None or not self.found.sigma:
            return None
        return self.error / self.found.sigma

    @property
    def is_covered(self) -> bool | None:
        """Whether the stated 95 % interval holds the truth."""
        return None if self.ratio is None else abs(self.ratio) < COVER_95


OWN = ("areas", "lengths", "spots", "sides", "marks")
"""The survey's own tables."""


def compare(
    truths: Iterable[Truth], figures: Mapping[Key, Found], tables: Iterable[str] = OWN
) -> list[Compared]:
    """Each true size that some tables hold, beside what the tool found."""
    own = (t for t in truths if t.table in tables)
    return [Compared(t, figures.get((t.table, t.feature, t.part, t.column, t.side))) for t in own]


def figures_of_rows(tables: Mapping[str, Iterable[Mapping[str, object]]]) -> dict[Key, Found]:
    """Figures by key from table rows (column name -> value), as a GeoPackage holds them."""
    out: dict[Key, Found] = {}
    seen: dict[tuple[str, str], int] = {}
    for table, rows in tables.items():
        for row in rows:
            name = str(row["mark"] if table == "marks" else row["feature"])
            part = "" if table == "marks" else str(row["part"] or "")
            side = 0
            if table == "sides":
                seen[name, part] = side = seen.get((name, part), 0) + 1
            for column, value in row.items():
                if isinstance(value, float) and math.isfinite(value) and not column.endswith("_sigma"):
                    sigma = row.get(f"{column}_sigma")
                    out[table, name, part, column, side] = Found(
                        value, float(sigma) if isinstance(sigma, float) else None
                    )
    return out


COLUMNS = {
    "areas": {
        "area": "area_m2",
        "sloped_area": "sloped_area_m2",
        "perimeter": "perimeter_m",
        "fall": "fall_ratio",
        "fall_bearing": "fall_bearing_deg",
    },
    "lengths": {
        "length": "length_m",
        "slope_length": "slope_length_m",
        "rise": "rise_m",
        "gradient": "gradient_ratio",
    },
    "spots": {"height": "height_m"},
    "sides": {"length": "length_m", "radius": "radius_m"},
}
"""Fields of the core's rows by table, and the columns they become."""


def tables_of(survey: object) -> dict[str, list[dict[str, object]]]:
    """The core's survey as table rows, as far as true sizes are compared."""
    tables = {}
    for table, columns in COLUMNS.items():
        tables[table] = [_cells(row, columns) for row in getattr(survey, table)]
    for cells, row in zip(tables["sides"], survey.sides):  # type: ignore[attr-defined]
        if row.sweep is not None:
            cells["sweep_deg"] = math.degrees(row.sweep.value)
            cells["sweep_deg_sigma"] = math.degrees(row.sweep.sigma)
    tables["marks"] = [_mark_cells(survey, row) for row in survey.marks]  # type: ignore[attr-defined]
    return tables


def _mark_cells(survey: object, row: object) -> dict[str, object]:
    cells = {"mark": row.mark, "z_m": row.point[2], "z_m_sigma": row.z_sigma}  # type: ignore[attr-defined]
    plane = survey.plane  # type: ignore[attr-defined]
    if plane is not None:
        east, north = plane.to_crs(np.array([row.point[:2]]))[0]  # type: ignore[attr-defined]
        cells.update(map_x=float(east), map_y=float(north))
    return cells


def _cells(row: object, columns: Mapping[str, str]) -> dict[str, object]:
    tags = row.tags  # type: ignore[attr-defined]
    cells: dict[str, object] = {"feature": tags.feature, "part": tags.part}
    for field, column in columns.items():
        figure = getattr(row, field)
        if hasattr(figure, "sigma"):
            cells[column], cells[f"{column}_sigma"] = float(figure.value), float(figure.sigma)
        else:
            cells[column] = figure
    return cells
