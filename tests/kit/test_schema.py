"""The JSON Schema for editors, checked by a validator that knows nothing of this project."""

from __future__ import annotations

import json
import re
from typing import Any

import jsonschema
import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from booklet.kit.errors import SpecError
from booklet.kit.schema import DIALECT, json_schema
from booklet.measure.length import Unit, parse_length, parse_size
from tests.kit.samples import HARBOUR, parsed, with_line
from tests.kit.test_broken_specs import BROKEN

SCHEMA = json_schema()
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)


class EditorLoader(yaml.SafeLoader):
    """YAML as an editor reads it: the core schema of YAML 1.2.2 (section 10.3.2, from memory)."""


# None of the rules of YAML 1.1 that the class inherits.
EditorLoader.yaml_implicit_resolvers = {}
for kind, pattern, first in [
    ("null", r"~|null|Null|NULL|", [*"~nN", ""]),
    ("bool", r"true|True|TRUE|false|False|FALSE", [*"tTfF"]),
    ("int", r"[-+]?[0-9]+", [*"-+0123456789"]),
    ("float", r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?", [*"-+.0123456789"]),
]:
    EditorLoader.add_implicit_resolver(f"tag:yaml.org,2002:{kind}", re.compile(f"^(?:{pattern})$"), first)


def as_an_editor_reads(text: str) -> Any:
    """A spec's text as plain JSON data; keys are strings in JSON."""
    return json.loads(json.dumps(yaml.load(text, Loader=EditorLoader)))


def mistakes(text: str) -> list[str]:
    return [error.json_path for error in VALIDATOR.iter_errors(as_an_editor_reads(text))]


def test_the_schema_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == DIALECT == "https://json-schema.org/draft/2020-12/schema"
    assert SCHEMA["title"] == "Kit spec"


def test_the_schema_is_the_same_every_time() -> None:
    assert json.dumps(json_schema()) == json.dumps(SCHEMA)


def test_every_group_of_keys_says_what_it_is() -> None:
    for name, definition in SCHEMA["$defs"].items():
        if definition.get("type") == "object":
            assert definition["description"], name
            assert definition["additionalProperties"] is False, name


def test_the_editor_reads_numbers_where_the_loader_reads_words() -> None:
    ready = as_an_editor_reads(HARBOUR)
    assert ready["sheets"][0]["cuts"][1]["at"] == 7
    assert ready["layouts"][0]["steps"][4]["optional"] is True


def test_a_whole_spec_has_no_mistakes_for_an_editor() -> None:
    assert mistakes(HARBOUR) == []


def test_an_editor_counts_the_items_of_a_list() -> None:
    for old, new in [
        ("at: [8, 2 1/2]", "at: []"),
        (
            'colours: ["#17405c"]',
            "colours: [white, white, white, white, white]".replace("white", "'#ffffff'"),
        ),
    ]:
        text, _ = with_line(old, new)
        assert mistakes(text) != []


# What an editor can see without knowing the kit: not whether a paper exists or a size can be cut.
SEEN = [
    "a length with a slip of the finger",
    "a decimal comma",
    "a key misspelt",
    "a choice misspelt",
    "a colour without quotes",
    "a colour without its sign",
    "a size with the wrong word",
    "more sheets than are cut together",
    "a step whose verb is misspelt",
    "a step with two verbs",
    "words for a switch",
    "a unit that is not one",
    "words where a list belongs",
    "an edge in a paper that is no edge",
    "a word for cuts that means nothing",
    "a wish for three side by side",
]


@pytest.mark.parametrize("slip", SEEN)
def test_an_editor_underlines_what_the_loader_refuses(slip: str) -> None:
    text, _ = with_line(*BROKEN[slip][:2])
    assert mistakes(text) != []
    with pytest.raises(SpecError):
        parsed(text)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("title: Harbour days", "title: 2031"),
        ("centred: yes", "centred: true"),
        ("centred: yes", "centred: across"),
        ("flush: [left, top]", "flush: all"),
        ("flush: [left, top]", "flush: left"),
        ("photo: 4 x 6", "photo: fits"),
        ("size: 6 x 6", "cuts: plan"),
        ("size: 6 x 6", "wishes: {edge: {gull: top}, beside: [[gull, low tide]]}"),
        ("base: base", "base: {piece: base, face: back}"),
        ("base: base", "base: {paper: deep-sea, turn: half}"),
        ("place: edge strip, flush: [left, top]", "place: edge strip, run: across, top: 0"),
        ("kind: dots, count: 12", "kind: dots, count: 12, from: home"),
        ("kind: dots, count: 12", "kind: metal charm, outline: half circle, size: 1 x 1/2, count: 12"),
        ("place: edge strip, flush", "stack: [edge strip, {place: mat, turn: half}, {photo: fits}], flush"),
        ("overhang: no", "overhang: false"),
        ('colours: ["#17405c"]', 'colours: "#17405c"'),
        ("at: [8, 2 1/2]", "at: [8.25, 2-1/2, 3 cm, .5, 1/2]"),
        ("place: edge strip, flush", f"row: {'edge ' * 11}strip, flush"),
        ("place: edge strip, flush", "row: [edge strip, {photo: 3 x 3}, {write: 2 x 1}], count: 2, flush"),
        ("place: edge strip, flush: [left, top]", "raise: mat, foam: squares, count: 4"),
        ("place: edge strip, flush: [left, top]", "round: mat, radius: 1/4, corners: all"),
        ("place: edge strip, flush: [left, top]", "round: mat, radius: 1/4, corners: top left"),
        ("place: edge strip, flush", "place: edge strip, border: 1/4, flush"),
        ("place: edge strip, flush", "place: edge strip, border: [0, 1/8], flush"),
        ("place: edge strip, flush", "place: edge strip, border: [1/4, 0.5], tilt: -2.5, flush"),
    ],
)
def test_every_short_form_that_the_loader_takes_is_right_for_an_editor(old: str, new: str) -> None:
    text, _ = with_line(old, new)
    assert parsed(text)
    assert mistakes(text) == []


signs = st.sampled_from(["", "-", "- ", "−"])
numbers = st.sampled_from(
    ["6", "06.250", ".5", "1/4", "6 1/4", "6-1/4", "6 - 1/4", "6½", "½", "6 ½", "6 1⁄4"]
)
units = st.sampled_from(["", " in", '"', "″", "inches", "  mm ", "cm"])


@given(signs, numbers, units)
def test_what_the_loader_takes_for_a_length_is_one_for_an_editor(sign: str, number: str, unit: str) -> None:
    text = f" {sign}{number}{unit}"
    assert parse_length(text, Unit.INCH)
    assert re.search(SCHEMA["$defs"]["Length"]["pattern"], text)


@given(numbers, st.sampled_from(["x", " x ", "×", " × "]), numbers, units)
def test_what_the_loader_takes_for_a_size_is_one_for_an_editor(
    width: str, times: str, height: str, unit: str
) -> None:
    text = f"{width}{times}{height}{unit}"
    assert parse_size(text, Unit.INCH)
    assert re.search(SCHEMA["$defs"]["Size"]["pattern"], text)


def refusal(text: str, unit: Unit) -> str | None:
    """The first words of what the loader says against a length."""
    try:
        parse_length(text, unit)
    except ValueError as error:
        return " ".join(str(error).split()[:2])
    return None


@given(st.from_regex(SCHEMA["$defs"]["Length"]["pattern"]), st.sampled_from(list(Unit)))
def test_what_an_editor_takes_for_a_length_is_one_but_for_its_fraction(text: str, unit: Unit) -> None:
    assert refusal(text, unit) in (None, "a fraction")
