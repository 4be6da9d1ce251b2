"""The cuts of a stage in words: what the hand does, and what then comes off."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from booklet.cutting.model import Cut, CutSheet, Fate, Piece, Stage, Strip
from booklet.measure.cache import cached_on
from booklet.measure.exact import Fraction
from booklet.measure.words import print_length
from booklet.pages.cut_words import (
    letter_of,
    listed,
    next_step,
    number_word,
    pockets_of,
    reading_words,
    size_words,
)
from booklet.placing.resolved import ResolvedKit


@dataclass(frozen=True)
class Move:
    """A cut in words, or several in a row that give the same piece: their numbers, what the hand does, and
    what that leaves, a sentence for each kind of piece.
    """

    numbers: tuple[int, ...]
    order: str
    outcome: tuple[str, ...]


@dataclass(frozen=True)
class _Pass:
    """One cut and what lies at either side of the blade after it, where no later cut runs through that.

    `low` is where the paper in hand begins on the scale: 0 until the edge at the zero is cut off.
    """

    cut: Cut
    low: Fraction
    right: Strip | None
    left: Strip | None

    @property
    def kind(self) -> tuple[object, ...]:
        """Neighbouring cuts of one kind are said in one breath: each takes off the same piece at the right.

        A cut that leaves more than that, or starts from a cut edge, is of its own kind.
        """
        if self.right is None or self.low:
            return (self.cut.number,)
        # Elements are cut apart mark by mark: which comes off is told one after another.
        return ("marks",) if self.cut.approximate else tuple(map(_same, self.right.pieces))


def _same(piece: Piece) -> tuple[object, ...]:
    """What makes one piece as good as another: a name means one size; what is cut on is told apart."""
    return (piece.name, piece.fate, piece.part.size, piece.label if piece.fate is Fate.CUT_AGAIN else "")


def moves(resolved: ResolvedKit, sheet: CutSheet, stage: Stage) -> tuple[Move, ...]:
    """Every cut of a stage in words, in cutting order; kept, for they are asked for at every scale."""
    return _moves(resolved, sheet.index, stage.number)


# A list of more marks or elements than this is longer than the row it tells of.
_MOST_TOLD = 3


@cached_on
def _moves(resolved: ResolvedKit, index: int, number: int) -> tuple[Move, ...]:
    sheet = resolved.sheets[index]
    stage = sheet.stages[number - 1]
    made = []
    for _, group in groupby(_passes(stage), key=lambda each: each.kind):
        passes = list(group)
        numbers = tuple(each.cut.number for each in passes)
        first = passes[0].cut is stage.cuts[0]
        made.append(Move(numbers, _order(resolved, passes, first), tuple(_outcome(resolved, sheet, passes))))
    return tuple(made)


def _passes(stage: Stage) -> Iterator[_Pass]:
    bounds = {Fraction(0), stage.seen.width}
    for cut in stage.cuts:
        low = max(bound for bound in bounds if bound < cut.reading)
        high = min(bound for bound in bounds if bound > cut.reading)
        bounds.add(cut.reading)
        right, left = _strip_between(stage, cut.reading, high), _strip_between(stage, low, cut.reading)
        yield _Pass(cut, low, right, left)


def _strip_between(stage: Stage, start: Fraction, end: Fraction) -> Strip | None:
    return next((strip for strip in stage.strips if (strip.start, strip.end) == (start, end)), None)


def _order(resolved: ResolvedKit, passes: Sequence[_Pass], first: bool) -> str:
    cut, low = passes[0].cut, passes[0].low
    at, *then = [reading_words(resolved, each.cut) for each in passes]
    if cut.approximate:
        marks = f"register mark{'s' if then else ''} at {listed([at, *then])}"
        if len(passes) > _MOST_TOLD:
            marks = f"{number_word(len(passes))} register marks, from {at} to {then[-1]}"
        return f"Cut on the {marks}." if first else f"Slide on, cut on the {marks}."
    if low:
        # The paper at the scale's zero is cut off already: what is in hand starts at an earlier reading.
        return f"Lay the cut edge at {print_length(low, resolved.kit.unit)}, cut at {at}."
    if then:
        start = f"Cut at {at}, slide" if first else f"Slide to {at}, cut, slide on"
        return f"{start} to {listed(then)}, cut each time."
    return f"Cut at {at}." if first else f"Slide to {at}, cut."


def _outcome(resolved: ResolvedKit, sheet: CutSheet, passes: Sequence[_Pass]) -> Iterator[str]:
    """A sentence for each kind of piece that comes off at the right, then for what is left at the left."""
    last = passes[-1]
    if last.cut.approximate and last.right is not None and len(passes) * len(last.right.pieces) > 1:
        yield from _elements(resolved, sheet, passes)
        return
    fallen = [piece for each in passes if each.right for piece in each.right.pieces]
    for pieces in _alike(sheet, fallen):
        yield _sentence(resolved, sheet, pieces, len(passes) if len(passes) > 1 else 0, off=True)
    if last.left is not None:
        for pieces in _alike(sheet, last.left.pieces):
            yield _sentence(resolved, sheet, pieces, 0, off=last.right is None)
    if last.right is None and last.left is None:
        yield "Keep both parts in hand."


def _elements(resolved: ResolvedKit, sheet: CutSheet, passes: Sequence[_Pass]) -> Iterator[str]:
    """What comes off mark by mark, told as one list: elements mostly all differ.

    A long row is told by its letters; the figure shows each element, and its chip the pocket.
    """
    fallen = [piece for each in passes if each.right for piece in each.right.pieces]
    left = passes[-1].left.pieces if passes[-1].left is not None else ()
    if sum(piece.fate is Fate.KEPT for piece in fallen) > _MOST_TOLD and not any(
        piece.fate is Fate.CUT_AGAIN for piece in (*fallen, *left)
    ):
        yield f"Off come {_row_words(sheet, fallen)}."
        if left:
            yield f"{'Left are' if len(left) > 1 else 'Left is'} {_row_words(sheet, left)}."
        sizes = {size_words(resolved, sheet, piece) for piece in (*fallen, *left) if piece.fate is Fate.KEPT}
        size = f", {sizes.pop()}," if len(sizes) == 1 else ""
        yield f"Each{size} goes to the pocket on its chip."
        return
    yield f"Off come {_told(resolved, sheet, fallen)}."
    if left:
        yield f"{'Left are' if len(left) > 1 else 'Left is'} {_told(resolved, sheet, left)}."


def _row_words(sheet: CutSheet, pieces: Sequence[Piece]) -> str:
    """`scrap, then V to Z`: what comes off in one go by its first and last letter."""
    told = []
    for is_scrap, run in groupby(pieces, key=lambda piece: piece.fate is Fate.SCRAP):
        letters = sorted((letter_of(piece, sheet) for piece in run), key=lambda one: (len(one), one))
        told.append("scrap" if is_scrap else _first_to_last(letters))
    return ", then ".join(told)


def _first_to_last(letters: Sequence[str]) -> str:
    return listed(letters) if len(letters) < 3 else f"{letters[0]} to {letters[-1]}"


def _told(resolved: ResolvedKit, sheet: CutSheet, pieces: Sequence[Piece]) -> str:
    return "; ".join(_element_words(resolved, sheet, alike) for alike in _alike(sheet, pieces))


def _element_words(resolved: ResolvedKit, sheet: CutSheet, pieces: Sequence[Piece]) -> str:
    """`J: home card → 5` as its chip says it, or `A and B, cut in step 9`, or `scrap`."""
    first = pieces[0]
    if first.fate is Fate.SCRAP:
        return "scrap"
    letters = listed([letter_of(piece, sheet) for piece in pieces])
    if first.fate is Fate.CUT_AGAIN:
        return f"{letters}, cut in {next_step(sheet, first)}"
    return f"{letters}: {first.name}{_sent(resolved, sheet, pieces)}"


def _sent(resolved: ResolvedKit, sheet: CutSheet, pieces: Sequence[Piece]) -> str:
    if pieces[0].fate is Fate.SPARE:
        return ", spare"
    pockets = pockets_of(resolved, pieces)
    if len(pockets) == 1:
        return f"\u00a0→\u00a0{pockets[0]}"
    return _filed(resolved, sheet, pieces)


def _alike(sheet: CutSheet, pieces: Iterable[Piece]) -> list[list[Piece]]:
    """Pieces of which one sentence tells: of one name, or cut in one step."""
    groups: dict[tuple[object, ...], list[Piece]] = {}
    for piece in pieces:
        cut_on = piece.fate is Fate.CUT_AGAIN
        key = (
            next_step(sheet, piece) if cut_on else piece.name,
            piece.fate,
            piece.size if not cut_on else None,
        )
        groups.setdefault(key, []).append(piece)
    return list(groups.values())


def _sentence(
    resolved: ResolvedKit, sheet: CutSheet, pieces: Sequence[Piece], times: int, *, off: bool
) -> str:
    """`C comes off: wide strip, 4 × 12, pocket 3.`  `times` is how many cuts it tells of, 0 for one."""
    first, many = pieces[0], len(pieces) > 1
    size = size_words(resolved, sheet, first)
    if first.fate is Fate.SCRAP:
        each = " each time" if times else ""
        return f"{size} of scrap comes off{each}." if off else f"What is left, {size}, is scrap."
    letters = listed([letter_of(piece, sheet) for piece in pieces])
    verb = ("come" if many else "comes") + " off" if off else ("are" if many else "is") + " left"
    if first.fate is Fate.CUT_AGAIN:
        return f"{letters} {verb}, to be cut in {next_step(sheet, first)}."
    # On a cut-apart the name tells the element, and its chip says the size.
    what = first.name if sheet.sheet.is_cut_apart else f"{first.name}, {size}"
    filed = ", spare" if first.fate is Fate.SPARE else _filed(resolved, sheet, pieces)
    return f"{letters} {verb}: {what}{filed}."


def _filed(resolved: ResolvedKit, sheet: CutSheet, pieces: Sequence[Piece]) -> str:
    """`, pocket 3`; of pieces alike that go apart, each letter's: `; A in pocket 1; B in pocket 2`."""
    pockets = pockets_of(resolved, pieces)
    if len(pockets) < 2:
        return "".join(f", pocket\u00a0{pocket}" for pocket in pockets)
    shares = []
    for pocket in pockets:
        letters = [letter_of(piece, sheet) for piece in pieces if pockets_of(resolved, [piece]) == [pocket]]
        shares.append(f"; {listed(letters)} in pocket\u00a0{pocket}")
    return "".join(shares)
