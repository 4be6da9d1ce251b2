"""Our dataclasses against those of the standard library, which is the reference for each of them."""

from __future__ import annotations

import dataclasses
from dataclasses import FrozenInstanceError, field, fields, replace
from functools import cached_property
from typing import Any

import pytest

from booklet.measure.dataclass import dataclass
from booklet.measure.dataclass import replace as our_replace

DECORATORS = pytest.mark.parametrize("decorator", [dataclass, dataclasses.dataclass])


def cuts(decorator: Any) -> tuple[Any, Any]:
    """A class, and one that is built on it and takes its arguments by name."""

    @decorator(frozen=True)
    class Cut:
        """One cut."""

        reading: int
        piece: str = "strip"
        parts: list[str] = field(default_factory=list, hash=False)
        note: str = field(default="", compare=False, repr=False)

        @cached_property
        def doubled(self) -> int:
            return 2 * self.reading

    @decorator(frozen=True, kw_only=True)
    class NamedCut(Cut):
        """One cut, and who makes it."""

        by: str = "hand"

        def __post_init__(self) -> None:
            if self.reading < 0:
                raise ValueError("below zero")

    return Cut, NamedCut


@DECORATORS
def test_an_object_holds_what_it_is_given(decorator: Any) -> None:
    cut, named = cuts(decorator)
    assert (cut(3).reading, cut(3).piece, cut(3).parts) == (3, "strip", [])
    assert cut(3).parts is not cut(3).parts
    assert named(3, "mat", by="friend").by == "friend"
    assert cut(3).doubled == 6


@DECORATORS
def test_wrong_arguments_are_refused(decorator: Any) -> None:
    cut, named = cuts(decorator)
    for make in (lambda: cut(), lambda: cut(1, colour="red"), lambda: named(1, "mat", [], "", "friend")):
        with pytest.raises(TypeError):
            make()
    with pytest.raises(ValueError, match="below zero"):
        named(-1)


@DECORATORS
def test_nothing_is_changed_afterwards(decorator: Any) -> None:
    cut, _ = cuts(decorator)
    one = cut(3)
    with pytest.raises(FrozenInstanceError):
        one.reading = 4
    with pytest.raises(FrozenInstanceError):
        del one.reading
    assert one.reading == 3


@DECORATORS
def test_equal_objects_are_equal_and_hash_alike(decorator: Any) -> None:
    cut, named = cuts(decorator)
    assert cut(3) == cut(3, note="other")
    assert hash(cut(3)) == hash(cut(3, parts=["a"]))
    assert cut(3) != cut(3, parts=["a"])
    assert cut(3) != named(3)
    assert cut(3) != 3


@DECORATORS
def test_an_object_says_what_it_is(decorator: Any) -> None:
    cut, named = cuts(decorator)
    assert repr(cut(3)).endswith("Cut(reading=3, piece='strip', parts=[])")
    assert repr(named(3)).endswith("NamedCut(reading=3, piece='strip', parts=[], by='hand')")


@DECORATORS
def test_the_standard_library_knows_it(decorator: Any) -> None:
    cut, named = cuts(decorator)
    assert dataclasses.is_dataclass(cut)
    assert [each.name for each in fields(named)] == ["reading", "piece", "parts", "note", "by"]
    assert replace(named(3), reading=4) == named(4)
    assert vars(cut)["__match_args__"] == ("reading", "piece", "parts", "note")


REPLACED = pytest.mark.parametrize("replaced", [our_replace, replace])


@DECORATORS
@REPLACED
def test_another_object_differs_in_what_is_said(decorator: Any, replaced: Any) -> None:
    cut, named = cuts(decorator)
    one = cut(3, "mat", ["a"], "seen")
    assert one.doubled == 6
    other = replaced(one, reading=4, note="other")
    assert type(other) is cut
    assert vars(other) == vars(cut(4, "mat", ["a"], "other"))
    assert other.parts is one.parts
    assert (other.doubled, vars(one)["reading"]) == (8, 3)
    assert replaced(one) == one
    with pytest.raises(TypeError):
        replaced(one, colour="red")
    assert replaced(named(3), by="friend") == named(3, by="friend")
    with pytest.raises(ValueError, match="below zero"):
        replaced(named(3), reading=-1)


@DECORATORS
def test_what_a_class_says_itself_stays(decorator: Any) -> None:
    @decorator(frozen=True)
    class Own:
        number: int

        def __hash__(self) -> int:
            return 7

        def __repr__(self) -> str:
            return "mine"

    make: Any = Own
    assert hash(make(3)) == 7
    assert repr(make(3)) == "mine"
    assert make(3) == make(3)


@DECORATORS
def test_objects_may_be_told_apart_by_identity(decorator: Any) -> None:
    @decorator(frozen=True, eq=False)
    class One:
        number: int

    make: Any = One
    one, other = make(3), make(3)
    assert one != other
    assert len({one, one, other}) == 2
