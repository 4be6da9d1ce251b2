"""What a browser is told while a designer saves, breaks, mends, renames and deletes a spec."""

from __future__ import annotations

import json
import threading
from io import BytesIO
from pathlib import Path
from time import sleep
from typing import Any
from urllib.parse import quote

import pytest
from PIL import Image

from booklet.cli.starter import STARTER_SPEC
from booklet.pages.flow import PageOverflowError
from booklet.view import pictures, session
from tests.cli.runs import files_in
from tests.finished.kits import PLAIN
from tests.view.looking import Listener, a_spec, get, got_json, listening, looking


def picture(address: str, digest: str, width: int) -> Image.Image:
    """The picture of a page."""
    answer = get(address, f"/picture/{digest}/{width}")
    assert (answer.status, answer.headers["content-type"]) == (200, "image/png")
    return Image.open(BytesIO(answer.body))


def lines_at(address: str, place: Any) -> Any:
    """The lines about a place of the spec, as it was told."""
    return got_json(address, f"/lines/{quote(json.dumps(place), safe='')}")


def line_of(told: Any) -> str:
    """The line that is meant among those about it."""
    line: str = told["lines"][told["line"] - told["first"]]
    return line


def with_image(name: str) -> str:
    """The starter with an image for its patterned paper."""
    pattern = '      pattern: waves\n      colours: ["#dbe8e6", "#9fc3c1"]\n'
    return STARTER_SPEC.replace(pattern, f"      image: {name}\n")


def png(colour: str) -> bytes:
    """An image of one colour."""
    written = BytesIO()
    Image.new("RGB", (60, 60), colour).save(written, "PNG")
    return written.getvalue()


def test_the_booklet_is_shown_as_pages_and_nothing_is_written(tmp_path: Path) -> None:
    spec = a_spec(tmp_path / "kit")
    before, threads = files_in(tmp_path), set(threading.enumerate())
    with looking(spec) as address, listening(address) as browser:
        state = browser.state("current")
        assert len(state["pages"]) % 4 == 0
        assert [page["number"] for page in state["pages"]] == list(range(1, len(state["pages"]) + 1))
        assert state["title"] == "First kit"
        assert state["problems"] == []
        for width in (198, 396):
            assert picture(address, state["pages"][0]["digest"], width).size == (
                width,
                round(width / 396 * 612),
            )
    assert files_in(tmp_path) == before
    assert set(threading.enumerate()) == threads


def test_a_save_shows_on_the_pages_that_it_changes_alone(tmp_path: Path) -> None:
    spec = a_spec(tmp_path / "kit")
    with looking(spec) as address, listening(address) as browser:
        first = browser.state("current")
        spec.write_text(STARTER_SPEC.replace("title: First kit", "title: Second kit"), encoding="utf-8")
        second = browser.state("current", after=first["save"])
        assert second["title"] == "Second kit"
        changed = [
            now["number"]
            for then, now in zip(first["pages"], second["pages"], strict=True)
            if then["digest"] != now["digest"]
        ]
        assert 1 in changed
        assert len(changed) < len(second["pages"])
        assert [change["page"] for change in second["changes"]] == changed
        left, top, right, bottom = second["changes"][0]["part"]
        assert 0 < left < right < 1
        assert 0 < top < bottom < 0.6  # the title stands in the upper half of the cover


def test_a_broken_spec_tells_line_and_cure_and_the_pages_stay_until_it_is_mended(tmp_path: Path) -> None:
    spec = a_spec(tmp_path / "kit")
    with looking(spec) as address, listening(address) as browser:
        good = browser.state("current")
        broken = STARTER_SPEC.replace("sheets:", "sheetz:", 1)
        line = broken.splitlines().index("sheetz:") + 1
        spec.write_text(broken, encoding="utf-8")
        told = browser.state("broken")
        assert told["pages"] == good["pages"]
        (unknown,) = [problem for problem in told["problems"] if problem["line"] == line]
        assert "sheetz" in unknown["found"]
        assert unknown["nearest"] is not None
        assert line_of(lines_at(address, ["sheets"])) == "sheets:"
        assert lines_at(address, ["sheets"])["hasPassed"]
        assert line_of(got_json(address, f"/file-lines/{line}")) == "sheetz:"
        spec.write_text(STARTER_SPEC, encoding="utf-8")
        mended = browser.state("current")
        assert mended["pages"] == good["pages"]
        assert mended["problems"] == []
        assert not lines_at(address, ["sheets"])["hasPassed"]


def test_the_line_of_a_place_is_told_as_the_newest_save_has_it(tmp_path: Path) -> None:
    spec = a_spec(tmp_path / "kit")
    with looking(spec) as address, listening(address) as browser:
        first = browser.state("current")
        numbers = [page["number"] for page in first["pages"]]
        places = [place for number in numbers for place in got_json(address, f"/places/{number}")]
        (title, *_) = [place for place in places if place["key"] == "layouts › first-page › title"]
        spec.write_text("# one\n# two\n# three\n" + STARTER_SPEC, encoding="utf-8")
        browser.state("current", after=first["save"])
        told = lines_at(address, title["at"])
        assert (told["key"], told["line"]) == (title["key"], title["line"] + 3)
        assert line_of(told) == "    title: First page"


def test_a_spec_that_is_renamed_or_deleted_is_waited_for(tmp_path: Path) -> None:
    spec = a_spec(tmp_path / "kit")
    with looking(spec) as address, listening(address) as browser:
        good = browser.state("current")
        spec.rename(spec.with_name("old.yaml"))
        gone = browser.state("gone")
        assert "no file kit.yaml" in gone["trouble"]["said"]
        assert gone["pages"] == good["pages"]
        spec.with_name("old.yaml").rename(spec)
        assert browser.state("current")["pages"] == good["pages"]
        spec.unlink()
        browser.state("gone")
        spec.write_text(STARTER_SPEC.replace("title: First kit", "title: Third kit"), encoding="utf-8")
        assert browser.state("current")["title"] == "Third kit"


def statuses(browser: Listener, after: int) -> list[str]:
    """The statuses that were told after so many things."""
    return [said["status"] for kind, said in browser.told[after:] if kind == "state"]


@pytest.mark.parametrize("stroke", ["truncated", "deleted", "half written"])
def test_what_an_editor_does_in_two_strokes_is_not_told_as_wrong(tmp_path: Path, stroke: str) -> None:
    spec, saved = a_spec(tmp_path / "kit"), STARTER_SPEC.replace("First", "Fourth")
    with looking(spec) as address, listening(address) as browser:
        good, told = browser.state("current"), len(browser.told)
        if stroke == "deleted":
            spec.unlink()
        else:
            spec.write_text("" if stroke == "truncated" else saved[:-8], encoding="utf-8")
        sleep(0.05)  # less than it takes to be told
        spec.write_text(saved, encoding="utf-8")
        assert browser.state("current", after=good["save"])["title"] == "Fourth kit"
        assert set(statuses(browser, told)) == {"working", "current"}


def test_an_image_that_is_saved_in_two_strokes_is_not_told_as_wrong(tmp_path: Path) -> None:
    spec = a_spec(tmp_path / "kit", with_image("ripple.png"))
    image = spec.with_name("ripple.png")
    image.write_bytes(png("#aa3322"))
    with looking(spec) as address, listening(address) as browser:
        good, told = browser.state("current"), len(browser.told)
        image.write_bytes(b"")
        sleep(0.05)
        image.write_bytes(png("#2233aa"))
        browser.state("current", after=good["save"])
        assert set(statuses(browser, told)) == {"working", "current"}


@pytest.mark.parametrize("name", ["ripple.png", "ripple"])
def test_an_image_that_is_not_there_at_first_is_waited_for(tmp_path: Path, name: str) -> None:
    spec = a_spec(tmp_path / "kit", with_image(name))
    with looking(spec) as address, listening(address) as browser:
        browser.state("broken", after=-1)
        spec.write_text(with_image(name) + "# watched\n", encoding="utf-8")
        assert name in browser.state("broken", after=-1)["problems"][0]["found"]
        spec.with_name(name).write_bytes(png("#aa3322"))
        assert browser.state("current")["problems"] == []


def test_a_look_may_begin_with_a_spec_that_cannot_be_read(tmp_path: Path) -> None:
    spec = a_spec(tmp_path / "kit", "title: [")
    with looking(spec) as address, listening(address) as browser:
        told = browser.state("broken", after=-1)
        assert told["pages"] == []
        assert told["problems"][0]["line"] == 1
        spec.write_text(STARTER_SPEC, encoding="utf-8")
        assert browser.state("current")["pages"]


def test_other_files_of_the_folder_are_nobody_s_business(tmp_path: Path) -> None:
    spec = a_spec(tmp_path / "kit")
    with looking(spec) as address, listening(address) as browser:
        good = browser.state("current")
        spec.with_name("notes.txt").write_text("a thought", encoding="utf-8")
        spec.with_name(".kit.yaml.swp").write_text("x", encoding="utf-8")
        spec.write_text(STARTER_SPEC.replace("First", "Fifth"), encoding="utf-8")
        assert browser.state("current", after=good["save"])["save"] == good["save"] + 1


def test_the_folder_itself_may_go_and_come_back(tmp_path: Path) -> None:
    spec = a_spec(tmp_path / "kit")
    with looking(spec) as address, listening(address) as browser:
        browser.state("current")
        spec.parent.rename(tmp_path / "elsewhere")
        browser.state("gone")
        a_spec(tmp_path / "kit", STARTER_SPEC.replace("First", "Sixth"))
        assert browser.state("current")["title"] == "Sixth kit"


def test_a_spec_that_is_a_link_is_watched_where_it_leads(tmp_path: Path) -> None:
    written, other = a_spec(tmp_path / "written"), tmp_path / "written" / "other.yaml"
    other.write_text(STARTER_SPEC.replace("First", "Eleventh"), encoding="utf-8")
    spec = a_spec(tmp_path / "kit").with_name("linked.yaml")
    spec.symlink_to(written)
    with looking(spec) as address, listening(address) as browser:
        save = browser.state("current")["save"]
        for title in ("Second", "Third"):
            written.write_text(STARTER_SPEC.replace("First", title), encoding="utf-8")
            told = browser.state("current", after=save)
            assert told["title"] == f"{title} kit"
            save = told["save"]
        spec.unlink()
        spec.symlink_to(other)
        told = browser.state("current", after=save)
        assert told["title"] == "Eleventh kit"
        other.write_text(STARTER_SPEC.replace("First", "Twelfth"), encoding="utf-8")
        assert browser.state("current", after=told["save"])["title"] == "Twelfth kit"


@pytest.mark.parametrize("name", ["ripple.png", "ripple"])
def test_an_image_that_is_drawn_anew_shows(tmp_path: Path, name: str) -> None:
    spec = a_spec(tmp_path / "kit", with_image(name))
    spec.with_name(name).write_bytes(png("#aa3322"))
    with looking(spec) as address, listening(address) as browser:
        first = browser.state("current")
        assert first["problems"] == []
        spec.with_name(name).write_bytes(png("#2233aa"))
        second = browser.state("current", after=first["save"])
        assert [page["page"] for page in second["changes"]]


# With a third layout it is no small kit any more: each sheet can be laid out alone (`section_again`).
THREE_LAYOUTS = (
    PLAIN.replace("{id: sand, paper: sand, count: 2}", "{id: sand, paper: sand, count: 3}")
    + """\
  - id: night
    title: Night
    pocket: 2
    base: sand
    steps: [{photo: 4 x 6, left: 1, top: 1}]
"""
)
SAID_OTHERWISE = THREE_LAYOUTS.replace("Hold the sheet flat with the whole hand.", "Press the sheet flat.")


def look_at_a_sheet(browser: Listener, state: Any) -> int:
    """Have the first page of a sheet in view, and its picture; its number."""
    number: int = next(page["number"] for page in state["pages"] if page["title"].endswith("Reed"))
    browser.look_at(number)
    digest = state["pages"][number - 1]["digest"]
    assert get(browser.address, f"/picture/{digest}/300").status == 200
    return number


def test_a_page_in_view_is_shown_before_all_is_worked_out(tmp_path: Path) -> None:
    spec = a_spec(tmp_path / "kit", THREE_LAYOUTS)
    with looking(spec) as address, listening(address) as browser:
        state = browser.state("current")
        number = look_at_a_sheet(browser, state)
        spec.write_text(SAID_OTHERWISE, encoding="utf-8")
        told = browser.next("page")
        assert told["number"] == number
        assert "state" not in [
            kind for kind, _ in browser.told[browser.told.index(("state", state)) + 1 : -1]
        ]
        assert told["patch"]["before"] == state["pages"][number - 1]["digest"]
        final = browser.state("current", after=state["save"])
        assert final["pages"][number - 1]["digest"] == told["digest"]


def test_what_changes_in_view_is_told_however_much_was_looked_at_before(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Room for the pixels of two pages.
    monkeypatch.setattr(pictures, "_MOST_RENDERED", 2 * 3 * 300 * 464)
    spec = a_spec(tmp_path / "kit", THREE_LAYOUTS)
    with looking(spec) as address, listening(address) as browser:
        state = browser.state("current")
        number = look_at_a_sheet(browser, state)
        for page in state["pages"]:
            assert picture(address, page["digest"], 300).width == 300
        browser.look_at(number)
        spec.write_text(SAID_OTHERWISE, encoding="utf-8")
        told = browser.next("page")
        assert (told["number"], told["patch"]["width"]) == (number, 300)


def overflowing(*_: object) -> None:
    raise PageOverflowError("First page: its words are more than a page", ("layouts", 0, "title"))


def test_words_that_no_page_holds_are_told_with_their_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    spec = a_spec(tmp_path / "kit")
    with looking(spec) as address, listening(address) as browser:
        browser.state("current")
        monkeypatch.setattr(session, "make_booklet_in_steps", overflowing)
        spec.write_text(STARTER_SPEC.replace("First page", "Last page"), encoding="utf-8")
        line = STARTER_SPEC.splitlines().index("    title: First page") + 1
        assert browser.state("broken")["trouble"] == {
            "said": "First page: its words are more than a page",
            "line": line,
            "key": "layouts › first-page › title",
        }


def test_the_pages_beneath_a_failure_are_those_of_the_last_save_that_was_made(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    spec = a_spec(tmp_path / "kit", THREE_LAYOUTS)
    with looking(spec) as address, listening(address) as browser:
        good = browser.state("current")
        number = look_at_a_sheet(browser, good)
        with monkeypatch.context() as failing:
            failing.setattr(session, "make_booklet_in_steps", overflowing)
            spec.write_text(SAID_OTHERWISE, encoding="utf-8")
            newer = browser.next("page")
            assert newer["number"] == number
            assert browser.state("broken")["pages"] == good["pages"]
        spec.write_text(SAID_OTHERWISE + "# again\n", encoding="utf-8")
        made = browser.state("current", after=good["save"])
        assert made["pages"][number - 1]["digest"] == newer["digest"]


def test_a_kit_that_is_mended_is_being_worked_out_until_its_first_pages_come(tmp_path: Path) -> None:
    spec = a_spec(tmp_path / "kit", "title: [")
    with looking(spec) as address, listening(address) as browser:
        browser.state("broken", after=-1)
        spec.write_text(STARTER_SPEC, encoding="utf-8")
        working = browser.next("state")
        assert (working["status"], working["problems"], working["pages"]) == ("working", [], [])
        assert browser.state("current")["pages"]


def test_what_was_wrong_is_not_told_while_the_mended_kit_is_worked_out(tmp_path: Path) -> None:
    spec = a_spec(tmp_path / "kit")
    with looking(spec) as address, listening(address) as browser:
        browser.state("current")
        spec.write_text(STARTER_SPEC.replace("sheets:", "sheetz:", 1), encoding="utf-8")
        assert browser.state("broken")["problems"]
        spec.write_text(STARTER_SPEC.replace("First", "Ninth"), encoding="utf-8")
        assert browser.state("working")["problems"] == []


def test_a_spec_that_is_there_and_too_large_is_not_told_to_be_gone(tmp_path: Path) -> None:
    spec = a_spec(tmp_path / "kit")
    with looking(spec) as address, listening(address) as browser:
        browser.state("current")
        spec.write_text(STARTER_SPEC + "#" * (1 << 20), encoding="utf-8")
        assert "larger than a kit spec can be" in browser.state("broken")["trouble"]["said"]


def test_a_fault_of_the_program_is_told_and_the_look_goes_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    spec = a_spec(tmp_path / "kit")
    with looking(spec) as address, listening(address) as browser:
        good = browser.state("current")
        with monkeypatch.context() as faulty:
            faulty.setattr(session, "kit_findings", lambda _: 1 / 0)
            spec.write_text(STARTER_SPEC.replace("First", "Seventh"), encoding="utf-8")
            said = browser.state("broken")["trouble"]["said"]
            assert said == "this is a fault of the program, not of your kit: ZeroDivisionError"
        spec.write_text(STARTER_SPEC.replace("First", "Eighth"), encoding="utf-8")
        assert browser.state("current", after=good["save"])["title"] == "Eighth kit"
