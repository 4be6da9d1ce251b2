"""The ledger: every piece from its cut, or from the box, to its pocket and its layout."""

from __future__ import annotations

from collections import Counter

from hypothesis import given
from hypothesis import strategies as st

from booklet.cutting.cut import cut_kit
from booklet.kit.kit import Kit
from booklet.sorting.ledger import made_pieces, sizes_by_name, wants
from tests.kits import Data, cut, element, ids, in_pocket, layout, ledger_of, make_kit, ready, sheet, used_by

TIDES = make_kit(
    sheet(cut([8, 4], ["strip", "strip", "strip"])),
    sheet(id="cardstock"),
    ready=[ready("mat", 3, spare=1)],
    layouts=[
        layout("cardstock", "strip", "mat", "strip", pocket=4),
        layout("strip", "mat", id="high tide", pocket=2),
    ],
)


def test_every_want_is_given_the_next_piece_of_its_name() -> None:
    ledger = ledger_of(TIDES)
    assert ledger.findings == ()
    assert [(e.label, e.name) for e in used_by(ledger, 0)] == [
        ("2", "cardstock"),
        ("1A", "strip"),
        ("", "mat"),
        ("1B", "strip"),
    ]
    assert [(e.label, e.name) for e in used_by(ledger, 1)] == [("1C", "strip"), ("", "mat")]


def test_a_piece_goes_to_the_pocket_of_its_layout() -> None:
    ledger = ledger_of(TIDES)
    assert [(e.label, e.name) for e in in_pocket(ledger, 4)] == [
        ("1A", "strip"),
        ("1B", "strip"),
        ("", "mat"),
    ]
    assert [e.name for e in in_pocket(ledger, 2)] == ["strip", "mat"]
    assert in_pocket(ledger, 3) == []


def in_pile(kit: Kit) -> list[tuple[str, str]]:
    return [(e.label, e.name) for e in ledger_of(kit).entries if e.waits_in_pile]


def test_a_base_that_is_a_whole_sheet_waits_in_the_pile() -> None:
    assert in_pile(TIDES) == [("2", "cardstock")]
    assert all(e.pocket is None for e in ledger_of(TIDES).entries if e.waits_in_pile)


def test_a_whole_sheet_is_filed_where_its_sheet_states_the_pocket() -> None:
    layouts = [layout("cardstock", pocket=4)]
    filed = make_kit(sheet(id="cardstock", pockets={"cardstock": 4}), layouts=layouts)
    assert ledger_of(filed).findings == ()
    assert [e.name for e in in_pocket(ledger_of(filed), 4)] == ["cardstock"]
    assert in_pile(filed) == []
    wrong = make_kit(sheet(id="cardstock", pockets={"cardstock": 3}), layouts=layouts)
    assert ids(ledger_of(wrong).findings) == ["pocket-differs"]


def test_only_a_base_waits_in_the_pile_and_only_where_it_was_left_whole() -> None:
    placed = make_kit(
        sheet(cut(6, ["left", "right"])),
        sheet(id="vellum"),
        layouts=[layout("left", "vellum", "right", pocket=3)],
    )
    assert in_pile(placed) == []
    assert [e.name for e in in_pocket(ledger_of(placed), 3)] == ["left", "right", "vellum"]
    boxed = make_kit(sheet(spare="sheet"), ready=[ready("base")], layouts=[layout("base")])
    assert in_pile(boxed) == []


def test_a_pocket_may_serve_two_layouts() -> None:
    kit = make_kit(
        sheet(cut(6, ["left", "right"])),
        layouts=[layout("left", pocket=1), layout("right", id="high tide", pocket=1)],
    )
    assert [e.name for e in in_pocket(ledger_of(kit), 1)] == ["left", "right"]


def test_spare_pieces_have_no_pocket() -> None:
    (spare,) = [e for e in ledger_of(TIDES).entries if e.spare]
    assert (spare.name, spare.use, spare.pocket) == ("mat", None, None)


def test_the_entry_of_a_want_and_of_a_piece() -> None:
    ledger = ledger_of(TIDES)
    entry = ledger.of_use(1, 0)
    assert entry is not None
    assert entry.use is not None
    assert entry.use.where == ("layouts", 1, "base")
    assert entry.piece is not None
    assert entry.label == "1C"
    assert ledger.of_piece(entry.piece) == entry
    assert ledger.of_use(1, 9) is None
    assert ledger.of_piece(cut_kit(TIDES)[0].stages[0].taken[0]) is None


def test_a_row_that_repeats_a_name_takes_a_piece_each_time() -> None:
    row = {"row": ["strip"], "count": 3, "left": 0, "right": 0, "top": 0}
    kit = make_kit(
        sheet(cut([8, 4], ["strip", "strip", "strip"])),
        sheet(id="cardstock"),
        layouts=[layout("cardstock") | {"steps": [row]}],
    )
    ledger = ledger_of(kit)
    assert ledger.findings == ()
    place = ("layouts", 0, "steps", 0, "row", 0)
    assert [e.label for e in used_by(ledger, 0) if e.use and e.use.where == place] == ["1A", "1B", "1C"]


def test_parts_that_a_snip_leaves_come_from_no_sheet() -> None:
    steps = [
        {"snip": "strip", "at": 6, "leaves": ["tail", "scrap"]},
        {"place": "tail", "left": 0, "top": 0},
    ]
    kit = make_kit(
        sheet(cut([8, 4], ["strip", "base", "scrap"])), layouts=[layout("base") | {"steps": steps}]
    )
    assert [want.name for want in wants(kit)] == ["base", "strip"]
    assert ledger_of(kit).findings == ()


def test_wants_are_in_the_order_of_the_spec() -> None:
    assert [(want.layout_index, want.name) for want in wants(TIDES)] == [
        (0, "cardstock"),
        (0, "strip"),
        (0, "mat"),
        (0, "strip"),
        (1, "strip"),
        (1, "mat"),
    ]


def test_pieces_are_listed_by_sheet_number_and_letter_then_ready_cut_ones() -> None:
    kit = make_kit(
        sheet(id="vellum"),
        sheet(cut([f"{n} 1/2" for n in range(27, 0, -1)], ["strip"] * 28), id="fringe", size="28 1/2 x 12"),
        sheet(cut(6), id="tags", elements=[element("sun", 1, 1), element("moon", 7, 1)]),
        ready=[ready("mat", 2)],
    )
    labels = [e.label for e in made_pieces(kit, cut_kit(kit))]
    assert labels[:2] == ["1A", "1B"]
    assert labels[22:] == ["1Y", "1Z", "1AA", "1AB", "1AC", "1AD", "2A", "2B", "3", "", ""]


def test_the_size_of_a_name_is_that_of_its_first_piece() -> None:
    kit = make_kit(sheet(cut("6 1/2", ["half", "half"])))
    entries = made_pieces(kit, cut_kit(kit))
    assert sizes_by_name(entries) == {"half": entries[0].size}
    assert entries[0].size.width == entries[1].size.width + 1


def test_two_sheets_cut_together_are_filed_piece_by_piece() -> None:
    kit = make_kit(
        sheet(cut(6, ["left", "right"]), count=2),
        layouts=[layout("left", "right"), layout("left", "right", id="high tide", pocket=2)],
    )
    ledger = ledger_of(kit)
    assert ledger.findings == ()
    assert [e.label for e in in_pocket(ledger, 1)] == ["1A", "1C"]
    assert [e.label for e in in_pocket(ledger, 2)] == ["1B", "1D"]


NAMES = ["strip", "mat", "tag", "panel"]


@st.composite
def kits(draw: st.DrawFn) -> Kit:
    """Sound sheets and boxes of anything, and layouts that want anything, enough or not."""
    name = st.sampled_from([*NAMES, "scrap"])
    sheets: list[Data] = []
    for number in range(draw(st.integers(1, 3))):
        leaves = draw(st.lists(name, min_size=2, max_size=4))
        at = [12 - 2 * place for place in range(1, len(leaves))]
        cuts = [cut(at, leaves)] if draw(st.booleans()) else []
        spare = draw(st.lists(st.sampled_from(NAMES), max_size=2))
        count = draw(st.integers(1, 3))
        sheets.append(sheet(*cuts, id=f"sheet {number}", spare=spare, count=count))
    boxes = st.builds(ready, st.sampled_from(NAMES), st.integers(1, 4), st.integers(0, 5))
    wanted = st.lists(st.sampled_from([*NAMES, "sheet 0", "sheet 1", "feather"]), min_size=1, max_size=5)
    pockets = st.integers(1, 3)
    layouts = [
        layout(*draw(wanted), id=f"layout {number}", pocket=draw(pockets))
        for number in range(draw(st.integers(1, 3)))
    ]
    return make_kit(*sheets, layouts=layouts, ready=draw(st.lists(boxes, max_size=2)))


@given(kits())
def test_nothing_is_lost(kit: Kit) -> None:
    """Each piece is used, spare or found to be left over, and only one of these."""
    ledger = ledger_of(kit)
    assert Counter(e.where for e in ledger.entries) == Counter(
        e.where for e in made_pieces(kit, cut_kit(kit))
    )
    left_over = [finding for finding in ledger.findings if finding.id == "piece-left-over"]
    told = sum(int(finding.found.split()[0]) for finding in left_over)
    used = [e for e in ledger.entries if e.use]
    spare = [e for e in ledger.entries if e.spare]
    free = [e for e in ledger.entries if e.is_free]
    assert not any(e.use and e.spare for e in ledger.entries)
    assert len(used) + len(spare) + told == len(ledger.entries)
    assert {(e.name, e.source) for e in free} == {
        (f.found.split('"')[1], (f.where[0], f.where[1])) for f in left_over
    }


@given(kits())
def test_each_want_is_met_or_found(kit: Kit) -> None:
    ledger = ledger_of(kit)
    unmet = {"piece-not-made", "piece-spare-used", "piece-used-twice"}
    assert len(ledger.given) == len(wants(kit))
    found = [finding.where for finding in ledger.findings if finding.id in unmet]
    # Of what is in the box, more may be said to be spare than there is: that is told there.
    overstated = {one.name for one in kit.ready if one.spare > one.count}
    assert found == [
        want.where
        for want, entry in zip(wants(kit), ledger.given, strict=True)
        if entry is None and want.name not in overstated
    ]
    for want, entry in zip(wants(kit), ledger.given, strict=True):
        assert entry is None or (entry.use == want and entry.name == want.name)
        pocket = kit.layouts[want.layout_index].pocket
        assert entry is None or entry.pocket == (None if entry.waits_in_pile else pocket)


@given(kits())
def test_no_piece_is_given_twice(kit: Kit) -> None:
    pieces = [e.piece.key for e in ledger_of(kit).given if e and e.piece]
    assert len(pieces) == len(set(pieces))
    boxed = Counter(e.ready_index for e in ledger_of(kit).given if e and e.ready_index is not None)
    assert all(kit.ready[index].count - kit.ready[index].spare >= count for index, count in boxed.items())


@given(kits())
def test_a_want_goes_unmet_only_where_no_free_piece_of_its_name_is_left(kit: Kit) -> None:
    ledger = ledger_of(kit)
    free = {e.name for e in ledger.entries if e.is_free}
    met = zip(wants(kit), ledger.given, strict=True)
    assert not free & {want.name for want, entry in met if entry is None}
    assert not {"pocket-of-nothing", "pocket-differs"} & set(ids(ledger.findings))
