"""What the browsers show, as data: replaced whole at each change, so that whoever reads it sees one state."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from enum import Enum

from booklet.kit.errors import Problem
from booklet.kit.finding import Finding, SpecPath
from booklet.kit.source import Source
from booklet.measure.dataclass import dataclass
from booklet.placing.resolved import ResolvedKit
from booklet.view.places import PartOfPage, Place


class Status(Enum):
    """How the pages stand to the spec: its last save, still being worked out, or an earlier one."""

    WORKING = "working"
    CURRENT = "current"
    BROKEN = "broken"
    GONE = "gone"


@dataclass(frozen=True)
class ShownPage:
    """A page by its number and the digest of its content; `title` says what it is about."""

    number: int
    digest: str
    title: str


@dataclass(frozen=True)
class ShownFinding:
    """Something found, the other places of which the same is to be said, and the pages that speak of it."""

    finding: Finding
    also: tuple[SpecPath, ...] = ()
    on: tuple[tuple[int, PartOfPage], ...] = ()


@dataclass(frozen=True)
class PageChange:
    """A page that the last save changed, and where; all of it where `part` is None."""

    number: int
    title: str
    part: PartOfPage | None


@dataclass(frozen=True)
class Wrong:
    """Why a file cannot be used: the `problems` of its text, and how many `more`; or `trouble` in a sentence,
    with its line and its key where it has a place.
    """

    problems: tuple[Problem, ...] = ()
    more: int = 0
    trouble: str = ""
    line: int | None = None
    key: str = ""


NOTHING_WRONG = Wrong()


@dataclass(frozen=True)
class Shown:
    """All that is shown.

    `source`, `resolved` and `places` are of the spec that the pages were made of, `lines` are those of the
    file as it is now, and `wrong` is why that cannot be used.  `save` counts what was made; `size` is a
    page's, in points.
    """

    status: Status = Status.WORKING
    save: int = 0
    title: str = ""
    size: tuple[float, float] = (1.0, 1.0)
    pages: tuple[ShownPage, ...] = ()
    places: Mapping[int, tuple[Place, ...]] = field(default_factory=dict)
    source: Source | None = None
    resolved: ResolvedKit | None = None
    lines: tuple[str, ...] = ()
    wrong: Wrong = NOTHING_WRONG
    findings: tuple[ShownFinding, ...] = ()
    changes: tuple[PageChange, ...] = ()
    pages_before: int | None = None
