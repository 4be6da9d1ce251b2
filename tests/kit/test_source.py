"""From a place in the model back to the line that was typed."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.kit.finding import Severity, SpecPath, note, warning
from booklet.kit.source import Source, describe
from booklet.kit.tree import Keyed, Scalar
from tests.kit.samples import HARBOUR, parsed

SOURCE = parsed(HARBOUR).source


@pytest.mark.parametrize(
    ("path", "typed"),
    [
        (("title",), "title: Harbour days"),
        (("papers", "deep-sea"), "  deep-sea:"),
        (("papers", "shingle-print", "front", "borders", 0, "width"), "- {edge: left, width: 1 1/4"),
        (("sheets", 0), "  - id: shingle"),
        (("sheets", 0, "cuts", 0, "at", 1), "- at: [8, 2 1/2]"),
        (("sheets", 0, "cuts", 1, "at"), "        at: 7"),
        (("sheets", 0, "cuts", 1, "at", 0), "        at: 7"),
        (("layouts", 0, "base", "piece"), "    base: base"),
        (("layouts", 0, "steps", 4, "optional"), "        optional: true"),
        (("pocket_tips", 1), "pocket_tips: {1: Holds"),
    ],
)
def test_a_place_is_found_in_its_line(path: SpecPath, typed: str) -> None:
    assert typed in HARBOUR.splitlines()[SOURCE.line(path) - 1]


@pytest.mark.parametrize(
    ("path", "ancestor"),
    [
        (("sheets", 1, "cuts", 0, "at"), ("sheets", 1)),
        (("sheets", 99, "cuts"), ("sheets",)),
        (("sheets", "shingle"), ("sheets",)),
        (("nowhere", 3), ()),
        (("title", "x", 3), ("title",)),
    ],
)
def test_what_was_not_typed_is_found_at_what_it_would_stand_in(path: SpecPath, ancestor: SpecPath) -> None:
    assert SOURCE.spot(path) == SOURCE.spot(ancestor)


def test_the_column_is_where_the_key_begins() -> None:
    spot = SOURCE.spot(("ready", 0, "paper"))
    assert HARBOUR.splitlines()[spot.line - 1][spot.column - 1 :].startswith("paper: deep-sea")


@pytest.mark.parametrize(
    ("path", "words"),
    [
        ((), ""),
        (("sheets", 0, "cuts", 1, "at", 0), "sheets › shingle › cuts › 2 › at"),
        (("layouts", 0, "steps", 1, "on"), "layouts › low-tide › steps › mat › on"),
        (("sheets", 2, "elements", 1), "sheets › 1 › elements › gull"),
        (("sheets", 7, "cuts"), "sheets › 8 › cuts"),
        (("layouts", 0, "base", "piece"), "layouts › low-tide › base"),
    ],
)
def test_a_place_is_called_what_the_file_calls_it(path: SpecPath, words: str) -> None:
    assert SOURCE.words(path) == words


def test_what_was_typed_is_kept_as_typed() -> None:
    top = SOURCE.node(("sheets", 2, "elements", 1, "top"))
    assert isinstance(top, Scalar)
    assert top.text == "0.50"
    assert isinstance(SOURCE.node(("sheets", 0)), Keyed)
    assert SOURCE.node(("nowhere",)) is None


def test_an_empty_source_points_to_its_first_line() -> None:
    assert Source("kit.yaml", None, ()).line(("sheets", 0)) == 1


def test_a_finding_is_described_as_a_problem_is() -> None:
    finding = warning(
        "reading-off-mark",
        ("sheets", 0, "cuts", 0, "at", 1),
        "2 1/2 is not on a mark",
        "Choose a mark of 1/8.",
    )
    line = SOURCE.line(finding.where)
    assert describe(finding, SOURCE) == (
        f"harbour.yaml:{line}: warning reading-off-mark: 2 1/2 is not on a mark. Choose a mark of 1/8."
    )
    assert finding.severity is Severity.WARNING


def test_a_finding_without_a_cure_ends_with_what_was_found() -> None:
    told = describe(note("two-spreads", (), "Two spreads.", ""), SOURCE)
    assert told == "harbour.yaml:1: note two-spreads: Two spreads."


def test_the_name_in_outputs_is_without_a_folder() -> None:
    assert Source("june/kit.yaml", None, ()).file_name == "kit.yaml"
    assert Source(str(Path("kit.yaml")), None, ()).file_name == "kit.yaml"
