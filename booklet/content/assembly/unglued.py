"""What must not be glued yet: edges under which something is slid later, pieces that are wrapped later."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.content.assembly.printed import PrintedStep
from booklet.content.assembly.things import LayoutContext
from booklet.cutting.orientation import beyond
from booklet.kit.fields import Edge
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.placing.details import BandForm, CutLength, Held, Moved
from booklet.placing.geometry import hull, shared


@dataclass(frozen=True)
class Unglued:
    """What a step leaves unglued: edges of a thing (none: all of it), for later steps of the spec."""

    items: tuple[int, ...]
    edges: tuple[Edge, ...]
    steps: tuple[int, ...]
    is_wrapped: bool = False


def unglued_in(context: LayoutContext, printed: PrintedStep) -> tuple[Unglued, ...]:
    """What a printed step leaves unglued, in the order of the steps that it is left for."""
    found: dict[tuple[tuple[int, ...], tuple[Edge, ...], bool], list[int]] = {}
    laying = [member for member in printed.members if member.items] or printed.members
    last = max(step for member in laying for step in member.steps)
    for step, items, edges, is_wrapped in _later(context, last):
        if set(items) <= set(_laid_in(context, printed)):
            found.setdefault((items, edges, is_wrapped), []).append(step)
    wrapped = {items for items, _, is_wrapped in found if is_wrapped}
    return tuple(
        Unglued(items, edges, tuple(steps), is_wrapped)
        for (items, edges, is_wrapped), steps in found.items()
        if is_wrapped or items not in wrapped
    )


def _laid_in(context: LayoutContext, printed: PrintedStep) -> Iterator[int]:
    """What a printed step fixes on the page: what a later step moves again is not fixed yet."""
    steps = {step for member in printed.members for step in member.steps}
    for id in printed.items:
        moved = [
            step.number
            for step in context.layout.steps
            for one in step.details
            if isinstance(one, Moved) and id in one.items
        ]
        if not moved or max(moved) in steps:
            yield id


def _later(
    context: LayoutContext, last: int
) -> Iterator[tuple[int, tuple[int, ...], tuple[Edge, ...], bool]]:
    """What later steps slide under what, by which edges, and what they wrap."""
    for step in context.layout.steps[last:]:
        held = step.detail(Held)
        if held is None:
            continue
        if any(isinstance(one, CutLength) and one.form is BandForm.WRAP for one in step.details):
            yield step.number, held.frame, (), True
        for over in (ids for ids in held.over if context.items(ids)):
            yield step.number, over, tuple(_open_edges(context, held, over)), False


def _open_edges(context: LayoutContext, held: Held, over: tuple[int, ...]) -> Iterator[Edge]:
    """The edges of what lies above through which something is slid under it.

    A tilted thing is taken as it lies before it is tilted.  Where it sticks out round a corner, an edge that
    it hardly crosses needs no word of its own.
    """
    cover = hull([item.rect for item in context.items(over)])
    slid = hull([item.rect for item in context.items(held.items)])
    past = beyond(slid, cover)
    crossed = {
        edge: shared(slid.down, cover.down) if edge.is_upright else shared(slid.across, cover.across)
        for edge in Edge
        if past[edge] > 0
    }
    most = max(crossed.values(), default=Fraction(0))
    edges = [edge for edge, length in crossed.items() if length > 0 and 2 * length >= most]
    # What sticks out all round is no flap: the whole thing is laid down only then.
    yield from edges if len(edges) < len(Edge) else ()
