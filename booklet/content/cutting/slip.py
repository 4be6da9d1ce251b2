"""The cut slip of a stage: rows for each cut, and for what stays in the trimmer."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from booklet.content.blocks import CutSlip, SlipRow
from booklet.content.cutting.passes import Pass, passes
from booklet.content.cutting.pieces import (
    cut_piece_name,
    next_cut,
    piece_refs,
    piece_size,
    pocket_of,
    stage_taking,
    strip_width,
)
from booklet.content.spans import CutRef, Extent, Length, Line, PocketRef, Precision, Role
from booklet.content.words.language import Language
from booklet.cutting.model import Cut, CutSheet, Fate, Piece, Stage, Strip
from booklet.kit.finding import SpecPath
from booklet.placing.resolved import ResolvedKit


@dataclass(frozen=True)
class _Outcome:
    """Pieces of one strip of which one row tells: of one name, filed in one pocket or taken by one cut."""

    pieces: tuple[Piece, ...]
    fate: Fate
    pocket: PocketRef | None
    taken: Stage | None


def cut_slip(kit: ResolvedKit, sheet: CutSheet, stage: Stage, language: Language) -> CutSlip:
    """What a hand does and gets in a stage, row by row.

    The size of a piece is said unless the row above says the same.
    """
    slip = _Slip(kit, sheet, stage, language)
    rows: list[SlipRow] = []
    above: Extent | None = None
    for one in passes(stage):
        for row, size in slip.rows(one, above):
            rows.append(row)
            above = size
    return CutSlip(language.cutting.slip_heads, tuple(rows))


@dataclass(frozen=True)
class _Slip:
    """What all rows of a slip need."""

    kit: ResolvedKit
    sheet: CutSheet
    stage: Stage
    language: Language

    def rows(self, one: Pass, above: Extent | None) -> Iterator[tuple[SlipRow, Extent | None]]:
        """The rows of one pass, each with the size that a reader finds in it or just above it."""
        cut = CutRef(self.sheet.sheet.id, one.cut.number)
        head = SlipRow(cut, reading_of(self.kit, one.cut), (), before=self._lay_again(one))
        if not one.off:
            yield replace(head, said=self.language.cutting.both_stay), None
        for strip in one.off:
            for outcome in self._outcomes(strip):
                row, above = self._row(head, strip, outcome, one.cut.where, above)
                yield row, above
                head = SlipRow(None, None, ())
        if one.stays is not None:
            head = SlipRow(None, None, (), instead=self.language.cutting.stays)
            for outcome in self._outcomes(one.stays):
                row, above = self._row(head, one.stays, outcome, one.cut.where, above)
                yield row, above
                head = SlipRow(None, None, ())

    def _lay_again(self, one: Pass) -> Line:
        """Where the edge that was cut is laid, once the edge at the stop is cut off."""
        if one.low_cut is None:
            return ()
        low = Length(
            one.low,
            self.kit.kit.unit,
            Role.DISTANCE,
            one.low_cut.where,
            _precision(one.low_cut),
            with_unit=True,
        )
        return self.language.cutting.lay_cut_edge(low)

    def _outcomes(self, strip: Strip) -> Iterable[_Outcome]:
        groups: dict[object, _Outcome] = {}
        for piece in strip.pieces:
            taken = stage_taking(self.sheet, piece)
            pocket = pocket_of(self.kit, piece) if piece.fate is Fate.KEPT else None
            key = (piece.fate, taken.number) if taken else (piece.fate, piece.name, piece.size, pocket)
            known = groups.get(key, _Outcome((), piece.fate, pocket, taken))
            groups[key] = replace(known, pieces=(*known.pieces, piece))
        return groups.values()

    def _row(
        self, head: SlipRow, strip: Strip, outcome: _Outcome, where: SpecPath, above: Extent | None
    ) -> tuple[SlipRow, Extent | None]:
        words, first = self.language.cutting, outcome.pieces[0]
        if outcome.fate is Fate.SCRAP:
            return replace(head, said=words.scrap(strip_width(self.kit, self.sheet, strip, where))), None
        letters = piece_refs(outcome.pieces)
        if outcome.taken is not None:
            cut = next_cut(self.sheet, outcome.taken)
            goes_on = head.instead != () and outcome.taken.number == self.stage.number + 1
            return replace(head, said=(words.go_on if goes_on else words.set_aside)(letters, cut)), None
        name, size = cut_piece_name(self.sheet, first), piece_size(self.kit, self.sheet, first)
        shown = size if above is None or above.size != size.size else None
        if outcome.fate is Fate.SPARE:
            return replace(head, said=words.spare(letters, name, shown)), size
        said = words.kept(letters, name, shown)
        return replace(head, said=said, pocket=outcome.pocket, is_tick=True), size


def reading_of(kit: ResolvedKit, cut: Cut) -> Length:
    """The reading of a cut."""
    return Length(cut.reading, kit.kit.unit, Role.READING, cut.where, _precision(cut))


def _precision(cut: Cut) -> Precision:
    return Precision.ROUGH if cut.approximate else Precision.EXACT
