"""The whole booklet as a document on a screen, section by section: it is read without a script."""

from __future__ import annotations

from booklet.content.artist import Room
from booklet.content.blocks import Arrangement, Document, PaperEdge, Picture, PocketEdge, Section, SpineEdge
from booklet.content.figures import PaperBand
from booklet.content.spans import PocketRef, plain_text
from booklet.web.blocks import blocks_of
from booklet.web.markup import Element, Node, element
from booklet.web.said import anchor_id, goal
from booklet.web.setting import Setting

_BAND = Room(340.0, 12.0)
_COVERS = {Arrangement.FRONT_COVER, Arrangement.BACK_COVER}


def sections_of(document: Document) -> tuple[Section, ...]:
    """Every section in reading order, with what fills gaps on paper before the back cover."""
    return (*document.sections, *document.fillers, document.back)


def document_page(setting: Setting, document: Document) -> Element:
    """The document as one element."""
    first, *others = sections_of(document)
    sections = (
        _section(setting.within(first.anchor), first, "h1"),
        *(_section(setting.within(section.anchor), section, "h2") for section in others),
    )
    return element("div", _parts(setting, document), sections, id="booklet")


def _parts(setting: Setting, document: Document) -> Element:
    """The parts of the booklet, each with where it begins."""
    parts = (
        element("li", element("a", setting.name(section.part), href=goal(section.anchor)))
        for section in sections_of(document)
        if section.part
    )
    name = plain_text(setting.language.front.contents)
    return element("nav", element("ul", parts), class_="parts", aria_label=name)


def _section(setting: Setting, section: Section, tag: str) -> Element:
    kind = "cover" if section.arrangement in _COVERS else None
    return element(
        "section",
        element("header", _head(setting, section, tag)),
        blocks_of(setting, section.blocks),
        id=anchor_id(section.anchor),
        class_=kind,
    )


def _head(setting: Setting, section: Section, tag: str) -> tuple[Node, ...]:
    kicker = element("p", setting.say(section.kicker), class_="kicker") if section.kicker else None
    title = element(tag, setting.number(section), element("span", setting.say(section.title)))
    lead = element("p", setting.say(section.lead), class_="lead") if section.lead else None
    return tuple(part for part in (kicker, title, lead, _edge(setting, section)) if part is not None)


def _edge(setting: Setting, section: Section) -> Element | None:
    """What stands along the edge of the pages on paper."""
    match section.edge:
        case PaperEdge(sheet):
            band = setting.plates.decoration(Picture(PaperBand(sheet), ()), _BAND)
            return element("div", band, class_="band")
        case PocketEdge(name):
            said = setting.language.sorting.pocket(PocketRef(name))
            return element("p", setting.say(said), class_="from-pocket")
        case SpineEdge(text):
            return element("p", setting.say(text), class_="spine")
        case None:
            return None
