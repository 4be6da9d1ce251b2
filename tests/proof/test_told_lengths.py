"""A length in a tip or a sentence of the designer's that is the length of nothing is worth a look."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from booklet.kit.finding import Finding, Severity
from booklet.measure.length import Unit
from booklet.proof.findings import kit_findings
from tests.drawing.looks import resolved_kit
from tests.kits import cut, make_kit, sheet

# A sheet 12 x 12 cut at 9 and 2 1/2: strips of 2 1/2, 6 1/2 and 3; the panel is 6 1/2 x 8.
CUTS = [
    cut([9, "2 1/2"], ["strip", "middle", "wide strip"]),
    cut(8, ["panel", "scrap"], take="middle", turn="clockwise"),
]


def findings(sheet_tip: str = "", unit: Unit = Unit.INCH, **told: str) -> list[Finding]:
    """What is said of a kit with a tip on its sheet, and words on the step that lays its panel."""
    tip = {"tip": sheet_tip} if sheet_tip else {}
    place = {"place": "panel", "left": "2 3/4", "top": "1 7/8", **told}
    steps: list[dict[str, Any]] = [place, {"place": "strip", "left": 0, "top": 0}]
    steps.append({"place": "wide strip", "right": 0, "top": 0})
    layouts = [{"id": "ebb", "pocket": 1, "base": "base", "steps": steps}]
    sheets = [sheet(id="base"), sheet(*CUTS, id="cut sheet", **tip)]
    kit = make_kit(*sheets, layouts=layouts, unit=unit, sheet="12 x 12")
    return [one for one in kit_findings(resolved_kit(kit, Path())) if one.id == "length-of-nothing"]


@pytest.mark.parametrize(
    "words",
    [
        "Its upper edge lies 1 7/8 in down.",
        "The panel is 6 1/2 in wide",
        'It is 8" high, or 6½ in the other way.',
        "Beside it 3 in are left.",
        # 12 - 2 3/4 - 6 1/2 and 12 - 1 7/8 - 8.
        "2-3/4 in are left at its right, 2.125 in below it.",
        # The same in another unit: 6 1/2 in.
        "Measure 165.1 mm.",
        # No lengths.
        "Put 5 in each corner, 7 in a row, 1/16 of it in all.",
        "Print no. 5; 5/0 in is nothing.",
    ],
)
def test_what_the_kit_has_is_not_noted(words: str) -> None:
    assert findings(say=words) == findings(sheet_tip=words) == []


@pytest.mark.parametrize(
    ("words", "typed"),
    [
        ("Its upper edge lies 1 5/8 in down.", "1 5/8 in"),
        ("Beside it 3.5 in are left.", "3.5 in"),
        ("It stands 5 in from the left.", "5 in"),
        ("Measure 165.2 mm.", "165.2 mm"),
        ('A border of 1/16" looks well.', '1/16"'),
        ("Leave ⅜ in free.", "⅜ in"),
    ],
)
def test_what_the_kit_has_not_is_noted_where_it_is_said(words: str, typed: str) -> None:
    (told,) = findings(say=words)
    assert told.severity is Severity.NOTE
    assert told.where == ("layouts", 0, "steps", 0, "say")
    assert typed in told.found
    (told,) = findings(sheet_tip=words)
    assert told.where == ("sheets", 1, "tip")


def test_a_length_is_compared_in_the_kits_own_unit() -> None:
    assert findings(unit=Unit.CENTIMETRE, tip="Leave 27.5 mm at its right.") == []
    assert len(findings(unit=Unit.CENTIMETRE, tip="Leave 27.5 cm at its right.")) == 1
