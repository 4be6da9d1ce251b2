"""Scissors through printed words are found; beside them, they may cut."""

from __future__ import annotations

import pytest

from booklet.proof.findings import kit_findings
from tests.drawing.looks import resolved_kit
from tests.kits import Data, cut, element, ids, make_kit, sheet

# A ticket of 6 x 2, its words in the middle: no letter is larger than 60 points, so that "Low tide" is
# between 2 and 4 in long and less than an inch high.
TICKET = {**element("ticket", 0, 0, "6 x 2"), "words": "Low tide"}


def found(*steps: Data, ticket: Data = TICKET) -> list[str]:
    """What is said of a kit whose one printed element is worked on and laid in these steps."""
    sheets = [
        sheet(id="base"),
        sheet(
            cut(2, ["tickets", "scrap"]),
            cut(6, take="tickets", turn="clockwise"),
            id="tickets sheet",
            lay={"left": "top"},
            elements=[ticket],
        ),
    ]
    layouts = [{"id": "ebb", "pocket": 1, "base": "base", "steps": list(steps)}]
    return ids(kit_findings(resolved_kit(make_kit(*sheets, layouts=layouts))))


def laid(name: str) -> Data:
    return {"place": name, "left": 3, "top": 3}


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ({"at": 3}, ["snip-through-words"]),
        ({"at": 3, "measured_from": "right"}, ["snip-through-words"]),
        ({"at": 1, "measured_from": "top"}, ["snip-through-words"]),
        ({"at": 1}, []),
        ({"at": "1/4", "measured_from": "top"}, []),
    ],
)
def test_a_snip(words: Data, said: list[str]) -> None:
    assert found({"snip": "ticket", "leaves": ["scrap", "rest"], **words}, laid("rest")) == said


def test_a_snip_beside_words_and_another_through_them() -> None:
    first = {"snip": "ticket", "at": 1, "leaves": ["scrap", "rest"]}
    # Of what is left the words begin nearer to its left edge: 2 in from there is the middle of the ticket.
    again = {"snip": "rest", "at": 2, "leaves": ["stub", "scrap"]}
    assert found(first, again, laid("stub")) == ["snip-through-words"]
    assert found(first, {**again, "at": "4 3/4"}, laid("stub")) == []


def test_an_element_without_words_may_be_cut_anywhere() -> None:
    plain = {**element("ticket", 0, 0, "6 x 2"), "picture": "sun"}
    snip = {"snip": "ticket", "at": 3, "leaves": ["scrap", "rest"]}
    assert found(snip, laid("rest"), ticket=plain) == []


@pytest.mark.parametrize(
    ("size", "said"), [("4 1/2 x 1", []), ("1 1/2 x 1", ["trim-through-words"]), ("6 x 2", [])]
)
def test_a_trim(size: str, said: list[str]) -> None:
    assert found({"trim_round": "ticket", "size": size}, laid("ticket")) == said
