"""Cut-aparts: every printed element comes out whole, once, under its own name."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.cutting.cut import cut_kit
from booklet.cutting.elements import element_rect, elements_in
from booklet.cutting.model import Fate
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
    for printed in done.sheet.elements:
        assert own[printed.name] == done.sheet.count or f'"{printed.name}"' in said
        whole = [piece for piece in done.pieces if piece.part.contains(element_rect(printed))]
        assert len(whole) == done.sheet.count or "cut-through-element" in ids(done.findings)
