"""Names within a spec that lead nowhere are told with the names that there are."""

from __future__ import annotations

import pytest

from booklet.kit.errors import problem_text
from tests.kit.samples import problems, with_line

BROKEN = {
    "a ready-cut piece's paper": (
        "size: 4 1/4 x 6 1/4, paper: deep-sea",
        "size: 4 1/4 x 6 1/4, paper: deep-see",
        "ready › photo mat › paper: found deep-see, expected a paper of this kit: "
        "shingle-print, deep-sea or labels (nearest: deep-sea)",
    ),
    "a wish for an edge that is none": (
        "size: 6 x 6",
        "wishes: {edge: {gull: tpo}}",
        "sheets › 1 › wishes › edge › gull: found tpo, expected an edge of this paper: "
        "top, right, bottom or left (nearest: top)",
    ),
    "rows of more elements than a sheet has": (
        "{name: low tide, left: 1/2, top: 1/2, size: 2 x 1, words: Low tide, frame: ticket}",
        "{row: [a, b, c], count: 67, left: 0, top: 0, size: 1/32 x 1}",
        "sheets › 1 › elements › 1: found 202 elements, expected at most 200 on a sheet",
    ),
    "an edge at the right that is none": (
        "    lay: {left: top}",
        "    lay: {right: lef}",
        "sheets › 1 › lay › right: found lef, expected an edge of this paper: top, right, bottom or left "
        "(nearest: left)",
    ),
    "a layout across the gutter": (
        "facing: high-tide",
        "facing: hide-tide",
        "layouts › low-tide › facing: found hide-tide, expected another layout of this kit: high-tide "
        "(nearest: high-tide)",
    ),
    "a layout that faces itself": (
        "facing: high-tide",
        "facing: low-tide",
        "layouts › low-tide › facing: found low-tide, expected another layout of this kit: high-tide",
    ),
    "a sheet of the pile": (
        "pile: [shingle, base]",
        "pile: [shingle, bass]",
        "pile › 2: found bass, expected a sheet of this kit: shingle, base or 1 (nearest: base)",
    ),
    "a sheet that lies in the pile twice": (
        "pile: [shingle, base]",
        "pile: [shingle, base, shingle]",
        "pile › 3: found shingle twice, expected each sheet once",
    ),
    "an id that is taken": (
        "- id: high-tide",
        "- id: low-tide",
        "layouts › low-tide › id: found low-tide twice, expected an id of its own for each of the layouts",
    ),
    "a word for two edges": (
        "edges: {left: wave border}",
        "edges: {left: wave border, top: wave border}",
        'papers › shingle-print › edges › top: found "wave border" for the top edge and for the left edge, '
        "expected another word for each edge",
    ),
    "an edge called by another edge's name": (
        "edges: {left: wave border}",
        "edges: {left: wave border, top: bottom}",
        'papers › shingle-print › edges › top: found "bottom" for the top edge and for the bottom edge',
    ),
    "an image that is not there": (
        "back: {pattern: solid, colours",
        "back: {image: pebbles.jpg, colours",
        "papers › shingle-print › back › image: found no file pebbles.jpg, "
        "expected a PNG or JPEG image beside the spec",
    ),
    "a photograph from elsewhere": (
        "    title: Low tide",
        "    photograph: ../tide.jpg",
        "layouts › low-tide › photograph: found ../tide.jpg, "
        "expected the name of a file beside the spec, without a folder",
    ),
    "a kind of supply that is mistyped": (
        "{id: squares, kind: dots, count: 12}",
        "{id: squares, kind: dot, count: 12}",
        "supplies › squares › kind: found dot, expected ribbon, tape, adhesive, stencil, ink, foam, dots or "
        "brads, or a kind of your own with its outline (nearest: dots)",
    ),
    "a supply of a kind of its own without a size": (
        "{id: squares, kind: dots, count: 12}",
        "{id: squares, kind: metal charm, outline: heart, count: 12}",
        'supplies › squares: found no key "size", '
        "expected size: a size such as 5 1/2 x 7, of one metal charm",
    ),
    "an outline of what has none": (
        "{id: squares, kind: dots, count: 12}",
        "{id: squares, kind: ink, outline: heart, count: 12}",
        "supplies › squares › outline: found the outline of ink, "
        "expected none, which only has what is put on one by one",
    ),
    "artwork that is not there": (
        "size: 6 x 6",
        "artwork: tags.png",
        "sheets › 1 › artwork: found no file tags.png, expected a PNG or JPEG image beside the spec",
    ),
    "an image that is no image": (
        "    title: Low tide",
        "    photograph: harbour.yaml",
        "layouts › low-tide › photograph: found harbour.yaml, which cannot be read as an image, "
        "expected a PNG or JPEG image",
    ),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_name_that_leads_nowhere(name: str) -> None:
    old, new, message = BROKEN[name]
    text, line = with_line(old, new)
    told = [problem_text(problem) for problem in problems(text)]
    assert any(one.startswith(f"harbour.yaml:{line}: {message}") for one in told), told


def test_a_layout_lies_in_one_spread() -> None:
    text, line = with_line("    pocket: 2", "    pocket: 2\n    facing: low-tide")
    (problem,) = problems(text)
    assert problem.line == line + 1
    assert problem.found == "low-tide, while high-tide lies in a spread with low-tide"


def test_every_word_for_an_edge_is_understood() -> None:
    for word in ("wave border", "left", "top", "right", "bottom"):
        text, _ = with_line("left: wave border}    #", f"left: {word}" + "}    #")
        assert problems(text) == ()


def test_names_are_reported_together_with_all_else_that_the_file_holds_twice() -> None:
    text, _ = with_line("pile: [shingle, base]", "pile: [shingel]\nmonth: July")
    assert [problem.found for problem in problems(text)] == [
        "shingel",
        'the key "month" twice, first in line 3',
    ]
