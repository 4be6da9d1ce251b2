"""How paragraphs break: no short word stands alone on a last line where the line above can give another."""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Paragraph

from booklet.drawing.shapes.style import TEAL
from booklet.pages.grid import TypeSizes
from booklet.pages.type import TextBlock, cell_words, escaped, make_styles, rich, words

STYLES = make_styles(TEAL, TypeSizes())
STORY = "Twenty to seven, and the whole valley still asleep but for us and the engine."


@dataclass(frozen=True)
class Broken:
    """A line as it was broken: its words, how much of its room they leave, whether a stretch ends."""

    words: tuple[str, ...]
    spare: float
    is_end: bool


def lines_of(paragraph: Paragraph, width: float) -> list[Broken]:
    """The lines of a paragraph in so much room."""
    paragraph.wrap(width, 1000.0)
    broken = paragraph.blPara
    last = len(broken.lines) - 1
    if broken.kind == 0:
        return [Broken(tuple(held), spare, at == last) for at, (spare, held) in enumerate(broken.lines)]
    return [
        Broken(
            tuple("".join(run.text for run in line.words).split()),
            line.extraSpace,
            line.lineBreak or at == last,
        )
        for at, line in enumerate(broken.lines)
    ]


def said(lines: list[Broken]) -> list[str]:
    return [" ".join(line.words) for line in lines]


def width_of(text: str, style: ParagraphStyle = STYLES.lead) -> float:
    (line,) = lines_of(TextBlock(text, style), 10_000.0)
    return 10_000.0 - line.spare


def test_the_last_word_of_a_story_does_not_stand_alone() -> None:
    room = width_of(STORY) - 1.0
    assert said(lines_of(TextBlock(STORY, STYLES.lead), room))[-1] == "engine."
    assert said(lines_of(words(STORY, STYLES.lead), room)) == [
        STORY.removesuffix(" the engine."),
        "the engine.",
    ]


def test_a_last_word_before_a_new_line_does_not_stand_alone() -> None:
    order = "<b>Cut at 9, slide to 6, cut each time.</b>"
    room = width_of("<b>Cut at 9, slide to 6, cut each</b>") + 1.0
    lines = said(lines_of(rich(f"{order}<br/>F and E come off.", STYLES.lead), room))
    assert lines == ["Cut at 9, slide to 6, cut", "each time.", "F and E come off."]


def test_a_line_of_two_words_keeps_both() -> None:
    room = width_of("Wimberfold Paper") + 1.0
    assert said(lines_of(words("Wimberfold Paper Post", STYLES.lead), room)) == ["Wimberfold Paper", "Post"]


def test_a_long_last_word_may_stand_alone() -> None:
    text = "It is all about photographs"
    room = width_of("It is all about") + 1.0
    assert said(lines_of(words(text, STYLES.lead), room)) == ["It is all about", "photographs"]


@pytest.mark.parametrize("form", ["{}", "<b>{}</b>"])
def test_a_sentence_keeps_its_last_word(form: str) -> None:
    sentence = form.format("Dark hills lie at the left.")
    room = width_of(sentence) + 1.0
    lines = said(lines_of(rich(f"{sentence} Cut.", STYLES.lead), room))
    assert lines == ["Dark hills lie at the left.", "Cut."]


def test_names_in_a_table_break_as_they_come() -> None:
    room = width_of(STORY) - 1.0
    assert said(lines_of(cell_words(STORY, STYLES.lead), room))[-1] == "engine."


def test_centred_words_keep_to_the_middle() -> None:
    room = width_of(STORY, STYLES.small_centre) - 1.0
    lines = lines_of(words(STORY, STYLES.small_centre), room)
    assert lines[-1].words == ("engine.",)


WORDS = st.lists(st.text("abcdefg,.", min_size=1, max_size=14), min_size=1, max_size=30)
RICH = st.lists(
    st.tuples(
        st.sampled_from(["{}", "<b>{}</b>", "<i>{}</i>", "{}<br/>"]),
        st.text("abcdefg", min_size=1, max_size=14),
    ),
    min_size=2,
    max_size=30,
).map(lambda parts: " ".join(form.format(word) for form, word in parts))
ROOMS = st.floats(130.0, 420.0)


def held_as_it_should_be(usual: list[Broken], held: list[Broken]) -> None:
    assert len(held) == len(usual)
    assert [w for line in held for w in line.words] == [w for line in usual for w in line.words]
    assert [line.is_end for line in held] == [line.is_end for line in usual]
    for before, line, was_before, was in zip(held, held[1:], usual, usual[1:], strict=False):
        if line != was and len(line.words) > len(was.words):
            assert (len(was.words), len(line.words)) == (1, 2)
            assert line.spare >= -1e-6
            assert len(before.words) == len(was_before.words) - 1 >= 2


@given(WORDS, ROOMS)
def test_plain_words_take_as_many_lines_as_ever(text: list[str], room: float) -> None:
    markup = escaped(" ".join(text))
    held_as_it_should_be(
        lines_of(TextBlock(markup, STYLES.body), room), lines_of(rich(markup, STYLES.body), room)
    )


@given(RICH, ROOMS)
def test_words_set_apart_take_as_many_lines_as_ever(markup: str, room: float) -> None:
    held_as_it_should_be(
        lines_of(TextBlock(markup, STYLES.body), room), lines_of(rich(markup, STYLES.body), room)
    )


@given(st.lists(st.sampled_from(["and", "the", "sheet", "edge", "pocket"]), min_size=6, max_size=30), ROOMS)
def test_among_words_of_prose_none_is_left_alone(text: list[str], room: float) -> None:
    lines = lines_of(words(" ".join(text), STYLES.body), room)
    assert len(lines) == 1 or len(lines[-1].words) > 1


@given(RICH, ROOMS, ROOMS)
def test_a_paragraph_breaks_alike_whatever_room_was_tried_before(
    markup: str, one: float, other: float
) -> None:
    tried = rich(markup, STYLES.body)
    lines_of(tried, other)
    assert lines_of(tried, one) == lines_of(rich(markup, STYLES.body), one)


@pytest.mark.parametrize("kept", [2, 3])
def test_what_goes_over_the_page_breaks_as_it_did_in_one(kept: int) -> None:
    text = " ".join([STORY] * 3)
    room = width_of(STORY) * 0.52
    whole = words(text, STYLES.lead)
    lines = said(lines_of(whole, room))
    first, second = whole.split(room, kept * STYLES.lead.leading + 1.0)
    assert said(lines_of(first, room)) + said(lines_of(second, room)) == lines
