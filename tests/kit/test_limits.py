"""How long a list or a length of a spec may be, and what is said of more."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml
from pydantic_core import ValidationError

from booklet.binding.signature import MOST_FOLDED
from booklet.kit import errors, fields, images, text, tree
from booklet.kit.element import MOST_ELEMENTS
from booklet.kit.errors import SpecError
from booklet.kit.kit import MOST_SHEETS, Kit
from booklet.kit.load import parse_kit
from booklet.kit.schema import json_schema
from booklet.kit.sheet import MOST_CUTS
from booklet.kit.validator import validator_of
from booklet.measure.length import Unit, convert, parse_length

STEP = {"do": "Press it flat."}


def spec(unit: Unit = Unit.INCH, steps: list[Any] | None = None, **more: Any) -> dict[str, Any]:
    """A sound kit of one sheet."""
    layout = {"id": "ebb", "pocket": 1, "base": "sand", "steps": [STEP] if steps is None else steps}
    return {
        "title": "Low Tide",
        "publisher": "Harbour Paper",
        "unit": unit.value,
        "sheet": "12 x 12 in",
        "papers": {"plain": {"front": {}}},
        "sheets": [{"id": "sand", "paper": "plain"}],
        "layouts": [layout],
        **more,
    }


def load(data: dict[str, Any]) -> Kit:
    return parse_kit(yaml.safe_dump(data), "kit.yaml", Path()).kit


def snip(count: int) -> dict[str, Any]:
    return {"snip": "sand", "at": [1] * count, "leaves": ["a", "b"]}


def with_sheet(**more: Any) -> dict[str, Any]:
    return spec(sheets=[{"id": "sand", "paper": "plain", **more}])


# The list, how much of it may be, and a kit that holds so many.
LISTS = {
    "steps": (200, lambda count: spec(steps=[STEP] * count)),
    "things to bring": (60, lambda count: spec(bring=["a pencil"] * count)),
    "cautions": (60, lambda count: spec(cautions=["Mind the blade."] * count)),
    "papers": (
        99,
        lambda count: spec(
            papers={"plain": {"front": {}}, **{f"paper {at}": {"front": {}} for at in range(1, count)}}
        ),
    ),
    "snips": (40, lambda count: spec(steps=[snip(count)])),
    "a group": (40, lambda count: spec(steps=[{"group": ["sand"] * count}])),
    "what a snip leaves": (
        41,
        lambda count: spec(steps=[{"snip": "sand", "at": [1], "leaves": ["a", "b"] + ["c"] * (count - 2)}]),
    ),
    "what a cut leaves": (
        61,
        lambda count: spec(
            sheets=[{"id": "sand", "paper": "plain", "cuts": [{"at": [1], "leaves": ["a"] * count}]}]
        ),
    ),
    "supplies used unseen": (
        40,
        lambda count: spec(
            steps=[{"do": "Press it.", "uses": {f"dots {number}": 1 for number in range(count)}}]
        ),
    ),
    "the pile": (99, lambda count: spec(pile=[f"sheet {number}" for number in range(count)])),
    "tucked pieces": (40, lambda count: spec(steps=[{"photo": "1 x 1 in", "tucked": ["sand"] * count}])),
    "printed borders": (
        8,
        lambda count: spec(
            papers={
                "plain": {
                    "front": {"borders": [{"edge": "top", "width": "1 in", "colour": "#334455"}] * count}
                }
            }
        ),
    ),
    "stated sizes": (200, lambda count: with_sheet(sizes={f"mat {n}": "1 x 1 in" for n in range(count)})),
    "stated pockets": (200, lambda count: with_sheet(pockets={f"mat {n}": 1 for n in range(count)})),
    "wishes": (200, lambda count: with_sheet(wishes={"edge": {f"mat {n}": "top" for n in range(count)}})),
    "corners": (
        4,
        lambda count: spec(steps=[{"round": "sand", "radius": "1 in", "corners": ["top left"] * count}]),
    ),
    "edges in line": (4, lambda count: spec(steps=[{"place": "sand", "flush": ["top"] * count}])),
    "inked edges": (4, lambda count: spec(steps=[{"ink": "sand", "edges": ["top"] * count}])),
    "things in a row": (40, lambda count: spec(steps=[{"row": ["sand"] * count, "apart": 0}])),
    "tips for pockets": (99, lambda count: spec(pocket_tips={f"A{at}": "Full." for at in range(count)})),
    "pockets of a piece": (
        99,
        lambda count: spec(
            sheets=[{"id": "sand", "paper": "plain", "pockets": {"sand": [f"A{at}" for at in range(count)]}}]
        ),
    ),
}


@pytest.mark.parametrize("name", LISTS)
def test_one_more_than_a_list_may_hold_is_reported(name: str) -> None:
    most, kit_with = LISTS[name]
    assert f"of at most {most}" not in told(kit_with(most))
    assert f"of at most {most}" in told(kit_with(most + 1))


@pytest.mark.parametrize("name", LISTS)
def test_an_editor_underlines_one_too_many(name: str) -> None:
    most, kit_with = LISTS[name]
    editor = schema_of_an_editor()
    assert editor.is_valid(as_read(kit_with(most)))
    assert not editor.is_valid(as_read(kit_with(most + 1)))


@cache
def schema_of_an_editor() -> jsonschema.Draft202012Validator:
    return jsonschema.Draft202012Validator(json_schema())


def told(data: dict[str, Any]) -> str:
    """What is said of a kit; nothing of one that loads."""
    try:
        load(data)
    except SpecError as error:
        return str(error)
    return ""


def as_read(data: Any) -> Any:
    """A spec as an editor reads it: every key is text."""
    if isinstance(data, dict):
        return {str(key): as_read(value) for key, value in data.items()}
    return [as_read(item) for item in data] if isinstance(data, list) else data


@pytest.mark.parametrize(
    ("unit", "held", "refused", "limit"),
    [
        (Unit.INCH, "1/64 x 100", "1/65 x 100", "at least 1/64 in"),
        (Unit.INCH, "1 x 2540 mm", "1/64 x 100 1/64", "at most 100 in"),
        (Unit.MILLIMETRE, "0.1 x 2540", "0.09 x 2540", "at least 0.1 mm"),
        (Unit.MILLIMETRE, "1/64 x 100 in", "1 x 100.01 in", "at most 2540 mm"),
        (Unit.CENTIMETRE, "0.01 x 254", "0.09 x 10 mm", "at least 0.01 cm"),
        (Unit.CENTIMETRE, "0.1 x 2540 mm", "1 x 255", "at most 254 cm"),
    ],
)
def test_sizes_from_what_a_ruler_shows_to_what_a_table_holds(
    unit: Unit, held: str, refused: str, limit: str
) -> None:
    assert told(spec(unit, sheet=held)) == ""
    assert f"found {refused}, expected a size with sides of {limit}" in told(spec(unit, sheet=refused))


@pytest.mark.parametrize("unit", list(Unit))
def test_what_comes_on_a_roll_may_be_longer_than_a_table(unit: Unit) -> None:
    kit = load(spec(unit, supplies=[{"id": "washi", "kind": "tape", "length": "3000 cm"}]))
    assert kit.supplies[0].length == convert(parse_length("30000", Unit.MILLIMETRE), Unit.MILLIMETRE, unit)
    for length in ("254.1 m", "999999 in", "0"):
        assert "supplies" in told(spec(unit, supplies=[{"id": "washi", "kind": "tape", "length": length}]))


def open_ended(part: Any, path: str = "") -> list[str]:
    """The lists, and tables with keys of the designer's own, that a part of the schema sets no limit to."""
    if isinstance(part, list):
        return [found for at, item in enumerate(part) for found in open_ended(item, f"{path}/{at}")]
    if not isinstance(part, dict):
        return []
    is_list = part.get("type") == "array" and "maxItems" not in part
    is_table = (
        part.get("type") == "object" and part.get("additionalProperties") and "maxProperties" not in part
    )
    within = [found for key, item in part.items() for found in open_ended(item, f"{path}/{key}")]
    return [path, *within] if is_list or is_table else within


def test_every_list_has_a_limit() -> None:
    assert open_ended(json_schema()) == []


@pytest.mark.parametrize(("count", "refused"), [(2, False), (3, True)])
def test_what_stands_in_line_is_counted_with_its_repeats(count: int, refused: bool) -> None:
    # 40 things twice are 80, three times 120.
    row = {"row": [{"write": "1 x 1 in"}] * 40, "count": count, "apart": 0}
    assert ("row: found a list, expected at most 99 things in line" in told(spec(steps=[row]))) is refused


ROW = {"row": {"write": "1 x 1 in"}, "count": 99, "apart": 0}
RUN = {"add": "brads", "run": "across", "count": 98, "apart": "1 in"}
CORNERS = {"add": "brads", "corners": "all", "inset": "1 in"}
SCATTERED = {"add": "brads", "on": "page", "count": 99}
STACK = {"stack": ["sand", "sand", {"write": "1 x 1 in"}], "left": 0, "top": 0}


@pytest.mark.parametrize(
    ("steps", "refused"),
    [
        ([ROW, RUN, SCATTERED, STEP], None),  # 99 + 98 + 1 + 1
        ([ROW, RUN, SCATTERED, STEP, STEP], None),
        ([ROW, RUN, SCATTERED, STEP, STEP, STEP], 201),
        ([ROW, RUN, CORNERS], 201),
        ([{"column": ["sand"], "count": 99, "apart": 0}] * 3, 297),
        ([STACK] * 66 + [STEP, STEP], None),  # 66 x 3 + 2
        ([STACK] * 67, 201),
    ],
)
def test_a_page_holds_what_a_hand_can_make(steps: list[Any], refused: int | None) -> None:
    said = told(spec(steps=steps))
    assert said.endswith(
        f"at most 200 steps on a page, each thing in a row, a column, a run or a stack counted, not {refused}"
    ) is (refused is not None)


@pytest.mark.parametrize(
    ("pages", "said"),
    [
        ([[ROW, ROW]] * 4 + [[STEP] * 8], None),  # 4 x 2 x 99 + 8
        (
            [[ROW, ROW]] * 4 + [[STEP] * 9],
            "at most 800 steps on all pages together, "
            "each thing in a row, a column, a run or a stack counted, not 801",
        ),
        ([[SCATTERED] * 10] * 2 + [[{**SCATTERED, "count": 20}, RUN]], None),  # 20 x 99 + 20
        (
            [[SCATTERED] * 10] * 2 + [[{**SCATTERED, "count": 21}, CORNERS]],
            "at most 2000 scattered things on all pages together, not 2001",
        ),
    ],
)
def test_a_kit_holds_what_hands_can_make(pages: list[list[Any]], said: str | None) -> None:
    layouts = [
        {"id": f"page {at}", "pocket": str(at), "base": "sand", "steps": steps}
        for at, steps in enumerate(pages, start=1)
    ]
    found = told(spec(layouts=layouts))
    if said is None:
        assert "all pages" not in found
    else:
        assert found.startswith("kit.yaml:")
        assert "layouts: found a list, expected" in found
        assert found.endswith(said)


@pytest.mark.parametrize(
    ("unit", "held", "refused", "least"),
    [
        (Unit.INCH, "1/16", "1/17", "1/16 in"),
        (Unit.MILLIMETRE, "1.5", "1.4", "1.5 mm"),
        (Unit.CENTIMETRE, "0.15", "1/100 in", "0.15 cm"),
    ],
)
def test_a_repeat_that_can_be_seen(unit: Unit, held: str, refused: str, least: str) -> None:
    def papers(repeat: str) -> dict[str, Any]:
        return spec(unit, papers={"plain": {"front": {"pattern": "dots", "repeat": repeat}}})

    def supplies(repeat: str) -> dict[str, Any]:
        return spec(unit, supplies=[{"id": "net", "kind": "stencil", "repeat": f"10 x {repeat}"}])

    assert told(papers(held)) == told(supplies(held)) == ""
    assert f"found {refused}, expected a repeat of at least {least}" in told(papers(refused))
    assert f"found 10 x {refused}, expected a repeat with sides of at least {least}" in told(
        supplies(refused)
    )


def test_the_readme_states_the_limits() -> None:
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    said = readme.partition("### Limits")[2].partition("\n## ")[0]
    for limit in (
        f"{text.MAX_BYTES >> 10} KiB",
        f"{tree.MAX_NODES:,} values",
        f"{tree.MAX_DEPTH} lists and keys",
        f"the first {errors.MOST_PROBLEMS} are told",
        f"{fields.LONGEST_NAME} of a name",
        f"{MOST_SHEETS} sheets",
        f"{MOST_CUTS} cuts of a sheet",
        f"{MOST_ELEMENTS} elements",
        f"{images.MAX_BYTES >> 20} MiB",
        f"{images.MAX_PIXELS // 1_000_000} million pixels",
        f"{images.MAX_SIDE:,} on a side",
        f"{images.MAX_PROGRESSIVE // 1_000_000} million of a progressive JPEG",
        f"More than {MOST_FOLDED}\nsheets",
    ):
        assert limit in said


@pytest.mark.parametrize(
    ("kind", "most"), [(fields.WordsField, "2,000"), (fields.Title, "200"), (fields.CoverWords, "100")]
)
def test_the_readme_states_how_long_words_may_be(kind: Any, most: str) -> None:
    assert validator_of(kind).validate_python("x" * int(most.replace(",", "")))
    with pytest.raises(ValidationError):
        validator_of(kind).validate_python("x" * (int(most.replace(",", "")) + 1))
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    assert most in next(line for line in readme.splitlines() if line.startswith("| words |"))
