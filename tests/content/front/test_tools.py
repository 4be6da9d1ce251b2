"""What is needed beside the papers: supplies, tools, photographs, cautions."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.content.blocks import Caution, ItemList, Marker, Paragraph, Picture, Section, Table
from booklet.content.front.cautions import care_section
from booklet.content.front.tools import print_orders, tools_section
from booklet.content.spans import Extent, Length, Number, Own
from booklet.content.words.language import ENGLISH
from booklet.kit.load import parse_kit
from booklet.kit.own_trimmer import load_trimmer
from booklet.measure.exact import Fraction
from booklet.measure.length import Size
from booklet.placing.photos import photo_slots
from booklet.placing.resolved import resolve_kit
from booklet.placing.supplies import balance_supplies
from tests.content.specs import DEMOS, SMALL, demo, resolved_spec
from tests.content.walking import all_of, lines_of, said, text_of

PHOTOS = """
      - {photo: 4 x 6, left: 1, top: 1}
      - {photo: 2 x 2, left: 6, top: 1}
      - {photo: 2 x 2, left: 9, top: 1}
      - {photo: 6 x 4, left: 1, top: 8}
      - {photo: 11 x 11, left: 0, top: 0}
"""
RIBBON = "\nsupplies: [{id: rope, kind: ribbon, length: 30, width: 3/8}]\n"
RUN = "\n      - {ribbon: rope, run: across, top: 2, ends: 1/2}"
STENCIL = (
    "\nsupplies: [{id: net, kind: stencil, size: 6 x 2, count: 1, tip: Rinse it.}, {id: sepia, kind: ink},"
    " {id: rope, kind: ribbon, length: 30, count: 2, width: 3/8}]\n"
)
AREA = "\n      - {stencil: net, size: 6 x 2, left: 3, bottom: 1, supply: sepia}"


def tools(text: str) -> Section:
    return tools_section(resolved_spec(text), ENGLISH)


def rows(section: Section, head: str) -> list[list[str]]:
    """The rows of the table with this word among its heads; pictures are left out."""
    (table,) = [one for one in all_of(Table, section) if head in [said(c.head) for c in one.columns]]
    return [[said(cell) for cell in row.cells if isinstance(cell, tuple)] for row in table.rows]


# Supplies.


def test_one_table_says_of_each_supply_what_is_there_what_is_needed_and_what_is_to_spare() -> None:
    assert rows(tools_section(demo("hill-line"), ENGLISH), "Supply") == [
        ["Signal red ribbon  ³⁄₈ in wide", "54 in", "48 in", "6 in"],
        ["Luggage tape  ¹⁄₂ in wide", "24 in", "7³⁄₄ in", "16¹⁄₄ in"],
        ["Foam dots", "48", "40", "8"],
        ["Brass rivets  ³⁄₁₆ in across", "20", "16", "4"],
    ]


@pytest.mark.parametrize("name", DEMOS)
def test_amounts_are_those_of_the_balance(name: str) -> None:
    kit = demo(name)
    (table,) = [one for one in all_of(Table, tools_section(kit, ENGLISH)) if len(one.columns) == 5]
    for row, balance in zip(table.rows, balance_supplies(kit.kit, kit.layouts), strict=True):
        boxed, used, left = (
            [*(span.value for span in all_of(Length, cell)), *(span.value for span in all_of(Number, cell))]
            for cell in row.cells[2:]
        )
        assert boxed == [balance.boxed]
        assert (used, left) == (([balance.used], [balance.left]) if balance.used else ([], []))


def test_a_stencil_and_an_ink_last_and_so_have_a_dash() -> None:
    assert rows(tools(SMALL.rstrip() + AREA + RUN + STENCIL), "Supply") == [
        ["Net  6 × 2 in Rinse it.", "1", "–", "–"],
        ["Sepia", "–", "–", "–"],
        ["Rope  2 × 30 in, ³⁄₈ in wide", "60 in", "13 in", "47 in"],
    ]


def test_more_than_the_box_holds_is_less_than_nothing_left() -> None:
    short = RIBBON.replace("length: 30", "length: 10")
    ((_, boxed, used, left),) = rows(tools(SMALL.rstrip() + RUN + short), "Supply")
    assert (boxed, used, left) == ("10 in", "13 in", "−3 in")


def test_without_supplies_and_photographs_there_are_no_tables() -> None:
    assert all_of(Table, tools(SMALL)) == []


# What the member brings.


def test_the_tools_are_ticked_off_and_the_usual_ones_where_none_are_named() -> None:
    (items,) = [one for one in all_of(ItemList, tools(SMALL)) if one.marker is Marker.TICK]
    assert [said(item) for item in items.items] == [
        "a paper trimmer, and scissors",
        "photo-safe adhesive",
        "a pencil, an eraser and a ruler",
    ]
    own = tools(SMALL + "bring: [a boat, an oar]\n")
    assert [span.source for span in all_of(Own, own)] == [("bring", 0), ("bring", 1)]


HOME = """
supplies:
  - {id: charms, kind: metal charm, title: Brass keys, outline: drop, size: 1/2 x 3/4, count: 4}
  - {id: dots, kind: dots, title: Glue dots, from: home, tip: Any will do.}
  - {id: twine, kind: ribbon, width: 1/8, length: 20, from: home}
  - {id: pad, kind: ink, from: home}
"""
USED = """
      - {add: charms, run: across, count: 3, left: 2, right: 2, top: 1, uses: {dots: 4 1/2}}
      - {ribbon: twine, run: across, top: 2, ends: 1/2}
"""


def test_what_the_member_brings_is_totalled_beside_the_tools_and_not_said_to_be_in_the_box() -> None:
    section = tools(SMALL.rstrip() + USED + HOME)
    assert rows(section, "In the box") == [["Brass keys  ¹⁄₂ × ³⁄₄ in each", "4", "3", "1"]]
    (table,) = [one for one in all_of(Table, section) if len(one.columns) == 3]
    assert [[said(cell) for cell in row.cells if isinstance(cell, tuple)] for row in table.rows] == [
        ["Glue dots Any will do.", "4¹⁄₂"],
        ["Twine  ¹⁄₈ in wide", "20 in"],
        ["Pad", "–"],
    ]
    assert all(isinstance(row.cells[0], Picture) for row in table.rows)


def test_without_supplies_in_the_box_the_box_has_no_table_of_them() -> None:
    section = tools(SMALL.rstrip() + USED.replace("charms", "dots") + HOME.replace("count: 4", "from: home"))
    assert "Also in the box" not in text_of(section)


def trimmer(section: Section) -> str:
    (found,) = [said(one.text) for one in all_of(Paragraph, section) if "trimmer:" in said(one.text)]
    return found


def test_the_trimmer_is_asked_for_what_the_cuts_ask_of_it() -> None:
    section = tools(SMALL)
    assert trimmer(section) == (
        "Your trimmer: its scale must reach 8 in, its blade must cut 12 in. "
        "Every cut lies on a mark of ¹⁄₈ in."
    )
    reach, blade, mark = all_of(Length, section)
    assert (reach.value, reach.source) == (Fraction(8), ("sheets", 0, "cuts", 0, "at", 0))
    assert (blade.value, mark.value) == (Fraction(12), Fraction(1, 8))


def test_no_promise_of_marks_where_a_reading_lies_between_them() -> None:
    assert "mark" not in trimmer(tools(SMALL.replace("at: [7]", "at: [7 1/16]")))


# Photographs.


def test_prints_to_order_say_how_they_lie_and_what_is_trimmed_and_enlarged() -> None:
    section = tools(SMALL.rstrip() + PHOTOS)
    assert rows(section, "Print") == [
        ["2 × 3 in", "2", "trim to 2 × 2 in"],
        ["4 × 6 in", "1", "portrait"],
        ["4 × 6 in", "1", "landscape"],
        ["11 × 11 in, an enlargement", "1", "square"],
    ]
    assert "5 photographs" in lines_of(section)


def test_one_photograph_is_said_as_one() -> None:
    section = tools(SMALL + "      - {photo: 4 x 6, left: 1, top: 1}\n")
    assert "1 photograph" in lines_of(section)


@pytest.mark.parametrize("name", DEMOS)
def test_every_photograph_is_ordered_once_in_a_print_that_holds_it(name: str) -> None:
    kit = demo(name)
    orders = print_orders(kit)
    ordered = [source for order in orders for _, source in order.photos]
    assert sorted(ordered, key=str) == sorted(
        (layout.item(slot.item).path for layout in kit.layouts for slot in photo_slots(layout, kit.kit.unit)),
        key=str,
    )
    for order in orders:
        print_size = order.size if isinstance(order.size, Size) else order.size.size(kit.kit.unit)
        assert all(
            print_size.holds(slot.size) or print_size.holds(slot.size.turned) for slot, _ in order.photos
        )


def test_a_print_that_the_kit_s_unit_cannot_show_is_called_as_it_is_sold() -> None:
    metric = (
        SMALL.replace("unit: in", "unit: mm")
        .replace("12 x 12", "305 x 305")
        .replace("[8, 2 1/2]", "[203, 63]")
    )
    section = tools(metric.replace("[7]", "[178]") + "      - {photo: 4 x 6 in, left: 10, top: 10}\n")
    (print_size, *_) = all_of(Extent, section)
    assert (print_size.size.width, print_size.unit.value) == (Fraction(4), "in")
    assert rows(section, "Print") == [["4 × 6 in", "1", "portrait"]]


# Cautions.


def care(text: str) -> Section:
    return care_section(resolved_spec(text).kit, ENGLISH)


def cautions(section: Section) -> list[tuple[str, str]]:
    return [(said(one.signal), said(one.text)) for one in all_of(Caution, section)]


def test_blades_call_for_a_warning_with_hazard_consequence_and_how_to_avoid_it() -> None:
    ((signal, text),) = cautions(care(SMALL))
    assert signal == "WARNING"
    assert all(part in text for part in ("Blades are sharp", "cut deeply", "Keep fingers out"))


def test_small_parts_and_adhesive_call_for_cautions_after_the_warning() -> None:
    supplies = "supplies: [{id: rivets, kind: brads, count: 8}, {id: glue, kind: adhesive, count: 1}]"
    found = cautions(care(f"{SMALL}\n{supplies}\n"))
    assert [signal for signal, _ in found] == ["WARNING", "CAUTION", "CAUTION"]
    assert "choke" in found[1][1]
    assert "Adhesive" in found[2][1]


def test_a_kit_without_blades_has_no_warning() -> None:
    whole = SMALL[: SMALL.index("    cuts:")] + "  - {id: sand, paper: sand}\nlayouts:\n"
    text = f"{whole}  - {{id: ebb, pocket: 1, base: sand}}\n"
    assert cautions(care(text)) == []
    assert "trimmer:" not in text_of(tools(text))


def test_cautions_of_the_publisher_stand_after_ours_and_the_makers_directions_last() -> None:
    section = care(SMALL + "cautions: [The shears bite., The glue dries at once.]\n")
    warning, own, directions = section.blocks
    assert isinstance(warning, Caution)
    assert isinstance(own, Caution)
    assert cautions(section)[1] == ("CAUTION", "The shears bite. The glue dries at once.")
    assert [span.source for span in all_of(Own, own)] == [("cautions", 0), ("cautions", 1)]
    assert "Follow the directions of the makers" in text_of(directions)


def test_every_supply_is_pictured() -> None:
    pictures = all_of(Picture, tools_section(demo("hill-line"), ENGLISH))
    assert [said(picture.alt) for picture in pictures] == [
        "Signal red ribbon",
        "Luggage tape",
        "Foam dots",
        "Brass rivets",
    ]


# A trimmer and hands of one's own.


def own_tools(tmp_path: Path, spec: str, trimmer: str) -> str:
    """The last words of the tools, for a kit that is made for this trimmer."""
    file = tmp_path / "mine.yaml"
    file.write_text(trimmer, encoding="utf-8")
    loaded = parse_kit(spec, "kit.yaml", tmp_path, load_trimmer(file, "mine.yaml"))
    return said(all_of(Paragraph, tools_section(resolve_kit(loaded), ENGLISH))[-1].text)


def test_a_trimmer_of_ones_own_is_stated_in_full(tmp_path: Path) -> None:
    assert own_tools(tmp_path, SMALL, "unit: in\nmark: 1/4\nblade: 13\ntogether: 1\n") == (
        "This booklet is made for your own trimmer: a scale to 15 in with a mark every ¹⁄₄ in, a blade "
        "of 13 in. At every cut, 1 in or more of paper can be held. One pass cuts up to 1 paper."
    )


def test_cuts_between_the_marks_of_ones_own_trimmer_are_told(tmp_path: Path) -> None:
    told = own_tools(tmp_path, SMALL, "mark: 1 in\n")
    assert told.endswith("Some cuts lie between two marks: set them by eye.")
    assert "set them by eye" not in own_tools(tmp_path, SMALL, "mark: 1/2 in\n")


def test_a_mark_that_the_kits_unit_cannot_say_is_told_in_its_own(tmp_path: Path) -> None:
    assert "with a mark every 1 mm" in own_tools(tmp_path, SMALL, "unit: mm\nmark: 1\nreach: 381\n")
    assert "a scale to 15 in" in own_tools(tmp_path, SMALL, "unit: mm\nmark: 1\nreach: 381\n")


@pytest.mark.parametrize(
    ("hand", "words"),
    [
        (
            "left",
            "Run the blade with your left hand. Hold the paper with the other, right of the blade. "
            "Where less than 1 in lies there, hold it left of the blade.",
        ),
        (
            "right",
            "Run the blade with your right hand. Hold the paper with the other, left of the blade. "
            "Where less than 1 in lies there, hold it right of the blade.",
        ),
    ],
)
def test_a_hand_that_is_named_is_told_where_to_be(hand: str, words: str, tmp_path: Path) -> None:
    assert own_tools(tmp_path, SMALL, f"hand: {hand}\n").endswith(words)
    kits = tools_section(resolved_spec(SMALL + f"trimmer: {{hand: {hand}}}\n"), ENGLISH)
    last = said(all_of(Paragraph, kits)[-1].text)
    assert last.startswith("Your trimmer: ")
    assert last.endswith(words)
