"""A click on a figure, a piece or a sentence leads to its line: where things stand on the pages."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pymupdf
import pytest

from booklet.content.spans import LineBreak, plain_text
from booklet.kit.load import LoadedKit, parse_kit
from booklet.pages.again import PageAlone, write_page_alone
from booklet.pages.booklet import LaidBooklet
from booklet.pages.compose import page_numbers
from booklet.pages.places import section_pages
from booklet.pages.set_spans import set_spans
from booklet.pages.text import TextBlock
from booklet.placing.resolved import ResolvedKit, resolve_kit
from booklet.proof.claims import numbered_layouts
from booklet.proof.sources import Sources
from booklet.view.places import Place, pages_of, places_on
from tests.once import laid_once

KITS = Path(__file__).parents[2] / "kit_specs"


@cache
def made() -> tuple[LoadedKit, ResolvedKit, LaidBooklet]:
    loaded = parse_kit((KITS / "hill-line.yaml").read_text(encoding="utf-8"), "hill-line.yaml", KITS)
    resolved = resolve_kit(loaded)
    return loaded, resolved, laid_once(resolved)


@cache
def page_of(anchor: str) -> tuple[PageAlone, tuple[Place, ...]]:
    """The first page of a section, and the places on it."""
    _, resolved, laid = made()
    number = section_pages(laid.pages, anchor)[0]
    page = write_page_alone(laid.setup, laid.pages[number - 1], number, page_numbers(laid.pages))
    sources = Sources(resolved, tuple(numbered_layouts(laid)))
    return page, places_on(page, sources, (laid.setup.grid.width, laid.setup.grid.height))


def top_place(places: tuple[Place, ...], x: float, y: float) -> Place:
    """What a click meets: the last of the places there, which are given from the largest on."""
    return [
        each for each in places if each.part[0] <= x <= each.part[2] and each.part[1] <= y <= each.part[3]
    ][-1]


def line_at(anchor: str, x: float, y: float) -> str:
    """The line of the spec to which a click leads."""
    source = made()[0].source
    return source.lines[source.line(top_place(page_of(anchor)[1], x, y).path) - 1].strip()


def middle_of(anchor: str, word: str, nth: int = 0) -> tuple[float, float]:
    """Where a word stands on the page, in parts of it, as another library reads it."""
    with pymupdf.open(stream=page_of(anchor)[0].pdf) as document:
        page = document[0]
        found = [box for *box, said, _, _, _ in page.get_text("words") if said == word]
        left, top, right, bottom = found[nth]
        return (left + right) / 2 / page.rect.width, (top + bottom) / 2 / page.rect.height


SENTENCES = [
    pytest.param("sheet-carriage", "Carriage", "title: Carriage stripe", id="a title"),
    pytest.param("sheet-carriage", "7¹⁄₈", "- at: [7 1/8, 2 1/4]", id="a reading"),
    pytest.param("layout-platform-one", "Choose", "tip: Choose three close portraits. ", id="a tip"),
    pytest.param("layout-platform-one", "Three", "story: Three windows, three faces", id="a story"),
    pytest.param("layout-platform-one", "scallops", "- {place: right canopy, ", id="words said with a step"),
    pytest.param("layout-platform-one", "Sideways", "- {place: carriage band, ", id="the words of a step"),
    pytest.param("layout-platform-one", "board", "- {place: valley board, ", id="a piece that is placed"),
    pytest.param("layout-platform-one", "rivet", "- {id: rivets, kind: brads", id="a supply that is used"),
    pytest.param("layout-platform-one", "8S", "- {take: [first boards, second boards", id="a label"),
]


@pytest.mark.parametrize(("anchor", "word", "line"), SENTENCES)
def test_a_click_on_a_sentence_shows_its_line(anchor: str, word: str, line: str) -> None:
    found = line_at(anchor, *middle_of(anchor, word))
    assert line in found


def test_a_click_on_a_piece_in_the_trimmer_shows_the_cut_that_leaves_it() -> None:
    anchor = "sheet-carriage"
    x, y = middle_of(anchor, "B")
    for down in (0.0, 0.08):  # on its letter, and on its paper
        assert line_at(anchor, x, y + down) == "leaves: [square strip, carriage band, carriage band]"
        place = top_place(page_of(anchor)[1], x, y + down)
        assert place.path == ("sheets", 0, "cuts", 0, "leaves", 1)


def test_a_click_on_what_lies_on_a_layout_shows_its_step() -> None:
    """The number of a ring lies in the middle of the words of its thing; beside it is the thing itself."""
    places = page_of("layout-platform-one")[1]
    x, y = middle_of("layout-platform-one", "8")  # the ring on the space to write in
    assert "write:" in line_at("layout-platform-one", x, y)
    index = next(at for at, each in enumerate(made()[1].kit.layouts) if each.id == "platform-one")
    shown = {place.path for place in places}
    steps = range(len(made()[1].kit.layouts[index].steps))
    assert sum(any(path[:4] == ("layouts", index, "steps", at) for path in shown) for at in steps) > 12


def test_every_place_is_on_its_page_and_of_the_kit() -> None:
    source = made()[0].source
    for anchor in ("sheet-carriage", "sheet-tickets", "layout-platform-one", "layout-summit"):
        places = page_of(anchor)[1]
        assert len(places) > 20
        for place in places:
            left, top, right, bottom = place.part
            assert -0.01 < left < right < 1.01
            assert -0.01 < top < bottom < 1.01
            assert source.line(place.path) > 1


def test_every_span_of_every_paragraph_is_followed_to_where_it_stands() -> None:
    """But for spans without a letter."""
    _, _, laid = made()
    numbers, missed = page_numbers(laid.pages), 0
    for number, page in enumerate(laid.pages, 1):
        for noted in write_page_alone(laid.setup, page, number, numbers).noted:
            block = noted.flowable
            if isinstance(block, TextBlock) and block.lines == slice(None):
                found = {id(span) for span, _ in set_spans(block)}
                wanted = [span for span in block.said if not isinstance(span, LineBreak)]
                missed += sum(
                    id(span) not in found for span in wanted if plain_text((span,)).strip(" \u00a0-")
                )
    assert missed == 0


def test_a_finding_is_shown_where_its_thing_is() -> None:
    near, far = Place((0.1, 0.1, 0.2, 0.2), ("layouts", 2, "steps", 3)), Place((0, 0, 1, 1), ("layouts", 2))
    other = Place((0.5, 0.5, 0.6, 0.6), ("layouts", 1, "steps", 3, "left"))
    places = {4: (far, near), 5: (far,), 6: (other,)}
    assert pages_of(("layouts", 2, "steps", 3, "gap"), places) == ((4, near.part),)
    assert pages_of(("layouts", 2, "title"), places) == ((4, far.part), (5, far.part))
    assert pages_of(("supplies", 0), places) == ()
