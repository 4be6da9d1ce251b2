"""What the model notes beside the type of a value: how it is read, and which limits it keeps.

The annotations `Annotated[type, rule, ...]` are the one statement of what a spec may hold.  The loader makes
its validator of them, messages and the JSON Schema read them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from booklet.measure.dataclass import dataclass


@dataclass(frozen=True)
class Limits:
    """Bounds of a number, of the items in a list or the entries of a mapping; None where there is none."""

    least: int | None = None
    most: int | None = None


@dataclass(frozen=True)
class Letters:
    """Words, stripped: how many letters they have, the form that they take; `lower` makes them small."""

    least: int | None = None
    most: int | None = None
    form: str | None = None
    lower: bool = False


@dataclass(frozen=True)
class Before:
    """Turns what was typed into a fuller form before it is read: a short form is written out.

    What `change` makes is read by the rules that stand before this one.
    """

    change: Callable[..., Any]


@dataclass(frozen=True)
class After:
    """Checks or changes what was read, by `change`, which raises ValueError with what is expected."""

    change: Callable[..., Any]


@dataclass(frozen=True)
class Around:
    """Reads by a function that is given, after what was typed, the reader of all rules before this one."""

    read: Callable[..., Any]


@dataclass(frozen=True, eq=False)
class ReadBy:
    """Reads a value from what was typed by one function alone; `typed` is the JSON Schema of that."""

    read: Callable[..., Any]
    typed: Mapping[str, Any]


@dataclass(frozen=True, eq=False)
class Typed:
    """The JSON Schema of what may be typed, where it says more than the type does."""

    schema: Mapping[str, Any]


@dataclass(frozen=True)
class Spelt:
    """The key of a spec that a field stands for, where Python keeps the word to itself."""

    key: str


@dataclass(frozen=True)
class Meaning:
    """What a key is for, and what it tests."""

    words: str


@dataclass(frozen=True, eq=False)
class OneOf:
    """One of several kinds, told apart by `tag_of`, which finds the tag of one in what was typed or made."""

    kinds: Mapping[str, type]
    tag_of: Callable[[Any], str | None]
