"""What a step says, before its sentences are put together; and the sentence that lays one thing."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from booklet.drawing.papers.piece_print import ledger_entry_of
from booklet.kit.fields import Edge, Face, Turn
from booklet.kit.position import Direction, Position
from booklet.measure.exact import Fraction, round_to
from booklet.measure.words import APPROXIMATELY
from booklet.pages.cut_words import listed
from booklet.pages.laid import Laid, find, refer, size
from booklet.pages.photo_size import photo_size
from booklet.pages.where_words import Where, overlapped, where
from booklet.pages.work_words import all_round, border_words, edge_names
from booklet.placing.details import NestBorder
from booklet.placing.geometry import beyond
from booklet.placing.model import ItemKind, Placed
from booklet.placing.visible import upright_bounds
from booklet.sorting.ledger import LedgerEntry

D = TypeVar("D")

_TURNS = {
    Turn.CLOCKWISE: "a quarter turn clockwise",
    Turn.ANTICLOCKWISE: "a quarter turn anticlockwise",
    Turn.HALF: "half a turn",
}
# A tilt is set by eye: a tenth of a degree is more than a hand can do.
_FINEST_DEGREE = Fraction(1, 10)
# What a tilted corner may go beyond the page by rounding alone, in the kit's unit.
_LEAST_PAST = Fraction(1, 10**6)


@dataclass(frozen=True)
class Told:
    """What a step says before its sentences are put together.

    `order` says what to do and where; the designer's own words follow it, then `after`.
    """

    head: str
    order: str = ""
    labels: tuple[str, ...] = ()
    size: str = ""
    before: tuple[str, ...] = ()
    after: tuple[str, ...] = ()


# What a step lays down.


def things(laid: Laid) -> tuple[Placed, ...]:
    """What this step lays down, in its order."""
    return laid.layout.of_step(laid.number)


def detail_of(laid: Laid, kind: type[D]) -> D | None:
    """The detail of this kind of this step."""
    return next((one for one in laid.placed.details if isinstance(one, kind)), None)


def entries_of(laid: Laid, items: Iterable[Placed]) -> list[LedgerEntry]:
    """What the ledger knows of these."""
    entries = [ledger_entry_of(item, laid.layout, laid.resolved) for item in items]
    return [entry for entry in entries if entry is not None]


def labels_of(entries: Iterable[LedgerEntry]) -> tuple[str, ...]:
    """The labels of pieces that are cut."""
    return tuple(entry.label for entry in entries if entry.label)


def from_box(entries: Sequence[LedgerEntry]) -> tuple[str, ...]:
    """Said of what has no label to look for."""
    return ("From the box.",) if entries and all(entry.ready_index is not None for entry in entries) else ()


def upright_size(laid: Laid, item: Placed) -> str:
    """The size of a thing before it is turned, and before it is cut at the fold."""
    whole = item.whole or item.rect.size
    upright = whole.turned if item.turn % 2 else whole
    return photo_size(upright, laid.resolved.kit.unit) if item.kind is ItemKind.PHOTO else size(laid, upright)


# How a thing is held, and where it goes.


def capital(text: str) -> str:
    """A sentence with its first letter large."""
    return text[:1].upper() + text[1:]


def degrees(tilt: Fraction) -> str:
    """`6° clockwise`."""
    rounded = round_to(abs(tilt), _FINEST_DEGREE)
    whole, tenths = divmod(int(rounded * 10), 10)
    exact = "" if rounded == abs(tilt) else APPROXIMATELY
    way = "clockwise" if tilt > 0 else "anticlockwise"
    return f"{exact}{whole}{f'.{tenths}' if tenths else ''}° {way}"


def handled(position: Position, verb: str, it: str = "it", them: str = "it") -> str:
    """The verb, after the turn of the hand that goes before it."""
    over = position.face is Face.BACK
    if position.turn is None:
        return f"turn {it} back side up and {verb} {them}" if over else f"{verb} {it}"
    given = f"give {them if over else it} {_TURNS[position.turn]} and {verb} {them}"
    return f"turn {it} back side up, {given}" if over else given


def turned_words(position: Position) -> str:
    """`a quarter turn clockwise`; nothing where it is not turned."""
    return _TURNS[position.turn] if position.turn is not None else ""


def beneath(laid: Laid, position: Position) -> str:
    """What it goes beneath: `under 8`; nothing of what its place names as overlapped."""
    names = [position.under] if position.under else []
    found = [find(laid, name) for name in (*names, *position.tucked)]
    said = overlapped(laid, position)
    numbers = [refer(laid, one.ids) for one in found if one is not None and one.ids not in said]
    return f"under {listed(list(dict.fromkeys(numbers)))}" if numbers else ""


def order(
    laid: Laid, position: Position, thing: Placed, verb: str = "lay", fill: Direction | None = None
) -> str:
    """The sentence that lays one thing: `Lay it on 3, 3/8 from its top edge.`"""
    at = where(laid, position, thing, fill)
    under = beneath(laid, position)
    verb = "tuck" if under else "centre" if at.centred_on else verb
    text = going_on(handled(position, verb), _opening(at, under))
    return capital(f"{text}{ending(laid, position, at)}.")


def going_on(begun: str, phrases: Sequence[str]) -> str:
    """A verb and a place, `lay it with its top edge 6 below the page's top`."""
    if not phrases:
        return begun
    joint = "with " if phrases[0].startswith("its ") else ""
    return f"{begun} {joint}{', '.join(phrases)}"


def _opening(at: Where, under: str) -> list[str]:
    """The phrases that follow the verb."""
    if not under:
        return [f"on {at.centred_on}"] if at.centred_on else list(at.all)
    if at.centred_on and under == f"under {at.centred_on}":
        return [under, "centred"]
    return [under, *at.all]


def ending(laid: Laid, position: Position, at: Where) -> str:
    """The tilt, and the border that is then seen; of a page, what is left before the tilt."""
    border = detail_of(laid, NestBorder)
    if at.margins is not None:
        return f": {all_round(laid, *at.margins)}{_tilt(laid, position, None)}"
    seen = border_words(laid, border) if border is not None else ""
    return f"{_tilt(laid, position, border)}{f': {seen}' if seen else ''}"


def trimmed(laid: Laid, items: Sequence[Placed]) -> tuple[str, ...]:
    """What is to be done with what is meant to go beyond the page: `Trim it at the page's right edge.`"""
    page = laid.layout.base.rect
    over = [item for item in items if item.overhang and item.whole is None]
    edges = {
        edge
        for item in over
        for edge, past in beyond(upright_bounds(item), page).items()
        if past > _LEAST_PAST
    }
    if not edges:
        return ()
    them = "it" if len(items) == 1 else "them"
    return (f"Trim {them} at the page's {edge_names([edge for edge in Edge if edge in edges])}.",)


def _tilt(laid: Laid, position: Position, border: NestBorder | None) -> str:
    if not position.tilt:
        return ""
    if any(thing.pivot is not None for thing in things(laid)):
        return ", tilted alike"
    if border is not None and laid.layout.item(border.outer).tilt == laid.layout.item(border.inner).tilt:
        return ", tilted alike"
    return f", then tilt it {degrees(position.tilt)}"
