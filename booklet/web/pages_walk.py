"""The layouts as a walk: what a page needs and what is missing for it, then its steps one after another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from booklet.content.artist import Room
from booklet.content.blocks import Document, LayoutView, Picture, PocketEdge, Row, Section, StepItem, StepList
from booklet.content.figures import FinishedPages, LayoutLayers, NumberedLayout
from booklet.content.spans import PocketRef, plain_text, whole
from booklet.web.blocks import blocks_of
from booklet.web.layout_blocks import needs, step_said, step_tick
from booklet.web.markup import Element, Node, element
from booklet.web.pieces_view import piece_list
from booklet.web.setting import Setting
from booklet.web.walk import Card, Leap, Walk

_SWATCH, _PAGE, _LAYERS = Room(46.0, 40.0), Room(470.0, 470.0), Room(430.0, 430.0)
_NAME = "pages"


def pages_walk(setting: Setting, document: Document, pieces: Mapping[str, tuple[Row, ...]]) -> Walk | None:
    """The walk over all layouts, with the pieces of each by its anchor; None for a kit without any."""
    words = setting.language.companion
    sections = layout_sections(document)
    if not sections:
        return None
    boards = tuple(board for section in sections for board in _boards(setting, section))
    leaps = tuple(_leap(setting, section, pieces[section.anchor]) for section in sections)
    last = Card("all-made", (element("h2", setting.say(words.all_made)),))
    return Walk(_NAME, setting.say(words.pages), leaps, plain_text(words.layouts), boards, last)


def layout_sections(document: Document) -> list[Section]:
    """The sections of layouts, in the order of assembly."""
    return [section for section in document.sections if isinstance(section.edge, PocketEdge)]


def _view(section: Section) -> LayoutView:
    return next(block for block in section.blocks if isinstance(block, LayoutView))


def _numbered(section: Section) -> NumberedLayout:
    figure = _view(section).picture.figure
    assert isinstance(figure, NumberedLayout)
    return figure


def _steps(section: Section) -> Sequence[StepItem]:
    return next((block.steps for block in section.blocks if isinstance(block, StepList)), ())


def _boards(setting: Setting, section: Section) -> Iterator[tuple[str, Element]]:
    picture, asked = _view(section).picture, _numbered(section)
    yield section.anchor, setting.picture(picture, _PAGE)
    layers = Picture(LayoutLayers(asked.layout, asked.numbers), picture.alt)
    yield f"{section.anchor}/steps", setting.picture(layers, _LAYERS)


def _leap(setting: Setting, section: Section, pieces: tuple[Row, ...]) -> Leap:
    swatch = setting.plates.decoration(Picture(FinishedPages((_numbered(section).layout,)), ()), _SWATCH)
    shown = (swatch, element("span", section.number, class_="number"))
    within = setting.within(section.anchor)
    name = f"{section.number} {plain_text(section.title)}"
    return Leap(name, shown, tuple(_cards(within, section, pieces)))


def _cards(setting: Setting, section: Section, pieces: tuple[Row, ...]) -> Iterator[Card]:
    yield Card(section.anchor, tuple(_needed(setting, section, pieces)), section.anchor, kind="needed")
    steps = _steps(section)
    for step in steps:
        yield _step_card(setting, section, step, len(steps))


def _needed(setting: Setting, section: Section, pieces: tuple[Row, ...]) -> Iterator[Node]:
    assert isinstance(section.edge, PocketEdge)
    yield element("h2", setting.number(section), setting.say(section.title))
    if section.lead:
        yield element("p", setting.say(section.lead), class_="lead")
    for block in section.blocks:
        if not isinstance(block, LayoutView | StepList):
            yield from blocks_of(setting, (block,))
    pocket = setting.say(setting.language.sorting.pocket(PocketRef(section.edge.name)))
    yield element("h3", pocket)
    yield piece_list(setting, pieces)
    yield from needs(setting, _view(section))


def _step_card(setting: Setting, section: Section, step: StepItem, count: int) -> Card:
    words = setting.language.companion
    of = words.step_of(whole(step.number), whole(count))
    key = step_tick(section.anchor, step.number)
    title = element("span", element("b", section.number), " ", setting.say(section.title))
    told = (
        element("p", title, " ", element("span", setting.say(of)), class_="where"),
        element("p", element("span", str(step.number), class_="step-number"), class_="large-number"),
        element("div", step_said(setting, step), class_="large"),
    )
    return Card(key, told, f"{section.anchor}/steps", step.number, (key,), "step")
