"""All pieces by the pages that they are for: to search, to tick, and to see what is missing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from booklet.content.blocks import Document, PocketEdge, Row, Section, Tick
from booklet.content.spans import PocketRef, plain_text
from booklet.web.markup import Element, element
from booklet.web.said import anchor_id
from booklet.web.setting import Setting
from booklet.web.tables import tick_box


def pieces_view(setting: Setting, document: Document, pieces: Mapping[str, tuple[Row, ...]]) -> Element:
    """The view of all pieces; `pieces` are the rows of each layout by its anchor."""
    words = setting.language.companion
    label, only = setting.say(words.search), setting.say(words.only_missing)
    search = element(
        "search",
        element(
            "label", element("span", label), element("input", type="search", id="search", autocomplete="off")
        ),
        element("label", element("input", type="checkbox", id="only-missing"), element("span", only)),
    )
    groups = (
        _group(setting, section, pieces[section.anchor])
        for section in document.sections
        if section.anchor in pieces
    )
    nothing = element("p", setting.say(words.nothing_found), id="nothing-found", role="status", hidden=True)
    return element(
        "section",
        element("h1", setting.say(words.pieces)),
        search,
        nothing,
        groups,
        id="view-pieces",
        class_="view",
        hidden=True,
    )


def _group(setting: Setting, section: Section, rows: tuple[Row, ...]) -> Element:
    assert isinstance(section.edge, PocketEdge)
    title = element(
        "a", setting.number(section), setting.name(section.title), href=f"#/pages/{anchor_id(section.anchor)}"
    )
    pocket = element("span", setting.say(setting.language.sorting.pocket(PocketRef(section.edge.name))))
    return element(
        "section",
        element("h2", title, " ", pocket),
        piece_list(setting, rows),
        class_="for-page",
        data_search=plain_text(section.title),
    )


def piece_list(setting: Setting, rows: tuple[Row, ...]) -> Element:
    """The pieces of a layout to tick, and above them how many are missing."""
    words = setting.language.companion
    missing = element("span", setting.say(words.missing), ": ", element("b", str(len(rows)), data_count=""))
    there = element("span", setting.say(words.nothing_missing), hidden=True)
    state = element("p", missing, there, class_="missing", role="status")
    return element("div", state, element("ul", _items(setting, rows)), class_="pieces")


def _items(setting: Setting, rows: tuple[Row, ...]) -> Iterator[Element]:
    for row in rows:
        tick, said, size = row.cells
        assert isinstance(tick, Tick)
        assert isinstance(said, tuple)
        assert isinstance(size, tuple)
        name = plain_text(said)
        yield element(
            "li",
            tick_box(tick.pieces, name),
            element("span", setting.say(said), class_="said"),
            element("span", setting.say(size), class_="size"),
        )
