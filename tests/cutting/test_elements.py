"""Cut-aparts: every printed element comes out whole, once, under its own name."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.cutting.cut import cut_kit
from booklet.cutting.elements import elements_in
from booklet.cutting.model import Fate
from booklet.kit.element import ElementFrame
from tests.cutting.balance import area_balance
from tests.kits import Data, cut, cut_one, element, ids, make_kit, sheet

# Four tags of 4 x 4, two by two, with an inch and more between them.
TAGS = [
    element("sun", 1, 1, "4 x 4"),
    element("moon", 7, 1, "4 x 4"),
    element("star", 1, 7, "4 x 4"),
    element("wave", 7, 7, "4 x 4"),
]
# What says that an element did not come out as it should.
ABOUT_ELEMENTS = {
    "cut-through-element",
    "element-in-scrap",
    "element-not-cut-out",
    "strip-unnamed",
    "name-reserved",
}


def test_leaves_are_taken_from_the_element_in_each_strip() -> None:
    done = cut_one(
        sheet(
            cut(6, ["upper row", "lower row"]),
            cut(6, take="upper row", turn="clockwise"),
            cut(6, take="lower row", turn="clockwise"),
            lay={"left": "top"},
            elements=TAGS,
        )
    )
    assert done.findings == ()
    assert [piece.name for piece in done.pieces] == ["sun", "moon", "star", "wave"]
    for piece in done.pieces:
        (held,) = elements_in(done.sheet, piece.part)
        assert held.name == piece.name


def test_rows_cut_together_give_each_its_own_elements() -> None:
    done = cut_one(
        sheet(
            cut(6, ["left row", "right row"]),
            cut(6, take=["left row", "right row"], turn="clockwise"),
            elements=TAGS,
        )
    )
    assert done.findings == ()
    assert [[piece.name for piece in s.pieces] for s in done.stages[1].strips] == [
        ["star", "wave"],
        ["sun", "moon"],
    ]


def test_margins_without_print_are_scrap() -> None:
    done = cut_one(sheet(cut(["11 1/2", 6, "1/2"]), elements=[element("sun", 1, 1), element("moon", 7, 1)]))
    assert done.findings == ()
    assert [(piece.name, piece.label) for piece in done.pieces] == [
        ("scrap", ""),
        ("sun", "1A"),
        ("moon", "1B"),
        ("scrap", ""),
    ]


def test_elements_alike_may_share_a_name() -> None:
    done = cut_one(sheet(cut([8, 4]), elements=[element("star", left, 1, "2 x 2") for left in (1, 5, 9)]))
    assert done.findings == ()
    assert [piece.name for piece in done.pieces] == ["star"] * 3


def test_a_cut_along_the_edge_of_an_element_does_not_run_through_it() -> None:
    done = cut_one(sheet(cut([5, 1], ["scrap", "sun", "scrap"]), elements=TAGS[:1]))
    assert done.findings == ()


def test_a_strip_without_a_name_of_its_own_is_named_after_all_that_it_holds() -> None:
    done = cut_one(sheet(cut(6), elements=TAGS))
    assert [piece.name for piece in done.pieces] == ["sun and star", "moon and wave"]
    assert ids(done.findings) == ["strip-unnamed", "strip-unnamed"]


def test_what_leaves_does_not_name_is_named_by_the_print_and_belongs_to_the_step() -> None:
    done = cut_one(sheet(cut([6, "1/2"], ["scrap"]), elements=[element("sun", 1, 1), element("moon", 7, 1)]))
    assert ids(done.findings) == ["leaves-count"]
    assert [(piece.name, piece.where[4:]) for piece in done.pieces] == [
        ("scrap", ("leaves", 0)),
        ("sun", ()),
        ("moon", ()),
    ]


def test_a_long_joint_name_is_no_longer_than_a_name_may_be() -> None:
    many = [element("an element with quite a long name " + "abcdefg"[n], 0, n, "1 x 1") for n in range(7)]
    done = cut_one(sheet(cut(6), elements=many))
    assert len(done.pieces[0].name) <= 60


@pytest.mark.parametrize("left", ["left", "right", "top", "bottom"])
@pytest.mark.parametrize("face", ["front", "back"])
def test_whichever_way_a_cut_apart_is_laid_the_names_follow_the_print(face: str, left: str) -> None:
    done = cut_one(
        sheet(
            cut(6, ["near row", "far row"]),
            cut(6, take=["near row", "far row"], turn="clockwise"),
            lay={"face": face, "left": left},
            elements=TAGS,
        )
    )
    assert set(ids(done.findings)) <= {"marks-face-down"}
    assert {piece.name: elements_in(done.sheet, piece.part)[0].name for piece in done.pieces} == {
        tag["name"]: tag["name"] for tag in TAGS
    }


@st.composite
def cut_aparts(draw: st.DrawFn) -> Data:
    """A sheet of up to nine elements in a loose grid, cut anyhow, its pieces named or not."""
    cells = [(column, row) for column in range(3) for row in range(3)]
    chosen = draw(st.lists(st.sampled_from(cells), min_size=1, max_size=9, unique=True))
    elements = [
        element(f"tag {4 * column + row}", 4 * column + 1, 4 * row + 1, "2 x 2") for column, row in chosen
    ]
    reading = st.fractions(min_value=Fraction(1, 2), max_value=Fraction(23, 2), max_denominator=2)
    names = st.sampled_from(["row", "other row", "scrap", "tag 0", "tag 5"])
    steps: list[Data] = []
    for number in range(draw(st.integers(1, 4))):
        at = draw(st.lists(reading | st.sampled_from([4, 8]), min_size=1, max_size=3))
        leaves = draw(st.just([]) | st.lists(names, min_size=1, max_size=4))
        taken = {"take": draw(st.lists(names, min_size=1, max_size=2))} if number else {}
        steps.append(cut(at, leaves, turn=draw(st.sampled_from([None, "clockwise", "half"])), **taken))
    return sheet(*steps, elements=elements, count=draw(st.integers(1, 2)))


@given(cut_aparts())
def test_an_element_is_its_own_piece_once_for_each_sheet_or_a_finding_names_it(one: Data) -> None:
    done = cut_kit(make_kit(one))[0]
    assert area_balance(done) == 0
    said = " ".join(finding.found for finding in done.findings if finding.id in ABOUT_ELEMENTS)
    own: Counter[str] = Counter()
    for piece in done.pieces:
        held = elements_in(done.sheet, piece.part)
        if piece.fate is not Fate.SCRAP and len(held) == 1 and held[0].name == piece.name:
            own[piece.name] += 1
    for printed in done.sheet.printed:
        assert own[printed.name] == done.sheet.count or f'"{printed.name}"' in said
        whole = [piece for piece in done.pieces if piece.part.contains(printed.rect)]
        assert len(whole) == done.sheet.count or "cut-through-element" in ids(done.findings)


# Rows and columns of equal elements.


def printed_at(*elements: Data) -> list[tuple[str, int, int]]:
    """The elements of a sheet, each with its left and its top."""
    done = cut_one(sheet(elements=list(elements)))
    return [(one.name, int(one.rect.x), int(one.rect.y)) for one in done.sheet.printed]


def test_a_row_goes_on_to_the_right_in_the_order_of_its_names() -> None:
    row = {"row": ["sun", "moon", "star"], "left": 1, "top": 2, "size": "3 x 4"}
    assert printed_at(row) == [("sun", 1, 2), ("moon", 4, 2), ("star", 7, 2)]
    assert printed_at({**row, "size": "2 x 4", "apart": 1}) == printed_at(row)


def test_a_column_goes_on_downwards() -> None:
    column = {"column": "ticket", "count": 3, "left": 1, "top": 0, "size": "3 x 2", "apart": 1}
    assert printed_at(column) == [("ticket", 1, 0), ("ticket", 1, 3), ("ticket", 1, 6)]


def test_lines_repeat_a_row_below_and_a_column_beside_itself() -> None:
    said: Data = {"left": 0, "top": 0, "size": "2 x 3", "lines": 2}
    rows = [("a", 0, 0), ("b", 2, 0), ("a", 0, 3), ("b", 2, 3)]
    assert printed_at({"row": ["a", "b"], **said}) == rows
    columns = [("a", 0, 0), ("b", 0, 3), ("a", 2, 0), ("b", 2, 3)]
    assert printed_at({"column": ["a", "b"], **said}) == columns


def test_one_of_a_row_may_differ_in_its_artwork() -> None:
    row: Data = {
        "row": ["sun", {"name": "moon", "words": "late", "ground": "#24364B", "frame": "none"}],
        "left": 0,
        "top": 0,
        "size": "3 x 3",
        "words": "early",
        "frame": "ticket",
    }
    sun, moon = cut_one(sheet(elements=[row])).sheet.printed
    assert (sun.words, sun.ground, sun.frame) == ("early", "#ffffff", ElementFrame.TICKET)
    assert (moon.words, moon.ground, moon.frame) == ("late", "#24364b", ElementFrame.NONE)


def test_what_is_wrong_with_one_of_a_row_is_said_at_the_row() -> None:
    row = {"row": ["sun", "moon"], "left": 8, "top": 0, "size": "3 x 3"}
    (off,) = cut_one(sheet(cut(8), elements=[element("star", 0, 0), row])).findings[:1]
    assert (off.id, off.where) == ("element-off-sheet", ("sheets", 0, "elements", 1))
    apart = cut_one(sheet(elements=[{**row, "left": 0, "apart": -1}])).findings
    assert [(one.id, one.where) for one in apart][:1] == [("elements-overlap", ("sheets", 0, "elements", 0))]


def test_a_name_that_cannot_be_is_found_where_it_is_said() -> None:
    row = {"row": ["sun", "scrap"], "left": 0, "top": 0, "size": "3 x 3"}
    (reserved, *_) = cut_one(sheet(elements=[row])).findings
    assert (reserved.id, reserved.where) == ("name-reserved", ("sheets", 0, "elements", 0, "row", 1, "name"))
