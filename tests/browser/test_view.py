"""`booklet view` in a real browser: a spec is edited, broken, mended, renamed and deleted while it runs."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from http.client import HTTPConnection
from pathlib import Path
from urllib.parse import urlsplit

import pytest

pytest.importorskip("playwright.sync_api")
from playwright.sync_api import Browser, Page, Request, Route, expect

from booklet.cli.starter import STARTER_SPEC
from tests.cli.runs import ROOT, files_in
from tests.view.looking import a_spec

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


@pytest.fixture
def address(spec: Path) -> Iterator[str]:
    """The address of the program that shows the spec; it ends by Ctrl-C, leaving nothing behind."""
    before = files_in(spec.parent)
    process = subprocess.Popen(
        [sys.executable, "-m", "booklet", "view", str(spec)],
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


def test_a_foreign_host_and_a_foreign_page_are_refused(look: Look, address: str) -> None:
    connection = HTTPConnection(urlsplit(address).netloc)
    connection.request("GET", "/", headers={"Host": "kit.example"})
    assert connection.getresponse().status == 403
    connection.close()
    page = look()
    page.route(
        "http://kit.example/", lambda route: route.fulfill(body="<p>elsewhere", content_type="text/html")
    )
    foreign = page.context.new_page()
    foreign.route("http://kit.example/", lambda route: route.fulfill(body="<p>x", content_type="text/html"))
    foreign.goto("http://kit.example/")
    refused = foreign.evaluate("(url) => fetch(url).then(() => 'given', () => 'refused')", f"{address}state")
    assert refused == "refused"
    seen = foreign.evaluate(
        "(url) => new Promise((done) => { const image = new Image();"
        " image.onload = () => done('seen'); image.onerror = () => done('refused'); image.src = url; })",
        f"{address}icon.svg",
    )
    assert seen == "refused"


def test_larger_and_smaller_pages_are_drawn_as_sharp(look: Look) -> None:
    page = look()
    for name in ("Larger", "Larger", "Smaller", "Fit"):
        page.get_by_role("button", name=name).click()
        page.wait_for_function(
            "() => { const image = document.querySelector('[data-number=\"1\"] img');"
            " return Math.abs(image.naturalWidth - image.clientWidth * devicePixelRatio) <= 1; }"
        )
