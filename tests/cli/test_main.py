"""The command line as it is called: exit codes, and that nothing ends in a traceback."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from booklet import VERSION
from booklet.binding.errors import PageCountError
from booklet.cli import commands, main
from booklet.cli.exits import Exit
from booklet.kit.errors import PictureError
from booklet.kit.schema import json_schema
from tests.cli.kits import BREAKS, broken_copy
from tests.cli.runs import small_kits

ROOT = Path(__file__).parents[2]


def called(*arguments: str, **settings: str) -> subprocess.CompletedProcess[bytes]:
    """`booklet` in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "booklet", *arguments],
        cwd=ROOT,
        env={**os.environ, **settings},
        capture_output=True,
        check=False,
    )


@pytest.mark.parametrize(
    "arguments",
    [
        ["mkae", "hill-line"],
        ["check"],
        ["check", "hill-line", "roof-garden"],
        ["check", "--jsno", "hill-line"],
        ["make", "hill-line", "--flip", "sideways"],
        ["draw", "hill-line", "--out"],
    ],
)
def test_wrong_arguments_end_with_2(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(arguments)
    assert ended.value.code == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "usage: booklet" in err


def test_the_name_of_the_program_alone_shows_its_help_with_an_example(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main([]) == 0
    out, err = capsys.readouterr()
    assert out.startswith("usage: booklet")
    assert "`booklet make hill-line`" in " ".join(out.split())
    assert err == ""


def test_the_version_is_that_of_the_project(capsys: pytest.CaptureFixture[str]) -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    assert project["tool"]["setuptools"]["dynamic"]["version"] == {"attr": "booklet.VERSION"}
    with pytest.raises(SystemExit) as ended:
        main(["--version"])
    assert ended.value.code == 0
    assert capsys.readouterr().out == f"booklet {VERSION}\n"


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no full device to write to")
def test_a_full_disk_behind_the_output_is_told_for_what_it_is() -> None:
    with open("/dev/full", "w", encoding="utf-8") as full:
        ended = subprocess.run(
            [sys.executable, "-m", "booklet", "check", "roof-garden"],
            cwd=ROOT,
            stdout=full,
            stderr=subprocess.PIPE,
            check=False,
        )
    assert ended.returncode == 2
    assert ended.stderr == b"booklet: could not go on: No space left on device\n"


@pytest.mark.parametrize(
    ("closing", "code", "told"),
    [(">&-", 2, b"booklet: standard output is closed: nothing could be told\n"), ("2>&-", 0, b"")],
)
def test_an_output_that_is_closed_is_no_fault(closing: str, code: int, told: bytes) -> None:
    command = f'"{sys.executable}" -m booklet check roof-garden {closing}'
    ended = subprocess.run(["sh", "-c", command], cwd=ROOT, capture_output=True, check=False)
    assert (ended.returncode, ended.stderr) == (code, told)


def test_the_help_lists_every_exit_code(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["--help"])
    assert ended.value.code == 0
    told = capsys.readouterr().out.split("Exit codes:")[1]
    assert [int(word) for word in told.split() if word.isdigit()] == list(Exit)


@pytest.mark.parametrize("command", ["check", "draw", "make"])
@pytest.mark.parametrize("kit", ["hil-line", "", "/", "nowhere/kit.yaml", "a\0b", "x" * 5000, "\udcff.yaml"])
def test_a_kit_that_is_not_there_ends_with_2_and_one_line(
    command: str, kit: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([command, kit]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("booklet: there is no kit spec and no demo kit")
    assert err.count("\n") == 1


def test_a_missing_kit_is_answered_with_the_nearest_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("june-kit.yaml").touch()
    assert main(["check", "jun-kit.yaml"]) == 2
    assert "(nearest: june-kit.yaml)" in capsys.readouterr().err


@pytest.mark.parametrize("command", ["draw", "make"])
def test_a_spec_that_cannot_be_read_writes_nothing(
    command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    spec = broken_copy(BREAKS[0], tmp_path / "kit")
    assert main([command, str(spec), "--out", str(tmp_path / "out")]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert err.splitlines() == [
        'hill-line.yaml:7: found the unknown key "titel", expected a known key (nearest: title)',
        "1 error",
    ]
    assert not (tmp_path / "out").exists()


def test_the_schema_is_printed_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["schema"]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert out.isascii()
    assert json.loads(out) == json_schema()


def made_of(stop: KeyboardInterrupt) -> RuntimeError:
    """What Python itself makes of an interrupt while it defines some classes."""
    fault = RuntimeError("Error calling __set_name__")
    fault.__cause__ = stop
    return fault


@pytest.mark.parametrize(
    ("raised", "code", "told"),
    [
        (PictureError("a torn picture", "a whole one"), 1, "found a torn picture, expected a whole one"),
        (PageCountError("7 pages"), 2, "7 pages"),
        (MemoryError(), 1, "the kit is larger than this computer can work out"),
        (RecursionError(), 1, "the kit is larger than this computer can work out"),
        (KeyboardInterrupt(), 130, "stopped; what was there before is still there"),
        (made_of(KeyboardInterrupt()), 130, "stopped; what was there before is still there"),
        (
            ZeroDivisionError("/home/member/kit"),
            2,
            "this is a fault of the program, not of your kit: ZeroDivisionError in booklet.cli.guard, line ",
        ),
    ],
)
def test_whatever_is_raised_ends_in_one_line(
    raised: BaseException,
    code: int,
    told: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    def fail(_options: object) -> None:
        raise raised

    monkeypatch.setattr(commands, "check", fail)
    assert main(["check", "hill-line"]) == code
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith(f"booklet: {told}")
    assert err.count("\n") == 1
    assert "/home" not in err


def test_a_terminal_that_lacks_letters_gets_their_codes(tmp_path: Path) -> None:
    spec = broken_copy(BREAKS[1], tmp_path)
    ended = called("check", str(spec), PYTHONIOENCODING="ascii")
    assert ended.returncode == 1
    assert ended.stderr == b""
    assert rb"sheets \u203a pine \u203a cuts" in ended.stdout


def test_a_reader_who_leaves_early_is_no_error() -> None:
    process = subprocess.Popen(
        [sys.executable, "-m", "booklet", "schema"], cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE
    )
    assert process.stdout is not None
    assert process.stderr is not None
    process.stdout.close()
    with process.stderr as complaints:
        assert complaints.read() == b""
    assert process.wait() == 0


def test_a_pipe_sees_no_progress(tmp_path: Path) -> None:
    (kit,) = small_kits(tmp_path, ["kit"])
    ended = called("draw", str(kit), "--out", str(tmp_path / "out"))
    assert ended.returncode == 0
    assert b"\x1b" not in ended.stdout + ended.stderr
    assert b"Drawing" not in ended.stderr
