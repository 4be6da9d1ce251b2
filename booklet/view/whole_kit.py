"""The whole kit in one picture, for a browser that follows one thing through it and leads to its line."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from booklet.content.artist import Room, artist_in_colour, draw
from booklet.content.blocks import Picture
from booklet.content.overview import Followed, overview
from booklet.content.spans import plain_text
from booklet.content.words.language import ENGLISH, Language
from booklet.drawing.writers.svg_writer import svg_parts
from booklet.kit.source import Source
from booklet.placing.resolved import ResolvedKit
from booklet.view.told import place_told

_ROOM = Room(720.0)


def whole_kit_told(resolved: ResolvedKit, source: Source, language: Language = ENGLISH) -> dict[str, Any]:
    """The picture as SVG, its words, each piece by its number, and what can be followed, row by row."""
    told, words = overview(resolved, language), language.overview
    rows = ((words.sources, told.sources), (words.pockets, told.pockets), (words.layouts, told.layouts))
    entries = zip(told.pieces, resolved.ledger.entries, strict=True)
    return {
        "title": plain_text(told.title),
        "lead": f"{plain_text(told.lead)} {plain_text(words.how_to_follow)}",
        "alt": plain_text(told.picture.alt),
        "all": plain_text(words.all),
        "svg": _svg(resolved, told.picture, language),
        "pieces": [{"said": plain_text(said), **place_told(entry.where, source)} for said, entry in entries],
        "rows": [{"title": plain_text(title), "things": _things(things, source)} for title, things in rows],
    }


def _things(things: Iterable[Followed], source: Source) -> list[dict[str, Any]]:
    return [
        {"tag": each.tag, "name": plain_text(each.name), **place_told(each.where, source)} for each in things
    ]


def _svg(resolved: ResolvedKit, picture: Picture, language: Language) -> str:
    """The picture as an element; the page that shows it says in which face its text is set."""
    figure = draw(artist_in_colour(resolved, language), picture.figure, _ROOM)
    defined, (part,) = svg_parts([figure], "kit-")
    names = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
    return f'<svg {names} viewBox="{part.view_box}">{defined}{part.elements}</svg>'
