"""Kits with as many words and things as a spec may hold: all of them stand on pages, on the smallest too."""

from __future__ import annotations

from collections.abc import Iterator
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
import yaml

from booklet.cli.starter import STARTER_SPEC
from booklet.kit.errors import SpecError
from booklet.kit.load import parse_kit
from booklet.pages.booklet import LaidBooklet, make_booklet
from booklet.pages.boxes import all_in
from booklet.pages.flow import column_height
from booklet.pages.text import TextBlock
from booklet.placing.resolved import resolve_kit

STARTER: Any = yaml.load(STARTER_SPEC, Loader=yaml.BaseLoader)
SMALLEST = "square 15 cm"


def words(count: int) -> str:
    """A text of so many letters whose last word is told from the others."""
    return ("mount " * count)[: count - 4] + " end"


def kit(page: str = SMALLEST, layout: dict[str, Any] | None = None, **more: Any) -> dict[str, Any]:
    """The starter with other keys, and other keys of its one layout."""
    data = {**deepcopy(STARTER), "page": page, **more}
    data["layouts"] = [{**data["layouts"][0], **(layout or {})}, *data["layouts"][1:]]
    return data


def laid(data: dict[str, Any]) -> LaidBooklet:
    return make_booklet(resolve_kit(parse_kit(yaml.safe_dump(data), "kit.yaml", Path())))


def said_on(booklet: LaidBooklet) -> Iterator[str]:
    """All that is said, line by line: a paragraph that goes on over the page is said on both."""
    for page in booklet.pages:
        for placed in page.column:
            for each in all_in(placed.flowable):
                if isinstance(each, TextBlock):
                    each.wrap(each.width, 0.0)
                    yield from each.line_texts[each.lines]


def steps_with(*more: dict[str, Any]) -> dict[str, Any]:
    return {"steps": [*STARTER["layouts"][0]["steps"], *more]}


MANY_CUTS = {
    "id": "many",
    "paper": "plain-sand",
    "cuts": [{"at": [f"{11 - at / 8:g}" for at in range(60)], "leaves": ["bit"] * 61}],
    "spare": ["bit"],
}
STRING = {"id": "string", "kind": "ribbon", "length": "36", "from": "home", "tip": words(2000)}
FULL = {
    "a title, a publisher and a month": kit(title=words(100), publisher=words(100), month=words(100)),
    "a caution": kit(cautions=[words(2000)]),
    "a tip for a supply": kit(supplies=[STRING]),
    "a story": kit(layout={"story": words(2000), "title": words(200)}),
    "a tip and more to say of a step": kit(
        layout=steps_with({"do": words(2000), "tip": words(2000)}, {"do": words(2000)})
    ),
    "a cut with a tip": kit(
        sheets=[{**STARTER["sheets"][0], "tip": words(2000), "title": words(200)}, STARTER["sheets"][1]]
    ),
}


@pytest.mark.parametrize("name", FULL)
def test_as_many_words_as_a_spec_may_hold_stand_on_pages(name: str) -> None:
    booklet = laid(FULL[name])
    assert_on_pages(booklet)
    assert any(line.endswith("end") for line in said_on(booklet))


def assert_on_pages(booklet: LaidBooklet) -> None:
    """Nothing stands below the foot of its page."""
    for page in booklet.pages:
        assert column_height(page.column) <= booklet.setup.grid.text_height + 1e-6


@pytest.mark.parametrize("page", [SMALLEST, pytest.param("half letter", marks=pytest.mark.thorough)])
def test_a_page_of_many_things_tells_each_of_them(page: str) -> None:
    booklet = laid(kit(page, steps_with(*[{"write": "6 x 2", "on": "title block"}] * 140)))
    assert_on_pages(booklet)
    # The first ones are told with the step that lays what they stand on.
    assert sum(line.startswith("To write in") for line in said_on(booklet)) == 138


@pytest.mark.parametrize("page", [SMALLEST, "half letter"])
def test_a_sheet_of_sixty_cuts_goes_on_over_the_page(page: str) -> None:
    booklet = laid(kit(page, sheets=[*STARTER["sheets"], MANY_CUTS]))
    assert_on_pages(booklet)
    assert {"11", "3⁵⁄₈"} <= set(said_on(booklet))


def test_flags_that_leave_no_room_for_the_page_are_left_out() -> None:
    string = {"id": "string", "kind": "ribbon", "length": "9000", "width": "1/64"}
    strung = [{"ribbon": "string", "run": "across", "top": f"{at}/20", "ends": "1"} for at in range(1, 181)]
    booklet = laid(kit("half letter", steps_with(*strung), supplies=[string]))
    assert_on_pages(booklet)
    distances = [line for line in said_on(booklet) if "top edge" in line]
    assert len(distances) == 180


def test_tall_pages_are_drawn_as_high_as_a_page_of_the_booklet_holds() -> None:
    sheets = [{"id": name, "paper": "plain-sand"} for name in ("dawn", "dusk")]
    layouts = [
        {"id": "east", "pocket": 1, "base": "dawn", "facing": "west", "steps": [{"do": "Press it flat."}]},
        {"id": "west", "pocket": 2, "base": "dusk", "steps": [{"do": "Press it flat."}]},
    ]
    tall = {**kit(sheet="150 x 290 mm", sheets=sheets, ready=[]), "layouts": layouts}
    assert_on_pages(laid(tall))


@pytest.mark.parametrize("key", ["title", "publisher", "month"])
def test_what_a_cover_has_no_room_for_is_told_with_its_line(key: str) -> None:
    text = yaml.safe_dump({**kit(), key: words(101)}, sort_keys=False, width=10_000)
    line = next(at for at, typed in enumerate(text.splitlines(), 1) if typed.startswith(f"{key}:"))
    with pytest.raises(SpecError, match=rf"^kit\.yaml:{line}: {key}: .* words of at most 100 letters"):
        parse_kit(text, "kit.yaml", Path())
