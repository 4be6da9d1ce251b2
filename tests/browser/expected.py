"""The way through a kit as its content has it: what a companion must show, in order."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.content.blocks import CutStage, Document, PaperEdge, PocketEdge, SlipRow, StepList
from booklet.content.spans import Length


def cut_stages(document: Document) -> Iterator[CutStage]:
    for section in document.sections:
        if isinstance(section.edge, PaperEdge):
            yield from (block for block in section.blocks if isinstance(block, CutStage))


def cutting_keys(document: Document) -> list[str]:
    """A card for each sheet, each take, each cut and what is done by hand; then the end."""
    keys = []
    for section in document.sections:
        if not isinstance(section.edge, PaperEdge):
            continue
        keys.append(section.anchor)
        for stage in (block for block in section.blocks if isinstance(block, CutStage)):
            if stage.heading:
                keys.append(stage.anchor)
            keys += [f"{stage.anchor}/{row.cut.number}" for row in stage.slip.rows if row.cut]
            if stage.work:
                keys.append(f"{stage.anchor}/work")
    return [*keys, "all-cut"]


def page_keys(document: Document) -> list[str]:
    """A card for each layout and for each of its steps; then the end."""
    keys = []
    for section in document.sections:
        if isinstance(section.edge, PocketEdge):
            keys.append(section.anchor)
            steps = (step for block in section.blocks if isinstance(block, StepList) for step in block.steps)
            keys += [f"{section.anchor}/{step.number}" for step in steps]
    return [*keys, "all-made"]


def cuts(document: Document) -> dict[str, SlipRow]:
    """The row of each cut, by the key of its card."""
    return {
        f"{stage.anchor}/{row.cut.number}": row
        for stage in cut_stages(document)
        for row in stage.slip.rows
        if row.cut is not None
    }


def readings(document: Document) -> dict[str, Length]:
    return {key: row.reading for key, row in cuts(document).items() if row.reading is not None}
