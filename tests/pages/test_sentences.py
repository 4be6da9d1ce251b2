"""Every verb as a sentence, with lengths as a hand types them; and the sentences of whole kits."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings

from booklet.cutting.cut import cut_kit
from booklet.kit.bundled import bundled_kits
from booklet.kit.load import load_kit
from booklet.measure.length import Unit
from booklet.pages.sentences import StepWords, photo_words, step_words
from booklet.placing.place_layouts import place_layouts
from booklet.placing.resolved import ResolvedKit, resolve_kit
from booklet.sorting.ledger import keep_ledger, made_pieces, sizes_by_name, wants
from tests.kits import cut, make_kit, ready, sheet, used_by
from tests.pages.telling import bodies, body, resolved, told, typed
from tests.placing.layouts import Pieces, kit_of, steps_of
from tests.placing.test_designer_says import SAYINGS
from tests.placing.test_never_raises import STEPS, kit_if_valid

TAG = "{place: tag, left: 1, top: 1}"
MAT = "{place: mat, left: 1, top: 1}"
STRIP = "{place: strip, left: 0, top: 5}"

# What is done to a piece, before it is laid or after.
WORK = {
    "{snip: banner, at: [3, 6], leaves: [wing, heart, tail]}, {place: wing, left: 0, top: 0},"
    " {place: heart, left: 4, top: 0}, {place: tail, left: 8, top: 0}": [
        "Snip it at 3 and 6 from its left edge: wing (3 × 3), heart (3 × 3) and tail (2 × 3).",
        "Snipped in 1. Lay it in the page's top left corner.",
        "Snipped in 1. Lay it in line with the page's top edge, 4 from its left.",
        "Snipped in 1. Lay it in line with the page's top edge, 8 from its left.",
    ],
    "{snip: tag, measured_from: bottom, at: 1, leaves: [scrap, head], say: Keep the eyelet.},"
    " {place: head, left: 1, top: 1}": [
        "Keep the eyelet. Snip it at 1 from its bottom edge: scrap (2 × 1) and head (2 × 2).",
        "Snipped in 1. Lay it 1 from the page's left and top edges.",
    ],
    f"{{trim_round: badge, size: 1 3/4 x 1 1/2, outline: the printed rope}}, {STRIP},"
    " {place: badge, left: 1, top: 1}": [
        "Trim it along the printed rope, to 1 3/4 × 1 1/2.",
        "Lay it across the whole page, its top edge 5 below the page's top.",
        "Lay it 1 from the page's left and top edges.",
    ],
    f"{MAT}, {{round: mat, radius: 1/4}}, {{round: mat, radius: 1/2, corners: [top left, bottom right]}}": [
        "Lay it 1 from the page's left and top edges.",
        "Round all four corners of 1 to a radius of 1/4.",
        "Round the top left and bottom right corners of 1 to a radius of 1/2.",
    ],
    f"{{round: tag, radius: 1/4, corners: top left}}, {TAG}": [
        "Round its top left corner to a radius of 1/4.",
        "Lay it 1 from the page's left and top edges.",
    ],
    f"{{punch: tag, corners: all, shape: ticket}}, {TAG}, {{punch: tag, hole: 1/4, right: 1/4}}": [
        "Punch all four of its corners with a ticket punch.",
        "Lay it 1 from the page's left and top edges.",
        "Punch a 1/4 hole in 2, the rim 1/4 from its right edge, centred top to bottom.",
    ],
    f"{{punch: tag, hole: 1/4, top: 1/4, centred: across}}, {TAG}, {{punch: tag, hole: 1/2, shape: star}}": [
        "Punch a 1/4 hole in it, the rim 1/4 from its top edge, centred left to right.",
        "Lay it 1 from the page's left and top edges.",
        "Punch a 1/2 star hole in 2, in its middle.",
    ],
    f"{{ink: tag, supply: sea ink}}, {TAG}, {{ink: tag, edges: [left, right]}}": [
        "Ink all four of its edges. Use the sea ink.",
        "Lay it 1 from the page's left and top edges.",
        "Ink the left and right edges of 2.",
    ],
    f"{TAG}, {{raise: tag, foam: foam bits, count: 4}}, {{raise: tag, count: 2}}": [
        "Lay it 1 from the page's left and top edges.",
        "Raise 1 on four of them.",
        "Raise 1 on two bits of foam.",
    ],
    f"{TAG}, {{do: Press it overnight., on: tag}}, {{do: Sign the page.}}": [
        "Lay it 1 from the page's left and top edges.",
        "On 1: Press it overnight.",
        "Sign the page.",
    ],
}


@pytest.mark.parametrize("steps", WORK)
def test_work_on_pieces(steps: str) -> None:
    assert bodies(f"[{steps}]") == WORK[steps]


# Ribbon, tape, stencils and small things.
SUPPLIES = {
    "{ribbon: twill, run: across, top: 2, ends: 1/2}": (
        "Cut 13 in: 12 across and 1/2 to fold behind at each end."
        " Lay it across the whole page, its top edge 2 below the page's top."
    ),
    "{ribbon: twill, run: down, right: 2, ends: 0}": (
        "Cut 12 in. Lay it from top to bottom of the page, 2 from the page's right edge."
    ),
    f"{MAT}, {{ribbon: twill, wrap: mat, bottom: 1/8, overlap: 1}}": (
        "Cut 13 1/2 in: 12 1/2 to go round and 1 to overlap behind."
        " Wrap it round 1, 1/8 from its bottom edge. Glue 1 down only then."
    ),
    f"{MAT}, {{ribbon: twill, wrap: mat, run: down, overlap: 1}}": (
        "Cut 9 1/2 in: 8 1/2 to go round and 1 to overlap behind."
        " Wrap it round 1, top to bottom, centred left to right. Glue 1 down only then."
    ),
    "{place: tag, left: 2, top: 3},"
    " {ribbon: twill, loop: 1 1/2, above: tag, gap: -1/2, centred: across, tucked: tag}": (
        "Cut 3 in. Fold it to a loop of 1 1/2 and fix it above 1, 1/2 of it tucked under,"
        " centred on 1 left to right."
    ),
    f"{STRIP}, {{ribbon: twill, bow: 9, on: strip, right: 4}}": (
        "Cut 9 in. Tie a bow and fix it on 1, 4 from its right edge, centred top to bottom."
    ),
    f"{MAT}, {{ribbon: twill, bow: 9, on: mat, ends: 1}}": (
        "Cut 10 in: 9 for the bow and 1 to fix it. Tie a bow and fix it on 1."
    ),
    "{tape: rope tape, run: across, top: 3, ends: 1/2}": (
        "Cut 13 in: 12 across and 1/2 to fold behind at each end."
        " Stick it across the whole page, its top edge 3 below the page's top."
    ),
    f"{STRIP}, {{tape: rope tape, along: strip}}": "Cut 12 in. Run it along 1, centred top to bottom.",
    f"{STRIP}, {{tape: rope tape, along: strip, top: 1/4}}": (
        "Cut 12 in. Run it along 1, 1/4 from its top edge."
    ),
    "{tape: rope tape, length: 1 1/2, left: 8, top: 2, tilt: 3}": (
        "Cut 1 1/2 in. Stick it 8 from the page's left edge, 2 from its top, then tilt it 3° clockwise."
    ),
    "{stencil: net, left: 0, right: 0, top: 3, bottom: 5 1/2, guideline: top, supply: sea ink}": (
        "Rule a pencil line 3 from the page's top edge."
        " Stencil an area of 12 × 3 1/2 below it, across the whole page, the stencil's top edge on the line."
        " The pattern fits eight times across and three times down (1/2 is left). Use the sea ink."
    ),
    "{stencil: net, size: 9 1/4 x 1, left: 1, top: 0}": (
        "Rule a pencil line 1 from the page's left edge."
        " Stencil an area of 9 1/4 × 1 to the right of it, in line with the page's top edge,"
        " the stencil's left edge on the line."
        " The pattern fits six times across (1/4 is left) and once down."
    ),
    "{stencil: net, size: 12 x 1/2, left: 0, top: 0, guideline: top}": (
        "Stencil an area of 12 × 1/2, across the whole page, in line with the page's top edge."
        " Lay the stencil's top edge along the page's. The pattern fits eight times across."
    ),
    f"{MAT}, {{add: brass, on: mat}}": "Fix one in the middle of 1.",
    f"{MAT}, {{add: brass, on: mat, top: 1/4}}": (
        "Fix one on 1, 1/4 from its top edge, centred left to right."
    ),
    f"{MAT}, {{add: brass, corners: all, on: mat, inset: 1/8}}": (
        "Fix one in each corner of 1, 1/8 from both edges."
    ),
    "{add: brass, corners: [top left, top right], inset: 1/2}": (
        "Fix one in each of the top left and top right corners of the page, 1/2 from both edges."
    ),
    f"{STRIP}, {{add: brass, count: 5, on: strip}}": "Scatter five over 1.",
    "{add: glue dots, run: across, count: 6, left: 1, right: 1, top: 1 1/2}": (
        "Put six in a row, 1 from the page's left and right edges,"
        " their top edges 1 1/2 below the page's top, 2 apart."
    ),
    "{place: tag, left: 1, top: 1, uses: {glue dots: 4}}": (
        "Lay it 1 from the page's left and top edges. Use four of the glue dots."
    ),
    "{place: tag, left: 1, top: 1, uses: {rope tape: 2 1/2}}": (
        "Lay it 1 from the page's left and top edges. Use 2 1/2 in of the rope tape."
    ),
}


@pytest.mark.parametrize("steps", SUPPLIES)
def test_supplies(steps: str) -> None:
    assert body(f"[{steps}]") == SUPPLIES[steps]


# Blocks and spreads.


def test_a_block_is_built_on_the_table_and_laid_down_whole() -> None:
    assert bodies(
        "[{place: tall mat, loose: yes}, {photo: 4 x 6, on: tall mat},"
        " {place: badge, beside: tall mat, gap: 1/4, flush: bottom},"
        " {group: [tall mat, badge], called: block, left: 1, top: 2},"
        " {place: strip, left: 0, below: block, gap: 1/2}]"
    ) == [
        "Keep it on the table for now.",
        "Centre it on 1: an even 1/8 all round.",
        "Lay it to the right of 1, 1/4 between, flush with 1 at the bottom.",
        "Lay 1 and 3, with all that lies on them, as one block, 1 from the page's left edge, 2 from its top.",
        "Lay it across the whole page, below 4, 1/2 between.",
    ]


def test_a_block_on_the_page_is_moved_and_turned() -> None:
    assert body(
        f"[{MAT}, {{place: small tag, on: mat}}, {{group: mat, turn: clockwise, right: 1, top: 1}}]"
    ) == (
        "Give 1, with all that lies on it, as one block, a quarter turn clockwise"
        " and move it 1 from the page's right and top edges."
    )


def test_what_is_said_of_a_piece_holds_after_its_block_was_turned() -> None:
    steps = "{place: big mat, left: 1, top: 1}, {place: small tag, on: big mat, top: 1}"
    alone = bodies(f"[{steps}]")
    turned = bodies(f"[{steps}, {{group: big mat, turn: clockwise, left: 1, top: 1}}]")
    assert alone[1] == "Lay it on 1, 1 from its top edge, centred left to right (1 3/4 at each side)."
    assert turned[1] == "Lay it on 1, 1 from its top edge, centred left to right."


def _spread(left: str, right: str = "[{other_half: banner}]") -> list[StepWords]:
    """The first words of both pages of a spread."""
    kit = kit_of(
        {"steps": steps_of(left), "facing": "page-2", "title": "Ebb"},
        {"steps": steps_of(right), "base": "other base"},
    )
    done = resolved(kit)
    return [step_words(done, layout)[0] for layout in done.layouts]


def test_the_other_half_of_what_may_be_left_out_may_be_left_out_too() -> None:
    left, right = _spread("[{place: banner, spread: yes, centred: yes, optional: yes}]")
    assert left.optional
    assert right.optional
    assert right.body.startswith("If you like: lay what “Ebb” leaves over")


def test_a_piece_across_the_fold_is_cut_and_both_parts_are_spoken_of() -> None:
    words = _spread("[{place: banner, spread: yes, left: 8, top: 2}]")
    assert [typed(one.size) for one in words] == ["8 × 3", "4 × 3"]
    assert [typed(one.body) for one in words] == [
        "Lay it 8 from the page's left edge, 2 from its top. Cut it where the pages meet."
        " 4 × 3 stays here, 4 × 3 goes to the facing page.",
        "Lay what “Ebb” leaves over against the page's left edge, its top edge 2 below the page's top.",
    ]


SPREADS = {
    "right: 8, top: 0": (
        "Lay it in line with the page's top edge, 8 from the facing page's right edge.",
        "Lay what “Ebb” leaves over against the page's left edge, in line with its top edge.",
    ),
    "centred: yes": (
        "Lay it centred on the fold, centred on the page top to bottom.",
        "Lay what “Ebb” leaves over against the page's left edge, its top edge 4 1/2 below the page's top.",
    ),
}


@pytest.mark.parametrize("where", SPREADS)
def test_distances_in_a_spread(where: str) -> None:
    here, there = (typed(one.body) for one in _spread(f"[{{place: banner, spread: yes, {where}}}]"))
    assert here.startswith(f"{SPREADS[where][0]} Cut it where the pages meet.")
    assert there == SPREADS[where][1]


# What is taken, and the designer's own words.


def test_the_head_is_what_is_taken() -> None:
    words = told(
        f"[{TAG}, {{raise: tag, foam: foam bits}}, {{ribbon: twill, run: across, top: 5}},"
        " {photo: 4 x 6, left: 4, top: 5}, {write: 4 x 2, left: 1, top: 8},"
        " {place: badge, called: the anchor, left: 8, top: 1},"
        " {row: [small tag, {photo: 2 x 2}], left: 8, top: 8, apart: 1/2}]"
    )
    assert [(one.head, typed(one.size), one.symbol) for one in words] == [
        ("Tag", "2 × 3", "place"),
        ("Foam bits", "", "raise"),
        ("Twill", "", "ribbon"),
        ("Photograph", "4 × 6", "photo"),
        ("Writing space", "4 × 2", "write"),
        ("Badge", "2 × 2", "place"),
        ("Small tag and photograph", "1 × 2, 2 × 2", "row"),
    ]


def test_the_size_is_that_of_the_piece_before_it_is_turned() -> None:
    (words,) = told("[{place: strip, turn: clockwise, left: 2, top: 0}]")
    assert typed(words.size) == "12 × 1"


def test_the_designers_words_stand_beside_the_measures_and_never_instead_of_them() -> None:
    words = told(
        "[{place: tag, left: 1, top: 1, optional: yes, say: Add it if you like., tip: Write on it first.},"
        " {ribbon: twill, run: across, top: 2, ends: 1/2, say: Run it over the tag.},"
        " {round: tag, radius: 1/2, say: Round it off.},"
        " {punch: tag, hole: 1/4, say: Clip it.},"
        " {raise: tag, foam: foam bits, count: 2, say: Lift it.}]"
    )
    assert [typed(one.body) for one in words] == [
        "If you like: lay it 1 from the page's left and top edges. Add it if you like.",
        "Cut 13 in: 12 across and 1/2 to fold behind at each end."
        " Lay it across the whole page, its top edge 2 below the page's top. Run it over the tag.",
        "Round all four corners of 1 to a radius of 1/2. Round it off.",
        "Punch a 1/4 hole in 1, in its middle. Clip it.",
        "Raise 1 on two of them. Lift it.",
    ]
    assert (words[0].optional, words[0].tip) == (True, "Write on it first.")


def test_fractions_are_set_and_a_number_is_not_parted_from_its_word() -> None:
    words = told("[{place: big mat, left: 1/2, top: 4 7/8}, {place: tall mat, on: big mat}]")
    assert words[0].body == "Lay it ¹⁄₂ from the page's left edge, 4⁷⁄₈ from its top."
    assert words[1].body == "Centre it on\u00a01: an even ¹⁄₈ all round."
    assert words[1].references == ((13, 14),)


def test_metric_kits_speak_in_their_own_unit() -> None:
    assert bodies(
        "[{place: strip, left: 0, top: 10.8}, {ribbon: twill, run: across, top: 5, ends: 1.5}]",
        unit=Unit.CENTIMETRE,
        sizes={"base": "30 x 30", "strip": "30 x 2"},
    ) == [
        "Lay it across the whole page, its top edge 10.8 below the page's top.",
        "Cut 33 cm: 30 across and 1.5 to fold behind at each end."
        " Lay it across the whole page, its top edge 5 below the page's top.",
    ]


def _cut_kit() -> ResolvedKit:
    one = sheet(cut(["6", "3"], ["end", "end", "mat"]), id="one")
    layout: dict[str, Any] = {
        "id": "low-tide",
        "pocket": 1,
        "base": "base",
        "steps": [
            {"row": "end", "count": 2, "left": 0, "top": 0, "apart": 1},
            {"place": "card", "right": 0, "top": 0},
            {"snip": "mat", "at": 4, "leaves": ["head", "foot"]},
            {"place": "head", "right": 0, "bottom": 0},
            {"place": "foot", "right": 5, "bottom": 0, "optional": "yes"},
            {"ink": "buoy"},
            {"place": "buoy", "left": 0, "bottom": 0},
        ],
    }
    two = sheet(cut(["2"], ["buoy", "plank"]), id="two", spare=["plank"])
    kit = make_kit(one, two, {"id": "base", "paper": "plain"}, ready=[ready("card")], layouts=[layout])
    sheets = cut_kit(kit)
    sizes = Pieces(sizes_by_name(made_pieces(kit, sheets)))
    ledger = keep_ledger(kit, sheets, wants(kit))
    return ResolvedKit(kit, Path(), sheets, ledger, place_layouts(kit, sizes))


def test_labels_are_said_of_what_is_cut_and_the_box_of_what_is_not() -> None:
    done = _cut_kit()
    words = step_words(done, done.layouts[0])
    assert [one.labels for one in words] == [("1A", "1B"), (), ("1C",), (), (), ("2A",), ("2A",)]
    assert words[1].body == "From the box. Lay it in the page's top right corner."
    assert typed(words[2].body) == "Snip it at 4 from its left edge: head (4 × 12) and foot (2 × 12)."
    assert typed(words[3].body).startswith("Snipped in 3. Lay it")
    assert typed(words[4].body).startswith("If you like: snipped in 3. Lay it")


# Photographs.


def _photos(steps: str) -> str:
    done = resolved(kit_of({"steps": steps_of(steps)}))
    return typed(photo_words(done, done.layouts[0]))


def test_which_photographs_a_page_takes() -> None:
    assert _photos(f"[{TAG}]") == ""
    assert _photos("[{photo: 4 x 6, left: 0, top: 0}]") == "One photograph of 4 × 6 upright."
    assert (
        _photos(
            "[{photo: 4 x 6, left: 0, top: 0}, {photo: 4 x 3, left: 6, top: 0},"
            " {photo: 2 x 2, left: 6, top: 8}, {photo: 4 x 6, left: 0, top: 6}]"
        )
        == "Two photographs of 4 × 6 upright, one of 4 × 3 lying, one of 2 × 2."
    )
    # A strip 1 high over a photograph of 4 x 6 covers a sixth of it: 83 % is seen.
    assert (
        _photos("[{photo: 4 x 6, left: 0, top: 0}, {place: strip, left: 0, top: 2}]")
        == "One photograph of 4 × 6 upright (about 85 % is seen)."
    )


# Whole kits.

_NOISE = re.compile(r"None|Fraction|\d\.\d{3}|  | ,|\.\.|,\.|: :|\(\)|\bof of\b|[{}_\ue000]")


def _demo_words() -> list[tuple[ResolvedKit, int, tuple[StepWords, ...]]]:
    kits = [resolve_kit(load_kit(spec)) for spec in bundled_kits().values()]
    return [(kit, index, step_words(kit, layout)) for kit in kits for index, layout in enumerate(kit.layouts)]


def test_the_demo_kits_are_said_in_whole_sentences() -> None:
    layouts = _demo_words()
    assert len(layouts) > 10
    for _, _, words in layouts:
        for one in words:
            assert one.head
            assert one.body[-1] in ".!?", one
            assert one.body[0].isupper(), one
            assert not _NOISE.search(f"{one.head}|{one.size}|{one.body}"), one


def test_the_demo_kits_refer_only_to_steps_before() -> None:
    for _, _, words in _demo_words():
        for one in words:
            numbers = [int(one.body[start:end]) for start, end in one.references]
            assert all(1 <= number < one.number for number in numbers), one


def test_the_demo_kits_name_every_piece_of_a_pocket_by_its_label() -> None:
    for kit, index, words in _demo_words():
        base, *entries = used_by(kit.ledger, index)
        said = {label for one in words for label in one.labels}
        assert {entry.label for entry in entries if entry.label} <= said
        assert said <= {entry.label for entry in (base, *entries)}


@pytest.mark.parametrize("saying", SAYINGS)
def test_whatever_a_designer_says_makes_whole_sentences(saying: str) -> None:
    for words in told(SAYINGS[saying]):
        assert words.body[-1] in ".!?"
        assert not _NOISE.search(f"{words.head}|{words.size}|{words.body}")


@settings(max_examples=100, deadline=None)
@given(STEPS, STEPS)
def test_whatever_a_spec_holds_its_steps_have_words(
    left: list[dict[str, Any]], right: list[dict[str, Any]]
) -> None:
    kit = kit_if_valid(left, right)
    if kit is None:
        return
    done = resolved(kit)
    for layout in done.layouts:
        words = step_words(done, layout)
        assert [one.number for one in words] == list(range(1, len(layout.steps) + 1))
        for one in words:
            assert all(int(one.body[start:end]) < one.number for start, end in one.references)


def test_a_print_of_another_system_of_units_is_called_as_it_is_sold() -> None:
    # 10 x 15 cm is 3.937 x 5.906 in: no ruler of inches shows it.
    assert _photos('[{photo: "10 x 15 cm", left: 0, top: 0}]') == "One photograph of 10 × 15 cm upright."
    assert _photos('[{photo: "15 x 10 cm", left: 0, top: 0}]') == "One photograph of 15 × 10 cm lying."
    (step,) = told('[{photo: "15 x 10 cm", left: 0, top: 0}]')
    assert typed(step.size) == "15 × 10 cm"


def test_a_photograph_of_no_usual_size_is_as_large_as_a_ruler_says() -> None:
    assert "≈" in _photos('[{photo: "9 x 11 cm", left: 0, top: 0}]')
