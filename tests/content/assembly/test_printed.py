"""Steps as they are printed: a mat and its photograph, a title and its foam, are one step each."""

from __future__ import annotations

from booklet.content.assembly.printed import printed_numbers, printed_steps
from tests.content.assembly.telling import items, last, resolved, said, typed
from tests.placing.layouts import kit_of, steps_of

MAT = "{place: big mat, left: 1, top: 1}"
INNER = "{place: tall mat, on: big mat}"
PHOTO = "{photo: 4 x 6, on: tall mat}"
ROW = "{row: badge, count: 3, called: badges, left: 1, right: 1, top: 1}"


def together(*steps: str) -> list[list[int]]:
    """The numbers of the spec's steps that each printed step holds."""
    done = resolved(kit_of({"steps": steps_of(f"[{', '.join(steps)}]")}))
    return [
        [step for member in printed.members for step in member.steps] for printed in printed_steps(done, 0)
    ]


def test_a_photograph_stands_in_one_step_with_the_mats_it_lies_on() -> None:
    assert together(MAT, INNER, PHOTO) == [[1, 2, 3]]


def test_mats_and_photograph_are_put_together_before_they_are_laid() -> None:
    (only,) = items(f"[{MAT}, {INNER}, {PHOTO}]")
    (part,) = only.parts
    assert typed(part.head) == "Big mat, tall mat, photo 4 × 6"
    assert typed(part.said) == (
        "One on another, 1/8 in showing all round. Lay them 1 in from the left, 1 in down."
    )


def test_borders_of_two_widths_are_told_from_the_lowest_up() -> None:
    mats = "{place: banner, left: 1, top: 1}, {place: half strip, on: banner}"
    laid = "Lay them 1 in from the left, 1 in down."
    assert said(f"[{mats}, {{photo: 5 1/2 x 1/2, on: half strip}}]") == [
        f"One on another: 1 in of the banner shows all round, 1/4 in of the half strip. {laid}",
    ]
    assert said(f"[{mats}, {{photo: 5 x 1/2, on: half strip, border: [1/2, 1/4]}}]") == [
        f"One on another, 1 in showing all round. {laid}"
        " Centre the photo on it; 1/2 in shows at the sides, 1/4 in above and below.",
    ]


def test_what_is_done_to_a_title_stands_with_it() -> None:
    raised = "{raise: big mat, foam: foam bits, count: 4}"
    fixed = "{add: brass, on: big mat, corners: all, inset: 1/4}"
    assert together(MAT, raised, fixed) == [[1, 2, 3]]
    assert said(f"[{MAT}, {raised}, {fixed}]") == [
        "1 in from the left, 1 in down, on four foam bits."
        " Fix one of the brass in each corner, 1/4 in from both edges."
    ]


def test_work_in_the_hand_stands_with_the_step_that_lays_the_piece() -> None:
    assert together("{ink: tag}", "{round: tag, radius: 1/4}", "{place: tag, left: 1, top: 1}") == [[1, 2, 3]]
    assert together("{ink: tag}", MAT, "{place: tag, left: 1, top: 1}") == [[1], [2], [3]]


def test_a_piece_is_named_once_where_it_stays_in_the_hand() -> None:
    (part,) = items("[{ink: tag}, {place: tag, left: 1, top: 1}]")[0].parts
    assert (typed(part.head), typed(part.said)) == (
        "Tag",
        "Ink all four edges. Lay it 1 in from the left, 1 in down.",
    )


def test_what_is_done_in_the_hand_is_told_before_the_piece_is_laid_whatever_the_order_of_the_spec() -> None:
    rivet, hole = "{add: brass, on: tag, top: 1/4}", "{punch: tag, hole: 1/8, right: 1/4}"
    steps = ("{place: tag, left: 1, top: 1}", rivet, "{raise: tag, count: 2}", hole, "{ink: tag}")
    assert together(*steps[:4]) == [[4, 1, 3, 2]]
    assert last(f"[{steps[0]}, {steps[1]}, {steps[3]}, {steps[4]}]") == (
        "Punch a 1/8 in hole, the rim 1/4 in from its right edge, halfway down. Ink all four edges."
        " Lay it 1 in from the left, 1 in down."
        " Fix one of the brass 1/4 in from its top edge, halfway across."
    )


def test_what_is_done_in_the_hand_is_told_where_the_piece_is_laid_though_other_steps_lie_between() -> None:
    steps = ("{place: tag, left: 1, top: 1}", MAT.replace("left: 1", "left: 6"), "{punch: tag, hole: 1/8}")
    assert together(*steps) == [[3, 1], [2]]
    assert said(f"[{', '.join(steps)}]")[0] == (
        "Punch a 1/8 in hole in its middle. Lay it 1 in from the left, 1 in down."
    )
    block = ("{place: tag, left: 1, top: 1}", "{group: tag, left: 2, top: 2}", "{punch: tag, hole: 1/8}")
    assert together(*block) == [[1], [2, 3]]


def test_what_is_worked_on_is_first_turned_as_it_will_lie() -> None:
    lay = "{place: tag, turn: clockwise, left: 1, top: 1}"
    assert last(f"[{lay}, {{punch: tag, hole: 1/8, right: 1/4}}]") == (
        "Turn it a quarter clockwise. Punch a 1/8 in hole, the rim 1/4 in from its right edge,"
        " halfway down. Lay it 1 in from the left, 1 in down."
    )
    over = "{place: tag, face: back, left: 1, top: 1}"
    assert last(f"[{over}, {{round: tag, radius: 1/4, corners: top left}}]") == (
        "Turn it back side up. Round the top left corner, radius 1/4 in."
        " Lay it 1 in from the left, 1 in down."
    )


def test_what_is_worked_on_is_named_where_more_is_laid_with_it() -> None:
    steps = f"[{MAT}, {{photo: 3 x 4, on: big mat}}, {{round: big mat, radius: 1/4}}]"
    (part,) = items(steps)[0].parts
    assert typed(part.said).startswith("Round all four corners of the big mat, radius 1/4 in. Lay ")


def test_the_end_that_scissors_take_off_is_told_and_then_the_rest_is_laid() -> None:
    snip = "{snip: tag, at: 2 1/2, leaves: [rest, scrap], measured_from: top}"
    assert together(snip, "{place: rest, left: 1, top: 1}") == [[1, 2]]
    assert said(f"[{snip}, {{place: rest, left: 1, top: 1}}]") == [
        "Cut 1/2 in off its bottom end. Lay it 1 in from the left, 1 in down.",
    ]


def test_what_is_done_to_each_of_a_row_is_told_once() -> None:
    rounds = [f"{{round: badges {n}, radius: 1/4}}" for n in (1, 2, 3)]
    photos = [f"{{photo: 1 1/2 x 1 1/2, on: badges {n}}}" for n in (1, 2, 3)]
    assert together(ROW, *rounds, *photos) == [[2, 3, 4, 1, 5, 6, 7]]
    (part,) = items(f"[{', '.join((ROW, *rounds, *photos))}]")[0].parts
    assert typed(part.head) == "Three badges, three photos 1 1/2 × 1 1/2"
    told = typed(part.said)
    assert told.startswith(
        "Round all four corners of each badge, radius 1/4 in. Lay the middle badge first: "
    )
    assert told.endswith(" Centre a photo on each; 1/4 in shows all round.")


def test_what_lies_on_each_of_a_row_may_bear_more() -> None:
    inner = [f"{{place: small tag, called: inner {n}, on: badges {n}}}" for n in (1, 2, 3)]
    photos = [f"{{photo: 1/2 x 1, on: inner {n}}}" for n in (1, 2, 3)]
    assert together(ROW, *inner, *photos) == [[1, 2, 3, 4, 5, 6, 7]]


def test_the_same_border_on_each_of_a_row_is_told_once() -> None:
    row = "{row: big mat, count: 2, called: mats, left: 0, top: 1, apart: 1}"
    inner = [f"{{place: tall mat, called: inner {n}, on: mats {n}, border: 1/8}}" for n in (1, 2)]
    photos = [f"{{photo: 4 x 6, on: inner {n}, border: 1/8}}" for n in (1, 2)]
    assert last(f"[{row}, {', '.join((*inner, *photos))}]").endswith(
        " On each a tall mat, then a photo, 1/8 in showing all round each time."
    )


def test_what_is_turned_in_the_hand_is_centred_on_a_thing_by_name() -> None:
    steps = "{place: banner, left: 1, top: 1}, {place: half strip, turn: clockwise, on: banner}"
    assert last(f"[{steps}]").endswith("Turn the half strip a quarter clockwise. Centre it on the banner.")


def test_what_is_done_to_some_of_a_row_is_told_for_each() -> None:
    rounds = ["{round: badges 1, radius: 1/4}", "{round: badges 3, radius: 1/4}"]
    assert together(ROW, *rounds) == [[1], [2], [3]]
    assert last(f"[{', '.join((ROW, *rounds))}]") == (
        "Round all four corners of the right one of (1), radius 1/4 in."
    )


def test_words_of_the_designers_own_are_never_merged_away() -> None:
    rounds = [f"{{round: badges {n}, radius: 1/4, say: Gently.}}" for n in (1, 2, 3)]
    assert together(ROW, *rounds) == [[1], [2], [3], [4]]


def test_one_that_differs_is_told_by_itself() -> None:
    rounds = [f"{{round: badges {n}, radius: {r}}}" for n, r in ((1, "1/4"), (2, "1/4"), (3, "1/2"))]
    assert together(ROW, *rounds) == [[1], [2], [3], [4]]


def test_what_is_added_to_something_laid_earlier_is_a_step_of_its_own() -> None:
    rivet = "{add: brass, on: big mat, top: 1/4}"
    assert together(MAT, "{place: tag, left: 8, top: 1}", rivet) == [[1], [2], [3]]


def test_what_lies_elsewhere_than_in_the_middle_is_a_step_of_its_own() -> None:
    assert together(MAT, "{place: tag, on: big mat, top: 1/4}") == [[1], [2]]
    assert together(MAT, "{write: 2 x 1, on: big mat, top: 1/4}") == [[1, 2]]


def test_an_optional_step_never_hides_in_one_that_is_not() -> None:
    assert together(MAT, "{raise: big mat, count: 2, optional: yes}") == [[1], [2]]


def test_a_long_chain_is_not_one_endless_step() -> None:
    raised = ["{raise: big mat, count: 2}"] * 5
    assert together(MAT, *raised) == [[3, 4, 1, 2], [5], [6]]


def test_numbers_are_those_of_the_printed_steps() -> None:
    steps = f"[{MAT}, {INNER}, {PHOTO}, {{place: tag, beside: big mat, gap: 1/4, top: 1}}]"
    done = resolved(kit_of({"steps": steps_of(steps)}))
    assert printed_numbers(done, 0) == (1, 1, 1, 2)
    assert last(steps) == "1/4 in to the right of (1), top edge 1 in down."
