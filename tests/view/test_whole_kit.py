"""The whole kit in one picture, as a browser is told it: each thing with its line in the spec."""

from __future__ import annotations

from pathlib import Path
from typing import Any
from xml.etree import ElementTree

from booklet.cli.starter import STARTER_NAME, STARTER_SPEC
from booklet.content.words.english.view import EnglishView
from booklet.kit.load import parse_kit
from booklet.placing.resolved import resolve_kit
from booklet.view.look import Look
from booklet.view.whole_kit import whole_kit_told
from tests.view.looking import a_spec, get, got_json, listening, looking, serving

MARKUP = "</svg><script>alert(1)</script>"
LINES = STARTER_SPEC.splitlines()


def told(text: str = STARTER_SPEC) -> dict[str, Any]:
    loaded = parse_kit(text, STARTER_NAME, Path())
    return whole_kit_told(resolve_kit(loaded), loaded.source)


def test_every_piece_is_told_with_the_line_that_leaves_it() -> None:
    kit = told()
    classes = [each.get("class", "").split() for each in ElementTree.fromstring(kit["svg"]).iter()]
    strands = [names[1] for names in classes if names[:1] == ["strand"]]
    assert strands == [f"piece-{number}" for number in range(len(kit["pieces"]))]
    for piece in kit["pieces"]:
        words = piece["said"].split(",")[0].split(" ", 1)
        around = "\n".join(LINES[piece["line"] - 1 : piece["line"] + 6])
        assert any(word in around for word in words), piece


def test_a_layout_leads_to_its_own_line() -> None:
    *_, layouts = told()["rows"]
    for layout in layouts["things"]:
        title = layout["name"].split(" ", 1)[1]
        assert any(title in line for line in LINES[layout["line"] - 1 : layout["line"] + 4])


def test_what_can_be_followed_is_in_the_picture() -> None:
    kit = told()
    names = {each.get("class") for each in ElementTree.fromstring(kit["svg"]).iter()}
    assert all(f"node {thing['tag']}" in names for row in kit["rows"] for thing in row["things"])


def test_words_of_the_spec_become_no_markup() -> None:
    kit = told(STARTER_SPEC.replace("title: First page", f'title: "{MARKUP}"'))
    assert "script" not in {each.tag.rsplit("}")[-1] for each in ElementTree.fromstring(kit["svg"]).iter()}
    assert any("script" in thing["name"] for row in kit["rows"] for thing in row["things"])


def test_it_is_given_once_there_is_a_kit(tmp_path: Path) -> None:
    with serving(Look("kit.yaml", EnglishView())) as address:
        assert get(address, "/whole-kit").status == 404
    with looking(a_spec(tmp_path / "kit")) as address, listening(address) as browser:
        browser.state("current")
        assert got_json(address, "/whole-kit") == told()
        assert b"export function flowThrough" in get(address, "/follow.js").body
