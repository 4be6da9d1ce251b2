"""Steps as they are printed: a mat and its photograph, a title and its foam, are one step each."""

from __future__ import annotations

from dataclasses import replace

from booklet.pages.printed_steps import printed_numbers, printed_steps
from booklet.pages.sentences import StepWords


def step(number: int, symbol: str, body: str, *refers: int, optional: bool = False) -> StepWords:
    """The words of a step; `refers` are the numbers in its body that are those of steps, in order."""
    places = []
    at = 0
    for other in refers:
        at = body.index(str(other), at)
        places.append((at, at + len(str(other))))
        at += len(str(other))
    return StepWords(number, f"Thing {number}", (), "", body, None, optional, symbol, tuple(places))


def printed(*steps: StepWords) -> list[list[str]]:
    return [[part.body for part in printed.parts] for printed in printed_steps(steps)]


def test_a_photograph_stands_in_one_step_with_the_mats_it_lies_on() -> None:
    assert printed(
        step(1, "place", "Lay it 1 from the top."),
        step(2, "place", "Centre it on 1: an even border.", 1),
        step(3, "photo", "Centre it on 2: an even border.", 2),
    ) == [["Lay it 1 from the top.", "Centre it there: an even border.", "Centre it there: an even border."]]


def test_what_is_done_to_a_title_stands_with_it_and_calls_it_it() -> None:
    assert printed(
        step(1, "place", "Lay it down."),
        step(2, "raise", "Raise 1 on four of them.", 1),
        step(3, "add", "Fix one in each corner of 1.", 1),
    ) == [["Lay it down.", "Raise it on four of them.", "Fix one in each corner of it."]]


def test_corners_and_edges_of_what_was_just_laid_are_its_own() -> None:
    assert printed(
        step(1, "place", "Lay it down."),
        step(2, "round", "Round the top left and top right corners of 1 to a radius of 8.", 1),
        step(3, "ink", "Ink all four edges of 1.", 1),
    ) == [
        [
            "Lay it down.",
            "Round its top left and top right corners to a radius of 8.",
            "Ink all four of its edges.",
        ]
    ]


def test_what_lies_on_the_first_thing_of_a_step_is_called_by_its_name() -> None:
    assert printed(
        step(1, "place", "Lay it down."),
        step(2, "place", "Centre it on 1.", 1),
        step(3, "photo", "Centre it on 2.", 2),
        step(4, "place", "Lay it beside 1, flush with 2.", 1, 2),
    )[1] == ["Lay it beside 1, flush with the thing 2 of\u00a01."]


def test_later_steps_refer_to_the_printed_numbers() -> None:
    steps = printed_steps(
        (
            step(1, "place", "Lay it down."),
            step(2, "photo", "Centre it on 1.", 1),
            step(3, "place", "Lay it at the left."),
            step(4, "place", "Lay it between 3 and 1.", 3, 1),
        )
    )
    assert [each.number for each in steps] == [1, 2, 3]
    assert steps[2].parts[0].body == "Lay it between 2 and 1."
    assert printed_numbers(steps) == {1: 1, 2: 1, 3: 2, 4: 3}


def test_one_of_a_row_is_a_step_of_its_own() -> None:
    row = step(1, "row", "Lay three in a row.")
    assert len(printed(row, step(2, "photo", "Centre it on the left one of 1.", 1))) == 2


def test_work_on_something_laid_earlier_is_a_step_of_its_own() -> None:
    assert printed(
        step(1, "place", "Lay it down."),
        step(2, "place", "Lay it beside 1.", 1),
        step(3, "raise", "Raise 1 on two of them.", 1),
    ) == [["Lay it down."], ["Lay it beside 1."], ["Raise 1 on two of them."]]


def test_an_optional_step_never_hides_in_one_that_is_not() -> None:
    lay = step(1, "place", "Lay it down.")
    assert len(printed(lay, step(2, "raise", "If you like: raise 1.", 1, optional=True))) == 2


def test_the_designers_own_words_without_a_number_stand_alone() -> None:
    assert (
        len(printed(step(1, "place", "Lay it down."), step(2, "punch", "Clip it, as the guard does."))) == 2
    )


def test_a_long_chain_is_not_one_endless_step() -> None:
    chain = [step(1, "place", "Lay it down.")]
    chain += [step(number, "place", f"Centre it on {number - 1}.", number - 1) for number in range(2, 7)]
    assert [len(parts) for parts in printed(*chain)] == [4, 2]


def test_what_is_done_to_every_one_of_a_row_is_told_once() -> None:
    row = replace(step(1, "row", "Lay three in a row."), labels=("1A", "1B", "1C"))
    alike = [
        replace(step(number, "photo", f"Centre it on the {which} one of 1: an even border.", 1), head="Photo")
        for number, which in enumerate(("left", "middle", "right"), start=2)
    ]
    (one,) = printed_steps((row, *alike))
    assert [part.body for part in one.parts] == ["Lay three in a row.", "Centre one on each: an even border."]
    assert one.parts[1].head == "Photos"
    assert printed_numbers((one,)) == {1: 1, 2: 1, 3: 1, 4: 1}


def test_what_is_done_to_some_of_a_row_is_told_for_each() -> None:
    row = replace(step(1, "row", "Lay three in a row."), labels=("1A", "1B", "1C"))
    two = [
        replace(step(number, "round", f"Round the corners of the {which} one of 1.", 1), head="Mat")
        for number, which in enumerate(("left", "right"), start=2)
    ]
    assert len(printed_steps((row, *two))) == 3
