"""Whether a member's trimmer and hands can make the cuts, and whether sizes stated are sizes cut."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from booklet.cutting.model import Fate, Piece
from booklet.kit.finding import Finding, SpecPath, error, warning
from booklet.kit.kit import TrimmerLimits
from booklet.kit.sheet import Sheet
from booklet.measure.length import Size, Unit, is_on_mark, nearest_mark
from booklet.measure.words import plain_length, plain_size


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
    findings: list[Finding] = list(_check_blade(seen, limits, unit, where))
    for position, reading in enumerate(readings):
        at = (*where, "at", position)
        found = _check_reading(reading, [r for _, r in possible], seen, limits, unit, at)
        if not sheet.is_cut_apart:
            findings += _check_mark(reading, limits, unit, at)
        findings += found
        if not any(finding.id in {"cut-beyond-piece", "cut-twice"} for finding in found):
            possible.append((position, reading))
    return possible, findings


def _check_blade(seen: Size, limits: TrimmerLimits, unit: Unit, where: SpecPath) -> Iterator[Finding]:
    if seen.height > limits.blade:
        found = f"the cut is {plain_length(seen.height, unit)} long"
        cure = f"the blade cuts {plain_length(limits.blade, unit)}: turn the piece, or cut it shorter first"
        yield error("cut-longer-than-blade", where, found, cure)


def _check_reading(
    reading: Fraction,
    earlier: list[Fraction],
    seen: Size,
    limits: TrimmerLimits,
    unit: Unit,
    at: SpecPath,
) -> list[Finding]:
    shown = plain_length(reading, unit)
    if reading >= seen.width:
        width = plain_length(seen.width, unit)
        cure = f"give a reading below {width}"
        return [error("cut-beyond-piece", at, f"a cut at {shown} on a piece {width} wide", cure)]
    if reading in earlier:
        return [error("cut-twice", at, f"a second cut at {shown}", "leave one of them out")]
    low = max((r for r in earlier if r < reading), default=Fraction(0))
    high = min((r for r in earlier if r > reading), default=seen.width)
    findings = []
    if low:
        findings.append(
            warning(
                "reading-away-from-zero",
                at,
                f"{shown} comes after {plain_length(low, unit)}: the edge at the scale's zero is cut off",
                "give the readings from the largest to the smallest",
            )
        )
    if reading > limits.reach:
        reach = plain_length(limits.reach, unit)
        cure = "cut from the other edge"
        findings.append(error("reading-beyond-scale", at, f"{shown} on a scale that ends at {reach}", cure))
    wider = max(reading - low, high - reading)
    if wider < limits.hold:
        findings.append(_no_hold(shown, wider, limits, unit, at))
    return findings


def _no_hold(shown: str, wider: Fraction, limits: TrimmerLimits, unit: Unit, at: SpecPath) -> Finding:
    found = f"at {shown} the hand has only {plain_length(wider, unit)} of paper to hold beside the blade"
    cure = f"cut it from a wider piece: {plain_length(limits.hold, unit)} is the safe hold"
    return error("narrow-hold", at, found, cure)


def _check_mark(reading: Fraction, limits: TrimmerLimits, unit: Unit, at: SpecPath) -> list[Finding]:
    if is_on_mark(reading, limits.mark):
        return []
    near = plain_length(nearest_mark(reading, limits.mark), unit)
    found = f"{plain_length(reading, unit)} is on no mark of a scale in {plain_length(limits.mark, unit)}"
    return [warning("reading-off-mark", at, found, f"the nearest mark is {near}")]


def check_sizes(
    sheet: Sheet, index: int, pieces: Sequence[Piece], directed: bool, unit: Unit
) -> tuple[Finding, ...]:
    """Compare the sizes that the spec states with those that the cuts give.

    A plain paper's piece may be stated either way round; a printed one as its print stands upright.
    """
    findings = []
    for name, stated in sheet.sizes.items():
        where = ("sheets", index, "sizes", name)
        cut = list(dict.fromkeys(p.size for p in pieces if p.name == name and p.fate is not Fate.SCRAP))
        allowed = [stated] if directed else [stated, stated.turned]
        if not cut:
            names = ", ".join(dict.fromkeys(repr(p.name) for p in pieces if p.fate is not Fate.SCRAP))
            findings.append(
                error("size-of-nothing", where, f"no piece {name!r} is cut", f"the sheet gives {names}")
            )
        elif any(size not in allowed for size in cut):
            shown = ", ".join(plain_size(size, unit) for size in cut)
            found = f"{name!r} is stated as {plain_size(stated, unit)} and cut as {shown}"
            findings.append(error("size-differs", where, found, "correct the size or the readings"))
    return tuple(findings)
