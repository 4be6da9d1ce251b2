"""What reaches a terminal holds nothing that it would obey, whatever files are called."""

from __future__ import annotations

import contextlib
import json
import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from booklet.cli import main
from booklet.cli.plain_output import escaped
from booklet.cli.starter import STARTER_SPEC

HOSTILE = "kit\x1b[2J\x1b]0;title\x07\u202egnp\u2066\u009b31m"


def signs(text: str) -> Iterator[str]:
    """What of a text is no letter: line ends apart."""
    return (letter for letter in text if not letter.isprintable() and letter != "\n")


@pytest.fixture
def hostile(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """A kit whose name would clear the screen, change the title of the window and turn the line about."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / f"{HOSTILE}.yaml").write_text(STARTER_SPEC.replace("[9, 2]", "[9, 13]"), encoding="utf-8")
    return f"{HOSTILE}.yaml"


COMMANDS = (["check"], ["make"], ["plan"], ["rescue", "--spoiled", "panel\x1b[0m"], ["find", "\x1b[0m"])


@pytest.mark.parametrize("command", COMMANDS, ids=lambda command: command[0])
def test_a_hostile_name_is_shown_by_its_codes(
    command: list[str], hostile: str, capfd: pytest.CaptureFixture[str]
) -> None:
    name, *more = command
    main([name, hostile, *more])
    out, err = capfd.readouterr()
    assert not list(signs(out + err))


def test_its_codes_can_be_read(hostile: str, capfd: pytest.CaptureFixture[str]) -> None:
    assert main(["check", hostile]) == 1
    first = capfd.readouterr().out.splitlines()[0]
    assert first.startswith("kit\\x1b[2J\\x1b]0;title\\x07\\u202egnp\\u2066\\x9b31m.yaml:")


def test_a_program_reads_the_name_as_it_is(hostile: str, capfd: pytest.CaptureFixture[str]) -> None:
    main(["check", hostile, "--json"])
    told = json.loads(capfd.readouterr().out)
    assert told["findings"][0]["file"] == hostile


def test_what_is_written_is_told_by_its_codes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["new", "a\x1b[31m\u202e"]) == 0
    out, err = capfd.readouterr()
    assert "a\\x1b[31m\\u202e" in out
    assert not list(signs(out + err))


@pytest.mark.parametrize(
    "arguments", [["\x1b[31m"], ["check"], ["check", "x", "--\x1b[31m"], ["check", "\u202ex"]]
)
def test_what_was_typed_is_repeated_by_its_codes(
    arguments: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    with contextlib.suppress(SystemExit):
        main(arguments)
    out, err = capfd.readouterr()
    assert not list(signs(out + err))


def test_bytes_that_are_no_letters_are_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    name = os.fsdecode(b"kit\xff.yaml")
    (tmp_path / name).write_text("title: x\n", encoding="utf-8")
    assert main(["check", name]) == 1
    assert capfd.readouterr().out.startswith("kit\\udcff.yaml:")


def test_letters_stay_as_they_are() -> None:
    words = "6\u00a0½ in — Grüße, 水, \u05d0, e\u0301, soft\u00adhyphen, \U0001f469\u200d\U0001f467\tend\n"
    assert escaped(words) == words
    assert escaped("a\rb\x00\U000e0041") == "a\\x0db\\x00\\U000e0041"
