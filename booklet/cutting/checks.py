"""Whether a member's trimmer and hands can make the cuts, and whether sizes stated are sizes cut."""

from __future__ import annotations

from bisect import bisect, insort
from collections.abc import Iterator, Sequence

from booklet.cutting.model import Fate, Piece
from booklet.kit.finding import Finding, SpecPath, error, warning
from booklet.kit.kit import TrimmerLimits
from booklet.kit.sheet import Sheet
from booklet.kit.words import quoted
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit, is_on_mark, nearest_mark
from booklet.measure.words import exact_length, exact_size


def check_readings(
    readings: Sequence[Fraction],
    seen: Size,
    limits: TrimmerLimits,
    unit: Unit,
    where: SpecPath,
    sheet: Sheet,
) -> tuple[list[tuple[int, Fraction]], list[Finding]]:
    """The readings that can be cut, each with its index in the spec, and what is wrong with them.

    `seen` is the piece as it lies: along the scale by along the blade.
    """
    possible: list[tuple[int, Fraction]] = []
    ascending: list[Fraction] = []
    findings: list[Finding] = list(_check_blade(seen, limits, unit, where))
    for position, reading in enumerate(readings):
        at = (*where, "at", position)
        refused = _refuse(reading, ascending, seen, unit, at)
        if refused:
            findings.append(refused)
            continue
        if not sheet.is_cut_apart:
            findings += _check_mark(reading, seen, limits, unit, at)
        findings += _check_reading(reading, ascending, seen, limits, unit, at)
        possible.append((position, reading))
        insort(ascending, reading)
    return possible, findings


def _check_blade(seen: Size, limits: TrimmerLimits, unit: Unit, where: SpecPath) -> Iterator[Finding]:
    if seen.height > limits.blade:
        found = f"the cut is {exact_length(seen.height, unit)} long"
        cure = f"the blade cuts {exact_length(limits.blade, unit)}: turn the piece, or cut it shorter first"
        yield error("cut-longer-than-blade", where, found, cure)


def _refuse(
    reading: Fraction, earlier: Sequence[Fraction], seen: Size, unit: Unit, at: SpecPath
) -> Finding | None:
    """What makes a cut impossible: no paper lies there, or it is cut there already."""
    shown = exact_length(reading, unit)
    if reading >= seen.width:
        width = exact_length(seen.width, unit)
        found = f"a cut at {shown} on a piece {width} wide"
        return error("cut-beyond-piece", at, found, f"give a reading below {width}")
    if reading in earlier:
        return error("cut-twice", at, f"a second cut at {shown}", "leave one of them out")
    return None


def _check_reading(
    reading: Fraction,
    earlier: Sequence[Fraction],
    seen: Size,
    limits: TrimmerLimits,
    unit: Unit,
    at: SpecPath,
) -> Iterator[Finding]:
    """What makes a cut awkward or unsafe; `earlier` are the readings cut before it, smallest first.

    The paper in hand reaches from the nearest earlier cut below to the nearest above: all else is cut off
    and laid aside.  The hand holds the wider side of it.
    """
    shown = exact_length(reading, unit)
    position = bisect(earlier, reading)
    low = earlier[position - 1] if position else Fraction(0)
    high = earlier[position] if position < len(earlier) else seen.width
    if low:
        found = f"{shown} comes after {exact_length(low, unit)}: the edge at the scale's zero is cut off"
        cure = "give the readings from the largest to the smallest"
        yield warning("reading-away-from-zero", at, found, cure)
    if reading > limits.reach:
        found = f"{shown} on a scale that ends at {exact_length(limits.reach, unit)}"
        yield error("reading-beyond-scale", at, found, "cut from the other edge")
    wider = max(reading - low, high - reading)
    if wider < limits.hold:
        yield _no_hold(shown, wider, limits, unit, at)


def _no_hold(shown: str, wider: Fraction, limits: TrimmerLimits, unit: Unit, at: SpecPath) -> Finding:
    found = f"at {shown} the hand has only {exact_length(wider, unit)} of paper to hold beside the blade"
    cure = f"cut it from a wider piece: {exact_length(limits.hold, unit)} is the safe hold"
    return error("narrow-hold", at, found, cure)


def _check_mark(
    reading: Fraction, seen: Size, limits: TrimmerLimits, unit: Unit, at: SpecPath
) -> Iterator[Finding]:
    if is_on_mark(reading, limits.mark):
        return
    found = f"{exact_length(reading, unit)} is on no mark of a scale in {exact_length(limits.mark, unit)}"
    near = _mark_on_piece(reading, seen, limits)
    cure = f"the nearest mark is {exact_length(near, unit)}" if near else "no mark lies on so narrow a piece"
    yield warning("reading-off-mark", at, found, cure)


def _mark_on_piece(reading: Fraction, seen: Size, limits: TrimmerLimits) -> Fraction | None:
    """The nearest mark at which this piece can be cut: neither its zero edge nor at or past its far one."""
    near = max(nearest_mark(reading, limits.mark), limits.mark)
    if near >= seen.width:
        near -= limits.mark
    return near if near > 0 else None


def check_sizes(
    sheet: Sheet, index: int, pieces: Sequence[Piece], unmade: Sequence[str], directed: bool, unit: Unit
) -> tuple[Finding, ...]:
    """Compare the sizes that the spec states with those that the cuts give.

    `pieces` are all that the sheet gives; a name stands for the pieces that are left under it at the end, or
    else for those that are cut on.  An `unmade` name is reported elsewhere.  A plain paper's piece may be
    stated either way round; a printed one as its print stands upright.
    """
    findings = []
    for name, stated in sheet.sizes.items():
        where = ("sheets", index, "sizes", name)
        cut = _sizes_of(name, pieces)
        allowed = [stated] if directed else [stated, stated.turned]
        if not cut and name not in unmade:
            names = dict.fromkeys(quoted(p.name) for p in pieces if p.fate is not Fate.SCRAP)
            cure = f"the sheet gives {', '.join(names) or 'only scrap'}"
            findings.append(error("size-of-nothing", where, f"no piece {quoted(name)} is cut", cure))
        elif any(size not in allowed for size in cut):
            shown = ", ".join(exact_size(size, unit) for size in cut)
            found = f"{quoted(name)} is stated as {exact_size(stated, unit)} and cut as {shown}"
            findings.append(error("size-differs", where, found, "correct the size or the readings"))
    return tuple(findings)


def _sizes_of(name: str, pieces: Sequence[Piece]) -> list[Size]:
    named = [piece for piece in pieces if piece.name == name and piece.fate is not Fate.SCRAP]
    left = [piece for piece in named if piece.fate is not Fate.CUT_AGAIN]
    return list(dict.fromkeys(piece.size for piece in left or named))
