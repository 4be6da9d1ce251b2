"""`booklet proof` of a file that a person gives: what cannot be the booklet is refused with its reason.

What is the booklet of this edition and is printed wrongly has failed instead, and its pages are named.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest

from booklet.binding.binding import home_binding
from booklet.binding.print_file import print_file
from booklet.cli import main
from booklet.kit.kit import PageFormat
from tests.finished.kits import PLAIN
from tests.proof.altered import encrypted, saved, with_content, with_stream
from tests.proof.finished import finished

TITLE = "A Week Outdoors"
CHANGED = PLAIN.replace("photo: 3 x 4", "photo: 3 x 3 1/2")
Spoil = Callable[[bytes], bytes]


@dataclass(frozen=True)
class Told:
    """What the command said, and its exit code."""

    code: int
    out: str
    error: str


class Proving:
    """Runs the command on a file of the plain kit."""

    def __init__(self, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self._folder, self._capsys = folder, capsys
        (folder / "plain.yaml").write_text(PLAIN, encoding="utf-8")

    def __call__(self, data: bytes, option: str = "--file", *more: str) -> Told:
        (self._folder / "given.pdf").write_bytes(data)
        words = ["proof", str(self._folder / "plain.yaml"), "--out", str(self._folder / "out")]
        code = main([*words, option, str(self._folder / "given.pdf"), *more])
        said = self._capsys.readouterr()
        assert "Traceback" not in said.err
        return Told(code, said.out, said.err)


@pytest.fixture
def prove(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Proving:
    return Proving(tmp_path, capsys)


def reading(spec: str = PLAIN) -> bytes:
    return finished(spec).file


@cache
def printed(spec: str = PLAIN) -> bytes:
    return print_file(reading(spec), home_binding(PageFormat.HALF_LETTER))


def edition_of(spec: str) -> str:
    return finished(spec).laid.edition


OPTIONS = ("--file", "--print")


def made(option: str) -> bytes:
    """The file that an option takes, as it was made."""
    return reading() if option == "--file" else printed()


@pytest.mark.parametrize("option", OPTIONS)
def test_the_files_as_they_were_made_are_proved(prove: Proving, option: str) -> None:
    told = prove(made(option), option)
    assert (told.code, told.out.splitlines()[-1]) == (0, "nothing wrong")


@pytest.mark.parametrize("option", OPTIONS)
@pytest.mark.parametrize(
    ("spoil", "reason"),
    [
        (lambda _: b"", "given.pdf is an empty file, expected a PDF"),
        (lambda _: b"title: A Week Outdoors\n", "given.pdf is no PDF: it does not begin like one"),
        (lambda _: bytes(range(256)) * 40, "given.pdf is no PDF: it does not begin like one"),
        (lambda made: made[: len(made) // 2], "given.pdf is damaged, expected a whole PDF: "),
        (lambda made: made[:-40], "given.pdf is damaged, expected a whole PDF: "),
        (lambda made: made[:9], "given.pdf is damaged, expected a whole PDF: "),
        (lambda made: made[:400] + made[500:], "given.pdf is damaged, expected a whole PDF: "),
        (lambda made: encrypted(made, "tide"), "given.pdf is encrypted, and opens with a password alone"),
        (
            lambda made: encrypted(made, ""),
            "given.pdf is encrypted, expected the file as `booklet make` wrote",
        ),
    ],
    ids=["empty", "text", "garbage", "half", "no end", "head alone", "a piece cut out", "locked", "unlocked"],
)
def test_what_is_no_readable_pdf_is_refused_with_its_reason(
    prove: Proving, option: str, spoil: Spoil, reason: str
) -> None:
    told = prove(spoil(made(option)), option)
    assert told.code == 2
    assert reason in told.error
    assert not told.out


def test_a_file_that_is_not_there_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["proof", "roof-garden", "--out", str(tmp_path), "--file", str(tmp_path / "none.pdf")]) == 2
    assert "cannot read none.pdf" in capsys.readouterr().err


def test_the_booklet_of_another_kit_is_refused(prove: Proving) -> None:
    told = prove(finished("roof-garden").file)
    assert told.code == 2
    assert f'given.pdf is "Six Floors Up, May 2043", expected the booklet of "{TITLE}"' in told.error


@pytest.mark.parametrize("option", OPTIONS)
def test_another_edition_of_the_kit_is_told_from_what_is_printed_wrongly(prove: Proving, option: str) -> None:
    assert len(finished(CHANGED).pages) == len(finished(PLAIN).pages)
    made = {"--file": reading(CHANGED), "--print": printed(CHANGED)}[option]
    told = prove(made, option)
    assert told.code == 2
    assert f"given.pdf is edition {edition_of(CHANGED)} of" in told.error
    assert f"the kit as it is now makes edition {edition_of(PLAIN)} of" in told.error


def test_a_file_that_names_no_edition_is_refused(prove: Proving) -> None:
    def forget(document: pikepdf.Pdf) -> None:
        del document.docinfo["/Keywords"]

    told = prove(saved(reading(), forget))
    assert told.code == 2
    assert f"given.pdf names no edition, the kit as it is now makes edition {edition_of(PLAIN)}" in told.error


@pytest.mark.parametrize(("option", "leaf"), [("--file", "page"), ("--print", "side")])
def test_a_file_that_has_lost_a_page_is_refused_with_both_counts(
    prove: Proving, option: str, leaf: str
) -> None:
    def lose(document: pikepdf.Pdf) -> None:
        del document.pages[-1]

    with pikepdf.open(BytesIO(made(option))) as document:
        count = len(document.pages)
    told = prove(saved(made(option), lose), option)
    assert told.code == 2
    assert f"is of this edition, but has {count - 1} {leaf}s, expected {count}" in told.error


# What is printed wrongly, and what cannot be read, is this edition's own fault.

READING = r"\(10\) Tj"


def test_a_reading_that_is_printed_wrongly_fails_on_its_page(prove: Proving) -> None:
    number = next(
        page.number for page in finished(PLAIN).pages if re.search(r"\b10\b", page.text) and page.number > 3
    )
    told = prove(with_content(reading(), number, READING, "(16) Tj"))
    assert told.code == 1
    assert f"failed: p. {number}" in told.out.splitlines()
    assert f"p. {number}: not printed: 10 " in told.out
    assert f"p. {number}: printed, but nothing of the kit says so: 16" in told.out


def test_a_page_that_cannot_be_read_fails_and_the_others_are_proved(prove: Proving) -> None:
    spoiled = with_stream(reading(), 4, b"zz", filter=pikepdf.Name.FlateDecode)
    told = prove(spoiled)
    assert told.code == 1
    lines = told.out.splitlines()
    assert lines[3] == "p. 4 cannot be read: part of it is damaged or is not in the file"
    assert "failed: p. 4" in lines
    assert not any(line.startswith("p. 4: ") for line in lines)
    answer = json.loads(prove(spoiled, "--file", "--json").out)
    assert answer["pages that cannot be read"] == [4]
    assert {claim["page"] for claim in answer["not printed"]} == {"4"}


def test_a_side_of_the_print_file_that_cannot_be_read_fails(prove: Proving) -> None:
    told = prove(with_stream(printed(), 2, b"zz", filter=pikepdf.Name.FlateDecode), "--print")
    assert told.code == 1
    assert "side 2 of the print file cannot be read" in told.out
    assert "failed: side 2 of the print file" in told.out.splitlines()


# What an edition is.


def test_the_name_of_an_edition_comes_from_the_kit_alone() -> None:
    assert re.fullmatch("[0-9a-f]{12}", edition_of(PLAIN))
    assert edition_of(PLAIN + "\n# a remark\n") == edition_of(PLAIN)
    marks = PLAIN.replace("at: [10, 6]", "at: [10, 6 1/8]")
    words = PLAIN.replace("Nobody else was up.", "Nobody was up.")
    assert len({edition_of(spec) for spec in (PLAIN, CHANGED, marks, words)}) == 4
