"""What each numbered ring of a finished layout is about: a printed step and the things that it lays."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.kit.steps import PositionedStep
from booklet.measure.dataclass import dataclass
from booklet.placing.details import Detail, HandWork, Snipped, TrimmedRound
from booklet.placing.model import ItemKind, Placed, PlacedLayout


@dataclass(frozen=True)
class StepRing:
    """A printed step and the ids of the items that it is about."""

    step: int
    items: tuple[int, ...]


def rings_of(layout: PlacedLayout, numbers: Sequence[int]) -> tuple[StepRing, ...]:
    """A ring for each printed step that has something to show, in order.

    `numbers` gives the printed number of each step of the spec.
    """
    rings: list[StepRing] = []
    for printed in sorted(set(numbers)):
        steps = [step.number for step in layout.steps if numbers[step.number - 1] == printed]
        laid = tuple(item.id for number in steps for item in layout.of_step(number))
        about = laid or tuple(id for number in steps for id in _worked_on(number, layout))[:1]
        if about:
            rings.append(StepRing(printed, about))
    return tuple(rings)


def _worked_on(number: int, layout: PlacedLayout) -> Iterator[int]:
    """What a step that lays nothing works on, or names, where that lies in the end."""
    step = layout.steps[number - 1]
    there = {item.id for item in layout.items}
    yield from (id for detail in step.details for id in detail.ids if id in there)
    names = {name for detail in step.details for name in _names(detail)}
    names |= {step.step.on} if isinstance(step.step, PositionedStep) else set()
    names.discard(None)
    yield from (item.id for item in layout.items if names.intersection(item.names))


def _names(detail: Detail) -> Iterator[str | None]:
    match detail:
        case Snipped():
            yield from (part.name for part in detail.parts)
        case TrimmedRound():
            yield detail.piece
        case HandWork():
            yield from (target.name for target in detail.targets)
        case _:
            yield getattr(getattr(detail, "target", None), "name", None)


def ring_clusters(ring: StepRing, layout: PlacedLayout) -> tuple[tuple[Placed, ...], ...]:
    """The things that may bear the ring: each of a row with what lies on it, or all of them together."""
    items = [layout.item(id) for id in sorted(ring.items)]
    row = [item for item in items if item.step_number == items[0].step_number]
    if len(row) < 2 or row[0].kind is ItemKind.ADDED:
        return (tuple(items),)
    others = [item for item in items if item not in row]
    return tuple((one, *(item for item in others if one.rect.contains(item.rect))) for one in row)
