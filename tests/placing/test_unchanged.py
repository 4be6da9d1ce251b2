"""What is placed again after a change of the spec, and what is taken as it was."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.kit.load import parse_kit
from booklet.placing.resolved import ResolvedKit, resolve_kit

KITS = Path(__file__).parents[2] / "kit_specs"
SPEC = (KITS / "roof-garden.yaml").read_text()


def resolved(text: str, before: ResolvedKit | None = None) -> ResolvedKit:
    return resolve_kit(parse_kit(text, "roof-garden.yaml", KITS), before)


BEFORE = resolved(SPEC)
# The first two layouts face each other, and so do the last two.
CHANGES = [
    pytest.param("story: The city is still blue", "story: The city is blue", {0, 1}, id="a word"),
    pytest.param("pea packet, right: 3.5", "pea packet, right: 4", {0, 1}, id="where a piece lies"),
    pytest.param("story: Nineteen pots", "story: Twenty pots", {1}, id="a word on a right page"),
    pytest.param(
        "pocket: 1\n    base: {paper: morning}\n    story: Nineteen",
        "pocket: 1\n    base: {paper: evening}\n    story: Nineteen",
        {0, 1},
        id="the base of a right page",
    ),
    pytest.param("22.5, 15.5, 11.5, 7.5]", "22.5, 15.5, 11, 7]", {1, 2, 3}, id="pieces of three"),
    pytest.param("22.5, 15.5, 11.5, 7.5]", "22.5, 15.5, 11, 7.5]", {2, 3}, id="the size of a piece"),
    pytest.param("parapet, parapet, scrap]", "parapet, scrap, scrap]", set(), id="a piece fewer"),
    pytest.param("[square strip, ledge,", "[square strip, shelf,", {0, 1, 2, 3}, id="the name of a piece"),
    pytest.param('"#c9714a"', '"#c9714b"', {0, 1, 2, 3}, id="a paper"),
    pytest.param("id: first-light", "id: early-light", {0, 1, 2, 3}, id="what a layout is known by"),
    pytest.param("publisher:", "# all as it was\npublisher:", set(), id="nothing"),
]


@pytest.mark.parametrize(("typed", "instead", "again"), CHANGES)
def test_only_what_has_changed_is_placed_again(typed: str, instead: str, again: set[int]) -> None:
    changed = SPEC.replace(typed, instead)
    assert changed != SPEC
    now = resolved(changed, BEFORE)
    placed = {now.index for now, then in zip(now.layouts, BEFORE.layouts, strict=True) if now is not then}
    assert placed == again
    assert now.layouts == resolved(changed).layouts


def test_nothing_is_taken_from_another_kit() -> None:
    other = resolve_kit(parse_kit((KITS / "hill-line.yaml").read_text(), "hill-line.yaml", KITS))
    assert resolved(SPEC, other).layouts == BEFORE.layouts
