"""Papers, supplies and layouts of one title are told before nobody can tell them apart."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from booklet.proof.findings import kit_findings
from booklet.proof.titles import check_titles
from tests.content.specs import DEMOS, demo
from tests.drawing.looks import resolved_kit
from tests.kits import layout, make_kit, sheet

TWO = [layout("one", id="low tide"), layout("two", id="ebb")]
BASES = (sheet(id="one"), sheet(id="two"))


def told(**more: Any) -> list[tuple[tuple[str | int, ...], str]]:
    kit = make_kit(*BASES, **{"layouts": TWO, **more})
    return [(finding.where, finding.found) for finding in check_titles(kit)]


def layouts(*titles: str | None) -> list[dict[str, Any]]:
    return [{**one, "title": title} for one, title in zip(TWO, titles, strict=True)]


@pytest.mark.parametrize(
    ("titles", "shown"),
    [
        (("Gran's page, 4 x 6", "Gran's page, 4 x 6"), "Gran's page, 4 x 6"),
        (("Gran's page", "Gran’s Page"), "Gran’s Page"),
        ((None, "Low Tide"), "Low Tide"),
    ],
)
def test_two_layouts_of_one_title_are_found(titles: tuple[str | None, ...], shown: str) -> None:
    found = f'the layouts "low tide" and "ebb" are both printed as "{shown}"'
    assert told(layouts=layouts(*titles)) == [(("layouts", 1), found)]


def test_layouts_of_titles_that_differ_are_not() -> None:
    assert told(layouts=layouts("Gran's page, 4 x 6", "Gran's page, 4 x 7")) == []


@pytest.mark.parametrize(("title", "count"), [("Sand", 1), ("Sand card", 0)])
def test_papers_and_supplies_as_well(title: str, count: int) -> None:
    papers: Mapping[str, Any] = {
        "plain": {"title": title, "front": {"colours": ["#f4efe6"]}},
        "sand": {"front": {"colours": ["#efe3cf"]}},
    }
    supplies = [{"id": "sand", "kind": "ink"}, {"id": "dark", "kind": "ink", "title": title}]
    assert len(told(papers=papers, supplies=supplies)) == 2 * count


def test_a_sheet_may_be_called_by_the_paper_that_another_is_of() -> None:
    assert told() == []


@pytest.mark.parametrize("name", DEMOS)
def test_no_title_of_a_demo_is_found(name: str) -> None:
    assert list(check_titles(demo(name).kit)) == []


def test_it_is_among_the_findings_of_a_kit() -> None:
    kit = resolved_kit(make_kit(*BASES, layouts=layouts("Ebb", "Ebb")))
    assert [finding.id for finding in kit_findings(kit)] == ["title-twice"]
