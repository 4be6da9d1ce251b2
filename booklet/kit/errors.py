"""What can go wrong before a booklet exists, explained to the person who typed the spec or the command.

BookletError            root of everything that is refused on purpose
├── KitError            the kit as it stands; each later stage adds what it has to refuse
│   ├── SpecError       the kit spec: one or more `Problem`s, each with its line, key and cure
│   └── PictureError    one image file: missing, unreadable, too large, or not beside the spec
└── UsageError          the command: a choice that does not exist, a file that cannot be read
    └── MissingError    a file that is not there
"""

from __future__ import annotations

from collections.abc import Iterable

from booklet.measure.dataclass import dataclass

# A file full of mistakes should not fill the terminal: the first problems are corrected first.
_SHOWN_PROBLEMS = 40
# No more are explained: those that come after are but counted.
MOST_PROBLEMS = 100


@dataclass(frozen=True)
class Problem:
    """One place in a spec that is wrong, and what would be right there.

    `file` is the spec's name as given; `line` and `column` count from 1, None where there is no one place;
    `key` is the path to it in words, `sheets › shingle › cuts › 2 › at`, empty for the file as a whole;
    `nearest` is the valid value that is closest to what was found, where there is one.
    """

    file: str
    line: int | None
    column: int | None
    key: str
    found: str
    expected: str
    nearest: str | None = None


class BookletError(Exception):
    """Something that cannot be done, in words for the user."""


class KitError(BookletError):
    """A kit that must be corrected before a booklet can be made from it."""


class SpecError(KitError):
    """A kit spec that cannot be used as it stands: its first problems, and how many `more` it has."""

    def __init__(self, problems: Iterable[Problem], more: int = 0) -> None:
        every = tuple(problems)
        self.problems = every[:MOST_PROBLEMS]
        self.more = len(every) - len(self.problems) + more
        super().__init__(problems_text(self.problems, self.more))


class PictureError(KitError):
    """An image file that cannot be used: what was found, and what was expected instead."""

    def __init__(self, found: str, expected: str, nearest: str | None = None) -> None:
        self.found = found
        self.expected = expected
        self.nearest = nearest
        super().__init__(_found_and_expected(found, expected, nearest))


class UsageError(BookletError):
    """A command that was called wrongly."""


class MissingError(UsageError):
    """There is no file of the name that was given."""


def problem_text(problem: Problem) -> str:
    """A problem in one line: `harbour.yaml:41: sheets › shingle › cuts › 2 › at: found 6 1/x, expected …`."""
    where = f"{place_text(problem.file, problem.line)}: "
    key = f"{problem.key}: " if problem.key else ""
    return where + key + _found_and_expected(problem.found, problem.expected, problem.nearest)


def problems_text(problems: tuple[Problem, ...], uncounted: int = 0) -> str:
    """All problems, a line each; past the fortieth only their number, with those that are not among them."""
    lines = [problem_text(problem) for problem in problems[:_SHOWN_PROBLEMS]]
    more = len(problems) - len(lines) + uncounted
    return "\n".join([*lines, f"and {more} more"] if more > 0 else lines)


def place_text(file: str, line: int | None) -> str:
    """A place in a file as editors and terminals understand it: `harbour.yaml:41`."""
    return file if line is None else f"{file}:{line}"


def _found_and_expected(found: str, expected: str, nearest: str | None) -> str:
    hint = f" (nearest: {nearest})" if nearest else ""
    return f"found {found}, expected {expected}{hint}"


def is_stop(fault: BaseException) -> bool:
    """Whether a fault comes of it that somebody stopped the program, and a library made another of that."""
    cause: BaseException | None = fault
    while cause is not None and not isinstance(cause, KeyboardInterrupt):
        cause = cause.__cause__ or cause.__context__
    return cause is not None
