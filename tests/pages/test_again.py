"""One sheet or layout laid out again: the page that the whole booklet would have."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pypdfium2
import pytest
from PIL import Image, ImageChops

from booklet.content.artist import RingProcess
from booklet.drawing.layouts.ring_places import RingPlace, place_rings
from booklet.drawing.layouts.ring_question import RingQuestion
from booklet.kit.load import parse_kit
from booklet.pages.again import lay_section_again, write_page_again
from booklet.pages.booklet import LaidBooklet, make_booklet, write_booklet
from booklet.placing.resolved import ResolvedKit, resolve_kit
from tests.once import laid_once, written_once

KITS = Path(__file__).parents[2] / "kit_specs"
SPEC = (KITS / "roof-garden.yaml").read_text()


def resolved(text: str, before: ResolvedKit | None = None) -> ResolvedKit:
    return resolve_kit(parse_kit(text, "roof-garden.yaml", KITS), before)


@cache
def usual() -> tuple[ResolvedKit, LaidBooklet]:
    kit = resolved(SPEC)
    return kit, laid_once(kit)


@cache
def usual_pictures() -> list[Image.Image]:
    return pictures(written_once(usual()[1]))


def pictures(pdf: bytes) -> list[Image.Image]:
    return [page.render(scale=1.0).to_pil().convert("RGB") for page in pypdfium2.PdfDocument(pdf)]


def anchors(laid: LaidBooklet) -> list[str]:
    begun = (part.section.anchor for page in laid.pages for part in page.parts if part.begins)
    return [anchor for anchor in begun if anchor.startswith(("sheet-", "layout-"))]


def test_every_sheet_and_layout_comes_out_as_it_stands_in_the_booklet() -> None:
    kit, laid = usual()
    whole = usual_pictures()
    assert len(anchors(laid)) > 6
    for anchor in anchors(laid):
        again = lay_section_again(laid, kit, anchor)
        assert again is not None, anchor
        for number in again.pages:
            (page,) = pictures(write_page_again(again, number).pdf)
            assert ImageChops.difference(page, whole[number - 1]).getbbox() is None, (anchor, number)


CHANGES = [
    pytest.param(
        *("at: [22.5, 15, 7.5]", "at: [22, 15, 7.5]", "sheet-"),
        id="a cut is set elsewhere",
        marks=pytest.mark.thorough,
    ),
    pytest.param(
        "pea packet, right: 3.5, top: 0.7", "pea packet, right: 4, top: 1", "layout-", id="a piece moves"
    ),
    pytest.param(
        *("title: First light", "title: Last light", "layout-"),
        id="a layout is called otherwise",
        marks=pytest.mark.thorough,
    ),
]


@pytest.mark.parametrize(("typed", "instead", "kind"), CHANGES)
def test_a_changed_page_is_that_of_the_booklet_made_anew(typed: str, instead: str, kind: str) -> None:
    before, laid = usual()
    changed = SPEC.replace(typed, instead)
    assert changed != SPEC
    now = resolved(changed, before)
    anew = make_booklet(resolved(changed))
    whole, old = pictures(write_booklet(anew)), usual_pictures()
    differing = 0
    for anchor in (anchor for anchor in anchors(laid) if anchor.startswith(kind)):
        again = lay_section_again(laid, now, anchor)
        assert again is not None
        for number in again.pages:
            (page,) = pictures(write_page_again(again, number).pdf)
            assert ImageChops.difference(page, whole[number - 1]).getbbox() is None
            differing += ImageChops.difference(page, old[number - 1]).getbbox() is not None
    assert differing


class Watched(RingProcess):
    """A second process that notes which questions it is asked, and which replies it gives."""

    def __init__(self) -> None:
        super().__init__(place_rings)
        self.asked: list[RingQuestion] = []
        self.used: list[RingQuestion] = []

    def ask(self, question: RingQuestion) -> None:
        self.asked.append(question)
        super().ask(question)

    def reply(self, question: RingQuestion) -> tuple[RingPlace, ...]:
        self.used.append(question)
        return super().reply(question)


def test_numbers_that_find_their_places_in_a_second_process_stand_where_they_do_without() -> None:
    kit, laid = usual()
    second = Watched()
    for anchor in anchors(laid):
        alone, beside = (
            lay_section_again(laid, kit, anchor),
            lay_section_again(laid, kit, anchor, second=second),
        )
        assert alone is not None
        assert beside is not None
        for number in alone.pages:
            assert write_page_again(beside, number).pdf == write_page_again(alone, number).pdf
    second.close()
    # Each layout asks once, and what it asks for is what it draws; sheets have nothing to ask.
    assert len(second.asked) == len(kit.layouts)
    assert second.used == second.asked


def test_what_has_no_pages_of_its_own_is_laid_out_with_all_the_rest() -> None:
    kit, laid = usual()
    assert lay_section_again(laid, kit, "welcome") is None
    assert lay_section_again(laid, kit, "no such place") is None


def test_more_pages_than_before_change_the_whole_booklet() -> None:
    before, laid = usual()
    step = "      - {ink: pea packet, say: A little brown makes it look well thumbed.}\n"
    look = "      - {do: Look at it from afar and move it to where it looks best.}\n"
    now = resolved(SPEC.replace(step, step + 30 * look), before)
    assert lay_section_again(laid, now, "layout-first-light") is None
