"""Which steps are shown by a picture of their own, because the finished page hides what they did."""

from __future__ import annotations

from collections.abc import Mapping

from booklet.content.assembly.printed import PrintedStep
from booklet.content.assembly.things import LayoutContext
from booklet.kit.steps import PositionedStep
from booklet.measure.cache import cached_on
from booklet.measure.exact import Fraction
from booklet.placing.details import BandForm, CutLength, Held, Tied
from booklet.placing.model import ItemKind, Placed
from booklet.placing.visible import upright_bounds, visible_share

# What must be seen of a thing in the end, or its step has a picture (seen on a table, no source): of one that
# is slid under another, of one from edge to edge of the page, which one distance places, and of others.
_LEAST_TUCKED, _LEAST_ACROSS, _LEAST = Fraction(2, 3), Fraction(1, 4), Fraction(1, 2)
# What is wound round a thing, or tied on it, is never seen whole.
_WOUND = {BandForm.LOOP, BandForm.WRAP}
_SHOWN = {ItemKind.PIECE, ItemKind.PHOTO, ItemKind.RIBBON, ItemKind.TAPE}


def is_hidden(context: LayoutContext, printed: PrintedStep) -> bool:
    """Whether later steps, or what it is slid under, hide where a thing of this step lies.

    What is laid on it hides nothing: it is laid by it.
    """
    tied = {one.item for one in context.layout.details(CutLength) if one.form in _WOUND}
    tied |= {one.item for one in context.layout.details(Tied)}
    items = (item for item in context.items(printed.items) if item.kind in _SHOWN and item.id not in tied)
    return any(_seen_in_the_end(context, item) < _least(context, item) for item in items)


@cached_on
def _rests(context: LayoutContext) -> Mapping[int, tuple[int, ...]]:
    """What each thing is laid on, besides the page."""
    return {
        id: held.frame
        for step in context.layout.steps
        for held in step.details
        if isinstance(held, Held) and isinstance(step.step, PositionedStep) and step.step.on is not None
        for id in held.items
    }


def _seen_in_the_end(context: LayoutContext, item: Placed) -> Fraction:
    """The share of a thing that is not covered by what lies above it but was not laid on it."""
    rests, box = _rests(context), upright_bounds(item)
    above = [
        other
        for other in context.layout.items
        if other.layer > item.layer
        and box.overlaps(upright_bounds(other))
        and not _is_on(other.id, item.id, rests)
    ]
    return visible_share(item, above)


def _is_on(id: int, host: int, rests: Mapping[int, tuple[int, ...]]) -> bool:
    on = rests.get(id, ())
    return host in on or any(_is_on(other, host, rests) for other in on if other < id)


def _least(context: LayoutContext, item: Placed) -> Fraction:
    """How much of a thing must be seen."""
    details = context.placed(item.step_number).details
    if any(isinstance(one, Held) and one.over and item.id in one.items for one in details):
        return _LEAST_TUCKED
    page = context.layout.base.rect
    is_across = item.rect.width == page.width or item.rect.height == page.height
    return _LEAST_ACROSS if is_across else _LEAST
