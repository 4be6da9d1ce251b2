"""The type of a finished booklet: how large it is, how high its fractions are, how it stands out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.content.blocks import SlipRow
from booklet.proof.grounds import contrast, grounds_of
from booklet.proof.printed import DENOMINATORS, NUMERATORS, POINTS_PER_MM, Letter, Page
from tests.finished.book import squeezed
from tests.finished.expected import (
    Printed,
    always_printed,
    part_of,
    pieces_of,
    printed,
    rows_of,
    said,
    sentences,
    sheet_sections,
)
from tests.finished.kits import Finished
from tests.finished.listing import listed
from tests.finished.signs import letters_right_of, numbered

LEAST, TEXT, READING = 9.0, 10.0, 13.0
READING_FIGURE = 2.3 * POINTS_PER_MM
# A size is written to a hundredth of a point, and an outline's extreme may lie between two units of the face.
SLACK, SHARE_SLACK = 0.011, 0.005
# WCAG 2 (from memory): text wants this contrast to its ground.
CONTRAST = 4.5


def where(page: Page, letter: Letter) -> str:
    """A letter and its place, for a message."""
    x, y = letter.box.centre
    return f"p. {page.number} at {x:.0f}, {y:.0f}: {letter.text!r} {letter.size:.2f} pt"


def test_nothing_is_set_under_nine_points(finished: Finished) -> None:
    letters = [(page, letter) for page in finished.book.pages for letter in page.ink]
    assert len(letters) > 1000
    small = [where(*each) for each in letters if each[1].size < LEAST - SLACK]
    assert not small, listed(small)


def test_text_and_steps_are_set_in_ten_points_or_more(finished: Finished) -> None:
    book = finished.book
    wrong = []
    for section in always_printed(finished.document):
        part = part_of(book, section)
        for line in filter(said, sentences(section)):
            # A few words may stand in a figure as well.
            sizes = [least_size(found) for found in printed(book, line, part.start, part.end)]
            if max(sizes, default=0.0) < TEXT - SLACK:
                wrong.append(f"{part.title} {sizes or 'not printed as one'}: {said(line)[:60]}")
    assert not wrong, listed(wrong)


def least_size(found: Printed) -> float:
    """The least size of a printed line's letters, but for numbers in signs."""
    return min(place.letter.size for piece, places in found.pieces if not piece.is_sign for place in places)


def test_each_reading_stands_beside_its_cuts_number_in_thirteen_points(finished: Finished) -> None:
    wrong = []
    for section in sheet_sections(finished.document):
        pages = part_of(finished.book, section).pages
        for row in rows_of(section):
            assert row.cut is not None
            name = f"{said(section.title)}, cut {row.cut.number}"
            letters = next(printed_readings(pages, row), None)
            if letters is None:
                wrong.append(f"{name}: its reading is not beside its number")
            else:
                wrong += [f"{name}: {fault}" for fault in faults_of_reading(letters)]
    assert not wrong, listed(wrong)


def faults_of_reading(letters: Sequence[Letter]) -> Iterator[str]:
    """Letters of a reading that are set too small, figures of its fraction that are too low."""
    for letter in letters:
        if letter.size < READING - SLACK:
            yield f"{letter.text} {letter.size:.2f} pt"
        if letter.text in NUMERATORS + DENOMINATORS and letter.figure_height < READING_FIGURE - SLACK:
            yield f"{letter.text} {letter.figure_height:.2f} pt high"


def printed_readings(pages: tuple[Page, ...], row: SlipRow) -> Iterator[list[Letter]]:
    """The letters of a reading where they stand right of its cut's number."""
    assert row.cut is not None
    assert row.reading is not None
    wanted = "".join(piece.text for piece in pieces_of((row.reading,)))
    for page in pages:
        for each in numbered(page):
            if each.number == row.cut.number and each.is_disc:
                letters = letters_right_of(page, each.circle.box, 90.0)
                for end in range(1, len(letters) + 1):
                    if squeezed("".join(letter.text for letter in letters[:end])) == wanted:
                        yield letters[:end]
                        break


def test_the_figures_of_a_fraction_are_half_as_high_as_their_size(finished: Finished) -> None:
    figures = [
        (page, letter)
        for page in finished.book.pages
        for letter in page.ink
        if letter.text in NUMERATORS + DENOMINATORS
    ]
    if finished.resolved.kit.unit.value == "in":
        assert len(figures) > 20
    low = [where(*each) for each in figures if each[1].figure_height < (0.5 - SHARE_SLACK) * each[1].size]
    assert not low, listed(low)


def test_every_letter_stands_out_from_its_ground(finished: Finished) -> None:
    faint = []
    for page in finished.book.pages:
        for letter, grounds in grounds_of(page):
            for ground in grounds:
                if ground is None:
                    faint.append(f"{where(page, letter)} stands on a picture")
                elif contrast(letter.colour, ground) < CONTRAST:
                    faint.append(f"{where(page, letter)} {contrast(letter.colour, ground):.2f} on {ground}")
    assert not faint, listed(faint)
