"""Why no cuts yield all pieces: by which pieces it fails, and what would help.

Every statement is decided exactly; what the effort does not settle is not stated.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from booklet.cutting.planner.assign import AssignmentSearch, assign_to_sheets, find_verdict
from booklet.cutting.planner.effort import Effort
from booklet.cutting.planner.question import pose, without_lost_partners
from booklet.cutting.planner.wanted import NoPlan, Settings, SheetStock, Wanted
from booklet.measure.exact import Fraction
from booklet.measure.length import Size
from booklet.measure.words import plain_length, plain_size

# The whole explanation may take this part of the effort, and one verdict for it this part of that.
_WHOLE, _PART = 2, 8
# Smaller sizes are looked for for so many of the pieces that fail, the largest first.
_SHRUNK = 3


def explain_no_plan(wanted: Sequence[Wanted], stocks: Sequence[SheetStock], settings: Settings) -> NoPlan:
    """The proof's reason in words, for a question that is known to have no plan."""
    effort = Effort(settings.effort // _WHOLE)
    for reason in (_no_common_side, _too_large, _too_much):
        answer = reason(wanted, stocks, settings)
        if answer is not None:
            return answer
    failing = _least_failing(wanted, stocks, effort)
    names = tuple(piece.name for piece in failing for _ in range(piece.count))
    return NoPlan(
        "no edge-to-edge cuts of the sheets yield these pieces together",
        names,
        tuple(_helps(wanted, failing, stocks, settings, effort)),
    )


def _verdict(wanted: Sequence[Wanted], stocks: Sequence[SheetStock], effort: Effort) -> bool | None:
    """Whether all the pieces come out of the sheets; None if the effort does not settle it."""
    if not wanted:
        return True
    settled = True
    for question in pose(without_lost_partners(wanted), stocks):
        part = effort.part(effort.limit // _PART)
        search = AssignmentSearch(question.kinds, question.borders, question.sheets, part, find_verdict)
        assignment = assign_to_sheets(search)
        effort.charge(part)
        if assignment.patterns is not None:
            return True
        settled = settled and assignment.settled
    return False if settled else None


def _no_common_side(wanted: Sequence[Wanted], stocks: Sequence[SheetStock], _: Settings) -> NoPlan | None:
    by_name = {piece.name: piece for piece in wanted}
    for piece in wanted:
        other = by_name.get(piece.wish.beside) if piece.wish and piece.wish.beside else None
        if other is not None and not pose([replace(piece, count=1), replace(other, count=1)], stocks):
            return NoPlan(
                "these two are wished side by side but have no side of the same length in common",
                (piece.name, other.name),
                ("give the two the same height, or let them turn", "drop the wish"),
            )
    return None


def _goes_in(size: Size, may_turn: bool, sheet: Size) -> bool:
    return sheet.holds(size) or (may_turn and sheet.holds(size.turned))


def _too_large(wanted: Sequence[Wanted], stocks: Sequence[SheetStock], settings: Settings) -> NoPlan | None:
    large = [
        piece
        for piece in wanted
        if not any(_goes_in(piece.size, piece.may_turn, stock.size) for stock in stocks)
    ]
    if not large:
        return None
    helps = [
        f"let {piece.name} turn"
        for piece in large
        if any(_goes_in(piece.size, True, stock.size) for stock in stocks)
    ]
    if stocks:
        largest = max((stock.size for stock in stocks), key=lambda size: size.area)
        most = plain_size(largest, settings.unit)
        helps += [f"make {piece.name} at most {most}" for piece in large]
    return NoPlan("larger than every sheet", tuple(piece.name for piece in large), tuple(helps))


def _too_much(wanted: Sequence[Wanted], stocks: Sequence[SheetStock], settings: Settings) -> NoPlan | None:
    need = sum((piece.size.area * piece.count for piece in wanted), Fraction(0))
    there = sum((stock.size.area * stock.count for stock in stocks), Fraction(0))
    lack = need - there
    if lack <= 0:
        return None
    helps = [
        f"leave out one {piece.name}"
        for piece in sorted(wanted, key=lambda piece: piece.size.area)
        if piece.size.area >= lack
    ]
    more = -(-lack // max(stock.size.area for stock in stocks))
    helps.append(f"add {more} more {'sheet' if more == 1 else 'sheets'}")
    return NoPlan(
        f"the pieces have {plain_length(lack, settings.unit)} square units more than the sheets",
        tuple(piece.name for piece in wanted),
        tuple(helps),
    )


def _least_failing(wanted: Sequence[Wanted], stocks: Sequence[SheetStock], effort: Effort) -> list[Wanted]:
    """Pieces that fail together though without any one of them the rest would do; small ones go first."""
    failing = sorted(wanted, key=lambda piece: -piece.size.area)
    for piece in reversed(list(failing)):
        for fewer in _fewer(failing, piece):
            if _verdict(fewer, stocks, effort) is not False:
                break
            failing = fewer
    return failing


def _fewer(pieces: Sequence[Wanted], without: Wanted) -> Iterator[list[Wanted]]:
    """The pieces with one less of that name, two less, and so on."""
    for count in range(without.count - 1, -1, -1):
        changed = [replace(piece, count=count) if piece.name == without.name else piece for piece in pieces]
        yield [piece for piece in changed if piece.count]


def _helps(
    wanted: Sequence[Wanted],
    failing: Sequence[Wanted],
    stocks: Sequence[SheetStock],
    settings: Settings,
    effort: Effort,
) -> Iterator[str]:
    without = [piece for piece in failing if _verdict(next(_fewer(wanted, piece)), stocks, effort) is True]
    for piece in sorted(without, key=lambda piece: (piece.size.area, piece.name)):
        yield f"leave out one {piece.name}"
    yield from _more_sheets(wanted, stocks, effort)
    stiff = [piece.name for piece in failing if not piece.may_turn]
    freed = [replace(piece, may_turn=True) for piece in wanted]
    if stiff and _verdict(freed, stocks, effort) is True:
        yield "let the pieces turn"
    free = [replace(piece, wish=None) for piece in wanted]
    if free != list(wanted) and _verdict(free, stocks, effort) is True:
        yield "drop the wishes"
    for piece in without[:_SHRUNK]:
        yield from _smaller(piece, wanted, stocks, settings, effort)


def _smaller(
    piece: Wanted, wanted: Sequence[Wanted], stocks: Sequence[SheetStock], settings: Settings, effort: Effort
) -> Iterator[str]:
    """A width, and a height, on a mark, with which all would do: the largest, as far as the effort tells."""

    def narrower(width: Fraction) -> Size:
        return Size(width, piece.size.height)

    def lower(height: Fraction) -> Size:
        return Size(piece.size.width, height)

    choices: tuple[tuple[Callable[[Fraction], Size], Fraction], ...] = (
        (narrower, piece.size.width),
        (lower, piece.size.height),
    )
    for sized, length in choices:
        best = _largest_mark(piece, sized, length, wanted, stocks, settings, effort)
        if best:
            size = sized(best)
            each = f"each {piece.name}" if piece.count > 1 else piece.name
            yield f"make {each} {plain_size(size, settings.unit)}"


def _largest_mark(
    piece: Wanted,
    sized: Callable[[Fraction], Size],
    length: Fraction,
    wanted: Sequence[Wanted],
    stocks: Sequence[SheetStock],
    settings: Settings,
    effort: Effort,
) -> Fraction | None:
    """By halving: what fits at one length fits at every shorter one."""
    low, high = 0, -(-length // settings.mark)
    while high - low > 1:
        middle = (low + high) // 2
        changed = replace(piece, size=sized(middle * settings.mark))
        tried = [changed if one.name == piece.name else one for one in wanted]
        if _verdict(tried, stocks, effort) is True:
            low = middle
        else:
            high = middle
    return low * settings.mark if low else None


def _more_sheets(wanted: Sequence[Wanted], stocks: Sequence[SheetStock], effort: Effort) -> Iterator[str]:
    for at, stock in enumerate(stocks):
        more = [*stocks[:at], replace(stock, count=stock.count + 1), *stocks[at + 1 :]]
        if _verdict(wanted, more, effort) is True:
            yield f"add one more sheet of {stock.name}"
