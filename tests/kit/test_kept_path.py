"""A place of a spec is found again when lines and things are added about it, and things get other names."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.cli.starter import STARTER_NAME, STARTER_SPEC
from booklet.kit.finding import SpecPath
from booklet.kit.kept_path import found_again, kept_path
from booklet.kit.load import parse_kit
from booklet.kit.source import Source

TITLE: SpecPath = ("layouts", 0, "title")
READING: SpecPath = ("sheets", 0, "cuts", 0, "at", 1)
LAYOUT = "layouts:\n"
BEFORE = "  - {id: before, pocket: 3, base: {paper: plain-sand}, steps: [{photo: 4 x 6, left: 1, top: 1}]}\n"


def source(text: str) -> Source:
    return parse_kit(text, STARTER_NAME, Path()).source


def again(path: SpecPath, text: str) -> tuple[str, str]:
    """The line and the key of a place of the starter in another text."""
    now = source(text)
    line, key = found_again(kept_path(path, source(STARTER_SPEC)), now)
    return now.lines[line - 1].strip(), key


@pytest.mark.parametrize("path", [TITLE, READING, ("papers",), ()])
def test_in_the_same_text_it_is_where_it_was(path: SpecPath) -> None:
    same = source(STARTER_SPEC)
    assert found_again(kept_path(path, same), same) == (same.line(path), same.words(path))


def test_lines_above_move_it() -> None:
    line, key = again(TITLE, "# one\n# two\n" + STARTER_SPEC)
    assert (line, key) == ("title: First page", "layouts › first-page › title")


def test_a_thing_before_it_moves_it() -> None:
    line, key = again(TITLE, STARTER_SPEC.replace(LAYOUT, LAYOUT + BEFORE))
    assert (line, key) == ("title: First page", "layouts › first-page › title")


def test_a_thing_with_another_name_is_the_same_in_a_list_as_long() -> None:
    line, key = again(TITLE, STARTER_SPEC.replace("id: first-page", "id: only-page"))
    assert (line, key) == ("title: First page", "layouts › only-page › title")


def test_what_is_gone_is_looked_for_no_deeper_than_what_was_about_it() -> None:
    renamed = STARTER_SPEC.replace("id: first-page", "id: only-page").replace(LAYOUT, LAYOUT + BEFORE)
    assert again(TITLE, renamed) == (LAYOUT.strip(), "layouts")
    untitled = STARTER_SPEC.replace("    title: First page\n", "")
    assert again(TITLE, untitled) == ("- id: first-page", "layouts › first-page")


def test_a_sheet_that_a_base_stands_for_is_kept_as_it_is_typed() -> None:
    """It comes after all sheets in the model: where one more is typed, that one takes its index."""
    based = STARTER_SPEC.replace(LAYOUT, LAYOUT + BEFORE)
    more = source(based.replace("sheets:\n", "sheets:\n  - {id: spare-sheet, paper: plain-teal}\n"))
    line, key = found_again(kept_path(("sheets", 2), source(based)), more)
    assert more.lines[line - 1] + "\n" == BEFORE
    assert key == "layouts › before › base"
