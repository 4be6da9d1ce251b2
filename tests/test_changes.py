"""Single changes to the demo kits: what is stated twice is caught when one of the two is mistyped."""

from __future__ import annotations

import pytest

from tests.changes import KINDS, Change, all_changes, spread_over
from tests.stated_again import WHY_ONCE, stated_again, twice_stated
from tests.verdicts import Fate, verdict_on

OF_EACH_KIND = 3


def change_of(kind: str, words: str) -> Change:
    """The one change that is told by these words."""
    (found,) = [change for change in all_changes(kind) if change.words == words]
    return found


@pytest.mark.parametrize("kind", KINDS)
def test_a_spread_of_what_is_stated_twice_is_caught(kind: str) -> None:
    verdicts = {
        one.words: verdict_on(one, draws=False) for one in spread_over(twice_stated(kind), OF_EACH_KIND)
    }
    assert [words for words, verdict in verdicts.items() if verdict.fate is Fate.MISSED] == []
    assert Fate.CAUGHT in {verdict.fate for verdict in verdicts.values()}


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("size", "hill-line: ready > 3 > size: 3 x 3 -> 3 1/8 x 3"),
        ("size", "roof-garden: sheets > 4 > elements > 8 > size: 15 x 3 -> 14 9/10 x 3"),
        ("size", "roof-garden: supplies > 2 > repeat: 2.5 x 2 -> 2 3/5 x 2"),
        ("distance", "hill-line: layouts > 6 > steps > 4 > right: 3/4 -> 7/8"),
        ("tilt", "hill-line: layouts > 5 > steps > 13 > tilt: 6 -> -6"),
        ("reference", "roof-garden: layouts > 4 > steps > 5 > on: bean pole -> leaf mat"),
        ("assembly step", "hill-line: layouts > 2 > steps > 17: write 6 x 1 1/4 doubled"),
    ],
)
def test_what_few_checks_see_is_caught_too(kind: str, words: str) -> None:
    change = change_of(kind, words)
    assert stated_again(change)
    assert verdict_on(change, draws=False).fate is Fate.CAUGHT


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("size", "hill-line: layouts > 1 > steps > 12 > write: 3 3/4 x 1 1/2 -> 3 7/8 x 1 1/2"),
        ("distance", "hill-line: layouts > 1 > steps > 5 > left: 1 -> 1 1/8"),
        ("count", "roof-garden: supplies > 4 > count: 4 -> 5"),
        ("tilt", "hill-line: layouts > 1 > steps > 15 > tilt: -6 -> 6"),
        ("face", "hill-line: layouts > 3 > steps > 1 > face: nothing -> back"),
    ],
)
def test_what_is_stated_once_makes_another_kit(kind: str, words: str) -> None:
    change = change_of(kind, words)
    assert stated_again(change) is None
    assert verdict_on(change, draws=False).fate is Fate.MISSED


def test_pieces_that_touch_nowhere_may_be_laid_in_either_order() -> None:
    change = change_of(
        "assembly step",
        "roof-garden: layouts > 1 > steps > 8: place tall label exchanged with place light board",
    )
    assert verdict_on(change, draws=False).fate is Fate.HARMLESS


def test_pieces_that_overlap_may_not() -> None:
    change = change_of(
        "assembly step",
        "roof-garden: layouts > 3 > steps > 9: place dill label exchanged with place fig label",
    )
    assert verdict_on(change, draws=False).fate is Fate.MISSED


def test_a_reason_is_given_for_each_kind() -> None:
    assert WHY_ONCE.keys() == KINDS.keys()


def test_lengths_are_typed_a_mark_more_and_a_mark_less() -> None:
    said = [one.said for one in all_changes("reading") if one.where == ("sheets", 0, "cuts", 0, "at", 0)]
    assert said == ["7 1/8 -> 7 1/4", "7 1/8 -> 7", "29.5 -> 29 3/5", "29.5 -> 29 2/5"]
