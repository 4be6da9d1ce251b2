"""Ticks: kept, shown wherever a piece is named, and cleared; and what is searched for."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.browser.companion import Companion
from tests.browser.opened import Open


def test_a_tick_of_a_piece_shows_in_its_cut_its_pocket_and_its_page(open_companion: Open) -> None:
    companion = open_companion(at="#/pieces")
    page = companion.page
    page.fill("#search", "1B")
    page.check("#view-pieces li:visible input")
    page.reload()
    assert companion.ticks == {"1B"}
    for place in ("#view-pages", "#booklet", "#view-cut-left", "#view-cut-right"):
        boxes = page.locator(f"{place} input[data-ticks~='1B']")
        assert boxes.count() >= 1
        states = boxes.evaluate_all("boxes => boxes.map((box) => box.checked || box.indeterminate)")
        assert all(states), place


def test_what_is_missing_for_a_page_is_told(open_companion: Open) -> None:
    companion = open_companion(at="#/pages/layout-all-aboard")
    missing = companion.card.locator(".missing")
    boxes = companion.card.locator(".pieces input")
    count = boxes.count()
    assert missing.inner_text() == f"Missing: {count}"
    boxes.nth(0).check()
    assert missing.inner_text() == f"Missing: {count - 1}"
    for number in range(1, count):
        boxes.nth(number).check()
    assert missing.inner_text() == "All there"
    boxes.nth(0).uncheck()
    assert missing.inner_text() == "Missing: 1"


def test_progress_counts_what_is_done(open_companion: Open) -> None:
    companion = open_companion(at="#/cut/cut-carriage-1%2F1")
    companion.do("done")
    companion.wait_for("cut-carriage-1/2")
    companion.view("start")
    said = companion.page.locator("[data-progress-said=cut]").inner_text()
    assert said.startswith("1 / ")
    assert companion.page.locator("a.way[href='#/cut'] b:visible").inner_text() == "Go on cutting"


def test_ticks_are_cleared_only_when_it_is_confirmed(open_companion: Open) -> None:
    companion = open_companion(at="#/cut/cut-carriage-1%2F1")
    companion.do("done")
    companion.view("settings")
    companion.page.click("#clear")
    companion.page.click("#keep")
    assert companion.ticks
    companion.page.click("#clear")
    companion.page.click("#clear-now")
    assert companion.ticks == set()
    assert companion.page.locator("#cleared").is_visible()
    assert companion.page.locator("input[type=checkbox][data-ticks]:checked").count() == 0


def test_ticks_of_another_kit_are_its_own(open_companion: Open) -> None:
    companion = open_companion(at="#/cut/cut-carriage-1%2F1")
    companion.do("done")
    keys = companion.page.evaluate("Object.keys(localStorage)")
    other = open_companion("roof-garden")
    assert other.page.evaluate("Object.keys(localStorage)") != keys
    assert other.ticks == set()


def test_a_box_of_the_booklet_is_kept_as_well(open_companion: Open) -> None:
    companion = open_companion(at="#tools")
    boxes = companion.page.locator("#tools .items.tick input")
    boxes.nth(1).check()
    companion.page.reload()
    assert boxes.nth(1).is_checked()
    assert not boxes.nth(0).is_checked()


def test_pieces_are_found_by_name_label_and_page(open_companion: Open) -> None:
    companion = open_companion(at="#/pieces")

    def found(words: str) -> list[str]:
        companion.page.fill("#search", words)
        return seen(companion)

    assert found("left canopy") == ["2A left canopy"]
    assert found("2a") == ["2A left canopy"]
    assert len(found("all aboard")) > 8
    assert found("aboard rail") == ["3D rail"]
    assert found("nobody has this") == []
    assert companion.page.locator("#nothing-found").is_visible()
    companion.page.fill("#search", "left canopy")
    companion.page.check("#view-pieces li:visible input")
    companion.page.check("#only-missing")
    assert companion.page.locator("#view-pieces li:visible").count() == 0
    companion.page.fill("#search", "")
    assert "2A left canopy" not in seen(companion)


def seen(companion: Companion) -> list[str]:
    """The pieces that are shown, with plain spaces."""
    return [
        " ".join(said.split())
        for said in companion.page.locator("#view-pieces li:visible .said").all_inner_texts()
    ]


def test_a_piece_leads_to_its_cut_and_to_its_page(open_companion: Open) -> None:
    companion = open_companion(at="#/pieces")
    companion.page.fill("#search", "2A")
    companion.page.click("#view-pieces li:visible a >> nth=0")
    assert companion.key == "cut-station-1/1"
    companion.view("pieces")
    companion.page.click("#view-pieces li:visible a >> nth=1")
    assert companion.key == "layout-all-aboard"


def test_a_browser_that_keeps_nothing_says_so_and_ticks_all_the_same(open_companion: Open) -> None:
    companion = open_companion()
    refuse = "Object.defineProperty(window, 'localStorage', { get() { throw new Error('refused'); } })"
    companion.page.add_init_script(refuse)
    companion.go("#/settings")
    assert companion.page.locator("#not-kept").is_visible()
    companion.go("#/cut/cut-carriage-1%2F1")
    companion.do("done")
    companion.wait_for("cut-carriage-1/2")
    companion.press("ArrowLeft")
    assert companion.card.locator("input").is_checked()


def test_two_windows_of_a_companion_keep_both_their_ticks(open_companion: Open) -> None:
    one = open_companion(at="#/pieces")
    other = Companion(one.page.context.new_page(), one.file)
    other.go("#/pieces")
    box = "#view-pieces li input[data-ticks='{}']"
    other.page.check(box.format("1B"))
    expect(one.page.locator(box.format("1B"))).to_be_checked()
    one.view("cut")
    one.do("next")
    one.view("pieces")
    one.page.check(box.format("1C"))
    other.page.reload()
    assert other.ticks == {"1B", "1C"}
    other.page.uncheck(box.format("1B"))
    one.page.reload()
    assert one.ticks == {"1C"}


def test_a_cut_that_is_not_done_after_all_is_taken_back(open_companion: Open) -> None:
    companion = open_companion(at="#/cut/cut-carriage-1%2F1")
    done = companion.page.locator(".view:visible [data-do=done]")
    expect(done).to_have_attribute("aria-pressed", "false")
    companion.do("done")
    companion.wait_for("cut-carriage-1/2")
    companion.do("back")
    expect(done).to_have_attribute("aria-pressed", "true")
    companion.do("done")
    expect(done).to_have_attribute("aria-pressed", "false")
    assert companion.key == "cut-carriage-1/1"
    assert companion.ticks == set()
    # By the keyboard one goes on past what is done.
    companion.press("Enter")
    companion.wait_for("cut-carriage-1/2")


def test_a_piece_is_not_found_by_how_its_tick_is_kept(open_companion: Open) -> None:
    companion = open_companion("roof-garden", at="#/pieces")
    rows = companion.page.locator("#view-pieces li:visible")
    companion.page.fill("#search", "chalk mat")
    assert rows.count() > 0
    companion.page.fill("#search", "chalk%20mat")
    assert rows.count() == 0
