"""What the words are told of how things lie: records with exact values that know where they come from."""

from __future__ import annotations

from fractions import Fraction

from booklet.content.assembly.holds import HeldThing, lying_of, series_of
from booklet.content.assembly.lying import (
    AtEdge,
    BeyondEdge,
    Border,
    Centred,
    FromEdge,
    InCorner,
    InLine,
    Lying,
    NextTo,
    Noun,
    OnFold,
    Overlapping,
    Page,
    Pivot,
    Thing,
)
from booklet.content.assembly.section import layout_sections
from booklet.content.assembly.things import LayoutContext, layout_context
from booklet.content.spans import Length, Number, Own, StepRef
from booklet.content.words.language import ENGLISH
from booklet.kit.bundled import bundled_kits
from booklet.kit.fields import Edge, Turn
from booklet.kit.load import load_kit
from booklet.kit.position import Direction
from booklet.kit.steps import Corner
from booklet.placing.details import Held
from booklet.placing.resolved import resolve_kit
from tests.content.assembly.telling import items, resolved, spans_of, typed
from tests.kits import value_at
from tests.placing.layouts import kit_of, steps_of

MAT = "{place: mat, left: 3, top: 3}"


def lying(steps: str) -> Lying:
    """How the thing of the last step lies."""
    context = layout_context(resolved(kit_of({"steps": steps_of(steps)})), 0)
    return lying_of(thing_of_step(context, len(context.spec.steps)))


def thing_of_step(context: LayoutContext, number: int) -> HeldThing:
    placed = context.placed(number)
    held = placed.detail(Held)
    assert held is not None
    return HeldThing(context, placed, held)


def value(length: Length | None) -> Fraction | None:
    return None if length is None else length.value


def test_distances_are_from_an_edge_of_the_page_or_of_what_it_lies_on() -> None:
    left, top = lying("[{place: tag, left: 1, top: 2 7/8}]").holds
    assert isinstance(left, FromEdge)
    assert (left.edge, left.owner) == (Edge.LEFT, Page.THIS)
    assert left.distance.value == 1
    assert left.distance.source == ("layouts", 0, "steps", 0, "left")
    assert isinstance(top, FromEdge)
    assert top.distance.value == Fraction(23, 8)
    right, _ = lying(f"[{MAT}, {{place: tag, on: mat, right: 1/2, bottom: 1/4}}]").holds
    assert isinstance(right, FromEdge)
    assert isinstance(right.owner, Thing)
    assert right.owner.steps == (StepRef("page-1", 1),)
    assert right.owner.name == Own("mat", ("layouts", 0, "steps", 0, "place"))


def test_no_distance_is_a_corner_an_edge_or_the_whole_page() -> None:
    assert lying("[{place: tag, left: 0, top: 0}]").holds == (InCorner(Corner.TOP_LEFT, Page.THIS),)
    assert lying("[{place: tag, left: 0, top: 3}]").holds[0] == AtEdge(Edge.LEFT, Page.THIS)
    strip = lying("[{place: strip, left: 0, top: 3}]")
    assert strip.whole is not None
    assert strip.whole.directions == (Direction.ACROSS,)
    (hold,) = lying("[{place: banner, left: -1, centred: down, overhang: yes}]").holds[:1]
    assert isinstance(hold, BeyondEdge)


def test_next_to_a_thing_with_a_gap_without_one_and_overlapping() -> None:
    (gap, flush) = lying(f"[{MAT}, {{place: tag, beside: mat, gap: 1/4, flush: top}}]").holds
    assert isinstance(gap, NextTo)
    assert (gap.side, value(gap.gap)) == (Edge.RIGHT, Fraction(1, 4))
    assert isinstance(flush, InLine)
    assert flush.edges == (Edge.TOP,)
    (stood, *_) = lying(f"[{MAT}, {{place: badge, above: mat, left: 3}}]").holds
    assert isinstance(stood, NextTo)
    assert (stood.side, stood.gap) == (Edge.TOP, None)
    over = lying(f"[{MAT}, {{place: tag, beside: mat, gap: -1/2, flush: top}}]").holds[0]
    under = lying(f"[{MAT}, {{place: tag, beside: mat, gap: -1/2, flush: top, tucked: mat}}]")
    assert isinstance(over, Overlapping)
    assert not over.is_under
    assert isinstance(under.holds[0], Overlapping)
    assert under.holds[0].is_under
    assert under.under == ()


def test_what_it_goes_beneath() -> None:
    (thing,) = lying(f"[{MAT}, {{place: tag, tucked: mat, left: 2, top: 4}}]").under
    assert thing.noun is Noun.NAMED


def test_middles_with_what_is_left_beside_them() -> None:
    page = lying("[{place: mat, centred: yes}]").centre
    assert page is not None
    assert page.margins is not None
    assert (value(page.margins.across), value(page.margins.down)) == (Fraction(23, 8), Fraction(31, 8))
    (across, _) = lying("[{place: tag, centred: across, top: 6}]").holds[::-1]
    assert isinstance(across, Centred)
    assert value(across.margin) == 5
    small = lying(f"[{MAT}, {{add: brass, on: mat, top: 1/4}}]").holds[-1]
    assert isinstance(small, Centred)
    assert small.margin is None


def test_the_middle_of_a_spread_is_the_fold() -> None:
    kit = kit_of(
        {"steps": steps_of("[{place: banner, spread: yes, centred: yes}]"), "facing": "page-2"},
        {"steps": steps_of("[{other_half: banner}]"), "base": "other base"},
    )
    context = layout_context(resolved(kit), 0)
    assert OnFold() in lying_of(thing_of_step(context, 1)).holds


def test_a_tilt_names_what_it_is_about() -> None:
    alone = lying("[{place: tag, left: 3, top: 3, tilt: -6}]").tilt
    assert alone is not None
    assert alone.degrees.value == 6
    assert (alone.is_clockwise, alone.pivot) == (False, Pivot.OWN_MIDDLE)
    alike = lying("[{place: tag, left: 3, top: 3, tilt: 6}, {place: badge, on: tag, tilt: 6}]").tilt
    assert alike is not None
    assert alike.pivot is Pivot.WITH_HOST


def test_a_border_is_what_is_seen_of_the_lower_one() -> None:
    even = lying("[{place: big mat, left: 1, top: 1}, {place: tall mat, on: big mat}]").seen
    assert isinstance(even, Border)
    assert even.is_even
    assert value(even.across) == Fraction(1, 8)
    tilted = lying(f"[{MAT}, {{place: badge, on: mat, tilt: 6}}]").seen
    assert tilted is None


def test_a_turn_and_a_back_are_handled_first() -> None:
    handling = lying("[{place: tag, left: 1, top: 2, face: back, turn: anticlockwise}]").handling
    assert (handling.turn, handling.is_over, handling.is_sideways) == (Turn.ANTICLOCKWISE, True, False)


def test_where_the_page_cuts_off_what_hangs_over() -> None:
    over = lying("[{place: banner, right: -1/2, top: 2, overhang: yes}]")
    assert over.trim == (Edge.RIGHT,)
    assert lying("[{place: banner, right: 1/2, top: 2, overhang: yes}]").trim == ()


def test_a_row_knows_its_ends_its_gap_and_its_middle() -> None:
    context = layout_context(
        resolved(kit_of({"steps": steps_of("[{row: badge, count: 3, left: 1, right: 2, top: 1}]")})), 0
    )
    series, across = series_of(thing_of_step(context, 1), Number(Fraction(3), "three", ("layouts",)))
    assert [end.edge for end in series.ends if isinstance(end, FromEdge)] == [Edge.LEFT, Edge.RIGHT]
    assert value(series.gap) == Fraction(3, 2)
    assert series.middle is not None
    assert series.middle.distance.value == Fraction(11, 2)
    assert [hold.edge for hold in across.holds if isinstance(hold, FromEdge)] == [Edge.TOP]


def test_every_span_knows_a_place_in_the_spec_that_it_comes_from() -> None:
    for spec in bundled_kits().values():
        done = resolve_kit(load_kit(spec))
        for span in spans_of(layout_sections(done, ENGLISH)):
            source = getattr(span, "source", None)
            if source is not None and "edges" not in source:
                value_at(done.kit, source)


def test_what_may_be_left_out_says_so_once() -> None:
    steps = "{place: tag, left: 1, top: 1, optional: yes}, {raise: tag, count: 2, optional: yes}"
    (only,) = items(f"[{steps}]")
    assert [typed(part.said) for part in only.parts] == [
        "If you like: lay it 1 in from the left, 1 in down, on two bits of foam."
    ]
