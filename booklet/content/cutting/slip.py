"""The cut slip of a stage: rows for each cut, and for what stays in the trimmer."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from booklet.content.blocks import CutSlip, SlipRow
from booklet.content.cutting.outcomes import Outcome, outcome_row, outcomes
from booklet.content.cutting.passes import Pass, passes
from booklet.content.cutting.pieces import strip_width
from booklet.content.spans import CutRef, Extent, Length, Line, Precision, Role
from booklet.content.words.language import Language
from booklet.cutting.model import Cut, CutSheet, Fate, Stage, Strip
from booklet.kit.finding import SpecPath
from booklet.measure.dataclass import dataclass, replace
from booklet.placing.resolved import ResolvedKit


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

    @property
    def after(self) -> int:
        """The number of the last cut of the stage."""
        return self.stage.cuts[-1].number

    def _outcomes(self, strip: Strip) -> Iterable[Outcome]:
        return outcomes(self.kit, self.sheet, strip.pieces, self.after)

    def _row(
        self, head: SlipRow, strip: Strip, outcome: Outcome, where: SpecPath, above: Extent | None
    ) -> tuple[SlipRow, Extent | None]:
        if outcome.fate is Fate.SCRAP:
            width = strip_width(self.kit, self.sheet, strip, where)
            return replace(head, said=self.language.cutting.scrap(width)), None
        goes_on = head.instead != () and outcome.taken is not None and outcome.taken.number == self.after + 1
        return outcome_row(self.kit, self.sheet, head, outcome, above, self.language, goes_on=goes_on)


def reading_of(kit: ResolvedKit, cut: Cut) -> Length:
    """The reading of a cut."""
    return Length(cut.reading, kit.kit.unit, Role.READING, cut.where, _precision(cut))


def _precision(cut: Cut) -> Precision:
    return Precision.ROUGH if cut.approximate else Precision.EXACT
