"""The designer's words: all of a spec is printed, and each tip stands before what it is about."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from booklet.content.blocks import Section
from booklet.content.spans import Own
from tests.finished.book import Found, Part
from tests.finished.expected import (
    all_of,
    layout_sections,
    part_of,
    said,
    sheet_sections,
    step_line,
    steps_of,
)
from tests.finished.kits import Finished
from tests.finished.listing import listed
from tests.finished.signs import letters_right_of, numbered

# The keys of a spec whose values are printed as typed.
WORDS = ("tip", "say", "story", "title", "welcome", "publisher", "month", "do")
LISTS = ("cautions", "bring", "pocket_tips")


def typed_words(
    spec: object, path: tuple[str | int, ...] = ()
) -> Iterator[tuple[tuple[str | int, ...], str]]:
    """Every text of a spec that is to be printed, with where it is typed."""
    if isinstance(spec, dict):
        for key, value in spec.items():
            here = (*path, key)
            if key in WORDS and isinstance(value, str):
                yield here, value
            elif key in LISTS and isinstance(value, dict | list):
                texts = value.items() if isinstance(value, dict) else enumerate(value)
                yield from (((*here, at), text) for at, text in texts)
            else:
                yield from typed_words(value, here)
    elif isinstance(spec, list):
        for at, value in enumerate(spec):
            yield from typed_words(value, (*path, at))


def test_all_words_of_the_spec_are_printed(finished: Finished) -> None:
    words = [(path, text) for path, text in typed_words(finished.spec) if is_for_print(finished.spec, path)]
    assert len(words) > 8
    missing = [
        f"{'.'.join(map(str, path))}: {text}" for path, text in words if finished.book.find(text) is None
    ]
    assert not missing, listed(missing)


def is_for_print(spec: dict[str, Any], path: tuple[str | int, ...]) -> bool:
    """Whether a text is for print: a paper gives its title to those of its sheets that have none."""
    if path[0] != "papers":
        return True
    return any(sheet["paper"] == path[1] and "title" not in sheet for sheet in spec["sheets"])


def test_no_quote_is_printed_as_it_is_typed(finished: Finished) -> None:
    """An inch mark after a figure is no quote."""
    straight = [
        f"p. {page.number}: {page.text[max(at - 20, 0) : at + 8]!r}"
        for page in finished.book.pages
        for at, letter in enumerate(page.text)
        if letter == "'" or (letter == '"' and not page.text[at - 1].isdecimal())
    ]
    assert not straight, listed(straight)


def first(finished: Finished, part: Part, text: str) -> Found | None:
    return finished.book.find(text, part.start, part.end)


# At the trimmer.


def test_the_tip_of_a_sheet_stands_above_its_first_reading(finished: Finished) -> None:
    wrong = []
    for section in sheet_sections(finished.document):
        part = part_of(finished.book, section)
        spec = next(each for each in finished.spec["sheets"] if section.anchor == f"sheet-{each['id']}")
        if "tip" in spec:
            wrong += late(part, first(finished, part, spec["tip"]), reading_top(part, 1), spec["tip"])
    assert not wrong, listed(wrong)


def test_the_tip_of_a_cut_step_stands_above_its_first_reading(finished: Finished) -> None:
    wrong = []
    for section in sheet_sections(finished.document):
        part = part_of(finished.book, section)
        at = next(
            at for at, each in enumerate(finished.spec["sheets"]) if section.anchor == f"sheet-{each['id']}"
        )
        sheet = next(sheet for sheet in finished.resolved.sheets if sheet.index == at)
        for number, cuts in enumerate(finished.spec["sheets"][at].get("cuts", ())):
            stages = [stage for stage in sheet.stages if stage.where[:4] == ("sheets", at, "cuts", number)]
            if "tip" in cuts and stages:
                cut = stages[0].cuts[0].number
                wrong += late(part, first(finished, part, cuts["tip"]), reading_top(part, cut), cuts["tip"])
    assert not wrong, listed(wrong)


def reading_top(part: Part, cut: int) -> tuple[int, float] | None:
    """The page on which the reading of a cut stands beside its number, and how far down."""
    places = [
        (page.number, each.circle.box.top)
        for page in part.pages
        for each in numbered(page)
        if each.number == cut
        and each.is_disc
        and any(letter.size > 12 for letter in letters_right_of(page, each.circle.box, 30.0))
    ]
    return min(places, default=None)


def late(part: Part, tip: Found | None, reading: tuple[int, float] | None, text: str) -> list[str]:
    """What is wrong with a tip that is missing, or that does not stand before a reading."""
    if reading is None:
        return [f"{part.title}: no reading for the tip: {text}"]
    if tip is None:
        return [f"{part.title}: not in its part: {text}"]
    end = (tip.places[-1].page.number, tip.bottom)
    return [] if end < reading else [f"p. {end[0]}, {part.title}: below its first reading: {text}"]


# At the table.


def test_the_tip_of_a_layout_stands_above_its_first_step(finished: Finished) -> None:
    wrong = []
    for section in layout_sections(finished.document):
        part, spec = part_of(finished.book, section), layout_spec(finished, section)
        step = finished.book.find(said(step_line(steps_of(section)[0].parts[0])), part.start, part.end)
        if "tip" in spec:
            tip = first(finished, part, spec["tip"])
            if tip is None or step is None or not tip.is_above(step):
                page = tip.page.number if tip else "?"
                wrong.append(f"p. {page}, {part.title}: not above the steps: {spec['tip']}")
    assert not wrong, listed(wrong)


def test_the_tip_of_a_step_stands_in_its_step(finished: Finished) -> None:
    wrong: list[str] = []
    for section in layout_sections(finished.document):
        part, spec = part_of(finished.book, section), layout_spec(finished, section)
        at = finished.spec["layouts"].index(spec)
        number = 0
        for step in spec["steps"]:
            for key in ("tip", "say"):
                if key in step:
                    path = ("layouts", at, "steps", number)
                    wrong += misplaced(finished, section, part, path, step[key])
            number += len(step.get("stack", (step,)))  # a stack stands for as many steps
    assert not wrong, listed(wrong)


def misplaced(
    finished: Finished, section: Section, part: Part, path: tuple[str | int, ...], text: str
) -> Iterator[str]:
    """What is wrong with words of a step that do not stand between its beginning and the next step's."""
    steps = steps_of(section)
    own = [
        at
        for at, step in enumerate(steps)
        if any(span.source[:4] == path and span.text == text for span in all_of(Own, step.parts))
    ]
    if not own:
        yield f"{part.title}: in no step: {text}"
        return
    starts = [finished.book.find(said(step_line(step.parts[0])), part.start, part.end) for step in steps]
    start, after = starts[own[0]], starts[own[0] + 1] if own[0] + 1 < len(steps) else None
    assert start is not None
    found = finished.book.find(text, start.start, after.start if after else part.end)
    if found is None:
        yield f"{part.title}: not in step {steps[own[0]].number}: {text}"


def test_the_tip_of_a_pocket_stands_above_the_first_step_of_its_layouts(finished: Finished) -> None:
    wrong: list[str] = []
    for number, text in finished.spec.get("pocket_tips", {}).items():
        tip = finished.book.find(text)
        assert tip is not None
        for section in layout_sections(finished.document):
            part, spec = part_of(finished.book, section), layout_spec(finished, section)
            step = finished.book.find(said(step_line(steps_of(section)[0].parts[0])), part.start, part.end)
            is_before = tip.page.number < part.first.number or (step is not None and tip.is_above(step))
            if spec["pocket"] == number and not is_before:
                wrong.append(f"p. {tip.page.number}: after {spec['title']}: {text}")
    assert not wrong, listed(wrong)


def layout_spec(finished: Finished, section: Section) -> dict[str, Any]:
    """The layout of the spec that a section is about."""
    found = next(each for each in finished.spec["layouts"] if section.anchor == f"layout-{each['id']}")
    assert isinstance(found, dict)
    return found


# Before cutting.


def test_cautions_stand_before_the_first_cut(finished: Finished) -> None:
    first_sheet = min(part_of(finished.book, section).start for section in sheet_sections(finished.document))
    texts = [finished.spec.get("welcome"), *finished.spec.get("cautions", ())]
    wrong = [text for text in texts if text and finished.book.find(text, 0, first_sheet) is None]
    assert not wrong, listed(wrong)
