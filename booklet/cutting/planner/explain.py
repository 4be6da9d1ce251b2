"""Why no cuts yield all pieces: by which pieces it fails, and what would help.

Every statement is decided exactly; what the effort does not settle is not stated.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import field

from booklet.cutting.planner.assign import assign_to_sheets
from booklet.cutting.planner.assignment_search import AssignmentSearch
from booklet.cutting.planner.effort import Effort
from booklet.cutting.planner.one_sheet import find_verdict
from booklet.cutting.planner.question import pose, without_lost_partners
from booklet.cutting.planner.wanted import NoPlan, Settings, SheetStock, Wanted
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.measure.length import Size
from booklet.measure.words import plain_length, plain_size

# The whole explanation may take so much effort, about a second; one verdict for it so much, and one about a
# size so much.  No more than these parts of what the question itself may take.
_WHOLE, _ONE, _SIZE = 75_000_000, 10_000_000, 13_000_000
_WHOLE_PART, _ONE_PART = 2, 16
# Smaller sizes are looked for for so many of the pieces that fail, the largest first.
_SHRUNK = 3


@dataclass(frozen=True)
class _Asked:
    """A question that has no plan, and the effort that its explanation may take."""

    wanted: Sequence[Wanted]
    stocks: Sequence[SheetStock]
    settings: Settings
    effort: Effort
    known: dict[tuple[frozenset[Wanted], tuple[SheetStock, ...]], bool | None] = field(default_factory=dict)

    @property
    def is_spent(self) -> bool:
        """Whether no effort is left for another verdict."""
        return self.effort.spent >= self.effort.limit

    def verdict(
        self, wanted: Sequence[Wanted], stocks: Sequence[SheetStock] | None = None, most: int = _ONE
    ) -> bool | None:
        """Whether other pieces come out of the sheets, or of others; None where that is not settled."""
        if not wanted:
            return True
        key = frozenset(wanted), tuple(stocks or self.stocks)
        if key not in self.known:
            part = min(most, self.settings.effort // _ONE_PART)
            self.known[key] = None if self.is_spent else self._decided(wanted, stocks or self.stocks, part)
        return self.known[key]

    def _decided(self, wanted: Sequence[Wanted], stocks: Sequence[SheetStock], most: int) -> bool | None:
        settled = True
        for question in pose(without_lost_partners(wanted), stocks):
            part = self.effort.part(most)
            search = AssignmentSearch(question.kinds, question.borders, question.sheets, part, find_verdict)
            assignment = assign_to_sheets(search)
            self.effort.charge(part)
            if assignment.patterns is not None:
                return True
            settled = settled and assignment.settled
        return False if settled else None


def explain_no_plan(wanted: Sequence[Wanted], stocks: Sequence[SheetStock], settings: Settings) -> NoPlan:
    """The proof's reason in words, for a question that is known to have no plan."""
    asked = _Asked(wanted, stocks, settings, Effort(min(_WHOLE, settings.effort // _WHOLE_PART)))
    for reason in (_no_common_side, _too_large, _too_much):
        answer = reason(asked)
        if answer is not None:
            return answer
    enough = _enough_to_leave_out(asked)
    failing = _least_failing(asked, enough)
    return NoPlan(
        "no edge-to-edge cuts of the sheets yield these pieces together",
        tuple(piece.name for piece in failing for _ in range(piece.count)),
        tuple(_helps(asked, failing, enough)),
    )


def _no_common_side(asked: _Asked) -> NoPlan | None:
    wanted, stocks = asked.wanted, asked.stocks
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


def _too_large(asked: _Asked) -> NoPlan | None:
    wanted, stocks = asked.wanted, asked.stocks
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
        most = plain_size(largest, asked.settings.unit)
        helps += [f"make {piece.name} at most {most}" for piece in large]
    return NoPlan("larger than every sheet", tuple(piece.name for piece in large), tuple(helps))


def _too_much(asked: _Asked) -> NoPlan | None:
    wanted, stocks = asked.wanted, asked.stocks
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
        f"the pieces have {plain_length(lack, asked.settings.unit)} square units more than the sheets",
        tuple(piece.name for piece in wanted),
        tuple(helps),
    )


def _enough_to_leave_out(asked: _Asked) -> list[Wanted]:
    """The pieces of which it is enough to leave out one, the smallest first."""
    enough: list[Wanted] = []
    for piece in sorted(asked.wanted, key=lambda piece: (piece.size.area, piece.name)):
        # The smaller piece may lie where the larger one would.
        if any(_goes_in_place(other, piece) for other in enough) or (
            asked.verdict(next(_fewer(asked.wanted, piece))) is True
        ):
            enough.append(piece)
    return enough


def _goes_in_place(piece: Wanted, other: Wanted) -> bool:
    """Whether a piece can lie wherever the other can, with no wish of either in the way."""
    if piece.wish or other.wish or (other.may_turn and not piece.may_turn):
        return False
    return _goes_in(piece.size, piece.may_turn, other.size)


def _least_failing(asked: _Asked, enough: Sequence[Wanted]) -> list[Wanted]:
    """Pieces that fail together though without any one of them the rest would do; small ones go first."""
    failing = sorted(asked.wanted, key=lambda piece: -piece.size.area)
    for piece in reversed(list(failing)):
        if piece in enough:
            continue
        for fewer in _fewer(failing, piece):
            if asked.verdict(fewer) is not False:
                break
            failing = fewer
    return failing


def _fewer(pieces: Sequence[Wanted], without: Wanted) -> Iterator[list[Wanted]]:
    """The pieces with one less of that name, two less, and so on."""
    for count in range(without.count - 1, -1, -1):
        changed = [replace(piece, count=count) if piece.name == without.name else piece for piece in pieces]
        yield [piece for piece in changed if piece.count]


def _helps(asked: _Asked, failing: Sequence[Wanted], enough: Sequence[Wanted]) -> Iterator[str]:
    wanted, stocks = asked.wanted, asked.stocks
    names = {piece.name for piece in failing}
    without = [piece for piece in enough if piece.name in names]
    for piece in without:
        yield f"leave out one {piece.name}"
    for at, stock in enumerate(stocks):
        # Whatever is enough to leave out comes from the sheet that is added.
        alone = any(_goes_in(piece.size, piece.may_turn, stock.size) for piece in without if not piece.wish)
        more = [*stocks[:at], replace(stock, count=stock.count + 1), *stocks[at + 1 :]]
        if alone or asked.verdict(wanted, more) is True:
            yield f"add one more sheet of {stock.name}"
    stiff = [piece.name for piece in failing if not piece.may_turn]
    freed = [replace(piece, may_turn=True) for piece in wanted]
    if stiff and asked.verdict(freed) is True:
        yield "let the pieces turn"
    free = [replace(piece, wish=None) for piece in wanted]
    if free != list(wanted) and asked.verdict(free) is True:
        yield "drop the wishes"
    for piece in reversed(without[-_SHRUNK:]):
        for side in ("width", "height"):
            size = _smaller(asked, piece, side)
            if size is not None:
                each = f"each {piece.name}" if piece.count > 1 else piece.name
                yield f"make {each} {plain_size(size, asked.settings.unit)}"


def _smaller(asked: _Asked, piece: Wanted, side: str) -> Size | None:
    """The size with the largest width, or height, on a mark with which all would do, as far as is settled.

    By halving: what fits at one length fits at every shorter one.  Less than half would be another piece.
    """
    mark = asked.settings.mark

    def fits(marks: int) -> bool:
        changed = replace(piece, size=replace(piece.size, **{side: marks * mark}))
        tried = [changed if one.name == piece.name else one for one in asked.wanted]
        return asked.verdict(tried, most=_SIZE) is True

    high = -(-getattr(piece.size, side) // mark)
    low = (high + 1) // 2
    if low == high or not fits(low):
        return None
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if fits(middle) else (low, middle)
    # A search that was cut short may have missed much longer ones.
    return None if asked.is_spent else replace(piece.size, **{side: low * mark})
