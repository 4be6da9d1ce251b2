"""Work at the cutting table as it is typed among the cuts of a sheet."""

from __future__ import annotations

from typing import Any

import jsonschema
import pytest

from booklet.kit.schema import json_schema
from booklet.kit.sheet import CutStep
from booklet.kit.table_work import PunchWork, RoundWork, SnipWork, TrimWork
from tests.kit.test_limits import as_read, load, spec, told

CUT = {"at": 6, "leaves": ["tag", "strip"]}
STEPS: list[Any] = [
    CUT,
    {"snip": "strip", "at": 5, "leaves": ["a", "b"], "measured_from": "top", "tip": "Slowly."},
    {"trim_round": "tag", "size": "5 x 11 in", "outline": "the cloud"},
    {"round": "tag", "radius": "1/4 in", "corners": "all"},
    {"punch": "tag", "hole": "1/8 in", "left": 1, "top": 1},
]


def with_steps(*steps: Any) -> dict[str, Any]:
    return spec(sheets=[{"id": "sand", "paper": "plain", "cuts": list(steps)}])


def test_cuts_and_other_work_stand_in_one_list_in_their_order() -> None:
    (sheet,) = load(with_steps(*STEPS)).sheets
    assert sheet.cuts is not None
    assert [type(step) for step in sheet.cuts] == [CutStep, SnipWork, TrimWork, RoundWork, PunchWork]
    assert [step.at[0] for step in sheet.cut_steps] == [6]


def test_an_editor_knows_every_kind_of_step() -> None:
    validator = jsonschema.Draft202012Validator(json_schema())
    assert list(validator.iter_errors(as_read(with_steps(*STEPS)))) == []
    for wrong in ({"punch": "tag", "on": "tag"}, {"snip": "tag"}, {"leaves": ["a", "b"]}):
        assert list(validator.iter_errors(as_read(with_steps(wrong))))


@pytest.mark.parametrize(
    ("step", "message"),
    [
        (
            {"round": "tag", "punch": "tag"},
            "found punch and round in one step, expected one of them, or two steps",
        ),
        (
            {"punch": "tag", "hole": "1/4", "on": "tag"},
            'the unknown key "on", expected punch, hole, left, right, top, bottom, corners, shape or tip',
        ),
        ({"snip": "tag", "at": 1}, 'found no key "leaves", expected leaves: a list'),
        ({"leaves": ["a", "b"]}, 'found no key "at", expected at: a list'),
        ("tag", "expected a step with exactly one of: at, snip, trim_round, round, punch"),
        ({"snip": "tag", "at": 1, "leaves": ["a", "b"], "take": "tag"}, 'found the unknown key "take"'),
    ],
)
def test_what_no_step_is_is_told_with_what_one_is(step: Any, message: str) -> None:
    said = told(with_steps(CUT, step))
    assert "sheets › sand › cuts › 2: found" in said
    assert message in said
