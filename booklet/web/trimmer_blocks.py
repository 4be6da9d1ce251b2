"""A stage at the trimmer as HTML: what is taken and turned, the figure, the slip to tick."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.content.artist import Room
from booklet.content.blocks import CutSlip, CutStage, Lens, Picture, SlipRow
from booklet.content.figures import TurnFigure
from booklet.content.spans import Line, PieceRef, plain_text
from booklet.web.markup import Element, Node, element
from booklet.web.said import anchor_id
from booklet.web.setting import Setting
from booklet.web.tables import tick_box

# A figure is drawn so large that its letters are read at half its size, on a telephone.
_STAGE, _LENS, _TURN = Room(520.0, 520.0), Room(420.0), Room(22.0, 22.0)


def cut_stage(setting: Setting, stage: CutStage) -> Element:
    """A stage with its figure beside its slip."""
    figure = element("figure", setting.picture(stage.picture, _STAGE))
    slips = [slip(setting, stage.slip)]
    if stage.work is not None:
        slips.append(slip(setting, stage.work))
    lens = _lens(setting, stage.lens) if stage.lens is not None else None
    return element(
        "section",
        stage_head(setting, stage),
        element("div", figure, element("div", slips, lens), class_="at-trimmer"),
        id=anchor_id(stage.anchor),
        class_="stage",
    )


def stage_head(setting: Setting, stage: CutStage) -> Iterator[Node]:
    """What is taken and how it is turned, and the tips of a stage."""
    if stage.heading:
        arrow = None
        if stage.turn is not None:
            arrow = setting.plates.decoration(Picture(TurnFigure(stage.turn), ()), _TURN)
        yield element("h3", arrow, element("span", setting.say(stage.heading)), class_="take")
    for tip in stage.tips:
        yield element("p", setting.say(tip), class_="tip")


def slip(setting: Setting, block: CutSlip) -> Element:
    """A slip: each cut with its reading, what comes off, its pocket, and a box to tick."""
    has_readings = bool(block.heads[0])
    heads = [element("th", setting.say(head), scope="col") for head in block.heads if head]
    head = element("tr", element("td"), heads, element("td"))
    rows = [row for each in block.rows for row in _rows(setting, each, has_readings=has_readings)]
    return element("table", element("thead", head), element("tbody", rows), class_="slip")


def _rows(setting: Setting, row: SlipRow, *, has_readings: bool) -> Iterator[Element]:
    width = 5 if has_readings else 4
    if row.before:
        yield element("tr", element("td", setting.say(row.before), colspan=width), class_="before")
    number = setting.say((row.cut,)) if row.cut is not None else None
    reading: Element | None = None
    if has_readings:
        said = setting.say((row.reading,)) if row.reading is not None else setting.say(row.instead)
        reading = element("td", said, class_="reading" if row.reading is not None else "instead")
    pocket = setting.say((row.pocket,)) if row.pocket is not None else None
    box = tick_box(pieces_in(row.said), plain_text(row.said)) if row.is_tick else None
    yield element(
        "tr",
        element("td", number, class_="number"),
        reading,
        element("td", setting.say(row.said), class_="said"),
        element("td", pocket, class_="file"),
        element("td", box, class_="tick"),
        class_="cut" if row.cut is not None else None,
    )


def pieces_in(said: Line) -> tuple[str, ...]:
    """The labels of the pieces that a line names, each once."""
    return tuple(dict.fromkeys(span.label for span in said if isinstance(span, PieceRef)))


def _lens(setting: Setting, lens: Lens) -> Element:
    """A piece of the scale, true to size on paper."""
    words = element("p", element("strong", setting.say(lens.title)), " ", setting.say(lens.text))
    note = element("figcaption", words, setting.say(setting.language.companion.true_on_paper))
    return element("figure", setting.picture(lens.picture, _LENS), note, class_="lens")
