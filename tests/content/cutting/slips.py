"""Kits of a sheet or two for the cutting pages, and their slips as short lines of text."""

from __future__ import annotations

from typing import Any

from booklet.content.blocks import CutStage, IfRoom, Section, SlipRow
from booklet.content.cutting.sheets import sheet_sections
from booklet.content.spans import CutRef, Line, PieceRef, length_text, plain_text
from booklet.content.words.language import ENGLISH
from booklet.placing.resolved import ResolvedKit
from tests.drawing.looks import resolved_kit
from tests.kits import Data, layout, make_kit

PAPERS: Data = {
    "plain": {"front": {"colours": ["#efe3cf"]}, "back": {"colours": ["#efe3cf"]}},
    "waves": {"front": {"pattern": "waves"}, "edges": {"left": "wave border"}},
    "leaves": {"front": {"pattern": "leaves"}},
    "stripes": {"front": {"pattern": "stripes"}},
    "stars": {"front": {"pattern": "stars"}},
    "double": {"front": {"pattern": "waves"}, "back": {"pattern": "stripes"}},
    "dots": {"front": {"pattern": "dots"}},
    "bordered": {"front": {"pattern": "dots", "borders": [{"edge": "top", "width": 1, "colour": "#aa3311"}]}},
}


def resolved(*sheets: Data, base: str = "one", places: tuple[str, ...] = (), **more: Any) -> ResolvedKit:
    """A kit of these sheets with one layout, which takes these pieces to pocket 4."""
    layouts = [layout(base, *places, pocket=4)]
    return resolved_kit(make_kit(*sheets, **{"papers": PAPERS, "layouts": layouts} | more))


def section_of(kit: ResolvedKit, sheet: int = 0) -> Section:
    """The section of a sheet, by its place in cutting order."""
    return sheet_sections(kit, ENGLISH)[sheet]


def stages_of(section: Section) -> list[CutStage]:
    """The stages of a section, in order."""
    return [block for block in section.blocks if isinstance(block, CutStage)]


def optional_of(section: Section) -> list[IfRoom]:
    """What stands at a section's end where there is room."""
    return [block for block in section.blocks if isinstance(block, IfRoom)]


def slip(kit: ResolvedKit, stage: int = 0, sheet: int = 0) -> list[str]:
    """The rows of a stage: `1 8 | C three, 4 × 12 | 4 tick`."""
    return [row_text(row) for row in stages_of(section_of(kit, sheet))[stage].slip.rows]


def row_text(row: SlipRow) -> str:
    """A row as a line of text."""
    cut = f"{row.cut.number} " if row.cut else ""
    reading = length_text(row.reading) if row.reading else plain_text(row.instead)
    pocket = row.pocket.name if row.pocket else ""
    end = " ".join(part for part in (pocket, "tick" if row.is_tick else "") if part)
    told = " ".join(plain_text(said) for said in (row.before, row.said) if said)
    said = told.replace("\u00a0", " ")
    return " | ".join(part for part in (f"{cut}{reading}".replace("\u00a0", " "), said, end) if part)


def headings(kit: ResolvedKit, sheet: int = 0) -> list[str]:
    """The headings of a sheet's stages."""
    return [plain_text(stage.heading) for stage in stages_of(section_of(kit, sheet))]


def letters_in(said: Line) -> list[str]:
    """The labels of the pieces that a line names."""
    return [span.label for span in said if isinstance(span, PieceRef)]


def cuts_in(said: Line) -> list[int]:
    """The cuts that a line refers to."""
    return [span.number for span in said if isinstance(span, CutRef)]
