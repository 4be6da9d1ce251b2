"""What just fits and what just does not: a hair more or less decides."""

from __future__ import annotations

from fractions import Fraction

import pytest

from booklet.kit.fields import Edge
from booklet.measure.length import Size, Unit
from booklet.placing.details import Added, CutLength, Inked, Punched, Rounded, Snipped, TrimmedRound
from booklet.placing.limits import allowances_for
from booklet.placing.photos import photo_slots
from booklet.placing.place_layouts import place_layouts
from booklet.placing.stitches import Stitched, stitches_along
from booklet.placing.supplies import balance_supplies, check_supplies
from tests.placing.layouts import detail, ids, kit_of, named, page, pieces, rect, serious, steps_of

TAG = "{place: tag, left: 1, top: 1}"


@pytest.mark.parametrize(
    ("size", "found"), [("2 x 3", []), ("2 x 3 1/64", ["trim-too-large"]), ("2 1/64 x 3", ["trim-too-large"])]
)
def test_a_tag_is_trimmed_to_no_more_than_it_is(size: str, found: list[str]) -> None:
    assert ids(page(f"[{{trim_round: tag, size: {size}}}, {TAG}]")) == found


@pytest.mark.parametrize(
    ("size", "found"),
    [("1 1/2 x 2 1/2", []), ("1 5/8 x 2 1/2", ["trim-uneven"]), ("1 41/64 x 2 1/2", []), ("1 x 2 1/2", [])],
)
def test_a_trim_takes_alike_off_all_sides_or_clearly_not(size: str, found: list[str]) -> None:
    # A tag is 2 x 3: half an inch off the height takes half an inch off the width, give or take 1/8.
    assert ids(page(f"[{{trim_round: tag, size: {size}}}, {TAG}]")) == found


@pytest.mark.parametrize(
    ("place", "found"),
    [
        # A hole of 1/4 whose edge touches that of the tag, 2 x 3, leaves no paper there.
        ("left: 0, top: 1", ["hole-off-piece"]),
        ("right: 0, top: 1", ["hole-off-piece"]),
        ("left: 1, top: 0", ["hole-off-piece"]),
        ("left: 1, bottom: 0", ["hole-off-piece"]),
        ("left: 1/64, top: 1/64", []),
        ("right: 1/64, bottom: 1/64", []),
    ],
)
def test_a_hole_leaves_paper_all_round(place: str, found: list[str]) -> None:
    assert ids(page(f"[{{punch: tag, hole: 1/4, {place}}}, {TAG}]")) == found


@pytest.mark.parametrize(
    ("border", "found"),
    [
        ("3/4", []),
        ("1", ["photo-fits-nothing"]),
        ("[3/4, 1 1/2]", ["photo-fits-nothing"]),
        ("[1, 3/4]", ["photo-fits-nothing"]),
    ],
)
def test_a_border_leaves_something_of_a_photograph(border: str, found: list[str]) -> None:
    """On a tag of 2 x 3: a border of 3/4 leaves 1/2 x 1 1/2, one of 1 at the sides nothing."""
    assert serious(page(f"[{TAG}, {{photo: fits, on: tag, border: {border}}}]")) == found


def test_a_photograph_is_as_large_as_its_border_leaves() -> None:
    layout = page(f"[{TAG}, {{photo: fits, on: tag, border: [3/4, 1]}}]")
    assert named(layout, "photo").rect == rect("1 3/4, 2, 1/2 x 1")


@pytest.mark.parametrize(
    ("edge", "lefts"),
    [("left", ["0, 0, 3 x 3", "3, 0, 5 x 3"]), ("right", ["5, 0, 3 x 3", "0, 0, 5 x 3"])],
)
def test_a_banner_is_snipped_from_the_edge_that_is_said(edge: str, lefts: list[str]) -> None:
    layout = page(f"[{{snip: banner, measured_from: {edge}, at: 3, leaves: [scrap, scrap]}}]")
    snipped = detail(layout, 1, Snipped)
    assert [part.area for part in snipped.parts] == [rect(left) for left in lefts]
    assert (snipped.measured_from, snipped.at) == (Edge(edge), (Fraction(3),))


@pytest.mark.parametrize(
    ("edge", "tops"),
    [("top", ["0, 0, 8 x 1", "0, 1, 8 x 2"]), ("bottom", ["0, 2, 8 x 1", "0, 0, 8 x 2"])],
)
def test_a_banner_is_snipped_down_its_height(edge: str, tops: list[str]) -> None:
    layout = page(f"[{{snip: banner, measured_from: {edge}, at: 1, leaves: [scrap, scrap]}}]")
    assert [part.area for part in detail(layout, 1, Snipped).parts] == [rect(top) for top in tops]


def test_what_is_done_to_a_piece_keeps_what_was_said_of_it() -> None:
    words = "{round: tag, radius: 1/4, corners: [top left]}, {ink: tag, edges: [left], supply: sea ink}"
    layout = page(f"[{{trim_round: tag, size: 1 x 2, outline: tag}}, {words}, {TAG}]")
    trimmed, rounded = detail(layout, 1, TrimmedRound), detail(layout, 2, Rounded)
    inked = detail(layout, 3, Inked)
    assert (trimmed.piece, trimmed.size) == ("tag", pieces({"tag": "1 x 2"}).size_of("tag"))
    assert trimmed.outline == "tag"
    assert ([corner.value for corner in rounded.corners], rounded.radius) == (["top left"], Fraction(1, 4))
    assert ([edge.value for edge in inked.edges], inked.supply) == (["left"], "sea ink")


@pytest.mark.parametrize(
    ("words", "found"),
    [
        # A brad of 1/4: so far apart they touch; a hair nearer and one lies on the other.
        ("count: 3, apart: 1/4", []),
        ("count: 3, apart: 15/64", ["overlap-too-large"]),
        ("count: 2, apart: 15/64", ["overlap-too-large"]),
        ("count: 3, right: 10 1/2", []),
        ("count: 3, right: 10 33/64", ["series-too-long"]),
        ("count: 2, right: 10 49/64", ["series-too-long"]),
    ],
)
def test_brads_in_a_run_touch_at_most(words: str, found: list[str]) -> None:
    assert serious(page(f"[{{add: brass, run: across, left: 1, top: 1, {words}}}]")) == found


@pytest.mark.parametrize(("run", "found"), [("across", []), ("down", ["overlap-too-large"])])
def test_what_is_higher_than_wide_needs_more_room_down_the_page(run: str, found: list[str]) -> None:
    bars = [{"id": "bars", "kind": "brads", "count": "9", "size": "1/4 x 1"}]
    words = f"{{add: bars, count: 2, run: {run}, left: 1, top: 1, apart: 1/2}}"
    assert serious(page(f"[{words}]", supplies=bars)) == found


@pytest.mark.parametrize(("count", "scattered"), [(1, False), (2, True)])
def test_two_dots_are_scattered_and_one_lies_in_its_place(count: int, scattered: bool) -> None:
    layout = page(f"[{TAG}, {{add: glue dots, count: {count}, on: tag}}]")
    added = detail(layout, 2, Added)
    assert (added.scattered, added.count) == (scattered, count)


def test_stitches_are_counted_as_they_fit() -> None:
    # Three of 1/4 with two spaces of 1/8 take 1; a hair less leaves room for two.
    quarter, eighth = Fraction(1, 4), Fraction(1, 8)
    assert stitches_along(Fraction(1), quarter, eighth) == 3
    assert stitches_along(Fraction(63, 64), quarter, eighth) == 2
    # 7/16 has one and a half of them: `/` and `//` differ where a part of a stitch is left.
    assert stitches_along(Fraction(0), quarter, eighth) == 0


def test_a_seam_uses_its_line_and_two_ends_of_thread() -> None:
    steps = "{place: mat, left: 1, top: 1}, {place: tag, left: 2, top: 1 1/2}"
    seam = "{stitch: [tag, mat], along: left, inset: 1/4, length: 1/4, spacing: 1/4, thread: twill}"
    layout = page(f"[{steps}, {seam}]", sizes={"base": "12 x 12", "mat": "6 x 6", "tag": "2 x 3"})
    stitched = detail(layout, 3, Stitched)
    # 3 less two ends of 1/4 is 2 1/2: five stitches and four spaces of 1/4 are 2 1/4.
    assert (stitched.count, stitched.start) == (5, Fraction(3, 8))
    assert [use.amount for use in layout.supplies] == [Fraction(9, 4) + 2]


def test_a_wrap_goes_round_the_front_and_the_back() -> None:
    layout = page(f"[{TAG}, {{ribbon: twill, wrap: tag, top: 1}}]")
    length = detail(layout, 2, CutLength)
    # 2 across, twice, and the usual overlap of 1/2.
    assert (length.net, length.allowance, length.total) == (Fraction(4), Fraction(1, 2), Fraction(9, 2))


@pytest.mark.parametrize(
    ("unit", "usual"),
    [
        (Unit.INCH, (Fraction(1), Fraction(1, 2), Fraction(1, 4))),
        (Unit.MILLIMETRE, (Fraction(25), Fraction(12), Fraction(6))),
        (Unit.CENTIMETRE, (Fraction(5, 2), Fraction(6, 5), Fraction(3, 5))),
    ],
)
def test_the_usual_allowances_are_round_in_every_unit(
    unit: Unit, usual: tuple[Fraction, Fraction, Fraction]
) -> None:
    """Ends of 1 in or 25 mm, an overlap of 1/2 in or 12 mm, brads of 1/4 in or 6 mm: common practice."""
    allowances = allowances_for(unit)
    assert (allowances.ends, allowances.overlap, allowances.added) == usual


@pytest.mark.parametrize(("run", "size"), [("", "3 x 1/2"), ("run: down", None)])
def test_a_strip_of_tape_has_its_length_across(run: str, size: str | None) -> None:
    layout = page(f"[{{tape: rope tape, length: 3, left: 1, top: 1{', ' + run if run else ''}}}]")
    if size is None:
        assert ids(layout) == ["tape-form"]
    else:
        assert named(layout, "rope tape").rect == rect(f"1, 1, {size}")


def test_tape_along_a_square_runs_across() -> None:
    layout = page("[{place: badge, left: 1, top: 1}, {tape: rope tape, along: badge}]")
    assert named(layout, "rope tape").rect == rect("1, 1 3/4, 2 x 1/2")


def test_a_punched_hole_keeps_its_place() -> None:
    layout = page(f"[{{punch: tag, hole: 1/4, left: 1/2, top: 1/4}}, {TAG}]")
    punched = detail(layout, 1, Punched)
    assert punched.hole == rect("1/2, 1/4, 1/4 x 1/4")
    assert punched.held is not None


@pytest.mark.parametrize(
    ("count", "optional", "found"),
    [
        # Three dots are used, one of them only by an optional step.
        (2, True, ["supply-short-for-options"]),
        (1, True, ["supply-short"]),
        (2, False, ["supply-short"]),
    ],
)
def test_too_little_is_an_error_unless_only_an_option_lacks_it(
    count: int, optional: bool, found: list[str]
) -> None:
    dots = [{"id": "glue dots", "kind": "dots", "count": str(count)}]
    kit = kit_of({"steps": steps_of(f"[{dotted(2, False)}, {dotted(1, optional)}]")}, supplies=dots)
    told = list(check_supplies(kit, place_layouts(kit, pieces())))
    assert [finding.id for finding in told] == found
    assert [finding.where for finding in told] == [("supplies", 0, "count")]
    assert "page-1 3" in told[0].cure


def dotted(count: int, optional: bool) -> str:
    """A tag that so many dots hold."""
    word = "yes" if optional else "no"
    return f"{{place: tag, left: {3 * count}, top: 1, optional: {word}, uses: {{glue dots: {count}}}}}"


def test_a_supply_whose_amount_is_not_said_is_asked_for() -> None:
    dots = [{"id": "glue dots", "kind": "dots"}]
    kit = kit_of({"steps": steps_of(f"[{dotted(2, False)}]")}, supplies=dots)
    (told,) = check_supplies(kit, place_layouts(kit, pieces()))
    assert (told.id, told.where, told.cure) == ("supply-uncounted", ("supplies", 0), "say count:")


def test_ink_and_stencils_last_in_every_layout_that_names_them() -> None:
    inked = {"steps": steps_of(f"[{{ink: tag, supply: sea ink}}, {TAG}]")}
    stencilled = {"steps": steps_of("[{stencil: net, size: 2 x 2, left: 1, top: 1}]")}
    kit = kit_of(inked, stencilled, {"steps": []})
    balances = {one.supply: one for one in balance_supplies(kit, place_layouts(kit, pieces()))}
    assert (balances["sea ink"].lasting_in, balances["net"].lasting_in) == (("page-1",), ("page-2",))
    assert balances["twill"].lasting_in == ()
    assert not list(check_supplies(kit, place_layouts(kit, pieces())))


def test_each_photograph_is_counted_with_its_size() -> None:
    layout = page(
        "[{place: mat, left: 1, top: 1}, {photo: 4 x 6, left: 8, top: 1}, {photo: 3 x 3, left: 1, top: 8}]"
    )
    assert [(slot.size, slot.trimmed) for slot in photo_slots(layout, Unit.INCH)] == [
        (Size(Fraction(4), Fraction(6)), False),
        (Size(Fraction(3), Fraction(3)), True),
    ]


def test_a_piece_knows_which_of_the_layouts_uses_it_is() -> None:
    layout = page("[{place: tag, left: 1, top: 1}, {place: mat, left: 4, top: 1}]")
    # The base is the first use.
    assert [named(layout, name).use for name in ("tag", "mat")] == [1, 2]


@pytest.mark.parametrize(("gap", "found"), [("1/32", ["near-miss"]), ("1/4", [])])
def test_a_corner_that_comes_near_a_tilted_edge_is_measured_aslant(gap: str, found: list[str]) -> None:
    """A badge of 2 x 2 turned by 45 degrees about its middle at 6, 6 reaches down to 6 + sqrt 2 = 7.4142."""
    tip = 7.4142
    top = Fraction(str(tip)) + Fraction(gap)
    words = f"{{place: tag, left: 5, top: {float(top):.4f}}}"
    assert serious(page(f"[{{place: badge, left: 5, top: 5, tilt: 45}}, {words}]")) == found
