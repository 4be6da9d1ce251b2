"""What is left over, and whether a piece of it shows a printed border."""

from __future__ import annotations

from fractions import Fraction

import pytest

from booklet.cutting.cut import cut_kit
from booklet.kit.fields import Edge, Face
from booklet.kit.paper import Border, Print
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size
from booklet.sorting.remnants import remnants, replacement, shows_border
from booklet.sorting.rescue import replace_spoiled
from tests.kits import cut, element, layout, ledger_of, make_kit, ready, sheet

WHOLE = Size(Fraction(12), Fraction(10))


def bordered(edge: Edge) -> Print:
    """A print with a border of 1 along one edge."""
    return Print(borders=(Border(edge=edge, width=Fraction(1), colour="#112233"),))


def part(left: int, top: int, right: int, bottom: int) -> ExactRect:
    """What is left of 12 x 10 when so much is cut off at each side."""
    width, height = WHOLE.width - left - right, WHOLE.height - top - bottom
    return ExactRect(Fraction(left), Fraction(top), width, height)


# What is cut off at the left, top, right and bottom, and the edges whose border of 1 is then still seen.
CUT_OFF = {
    (0, 2, 2, 2): {Edge.LEFT},
    (2, 0, 2, 2): {Edge.TOP},
    (2, 2, 0, 2): {Edge.RIGHT},
    (2, 2, 2, 0): {Edge.BOTTOM},
    (1, 1, 1, 1): set(),
    (0, 0, 0, 0): set(Edge),
}


@pytest.mark.parametrize("cuts", CUT_OFF)
@pytest.mark.parametrize("edge", list(Edge))
def test_a_part_shows_the_border_of_an_edge_that_it_reaches(
    cuts: tuple[int, int, int, int], edge: Edge
) -> None:
    assert shows_border(bordered(edge), Face.FRONT, part(*cuts), WHOLE) is (edge in CUT_OFF[cuts])


@pytest.mark.parametrize(
    ("edge", "cuts"),
    [
        # Seen from the back, what is at the front's left is at the right.
        (Edge.RIGHT, (0, 2, 2, 2)),
        (Edge.LEFT, (2, 2, 0, 2)),
        (Edge.TOP, (2, 0, 2, 2)),
        (Edge.BOTTOM, (2, 2, 2, 0)),
    ],
)
def test_the_back_is_mirrored(edge: Edge, cuts: tuple[int, int, int, int]) -> None:
    assert shows_border(bordered(edge), Face.BACK, part(*cuts), WHOLE)
    others = [other for other in Edge if other is not edge]
    assert not any(shows_border(bordered(other), Face.BACK, part(*cuts), WHOLE) for other in others)


def test_a_spare_piece_of_the_same_name_is_better_than_scrap() -> None:
    kit = make_kit(
        sheet(cut([9, 6], ["panel", "scrap", "scrap"])),
        sheet(id="base"),
        ready=[ready("mat", 2, spare=1, size="2 x 2")],
        layouts=[layout("base", "panel", "mat")],
    )
    ledger = ledger_of(kit)
    left = remnants(kit, cut_kit(kit), ledger)
    wanted = {entry.name: entry for entry in ledger.entries if entry.use}
    spare = replacement(kit, wanted["mat"], left)
    assert spare is not None
    assert (spare.spare, spare.number) == ("mat", None)
    assert replacement(kit, wanted["panel"], left) is None, "6 x 12 comes out of no 3 x 12"


def test_a_round_piece_is_replaced_by_a_spare_one_only() -> None:
    def left_of(spare: int) -> str | None:
        dots = {**ready("dot", 1 + spare, spare=spare, size="2 x 2"), "outline": "circle"}
        kit = make_kit(sheet(cut(6, ["panel", "scrap"])), ready=[dots], layouts=[layout("panel", "dot")])
        ledger = ledger_of(kit)
        (dot,) = [entry for entry in ledger.entries if entry.use and entry.name == "dot"]
        found = replacement(kit, dot, remnants(kit, cut_kit(kit), ledger))
        return found.spare if found else None

    assert (left_of(0), left_of(1)) == (None, "dot")


def test_a_spare_printed_element_is_too_good_to_be_cut() -> None:
    kit = make_kit(
        sheet(
            cut(4, [], turn="clockwise"),
            elements=[element("sun", 0, 0, "12 x 8"), element("moon", 0, 8, "12 x 4")],
            spare=["sun"],
        ),
        layouts=[layout("moon")],
    )
    (sun,) = [one for one in remnants(kit, cut_kit(kit), ledger_of(kit)) if one.spare == "sun"]
    assert not sun.can_be_cut


def test_two_pieces_alike_that_are_left_replace_two_and_no_third() -> None:
    kit = make_kit(
        sheet(cut([11, 9, 6, 3], ["a", "a", "a", "scrap", "scrap"])),
        layouts=[layout("a", "a", "a")],
        ready=[ready("mat", 5, spare=2, size="2 x 2")],
    )
    ledger = ledger_of(kit)
    spoiled = [entry for entry in ledger.entries if entry.name == "mat" and not entry.spare]
    done = replace_spoiled(kit, cut_kit(kit), ledger, spoiled[:3])
    assert [(recut.remnant.spare, recut.remnant.count) for recut in done.recuts[:2]] == [("mat", 1)] * 2
    assert sum(recut.remnant.spare == "mat" for recut in done.recuts) == 2
