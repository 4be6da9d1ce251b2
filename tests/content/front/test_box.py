"""The welcome, the box and the pile."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.content.blocks import (
    Cards,
    Contents,
    ContentsEntry,
    ItemList,
    Legend,
    Paragraph,
    Section,
    Tone,
)
from booklet.content.document import document
from booklet.content.figures import PileFigure, PrintCheck, ReadySwatch
from booklet.content.front.box import box_section, has_pile
from booklet.content.front.welcome import print_check_blocks, welcome_section
from booklet.content.spans import Extent, Length, Number, Own, SheetRef
from booklet.content.words.language import ENGLISH
from booklet.kit.kit import sheet_title
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit, parse_length
from tests.content.specs import DEMOS, SMALL, demo, resolved_spec
from tests.content.walking import all_of, lines_of, said, text_of

LAST_FIRST = SMALL.replace("sheet: 12 x 12", "sheet: 12 x 12\nassembly: last layout first")
TWO_BASES = SMALL.replace("layouts:", "  - {id: foam, paper: sand, title: Foam}\nlayouts:") + (
    "  - {id: flood, pocket: 2, base: foam}\n"
)


def box(text: str) -> Section:
    return box_section(resolved_spec(text), ENGLISH)


def entries(section: Section) -> list[str]:
    """What stands beside each leader of the pile, from the top down."""
    return [said(entry) for legend in all_of(Legend, section) for entry in legend.entries]


def order_of(section: Section) -> str:
    """How the sheets are stacked, and why."""
    return said(all_of(Paragraph, section)[0].text)


# The pile.


def test_the_pile_is_listed_from_the_top_with_the_face_that_is_up() -> None:
    assert entries(box(SMALL)) == [
        "1  Shingle print, print up",
        "2  Sand, whole",
    ]


@pytest.mark.parametrize("name", DEMOS)
def test_every_sheet_stands_in_the_pile_once_beside_its_leader(name: str) -> None:
    kit = demo(name)
    section = box_section(kit, ENGLISH)
    drawn = [index for figure in all_of(PileFigure, section) for index in figure.sheets]
    assert sorted(drawn) == list(range(len(kit.sheets)))
    for index, entry in zip(drawn, entries(section), strict=True):
        sheet = kit.sheets[index]
        assert entry.startswith(f"{sheet.number}  {sheet_title(kit.kit, sheet.sheet)}")
        assert (", two sheets" in entry) == (sheet.sheet.count == 2)


def test_the_order_is_explained_and_whose_base_lies_on_top_of_what_stays_whole() -> None:
    assert "Cut from the top down" in order_of(box(TWO_BASES))
    assert order_of(box(TWO_BASES)).endswith(
        "Sheets 2 and 3 stay whole and wait below, the base of Ebb on top."
    )
    last = TWO_BASES.replace("sheet: 12 x 12", "sheet: 12 x 12\nassembly: last layout first")
    assert order_of(box(last)).endswith("Sheets 2 and 3 stay whole and wait below, the base of Flood on top.")
    assert entries(box(last))[1].startswith("3  Foam")


def test_a_stated_pile_with_whole_sheets_on_top_promises_nothing_of_what_lies_below() -> None:
    stated = TWO_BASES.replace("sheet: 12 x 12", "sheet: 12 x 12\npile: [sand, shingle, foam]")
    assert "below" not in order_of(box(stated))
    assert [entry[0] for entry in entries(box(stated))] == ["2", "1", "3"]


def test_a_pile_that_is_not_in_cutting_order_is_not_said_to_be_so() -> None:
    two = TWO_BASES.replace(
        "  - {id: foam, paper: sand, title: Foam}",
        "  - {id: foam, paper: sand, cuts: [{at: 6, leaves: [foam, scrap]}]}",
    )
    assert "Cut from the top down" in order_of(box(two))
    turned = two.replace("sheet: 12 x 12", "sheet: 12 x 12\npile: [foam, shingle, sand]")
    assert "Cut from the top down" not in order_of(box(turned))


def test_a_high_pile_is_drawn_in_parts() -> None:
    more = "\n".join(
        f"  - {{id: sand{at}, paper: sand, title: Sand {at}, spare: sand{at}}}" for at in range(30)
    )
    section = box(SMALL.replace("layouts:", f"{more}\nlayouts:"))
    assert [len(legend.entries) for legend in all_of(Legend, section)] == [16, 16]
    assert sum("whole" in entry for entry in entries(section)) == 31


def test_one_sheet_is_no_pile_and_is_shown_all_the_same() -> None:
    lone = SMALL.replace("  - {id: sand, paper: sand}\n", "").replace("base: sand", "base: strip")
    kit = resolved_spec(lone.replace("      - {place: strip, left: 0, top: 0}\n", ""))
    section = box_section(kit, ENGLISH)
    assert not has_pile(kit.kit)
    assert said(section.title) == "In the box"
    assert said(section.lead) == "1 sheet, 12 × 12 in."
    assert len(entries(section)) == 1
    assert "Stack" not in text_of(section)


def test_sheets_of_one_size_say_it_once_and_others_each() -> None:
    assert said(box(SMALL).lead) == "2 sheets, each 12 × 12 in."
    assert "12 × 12" not in "".join(entries(box(SMALL)))
    other = box(SMALL.replace("{id: sand, paper: sand}", "{id: sand, paper: sand, size: 8 x 10}"))
    assert said(other.lead) == "2 sheets."
    sizes = all_of(Extent, all_of(Legend, other))
    assert [(span.size.width, span.source) for span in sizes] == [
        (Fraction(12), ("sheet",)),
        (Fraction(8), ("sheets", 1, "size")),
    ]


def test_the_tip_of_a_sheet_that_has_no_page_stands_in_the_box() -> None:
    text = SMALL.replace(
        "{id: sand, paper: sand}", "{id: sand, paper: sand, tip: The rough side is the back.}"
    )
    (tip,) = [block for block in all_of(Paragraph, box(text)) if block.tone is Tone.TIP]
    assert said(tip.text) == "Sheet 2, Sand: The rough side is the back."
    cut = SMALL.replace("    paper: shingle\n", "    paper: shingle\n    tip: Mind the border.\n")
    assert "Mind the border" not in text_of(box(cut))


# What comes ready-cut.


def test_ready_cut_pieces_say_size_count_spare_and_tip() -> None:
    (cards,) = all_of(Cards, box_section(demo("hill-line"), ENGLISH))
    assert [[said(line) for line in card.lines] for card in cards.cards] == [
        ["Cream mat", "4¹⁄₄ × 6¹⁄₄ in", "8 pieces"],
        [
            "Brass mat",
            "4¹⁄₂ × 6¹⁄₂ in",
            "8 pieces, one to spare",
            "One brass mat is to spare, for the photograph that you cannot leave out.",
        ],
        ["Sun", "3 in across", "1 piece"],
        ["Moon", "2¹⁄₄ in across", "1 piece"],
    ]
    assert [figure.ready for figure in all_of(ReadySwatch, cards)] == [0, 1, 2, 3]
    counts = [span for span in all_of(Number, cards) if span.source[-1] == "count"]
    assert [(span.value, span.source) for span in counts[:2]] == [
        (Fraction(8), ("ready", 0, "count")),
        (Fraction(8), ("ready", 1, "count")),
    ]


# The welcome.


def welcome(text: str) -> Section:
    (section,) = [one for one in document(resolved_spec(text), ENGLISH).sections if one.anchor == "welcome"]
    return section


def way(section: Section) -> list[str]:
    items, *_ = all_of(ItemList, section)
    return [said(item) for item in items.items]


def test_the_way_leads_from_the_pile_to_the_pockets_to_the_layouts() -> None:
    assert way(welcome(SMALL)) == [
        "Cut every sheet, in the order of the pile.",
        "File each piece at once in the pocket that stands beside its cut.",
        "Make the layouts by number, each from its pocket, and tick off as you go.",
    ]


def test_a_pile_in_another_order_is_not_what_the_cuts_follow() -> None:
    two = TWO_BASES.replace(
        "  - {id: foam, paper: sand, title: Foam}",
        "  - {id: foam, paper: sand, cuts: [{at: 6, leaves: [foam, scrap]}]}",
    )
    turned = two.replace("sheet: 12 x 12", "sheet: 12 x 12\npile: [foam, shingle, sand]")
    assert way(welcome(two))[0] == "Cut every sheet, in the order of the pile."
    assert way(welcome(turned))[0] == "Cut every sheet."


def test_a_kit_that_is_not_cut_is_sorted() -> None:
    whole = (
        SMALL[: SMALL.index("    cuts:")] + SMALL[SMALL.index("  - {id: sand") : SMALL.index("    steps:")]
    )
    assert [step.split()[0] for step in way(welcome(whole))] == ["Sort", "Make"]


def test_the_welcome_is_the_designer_s_own_where_there_is_one() -> None:
    assert "All that lies in this box" in text_of(welcome(SMALL))
    own = welcome(SMALL.replace("unit: in", "unit: in\nwelcome: Here is the sea."))
    assert Own("Here is the sea.", ("welcome",)) in all_of(Own, own)
    assert "All that lies in this box" not in text_of(own)


@pytest.mark.parametrize("name", DEMOS)
def test_every_entry_of_the_contents_leads_to_a_section(name: str) -> None:
    made = document(demo(name), ENGLISH)
    anchors = [section.anchor for section in made.sections]
    entries = [entry.anchor for entry in all_of(ContentsEntry, made)]
    assert set(entries) <= set(anchors)
    assert [anchors.index(anchor) for anchor in entries] == sorted(
        anchors.index(anchor) for anchor in entries
    )
    assert len(anchors) == len(set(anchors))


def test_contents_say_which_sheets_are_cut_and_which_are_cut_apart() -> None:
    (contents,) = all_of(Contents, document(demo("hill-line"), ENGLISH))
    assert "Cutting: sheets 1 to 7" in lines_of(contents)
    assert "Cutting apart: sheets 8 and 9" in lines_of(contents)


def test_a_list_of_the_contents_that_is_empty_is_left_out() -> None:
    entry = ContentsEntry(ENGLISH.front.box, "box")
    section = welcome_section(demo("hill-line").kit, True, ((entry,), ()), ENGLISH)
    assert [contents.lists for contents in all_of(Contents, section)] == [((entry,),)]


@given(st.sets(st.integers(1, 30), min_size=1))
def test_numbers_of_sheets_in_few_words_are_all_the_numbers(numbers: set[int]) -> None:
    line = ENGLISH.front.sheets([SheetRef(number, "any") for number in sorted(numbers)])
    noun, _, runs = said(line).partition(" ")
    assert noun == ("sheet" if len(numbers) == 1 else "sheets")
    parts = [run.split(" to ") for run in runs.replace(" and ", ", ").split(", ")]
    assert [n for run in parts for n in range(int(run[0]), int(run[-1]) + 1)] == sorted(numbers)
    assert all(int(run[-1]) - int(run[0]) > 1 for run in parts if len(run) > 1)


# The bar.


@pytest.mark.parametrize(
    ("unit", "words"), [(Unit.INCH, "4 in"), (Unit.CENTIMETRE, "10 cm"), (Unit.MILLIMETRE, "100 mm")]
)
def test_the_bar_is_said_to_be_as_long_as_it_is(unit: Unit, words: str) -> None:
    blocks = print_check_blocks(unit, ENGLISH)
    lengths = all_of(Length, blocks)
    assert {length.value for length in lengths} == {parse_length(words, unit)}
    assert f"measures {words}." in text_of(blocks)
    assert all_of(PrintCheck, blocks) == [PrintCheck()]


def test_a_round_piece_is_measured_across_only_where_it_is_round() -> None:
    oval = SMALL + "ready: [{name: sun, size: 3 x 4, paper: sand, outline: circle, spare: 1}]\n"
    sizes = [span.size for span in all_of(Extent, all_of(Cards, box(oval)))]
    assert sizes == [Size(parse_length("3", Unit.INCH), parse_length("4", Unit.INCH))]


def test_a_base_that_names_only_its_paper_is_counted_in_the_box_and_lies_in_the_pile() -> None:
    text = SMALL.replace("  - {id: sand, paper: sand}\n", "").replace("base: sand", "base: {paper: sand}")
    one = box(text)
    assert said(one.lead) == said(box(SMALL).lead)
    assert entries(one) == entries(box(SMALL))
