"""No input whatever ends in a traceback: only the errors that are meant for the user come out."""

from __future__ import annotations

import contextlib
import random
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from booklet.kit.errors import BookletError, SpecError, problem_text
from booklet.kit.load import load_kit, parse_kit
from tests.kit.samples import FOLDER, HARBOUR, problems

SAMPLE: Any = yaml.load(HARBOUR, Loader=yaml.BaseLoader)

TYPED = "on|place|row|6 1/4|1/0|-3|nan|1e999999999|#fff|yes|x x x||<<|~|12 x 12|top|harbour|🦀|a\u202eb|\x85"
words = st.sampled_from([*TYPED.split("|"), "9" * 5000, "ß" * 70])
scalars = st.none() | st.booleans() | st.integers() | st.floats() | words | st.text(max_size=20)
structures = st.recursive(
    scalars,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(words, inner, max_size=4),
    max_leaves=20,
)


def survives(text: str) -> None:
    """Load a text; whatever is wrong with it must be a problem with a line within it."""
    for problem in problems(text):
        assert problem.line is not None
        assert 1 <= problem.line <= len(text.splitlines()) + 1
        assert problem.found
        assert problem.expected
        assert problem_text(problem).isprintable()


@given(st.binary(max_size=300))
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_bytes(tmp_path: Path, data: bytes) -> None:
    file = tmp_path / "kit.yaml"
    file.write_bytes(data)
    with contextlib.suppress(BookletError):
        load_kit(file)


@given(st.text(alphabet=" \n\t:-[]{}#&*!|>'\"%@`,?<~ab1/0é", max_size=120))
@settings(max_examples=400)
def test_any_signs_of_yaml(text: str) -> None:
    survives(text)


@given(structures)
@settings(max_examples=200)
def test_any_structure(data: Any) -> None:
    survives(yaml.safe_dump(data, allow_unicode=True))


def places(data: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """The way to every value of the sample."""
    below = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    return [path, *(place for key, value in below for place in places(value, (*path, key)))]


PLACES = [place for place in places(SAMPLE) if place]


def mutated(data: Any, path: tuple[Any, ...], change: str, other: Any) -> Any:
    """A copy of the sample with the value at `path` replaced, dropped, or its key renamed."""
    if len(path) > 1:
        copy = dict(data) if isinstance(data, dict) else list(data)
        copy[path[0]] = mutated(data[path[0]], path[1:], change, other)
        return copy
    if isinstance(data, list):
        return [*data[: path[0]], *([other] if change == "replace" else []), *data[path[0] + 1 :]]
    renamed = {"rename": str(other)}.get(change, path[0])
    changed = {renamed if key == path[0] else key: value for key, value in data.items()}
    if change == "replace":
        changed[path[0]] = other
    elif change == "drop":
        del changed[path[0]]
    return changed


CHANGES = st.tuples(st.sampled_from(PLACES), st.sampled_from(["replace", "drop", "rename"]), structures)


@given(CHANGES)
@settings(max_examples=100)
def test_any_change_of_a_whole_spec(change: tuple[tuple[Any, ...], str, Any]) -> None:
    survives(yaml.safe_dump(mutated(SAMPLE, *change), allow_unicode=True, sort_keys=False))


@pytest.mark.thorough
@given(CHANGES)
@settings(max_examples=400)
def test_any_of_many_changes_of_a_whole_spec(change: tuple[tuple[Any, ...], str, Any]) -> None:
    survives(yaml.safe_dump(mutated(SAMPLE, *change), allow_unicode=True, sort_keys=False))


@given(st.integers(0, len(HARBOUR)), st.integers(0, 60), st.text(max_size=5))
@settings(max_examples=300)
def test_any_cut_through_a_whole_spec(start: int, length: int, instead: str) -> None:
    with contextlib.suppress(BookletError):
        parse_kit(HARBOUR[:start] + instead + HARBOUR[start + length :], "kit.yaml", FOLDER)


@pytest.mark.parametrize("seed", range(20))
def test_any_order_of_the_lines(seed: int) -> None:
    lines = HARBOUR.splitlines()
    random.Random(seed).shuffle(lines)
    survives("\n".join(lines))


def test_a_spec_full_of_mistakes_is_reported_briefly() -> None:
    text = "title: [" + ", ".join(["x"] * 1000) + "]\n" + "".join(f"key{n}: x\n" for n in range(1000))
    with pytest.raises(SpecError) as caught:
        parse_kit(text, "kit.yaml", FOLDER)
    assert len(caught.value.problems) == 100
    assert caught.value.more > 900
    assert len(str(caught.value).splitlines()) == 41
    assert str(caught.value).endswith("more")
