"""Plans carried out by hand, with rectangles of exact numbers alone: nothing of the planner is used.

A part in hand is a rectangle of the front and the number of quarter turns, clockwise, that it has made.  A
cut at a reading takes the part from the left as it lies; where that is on the front follows from the turns.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from booklet.cutting.planner import Plan, PlannedStep, Wanted

SHEET = ""
TURNS = {None: 0, "clockwise": 1, "half": 2, "anticlockwise": 3}


class Part(NamedTuple):
    """A rectangle of the front, its top left corner first, and the quarter turns that it has made."""

    left: Fraction
    top: Fraction
    wide: Fraction
    tall: Fraction
    turns: int

    def seen_width(self) -> Fraction:
        """How wide it is as it lies."""
        return self.tall if self.turns % 2 else self.wide

    def between(self, low: Fraction, high: Fraction) -> Part:
        """What lies between two distances from the left, as it lies."""
        if self.turns == 0:
            return self._replace(left=self.left + low, wide=high - low)
        if self.turns == 1:  # the bottom edge is at the left
            return self._replace(top=self.top + self.tall - high, tall=high - low)
        if self.turns == 2:  # the right edge is at the left
            return self._replace(left=self.left + self.wide - high, wide=high - low)
        return self._replace(top=self.top + low, tall=high - low)


def cut_by_hand(steps: Sequence[PlannedStep], wide: Fraction, tall: Fraction) -> list[tuple[str, Part]]:
    """All that lies on the table in the end.  Raises ValueError for what a hand cannot do."""
    table = [(SHEET, Part(Fraction(0), Fraction(0), wide, tall, 0))]
    for step in steps:
        for name in step.take or (SHEET,):
            at = next((i for i, (there, _) in enumerate(table) if there == name), None)
            if at is None:
                raise ValueError(f"no {name!r} lies there")
            _, part = table.pop(at)
            part = part._replace(turns=(part.turns + TURNS[step.turn and step.turn.value]) % 4)
            bounds = [Fraction(0), *reversed(step.at), part.seen_width()]
            if sorted(set(bounds)) != bounds or len(bounds) != len(step.leaves) + 1:
                raise ValueError(f"{step.at} does not cut {part.seen_width()} into {step.leaves}")
            for piece, low, high in zip(step.leaves, bounds, bounds[1:], strict=False):
                table.append((piece, part.between(low, high)))
    return table


def what_is_wrong(answer: Plan, wanted: Sequence[Wanted]) -> Iterator[str]:
    """What the plan's steps, done by hand, do not give as it is wanted."""
    sizes = {piece.name: piece for piece in wanted}
    given: Counter[str] = Counter()
    for sheet in answer.sheets:
        wide, tall = Fraction(str(sheet.size.width)), Fraction(str(sheet.size.height))
        table = cut_by_hand(sheet.steps, wide, tall) if sheet.steps else []
        if sheet.whole:
            table = [(sheet.whole, Part(Fraction(0), Fraction(0), wide, tall, 0))]
        if sum(part.wide * part.tall for _, part in table) != wide * tall:
            yield "what lies on the table is not the sheet"
        for name, part in table:
            if name == "scrap":
                continue
            given[name] += 1
            piece = sizes.get(name)
            lies = (part.wide, part.tall)
            asked = piece and (piece.size.width, piece.size.height)
            if not piece or (lies != asked and not (piece.may_turn and lies[::-1] == asked)):
                yield f"{name} is {part.wide} x {part.tall}"
    if given != Counter({piece.name: piece.count for piece in wanted}) - Counter(answer.left_out):
        yield "not all pieces, or some too often"
