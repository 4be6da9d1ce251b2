"""The pages at the end."""

from __future__ import annotations

import pytest

from booklet.content.blocks import Arrangement, SpineEdge
from booklet.content.closing.pages import back_cover_section, keepsake_section
from booklet.content.figures import PaperStrips, PrintCheck, PrintFrame
from booklet.content.words.language import ENGLISH
from booklet.measure.length import Unit, parse_length
from tests.content.specs import DEMOS, SMALL, demo, resolved_spec
from tests.content.walking import all_of, said, text_of


@pytest.mark.parametrize(("name", "sheet"), [("hill-line", "Letter"), ("roof-garden", "A4")])
def test_the_back_cover_says_how_to_print_a_page_or_all_of_them_again(name: str, sheet: str) -> None:
    section = back_cover_section(demo(name).kit, ENGLISH)
    assert section.arrangement is Arrangement.BACK_COVER
    text = text_of(section)
    assert "A page lost? Print it again from the file of single pages: at 100 %" in text
    assert f"on {sheet}, on both sides, flipped on the short edge" in text
    assert "Keep the printed sheets in the order in which they come out." in text
    assert all_of(PrintCheck, section)
    assert all_of(PaperStrips, section)


def test_the_typefaces_are_named_with_what_they_are_derived_from() -> None:
    text = text_of(back_cover_section(demo("hill-line").kit, ENGLISH))
    assert "Booklet Sans and Booklet Serif, derived from Source Sans 3 and Source Serif 4" in text
    assert "SIL Open Font License" in text


def test_the_month_stands_by_the_spine_where_there_is_one() -> None:
    edge = back_cover_section(demo("hill-line").kit, ENGLISH).edge
    assert isinstance(edge, SpineEdge)
    assert said(edge.text) == "The Slow Train Uphill, June 2041"
    assert back_cover_section(resolved_spec(SMALL).kit, ENGLISH).edge is None


@pytest.mark.parametrize(
    ("unit", "width"), [(Unit.INCH, "4 in"), (Unit.CENTIMETRE, "10 cm"), (Unit.MILLIMETRE, "100 mm")]
)
def test_the_keepsake_has_a_frame_for_a_small_snapshot_in_the_kit_s_unit(unit: Unit, width: str) -> None:
    kit = resolved_spec(SMALL.replace("unit: in", f"unit: {unit.value}")).kit if unit is Unit.INCH else None
    names = {Unit.CENTIMETRE: "roof-garden"}
    if kit is None:
        kit = demo(names[unit]).kit if unit in names else resolved_spec(METRIC).kit
    section = keepsake_section(kit, ENGLISH)
    assert section.arrangement is Arrangement.LAST
    (frame,) = all_of(PrintFrame, section)
    size = frame.size.size
    assert size.width == parse_length(width, unit)
    assert size.width * 3 == size.height * 4


METRIC = (
    SMALL.replace("unit: in", "unit: mm")
    .replace("12 x 12", "305 x 305")
    .replace("[8, 2 1/2]", "[203, 63]")
    .replace("[7]", "[178]")
)


@pytest.mark.parametrize("name", DEMOS)
def test_the_back_cover_names_the_kit_and_whose_it_is(name: str) -> None:
    kit = demo(name).kit
    section = back_cover_section(kit, ENGLISH)
    assert said(section.title) == kit.title
    assert said(section.kicker) == f"{kit.publisher}  ·  {kit.month}"
