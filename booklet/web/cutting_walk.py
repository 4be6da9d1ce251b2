"""The sheets at the trimmer as a walk: how a sheet lies, each turn, each cut, and what is done by hand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.content.artist import Room
from booklet.content.blocks import Beside, CutStage, PaperEdge, Picture, Section, SlipRow
from booklet.content.figures import CutFigure, PaperBand, StageLayers, TurnFigure
from booklet.content.spans import Line, line, plain_text, whole
from booklet.web.blocks import blocks_of
from booklet.web.markup import Element, Node, element
from booklet.web.setting import Setting
from booklet.web.tables import tick_box
from booklet.web.trimmer_blocks import pieces_in, slip
from booklet.web.walk import Card, Leap, Walk

_SWATCH, _LAY, _STAGE, _TURN = Room(46.0, 30.0), Room(150.0, 150.0), Room(480.0, 430.0), Room(22.0, 22.0)
_NAME = "cut"


def cutting_walk(setting: Setting, sections: Sequence[Section], zero: str) -> Walk | None:
    """The walk over all sheets that are cut, by their sections, on a trimmer with its zero at this side.

    None for a kit without any.
    """
    words = setting.language.companion
    if not sections:
        return None
    boards = tuple(board for section in sections for board in _boards(setting, section))
    leaps = tuple(_leap(setting, section) for section in sections)
    to_pieces = element("a", setting.say(words.to_pieces), href="#/pieces", class_="onward")
    to_pages = element("a", setting.say(words.to_pages), href="#/pages", class_="onward")
    last = Card("all-cut", (element("h2", setting.say(words.all_cut)), to_pieces, to_pages))
    return Walk(_NAME, setting.say(words.cut), leaps, plain_text(words.pile), boards, last, zero)


def _stages(section: Section) -> list[CutStage]:
    return [block for block in section.blocks if isinstance(block, CutStage)]


# Drawings.


def _boards(setting: Setting, section: Section) -> Iterator[tuple[str, Element]]:
    """How the sheet first lies, and each stage in layers."""
    for block in section.blocks:
        if isinstance(block, Beside):
            yield section.anchor, setting.picture(block.picture, _LAY)
    for stage in _stages(section):
        request = stage.picture.figure
        assert isinstance(request, CutFigure)
        layers = Picture(StageLayers(request.sheet, request.stage), stage.picture.alt)
        yield stage.anchor, setting.picture(layers, _STAGE)


# Cards.


def _leap(setting: Setting, section: Section) -> Leap:
    assert isinstance(section.edge, PaperEdge)
    swatch = setting.plates.decoration(Picture(PaperBand(section.edge.sheet), ()), _SWATCH)
    name = f"{section.number} {plain_text(section.title)}"
    shown = (swatch, element("span", section.number, class_="number"))
    within = setting.within(section.anchor)
    return Leap(name, shown, tuple(_cards(within, section)))


def _cards(setting: Setting, section: Section) -> Iterator[Card]:
    yield Card(section.anchor, tuple(_lay(setting, section)), section.anchor, kind="lay")
    count = sum(row.cut is not None for stage in _stages(section) for row in stage.slip.rows)
    count += sum(row.cut is not None for stage in _stages(section) if stage.work for row in stage.work.rows)
    for stage in _stages(section):
        yield from _stage_cards(setting, section, stage, count)


def _lay(setting: Setting, section: Section) -> Iterator[Node]:
    yield element("h2", setting.number(section), setting.say(section.title))
    yield element("p", setting.say(section.lead), class_="lead")
    for block in section.blocks:
        if isinstance(block, Beside):
            yield element("div", blocks_of(setting, block.blocks), class_="large")


def _stage_cards(setting: Setting, section: Section, stage: CutStage, count: int) -> Iterator[Card]:
    where = _where(setting, section)
    if stage.heading:
        first = next(row.cut.number for row in stage.slip.rows if row.cut is not None)
        kind = f"turn {stage.turn.value}" if stage.turn is not None else "take"
        yield Card(stage.anchor, (where, *_take(setting, stage)), stage.anchor, first, kind=kind)
    for at, rows in enumerate(_by_cut(stage)):
        tips = stage.tips if at == 0 and not stage.heading else ()
        yield _cut_card(setting, section, stage, rows, tips, count)
    if stage.work is not None:
        told = (where, slip(setting, stage.work))
        yield Card(f"{stage.anchor}/work", told, ticks=_made(stage.work.rows), kind="work")


def _where(setting: Setting, section: Section, said: Line = ()) -> Element:
    """Which sheet it is, and which of its cuts."""
    sheet = element("span", element("b", section.number), " ", setting.say(section.title))
    of = (" ", element("span", setting.say(said))) if said else None
    return element("p", sheet, of, class_="where")


def _take(setting: Setting, stage: CutStage) -> Iterator[Node]:
    again = setting.language.companion.turn_again
    if stage.turn is not None:
        yield setting.plates.decoration(Picture(TurnFigure(stage.turn), ()), _TURN)
    yield element("h2", setting.say(stage.heading), class_="taken")
    for tip in stage.tips:
        yield element("p", setting.say(tip), class_="tip")
    if stage.turn is not None:
        yield element("button", setting.say(again), type="button", data_do="turn", class_="plain")


def _by_cut(stage: CutStage) -> list[list[SlipRow]]:
    """The rows of a slip, those together that one cut gives."""
    found: list[list[SlipRow]] = []
    for row in stage.slip.rows:
        if row.cut is not None:
            found.append([])
        found[-1].append(row)
    return found


def _made(rows: tuple[SlipRow, ...] | list[SlipRow]) -> tuple[str, ...]:
    """The pieces that are filed once these rows are done."""
    return tuple(piece for row in rows if row.is_tick for piece in pieces_in(row.said))


def _cut_card(
    setting: Setting,
    section: Section,
    stage: CutStage,
    rows: list[SlipRow],
    tips: tuple[Line, ...],
    count: int,
) -> Card:
    first = rows[0]
    assert first.cut is not None
    assert first.reading is not None
    number, words = first.cut.number, setting.language.companion
    of = words.cut_of(whole(number), whole(count))
    set_to, *_ = stage.slip.heads
    told = (
        _where(setting, section, of),
        *(element("p", setting.say(tip), class_="tip") for tip in tips),
        element("p", setting.say(first.before), class_="before") if first.before else None,
        element(
            "p",
            element("span", setting.say(set_to), " ", class_="label"),
            element("span", setting.say(line(first.reading)), class_="figures"),
            class_="reading",
        ),
        element("ul", (_outcome(setting, row) for row in rows), class_="outcomes"),
    )
    key = f"{stage.anchor}/{number}"
    return Card(key, tuple(part for part in told if part), stage.anchor, number, (key, *_made(rows)), "cut")


def _outcome(setting: Setting, row: SlipRow) -> Element:
    stays = element("i", setting.say(row.instead), " ") if row.instead else None
    pocket = None
    if row.pocket is not None:
        pocket = element("span", setting.say(setting.language.sorting.pocket(row.pocket)), class_="to-pocket")
    box = tick_box(pieces_in(row.said), plain_text(row.said)) if row.is_tick else None
    said = element("span", stays, setting.say(row.said), class_="said")
    return element("li", said, " ", pocket, box, class_="scrap" if not pieces_in(row.said) else None)
