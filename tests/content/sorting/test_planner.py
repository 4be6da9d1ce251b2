"""The photo planner, and labels for the pockets."""

from __future__ import annotations

import pytest

from booklet.content.artist import Artist, Room, draw
from booklet.content.blocks import Cards, CardStyle
from booklet.content.figures import PhotoFigure, PocketFigure
from booklet.content.sorting.planner import labels_section, planner_section
from booklet.content.words.language import ENGLISH
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.shapes.figure import Text
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.kit import layout_title
from booklet.placing.photos import photo_slots
from tests.content.specs import DEMOS, SMALL, demo, resolved_spec
from tests.content.walking import all_of, said, text_of
from tests.drawing.walking import walk


@pytest.mark.parametrize("name", DEMOS)
def test_the_planner_has_a_line_for_each_photograph_as_it_lies(name: str) -> None:
    kit = demo(name)
    section = planner_section(kit, ENGLISH)
    assert section is not None
    (cards,) = all_of(Cards, section)
    assert cards.style is CardStyle.WRITE
    slots = [(layout, slot) for layout in kit.layouts for slot in photo_slots(layout, kit.kit.unit)]
    assert len(cards.cards) == len(slots)
    for card, (layout, slot) in zip(cards.cards, slots, strict=True):
        (photo,) = all_of(PhotoFigure, card.picture)
        assert photo.size.size == slot.size
        assert said(card.lines[0]).startswith(layout_title(kit.kit.layouts[layout.index]))


def test_a_kit_without_photographs_has_no_planner() -> None:
    assert planner_section(resolved_spec(SMALL), ENGLISH) is None


def test_every_pocket_has_its_label_with_the_layouts_that_it_serves() -> None:
    (cards,) = all_of(Cards, labels_section(demo("hill-line"), ENGLISH))
    assert cards.style is CardStyle.LABEL
    assert [figure.name for figure in all_of(PocketFigure, cards)] == ["1", "2", "3", "4", "5"]
    assert [said(line) for line in cards.cards[0].lines] == ["All aboard", "Platform one"]


def test_a_label_names_a_few_layouts_and_counts_the_others() -> None:
    bases = "".join(f"  - {{id: base{at}, paper: sand}}\n" for at in range(5))
    layouts = "".join(f"  - {{id: page{at}, pocket: 1, base: base{at}}}\n" for at in range(5))
    kit = resolved_spec(SMALL.replace("layouts:", f"{bases}layouts:") + layouts)
    assert "Ebb\nPage0\nPage1\nand three more" in text_of(labels_section(kit, ENGLISH).blocks)


@pytest.mark.parametrize("pocket", ["3", "A12", "front", "WWWWWWWW"])
@pytest.mark.parametrize("wide", [83.0, 40.0])
def test_a_pocket_is_as_large_as_its_room_but_its_name_never_under_9_points(pocket: str, wide: float) -> None:
    kit = resolved_spec(SMALL.replace("pocket: 1", f"pocket: {pocket}"))
    artist = Artist(kit, ENGLISH, KitPapers(kit.kit, kit.images), DrawingStyle())
    figure = draw(artist, PocketFigure(pocket), Room(wide, 64.0))
    (name,) = (leaf for leaf, _ in walk(figure.shapes) if isinstance(leaf, Text))
    assert name.text == pocket
    fills = figure.height == pytest.approx(64.0) or figure.width == pytest.approx(wide)
    assert fills if name.size > 9.0 else figure.width >= wide
    assert name.size >= 9.0
    assert figure.height <= 64.0 + 1e-9
