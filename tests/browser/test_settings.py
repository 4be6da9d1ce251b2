"""The switches: the unit, large type, and what the browser speaks and prints."""

from __future__ import annotations

from booklet.content.other_unit import other_text
from booklet.content.spans import length_text
from tests.browser.companion import Companion
from tests.browser.expected import readings
from tests.browser.opened import Open, chromium_alone
from tests.web.demos import made

DRAWING = ".view:visible .board:not([hidden])"


def test_readings_are_shown_in_the_other_unit_and_back(open_companion: Open) -> None:
    for kit in ("hill-line", "roof-garden"):
        expected = readings(made(kit).said)
        chosen = list(expected)[:: max(1, len(expected) // 10)][:10]
        assert len(chosen) == 10
        companion = open_companion(kit, at="#/settings")
        companion.page.check("input[name=unit][value=other]")
        for key in chosen:
            companion.to(f"#/cut/{key.replace('/', '%2F')}")
            assert companion.card.locator(".figures").inner_text() == other_text(expected[key])
            over = companion.page.locator(f"{DRAWING} .blade.now .other-unit text")
            assert over.text_content() == other_text(expected[key])
        companion.view("settings")
        companion.page.check("input[name=unit][value=kit]")
        companion.view("cut")
        assert companion.card.locator(".figures").inner_text() == length_text(expected[chosen[-1]])


def test_a_trimmer_with_its_zero_at_the_right_sees_every_sheet_half_round(open_companion: Open) -> None:
    companion = open_companion(at="#/settings")
    assert companion.page.is_checked("input[name=zero][value=left]")
    companion.view("cut")
    companion.to("#/cut/sheet-hills")
    assert "blue sky at the right" in companion.card.inner_text()
    companion.to("#/cut/cut-station-1%2F1")
    assert reading_is_right_of_the_middle(companion)
    companion.do("done")
    companion.view("settings")
    companion.page.check("input[name=zero][value=right]")
    companion.to("#/cut/sheet-hills")
    assert "blue sky at the left" in companion.card.inner_text()
    companion.to("#/cut/cut-station-1%2F1")
    reading = readings(made("hill-line").said)["cut-station-1/1"]
    assert companion.card.locator(".figures").inner_text() == length_text(reading)
    assert not reading_is_right_of_the_middle(companion)
    assert companion.card.locator("input").is_checked()


def reading_is_right_of_the_middle(companion: Companion) -> bool:
    sheet = companion.drawing.locator(".sheet").bounding_box()
    blade = companion.drawing.locator(".blade.now").bounding_box()
    assert sheet is not None
    assert blade is not None
    return blade["x"] + blade["width"] / 2 > sheet["x"] + sheet["width"] / 2


def test_type_grows_and_stays_large(open_companion: Open) -> None:
    companion = open_companion(at="#/settings")
    size = "parseFloat(getComputedStyle(document.querySelector('#view-settings legend')).fontSize)"
    before = companion.page.evaluate(size)
    companion.page.check("#large-type")
    companion.page.reload()
    assert companion.page.evaluate(size) > 1.2 * before


def test_the_bar_holds_its_words_on_a_tablet_turned_either_way(open_companion: Open) -> None:
    for large in (False, True):
        companion = open_companion(at="#/settings", viewport={"width": 744, "height": 1133})
        companion.page.set_checked("#large-type", large)
        companion.to("#/cut/cut-station-1%2F1")
        for width, height in ((744, 1133), (1133, 744), (768, 1024), (1024, 768), (820, 1180), (390, 844)):
            companion.page.set_viewport_size({"width": width, "height": height})
            assert hanging_out(companion) == [], (large, width)
            labels = companion.page.locator(".view:visible .bar [data-do=next] > span")
            assert (
                companion.page.evaluate(
                    "part => part.clientWidth > 9 || part.offsetWidth > 9", labels.element_handle()
                )
            ) == (width >= 768)


def hanging_out(companion: Companion) -> list[str]:
    """The buttons of the bar that are narrower than what they hold."""
    found: list[str] = companion.page.evaluate(
        "[...document.querySelectorAll('.view:not([hidden]) .bar button:not([hidden])')]"
        ".filter((button) => button.scrollWidth > button.clientWidth"
        "  || [...button.querySelectorAll('svg')].some((icon) => icon.getBoundingClientRect().width"
        "    < parseFloat(getComputedStyle(button).fontSize) * 1.59))"
        ".map((button) => button.dataset.do)"
    )
    return found


def test_a_step_is_read_aloud_as_it_would_be_said(open_companion: Open) -> None:
    companion = open_companion()
    companion.page.add_init_script(
        "window.spoken = []; window.SpeechSynthesisUtterance = function (text) { this.text = text; };"
        "Object.defineProperty(window, 'speechSynthesis', { value: { speaking: false, cancel() {},"
        " speak(said) { spoken.push([said.text, said.lang]); } } });"
    )
    companion.go("#/cut/cut-station-1%2F1")
    companion.do("speak")
    ((said, language),) = companion.page.evaluate("spoken")
    assert said == "2 Station canopy Cut 1 of 5. Set to 9 3/4. C right canopy, 12 × 2 1/4 Pocket 1."
    assert language == "en"


def test_without_speech_there_is_no_button_for_it(open_companion: Open) -> None:
    companion = open_companion()
    companion.page.add_init_script("Object.defineProperty(window, 'speechSynthesis', { value: undefined });")
    companion.go("#/cut")
    assert companion.page.locator("[data-do=speak]:visible").count() == 0


@chromium_alone
def test_the_step_in_view_is_printed_on_one_page(open_companion: Open) -> None:
    companion = open_companion(at="#/cut/cut-station-1%2F1")
    assert pages_of(companion.page.pdf(format="A4")) == 1
    companion.go("#/pages/layout-all-aboard%2F5")
    assert pages_of(companion.page.pdf(format="A4")) == 1


def pages_of(pdf: bytes) -> int:
    from io import BytesIO

    import pikepdf

    with pikepdf.open(BytesIO(pdf)) as opened:
        return len(opened.pages)
