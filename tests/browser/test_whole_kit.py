"""The whole kit in the companion: one thing followed through the picture, by pointing and by keys."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from playwright.sync_api import expect

from booklet.kit.load import load_kit
from booklet.placing.resolved import resolve_kit
from tests.browser.companion import Companion
from tests.browser.opened import Open
from tests.browser.test_accessible import PHONE, needs_axe, violations

SPEC = Path(__file__).parents[2] / "kit_specs" / "hill-line.yaml"


def followed(companion: Companion) -> int:
    return companion.page.locator("#view-kit .strand:not(.faded)").count()


def told(companion: Companion) -> list[str]:
    return companion.page.locator("#view-kit [data-piece]:visible").all_inner_texts()


def test_each_pocket_is_followed_to_all_that_lies_in_it(open_companion: Open) -> None:
    companion = open_companion(at="#/kit")
    filed = Counter(entry.pocket for entry in resolve_kit(load_kit(SPEC)).ledger.entries if entry.pocket)
    assert len(filed) == 5
    for pocket, count in filed.items():
        companion.page.locator(f"#view-kit [data-follow='pocket-{pocket}']").click()
        assert followed(companion) == len(told(companion)) == count
        assert all(f"in pocket {pocket}," in said for said in told(companion))


def test_what_is_pointed_at_is_followed_and_let_go(open_companion: Open) -> None:
    companion = open_companion(at="#/kit")
    everything = followed(companion)
    node = companion.page.locator("#view-kit .node.layout-3")
    node.scroll_into_view_if_needed()
    node.hover()
    assert 0 < followed(companion) < everything
    companion.page.mouse.move(2, 2)
    assert followed(companion) == everything
    node.click()
    companion.page.mouse.move(2, 2)
    assert 0 < followed(companion) < everything
    node.click()
    companion.page.mouse.move(2, 2)
    assert followed(companion) == everything


def test_it_is_followed_by_keys_alone(open_companion: Open) -> None:
    companion = open_companion(at="#/kit")
    everything = followed(companion)
    companion.page.locator("#view-kit [data-follow]").first.focus()
    companion.page.keyboard.press("Tab")
    companion.page.keyboard.press("Enter")
    button = companion.page.locator("#view-kit [data-follow='source-sheets-0']")
    expect(button).to_have_attribute("aria-pressed", "true")
    assert 0 < followed(companion) < everything
    companion.page.keyboard.press("Escape")
    expect(button).to_have_attribute("aria-pressed", "false")
    assert followed(companion) == everything


def test_a_tablet_shows_all_of_the_picture(open_companion: Open) -> None:
    for width in (768, 1024, 1180):
        companion = open_companion(at="#/kit", viewport={"width": width, "height": 800})
        flow = companion.page.locator(".flow")
        assert flow.evaluate("flow => flow.scrollWidth") == flow.evaluate("flow => flow.clientWidth"), width


@needs_axe
@pytest.mark.parametrize("size", [None, PHONE], ids=["tablet", "phone"])
def test_axe_finds_nothing_in_the_picture(open_companion: Open, size: dict[str, int] | None) -> None:
    companion = open_companion(at="#/kit", reduced_motion="reduce", **({"viewport": size} if size else {}))
    companion.page.locator("#view-kit [data-follow='layout-3']").click()
    companion.page.evaluate("scrollTo(0, 0)")  # nothing lies half under the head
    assert violations(companion) == []
