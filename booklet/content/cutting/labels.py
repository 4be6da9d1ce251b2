"""What is written on each strip of a stage's figure, under its letters."""

from __future__ import annotations

from booklet.content.cutting.pieces import by_name, cut_piece_name
from booklet.content.words.language import Language
from booklet.cutting.model import CutSheet, Fate, Piece, Stage, Strip


def strip_labels(sheet: CutSheet, stage: Stage, language: Language) -> tuple[tuple[str, ...], ...]:
    """The lines of words on a stage's strips, from the stop outwards; those at the end may find no room."""
    return tuple(_label(sheet, strip, language) for strip in stage.strips)


def lettered(strip: Strip) -> list[Piece]:
    """The pieces of a strip that have letters: all but scrap."""
    return [piece for piece in strip.pieces if piece.is_useful]


def _label(sheet: CutSheet, strip: Strip, language: Language) -> tuple[str, ...]:
    """What the pieces are called; printed elements are known by their print, which words would hide."""
    pieces = lettered(strip)
    if not pieces or sheet.sheet.is_cut_apart:
        return ()
    names = (
        language.basics.several(len(alike), cut_piece_name(sheet, alike[0])).text for alike in by_name(pieces)
    )
    spare = (language.labels.spare,) if all(piece.fate is Fate.SPARE for piece in pieces) else ()
    return (*names, *spare)
