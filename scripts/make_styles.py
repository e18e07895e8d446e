# SPDX-License-Identifier: GPL-2.0-or-later
"""Write resources/styles/*.qml from resources/palette.json.

Every meaning shows twice, in colour and in hatch, line kind or letter, so that a plan copied in black and
white still reads. Sizes are millimetres on paper, chosen for 1:200 on A3. Needs QGIS's own Python.
"""

from __future__ import annotations

import os
import re

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ["QT_HASH_SEED"] = "0"  # the order of attributes is a hash's

import style_ground
import style_survey
from qgis.core import (
    QgsAbstractVectorLayerLabeling,
    QgsApplication,
    QgsMapLayer,
    QgsPalLayerSettings,
    QgsReadWriteContext,
    QgsRuleBasedLabeling,
    QgsVectorLayer,
    QgsVectorLayerSimpleLabeling,
)
from qgis.PyQt.QtXml import QDomDocument
from style_signs import ROOT

STYLES = ROOT / "resources" / "styles"
MADE = {
    "triangles": ("PolygonZ", style_ground.triangles),
    "contours": ("LineStringZ", style_ground.contours),
    "depths": ("MultiPolygon", style_ground.depths),
    "zero_line": ("LineStringZ", style_ground.zero_line),
    "ponds": ("MultiPolygonZ", style_ground.ponds),
    "spills": ("PointZ", style_ground.spills),
    "water_ways": ("LineStringZ", style_ground.water_ways),
    "sections": ("MultiLineStringZ", style_ground.sections),
    "gradient_areas": ("PolygonZ", style_ground.gradient_areas),
    "gradient_lines": ("LineStringZ", style_ground.gradient_lines),
    "protection_circles": ("CurvePolygon", style_ground.protection_circles),
    "overlaps": ("MultiPolygon", style_ground.overlaps),
    "changed": ("MultiPolygon", style_ground.changed),
    "areas": ("CurvePolygonZ", style_survey.areas),
    "lengths": ("CompoundCurveZ", style_survey.lengths),
    "spots": ("PointZ", style_survey.spots),
    "stations": ("PointZ", style_survey.stations),
    "sides": ("CompoundCurveZ", style_survey.sides),
    "legs": ("CompoundCurveZ", style_survey.legs),
    "marks": ("PointZ", style_survey.marks),
    "finding_places": ("Point", style_survey.finding_places),
    "surfaces": ("MultiPolygonZ", style_survey.surfaces),
}


def write_style(table: str, geometry: str, make: object) -> None:
    """One .qml: symbols and labels only, so that it fits a layer whatever columns were added."""
    layer = QgsVectorLayer(f"{geometry}?crs=EPSG:25831", table, "memory")
    renderer, labelling = make()
    layer.setRenderer(renderer)
    layer.setLabeling(labelling_of(labelling))
    layer.setLabelsEnabled(True)
    document = QDomDocument()
    parts = QgsMapLayer.StyleCategory
    context = QgsReadWriteContext()  # kept in a name: the host holds only its address
    layer.exportNamedStyle(document, context, QgsMapLayer.StyleCategories(parts.Symbology | parts.Labeling))
    (STYLES / f"{table}.qml").write_text(steady(document.toString(1)), encoding="utf-8")


def labelling_of(made: QgsPalLayerSettings | list) -> QgsAbstractVectorLayerLabeling:
    """One kind of label, or several by the rows that have them."""
    if isinstance(made, QgsPalLayerSettings):
        return QgsVectorLayerSimpleLabeling(made)
    root = QgsRuleBasedLabeling.Rule(None)
    root.setRuleKey("root")
    for number, (wanted, settings) in enumerate(made):
        rule = QgsRuleBasedLabeling.Rule(settings, 0, 0, wanted)
        rule.setRuleKey(f"rule-{number}")
        root.appendChild(rule)
    return QgsRuleBasedLabeling(root)


def steady(text: str) -> str:
    """The style without what changes from run to run: generated ids, and the order of attributes."""
    text = re.sub(r"\n\s*<prop [^>]*/>", "", text)  # doubles of <Option>, for hosts older than ours
    text = re.sub(r'\n\s*<Option [^>]*value="3x:0,0,0,0,0,0"[^>]*/>', "", text)  # the default
    text = re.sub(r"\{[0-9a-f]{8}-[0-9a-f-]{27}\}", "", text)
    return re.sub(r"<([\w-]+)((?: [\w:-]+=\"[^\"]*\")+)", _sorted_attributes, text)


def _sorted_attributes(tag: re.Match) -> str:
    return f"<{tag[1]} " + " ".join(sorted(re.findall(r"[\w:-]+=\"[^\"]*\"", tag[2])))


def main() -> None:
    """Write all styles."""
    application = QgsApplication([], False)
    application.initQgis()
    STYLES.mkdir(parents=True, exist_ok=True)
    for table, (geometry, make) in MADE.items():
        write_style(table, geometry, make)
    application.exitQgis()


if __name__ == "__main__":
    main()
