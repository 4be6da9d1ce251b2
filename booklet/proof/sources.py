"""Where in the spec a thing comes from that pages name by a number or a letter: a cut, a step, a piece."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property

from booklet.content.figures import NumberedLayout
from booklet.content.spans import CutRef, PieceRef, PocketRef, SheetRef, Span, StepRef
from booklet.content.ways import layout_anchor, sheet_anchor
from booklet.cutting.model import CutSheet, Piece
from booklet.kit.finding import SpecPath
from booklet.measure.dataclass import dataclass
from booklet.placing.model import PlacedLayout
from booklet.placing.resolved import ResolvedKit


@dataclass(frozen=True)
class Subject:
    """What a part of a page is about: a sheet, a layout, or neither."""

    sheet: CutSheet | None = None
    layout: PlacedLayout | None = None


@dataclass(frozen=True, eq=False)
class Sources:
    """The places of a kit's spec from which its pages take what they name.

    `printed` are the layouts as they are shown, with the printed number of each of their steps.
    """

    resolved: ResolvedKit
    printed: Sequence[NumberedLayout]

    def subject(self, anchor: str) -> Subject:
        """What a section of this anchor is about."""
        return self._subjects.get(anchor, Subject())

    def of_span(self, span: Span, subject: Subject) -> SpecPath | None:
        """Where what a span stands for comes from; None for words, and for the number of a page."""
        match span:
            case CutRef(sheet=sheet, number=number) if sheet:
                return self._cuts.get((sheet, number))
            case CutRef(number=number) | StepRef(number=number):
                return self.of_step(subject.layout, number)
            case SheetRef(sheet=sheet):
                return next(self.of_sheet(each) for each in self.resolved.sheets if each.sheet.id == sheet)
            case PieceRef(label=label):
                return self._pieces.get(label)
            case PocketRef(name=name):
                return self.of_pocket(name, subject.sheet)
            case _:
                return getattr(span, "source", None)

    def of_subject(self, subject: Subject) -> SpecPath | None:
        """The sheet or the layout."""
        if subject.layout is not None:
            return ("layouts", subject.layout.index)
        return self.of_sheet(subject.sheet) if subject.sheet is not None else None

    def of_sheet(self, sheet: CutSheet) -> SpecPath:
        """A sheet, by its place among those of the spec."""
        return ("sheets", sheet.index)

    def of_scale(self) -> SpecPath:
        """What the numerals of the trimmer's scale follow from: the trimmer, or the unit of measure."""
        return ("unit",)

    def of_step(self, layout: PlacedLayout | None, number: int) -> SpecPath | None:
        """The first step of the spec that is printed under a number; None where there is none."""
        if layout is None:
            return None
        asked = next((each for each in self.printed if each.layout == layout.index), None)
        pairs = zip(layout.steps, asked.numbers, strict=True) if asked else ()
        return next((step.path for step, printed in pairs if printed == number), None)

    def of_piece(self, sheet: CutSheet, letters: str) -> SpecPath | None:
        """A piece of a sheet, by its letters."""
        return self._pieces.get(f"{sheet.number}{letters}")

    def of_pocket(self, name: str, sheet: CutSheet | None) -> SpecPath | None:
        """Where a pocket is stated for a piece, of this sheet if there is one; else the use that needs it, or
        the layout whose pocket it is where that holds no piece.
        """
        held = [entry for entry in self.resolved.ledger.entries if entry.pocket == name]
        if sheet is not None:
            held = [entry for entry in held if entry.source == ("sheets", sheet.index)] or held
        for entry in held:
            kind, index = entry.source
            if kind == "sheets" and entry.name in self.resolved.kit.sheets[index].pockets:
                return ("sheets", index, "pockets", entry.name)
        if held:
            return held[0].use.where if held[0].use else held[0].where
        layouts = enumerate(self.resolved.kit.layouts)
        return next((("layouts", at, "pocket") for at, one in layouts if one.pocket == name), None)

    @cached_property
    def _subjects(self) -> dict[str, Subject]:
        sheets = {sheet_anchor(sheet.sheet.id): Subject(sheet=sheet) for sheet in self.resolved.sheets}
        layouts = {layout_anchor(layout.id): Subject(layout=layout) for layout in self.resolved.layouts}
        return sheets | layouts

    @cached_property
    def _cuts(self) -> dict[tuple[str, int], SpecPath]:
        found: dict[tuple[str, int], SpecPath] = {}
        for sheet in self.resolved.sheets:
            cuts = (cut for stage in sheet.stages for cut in stage.cuts)
            found |= {(sheet.sheet.id, cut.number): cut.where for cut in cuts}
            found |= {(sheet.sheet.id, work.number): work.where for work in sheet.works}
        return found

    @cached_property
    def _pieces(self) -> dict[str, SpecPath]:
        return {piece.label: piece.where for sheet in self.resolved.sheets for piece in _all_pieces(sheet)}


def _all_pieces(sheet: CutSheet) -> Iterator[Piece]:
    """Every piece that a sheet ever is in, those that are cut again among them."""
    yield from sheet.whole
    for stage in sheet.stages:
        for strip in stage.strips:
            yield from strip.pieces
    yield from sheet.pieces
