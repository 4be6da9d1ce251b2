"""The cut slip, told against the cuts that it comes from."""

from __future__ import annotations

from booklet.content.cutting.labels import strip_labels
from booklet.content.spans import Length, Precision, Role
from booklet.content.words.language import ENGLISH
from tests.content.cutting.slips import resolved, section_of, slip, stages_of
from tests.kits import cut, element, layout, sheet


def test_cut_at_8_then_2_and_a_half() -> None:
    kit = resolved(sheet(cut([8, "2 1/2"], ["one", "two", "three"])))
    assert slip(kit) == [
        "1 8 | C three, 4 × 12 | tick",
        "2 2¹⁄₂ | B two, 5¹⁄₂ × 12 | tick",
        "stays | A one, 2¹⁄₂ × 12 | 4 tick",
    ]


def test_a_size_is_not_said_again_just_below() -> None:
    kit = resolved(sheet(cut([9, 6, 3], ["one", "two", "two", "two"])), places=("two", "two", "two"))
    assert slip(kit) == [
        "1 9 | D two, 3 × 12 | 4 tick",
        "2 6 | C two | 4 tick",
        "3 3 | B two | 4 tick",
        "stays | A one | 4 tick",
    ]


def test_a_size_is_said_again_after_a_row_without_one() -> None:
    strips = cut([10, 2], ["one", "middle", "one"])
    kit = resolved(sheet(strips, cut([6], ["two", "three"], take=["middle"])), places=("one",))
    assert slip(kit) == [
        "1 10 | C one, 2 × 12 | 4 tick",
        "2 2 | B aside for 3",
        "stays | A one, 2 × 12 | 4 tick",
    ]


def test_what_is_cut_on_names_the_cut_and_scrap_its_width() -> None:
    kit = resolved(
        sheet(cut([8], ["two", "one"]), cut([7], ["three", "scrap"], take="two", turn="clockwise"))
    )
    assert slip(kit) == ["1 8 | B one, 4 × 12 | 4 tick", "stays | A: go on to 2"]
    assert slip(kit, 1) == ["2 7 | scrap, 5 wide", "stays | C three, 8 × 7 | tick"]


def test_what_stays_but_is_not_taken_next_is_set_aside() -> None:
    first = cut([8], ["two", "three"])
    later = [cut([6], ["one", "four"], take="three", turn="clockwise"), cut([4], ["five", "six"], take="two")]
    kit = resolved(sheet(first, *later))
    assert slip(kit) == ["1 8 | B aside for 2", "stays | A aside for 3"]


def test_a_cut_from_a_cut_edge_says_where_that_edge_lies() -> None:
    kit = resolved(sheet(cut([2, 5], ["one", "two", "three"])))
    assert slip(kit) == [
        "1 2 | A one, 2 × 12 | 4 tick",
        "2 5 | Lay the cut edge at 2 in. C three, 7 × 12 | tick",
        "stays | B two, 3 × 12 | tick",
    ]


def test_two_parts_that_are_both_cut_again_stay_in_hand() -> None:
    kit = resolved(sheet(cut([6, 9, 3], ["one", "two", "three", "four"])))
    assert slip(kit) == [
        "1 6 | keep both parts",
        "2 9 | Lay the cut edge at 6 in. D four, 3 × 12 | tick",
        "C three | tick",
        "3 3 | B two | tick",
        "stays | A one | 4 tick",
    ]


def test_a_spare_piece_says_so_and_has_no_box() -> None:
    kit = resolved(sheet(cut([8], ["one", "two"]), spare=["two"]))
    assert slip(kit)[0] == "1 8 | B two, 4 × 12, spare"


def test_papers_that_are_cut_together_come_off_together() -> None:
    kit = resolved(sheet(cut([8], ["one", "lining"]), count=2), places=("one", "lining", "lining"))
    assert slip(kit) == ["1 8 | C D linings, 4 × 12 | 4 tick", "stays | A B ones, 8 × 12 | 4 tick"]


def test_pieces_that_go_to_different_pockets_have_a_row_each() -> None:
    layouts = [layout("one", pocket=1), layout("one", "lining", "lining", id="flood", pocket=2)]
    kit = resolved(sheet(cut([8], ["one", "lining"]), count=2), layouts=layouts)
    assert slip(kit) == [
        "1 8 | C D linings, 4 × 12 | 2 tick",
        "stays | A one, 8 × 12 | 1 tick",
        "B one | 2 tick",
    ]


TWO_PRINTS = sheet(
    cut([4], ["sky", "sea"]),
    cut([4], ["sea", "shore"], take="sea"),
    cut([6], [["one", "tide"], "rest"], take=["sky", "sea"], turn="clockwise"),
)


def test_pieces_of_one_size_and_different_print_have_a_row_each() -> None:
    kit = resolved(TWO_PRINTS, places=("tide", "rest", "rest"))
    assert slip(kit, 2) == [
        "3 6 | G H rests, 4 × 6 | 4 tick",
        "stays | E one | 4 tick",
        "F tide | 4 tick",
    ]


def test_a_strip_of_two_names_bears_both_in_the_figure() -> None:
    kit = resolved(TWO_PRINTS)
    stage = kit.sheets[0].stages[2]
    assert strip_labels(kit.sheets[0], stage, ENGLISH) == (("one", "tide"), ("rests",))


def test_pieces_of_one_name_are_filed_in_pockets_by_their_names() -> None:
    layouts = [layout("one", "two", pocket="A3"), layout("two", id="flood", pocket="front")]
    kit = resolved(sheet(cut([8, 4], ["one", "two", "two"])), layouts=layouts)
    assert slip(kit) == [
        "1 8 | C two, 4 × 12 | front tick",
        "2 4 | B two | A3 tick",
        "stays | A one | A3 tick",
    ]


CARDS = sheet(
    cut([8, 4], ["top", "middle", "foot"]),
    cut([6], take=["top", "middle"], turn="clockwise"),
    paper="plain",
    lay={"left": "top"},
    elements=[
        element("one", 0, 0, "6 x 4"),
        element("two", 6, 0, "6 x 4"),
        element("three", 0, 4, "6 x 4"),
        element("four", 6, 4, "6 x 4"),
        element("foot", 0, 8, "12 x 4"),
    ],
)


def test_readings_on_register_marks_and_the_sizes_they_give_are_approximate() -> None:
    kit = resolved(CARDS)
    assert slip(kit) == [
        "1 ≈ 8 | C foot, ≈ 12 × 4 | tick",
        "2 ≈ 4 | B aside for 3",
        "stays | A: go on to 3",
    ]
    first = stages_of(section_of(kit))[0].slip.rows[0].reading
    assert first is not None
    assert first.precision is Precision.ROUGH


def test_elements_that_lie_on_each_other_are_each_told_by_name() -> None:
    assert slip(resolved(CARDS), 1) == [
        "3 ≈ 6 | F two, ≈ 6 × 4 | tick",
        "G four | tick",
        "stays | D one | 4 tick",
        "E three | tick",
    ]


def test_a_printed_element_is_called_by_its_own_name_in_the_spec() -> None:
    row = stages_of(section_of(resolved(CARDS), 0))[1].slip.rows[0]
    own = [span.source for span in row.said if hasattr(span, "source")]
    assert ("sheets", 0, "elements", 1, "name") in own


def test_a_stated_size_is_where_a_size_comes_from() -> None:
    kit = resolved(sheet(cut([8], ["one", "two"]), sizes={"two": "4 x 12"}))
    row = stages_of(section_of(kit))[0].slip.rows[0]
    assert any(getattr(span, "source", None) == ("sheets", 0, "sizes", "two") for span in row.said)


def test_only_readings_have_the_role_of_one() -> None:
    kit = resolved(sheet(cut([2, 5], ["one", "two", "scrap"])))
    rows = stages_of(section_of(kit))[0].slip.rows
    said = [span for row in rows for span in (*row.before, *row.said) if isinstance(span, Length)]
    assert said
    assert all(span.role is not Role.READING for span in said)
