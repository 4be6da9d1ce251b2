"""From the first cut to the last step, by taps and by keys; and back to where one was."""

from __future__ import annotations

from booklet.content.blocks import Document
from booklet.content.spans import length_text
from tests.browser.expected import cutting_keys, page_keys, readings
from tests.browser.opened import Open, chromium_alone
from tests.web.demos import made


def said() -> Document:
    """What the larger demo's companion says."""
    return made("hill-line").said


def test_every_card_is_reached_by_taps(open_companion: Open) -> None:
    companion = open_companion()
    companion.page.click("a.way[href='#/cut']")
    assert followed(companion, "tap", len(cutting_keys(said()))) == cutting_keys(said())
    companion.page.click(".card:visible a[href='#/pages']")
    assert followed(companion, "tap", len(page_keys(said()))) == page_keys(said())


def test_every_card_is_reached_by_keys_and_back_again(open_companion: Open) -> None:
    companion = open_companion(at="#/cut")
    forth = followed(companion, "ArrowRight", len(cutting_keys(said())))
    assert forth == cutting_keys(said())
    assert followed(companion, "ArrowLeft", len(forth)) == forth[::-1]
    companion.view("pages")
    assert followed(companion, "PageDown", len(page_keys(said()))) == page_keys(said())


def followed(companion, how: str, count: int) -> list[str]:  # type: ignore[no-untyped-def]
    """The keys of so many cards, each left by a tap or a key."""
    keys = [companion.key]
    for _ in range(count - 1):
        if how == "tap":
            companion.tap()
        else:
            companion.press(how)
        keys.append(companion.key)
    return keys


def test_each_cut_shows_its_reading_and_the_sheet_as_it_lies_now(open_companion: Open) -> None:
    companion = open_companion(at="#/cut")
    for key, reading in readings(said()).items():
        companion.to(f"#/cut/{key.replace('/', '%2F')}")
        assert companion.card.locator(".figures").inner_text() == length_text(reading)
        number = int(key.rsplit("/", 1)[1])
        layers = companion.shown_layers()
        assert [layer for layer in layers if layer.startswith("blade")] == [f"blade at-{number} now"]
        gone = [layer for layer in layers if layer.startswith("strip") and after(layer) < number]
        assert gone == []
        assert any(layer.startswith("strip") for layer in layers)


def after(layer: str) -> int:
    return int(next(word for word in layer.split() if word.startswith("after-")).removeprefix("after-"))


def test_at_each_step_all_earlier_things_lie_and_its_own_stand_out(open_companion: Open) -> None:
    companion = open_companion(at="#/pages")
    for key in page_keys(said()):
        if "/" not in key:
            continue
        companion.to(f"#/pages/{key.replace('/', '%2F')}")
        number = int(key.rsplit("/", 1)[1])
        layers = companion.shown_layers()
        steps = {at(layer) for layer in layers if layer.startswith("step ")}
        assert steps
        assert max(steps) <= number
        marks = {at(layer) for layer in layers if layer.startswith("mark ")}
        assert marks <= {number}


def at(layer: str) -> int:
    return int(next(word for word in layer.split() if word.startswith("at-")).removeprefix("at-"))


def test_the_place_is_kept_when_the_page_is_opened_again(open_companion: Open) -> None:
    companion = open_companion(at="#/cut")
    for _ in range(30):
        companion.press("ArrowRight")
    key = companion.key
    companion.view("pages")
    companion.press("ArrowRight")
    step = companion.key
    companion.go()
    assert companion.key == step
    companion.view("cut")
    assert companion.key == key


def test_done_ticks_and_goes_on_and_a_look_ahead_ticks_nothing(open_companion: Open) -> None:
    companion = open_companion(at="#/cut/cut-station-1%2F1")
    companion.press("ArrowRight")
    assert companion.ticks == set()
    companion.press("ArrowLeft")
    companion.do("done")
    companion.wait_for("cut-station-1/2")
    assert companion.ticks == {"cut-station-1/1", "2C"}
    companion.press("Enter")
    companion.wait_for("cut-station-2")
    assert companion.ticks == {"cut-station-1/1", "2C", "cut-station-1/2", "2A"}


def test_a_turn_is_shown_turning_and_can_be_seen_again(open_companion: Open) -> None:
    companion = open_companion(at="#/cut/cut-station-2")
    moving = "document.querySelector('.board:not([hidden]) .sheet').getAnimations().length"
    assert companion.page.evaluate(moving) == 1
    companion.page.evaluate(
        "document.querySelector('.board:not([hidden]) .sheet').getAnimations()[0].finish()"
    )
    assert companion.page.evaluate(moving) == 0
    companion.do("turn")
    assert companion.page.evaluate(moving) == 1


@chromium_alone
def test_nothing_moves_for_who_asks_for_stillness(open_companion: Open) -> None:
    companion = open_companion(at="#/cut/cut-station-2", reduced_motion="reduce")
    assert companion.page.evaluate("document.getAnimations().length") == 0
    companion.go("#/cut/cut-station-1%2F1")
    companion.do("done")
    assert companion.key == "cut-station-1/2"
    companion.go("#/pages/layout-all-aboard%2F5")
    assert companion.page.evaluate("document.getAnimations().length") == 0


def test_a_sheet_of_the_pile_is_leapt_to(open_companion: Open) -> None:
    companion = open_companion(at="#/cut")
    companion.page.click("[data-walk=cut] [data-leap]:nth-child(1) >> nth=4")
    assert companion.key == "sheet-meadow"
    assert companion.page.locator("[data-walk=cut] [aria-current=step]").inner_text().startswith("5")


def test_a_swipe_goes_on_and_back(open_companion: Open) -> None:
    companion = open_companion(at="#/cut", has_touch=True)
    first, second, *_ = cutting_keys(said())
    assert companion.key == first
    swipe = """across => {
      const bench = document.querySelector('.view:not([hidden]) .bench');
      const at = (x) => [new Touch({ identifier: 1, target: bench, clientX: x, clientY: 400 })];
      bench.dispatchEvent(new TouchEvent('touchstart', { touches: at(300), changedTouches: at(300) }));
      bench.dispatchEvent(new TouchEvent('touchend', { touches: [], changedTouches: at(300 + across) }));
    }"""
    companion.page.evaluate(swipe, -140)
    assert companion.key == second
    companion.page.evaluate(swipe, 140)
    assert companion.key == first
    companion.page.evaluate(swipe, 20)
    assert companion.key == first


def test_two_quick_taps_go_on_by_two_and_mark_no_words(open_companion: Open) -> None:
    companion = open_companion(at="#/cut")
    for expected in cutting_keys(said())[2:5:2]:
        box = companion.page.locator(".view:visible .boards").bounding_box()
        assert box is not None
        companion.page.mouse.dblclick(box["x"] + box["width"] - 8, box["y"] + box["height"] - 8)
        assert companion.key == expected
    assert companion.page.evaluate("String(getSelection())") == ""


def test_the_address_follows_whoever_leafs_fast(open_companion: Open) -> None:
    companion = open_companion()
    # WebKit takes a hundred changes in half a minute, and refuses the next.
    companion.page.add_init_script(
        "const change = history.replaceState.bind(history); let count = 0;"
        "history.replaceState = (...all) => {"
        " if (count++ === 100) throw new DOMException('refused', 'SecurityError'); change(...all); };"
    )
    companion.go("#/cut")
    for key in ["ArrowRight"] * 60 + ["ArrowLeft"] * 57:
        companion.press(key)
    assert companion.key == cutting_keys(said())[3]
    companion.page.wait_for_function(
        "key => decodeURIComponent(location.hash) === `#/cut/${key}`", arg=companion.key
    )


def test_the_address_stays_with_the_view_that_is_gone_to(open_companion: Open) -> None:
    companion = open_companion(at="#/cut")
    for _ in range(5):
        companion.press("ArrowRight")
    companion.view("pieces")
    companion.page.wait_for_timeout(600)
    assert companion.page.evaluate("location.hash") == "#/pieces"
