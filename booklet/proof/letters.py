"""Whether the booklet's faces hold every letter that a spec has printed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from enum import Enum
from functools import cache
from typing import Any

from booklet.drawing.shapes.fonts import missing_letters
from booklet.kit.finding import Finding, SpecPath, warning
from booklet.kit.kit import Kit
from booklet.measure.cache import cached_on

# What all four faces hold without a look into them: Basic Latin, Latin-1, most of Latin Extended-A, the
# punctuation of a text.  The soft hyphen would print in the middle of a line.
COVERED = (
    "\\s\u0020-\u007e\u00a0-\u00ac\u00ae-\u012b\u012e-\u0131\u0134-\u0165\u0168-\u017f"
    "\u2010\u2012-\u2015\u2018-\u201a\u201c-\u201e\u2020-\u2022\u2026\u2030\u2032\u2033\u2039\u203a\u2044"
)
_COVERED = re.compile(f"[{COVERED}]*")
# A file's name is opened, not printed.
_NOT_PRINTED = {"image"}
# Where a field is called otherwise than its key in a spec.
_KEYS = {"raised": "raise"}
# More letters than these a message need not name.
_MOST_NAMED = 6


def check_letters(kit: Kit) -> Iterator[Finding]:
    """A warning for each text or name with letters that no face holds, where it first stands."""
    reported: set[str] = set()
    for where, text in kit_texts(kit):
        if _COVERED.fullmatch(text) or text in reported:
            continue
        reported.add(text)
        if lacking := missing_letters(text):
            found = f"no typeface of the booklet holds {_named(lacking)}"
            yield warning("letter-not-in-font", where, found, "write it in Latin letters and plain signs")


@cached_on
def kit_texts(kit: Kit) -> tuple[tuple[SpecPath, str], ...]:
    """Every text of a kit with its place, listed once: more than one check reads them all."""
    found: list[tuple[SpecPath, str]] = []
    _add_texts(kit, (), found)
    return tuple(found)


def _add_texts(value: Any, where: SpecPath, found: list[tuple[SpecPath, str]]) -> None:
    """Add every text of a part of a spec with its place, keys among them, in the order of the model."""
    if isinstance(value, str):
        found.append((where, value))
    elif isinstance(value, tuple):
        for position, item in enumerate(value):
            _add_texts(item, (*where, position), found)
    elif isinstance(value, dict):
        for key, item in value.items():
            said = key.value if isinstance(key, Enum) else key
            _add_texts(said, (*where, said), found)
            _add_texts(item, (*where, said), found)
    else:
        for name, key in _named_fields(value.__class__):
            if (said := getattr(value, name)) is not None:
                _add_texts(said, (*where, key), found)


@cache
def _named_fields(kind: Any) -> tuple[tuple[str, str], ...]:
    """The printed fields of a part of a spec, each with its key; none of what has no parts."""
    if not is_dataclass(kind):
        return ()
    return tuple(
        (each.name, _KEYS.get(each.name, each.name)) for each in fields(kind) if each.name not in _NOT_PRINTED
    )


def _named(letters: tuple[str, ...]) -> str:
    """The letters with their numbers in Unicode, those that cannot be seen by their numbers alone."""
    named = [_letter(letter) for letter in letters[:_MOST_NAMED]]
    more = len(letters) - len(named)
    return ", ".join(named) + (f" and {more} more" if more else "")


def _letter(letter: str) -> str:
    number = f"U+{ord(letter):04X}"
    return f"{letter} ({number})" if letter.isprintable() else number
