"""A layout with its printed steps, and how a sentence refers to what lies there already."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property

from booklet.content.assembly.lying import Noun, OneOf, Thing
from booklet.content.assembly.printed import PrintedStep, printed_numbers, printed_steps
from booklet.content.names import supply_name
from booklet.content.spans import Length, Own, Precision, Role, StepRef
from booklet.drawing.papers.piece_print import ledger_entry_of
from booklet.kit.finding import SpecPath
from booklet.kit.layout import Layout
from booklet.kit.position import Direction
from booklet.kit.steps import Step
from booklet.kit.supply import SupplyKind
from booklet.measure.cache import cached_on
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.placing.details import EvenGap, Moved
from booklet.placing.model import ItemKind, Placed, PlacedLayout, PlacedStep
from booklet.placing.resolved import ResolvedKit, uses_of
from booklet.sorting.ledger import LedgerEntry

_SUPPLIES = {ItemKind.RIBBON, ItemKind.TAPE, ItemKind.STENCIL, ItemKind.ADDED}
_UNNAMED = {ItemKind.PHOTO: Noun.PHOTO, ItemKind.WRITING: Noun.WRITING}


@dataclass(frozen=True, eq=False)
class LayoutContext:
    """A layout, its steps as the spec has them, as placing found them, and as they are printed."""

    resolved: ResolvedKit
    layout: PlacedLayout
    printed: tuple[PrintedStep, ...]
    numbers: tuple[int, ...]

    @property
    def spec(self) -> Layout:
        """The layout as the designer wrote it."""
        return self.resolved.kit.layouts[self.layout.index]

    @property
    def unit(self) -> Unit:
        """The kit's unit."""
        return self.resolved.kit.unit

    def step(self, number: int) -> Step:
        """A step of the spec, by its number from 1."""
        return self.placed(number).step

    def placed(self, number: int) -> PlacedStep:
        """The same as placing found it."""
        return self.layout.steps[number - 1]

    def ring(self, number: int) -> StepRef:
        """The printed number of a step of the spec."""
        return StepRef(self.layout.id, self.numbers[number - 1])

    def length(self, value: Fraction, role: Role, source: SpecPath) -> Length:
        """A length as a ruler shows it, with its unit."""
        return Length(value, self.unit, role, source, Precision.RULER, with_unit=True)

    @cached_property
    def _by_id(self) -> dict[int, Placed]:
        return {item.id: item for item in (self.layout.base, *self.layout.items)}

    def items(self, ids: Iterable[int]) -> tuple[Placed, ...]:
        """The items of these ids, but for what was left loose, which is an error told elsewhere."""
        return tuple(self._by_id[id] for id in ids if id in self._by_id)


@cached_on
def layout_context(resolved: ResolvedKit, index: int) -> LayoutContext:
    """What the words of a layout are made from, by its index among the kit's layouts."""
    layout = resolved.layouts[index]
    return LayoutContext(resolved, layout, printed_steps(resolved, index), printed_numbers(resolved, index))


def facing_left(context: LayoutContext) -> int | None:
    """The index of the layout that this one faces as the right page."""
    layouts = context.resolved.kit.layouts
    return next((index for index, one in enumerate(layouts) if one.facing == context.layout.id), None)


# Names.


def item_name(context: LayoutContext, item: Placed) -> Own | None:
    """What the designer calls a thing: a piece by its name, a supply by its title; None of a photograph."""
    if item.piece is not None:
        return Own(item.piece, _name_source(context, item))
    if item.kind in _SUPPLIES and item.supply is not None:
        return supply_own(context, item.supply)
    return None


def _name_source(context: LayoutContext, item: Placed) -> SpecPath:
    if item.use is None:
        return (*item.path, "other_half") if item.from_facing else item.path
    return uses_of(context.resolved, context.layout.index)[item.use].where


def supply_own(context: LayoutContext, id: str) -> Own | None:
    """What a supply is called; None of one that the kit does not list."""
    kit = context.resolved.kit
    index = next((at for at, supply in enumerate(kit.supplies) if supply.id == id), None)
    return None if index is None else supply_name(kit, index)


def is_brad(context: LayoutContext, id: str) -> bool:
    """Whether a supply is fixed through a hole; other small things are put on."""
    supply = context.resolved.kit.supply(id)
    return supply is not None and supply.kind is SupplyKind.BRADS


def entries_of(context: LayoutContext, items: Iterable[Placed]) -> tuple[LedgerEntry, ...]:
    """What the ledger knows of these."""
    found = (ledger_entry_of(item, context.layout, context.resolved) for item in items)
    return tuple(entry for entry in found if entry is not None)


# References.


def thing_of(context: LayoutContext, ids: Sequence[int], number: int) -> Thing:
    """Things as the step of this number refers to them: by the rings of their steps, but for its own."""
    items = context.items(ids)
    laid = dict.fromkeys(item.step_number for item in items)
    mine = context.numbers[number - 1]
    if len(laid) > 1:
        return _several(context, ids, list(laid), number)
    (step,) = laid or (number,)
    steps = () if context.numbers[step - 1] == mine else (context.ring(step),)
    siblings = [item.id for item in context.layout.of_step(step)]
    if len(items) > 1:
        return Thing(_line_noun(context, step), None, steps, is_outer=_is_outer(context, ids, step))
    noun = _UNNAMED.get(items[0].kind, Noun.NAMED) if items else Noun.NAMED
    name = item_name(context, items[0]) if items else None
    direction = _direction_of(context, step)
    one_of = (
        OneOf(siblings.index(ids[0]), len(siblings), direction)
        if direction is not None and len(siblings) > 1
        else None
    )
    return Thing(noun, name, steps, one_of, is_outer=_is_outer(context, ids, step))


def _is_outer(context: LayoutContext, ids: Sequence[int], step: int) -> bool:
    """Whether these are all that was laid first in a printed step."""
    printed = context.printed[context.numbers[step - 1] - 1]
    first = next((member.items for member in printed.members if member.items), ())
    return set(ids) == set(first)


def _several(context: LayoutContext, ids: Sequence[int], laid: Sequence[int], number: int) -> Thing:
    """Things of more than one step: a block that was laid as one, or each by its ring."""
    earlier = context.layout.steps[: number - 1]
    moved = [(step.number, one) for step in earlier for one in step.details if isinstance(one, Moved)]
    blocks = [step for step, one in moved if set(one.items) == set(ids)]
    steps = blocks[-1:] or sorted(laid)
    mine = context.numbers[number - 1]
    rings = dict.fromkeys(context.ring(step) for step in steps if context.numbers[step - 1] != mine)
    return Thing(Noun.BLOCK if blocks else Noun.SEVERAL, None, tuple(rings))


def _direction_of(context: LayoutContext, number: int) -> Direction | None:
    """In which direction the things of a step stand in line; None where they do not."""
    gap = context.placed(number).detail(EvenGap)
    return gap.direction if gap else None


def _line_noun(context: LayoutContext, number: int) -> Noun:
    direction = _direction_of(context, number)
    if direction is None:
        return Noun.SEVERAL
    return Noun.ROW if direction is Direction.ACROSS else Noun.COLUMN


def labels_of(entries: Iterable[LedgerEntry]) -> Iterator[str]:
    """The labels of those that are cut."""
    return (entry.label for entry in entries if entry.label)
