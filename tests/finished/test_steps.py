"""Steps as they are printed: every number of a step stands in a ring, every tip in its step."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import pi

from booklet.content.blocks import LayoutView, Section, StepItem
from booklet.content.figures import NumberedLayout
from booklet.content.spans import CutRef, Line, StepRef
from booklet.kit.fields import Edge
from booklet.proof.at_table import arrow_tips, finished_page
from booklet.proof.printed import POINTS_PER_MM, Box, Letter, Page
from tests.finished.book import Part, squeezed
from tests.finished.expected import (
    Piece,
    Printed,
    all_of,
    layout_sections,
    part_of,
    printed,
    said,
    sentences,
    step_line,
    steps_of,
)
from tests.finished.kits import Finished
from tests.finished.listing import listed
from tests.finished.signs import WHITE, Numbered, encircled, letters_right_of, numbered

# Rings may take so much of the finished page that they stand on.
MOST_COVERED = 0.2


def lines_of_steps(finished: Finished) -> Iterator[tuple[Section, Part, Line]]:
    """Every sentence of the layouts, with where it is printed."""
    for section in layout_sections(finished.document):
        part = part_of(finished.book, section)
        for line in sentences(section):
            yield section, part, line


def best(finished: Finished, part: Part, line: Line) -> Printed | None:
    """A line where it is printed with its signs, if there is such a place; else wherever it stands."""
    places = list(printed(finished.book, line, part.start, part.end))
    return next((found for found in places if not bare_signs(found)), places[0] if places else None)


def bare_signs(found: Printed) -> list[Piece]:
    """The numbers of steps or cuts that stand in no circle of their own."""
    bare = []
    for piece, places in found.pieces:
        if isinstance(piece.span, StepRef | CutRef):
            circles = {circle_of(place.page, place.letter) for place in places}
            if len(circles) != 1 or None in circles or not is_alone(next(iter(circles)), piece):
                bare.append(piece)
    return bare


def circle_of(page: Page, letter: Letter) -> Numbered | None:
    """The circle about a letter."""
    return next((each for each in numbered(page) if any(letter is own for own in each.letters)), None)


def is_alone(circle: Numbered | None, piece: Piece) -> bool:
    """Whether a circle holds just this number."""
    return circle is not None and str(circle.number) == piece.text


def test_every_step_that_a_sentence_names_stands_in_a_ring(finished: Finished) -> None:
    wrong = []
    for _, part, line in lines_of_steps(finished):
        if any(isinstance(span, StepRef | CutRef) for span in line):
            found = best(finished, part, line)
            assert found is not None, f"{part.title}: not printed as one: {line}"
            wrong += [
                f"p. {found.start.page.number}, {part.title}: {piece.text} stands bare"
                for piece in bare_signs(found)
            ]
    assert not wrong, listed(wrong)


def test_no_other_number_of_a_sentence_stands_in_a_ring(finished: Finished) -> None:
    wrong = []
    for _, part, line in lines_of_steps(finished):
        found = best(finished, part, line)
        for piece, places in found.pieces if found else ():
            if not piece.is_sign and any(id(place.letter) in encircled(place.page) for place in places):
                wrong.append(f"p. {places[0].page.number}, {part.title}: {piece.text} stands in a ring")
    assert not wrong, listed(wrong)


def test_every_step_begins_with_its_number_in_a_disc(finished: Finished) -> None:
    wrong = []
    count = 0
    for section in layout_sections(finished.document):
        part = part_of(finished.book, section)
        for step in steps_of(section):
            count += 1
            found = printed_step(finished, part, step)
            if found is None:
                wrong.append(f"{part.title}: step {step.number} is not printed as one")
            elif not any(
                is_before(each, found) for each in numbered(found.start.page) if each.number == step.number
            ):
                wrong.append(
                    f"p. {found.start.page.number}, {part.title}: step {step.number} has no number before it"
                )
    assert count
    assert not wrong, listed(wrong)


def printed_step(finished: Finished, part: Part, step: StepItem) -> Printed | None:
    """Where the first part of a step is printed."""
    return best(finished, part, step_line(step.parts[0]))


def is_before(number: Numbered, found: Printed) -> bool:
    """Whether a number stands left of the first line of a step."""
    letter, box = found.start.letter, number.circle.box
    return 0 <= letter.box.left - box.right < 24 and box.top < letter.baseline < box.bottom + 1.0


def test_steps_are_printed_in_their_order(finished: Finished) -> None:
    wrong = []
    for section in layout_sections(finished.document):
        part = part_of(finished.book, section)
        places = [printed_step(finished, part, step) for step in steps_of(section)]
        starts = [(found.start.page.number, found.start.letter.box.top) for found in places if found]
        if starts != sorted(starts) or len(starts) != len(places):
            wrong.append(f"{part.title}: {starts}")
    assert not wrong, listed(wrong)


def test_every_step_has_its_ring_on_the_finished_page(finished: Finished) -> None:
    wrong = []
    for section in layout_sections(finished.document):
        page = part_of(finished.book, section).first
        rings = {each.number for each in numbered(page) if is_on_picture(page, each)}
        missing = {step.number for step in steps_of(section)} - rings
        wrong += [f"p. {page.number}, {section.anchor}: no ring {number}" for number in sorted(missing)]
    assert not wrong, listed(wrong)


def is_on_picture(page: Page, ring: Numbered) -> bool:
    """Whether a ring stands in a wider disc of white, as one does that lies on a picture."""
    return any(
        casing.fill == WHITE
        and casing.box.holds(ring.circle.box)
        and casing.box.width > ring.circle.box.width + 1.0
        and casing.box.width < 2 * ring.circle.box.width
        for casing in page.circles
    )


def page_outline(page: Page) -> Box:
    outline = finished_page(page)
    assert outline is not None, f"p. {page.number}: no finished page"
    return outline


def test_every_flag_has_its_steps_beside_its_value(finished: Finished) -> None:
    wrong = []
    count = 0
    for section in layout_sections(finished.document):
        page = part_of(finished.book, section).first
        request = next(all_of(LayoutView, section.blocks)).picture.figure
        assert isinstance(request, NumberedLayout)
        for flag in request.flags:
            count += 1
            value = said((replace(flag.value, with_unit=False),))
            rings = [each for each in numbered(page) if not is_on_picture(page, each)]
            own = [each for each in rings if each.number in flag.steps]
            wanted = (value, f"{value}{flag.value.unit.value}")
            if not any(value_beside(page, each) in wanted for each in own):
                wrong.append(f"p. {page.number}, {section.anchor}: no flag {value} with step {flag.steps}")
            if not set(flag.steps) <= {each.number for each in own}:
                wrong.append(f"p. {page.number}, {section.anchor}: not all steps {flag.steps} at {value}")
    assert count
    assert not wrong, listed(wrong)


def test_every_flag_points_to_its_value_on_the_edge_of_the_page(finished: Finished) -> None:
    wrong = []
    for section in layout_sections(finished.document):
        page = part_of(finished.book, section).first
        request = next(all_of(LayoutView, section.blocks)).picture.figure
        assert isinstance(request, NumberedLayout)
        outline = page_outline(page)
        unit = outline.width / float(finished.resolved.layouts[request.layout].size.width)
        for flag in request.flags:
            length = float(flag.value.value) * unit
            place = {
                Edge.LEFT: outline.left + length,
                Edge.RIGHT: outline.right - length,
                Edge.TOP: outline.top + length,
                Edge.BOTTOM: outline.bottom - length,
            }[flag.start]
            ends = arrow_tips(page, outline, flag.along)
            if all(abs(end - place) > 0.3 * POINTS_PER_MM for end in ends):
                wrong.append(
                    f"p. {page.number}: no arrow or stroke at {said((flag.value,))} from {flag.start.value}"
                )
    assert not wrong, listed(wrong)


def value_beside(page: Page, ring: Numbered) -> str:
    """What stands right of a ring and of others beside it, letter by letter up to a gap."""
    letters = letters_right_of(page, ring.circle.box, 80.0)
    held = letters[:1]
    for letter in letters[1:]:
        if letter.box.left - held[-1].box.right > 0.5 * letter.size:
            break
        held.append(letter)
    return squeezed("".join(letter.text for letter in held))


def test_rings_leave_four_fifths_of_a_finished_page_to_be_seen(finished: Finished) -> None:
    wrong = []
    for section in layout_sections(finished.document):
        page = part_of(finished.book, section).first
        outline = page_outline(page)
        inside = [each.circle.box for each in numbered(page) if outline.holds_point(each.circle.box.centre)]
        share = sum(pi / 4 * box.width**2 for box in inside) / (outline.width * outline.height)
        if share > MOST_COVERED:
            wrong.append(
                f"p. {page.number}: {share:.0%} of {outline.width:.0f} x {outline.height:.0f} pt is covered"
            )
    assert not wrong, listed(wrong)
