"""Whether a member's trimmer and hands can make the cuts, and whether these give what the spec states."""

from __future__ import annotations

from bisect import bisect, insort
from collections.abc import Mapping, Sequence

from booklet.cutting.elements import elements_in
from booklet.cutting.model import Fate, Piece
from booklet.cutting.orientation import has_edge
from booklet.cutting.take import Bench, useful_names
from booklet.kit.fields import Edge
from booklet.kit.finding import note, warning
from booklet.kit.hands import HeldSide, held_width
from booklet.kit.kit import TrimmerLimits
from booklet.kit.words import nearest, quoted
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, is_on_mark, nearest_mark
from booklet.measure.words import exact_size


def check_lay(bench: Bench, words: Mapping[str, Edge]) -> None:
    """Edges that are said to lie where the first one said does not leave them; `words` are the paper's."""
    lying = bench.live[0].lying
    for place, word in bench.sheet.lay.said.items():
        seen = lying.seen_at(words[word])
        if seen is not place:
            found = f"{quoted(word)} lies at the {seen.value}, by the other edge that is said"
            bench.report("lay-differs", found, "correct one of the two edges", "lay", place.value)


def check_readings(bench: Bench, readings: Sequence[Fraction], seen: Size) -> list[tuple[int, Fraction]]:
    """The readings that can be cut, each with its index in the spec; what is wrong with them is reported.

    `seen` is the piece as it lies: along the scale by along the blade.
    """
    possible: list[tuple[int, Fraction]] = []
    ascending: list[Fraction] = []
    across: list[tuple[int, Fraction]] = []
    if seen.height > bench.limits.blade:
        found = f"the cut is {bench.shown(seen.height)} long"
        blade = bench.shown(bench.limits.blade)
        cure = f"the blade cuts {blade} (trimmer: blade): turn the piece, or cut it shorter first"
        bench.report("cut-longer-than-blade", found, cure)
    for position, reading in enumerate(readings):
        if not _is_possible(bench, reading, ascending, seen, position):
            continue
        if not bench.sheet.is_cut_apart:
            _check_mark(bench, reading, seen, position)
        _check_reading(bench, reading, ascending, seen, position)
        if _is_held_across(bench.limits, parts_in_hand(reading, ascending, seen)):
            across.append((position, reading))
        possible.append((position, reading))
        insort(ascending, reading)
    _report_across(bench, across)
    return possible


def _is_possible(
    bench: Bench, reading: Fraction, earlier: Sequence[Fraction], seen: Size, position: int
) -> bool:
    """Whether paper lies where a cut is made, and is not cut there already."""
    shown, width = bench.shown(reading), bench.shown(seen.width)
    if reading >= seen.width:
        found = f"a cut at {shown} on a piece {width} wide"
        bench.report("cut-beyond-piece", found, f"give a reading below {width}", "at", position)
    elif reading in earlier:
        bench.report("cut-twice", f"a second cut at {shown}", "leave one of them out", "at", position)
    return reading < seen.width and reading not in earlier


def _check_reading(
    bench: Bench, reading: Fraction, earlier: Sequence[Fraction], seen: Size, position: int
) -> None:
    """What makes a cut awkward or unsafe; `earlier` are the readings cut before it, smallest first."""
    limits, shown, place = bench.limits, bench.shown(reading), bisect(earlier, reading)
    if place:
        found = (
            f"{shown} comes after {bench.shown(earlier[place - 1])}: the edge at the scale's zero is cut off"
        )
        cure = "give the readings from the largest to the smallest"
        bench.report("reading-away-from-zero", found, cure, "at", position, kind=warning)
    if reading > limits.reach:
        found = f"{shown} on a scale that ends at {bench.shown(limits.reach)} (trimmer: reach)"
        bench.report("reading-beyond-scale", found, "cut from the other edge", "at", position)
    wider = max(parts_in_hand(reading, earlier, seen))
    if wider < limits.hold:
        found = f"at {shown} the hand has only {bench.shown(wider)} of paper to hold beside the blade"
        cure = f"cut it from a wider piece: {bench.shown(limits.hold)} is the safe hold (trimmer: hold)"
        bench.report("narrow-hold", found, cure, "at", position)


def parts_in_hand(reading: Fraction, earlier: Sequence[Fraction], seen: Size) -> tuple[Fraction, Fraction]:
    """How much of the paper in hand lies between the scale's zero and the blade, and beyond the blade.

    It reaches from the nearest earlier cut below to the nearest above: all else is cut off and laid aside.
    """
    place = bisect(earlier, reading)
    low = earlier[place - 1] if place else Fraction(0)
    high = earlier[place] if place < len(earlier) else seen.width
    return reading - low, high - reading


def _is_held_across(limits: TrimmerLimits, parts: tuple[Fraction, Fraction]) -> bool:
    """Whether only the part that lies at the other hand's side of the blade is wide enough to hold."""
    return held_width(*parts, limits.held) < limits.hold <= max(parts)


def _report_across(bench: Bench, readings: Sequence[tuple[int, Fraction]]) -> None:
    """Cuts of one step at which the hand that holds must cross over to the other side of the blade."""
    if readings:
        limits, shown = bench.limits, ", ".join(bench.shown(reading) for _, reading in readings)
        side = "beyond the blade" if limits.held is HeldSide.BEYOND_BLADE else "before the blade"
        found = f"at {shown} less than {bench.shown(limits.hold)} (trimmer: hold) lies {side}"
        cure = "the hand that holds there (trimmer: hand) crosses over, or cut from the other edge"
        bench.report("hold-across-blade", found, cure, "at", readings[0][0], kind=warning)


def _check_mark(bench: Bench, reading: Fraction, seen: Size, position: int) -> None:
    limits = bench.limits
    if is_on_mark(reading, limits.mark):
        return
    found = f"{bench.shown(reading)} is on no mark of a scale in {bench.shown(limits.mark)} (trimmer: mark)"
    near = _mark_on_piece(reading, seen, limits)
    cure = f"the nearest mark is {bench.shown(near)}" if near else "no mark lies on so narrow a piece"
    bench.report("reading-off-mark", found, cure, "at", position, kind=warning)


def _mark_on_piece(reading: Fraction, seen: Size, limits: TrimmerLimits) -> Fraction | None:
    """The nearest mark at which this piece can be cut: neither its zero edge nor at or past its far one."""
    near = max(nearest_mark(reading, limits.mark), limits.mark)
    if near >= seen.width:
        near -= limits.mark
    return near if near > 0 else None


def check_sizes(bench: Bench, pieces: Sequence[Piece], *, may_turn: bool) -> None:
    """Compare the sizes that the spec states with those that the cuts give.

    `pieces` are all that the sheet gives; a name stands for the pieces that are left under it at the end, or
    else for those that are cut on.  An unmade name is reported elsewhere.  A plain piece may be stated either
    way round where the paper `may_turn`; what is printed, also an element alone, as it stands upright.
    """
    for name, stated in bench.sheet.sizes.items():
        named = _named(name, pieces)
        cut = list(dict.fromkeys(piece.part.size for piece in named))
        shown = f"{quoted(name)} is stated as {exact_size(stated, bench.unit)} and cut as"
        sizes = ", ".join(exact_size(size, bench.unit) for size in cut)
        if not cut and name not in bench.unmade:
            names = useful_names(pieces, "only scrap")
            found, cure = f"no piece {quoted(name)} is cut", f"the sheet gives {names}"
            bench.report("size-of-nothing", found, cure, "sizes", name)
        elif not all(_is_as_stated(bench, piece, stated, may_turn=may_turn) for piece in named):
            bench.report(
                "size-differs", f"{shown} {sizes}", "correct the size or the readings", "sizes", name
            )
        elif any(size != stated for size in cut):
            cure = "plain paper may lie either way: it lies as it is stated"
            bench.report("size-lies", f"{shown} {sizes}", cure, "sizes", name, kind=note)


def _is_as_stated(bench: Bench, piece: Piece, stated: Size, *, may_turn: bool) -> bool:
    size = piece.part.size
    return size == stated or (size.turned == stated and may_turn and not elements_in(bench.sheet, piece.part))


def check_edges(bench: Bench, pieces: Sequence[Piece], words: Mapping[str, Edge]) -> None:
    """Whether each piece for which the spec wishes an edge of the sheet's front is cut with it.

    `pieces` are as for the sizes; `words` are those for the edges of the paper.
    """
    for name, word in bench.sheet.wishes.edge.items():
        cut = _named(name, pieces)
        without = [piece for piece in cut if not has_edge(piece.part, words[word], bench.size)]
        if not cut and name not in bench.unmade:
            near = nearest(name, [piece.name for piece in pieces if piece.is_useful])
            cure = f"did you mean {quoted(near)}?" if near else "name a piece that the cuts leave"
            bench.report("wish-for-nothing", f"no piece {quoted(name)} is cut", cure, "wishes", "edge", name)
        elif without:
            some = f"{len(without)} of {len(cut)} " if len(cut) > 1 else ""
            found = f"{some}{quoted(name)} cut without the edge that is wished for, {quoted(word)}"
            cure = "correct the wish, or the cuts and the names that they leave"
            bench.report("edge-differs", found, cure, "wishes", "edge", name)


def _named(name: str, pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces that are left under a name at the end, or else those that are cut on."""
    named = [piece for piece in pieces if piece.name == name and piece.is_useful]
    return [piece for piece in named if piece.fate is not Fate.CUT_AGAIN] or named
