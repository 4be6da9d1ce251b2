"""How prints lie: which edge a place states to be up, and which element lies face down."""

from __future__ import annotations

import pytest

from booklet.content.assembly.section import layout_sections
from booklet.content.blocks import StepList
from booklet.content.words.language import ENGLISH
from booklet.kit.finding import Finding
from booklet.placing.resolved import ResolvedKit
from booklet.proof.findings import kit_findings
from tests.content.assembly.telling import block, typed
from tests.drawing.looks import resolved_kit
from tests.kits import PAPERS, Data, cut, element, make_kit, sheet
from tests.placing.layouts import steps_of

OURS: Data = {
    **PAPERS,
    # Waves, with a printed border along the top; the member has words for the top and for the foot.
    "shore": {
        "front": {
            "pattern": "waves",
            "borders": [{"edge": "top", "width": 1, "colour": "#b5482f", "style": "scallop"}],
        },
        "edges": {"bottom": "dark foot", "top": "scallops"},
    },
}
# The sheet is laid with its border at zero: a strip of it, then waves, 12 x 6 and 12 x 4.
SHORE = sheet(
    cut([8, 2], ["canopy", "swell", "ground swell"]), id="shore", paper="shore", lay={"left": "top"}
)
REST = "{place: swell, left: 0, top: 2}, {place: ground swell, left: 0, bottom: 0}"


def page(steps: str, **base: str) -> ResolvedKit:
    """A kit whose page is laid in these steps, typed in YAML."""
    elements = [{**element("ticket", 0, 0, "6 x 12"), "words": "Low tide"}]
    sheets = [sheet(id="base"), SHORE, sheet(cut(6), id="cards", elements=elements)]
    used = [one for one in sheets if one["id"] != "cards" or "ticket" in steps]
    layouts = [{"id": "ebb", "pocket": 1, "base": {"piece": "base", **base}, "steps": steps_of(f"[{steps}]")}]
    return resolved_kit(make_kit(*used, layouts=layouts, papers=OURS))


def found(steps: str, key: str = "up", **base: str) -> list[Finding]:
    """What is said of the page about edges that are to be up, or about another key of its steps."""
    findings = kit_findings(page(steps, **base))
    return [one for one in findings if one.where[-1] == key]


@pytest.mark.parametrize(
    ("words", "id", "cure"),
    [
        ("up: scallops", None, ""),
        ("up: top", None, ""),
        ("turn: half, up: bottom", None, ""),
        ("turn: clockwise, up: left", None, ""),
        ("turn: anticlockwise, up: right", None, ""),
        ("turn: half, up: scallops", "print-not-up", "turn it half round from there"),
        ("turn: clockwise, up: scallops", "print-not-up", "turn it a quarter anticlockwise from there"),
        ("turn: anticlockwise, up: scallops", "print-not-up", "turn it a quarter clockwise from there"),
        ("up: scalops", "up-unknown", 'did you mean "scallops"?'),
    ],
)
def test_a_strip_that_has_the_printed_border(words: str, id: str | None, cure: str) -> None:
    said = found(f"{{place: canopy, left: 0, top: 0, {words}}}, {REST}")
    assert [one.id for one in said] == ([] if id is None else [id])
    assert all(one.cure.startswith(cure) for one in said)


def test_a_border_that_was_cut_off_and_a_direction() -> None:
    rest = "{place: canopy, left: 0, top: 0}, {place: ground swell, left: 0, bottom: 0}"
    (missing,) = found(f"{{place: swell, left: 0, top: 2, up: scallops}}, {rest}")
    assert (missing.id, missing.where) == ("up-not-there", ("layouts", 0, "steps", 0, "up"))
    assert found(f"{{place: swell, left: 0, top: 2, up: top}}, {rest}") == []
    # No border is printed along the foot: the word is a direction, whatever is cut off.
    assert found(f"{{place: swell, turn: half, left: 0, top: 2, up: dark foot}}, {rest}") == []


def test_a_block_that_is_turned_turns_the_print() -> None:
    loose = "{place: canopy, loose: yes, up: scallops}"
    block = "{group: [canopy], left: 0, top: 0"
    assert found(f"{loose}, {block}}}, {REST}") == []
    assert [one.id for one in found(f"{loose}, {block}, turn: half}}, {REST}")] == ["print-not-up"]


def test_equal_pieces_of_a_row_are_told_once() -> None:
    sheets = [
        sheet(id="base"),
        sheet(cut(6, ["half", "half"]), id="shore", paper="shore", lay={"left": "top"}),
    ]
    for word, said in (("top", []), ("bottom", ["print-not-up"])):
        steps = steps_of(f"[{{column: [half], count: 2, left: 0, top: 0, apart: 0, up: {word}}}]")
        layouts = [{"id": "ebb", "pocket": 1, "base": "base", "steps": steps}]
        kit = make_kit(*sheets, layouts=layouts, papers=OURS)
        assert [one.id for one in kit_findings(resolved_kit(kit)) if one.where[-1] == "up"] == said


def test_the_back_that_is_plain_shows_no_edge() -> None:
    said = found(f"{{place: canopy, face: back, left: 0, top: 0, up: scallops}}, {REST}")
    assert [one.id for one in said] == ["up-not-seen"]
    assert [one.id for one in found(REST, up="top")] == ["up-not-seen"]


def test_the_words_of_an_element_have_an_up() -> None:
    place = "{place: ticket, left: 0, top: 0, "
    assert found(f"{place} up: top}}") == []
    assert [one.id for one in found(f"{place} turn: half, up: top}}")] == ["print-not-up"]


def test_an_element_that_lies_face_down() -> None:
    place = "{place: ticket, left: 0, top: 0"
    assert found(f"{place}}}", "face") == []
    (told,) = found(f"{place}, face: back}}", "face")
    assert (told.id, told.where) == ("element-face-down", ("layouts", 0, "steps", 0, "face"))
    # The back of a paper is not an element's: nothing is lost there.
    assert found(f"{{place: canopy, face: back, left: 0, top: 0}}, {REST}", "face") == []


def test_the_edge_that_is_stated_is_the_one_that_is_told() -> None:
    """Of a whole sheet the paper has a word for two edges: the first is told unless another is stated."""
    texts = []
    for words in ("", ", up: scallops"):
        layouts = [{"id": "ebb", "pocket": 1, "base": "base"}]
        steps = steps_of(f"[{{place: shore, left: 0, top: 0{words}}}]")
        whole = sheet(id="shore", paper="shore", pockets={"shore": 1})
        kit = make_kit(sheet(id="base"), whole, layouts=[{**layouts[0], "steps": steps}], papers=OURS)
        (section,) = layout_sections(resolved_kit(kit), ENGLISH)
        texts.append(typed(block(section, StepList).steps[0].parts[0].said))
    assert "dark foot at the bottom" in texts[0]
    assert "scallops at the top" in texts[1]
