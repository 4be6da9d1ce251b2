"""YAML syntax errors, reworded as what to correct.

The parser reports where it failed, in its own terms; a person who writes kits needs to know which of the few
usual mistakes it was.  The mistake is often above the place where the parser noticed it.
"""

from __future__ import annotations

import re

import yaml

from booklet.measure.dataclass import dataclass

_BARE_COLOUR = re.compile(r"(?:[,\[{]|:\s|^\s*-\s)\s*(#[0-9A-Fa-f]{3,8})\b")
_COLON_IN_WORDS = re.compile(r""":\s+[^"'\[{|>#\s].*:(\s|$)""")
_OPEN_QUOTE = re.compile(r"""(?::|-)\s+("[^"]*|'[^']*)$""")
_KEYLESS = re.compile(r"\s*(-\s+)?[^:#]*\s*(#.*)?")


@dataclass(frozen=True)
class SyntaxMistake:
    """Where a mistake is (line and column from 0), what it looks like, its cure, and how it may be meant."""

    line: int
    column: int
    found: str
    expected: str
    nearest: str | None = None


_COLON = ("a second colon", "words that hold a colon to stand in quotes")
_DEEPER = (
    "a key under words that go on",
    "it in the column of the keys above it, or words that hold a colon to stand in quotes",
)
_AFTER_QUOTE = (
    "words after a quote that is closed",
    "one pair of quotes round all of them; inside, other quotes or each typed twice",
)
# A key and what follows its colon, between the commas and brackets of one line.
_KEY_AND_WORDS = re.compile(r"\s*([^:\s][^:]*):\s+(.*)")
# A line of one key and plain words, which the next line may carry on.
_PLAIN_LINE = re.compile(r"""\s*(?:-\s+)*[^\s:"'\[{#][^:]*:\s+[^\s"'\[{|>#&*!].*""")
_OPEN = ("a quote that is never closed", "a second one where the words end")
_MISFIT = (
    "a line that does not fit those above it",
    "keys of one group, and dashes of one list, to begin in the same column",
)


def bare_colour(line: str) -> str | None:
    """A colour without quotes in this line of YAML, where it has begun a comment: `#1d5c7a`."""
    match = _BARE_COLOUR.search(line)
    return match[1] if match else None


def explain_syntax(error: yaml.MarkedYAMLError, lines: list[str], what: str) -> SyntaxMistake:
    """The mistake at which the parser failed; `what` says what the text is."""
    noticed, opened = error.problem_mark or error.context_mark, error.context_mark or error.problem_mark
    if noticed is None or opened is None or not lines:
        return SyntaxMistake(0, 0, *_unknown(what))
    here = (min(noticed.line, len(lines) - 1), noticed.column)
    start = (min(opened.line, here[0]), opened.column)
    said = f"{error.context or ''} {error.problem or ''}"
    return (
        _colour_mistake(lines, start[0], here[0])
        or _mistake(said, lines, start, here)
        or SyntaxMistake(*here, *_unknown(what))
    )


def _unknown(what: str) -> tuple[str, str]:
    return "text that is not YAML", f"{what} in YAML"


def _colour_mistake(lines: list[str], first: int, last: int) -> SyntaxMistake | None:
    for number in range(first, last + 1):
        if colour := bare_colour(lines[number]):
            column = lines[number].index(colour)
            return SyntaxMistake(
                number, column, f"a colour without quotes, {colour}", f'it in quotes, "{colour}"'
            )
    return None


def _mistake(
    said: str, lines: list[str], start: tuple[int, int], here: tuple[int, int]
) -> SyntaxMistake | None:
    """Which mistake it was, by what the parser said and how the line looks; None for an unknown one."""
    line, column = lines[here[0]], here[1]
    if "\t" in line[: column + 1] and not line[:column].strip():
        return SyntaxMistake(*here, "a tab at the start of a line", "spaces")
    if line[column : column + 1] == "\t":
        return SyntaxMistake(*here, "a tab before a value", "spaces")
    if "quoted scalar" in said and "end of stream" in said:
        return SyntaxMistake(*start, *_OPEN)
    if mistake := _in_words(said, lines, here):
        return mistake
    if "flow sequence" in said:
        expected = "commas between its items and ] at its end"
        return SyntaxMistake(*start, "a list that begins with [ and is not closed", expected)
    if "flow mapping" in said:
        expected = "commas between them and } at their end"
        return SyntaxMistake(*start, "keys that begin with { and are not closed", expected)
    if re.search(r"cannot start any token|alphabetic or numeric|tag|directive", said):
        found = f"{line[column : column + 1] or 'a sign'} at the start of a value"
        return SyntaxMistake(*here, found, "words that begin with such a sign to stand in quotes")
    if "could not find expected ':'" in said:
        return _keyless(*start)
    if "mapping values are not allowed" in said:
        return _second_colon(lines, here)
    if re.search(r"block (mapping|collection|sequence)", said):
        return (
            _open_quote(lines, start[0], here[0])
            or _after_quote(line, here)
            or SyntaxMistake(*here, *_MISFIT)
        )
    return None


def _keyless(line: int, column: int) -> SyntaxMistake:
    return SyntaxMistake(line, column, "a line without a key", "key: value, with a space after the colon")


def _second_colon(lines: list[str], here: tuple[int, int]) -> SyntaxMistake:
    """A colon where none may be: within words, or since the line above is not a key and its value."""
    number = here[0]
    if _COLON_IN_WORDS.search(lines[number]):
        return SyntaxMistake(*here, *_COLON, _in_quotes(lines[number]))
    if number and lines[number - 1].strip() and _KEYLESS.fullmatch(lines[number - 1]):
        return _keyless(number - 1, _indent(lines[number - 1]))
    if (
        number
        and _PLAIN_LINE.fullmatch(lines[number - 1])
        and _indent(lines[number]) > _indent(lines[number - 1])
    ):
        return SyntaxMistake(*here, *_DEEPER)
    return SyntaxMistake(*here, *_MISFIT)


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip())


def _in_words(said: str, lines: list[str], here: tuple[int, int]) -> SyntaxMistake | None:
    """A colon, a bracket or a quote within words between brackets, at which the parser stopped."""
    if "flow" not in said and "unexpected ':'" not in said:
        return None
    line, column = lines[here[0]], here[1]
    before, sign = line[:column].rstrip(), line[column : column + 1]
    start = max(before.rfind(opening) for opening in ("{", "[", ","))
    if sign == ":" and ":" in before[start + 1 :]:
        end = min((at for stop in ",}]" if (at := line.find(stop, column)) >= 0), default=len(line))
        return SyntaxMistake(*here, *_COLON, _in_quotes(line[start + 1 : end]))
    if sign and sign in "[{" and before.strip("- ") and before[-1] not in ":,[{":
        return SyntaxMistake(*here, f"{sign} within words", "words that hold such a sign to stand in quotes")
    return _after_quote(line, here)


def _after_quote(line: str, here: tuple[int, int]) -> SyntaxMistake | None:
    before = line[: here[1]].rstrip()
    return SyntaxMistake(*here, *_AFTER_QUOTE) if before.endswith(("'", '"')) else None


def _in_quotes(typed: str) -> str | None:
    """A key and its words as they should be typed; None where it cannot be told which they are."""
    match = _KEY_AND_WORDS.fullmatch(typed)
    if match is None or match[1].startswith("- ") or '"' in typed or " #" in typed:
        return None
    return f'{match[1]}: "{match[2].rstrip()}"'


def _open_quote(lines: list[str], first: int, last: int) -> SyntaxMistake | None:
    """A quote that was meant to end in its own line, and ended where the next one opened."""
    for number in range(last, first - 1, -1):
        if match := _OPEN_QUOTE.search(lines[number]):
            return SyntaxMistake(number, match.start(1), *_OPEN)
    return None
