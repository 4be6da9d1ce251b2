"""What the steps say that lay things on the page: pieces, photographs, writing spaces, rows and blocks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from booklet.kit.fields import Face
from booklet.kit.kit import capitalised
from booklet.kit.position import Direction, Position
from booklet.kit.steps import Column, OtherHalf, Photo, Place, PlaceGroup, Row, Snip, Write
from booklet.kit.used import uses
from booklet.measure.exact import Fraction
from booklet.pages.cut_words import listed, number_word
from booklet.pages.laid import Laid, find, length, mark, refer, said, size
from booklet.pages.series_words import NOUNS, in_line, middle_words
from booklet.pages.told import (
    Told,
    beneath,
    capital,
    degrees,
    detail_of,
    ending,
    entries_of,
    from_box,
    handled,
    labels_of,
    order,
    things,
    trimmed,
    turned_words,
    upright_size,
)
from booklet.pages.where_words import where
from booklet.pages.work_words import all_round, facing_title, gutter_words
from booklet.placing.details import CutAtGutter, Moved
from booklet.placing.geometry import hull
from booklet.placing.model import ItemKind, Placed
from booklet.sorting.ledger import LedgerEntry


def tell_place(laid: Laid, step: Place) -> Told:
    """A piece."""
    for item in things(laid):
        text = "Keep it on the table for now." if step.loose else order(laid, step, item)
        gutter = detail_of(laid, CutAtGutter)
        if gutter is not None:
            text = f"{text} Cut it where the pages meet."
        after = (gutter_words(laid, gutter),) if gutter is not None else trimmed(laid, [item])
        snipped = _snipped_in(laid, item)
        told = Told(capitalised(step.place), text, size=upright_size(laid, item), after=after)
        if snipped is not None:
            return replace(told, before=(f"Snipped in {mark(snipped)}.",))
        entries = entries_of(laid, [item])
        return replace(told, labels=labels_of(entries), before=from_box(entries))
    return Told(capitalised(step.place))


def _snipped_in(laid: Laid, item: Placed) -> int | None:
    """The step whose scissors left this part."""
    if item.use is None or not any(isinstance(step, Snip) for step in laid.spec.steps):
        return None
    used = uses(laid.spec, laid.layout.index)
    whole = used[item.use].part_of
    step = used[whole].step if whole is not None else None
    return None if step is None else step + 1


def tell_photo(laid: Laid, step: Photo) -> Told:
    """A photograph."""
    for item in things(laid):
        text, over = order(laid, step, item, "mount"), trimmed(laid, [item])
        return Told("Photograph", text, size=upright_size(laid, item), after=over)
    return Told("Photograph")


def tell_write(laid: Laid, step: Write) -> Told:
    """A space to write in."""
    for item in things(laid):
        at = where(laid, step, item)
        text = ", ".join(("Leave it free to write in", *at.all))
        return Told("Writing space", f"{text}{ending(laid, step, at)}.", size=upright_size(laid, item))
    return Told("Writing space")


# Rows and columns.


def tell_series(laid: Laid, step: Row | Column) -> Told:
    """Things in a row or a column."""
    items = things(laid)
    if not items:
        return Told(capitalised(laid.placed.verb))
    along = Direction.ACROSS if isinstance(step, Row) else Direction.DOWN
    entries = entries_of(laid, items)
    text = f"{_line_up(laid, step, items, along)} {middle_words(laid, along)}".strip()
    return Told(
        capital(listed(list(dict.fromkeys(_kind_name(item) for item in items)))),
        text,
        labels_of(entries),
        ", ".join(dict.fromkeys(upright_size(laid, item) for item in items)),
        from_box(entries) if len(entries) == len(items) else (),
        trimmed(laid, items),
    )


def _kind_name(item: Placed) -> str:
    if item.piece is not None:
        return said(item.piece)
    return "photograph" if item.kind is ItemKind.PHOTO else "writing space"


def _line_up(laid: Laid, step: Row | Column, items: Sequence[Placed], along: Direction) -> str:
    count, alike = number_word(len(items)), len({_kind_name(item) for item in items}) == 1
    under = beneath(laid, step)
    verb = "tuck" if under else "lay"
    if step.turn is not None or step.face is Face.BACK:
        begun = handled(step, verb, "both" if len(items) == 2 else f"all {count}", "them")
    else:
        begun = f"{verb} {count if alike else 'them'}"
    line = f"in a {NOUNS[along]}{'' if alike else ', in this order,'}"
    text = ", ".join((
        f"{begun} {line}".rstrip(","), *([under] if under else []),
        *in_line(laid, step, along),
    ))  # fmt: skip
    return capital(f"{text}{f', then tilt each {degrees(step.tilt)}' if step.tilt else ''}.")


# Blocks, and what crosses the fold.


def tell_group(laid: Laid, step: PlaceGroup) -> Told:
    """Several things laid or moved as one block."""
    moved = detail_of(laid, Moved)
    head = _heads(laid, step)
    if moved is None:
        return Told(head)
    items = [laid.layout.item(id) for id in moved.items]
    block = replace(items[0], rect=hull([item.rect for item in items]), turn=0, tilt=Fraction(0))
    verb = "lay" if any(_is_loose(laid, item) for item in items) else "move"
    turn = f"{turned_words(step)} and " if step.turn is not None else ""
    under = beneath(laid, step)
    at = where(laid, replace(step, turn=None), block)
    phrases = (*([under] if under else []), *at.all)
    begun = f"{verb} {'it' if turn else _block(laid, step, moved)}"
    if turn:
        begun = f"give {_block(laid, step, moved)} {turn}{begun}"
    margins = f": {all_round(laid, *at.margins)}" if at.margins is not None else ""
    return Told(head, capital(f"{begun} {', '.join(phrases)}{margins}."))


def _heads(laid: Laid, step: PlaceGroup) -> str:
    """The pieces that the block is named by."""
    named = [reference for name in step.group if (reference := find(laid, name)) is not None]
    kinds = dict.fromkeys(_kind_name(laid.layout.item(id)) for one in named for id in one.ids)
    return capital(listed(list(kinds) or list(step.group)))


def _block(laid: Laid, step: PlaceGroup, moved: Moved) -> str:
    """`3, with all that lies on it, as one block`."""
    named = [reference for name in step.group if (reference := find(laid, name)) is not None]
    numbers = listed([refer(laid, one.ids) for one in named])
    more = len(moved.items) > sum(len(one.ids) for one in named)
    it = "it" if len(named) == 1 and len(named[0].ids) == 1 else "them"
    return f"{numbers}, with all that lies on {it}, as one block," if more else f"{numbers} as one block,"


def _is_loose(laid: Laid, item: Placed) -> bool:
    step = laid.spec.steps[item.step_number - 1]
    return isinstance(step, Position) and step.loose


def tell_other_half(laid: Laid, step: OtherHalf) -> Told:
    """What the page to the left has left over at the fold."""
    for item in things(laid):
        at = (
            f"its top edge {length(laid, item.rect.y)} below the page's top"
            if item.rect.y > 0
            else "in line with its top edge"
        )
        text = f"Lay what “{facing_title(laid)}” leaves over against the page's left edge, {at}."
        labels = labels_of(_whole_entries(laid, item))
        return Told(capitalised(item.piece or item.name), text, labels, size(laid, item.rect.size))
    return Told(capitalised(step.other_half))


def _whole_entries(laid: Laid, half: Placed) -> list[LedgerEntry]:
    """What the ledger knows of the piece that the page to the left has cut."""
    for layout in laid.resolved.layouts:
        if laid.resolved.kit.layouts[layout.index].facing == laid.layout.id:
            cut = [item for item in layout.items if item.whole == half.whole and item.name == half.name]
            return entries_of(replace(laid, layout=layout), cut[:1])
    return []
