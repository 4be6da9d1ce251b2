"""What is written on each strip of a stage's figure."""

from __future__ import annotations

from booklet.content.cutting.pieces import cut_piece_name, piece_ref
from booklet.content.spans import Length, Role, plain_text
from booklet.content.words.language import Language
from booklet.cutting.model import CutSheet, Fate, Piece, Stage, Strip
from booklet.drawing.cutting.strip_label import StripLabel
from booklet.placing.resolved import ResolvedKit


def figure_labels(
    kit: ResolvedKit, sheet: CutSheet, stage: Stage, language: Language
) -> tuple[StripLabel, ...]:
    """The labels of a stage's strips, from the stop outwards."""
    return tuple(_label(kit, sheet, strip, language) for strip in stage.strips)


def lettered(strip: Strip) -> list[Piece]:
    """The pieces of a strip that have letters: all but scrap."""
    return [piece for piece in strip.pieces if piece.fate is not Fate.SCRAP]


def _label(kit: ResolvedKit, sheet: CutSheet, strip: Strip, language: Language) -> StripLabel:
    """Letters, then what the piece is called; of one that is cut on, how wide it is.

    Printed elements are known by their print, which words would hide.
    """
    pieces = lettered(strip)
    letters = tuple(piece_ref(sheet, piece).text for piece in pieces)
    if not pieces or sheet.sheet.is_cut_apart:
        return StripLabel(letters)
    if pieces[0].fate is Fate.CUT_AGAIN:
        width = Length(strip.end - strip.start, kit.kit.unit, Role.WIDTH, pieces[0].where)
        return StripLabel(letters, (plain_text(language.cutting.wide(width)),))
    name = language.basics.several(len(pieces), cut_piece_name(sheet, pieces[0]))
    spare = (language.labels.spare,) if pieces[0].fate is Fate.SPARE else ()
    return StripLabel(letters, (name.text, *spare))
