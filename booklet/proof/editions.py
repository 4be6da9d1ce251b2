"""Two editions of a booklet held against each other: which numbers changed, which pages to read again."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence

from booklet.kit.source import ARROW
from booklet.measure.dataclass import dataclass
from booklet.proof.claim import section_of


@dataclass(frozen=True)
class Changed:
    """A number of both editions that says something else now."""

    key: str
    before: str
    now: str


@dataclass(frozen=True)
class Changes:
    """What is different in a later edition: numbers by their keys, and pages by what they show.

    `again` are the pages, by their number now, that no page of the earlier edition shows alike; `moved` those
    that another page showed, with its number then.  `renamed` are sheets and layouts with another id, by the
    id that each had; their numbers are compared all the same.
    """

    changed: tuple[Changed, ...]
    came: tuple[str, ...]
    went: tuple[str, ...]
    again: tuple[int, ...]
    moved: Mapping[int, int]
    renamed: Mapping[str, str]


@dataclass(frozen=True)
class Edition:
    """What a booklet says, by the keys of its claims, and a digest of each of its pages."""

    said: Mapping[str, str]
    pages: Sequence[str]


def compare(before: Edition, now: Edition) -> Changes:
    """What is different in the later of two editions."""
    renamed = dict(_renamed(before.said, now.said))
    said = {_with_ids(key, renamed): text for key, text in before.said.items()}
    both = [key for key in now.said if key in said]
    then = {digest: number for number, digest in reversed(list(enumerate(before.pages, 1)))}
    alike = {number: then[digest] for number, digest in enumerate(now.pages, 1) if digest in then}
    return Changes(
        tuple(Changed(key, said[key], now.said[key]) for key in both if said[key] != now.said[key]),
        tuple(key for key in now.said if key not in said),
        tuple(key for key in said if key not in now.said),
        tuple(number for number in range(1, len(now.pages) + 1) if number not in alike),
        {number: then for number, then in alike.items() if then != number},
        {old.partition("-")[2]: new.partition("-")[2] for old, new in renamed.items()},
    )


# A section of another id is the same if so many of its keys are, as a part of all.
_MOSTLY = 0.6
_KINDS = ("sheet", "layout")


def _renamed(before: Mapping[str, str], now: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """The anchors of sheets and layouts that have another id now, each with its new one."""
    old, new = _sections(before), _sections(now)
    came = [anchor for anchor in new if anchor not in old]
    for anchor in old:
        kind = anchor.partition("-")[0]
        tries = [each for each in came if each.startswith(f"{kind}-")] if anchor not in new else []
        for each in tries:
            mine = {_with_ids(key, {anchor: each}) for key in old[anchor]}
            if len(mine & new[each]) >= _MOSTLY * max(len(mine), len(new[each])):
                came.remove(each)
                yield anchor, each
                break


def _sections(keys: Iterable[str]) -> dict[str, set[str]]:
    """The keys of each sheet and each layout, by its anchor."""
    found: dict[str, set[str]] = {}
    for key in keys:
        anchor = section_of(key)
        if anchor.startswith(tuple(f"{kind}-" for kind in _KINDS)):
            found.setdefault(anchor, set()).add(key)
    return found


def _with_ids(key: str, renamed: Mapping[str, str]) -> str:
    """A key as it would be if these sheets and layouts had their new ids: in its section and in its place."""
    anchor, slash, rest = key.partition(" / ")
    for old, new in renamed.items():
        kind, _, id = old.partition("-")
        place, new_place = (f"{kind}s{ARROW}{each}" for each in (id, new.partition("-")[2]))
        parts = re.split(rf"{re.escape(place)}(?={ARROW}|$| \()", rest)
        rest = new_place.join(parts)
    return f"{renamed.get(anchor, anchor)}{slash}{rest}"
