"""Of any kit that checks comes a companion that tells all of its booklet, with the views that it needs."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.content.document import document
from booklet.content.words.language import ENGLISH
from booklet.kit.load import parse_kit
from booklet.placing.resolved import ResolvedKit, resolve_kit
from booklet.web.companion import make_companion
from booklet.web.document import sections_of
from tests.content.specs import SNIPPED
from tests.content.walking import lines_of
from tests.finished.kits import LONG_NAMES, PLAIN
from tests.templates.tricky import TRICKY
from tests.web.reading import Page, plain, read_page

HARBOUR = (Path(__file__).parents[1] / "kit" / "specs" / "harbour.yaml").read_text(encoding="utf-8")
# Nothing to cut: a page of ready-cut pieces alone.
UNCUT = """
title: Ready
publisher: Harbour Paper
sheet: 12 x 12
papers: {sand: {front: {colours: ["#f1e7d6"]}}}
sheets: [{id: sand, paper: sand}]
ready: [{name: mat, size: 4 x 6, paper: sand, count: 1}]
layouts: [{id: page, pocket: 1, base: sand, steps: [{place: mat, left: 1, top: 1}]}]
"""
# More layouts than the front cover can name: the last of its tickets say nothing.
MANY_LAYOUTS = (
    UNCUT.replace("count: 1", "count: 10").partition("layouts:")[0]
    + "layouts:\n"
    + "".join(
        f"  - {{id: page-{number}, pocket: {number}, base: sand, steps: [{{place: mat, left: 1, top: 1}}]}}\n"
        for number in range(1, 11)
    )
)
SPECS = {
    "harbour": HARBOUR,
    "long names": LONG_NAMES,
    "many layouts": MANY_LAYOUTS,
    "plain": PLAIN,
    "snipped": SNIPPED,
    "tricky": TRICKY,
    "uncut": UNCUT,
}


def companion_of(spec: str) -> tuple[ResolvedKit, Page]:
    resolved = resolve_kit(parse_kit(spec, "kit.yaml", Path()))
    return resolved, read_page(make_companion(resolved).html)


@pytest.mark.parametrize("spec", SPECS.values(), ids=SPECS)
def test_every_sentence_is_there_and_the_page_is_whole(spec: str) -> None:
    resolved, page = companion_of(spec)
    alts = {plain(value) for value in page.all_of("aria-label")}
    sections = sections_of(document(resolved, ENGLISH))
    lines = {plain(said) for section in sections for said in lines_of(section)}
    assert [said for said in lines if said not in page.text and said not in alts] == []
    assert page.faults == []
    ids = page.all_of("id")
    assert len(ids) == len(set(ids))


def test_a_kit_without_cuts_has_no_view_for_them() -> None:
    _, page = companion_of(UNCUT)
    assert page.all_of("data-view") == ["start", "pieces", "pages", "booklet", "settings"]
    assert page.all_of("data-walk") == ["pages"]
    assert "#/cut" not in page.all_of("href")
