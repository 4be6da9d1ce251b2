"""Whoever cannot see, cannot point, or sees little: checked by machine, and by the keyboard alone."""

from __future__ import annotations

import os
import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

from booklet.kit.load import parse_kit
from booklet.placing.resolved import resolve_kit
from booklet.web.companion import make_companion
from tests.browser.companion import Companion
from tests.browser.opened import TABLET, Open, chromium_alone
from tests.finished.kits import LONG_NAMES

_AXE = os.environ.get("AXE_CORE")
PHONE = {"width": 390, "height": 844}
# The headings of which a part lies beyond the window.
_CUT_OFF = (
    "[...document.querySelectorAll('h1, h2, h3')]"
    ".filter((one) => one.checkVisibility() && !one.matches('.aloud'))"
    ".filter((one) => one.getBoundingClientRect().right > innerWidth"
    " || one.scrollWidth > one.clientWidth + 1)"
    ".map((one) => one.innerText)"
)
needs_axe = pytest.mark.skipif(_AXE is None, reason="AXE_CORE names no axe.min.js")
STATES = [
    "#/start",
    "#/cut/sheet-station",
    "#/cut/cut-station-2",
    "#/cut/cut-station-1%2F1",
    "#/cut/cut-iron-1%2F3",
    "#/pieces",
    "#/pages/layout-all-aboard",
    "#/pages/layout-all-aboard%2F5",
    "#/settings",
]
STATES_OF_ROOF_GARDEN = ["#/start", "#/cut", "#/pieces", "#/pages", "#/settings"]


@needs_axe
@pytest.mark.parametrize("size", [TABLET, PHONE], ids=["tablet", "phone"])
def test_axe_finds_nothing_in_any_state(open_companion: Open, size: dict[str, int]) -> None:
    companion = open_companion("roof-garden", at="#/start", reduced_motion="reduce", viewport=size)
    for state in (*STATES_OF_ROOF_GARDEN, "#/booklet"):
        companion.to(state)
        assert violations(companion) == [], state


@needs_axe
def test_axe_finds_nothing_in_large_type(open_companion: Open) -> None:
    companion = open_companion(at="#/settings", reduced_motion="reduce")
    companion.page.check("#large-type")
    companion.page.check("input[name=unit][value=other]")
    for state in STATES:
        companion.to(state)
        assert violations(companion) == [], state


def violations(companion: Companion) -> list[str]:
    """What the rules of WCAG 2.2 A and AA and good practice find, as far as a machine can."""
    assert _AXE is not None
    # A browser lays out what is far away when it comes near; the rules measure it as it lies.
    near = "#booklet > section { content-visibility: visible !important }"
    companion.page.evaluate("rule => document.styleSheets[0].insertRule(rule)", near)
    companion.page.evaluate(Path(_AXE).read_text(encoding="utf-8"))
    tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
    found: dict[str, Any] = companion.page.evaluate("tags => axe.run({ runOnly: tags })", tags)
    return [
        f"{one['id']} ({one['impact']}): {node['target']} {node['html'][:120]}"
        for one in found["violations"]
        for node in one["nodes"][:3]
    ]


def test_all_is_done_by_the_keyboard_alone(open_companion: Open) -> None:
    companion = open_companion()
    tab_to(companion, "a.way[href='#/cut']")
    companion.press("Enter")
    tab_to(companion, "[data-walk=cut] [data-do=next]")
    companion.press("Enter")
    assert companion.key == "cut-carriage-1/1"
    tab_to(companion, "[data-walk=cut] [data-do=done]", "Shift+Tab")
    companion.press("Space")
    companion.wait_for("cut-carriage-1/2")
    assert "cut-carriage-1/1" in companion.ticks


@chromium_alone
def test_the_focus_stays_on_the_bar_when_a_button_goes(open_companion: Open) -> None:
    companion = open_companion(at="#/cut/cut-carriage-1%2F2", reduced_motion="reduce")
    companion.page.focus("[data-walk=cut]:visible [data-do=done]")
    companion.press("Space")
    assert companion.key == "cut-carriage-2"
    focused = "document.activeElement.dataset.do"
    assert companion.page.evaluate(focused) == "next"
    companion.to("#/cut/all-cut")
    companion.press("ArrowLeft")
    companion.press("ArrowRight")
    assert companion.page.evaluate(focused) == "back"


def tab_to(companion: Companion, what: str, key: str = "Tab") -> None:
    for _ in range(80):
        companion.press(key)
        if companion.page.evaluate("what => document.activeElement.matches(what)", what):
            return
    raise AssertionError(f"{what} is not reached")


def test_what_has_the_focus_is_seen(open_companion: Open) -> None:
    companion = open_companion(at="#/cut")
    for _ in range(25):
        companion.press("Tab")
        if companion.page.evaluate("document.activeElement === document.body"):
            break  # all have been gone through
        style = companion.page.evaluate(
            "(() => { const style = getComputedStyle(document.activeElement);"
            " return [style.outlineStyle, parseFloat(style.outlineWidth)]; })()"
        )
        assert style[0] != "none"
        assert style[1] >= 2


def test_targets_are_large_enough_for_a_finger(open_companion: Open) -> None:
    companion = open_companion(viewport=PHONE)
    for state in STATES:
        companion.to(state)
        small = companion.page.evaluate(
            "[...document.querySelectorAll('button, input, #head a')]"
            ".filter((each) => each.checkVisibility())"
            ".map((each) => [each.outerHTML.slice(0, 80), each.getBoundingClientRect()])"
            ".filter(([, box]) => box.width && (box.width < 24 || box.height < 24)).map(([html]) => html)"
        )
        assert small == [], state


def test_nothing_is_wider_than_a_telephone(open_companion: Open) -> None:
    companion = open_companion(viewport=PHONE)
    for state in (*STATES, "#/booklet"):
        companion.to(state)
        assert companion.page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"], state


def test_long_words_are_broken_on_a_telephone(open_companion: Open) -> None:
    resolved = resolve_kit(parse_kit(LONG_NAMES, "long.yaml", Path()))
    companion = open_companion("long", html=make_companion(resolved).html, viewport=PHONE)
    for state in ("#/start", "#/cut", "#/pieces", "#/pages", "#/kit", "#/settings", "#/booklet"):
        companion.to(state)
        assert companion.page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"], state
        assert companion.page.evaluate(_CUT_OFF) == [], state


def test_what_is_done_is_heard_as_well(open_companion: Open) -> None:
    companion = open_companion(at="#/cut/cut-carriage-1%2F1")
    leap = companion.page.locator(".view:visible [data-leap]").first
    expect(leap).not_to_have_accessible_name(re.compile("Done$"))
    while companion.key.startswith(("cut-carriage", "sheet-carriage")):
        before = companion.key
        done = companion.page.locator(".view:visible [data-do=done]")
        companion.do("done" if done.is_visible() else "next")
        companion.page.wait_for_function(
            "key => decodeURIComponent(document.querySelector("
            "'.view:not([hidden]) .card:not([hidden])').dataset.key) !== key",
            arg=before,
        )
    expect(leap).to_have_accessible_name(re.compile("Done$"))


def test_words_that_do_not_fit_are_moved_by_keys(open_companion: Open) -> None:
    companion = open_companion(at="#/pages/layout-all-aboard", viewport={"width": 844, "height": 390})
    deck = companion.page.locator(".view:visible .deck")
    deck.focus()
    key = companion.key
    companion.press("PageDown")
    companion.page.wait_for_function(
        "() => document.querySelector('.view:not([hidden]) .deck').scrollTop > 0"
    )
    assert companion.key == key
