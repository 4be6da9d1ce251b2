"""The whole kit in one picture, for a browser that follows one thing through it and leads to its line."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Any

from booklet.content.artist import Room, artist_in_colour, draw
from booklet.content.blocks import Picture
from booklet.content.overview import Followed, overview, rows_to_follow
from booklet.content.spans import Line, plain_text
from booklet.content.words.language import ENGLISH, Language
from booklet.drawing.writers.svg_writer import svg_parts
from booklet.kit.source import ARROW, Source
from booklet.placing.resolved import ResolvedKit
from booklet.sorting.ledger import LedgerEntry
from booklet.view.told import place_told

_ROOM = Room(720.0)


def whole_kit_told(resolved: ResolvedKit, source: Source, language: Language = ENGLISH) -> dict[str, Any]:
    """The picture as SVG, its words, each piece by its number, and what can be followed, row by row."""
    told, words = overview(resolved, language), language.overview
    return {
        "title": plain_text(told.title),
        "lead": f"{plain_text(told.lead)} {plain_text(words.how_to_follow)}",
        "alt": plain_text(told.picture.alt),
        "all": plain_text(words.all),
        "svg": _svg(resolved, told.picture, language),
        "pieces": list(_pieces(told.pieces, resolved.ledger.entries, source)),
        "rows": [
            {"title": plain_text(title), "things": _things(things, source)}
            for title, things in rows_to_follow(told, language)
        ],
    }


def _pieces(
    lines: Iterable[Line], entries: Iterable[LedgerEntry], source: Source
) -> Iterator[dict[str, Any]]:
    """Each piece, known by where it comes from, its name, and which of those alike it is: a label is another
    one when a strip is added before it.
    """
    alike = Counter[tuple[str, str]]()
    for number, (said, entry) in enumerate(zip(lines, entries, strict=True)):
        named = (source.words(entry.source), entry.name)
        alike[named] += 1
        known = ARROW.join((*named, str(alike[named])))
        place = place_told(entry.where, source)
        yield {"tag": f"piece-{number}", "known": known, "said": plain_text(said), **place}


def _things(things: Iterable[Followed], source: Source) -> list[dict[str, Any]]:
    return [
        {
            "tag": each.tag,
            "known": _known(each, source),
            "name": plain_text(each.name),
            **place_told(each.where, source),
        }
        for each in things
    ]


def _known(thing: Followed, source: Source) -> str:
    """What tells a thing from others in every save: a pocket by its tag, which has its name."""
    return thing.tag if thing.where[-1] == "pocket" else source.words(thing.where)


def _svg(resolved: ResolvedKit, picture: Picture, language: Language) -> str:
    """The picture as an element; the page that shows it says in which face its text is set."""
    figure = draw(artist_in_colour(resolved, language), picture.figure, _ROOM)
    defined, (part,) = svg_parts([figure], "kit-")
    names = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
    return f'<svg {names} viewBox="{part.view_box}">{defined}{part.elements}</svg>'
