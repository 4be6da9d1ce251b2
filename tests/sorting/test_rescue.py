"""Spoiled pieces: which can be cut again, from what, and whether the steps do it."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.cutting.cut import cut_kit
from booklet.cutting.planner.metrics import execute_steps
from booklet.kit.fields import Face
from booklet.kit.kit import Kit
from booklet.kit.sheet import SCRAP
from booklet.measure.length import Size
from booklet.sorting.ledger import LedgerEntry
from booklet.sorting.remnants import remnants, replacement
from booklet.sorting.rescue import Rescue, replace_spoiled
from tests.kits import Data, cut, element, layout, ledger_of, make_kit, ready, sheet

BORDERED = {
    "front": {"colours": ["#aabbcc"], "borders": [{"edge": "left", "width": 1, "colour": "#112233"}]},
    "back": {"colours": ["#f4efe6"]},
}
PAPERS: Data = {
    "plain": {"front": {"colours": ["#f4efe6"]}, "back": {"colours": ["#ffffff"]}},
    "waves": {
        "front": {"pattern": "waves", "colours": ["#ffffff", "#5d8794"]},
        "back": {"colours": ["#112233"]},
    },
    "rim": BORDERED,
}


def kit_of(*sheets: Data, uses: tuple[str, ...], **more: Any) -> Kit:
    """Sheets to cut and a base, and a layout that takes these pieces."""
    base = sheet(id="base", paper="waves")
    return make_kit(*sheets, base, layouts=[layout("base", *uses)], papers=PAPERS, **more)


def rescued(kit: Kit, *names: str) -> Rescue:
    ledger = ledger_of(kit)
    chosen: list[LedgerEntry] = []
    for name in names:
        chosen.append(
            next(e for e in ledger.entries if e.name == name and not any(e is one for one in chosen))
        )
    return replace_spoiled(kit, cut_kit(kit), ledger, chosen)


def given_by(done: Rescue) -> Counter[str]:
    """What the steps give, carried out on the remnants one by one; and remnants taken as they are."""
    given = Counter[str]()
    for recut in done.recuts:
        if not recut.steps:
            given.update(recut.names)
            continue
        names = [part.name for part in execute_steps(recut.steps, recut.remnant.size) if part.name != SCRAP]
        assert Counter(names) == Counter(recut.names)
        given.update(names)
    return given


PLAIN = sheet(
    cut([10, 6], ["big", "wide scrap", "scrap"]),
    cut(9, ["tag", "scrap"], take="wide scrap", turn="clockwise"),
    id="plain",
    paper="plain",
)


def plain_kit(**more: Any) -> Kit:
    """Of one plain sheet: big is 6 x 12, tag is 4 x 9 turned, and scrap 2 x 12 and 4 x 3 is left."""
    return kit_of(PLAIN, uses=("big", "tag"), **more)


def test_what_is_left_over_is_scrap_and_what_no_layout_takes() -> None:
    kit = kit_of(
        sheet(cut([8, 4], ["a", "a", "scrap"]), id="s", paper="plain", spare=["a"]),
        uses=("a",),
        ready=[ready("mat", count=3, spare=2)],
    )
    left = remnants(kit, cut_kit(kit), ledger_of(kit))
    assert [(one.spare, one.size, one.number, one.count) for one in left] == [
        (None, Size(Fraction(4), Fraction(12)), 1, 1),
        ("a", Size(Fraction(4), Fraction(12)), 1, 1),
        ("mat", Size(Fraction(4), Fraction(6)), None, 3),
    ]


def test_a_spare_piece_of_the_same_name_comes_first_and_needs_no_cut() -> None:
    kit = kit_of(sheet(cut([8, 4], ["a", "a", "scrap"]), id="s", paper="plain", spare=["a"]), uses=("a",))
    (recut,) = rescued(kit, "a").recuts
    assert (recut.remnant.spare, recut.names, recut.steps) == ("a", ("a",), ())


def test_scrap_of_the_same_paper_is_cut() -> None:
    kit = kit_of(sheet(cut(5, ["a", "scrap"]), id="s", paper="plain"), uses=("a",))
    done = rescued(kit, "a")
    assert (given_by(done), done.lost) == ({"a": 1}, ())
    assert done.recuts[0].remnant.size == Size(Fraction(7), Fraction(12))
    assert done.recuts[0].face is None


def test_what_is_too_large_for_every_scrap_is_lost() -> None:
    done = rescued(plain_kit(), "big", "tag")
    assert done.recuts == ()
    assert [entry.name for entry in done.lost] == ["big", "tag"]


def test_as_many_as_the_scrap_holds_are_cut_the_largest_first() -> None:
    kit = kit_of(
        sheet(cut([11, 9, 6, 3], ["a", "a", "b", "b", "scrap"]), id="s", paper="plain", size="14 x 12"),
        uses=("a", "a", "b", "b"),
    )
    done = rescued(kit, "a", "b", "b")
    assert given_by(done) == {"a": 1}
    assert [entry.name for entry in done.lost] == ["b", "b"]


def test_a_printed_paper_s_pieces_keep_their_direction() -> None:
    """4 x 12 of scrap holds 2 x 12 twice, but not 12 x 2."""
    for paper, lost in (("plain", 0), ("waves", 1)):
        strips = sheet(
            cut(8, ["field", "scrap"]),
            cut([8, 6], ["wide", "low", "scrap"], take="field", turn="clockwise"),
            id="s",
            paper=paper,
        )
        kit = kit_of(strips, uses=("wide", "low"))
        done = rescued(kit, "low")
        assert (given_by(done), len(done.lost)) == (Counter({"low": 1}), 0)
        tall = sheet(cut([10, 2], ["slip", "field", "scrap"]), id="t", paper=paper)
        flat = cut(2, ["slab", "rest"], take="field", turn="clockwise")
        kit = kit_of({**tall, "cuts": [*tall["cuts"], flat]}, uses=("slip", "slab", "rest"))
        assert len(rescued(kit, "slab").lost) == lost


def test_another_paper_of_the_same_colour_stands_in_where_its_own_is_used_up() -> None:
    """The back of the bordered paper is as pale as the plain paper's front."""
    kit = kit_of(
        sheet(cut(6, ["a", "b"]), id="s", paper="plain"),
        sheet(cut(3, ["c", "scrap"]), id="r", paper="rim"),
        uses=("a", "b", "c"),
    )
    done = rescued(kit, "a")
    assert given_by(done) == {"a": 1}
    assert [(recut.remnant.paper, recut.face) for recut in done.recuts] == [("rim", Face.BACK)]


def test_the_colour_that_counts_is_that_of_the_face_that_is_seen() -> None:
    sheets = (
        sheet(cut(6, ["a", "b"]), id="s", paper="plain"),
        sheet(cut(3, ["c", "scrap"]), id="w", paper="waves"),
    )
    front = kit_of(*sheets, uses=("a", "b", "c"))
    assert [entry.name for entry in rescued(front, "a").lost] == ["a"]
    steps = [{"place": "a", "face": "back"}, {"place": "b"}, {"place": "c"}]
    back = make_kit(
        *sheets,
        sheet(id="base", paper="rim"),
        layouts=[{"id": "page", "pocket": 1, "base": "base", "steps": steps}],
        papers=PAPERS,
    )
    assert [(recut.remnant.paper, recut.face) for recut in rescued(back, "a").recuts] == [
        ("waves", Face.FRONT)
    ]


def test_one_scrap_is_used_once() -> None:
    kit = kit_of(
        sheet(cut([10, 5], ["a", "a", "scrap"]), id="s", paper="plain", size="15 x 12"), uses=("a", "a")
    )
    done = rescued(kit, "a", "a")
    assert (given_by(done), len(done.lost)) == (Counter({"a": 1}), 1)


@pytest.mark.parametrize(
    "one",
    [
        sheet(
            elements=[element("sun", 1, 1)], id="s", paper="plain", cuts=[cut([3, 1], ["scrap", "sun", "x"])]
        ),
        sheet(cut(3, ["sun", "scrap"]), id="s", paper="rim"),
    ],
    ids=["a printed element", "a piece with a printed border"],
)
def test_what_has_a_print_of_its_own_cannot_be_cut_again(one: Data) -> None:
    kit = kit_of(one, uses=("sun",))
    assert [entry.name for entry in rescued(kit, "sun").lost] == ["sun"]


@pytest.mark.parametrize(
    ("edge", "readings", "leaves"),
    [
        ("left", [5, 1], ["rim", "sun", "scrap"]),
        ("right", [11, 7], ["scrap", "sun", "rim"]),
    ],
)
def test_a_piece_that_begins_where_the_printed_border_ends_can_be_cut_again(
    edge: str, readings: list[float], leaves: list[str]
) -> None:
    border = {"edge": edge, "width": 1, "colour": "#112233"}
    papers = PAPERS | {"rim": {"front": {"colours": ["#aabbcc"], "borders": [border]}}}
    for shift, lost in ((Fraction(0), []), (Fraction(1, 8), ["sun"])):
        at = [str(reading - shift if edge == "left" else reading + shift) for reading in readings]
        one = sheet(cut(at, leaves), id="s", paper="rim")
        layouts = [layout("base", "sun", "rim")]
        kit = make_kit(one, sheet(id="base", paper="waves"), layouts=layouts, papers=papers)
        assert [entry.name for entry in rescued(kit, "sun").lost] == lost


def test_a_ready_cut_circle_cannot_be_cut_again() -> None:
    plain = sheet(cut(3, ["a", "scrap"]), id="s", paper="plain")
    for outline, lost in (("circle", 1), ("rectangle", 0)):
        kit = kit_of(plain, uses=("a", "dot"), ready=[{**ready("dot"), "outline": outline}])
        assert len(rescued(kit, "dot").lost) == lost


def test_a_strip_too_narrow_to_hold_is_said_to_be_so() -> None:
    """A sliver of 1/2 in cut from one of 3/4 in leaves no hand an inch to hold."""
    kit = kit_of(
        sheet(cut(["11 1/4", "10 3/4"], ["field", "slip", "scrap"]), id="s", paper="plain"),
        uses=("field", "slip"),
    )
    (recut,) = rescued(kit, "slip").recuts
    assert recut.unsafe


@given(st.integers(1, 11), st.integers(1, 11))
def test_the_smallest_remnant_that_holds_a_piece_is_named_and_can_be_cut(across: int, down: int) -> None:
    """One sheet is cut so that scrap of several sizes is left; a ready piece of the same paper is missed."""
    scraps = sheet(
        cut([9, 4], ["low", "high", "scrap"]),
        cut(7, ["scrap", "scrap"], take="high", turn="clockwise"),
        id="s",
        paper="plain",
    )
    kit = kit_of(scraps, uses=("low", "mat"), ready=[ready("mat", size=f"{across} x {down}")])
    ledger = ledger_of(kit)
    (entry,) = [one for one in ledger.entries if one.name == "mat"]
    found = replacement(kit, entry, remnants(kit, cut_kit(kit), ledger))
    wide, tall = max(across, down), min(across, down)
    areas = [a * b for a, b in ((5, 7), (5, 5), (3, 12)) if wide <= max(a, b) and tall <= min(a, b)]
    assert (found.size.area if found else None) == min(areas, default=None)
    assert len(rescued(kit, "mat").lost) == (0 if found else 1)
