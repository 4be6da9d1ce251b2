"""The blocks of the content as HTML, in reading order: what a page without a script is made of."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any

from booklet.content.artist import Room
from booklet.content.blocks import (
    Abreast,
    Beside,
    Block,
    Card,
    Cards,
    CardStyle,
    Caution,
    Contents,
    CutStage,
    Heading,
    IfRoom,
    ItemList,
    LayoutView,
    Legend,
    Marker,
    Paragraph,
    Picture,
    StepList,
    Table,
    Tone,
    WritingLines,
)
from booklet.content.figures import FigureRequest, FinishedPages, PieceMap, PrintCheck, PrintFrame
from booklet.web.layout_blocks import layout_view, step_list
from booklet.web.markup import Element, Node, element
from booklet.web.said import anchor_id, goal
from booklet.web.setting import Setting
from booklet.web.tables import table, tick_box
from booklet.web.trimmer_blocks import cut_stage

# How large figures are drawn, in points: they shrink with the screen.
_ALONE = Room(420.0, 420.0)
_ROOMS: dict[type, Room] = {FinishedPages: Room(560.0, 300.0), PieceMap: Room(300.0, 300.0)}
_BESIDE = Room(150.0, 150.0)
_CARDS = {
    CardStyle.BESIDE: Room(110.0, 110.0),
    CardStyle.BELOW: Room(260.0, 160.0),
    CardStyle.WRITE: Room(40.0, 40.0),
    CardStyle.LABEL: Room(90.0, 60.0),
}
# How far apart the leaders of a legend end: the height of an entry of two lines.
_PITCH = 28.0
_LEGEND = Room(190.0, pitch=_PITCH)
# What is true to size on paper alone.
_TRUE_SIZE = (PrintCheck, PrintFrame)


def blocks_of(setting: Setting, blocks: Iterable[Block]) -> Iterator[Node]:
    """Blocks one after another."""
    for block in blocks:
        yield from _BLOCKS[type(block)](setting, block)


def _heading(setting: Setting, block: Heading) -> Iterator[Node]:
    named = anchor_id(block.anchor) if block.anchor else None
    yield element("h3", setting.say(block.text), id=named)


def _paragraph(setting: Setting, block: Paragraph) -> Iterator[Node]:
    kind = None if block.tone is Tone.BODY else block.tone.value
    yield element("p", setting.say(block.text), class_=kind)


def _item_list(setting: Setting, block: ItemList) -> Iterator[Node]:
    tag = "ol" if block.marker is Marker.NUMBER else "ul"
    items = (element("li", _item(setting, block, at)) for at in range(len(block.items)))
    yield element(tag, items, class_=f"items {block.marker.value}")


def _item(setting: Setting, block: ItemList, at: int) -> tuple[Node, ...]:
    said = setting.say(block.items[at])
    if block.marker is not Marker.TICK:
        return said
    return (element("label", tick_box(), element("span", said)),)


def _caution(setting: Setting, block: Caution) -> Iterator[Node]:
    signal = element("strong", setting.say(block.signal), class_="signal")
    kind = "warning" if block.is_warning else "caution"
    yield element("p", signal, " ", setting.say(block.text), class_=f"safety {kind}", role="note")


def _writing_lines(setting: Setting, block: WritingLines) -> Iterator[Node]:
    title, text = setting.say(block.title), setting.say(block.text)
    if title:
        yield element("h3", title)
    if text:
        yield element("p", text)
    if not block.heads:
        yield element(
            "div", (element("div") for _ in range(block.least)), class_="pen-lines", aria_hidden="true"
        )
        return
    heads = element("tr", (element("th", setting.say(head), scope="col") for head in block.heads))
    blank = element("tr", (element("td") for _ in block.heads))
    rows = (blank for _ in range(block.least))
    yield element("table", element("thead", heads), element("tbody", rows), class_="pen")


def _picture(setting: Setting, block: Picture) -> Iterator[Node]:
    request = block.figure
    drawn = setting.picture(block, _ROOMS.get(type(request), _ALONE))
    yield element("figure", drawn, _true_on_paper(setting, request))


def _true_on_paper(setting: Setting, request: FigureRequest) -> Element | None:
    if not isinstance(request, _TRUE_SIZE):
        return None
    return element("figcaption", setting.say(setting.language.companion.true_on_paper))


def _beside(setting: Setting, block: Beside) -> Iterator[Node]:
    drawn = setting.picture(block.picture, _BESIDE)
    yield element(
        "div", element("figure", drawn), element("div", blocks_of(setting, block.blocks)), class_="beside"
    )


def _legend(setting: Setting, block: Legend) -> Iterator[Node]:
    entries = (element("li", element("span", setting.say(entry))) for entry in block.entries)
    drawn = setting.picture(block.picture, _LEGEND)
    yield element("div", drawn, element("ol", entries), class_="legend")


def _cards(setting: Setting, block: Cards) -> Iterator[Node]:
    cards = (_card(setting, card, block.style) for card in block.cards)
    yield element("ul", cards, class_=f"cards {block.style.value}")


def _card(setting: Setting, card: Card, style: CardStyle) -> Element:
    lines = (
        element("p", setting.say(said), class_=None if at else "first") for at, said in enumerate(card.lines)
    )
    pen = element("div", class_="pen-line", aria_hidden="true") if style is CardStyle.WRITE else None
    drawn = setting.picture(card.picture, _CARDS[style])
    return element("li", drawn, element("div", lines, pen))


def _table(setting: Setting, block: Table) -> Iterator[Node]:
    yield table(setting, block)


def _contents(setting: Setting, block: Contents) -> Iterator[Node]:
    lists = (
        element(
            "ul",
            (
                element("li", element("a", setting.name(entry.text), href=goal(entry.anchor)))
                for entry in entries
            ),
        )
        for entries in block.lists
    )
    yield element("nav", lists, class_="contents")


def _abreast(setting: Setting, block: Abreast) -> Iterator[Node]:
    groups = (element("div", blocks_of(setting, group)) for group in block.groups)
    yield element("div", groups, class_="abreast")


def _if_room(setting: Setting, block: IfRoom) -> Iterator[Node]:
    return blocks_of(setting, block.blocks)


def _cut_stage(setting: Setting, block: CutStage) -> Iterator[Node]:
    yield cut_stage(setting, block)


def _layout_view(setting: Setting, block: LayoutView) -> Iterator[Node]:
    yield layout_view(setting, block)


def _step_list(setting: Setting, block: StepList) -> Iterator[Node]:
    yield step_list(setting, block)


_BLOCKS: dict[type, Callable[[Setting, Any], Iterator[Node]]] = {
    Heading: _heading,
    Paragraph: _paragraph,
    ItemList: _item_list,
    Caution: _caution,
    WritingLines: _writing_lines,
    Picture: _picture,
    Beside: _beside,
    Legend: _legend,
    Cards: _cards,
    Table: _table,
    Contents: _contents,
    CutStage: _cut_stage,
    Abreast: _abreast,
    IfRoom: _if_room,
    LayoutView: _layout_view,
    StepList: _step_list,
}
