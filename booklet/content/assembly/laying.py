"""What the steps say that lay things down: pieces, photographs, writing spaces, rows, blocks, halves."""

from __future__ import annotations

from collections.abc import Callable

from booklet.content.assembly.holds import HeldThing, handling_of, series_of, shows_turn
from booklet.content.assembly.lying import AtEdge, FromEdge, Hold, Lying, Page
from booklet.content.assembly.telling import (
    Telling,
    Told,
    heads_of,
    piece_labels,
)
from booklet.content.assembly.things import LayoutContext, facing_left, item_name
from booklet.content.names import layout_name
from booklet.content.photos import photo_extent
from booklet.content.spans import Extent, Line, Role
from booklet.kit.fields import Edge
from booklet.kit.position import Direction
from booklet.kit.steps import Column, OtherHalf, Photo, Place, PlaceGroup, PositionedStep, Row, Step, Write
from booklet.placing.details import CutAtGutter, EvenGap, Held, Moved
from booklet.placing.model import Placed


def tell_laid(told: Telling) -> Told:
    """A piece or a photograph, or one on each of several."""
    step = told.step(PositionedStep)
    items, words = told.items, told.words
    if not items:
        return Told()
    gutter = told.detail(CutAtGutter)
    if step.loose:
        said = words.keep(_the(told, items[0]) if told.is_shared else ())
    elif gutter is not None:
        said = _half_here(told, step, items[0], gutter)
    elif told.member.is_on_each:
        said = words.lay_one_on_each(told.lying(), _one(told, items[0]))
    elif (told.it or told.is_shared) and not set(told.member.items) <= told.it:
        said = words.lay(told.lying(), _the(told, items[0]))
    else:
        said = words.lay(told.lying(), is_bare=told.is_first and not step.optional)
    return Told(heads_of(told, items), (said,))


def _the(told: Telling, item: Placed) -> Line:
    """A thing that is laid on what was just told of, where `it` would be that."""
    name = item_name(told.context, item)
    return told.words.the_photo if name is None else told.words.the_piece(name)


def _one(told: Telling, item: Placed) -> Line:
    name = item_name(told.context, item)
    return told.words.a_photo if name is None else told.words.a_piece(name)


def tell_write(told: Telling) -> Told:
    """A space to write in."""
    items = told.items
    if not items:
        return Told()
    size = photo_extent(items[0].upright_size, told.context.unit, (*told.path, "write"), with_unit=True)
    heads = heads_of(told, items) if told.is_first else ()
    return Told(heads, said=(told.words.leave_free(size, told.lying(), is_named=told.is_first),))


# Rows and columns.


def tell_series(told: Telling) -> Told:
    """Things in a row or a column; of one thing alone, as if it were no row."""
    items, held = told.items, told.detail(Held)
    if not items or held is None:
        return Told()
    if told.detail(EvenGap) is None:
        said = told.words.lay(told.lying())
    else:
        series, lying = series_of(HeldThing(told.context, told.placed, held, told.it), told.count(len(items)))
        name = item_name(told.context, items[0]) if told.is_shared and series.is_alike else None
        said = told.words.line_up(series, told.as_turned(lying), name)
    return Told(heads_of(told, items), (said,))


# Blocks, and what crosses the fold.


def tell_group(told: Telling) -> Told:
    """Several things laid or moved as one block."""
    moved = told.detail(Moved)
    if moved is None:
        return Told()
    is_new = any(_is_loose(told.context, item) for item in told.items)
    laid = sorted({item.step_number for item in told.context.items(moved.items)})
    rings = tuple(dict.fromkeys(told.context.ring(step) for step in laid))
    said = told.words.lay_block(told.lying(), is_new=is_new)
    return Told((told.words.block_head(rings),), said=(said,))


def _is_loose(context: LayoutContext, item: Placed) -> bool:
    step = context.step(item.step_number)
    return isinstance(step, PositionedStep) and step.loose


def _half_here(told: Telling, step: PositionedStep, item: Placed, gutter: CutAtGutter) -> Line:
    """A piece that is cut where the pages meet; across, the fold says where its part lies."""
    context, held = told.context, told.detail(Held)
    assert held is not None
    down = told.lying(held.without(Direction.ACROSS)).holds
    index = next(at for at, one in enumerate(context.resolved.kit.layouts) if one.id == context.spec.facing)
    is_half = gutter.here.width == gutter.there.width
    return told.words.half_here(
        None if is_half else told.length(gutter.here.width, Role.WIDTH),
        Lying(down, handling_of(context, [item], step)),
        Extent(gutter.there, context.unit, told.path, with_unit=True),
        layout_name(context.resolved.kit, index),
        is_alike=is_half and not shows_turn(context, item, is_half=True),
    )


def tell_other_half(told: Telling) -> Told:
    """What the page to the left has left over at the fold."""
    context = told.context
    left = facing_left(context)
    if not told.items or left is None:
        return Told()
    (item,) = told.items
    name = item_name(context, item)
    words, labels = told.words, piece_labels(told, told.items)
    cut_on = layout_name(context.resolved.kit, left)
    heads = (words.labelled(words.other_half_head(name, cut_on), labels),) if name else ()
    down: Hold = AtEdge(Edge.TOP, Page.THIS)
    if item.rect.y > 0:
        down = FromEdge(Edge.TOP, Page.THIS, told.length(item.rect.y, Role.DISTANCE))
    lying = Lying((down,))
    return Told(heads, (words.other_half(lying),))


TELLERS: dict[type[Step], Callable[[Telling], Told]] = {
    Place: tell_laid,
    Photo: tell_laid,
    Write: tell_write,
    Row: tell_series,
    Column: tell_series,
    PlaceGroup: tell_group,
    OtherHalf: tell_other_half,
}
