"""The sentences of the cutting pages, made from the cuts: how to lay, where to cut, what comes off."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from booklet.cutting.model import Cut, CutSheet, Fate, Piece, Stage, Strip
from booklet.cutting.orientation import Orientation
from booklet.kit.fields import Edge, Face, Turn
from booklet.kit.paper import Paper, Pattern, Print
from booklet.measure.length import Size
from booklet.measure.words import APPROXIMATELY, print_length, print_size
from booklet.placing.resolved import ResolvedKit

_NUMERALS = (
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)
_TURNS = {
    Turn.CLOCKWISE: "a quarter turn clockwise",
    Turn.ANTICLOCKWISE: "a quarter turn anticlockwise",
    Turn.HALF: "half round",
}
# Where an edge is found, once a piece lies.
_AT = {
    Edge.TOP: "at the far side",
    Edge.RIGHT: "at the right",
    Edge.BOTTOM: "at the near side",
    Edge.LEFT: "at the left",
}


@dataclass(frozen=True)
class StripWords:
    """What is written on a strip: its letters, its size, and where it goes; scrap has no letters.

    `goes` may be broken at its line feeds where the strip is narrow.  Printed elements are not to be hidden
    once they are cut out: what is written there stands `off` them.
    """

    letters: str
    size: str
    goes: str
    scrap: bool
    off: bool = False


def letter_of(piece: Piece, sheet: CutSheet) -> str:
    """A piece's letter without its sheet's number; nothing for the whole sheet and for scrap."""
    return piece.label.removeprefix(str(sheet.number))


def number_word(count: int) -> str:
    """A small count as a word."""
    return _NUMERALS[count] if count < len(_NUMERALS) else str(count)


def listed(parts: Sequence[str]) -> str:
    """`A`, `A and B`, `A, B and C`."""
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"


# How the sheet is laid.


def lay_words(resolved: ResolvedKit, sheet: CutSheet) -> str:
    """How the sheet is first laid: which face up, which edge at the scale's zero, in the member's words."""
    count = len(sheet.whole)
    them = "it" if count == 1 else f"the {number_word(count)} sheets on each other,"
    paper = resolved.kit.papers[sheet.sheet.paper]
    face = _face_up(paper, sheet) or "either side up"
    return f"Lay {them} {face}, {_edge_left(paper, sheet) or 'any edge at the left'}."


def lying_words(resolved: ResolvedKit, sheet: CutSheet) -> str:
    """How the sheet lies: `print up, wave border at the left`; nothing where it does not matter."""
    paper = resolved.kit.papers[sheet.sheet.paper]
    return ", ".join(part for part in (_face_up(paper, sheet), _edge_left(paper, sheet)) if part)


def _face_up(paper: Paper, sheet: CutSheet) -> str:
    front, back = paper.front, paper.back
    up = sheet.sheet.lay.face
    if sheet.sheet.is_cut_apart or (not _is_plain(front) and _is_plain(back)):
        return "print up" if up is Face.FRONT else "print down"
    if _is_plain(front) and _is_plain(back) and front.colours == back.colours:
        return ""
    shown, hidden = (front, back) if up is Face.FRONT else (back, front)
    if _side(shown) != _side(hidden):
        return f"{_side(shown)} up"
    return "front up" if up is Face.FRONT else "back up"


def _is_plain(face: Print) -> bool:
    return face.pattern is Pattern.SOLID and not face.image and not face.borders


def _side(face: Print) -> str:
    if face.image:
        return "picture"
    if face.pattern is Pattern.SOLID:
        return "printed border" if face.borders else "plain side"
    return str(face.pattern.value)


def _edge_left(paper: Paper, sheet: CutSheet) -> str:
    said: str = sheet.sheet.lay.left
    own = said in paper.edges.values()
    if own:
        return f"{said} at the left"
    if not (paper.front.has_direction or paper.back.has_direction or sheet.sheet.is_cut_apart):
        return _long_side(sheet.stages[0].seen if sheet.stages else sheet.size)
    if said == Edge.LEFT.value and sheet.sheet.lay.face is Face.FRONT:
        return "upright"
    beneath = ", underneath," if sheet.sheet.lay.face is Face.BACK else ""
    return f"{said} of the print{beneath} at the left"


def _long_side(seen: Size) -> str:
    if seen.width == seen.height:
        return ""
    return "its long side along the scale" if seen.width > seen.height else "its short side along the scale"


# What is taken for a stage.


def take_words(sheet: CutSheet, stage: Stage) -> str | None:
    """The heading of a stage: what is taken and how it is turned.  None where the sheet just lies there."""
    whole = stage.taken[0] in sheet.whole
    if whole:
        them = "it" if len(stage.taken) == 1 else "them"
        return f"Turn {them} {_TURNS[stage.turn]}" if stage.turn else None
    letters = listed([letter_of(piece, sheet) for piece in stage.taken])
    together = " together" if len(stage.taken) > 1 else ""
    if stage.turn is None:
        return (
            f"Take {letters}{together}, as it lay"
            if not together
            else f"Take {letters}{together}, as they lay"
        )
    return f"Turn {letters}{together} {_TURNS[stage.turn]}"


def direction_words(resolved: ResolvedKit, sheet: CutSheet, stage: Stage) -> str | None:
    """Where the top of the print lies after a turn; None where no print shows it."""
    paper = resolved.kit.papers[sheet.sheet.paper]
    face = paper.front if stage.lying.face is Face.FRONT else paper.back
    if stage.turn is None or not (face.has_direction or sheet.sheet.is_cut_apart):
        return None
    return f"Print’s top {_AT[_seen_edge(stage.lying, Edge.TOP)]}."


def _seen_edge(lying: Orientation, edge: Edge) -> Edge:
    return next(seen for seen in Edge if lying.edge_at(seen) is edge)


# Readings, sizes, pockets.


def reading_words(resolved: ResolvedKit, cut: Cut) -> str:
    """A reading for print; one on a register mark is approximate by nature."""
    return about(print_length(cut.reading, resolved.kit.unit), cut.approximate)


def about(length: str, approximate: bool) -> str:
    """A printed length with an approximately-equal sign, if it is that and does not say so yet."""
    if not approximate or length.startswith(APPROXIMATELY):
        return length
    return f"{APPROXIMATELY}\u00a0{length}"


def pockets_of(resolved: ResolvedKit, pieces: Iterable[Piece]) -> list[int]:
    """The pockets that pieces are filed in, each once, smallest first."""
    entries = [resolved.ledger.of_piece(piece) for piece in pieces]
    return sorted({entry.pocket for entry in entries if entry is not None and entry.pocket is not None})


def size_words(resolved: ResolvedKit, sheet: CutSheet, piece: Piece) -> str:
    """A piece's size as its print stands upright; approximate where it is cut on register marks."""
    return about(print_size(piece.size, resolved.kit.unit), sheet.sheet.is_cut_apart)


def next_step(sheet: CutSheet, piece: Piece) -> str:
    """`step 3`: the first cut of the stage that takes a piece."""
    number = next(
        stage.cuts[0].number
        for stage in sheet.stages
        if any(taken.key == piece.key and taken.label == piece.label for taken in stage.taken)
    )
    return f"step\u00a0{number}"


def strip_words(resolved: ResolvedKit, sheet: CutSheet, strip: Strip) -> StripWords:
    """What is written on a strip of a figure."""
    useful = [piece for piece in strip.pieces if piece.fate is not Fate.SCRAP]
    if not useful:
        return StripWords("", "", "", scrap=True)
    letters = _run([letter_of(piece, sheet) for piece in useful])
    sizes = dict.fromkeys(size_words(resolved, sheet, piece) for piece in useful)
    off = sheet.sheet.is_cut_apart and any(piece.fate is not Fate.CUT_AGAIN for piece in useful)
    return StripWords(letters, ", ".join(sizes), _goes(resolved, sheet, useful), scrap=False, off=off)


def _run(letters: Sequence[str]) -> str:
    """`A`, `A, B`, or `A–E` where more letters than two follow each other."""
    follow = all(ord(b[-1]) - ord(a[-1]) == 1 for a, b in pairwise(letters))
    return f"{letters[0]}–{letters[-1]}" if len(letters) > 2 and follow else ", ".join(letters)


def _goes(resolved: ResolvedKit, sheet: CutSheet, pieces: Sequence[Piece]) -> str:
    ways = []
    pockets = pockets_of(resolved, [piece for piece in pieces if piece.fate is Fate.KEPT])
    if pockets:
        ways.append(f"→\u00a0{', '.join(map(str, pockets))}")
    if any(piece.fate is Fate.SPARE for piece in pieces):
        ways.append("spare")
    cut_on = [piece for piece in pieces if piece.fate is Fate.CUT_AGAIN]
    if cut_on:
        steps = dict.fromkeys(next_step(sheet, piece) for piece in cut_on)
        ways.append(f"cut in\n{', '.join(steps)}")
    return ", ".join(ways)
