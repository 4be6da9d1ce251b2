"""How to read the pages: every sign of the figures that this kit has, with its meaning."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from booklet.content.assembly.section import laying_line
from booklet.content.blocks import Arrangement, Column, Paragraph, Picture, Row, Section, Table
from booklet.content.cutting.labels import lettered
from booklet.content.cutting.lens import near_cuts
from booklet.content.cutting.sheets import cut_sheets
from booklet.content.figures import Sign, SignFigure
from booklet.content.spans import Length, Line, Role
from booklet.content.words.language import Language
from booklet.cutting.model import CutSheet, Fate, Stage
from booklet.kit.kit import trimmer_limits
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.placing.resolved import ResolvedKit

# Round lengths to explain a sign by: they follow from nothing in the spec but its unit.
_TYPICAL = {Unit.INCH: Fraction(3), Unit.CENTIMETRE: Fraction(10), Unit.MILLIMETRE: Fraction(100)}


def how_to_read_section(kit: ResolvedKit, language: Language) -> Section:
    """The signs in the order in which a reader meets them, on one page."""
    words, sheets = language.cutting, cut_sheets(kit)
    unit = kit.kit.unit
    typical = Length(_TYPICAL[unit], unit, Role.READING, ("unit",), with_unit=True)
    signs = (
        *(_cutting_signs(kit, sheets, typical, language) if sheets else ()),
        (Sign.FLAG, words.flag_sign),
    )
    rows = tuple(Row((Picture(SignFigure(sign, typical), words.sign_alt), said)) for sign, said in signs)
    return Section(
        "how-to-read",
        words.how_to_read,
        (Table((Column(()), Column((), share=1.0)), rows), Paragraph(laying_line(kit, language))),
        Arrangement.COMPACT,
        kicker=language.front.before_cutting,
        lead=words.reading_lead(unit, trimmer_limits(kit.kit).zero, has_cuts=bool(sheets)),
    )


def _cutting_signs(
    kit: ResolvedKit, sheets: Sequence[CutSheet], typical: Length, language: Language
) -> Iterator[tuple[Sign, Line]]:
    words, unit = language.cutting, kit.kit.unit
    stages = [stage for sheet in sheets for stage in sheet.stages]
    measured = [stage for sheet in sheets if not sheet.sheet.is_cut_apart for stage in sheet.stages]
    fates = {piece.fate for stage in stages for strip in stage.strips for piece in strip.pieces}
    yield Sign.READING, words.reading_sign(typical, trimmer_limits(kit.kit).zero)
    if any(near_cuts(stage, unit, ()) for stage in measured):
        yield Sign.LENS, words.lens_sign
    yield Sign.PIECE, words.piece_sign
    by_hand = any(sheet.works for sheet in sheets)
    if Fate.CUT_AGAIN in fates or by_hand:
        yield Sign.SET_ASIDE, words.set_aside_sign(by_hand=by_hand)
    if any(len(stage.taken) > 1 for stage in stages):
        yield Sign.STACK, words.stack_sign
    if Fate.SCRAP in fates:
        yield Sign.SCRAP, words.scrap_sign(has_spare=Fate.SPARE in fates)
    if any(map(_has_alike, measured)):
        yield Sign.BRACKET, words.width_sign(has_alike=True)
    elif measured:
        yield Sign.WIDTH, words.width_sign(has_alike=False)
    if len(measured) < len(stages):
        yield Sign.REGISTER_MARK, words.register_sign


def _has_alike(stage: Stage) -> bool:
    """Whether two strips side by side are of one width, both scrap or neither: they are measured together."""
    told = [(strip.end - strip.start, bool(lettered(strip))) for strip in stage.strips]
    return any(strip == other for strip, other in pairwise(told))
