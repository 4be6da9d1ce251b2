"""Layouts: the finished pages, their base and the steps of their assembly."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Annotated, Any

from booklet.kit.fields import Face, Name, Title, Turn, WordsField
from booklet.kit.pockets import Pocket
from booklet.kit.rules import After, Around, Limits
from booklet.kit.steps import VERBS, Add, Column, Row, Stack, Step, any_step
from booklet.measure.dataclass import dataclass

AnyStep = Annotated[Step, any_step(VERBS)]
# A page of more is not made by hand, and all pairs of what lies on it are compared.
MOST_STEPS = 200
# A kit of more steps on all its pages, at a minute or two each, is days of work for one box.
MOST_STEPS_OF_ALL = 800
# Things that are scattered lie in one step however many they are, but each is pierced or glued by itself.
MOST_SCATTERED = 2000


def _on_one_page(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """No more than a hand lays on one page, what stands in line or in a stack counted one by one."""
    count = _laid(steps)
    if count > MOST_STEPS:
        most = f"at most {MOST_STEPS} steps on a page"
        raise ValueError(f"{most}, each thing in a row, a column, a run or a stack counted, not {count}")
    return steps


def _laid(steps: Iterable[Step]) -> int:
    return sum(map(_things, steps))


def _things(step: Step) -> int:
    """How many steps it would take to lay the things of one step one by one."""
    match step:
        case Row():
            return len(step.row) * step.count
        case Column():
            return len(step.column) * step.count
        case Stack():
            return len(step.stack)
        case Add() if step.run is not None:
            return step.count
        case Add():
            return max(len(step.corners), 1)
        case _:
            return 1


@dataclass(frozen=True, kw_only=True)
class Base:
    """What all else on a layout lies on, turned or with its back up if said: a piece, or a whole sheet.

    `paper` asks for a sheet of this paper that the spec need not list; the loader then adds the sheet, and
    puts its id in the place of the paper.  `up` is the edge of its print that is to lie at the top of the
    page, to be checked.
    """

    piece: Name | None = None
    paper: Name | None = None
    face: Face = Face.FRONT
    turn: Turn | None = None
    up: Name | None = None

    @property
    def name(self) -> str:
        """The name of the piece, in a kit that is loaded."""
        assert self.piece is not None
        return self.piece


def _base(value: Any, read: Callable[[Any], Any]) -> Base:
    """A base is mostly just a piece's name."""
    base: Base = read({"piece": value} if isinstance(value, str) else value)
    if (base.piece is None) == (base.paper is None):
        raise ValueError("one of piece and paper")
    return base


@dataclass(frozen=True, kw_only=True)
class Layout:
    """One finished page: its base, its pocket and its steps in assembly order.

    `facing` names the layout that lies to its right in a spread.
    """

    id: Name
    pocket: Pocket
    base: Annotated[Base, Around(_base)]
    steps: Annotated[tuple[AnyStep, ...], Limits(most=MOST_STEPS), After(_on_one_page)] = ()
    title: Title | None = None
    story: WordsField | None = None
    facing: Name | None = None
    photograph: Name | None = None
    tip: WordsField | None = None


def in_one_kit(layouts: tuple[Layout, ...]) -> tuple[Layout, ...]:
    """No more than hands lay in a month; raises ValueError with what is expected."""
    count = sum(_laid(layout.steps) for layout in layouts)
    if count > MOST_STEPS_OF_ALL:
        most = f"at most {MOST_STEPS_OF_ALL} steps on all pages together"
        raise ValueError(f"{most}, each thing in a row, a column, a run or a stack counted, not {count}")
    scattered = sum(_scattered(step) for layout in layouts for step in layout.steps)
    if scattered > MOST_SCATTERED:
        raise ValueError(f"at most {MOST_SCATTERED} scattered things on all pages together, not {scattered}")
    return layouts


def _scattered(step: Step) -> int:
    """How many things lie where they fall."""
    return step.count if isinstance(step, Add) and step.run is None and not step.corners else 0
