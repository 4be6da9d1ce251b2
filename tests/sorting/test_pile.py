"""The order in which the sheets are stacked before the first cut."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from booklet.cutting.cut import cut_kit
from booklet.kit.kit import Kit
from booklet.sorting.pile import pile
from tests.kits import Data, cut, element, layout, ledger_of, make_kit, sheet

SHEETS = [
    sheet(id="sand"),
    sheet(cut(6), id="tags", elements=[element("sun", 1, 1), element("moon", 7, 1)]),
    sheet(id="vellum"),
    sheet(id="sky"),
    sheet(cut(6, ["left", "right"]), id="shingle"),
]
LAYOUTS = [layout("sky", "left", "sun"), layout("sand", "right", "moon", id="high tide", pocket=2)]


def order(kit: Kit) -> list[str]:
    return [one.sheet.id for one in pile(kit, cut_kit(kit), ledger_of(kit))]


def test_sheets_to_cut_lie_on_top_in_cutting_order_then_whole_ones_as_they_are_assembled() -> None:
    assert order(make_kit(*SHEETS, layouts=LAYOUTS)) == ["shingle", "tags", "sky", "sand", "vellum"]


def test_last_layout_first_turns_the_whole_sheets_round_and_leaves_unused_ones_at_the_bottom() -> None:
    kit = make_kit(*SHEETS, layouts=LAYOUTS, assembly="last layout first")
    assert order(kit) == ["shingle", "tags", "sand", "sky", "vellum"]


def test_a_pile_that_is_stated_stands() -> None:
    stated = ["vellum", "tags", "sand", "shingle", "sky"]
    assert order(make_kit(*SHEETS, layouts=LAYOUTS, pile=stated)) == stated


def test_what_a_stated_pile_leaves_out_follows_in_the_usual_order() -> None:
    kit = make_kit(*SHEETS, layouts=LAYOUTS, pile=["vellum"])
    assert order(kit) == ["vellum", "shingle", "tags", "sky", "sand"]


def test_several_whole_sheets_lie_with_the_layout_that_needs_one_first() -> None:
    both = [layout("sky", id="a"), layout("sand", id="b"), layout("sand", id="c"), layout("sky", id="d")]
    sheets = [sheet(id="sand", count=2), sheet(id="sky", count=2)]
    assert order(make_kit(*sheets, layouts=both)) == ["sky", "sand"]
    assert order(make_kit(*sheets, layouts=both, assembly="last layout first")) == ["sky", "sand"]
    assert order(make_kit(*sheets, layouts=both[:3], assembly="last layout first")) == ["sand", "sky"]


@given(
    st.permutations(SHEETS),
    st.lists(st.sampled_from(["sand", "tags", "vellum", "sky", "shingle"]), max_size=7) | st.none(),
    st.sampled_from(["first layout first", "last layout first"]),
)
def test_every_sheet_is_in_the_pile_once(sheets: list[Data], stated: list[str] | None, assembly: str) -> None:
    kit = make_kit(*sheets, layouts=LAYOUTS, pile=stated, assembly=assembly)
    assert sorted(order(kit)) == sorted(one["id"] for one in SHEETS)
    assert order(kit)[: len(set(stated or ()))] == list(dict.fromkeys(stated or ()))
