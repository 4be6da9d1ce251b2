"""`booklet view` in a real browser: a spec is edited, broken, mended, renamed and deleted while it runs."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from http.client import HTTPConnection
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from urllib.parse import urlsplit

import pytest

pytest.importorskip("playwright.sync_api")
from playwright.sync_api import Browser, Locator, Page, Request, Route, expect

from booklet.cli.starter import STARTER_SPEC
from tests.cli.runs import ROOT, files_in
from tests.view.looking import a_spec, listening

RETITLED = STARTER_SPEC.replace("title: First kit", "title: Second kit")
RECUT = STARTER_SPEC.replace("at: [9, 2]", "at: [9 1/2, 2]")
# Seven more layouts, which are many more pages.
PHOTO = "steps: [{photo: 4 x 6, left: 1, top: 1}]"
MORE = [f"  - {{id: page-{at}, pocket: {at}, base: {{paper: plain-sand}}, {PHOTO}}}" for at in range(2, 9)]
WITH_PHOTOS = "\n".join([STARTER_SPEC.rstrip(), *MORE, ""])
BROKEN = STARTER_SPEC.replace("sheets:", "sheetz:", 1)

Look = Callable[[], Page]


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    return a_spec(tmp_path / "kit")


@contextmanager
def showing(spec: Path, port: int = 0) -> Iterator[str]:
    """The address of the program that shows a spec; it ends by Ctrl-C."""
    process = subprocess.Popen(
        [sys.executable, "-m", "booklet", "view", str(spec), "--port", str(port)],
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    yield process.stdout.readline().split()[0]
    process.send_signal(signal.SIGINT)
    said, complained = process.communicate(timeout=60)
    assert (process.returncode, said, complained) == (0, "", "")


@pytest.fixture
def address(spec: Path) -> Iterator[str]:
    """The address of the program that shows the spec; it leaves nothing behind."""
    before = files_in(spec.parent)
    with showing(spec) as given:
        yield given
    assert set(files_in(spec.parent)) <= {*before, "old.yaml"}


@pytest.fixture
def look(browser: Browser, address: str) -> Iterator[Look]:
    """Opens the look in a window of its own; what the page complains of, or asks for elsewhere, fails."""
    contexts, complaints = [], list[str]()

    def open_one() -> Page:
        context = browser.new_context(viewport={"width": 1300, "height": 850})
        contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.on("console", lambda said: complaints.append(said.text) if said.type == "error" else None)
        page.on("request", lambda asked: complaints.append(asked.url) if not ours(asked, address) else None)
        page.goto(address)
        expect(page.locator("#status")).to_have_text("Up to date")
        expect(page.locator("[data-number='1'] img")).to_be_visible()
        return page

    yield open_one
    for context in contexts:
        context.close()
    assert complaints == []


def ours(asked: Request, address: str) -> bool:
    """Whether it asks the program, or for a picture that lies in what the program has given."""
    at = urlsplit(asked.url)
    return at.scheme == "data" or at.netloc == urlsplit(address).netloc


def digest(page: Page, number: int) -> str:
    """What is seen of a page, once it is painted."""
    painted = page.locator(f"[data-number='{number}'][data-digest]")
    expect(painted).to_have_count(1)
    return painted.get_attribute("data-digest") or ""


def number_of(page: Page, title: str) -> int:
    """The number of the first page of this title, as its picture is named."""
    return int(
        page.evaluate(
            "(title) => fetch('events').then(async (answer) => {"
            " const reader = answer.body.getReader(); let text = '';"
            " while (!text.includes('event: state') || !text.endsWith('\\n\\n'))"
            "   text += new TextDecoder().decode((await reader.read()).value);"
            " await reader.cancel();"
            " const state = JSON.parse(text.split('event: state\\ndata: ')[1]);"
            " return state.pages.find((page) => page.title.includes(title)).number; })",
            title,
        )
    )


def test_a_save_shows_and_what_it_changed_is_marked(look: Look, spec: Path) -> None:
    page = look()
    before = digest(page, 1)
    spec.write_text(RETITLED, encoding="utf-8")
    expect(page.locator("h1")).to_have_text("Second kit")
    expect(page.locator("#changes button").first).to_contain_text("page 1")
    assert digest(page, 1) != before
    expect(page.locator("[data-number='1'] .changed-mark")).to_have_count(1)
    expect(page.locator("[data-number='1'] .flash")).to_have_count(1)
    expect(page.locator("[data-number='1'] .flash")).to_have_count(0)  # it fades


def test_a_thing_is_followed_through_the_whole_kit_and_leads_to_its_line(look: Look, spec: Path) -> None:
    page = look()
    page.get_by_role("button", name="Whole kit").click()
    things, strands = page.locator("#kit-things"), page.locator("#kit-picture .strand")
    things.get_by_role("button", name="Ripple").click()
    followed = page.locator("#kit-picture .strand:not(.faded)")
    assert 0 < followed.count() < strands.count()
    assert page.locator("#kit-pieces li").count() == followed.count()
    things.get_by_role("button", name="First page").click()
    expect(page.locator("#spec-lines")).to_contain_text("title: First page")
    spec.write_text(STARTER_SPEC.replace("title: First page", "title: Page the first"), encoding="utf-8")
    expect(things).to_contain_text("Page the first")
    page.keyboard.press("Escape")
    expect(page.locator("#kit")).to_be_hidden()


def open_whole_kit(page: Page, thing: str) -> Locator:
    """Choose a thing in the picture of the whole kit, then close the line that it leads to; its button."""
    page.get_by_role("button", name="Whole kit").click()
    button = page.locator("#kit-things").get_by_role("button", name=thing)
    button.click()
    expect(page.locator("#spec")).to_be_visible()
    page.locator("#close-spec").click()
    return button


def followed_pieces(page: Page) -> list[str]:
    """What is said of the pieces that are followed: all but their labels, which a save may change."""
    return [said.split(" ", 1)[1] for said in page.locator("#kit-pieces li").all_inner_texts()]


def save_and_see_whole_kit(page: Page, spec: Path, text: str) -> None:
    """Save, and wait until the picture of the whole kit has been drawn of that, with what it leads to."""
    with page.expect_response("**/whole-kit"):
        spec.write_text(text, encoding="utf-8")
    page.wait_for_timeout(300)


def test_a_save_follows_what_was_chosen_and_opens_nothing(look: Look, spec: Path) -> None:
    page = look()
    button = open_whole_kit(page, "Ripple")
    followed = followed_pieces(page)
    button.focus()
    save_and_see_whole_kit(page, spec, RETITLED)
    expect(page.locator("h1")).to_have_text("Second kit")
    expect(button).to_have_attribute("aria-pressed", "true")
    expect(button).to_be_focused()
    expect(page.locator("#spec")).to_be_hidden()
    assert followed_pieces(page) == followed


def test_a_line_that_is_shown_is_not_replaced_by_what_is_followed(look: Look, spec: Path) -> None:
    page = look()
    spec.write_text(STARTER_SPEC.replace("at: [9, 2]", "at: [9 1/16, 2]"), encoding="utf-8")
    finding = page.locator("#findings li", has_text="9 1/16").first
    expect(finding).to_be_visible()
    open_whole_kit(page, "Sand")
    finding.get_by_role("button", name="line").click()
    here = page.locator("#spec-lines .here")
    expect(here).to_have_text("      - at: [9 1/16, 2]")
    save_and_see_whole_kit(page, spec, RETITLED.replace("at: [9, 2]", "at: [9 1/16, 2]"))
    expect(page.locator("h1")).to_have_text("Second kit")
    expect(here).to_have_text("      - at: [9 1/16, 2]")


def test_a_piece_is_followed_when_others_come_before_it(look: Look, spec: Path) -> None:
    page = look()
    open_whole_kit(page, "Ripple")
    strand = page.locator("#kit-picture .strand").nth(1)
    strand.dispatch_event("click", {"bubbles": True})
    (said,) = followed_pieces(page)
    more = STARTER_SPEC.replace("at: [9, 2]", "at: [9, 2, 1]").replace("First", "Third")
    more = more.replace("leaves: [border strip,", "leaves: [edge strip, border strip,")
    save_and_see_whole_kit(page, spec, more)
    expect(page.locator("h1")).to_have_text("Third kit")
    assert [each.split(",")[0] for each in followed_pieces(page)] == [said.split(",")[0]]


def test_the_pages_beneath_the_whole_kit_are_out_of_reach(look: Look) -> None:
    page = look()
    expect(page.locator(".places button").first).to_be_attached()
    page.get_by_role("button", name="Whole kit").click()
    expect(page.locator("#kit")).to_be_focused()
    page.keyboard.press("Shift+Tab")
    assert page.evaluate("document.activeElement.closest('#desk') === null")
    page.keyboard.press("Escape")
    page.locator(".places button").first.focus()
    assert page.evaluate("document.activeElement.closest('#desk') !== null")


def test_a_way_to_a_page_leads_out_of_the_whole_kit(look: Look, spec: Path) -> None:
    page = look()
    spec.write_text(RETITLED, encoding="utf-8")
    expect(page.locator("#changes button").first).to_be_visible()
    page.get_by_role("button", name="Whole kit").click()
    expect(page.locator("#kit")).to_be_visible()
    page.locator("#changes button").first.click()
    expect(page.locator("#kit")).to_be_hidden()
    expect(page.locator("#changes button").first).to_be_focused()


def test_the_focus_stays_on_its_place_through_a_save(look: Look, spec: Path) -> None:
    page = look()
    click_title_of_first_page(page)
    focused = page.locator(":focus")
    expect(focused).to_have_attribute("title", re.compile("^layouts › first-page › title, line"))
    was = focused.get_attribute("title")
    spec.write_text("# one\n" + RETITLED, encoding="utf-8")
    expect(page.locator("h1")).to_have_text("Second kit")
    expect(focused).to_have_attribute("title", re.compile("^layouts › first-page › title, line"))
    expect(focused).not_to_have_attribute("title", was or "")
    expect(focused).to_have_class("chosen")
    expect(focused).to_have_attribute("tabindex", "0")


def test_another_start_of_the_program_is_asked_for_all_anew(browser: Browser, spec: Path) -> None:
    """Its first save has the number of another first save, and other places."""
    page = browser.new_context().new_page()
    with showing(spec) as address:
        page.goto(address)
        expect(page.locator("#status")).to_have_text("Up to date")
        place = page.locator("[data-number='1'] .places button").first
        was = place.get_attribute("title")
    expect(page.locator("#status")).to_contain_text("has ended")
    page.context.set_offline(True)  # it listens again when the pages have been made
    spec.write_text("# one\n" * 10 + STARTER_SPEC, encoding="utf-8")
    with showing(spec, urlsplit(address).port or 0) as address:
        with listening(address.rstrip("/")) as other:
            other.state("current")
        page.context.set_offline(False)
        expect(page.locator("#status")).to_have_text("Up to date", timeout=20000)
        expect(place).not_to_have_attribute("title", was or "")
        page.context.close()


def test_what_is_said_of_a_kit_may_have_dollars_and_braces(look: Look, spec: Path) -> None:
    page = look()
    broken = STARTER_SPEC.replace("page: half letter", 'page: "$& {m} $$"')
    spec.write_text(broken, encoding="utf-8")
    expect(page.locator("#trouble")).to_contain_text("$& {m} $$")


def test_a_sixth_tab_waits_for_another_to_be_closed(browser: Browser, address: str) -> None:
    context = browser.new_context()
    *first, sixth = [context.new_page() for _ in range(6)]
    for page in first:
        page.goto(address)
        expect(page.locator("#status")).to_have_text("Up to date")
    sixth.goto(address)
    expect(sixth.locator("#status")).to_contain_text("Open in five other tabs")
    expect(first[0].locator("[data-number='1'] img")).to_be_visible()
    first[-1].close()
    expect(sixth.locator("#status")).to_have_text("Up to date")
    expect(sixth.locator("[data-number='1'] img")).to_be_visible()
    context.close()


def test_a_window_that_is_one_too_many_says_so(browser: Browser, address: str) -> None:
    page = browser.new_context().new_page()
    with ExitStack() as others:
        for _ in range(24):
            others.enter_context(listening(address.rstrip("/")))
        page.goto(address)
        expect(page.locator("#status")).to_contain_text("Too many windows")
    # That they have gone shows when they are told that all is well.
    expect(page.locator("#status")).to_have_text("Up to date", timeout=40000)
    page.context.close()


def test_where_one_is_stays_when_pages_change(look: Look, spec: Path) -> None:
    page = look()
    number = number_of(page, "Ripple")
    page.locator("#go-to").fill(str(number))
    page.locator("#go-to").press("Enter")
    was, at = digest(page, number), page.evaluate("document.getElementById('desk').scrollTop")
    assert at > 0
    spec.write_text(RECUT, encoding="utf-8")
    expect(page.locator(f"[data-number='{number}']")).not_to_have_attribute("data-digest", was)
    expect(page.locator("#status")).to_have_text("Up to date")
    assert page.evaluate("document.getElementById('desk').scrollTop") == at


def test_where_one_is_stays_when_the_booklet_gets_more_pages(look: Look, spec: Path) -> None:
    page = look()
    count = page.locator(".half").count()
    page.locator("#go-to").fill(str(count))
    page.locator("#go-to").press("Enter")
    at = page.evaluate("document.getElementById('desk').scrollTop")
    spec.write_text(WITH_PHOTOS, encoding="utf-8")
    expect(page.locator("#changes")).to_contain_text(f"pages, {count} before")
    assert page.locator(".half").count() > count
    assert page.evaluate("document.getElementById('desk').scrollTop") == at


def test_a_broken_spec_dims_the_last_good_pages_until_it_is_mended(look: Look, spec: Path) -> None:
    page = look()
    good = digest(page, 1)
    spec.write_text(BROKEN, encoding="utf-8")
    expect(page.locator("#trouble")).to_contain_text('the unknown key "sheetz"')
    expect(page.locator("#trouble")).to_contain_text("nearest: sheet")
    expect(page.locator("[data-number='1'] .page")).to_have_css("opacity", "0.45")
    assert digest(page, 1) == good
    line = BROKEN.splitlines().index("sheetz:") + 1
    page.locator("#trouble").get_by_role("button", name=f"line {line}").click()
    expect(page.locator("#spec-lines .here")).to_have_text("sheetz:")
    spec.write_text(STARTER_SPEC, encoding="utf-8")
    expect(page.locator("#trouble")).to_be_hidden()
    expect(page.locator("[data-number='1'] .page")).to_have_css("opacity", "1")


def test_a_spec_renamed_and_deleted_is_waited_for(look: Look, spec: Path) -> None:
    page = look()
    spec.rename(spec.with_name("old.yaml"))
    expect(page.locator("#status")).to_contain_text("not there")
    expect(page.locator("#trouble")).to_contain_text("there is no file kit.yaml")
    spec.with_name("old.yaml").rename(spec)
    expect(page.locator("#status")).to_have_text("Up to date")
    spec.unlink()
    expect(page.locator("#status")).to_contain_text("not there")
    spec.write_text(RETITLED, encoding="utf-8")
    expect(page.locator("#status")).to_have_text("Up to date")
    expect(page.locator("h1")).to_have_text("Second kit")


def test_a_click_and_a_key_show_the_line_of_a_reading(look: Look) -> None:
    page = look()
    number = number_of(page, "Ripple")
    page.locator("#go-to").fill(str(number))
    page.locator("#go-to").press("Enter")
    reading = page.locator(f"[data-number='{number}'] .places button[title*='cuts › 1 › at › 1']").first
    reading.click()
    expect(page.locator("#spec-lines .here")).to_have_text("      - at: [9, 2]")
    expect(page.locator("#spec-place")).to_contain_text("kit.yaml, line")
    page.keyboard.press("Escape")
    expect(page.locator("#spec")).to_be_hidden()
    reading.focus()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    expect(page.locator("#spec")).to_be_visible()


def click_title_of_first_page(page: Page) -> None:
    """Click where the title of the first layout stands, wherever in the booklet that is."""
    number = number_of(page, "First page")
    page.locator("#go-to").fill(str(number))
    page.locator("#go-to").press("Enter")
    page.locator(
        f"[data-number='{number}'] .places button[title^='layouts › first-page › title,']"
    ).first.click()
    expect(page.locator("#spec-lines .here")).to_have_text("    title: First page")


def test_the_line_that_is_shown_is_followed_through_a_save(look: Look, spec: Path) -> None:
    page = look()
    click_title_of_first_page(page)
    line = STARTER_SPEC.splitlines().index("    title: First page") + 1
    expect(page.locator("#spec-place")).to_have_text(f"kit.yaml, line {line}")
    spec.write_text("# one\n# two\n# three\n" + RETITLED, encoding="utf-8")
    expect(page.locator("h1")).to_have_text("Second kit")
    expect(page.locator("#spec-place")).to_have_text(f"kit.yaml, line {line + 3}")
    expect(page.locator("#spec-lines .here")).to_have_text("    title: First page")


def test_lines_that_come_when_they_are_no_longer_wanted_are_not_shown(look: Look) -> None:
    page = look()
    click_title_of_first_page(page)
    held: list[Route] = []
    page.route("**/lines/**", lambda route: held.append(route))
    page.locator(".places button").first.evaluate("(button) => button.click()")
    page.wait_for_timeout(100)
    (late,) = held
    page.keyboard.press("Escape")
    late.continue_()
    page.wait_for_timeout(300)
    expect(page.locator("#spec")).to_be_hidden()


def test_what_was_wrong_is_shown_no_longer_when_it_is_mended(look: Look, spec: Path) -> None:
    page = look()
    spec.write_text(BROKEN, encoding="utf-8")
    line = BROKEN.splitlines().index("sheetz:") + 1
    page.locator("#trouble").get_by_role("button", name=f"line {line}").click()
    expect(page.locator("#spec-lines .here")).to_have_text("sheetz:")
    spec.write_text("# more\n" + BROKEN, encoding="utf-8")
    expect(page.locator("#spec-place")).to_have_text(f"kit.yaml, line {line + 1}")
    expect(page.locator("#spec-lines .here")).to_have_text("sheetz:")
    spec.write_text(STARTER_SPEC, encoding="utf-8")
    expect(page.locator("#spec")).to_be_hidden()


def test_a_finding_leads_to_its_line_and_to_its_page(look: Look, spec: Path) -> None:
    page = look()
    off_mark = STARTER_SPEC.replace("at: [9, 2]", "at: [9 1/16, 2]")
    spec.write_text(off_mark, encoding="utf-8")
    finding = page.locator("#findings li", has_text="9 1/16").first
    expect(finding).to_be_visible()
    line = off_mark.splitlines().index("      - at: [9 1/16, 2]") + 1
    finding.get_by_role("button", name=f"line {line}").click()
    expect(page.locator("#spec-lines .here")).to_have_text("      - at: [9 1/16, 2]")
    number = number_of(page, "Ripple")
    finding.get_by_role("button", name=f"page {number}").click()
    expect(page.locator(f"[data-number='{number}'] .marks button").first).to_be_in_viewport()


def test_two_browsers_look_at_once(look: Look, spec: Path) -> None:
    one, other = look(), look()
    spec.write_text(RETITLED, encoding="utf-8")
    for page in (one, other):
        expect(page.locator("h1")).to_have_text("Second kit")
    one.context.close()
    spec.write_text(STARTER_SPEC, encoding="utf-8")
    expect(other.locator("h1")).to_have_text("First kit")


class _Elsewhere(BaseHTTPRequestHandler):
    """A page that is none of ours."""

    def do_GET(self) -> None:
        self.send_response(200)
        self.send_header("Content-Type", "text/html")
        self.end_headers()
        self.wfile.write(b"<p>elsewhere")

    def log_message(self, format: str, *args: object) -> None:
        """Nothing is said of it."""


@pytest.fixture
def elsewhere() -> Iterator[str]:
    """The address of another program of this computer, by another name than that of the look."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), _Elsewhere)
    thread = Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://localhost:{server.server_port}/"
    server.shutdown()
    thread.join()
    server.server_close()


def test_a_foreign_host_is_refused(address: str) -> None:
    connection = HTTPConnection(urlsplit(address).netloc)
    connection.request("GET", "/", headers={"Host": "kit.example"})
    assert connection.getresponse().status == 403
    connection.close()


def test_a_foreign_page_gets_nothing(browser: Browser, address: str, elsewhere: str) -> None:
    """It is on this computer too, so that no rule of the browser about networks keeps it off."""
    page = browser.new_context().new_page()
    page.goto(elsewhere)
    ask = "(url) => fetch(url, {mode: 'no-cors'}).then(() => 'given', () => 'refused')"
    assert page.evaluate(ask, f"{elsewhere}x") == "given"
    for path in ("", "whole-kit", "view.js", "file-lines/1"):
        assert page.evaluate(ask, f"{address}{path}") == "refused"
    seen = page.evaluate(
        "(url) => new Promise((done) => { const image = new Image();"
        " image.onload = () => done('seen'); image.onerror = () => done('refused'); image.src = url; })",
        f"{address}icon.svg",
    )
    assert seen == "refused"
    page.context.close()


def test_larger_and_smaller_pages_are_drawn_as_sharp(look: Look) -> None:
    page = look()
    for name in ("Larger", "Larger", "Smaller", "Fit"):
        page.get_by_role("button", name=name).click()
        page.wait_for_function(
            "() => { const image = document.querySelector('[data-number=\"1\"] img');"
            " return Math.abs(image.naturalWidth - image.clientWidth * devicePixelRatio) <= 1; }"
        )
