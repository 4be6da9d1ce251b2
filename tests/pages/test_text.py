"""Lines of content as paragraphs: where they break, and what they print."""

from __future__ import annotations

import pytest
from reportlab.lib.styles import ParagraphStyle

from booklet.content.spans import (
    CutRef,
    Length,
    Line,
    Own,
    PocketRef,
    Role,
    StepRef,
    Words,
    line,
    plain_text,
    quiet,
    strong,
)
from booklet.drawing.shapes.fonts import Font
from booklet.drawing.writers.pdf_fonts import pdf_font_name
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.pages.hyphens import SOFT_HYPHEN, hyphenated
from booklet.pages.text import TextBlock, fragments, line_width, paragraph
from tests.pages.documents import document, read, said_on, section, setup_of, text

STYLES = setup_of(document()).styles
WIDTHS = range(60, 330, 3)


def lines_of(said: Line, width: float, style: ParagraphStyle = STYLES.body) -> list[str]:
    """The lines into which a paragraph is broken in a column of a width."""
    block = paragraph(said, style)
    block.wrap(width, 1000.0)
    return broken(block)


def broken(block: TextBlock) -> list[str]:
    lines = block.blPara.lines
    if block.blPara.kind:
        return ["".join(held.text for held in each.words).rstrip() for each in lines]
    return [" ".join(held) for _, held in lines]


def length(value: Fraction) -> Length:
    return Length(value, Unit.INCH, Role.DISTANCE, (), with_unit=True)


# Type.


def test_body_text_is_black_and_of_ten_points_or_more() -> None:
    assert STYLES.body.fontSize >= 10.3
    assert STYLES.body.textColor.hexval() == "0x000000"
    assert STYLES.reading.fontSize >= 13
    assert STYLES.small.fontSize >= 9
    assert STYLES.cell.fontSize >= 9.5


def test_strong_words_are_bold_and_quiet_ones_italic_in_black_of_the_same_size() -> None:
    plain, bold, soft = fragments(line("cut ", strong("now"), quiet(" or later")), STYLES.group)
    assert plain.fontName == bold.fontName == pdf_font_name(Font.SANS_BOLD)
    assert soft.fontName == pdf_font_name(Font.SANS_ITALIC)
    assert plain.textColor == soft.textColor
    assert {plain.fontSize, bold.fontSize, soft.fontSize} == {STYLES.group.fontSize}


# Words that are typed.


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("the page's edge", "the page’s edge"),
        ('"Low tide", it said', "“Low tide”, it said"),
        ("4 1/2 x 6", "4¹⁄₂ × 6"),
        ("a 3/8 strip", "a ³⁄₈ strip"),
        ("on 3/8/2041", "on 3/8/2041"),
        ("a 2/1 bow", "a 2/1 bow"),
        ('12" long', '12" long'),
        ('the "12" page, 6" wide', 'the “12” page, 6" wide'),
        ("Gran's page, 4 x 6", "Gran’s page, 4 × 6"),
        ("4x6, 1/2 in x 3 in, 5 cm x 7", "4 × 6, ¹⁄₂ in × 3 in, 5 cm × 7"),
        ("box 4 xylophone", "box 4 xylophone"),
    ],
)
def test_a_designer_s_words_are_set_as_a_typesetter_would(typed: str, printed: str) -> None:
    assert plain_text((Own(typed, ()),)).replace("\u00a0", " ") == printed
    assert lines_of((Own(typed, ()),), 300.0)[0].replace("\u00a0", " ") == printed


def test_words_of_the_language_are_printed_as_they_are() -> None:
    assert lines_of((Words("1/2 'x'"),), 300.0) == ["1/2 'x'"]


@pytest.mark.parametrize(
    "typed", ["<b>bold</b>", "a & b &amp; c", "</para>", "<onDraw name='x'/>", "%s {0} \\n"]
)
def test_no_word_is_read_as_markup(typed: str) -> None:
    assert "".join(lines_of((Words(typed),), 300.0)) == typed


# Where lines break.


def test_a_number_keeps_its_unit() -> None:
    said = line("Lay it ", length(Fraction(35, 8)), " down and ", length(Fraction(9)), " across.")
    for width in WIDTHS:
        assert not any(each.startswith("in") for each in lines_of(said, width))


def test_a_ring_keeps_the_word_before_it_and_the_point_after_it() -> None:
    said = line(
        "Slide the tag under ",
        StepRef("low-tide", 12),
        ". Then glue ",
        StepRef("low-tide", 3),
        ", not before.",
    )
    for width in WIDTHS:
        for each in lines_of(said, width):
            assert not each.strip().startswith((".", ",", "12", "3"))


def test_the_last_word_of_a_text_does_not_stand_alone() -> None:
    said = line("Turn the paper as the arrow shows. The same side always stays up.")
    for width in range(110, 330):
        assert lines_of(said, width)[-1] != "up."


def test_a_name_of_few_words_may_end_in_one_word() -> None:
    assert "\u00a0" not in "".join(lines_of(line("The Slow Train Uphill"), 300.0))


GERMAN = "Herbstblätterdurcheinander und Laternenanzünderinnen"


@pytest.mark.parametrize("language", ["de", "de-AT", "en"])
def test_a_word_wider_than_its_column_is_hyphenated(language: str) -> None:
    styles = setup_of(document(language=language)).styles
    lines = lines_of(line(GERMAN), 62.0, styles.cell)
    torn = [each for each in lines if each.isalpha() and each not in GERMAN.split()]
    assert len(lines) >= 4
    assert "".join(each.removesuffix("-") for each in lines).replace(" ", "") == GERMAN.replace(" ", "")
    assert all(any(word.endswith(each) for word in GERMAN.split()) for each in torn)


def test_german_is_hyphenated_between_its_syllables() -> None:
    styles = setup_of(document(language="de")).styles
    first = lines_of(line("Laternenanzünderinnen"), 62.0, styles.cell)[0]
    assert first in ("Later-", "Laternen-", "Laternenan-")


def test_a_word_of_five_hundred_letters_breaks_with_a_hyphen_on_every_line() -> None:
    lines = lines_of(line("x" * 500), 200.0)
    assert all(each.endswith("-") for each in lines[:-1])
    assert sum(each.count("x") for each in lines) == 500


@pytest.mark.parametrize("fitting", [3, 4, 7])
def test_what_goes_on_over_pages_keeps_its_lines_two_of_them_together_at_least(fitting: int) -> None:
    said = line(Words("ebb " * 9), StepRef("", 1), Words(" " + "x" * 200 + " low water" * 12))
    whole = lines_of(said, 120.0)
    parts: list[list[str]] = []
    rest = paragraph(said, STYLES.body)
    while split := rest.split(120.0, fitting * STYLES.body.leading):
        for part in split:
            part.wrap(120.0, 1000.0)
        parts.append(broken(split[0]))
        if len(split) == 1:
            break
        rest = split[1]
    assert [each for part in parts for each in part] == whole
    assert all(2 <= len(part) <= fitting for part in parts)


def test_an_ordinary_word_is_never_hyphenated() -> None:
    said = line("Choose three close portraits: heads of one size make the whole row look like a carriage.")
    for width in range(120, 330, 3):
        assert "-" not in "".join(lines_of(said, width))


def test_words_that_are_kept_together_part_where_no_line_holds_them() -> None:
    lines = lines_of(line("waterproof\u00a0undercoat"), 60.0)
    assert lines == ["waterproof", "undercoat"]


def test_the_width_of_a_line_is_what_it_takes() -> None:
    said = line("Rail ", CutRef("iron", 3), " to ", PocketRef("5"))
    width = line_width(said, STYLES.body)
    assert len(lines_of(said, width + 0.1)) == 1
    assert len(lines_of(said, width - 1.0)) == 2


# On the page.


def test_numbers_in_signs_are_read_in_their_place() -> None:
    said = text(
        "Cut at ", CutRef("iron", 1), ", slide under ", StepRef("tide", 6), ", file in ", PocketRef("5"), "."
    )
    page = read(document(section("signs", said)))[0]
    assert "Cutat1,slideunder6,filein5." in said_on(page).replace(" ", "")


def test_what_is_no_word_is_broken_but_a_few_times_in_a_line() -> None:
    def parts(text: str) -> list[str]:
        return hyphenated(text, "en", 30).split(SOFT_HYPHEN)

    word, no_word = "½" * 100, "½" * 2000
    assert parts(word) == [word[:3], *word[3:-3], word[-3:]]
    assert "".join(parts(no_word)) == no_word
    assert len(parts(no_word)) < 250
    assert max(map(len, parts(no_word))) <= 30
