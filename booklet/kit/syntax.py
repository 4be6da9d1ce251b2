"""YAML's own complaints, told as what to mend.

The parser says where it lost its way, in its own terms; a person who writes kits needs to hear which of the
few usual slips it was.  The slip often stands above the place where the parser noticed.
"""

from __future__ import annotations

import re

import yaml

_BARE_COLOUR = re.compile(r"(?:[:,\[]|^\s*-)\s+(#[0-9A-Fa-f]{3,8})\b")
_COLON_IN_WORDS = re.compile(r""":\s+[^"'\[{|>#\s].*:(\s|$)""")


def bare_colour(line: str) -> str | None:
    """A colour without quotes in this line of YAML, where it has begun a comment: `#1d5c7a`."""
    match = _BARE_COLOUR.search(line)
    return match[1] if match else None


def explain_syntax(error: yaml.MarkedYAMLError, lines: list[str]) -> tuple[int, int, str, str]:
    """Line and column (from 1), what was found, and what was expected."""
    noticed, opened = error.problem_mark or error.context_mark, error.context_mark or error.problem_mark
    if noticed is None or opened is None:
        return 1, 1, "text that is not YAML", "a kit spec in YAML"
    for number in range(opened.line, min(noticed.line, len(lines) - 1) + 1):
        colour = bare_colour(lines[number])
        if colour:
            column = lines[number].index(colour) + 1
            return number + 1, column, f"a colour without quotes, {colour}", f'it in quotes, "{colour}"'
    said = f"{error.context or ''} {error.problem or ''}"
    line = lines[noticed.line] if noticed.line < len(lines) else ""
    at_start, found, expected = _slip(said, line, noticed.column)
    mark = opened if at_start else noticed
    return min(mark.line + 1, max(len(lines), 1)), mark.column + 1, found, expected


def _slip(said: str, line: str, column: int) -> tuple[bool, str, str]:
    """Whether the slip is where the construct opened, what it looks like, and its cure."""
    if "\t" in line[: column + 1] and not line[:column].strip():
        return False, "a tab at the start of a line", "spaces"
    if "quoted scalar" in said and "end of stream" in said:
        return True, "a quote that is never closed", "a second one where the words end"
    if "flow sequence" in said:
        return (
            True,
            "a list that begins with [ and is not closed",
            "commas between its items and ] at its end",
        )
    if "flow mapping" in said:
        return True, "keys that begin with { and are not closed", "commas between them and } at their end"
    if "mapping values are not allowed" in said and _COLON_IN_WORDS.search(line):
        return False, "a second colon in one line", "words that hold a colon to stand in quotes"
    if "could not find expected ':'" in said:
        return True, "a line without a key", "key: value, with a space after the colon"
    if re.search(r"cannot start any token|alphabetic or numeric|tag|directive", said):
        letter = line[column : column + 1] or "a sign"
        return (
            False,
            f"{letter} at the start of a value",
            "words that begin with such a sign to stand in quotes",
        )
    if re.search(r"block (mapping|collection)|mapping values|block sequence", said):
        return (
            False,
            "a line that does not fit those above it",
            ("keys of one group, and dashes of one list, to begin in the same column"),
        )
    return False, "text that is not YAML", "a kit spec in YAML"
