"""What a browser is told while a designer saves, breaks, mends, renames and deletes a spec."""

from __future__ import annotations

import json
import threading
from io import BytesIO
from pathlib import Path
from typing import Any
from urllib.parse import quote

import pytest
from PIL import Image

from booklet.cli.starter import STARTER_SPEC
from booklet.pages.flow import PageOverflowError
from booklet.view import session
from tests.cli.runs import ROOT, files_in
from tests.view.looking import a_spec, get, got_json, listening, looking


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


def test_what_an_editor_does_in_two_strokes_is_not_told_as_wrong(tmp_path: Path) -> None:
    spec = a_spec(tmp_path / "kit")
    with looking(spec) as address, listening(address) as browser:
        good = browser.state("current")
        draft = spec.with_name("kit.yaml.tmp")
        draft.write_text(STARTER_SPEC.replace("First", "Fourth"), encoding="utf-8")
        draft.replace(spec)
        assert browser.state("current", after=good["save"])["title"] == "Fourth kit"
        assert "broken" not in [said["status"] for kind, said in browser.told if kind == "state"]
        assert "gone" not in [said["status"] for kind, said in browser.told if kind == "state"]


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


@pytest.mark.parametrize("name", ["ripple.png", "ripple"])
def test_an_image_that_is_drawn_anew_shows(tmp_path: Path, name: str) -> None:
    folder = tmp_path / "kit"
    folder.mkdir()
    Image.new("RGB", (60, 60), "#aa3322").save(folder / name, "PNG")
    pattern = '      pattern: waves\n      colours: ["#dbe8e6", "#9fc3c1"]\n'
    spec = a_spec(folder, STARTER_SPEC.replace(pattern, f"      image: {name}\n"))
    with looking(spec) as address, listening(address) as browser:
        first = browser.state("current")
        assert first["problems"] == []
        Image.new("RGB", (61, 61), "#2233aa").save(folder / name, "PNG")
        second = browser.state("current", after=first["save"])
        assert [page["page"] for page in second["changes"]]


def test_a_page_in_view_is_shown_before_all_is_worked_out(tmp_path: Path) -> None:
    larger = (ROOT / "kit_specs" / "roof-garden.yaml").read_text(encoding="utf-8")
    spec = a_spec(tmp_path / "kit", larger)
    with looking(spec) as address, listening(address) as browser:
        state = browser.state("current")
        number = next(page["number"] for page in state["pages"] if page["title"].endswith("Roof tiles"))
        browser.look_at(number)
        was = state["pages"][number - 1]["digest"]
        assert get(address, f"/picture/{was}/300").status == 200
        spec.write_text(larger.replace("at: [22.5, 15, 7.5]", "at: [22, 15, 7.5]"), encoding="utf-8")
        told = browser.next("page")
        assert told["number"] == number
        assert "state" not in [
            kind for kind, _ in browser.told[browser.told.index(("state", state)) + 1 : -1]
        ]
        assert told["patch"]["before"] == was
        final = browser.state("current", after=state["save"])
        assert final["pages"][number - 1]["digest"] == told["digest"]


def test_words_that_no_page_holds_are_told_with_their_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def overflowing(*_: object) -> None:
        raise PageOverflowError("First page: its words are more than a page", ("layouts", 0, "title"))

    spec = a_spec(tmp_path / "kit")
    with looking(spec) as address, listening(address) as browser:
        good = browser.state("current")
        monkeypatch.setattr(session, "make_booklet_in_steps", overflowing)
        spec.write_text(STARTER_SPEC.replace("First page", "Last page"), encoding="utf-8")
        told = browser.state("broken")
        line = STARTER_SPEC.splitlines().index("    title: First page") + 1
        assert told["trouble"] == {
            "said": "First page: its words are more than a page",
            "line": line,
            "key": "layouts › first-page › title",
        }
        assert told["pages"] == good["pages"]


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
