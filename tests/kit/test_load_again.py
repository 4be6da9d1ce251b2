"""A spec read again after a change: the kit, its lines and its faults are those of the whole text."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from booklet.kit.errors import SpecError
from booklet.kit.load import LoadedKit, parse_kit, parse_kit_again
from booklet.kit.tree_again import read_item_again

KITS = Path(__file__).parents[2] / "kit_specs"
SPEC = (KITS / "roof-garden.yaml").read_text(encoding="utf-8")
LINES = SPEC.splitlines()
# What a hand may type anywhere, most of it wrong; some of it reaches beyond its line.
ODD = (
    *(
        "",
        "x",
        '"',
        "'",
        "[",
        "]",
        "{",
        "}",
        "|",
        ">",
        "- x",
        "key:",
        "key: value",
        "# a note",
        "&name",
        "*name",
    ),
    *(
        "!tag",
        "one\u2028  two",
        "\x85",
        "\x0c",
        "---",
        "...",
        "? x",
        "\t",
        "  - id: other",
        "    title: Other",
        "pile: []",
        "- {place: pea packet}",
    ),
)


@cache
def usual() -> LoadedKit:
    return parse_kit(SPEC, "kit.yaml", KITS)


def outcome(text: str, *, again: bool) -> object:
    """A kit with where all of it was typed, or what is wrong with it."""
    try:
        loaded = parse_kit_again(text, usual()) if again else parse_kit(text, "kit.yaml", KITS)
    except SpecError as wrong:
        return str(wrong)
    return loaded.kit, loaded.source, loaded.typed, loaded.in_short


def mutant(at: int, kind: str, odd: str) -> str:
    """The spec with one line left out, doubled, preceded by another, ended otherwise, or moved."""
    line = LINES[at]
    indent = " " * (len(line) - len(line.lstrip(" ")))
    instead = {
        "dropped": [],
        "doubled": [line, line],
        "preceded": [indent + odd, line],
        "outdented": [odd, line],
        "followed": [f"{line} {odd}"],
        "cut short": [line[: len(line) // 2]],
        "moved left": [line[2:] if line.startswith("  ") else line],
        "moved right": ["  " + line],
    }[kind]
    return "\n".join([*LINES[:at], *instead, *LINES[at + 1 :]]) + "\n"


KINDS = ("dropped", "doubled", "preceded", "outdented", "followed", "cut short", "moved left", "moved right")


@settings(max_examples=60)
@given(some.integers(0, len(LINES) - 1), some.sampled_from(KINDS), some.sampled_from(ODD))
def test_any_change_of_a_line_is_read_as_in_the_whole_text(at: int, kind: str, odd: str) -> None:
    text = mutant(at, kind, odd)
    assert outcome(text, again=True) == outcome(text, again=False)


@pytest.mark.parametrize(
    ("typed", "instead"),
    [
        pytest.param("at: [22.5, 15, 7.5]", "at: [22, 15, 7.5]", id="a reading"),
        pytest.param("title: First light", "title: First light & a cup of tea", id="a title"),
        pytest.param("right: 3.5, top: 0.7", "right: 3.5,\n        top: 0.7", id="a line more"),
    ],
)
def test_a_sheet_or_a_layout_is_read_alone(typed: str, instead: str) -> None:
    text = SPEC.replace(typed, instead, 1)
    assert text != SPEC
    again = read_item_again(text, usual().source)
    assert again is not None
    assert again.tree == parse_kit(text, "kit.yaml", KITS).source.tree
    assert outcome(text, again=True) == outcome(text, again=False)


@pytest.mark.parametrize(
    ("typed", "instead"),
    [
        pytest.param("title: First light", 'title: "First light', id="an open quote"),
        pytest.param("title: First light", "title: &light First light", id="an anchor"),
        pytest.param("title: First light", "title: {", id="an open brace"),
        pytest.param("unit: cm", "unit: mm", id="what is no item"),
        pytest.param("title: First light", 'title: "First\u2028      light"', id="a line separator"),
        pytest.param("title: First light", 'title: "First\x85      light"', id="a next line"),
    ],
)
def test_what_may_mean_something_elsewhere_is_left_to_those_who_read_all(typed: str, instead: str) -> None:
    text = SPEC.replace(typed, instead, 1)
    assert text != SPEC
    assert read_item_again(text, usual().source) is None
    assert outcome(text, again=True) == outcome(text, again=False)


def test_the_same_text_is_no_change() -> None:
    assert read_item_again(SPEC, usual().source) is None
    assert outcome(SPEC, again=True) == outcome(SPEC, again=False)
