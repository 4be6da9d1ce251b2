"""Several kits by one command: told apart, in order, and none keeps another from being made."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from functools import partial
from pathlib import Path

import pytest

from booklet.cli import main
from booklet.cli.processes import run_each
from tests.cli.runs import ROOT, ends_soon, files_in, run_in_copy, small_kits, started

pytestmark = [
    pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot copy a process"),
    # The runner of the tests has threads; the program has none when it starts its processes.
    pytest.mark.filterwarnings("ignore:.*multi-threaded.*:DeprecationWarning"),
]
NAMES = ["april", "may", "june"]


def heads(said: bytes) -> list[str]:
    return [line for line in said.decode().splitlines() if line.startswith("== ")]


@pytest.fixture(scope="module")
def kits(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """Three small kits, the second of which cannot be read; what making them takes is loaded from then on."""
    april, may, june = small_kits(tmp_path_factory.mktemp("kits"), NAMES)
    assert main(["make", str(april), "--out", str(tmp_path_factory.mktemp("out"))]) == 0
    may.write_text(may.read_text().replace("title:", "titel:", 1))
    return [april, may, june]


def test_a_kit_that_cannot_be_read_does_not_keep_the_others_from_being_made(
    kits: list[Path], tmp_path: Path
) -> None:
    ended = run_in_copy("make", *kits, "--out", tmp_path / "all")
    assert ended.returncode == 1
    april, may, june = kits
    assert heads(ended.stdout) == [f"== {april} ==", f"== {june} =="]
    assert heads(ended.stderr) == [f"== {may} =="]
    assert b'may.yaml:1: found the unknown key "titel"' in ended.stderr
    assert ended.stderr.endswith(f"2 of 3 kits are well; look at {may}\n".encode())
    for kit in (april, june):
        assert run_in_copy("make", kit, "--out", tmp_path / "singly").returncode == 0
    assert files_in(tmp_path / "all") == files_in(tmp_path / "singly")


def test_all_is_said_in_the_order_of_the_kits_however_many_are_made_at_a_time(
    kits: list[Path], tmp_path: Path
) -> None:
    april, may, _ = kits  # the second ends first: it cannot be read
    trimmer = tmp_path / "trimmer.yaml"
    trimmer.write_text("mark: 1/16 in\n")  # of which is said what is made for it
    said = set()
    for number in ("1", "2"):
        way = ["--trimmer", str(trimmer), "--processes", number, "--out", str(tmp_path / "out")]
        ended = run_in_copy("make", april, may, *way)
        said.add((ended.returncode, ended.stdout, ended.stderr))
    ((_, _, err),) = said
    assert heads(err) == [f"== {april} ==", f"== {may} =="]


def test_the_exit_code_says_the_worst(kits: list[Path], tmp_path: Path) -> None:
    nowhere = tmp_path / "nowhere.yaml"
    ended = run_in_copy("make", kits[1], nowhere, kits[0], "--out", tmp_path / "out")
    assert ended.returncode == 2
    assert f"== {nowhere} ==\nbooklet: there is no kit spec".encode() in ended.stderr
    assert (tmp_path / "out/april-read.pdf").exists()
    assert run_in_copy("make", kits[0], kits[2], "--out", tmp_path / "out").returncode == 0


@pytest.mark.parametrize("second", ["again/may.yaml", "again/May.yml", "may.yaml"])
def test_two_kits_whose_files_would_be_called_alike_are_refused_before_anything_is_made(
    second: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    first, other = small_kits(tmp_path, ["may", "other"])
    (tmp_path / second).parent.mkdir(exist_ok=True)
    (tmp_path / second).write_text(first.read_text())
    named = [str(first), str(other), str(tmp_path / second)]
    assert main(["make", *named, "--out", str(tmp_path / "out")]) == 2
    assert capsys.readouterr().err.startswith(
        f"booklet: {first} and {tmp_path / second} would write files of the same names"
    )
    assert not (tmp_path / "out").exists()


def test_a_program_is_told_of_all_kits_at_once(kits: list[Path], tmp_path: Path) -> None:
    ended = run_in_copy("make", *kits, "--json", "--out", tmp_path)
    april, may, june = json.loads(ended.stdout)["kits"]
    assert [each["kit"] for each in (april, may, june)] == list(map(str, kits))
    assert [each["exit_code"] for each in (april, may, june)] == [0, 1, 0]
    assert [each["errors"] for each in (april, may, june)] == [0, 1, 0]
    assert may["files"] == []
    assert str(tmp_path / "june-read.pdf") in june["files"]


@pytest.mark.parametrize("number", ["0", "-1", "257", "many", "²"])
def test_a_number_of_processes_that_is_none_is_refused(
    number: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["make", "hill-line", "roof-garden", "--processes", number])
    assert ended.value.code == 2
    assert "expected from 1 to 256" in capsys.readouterr().err


def test_where_no_process_can_be_copied_the_same_is_said_and_made(
    kits: list[Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    ended = run_in_copy("make", *kits, "--out", "out", folder=tmp_path)
    monkeypatch.delattr(os, "fork")
    (tmp_path / "here").mkdir()
    monkeypatch.chdir(tmp_path / "here")
    assert main(["make", *map(str, kits), "--out", "out"]) == 1
    out, err = capfd.readouterr()
    assert (out.encode(), err.encode()) == (ended.stdout, ended.stderr)
    assert files_in(tmp_path / "here/out") == files_in(tmp_path / "out")


# At a terminal.


def said_at_a_terminal(*arguments: str | Path) -> str:
    """What appears at a terminal of 80 columns to which standard error goes, while the output is piped."""
    import pty

    ours, theirs = pty.openpty()
    with subprocess.Popen(
        [sys.executable, "-m", "booklet", *map(str, arguments)],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=theirs,
        env={**os.environ, "COLUMNS": "80"},
    ) as process:
        os.close(theirs)
        said = b""
        while True:
            try:
                part = os.read(ours, 4096)
            except OSError:  # the other end is closed
                break
            said += part
            if not part:
                break
        assert process.stdout is not None
        assert b"Made" not in process.stdout.read()
    os.close(ours)
    return said.decode()


@pytest.mark.skipif(not Path("/dev/ptmx").exists(), reason="this system has no terminals of its own")
def test_a_person_sees_how_many_kits_are_made_and_nothing_of_it_stays(
    kits: list[Path], tmp_path: Path
) -> None:
    said = said_at_a_terminal("make", *kits, "--out", tmp_path)
    for number in (1, 2, 3):
        assert f"\rMade {number} of 3 kits" in said
    assert "\x1b" not in said  # nothing is coloured
    shown = [line.rstrip("\r").rpartition("\r")[2] for line in said.split("\n")]
    assert [line for line in shown if line.startswith(("Ma", "Re"))] == []
    assert f"2 of 3 kits are well; look at {kits[1]}" in shown


# Stopped.


def is_begun(folder: Path) -> bool:
    """Whether a kit has been written there, and another is being written, which waited for its turn."""
    return len(list(folder.glob("*-read.pdf"))) > 1


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="processes are counted in /proc")
@pytest.mark.parametrize(
    ("whom", "how"),
    [
        ("the first process", signal.SIGINT),
        ("all of them", signal.SIGTERM),
        # Who kills all of them can leave files aside, which a later run removes.
        ("the first process", signal.SIGKILL),
        pytest.param("all of them", signal.SIGINT, marks=pytest.mark.thorough),
        pytest.param("the first process", signal.SIGTERM, marks=pytest.mark.thorough),
    ],
)
def test_who_stops_it_stops_all_its_processes_and_finds_nothing_half_done(
    whom: str, how: signal.Signals, tmp_path: Path
) -> None:
    out = tmp_path / "out"
    kits = small_kits(tmp_path / "kits", [f"kit-{number}" for number in range(40)])
    process = started("make", *kits, "--out", out, "--processes", "3")
    while not is_begun(out):
        time.sleep(0.01)
    os.kill(process.pid, how) if whom == "the first process" else os.killpg(process.pid, how)
    _, err = process.communicate()
    assert ends_soon(process.pid)
    assert b"Traceback" not in err
    assert [path.name for path in out.iterdir() if path.name.startswith(".")] == []
    made = {path.name.removesuffix("-read.pdf") for path in out.glob("*-read.pdf")}
    assert 0 < len(made) < 40
    for name in made:
        assert {f"{name}-print.pdf", f"{name}-files.sha256"} <= {path.name for path in out.iterdir()}
    if how != signal.SIGKILL:
        assert process.returncode == 130
        assert err.decode().splitlines()[-1].startswith("booklet: stopped")
        assert " of 40 kits are well" in err.decode()


# The processes.


def test_no_more_work_is_done_at_a_time_than_asked_for(tmp_path: Path) -> None:
    def work(place: int) -> int:
        mine = tmp_path / str(place)
        mine.touch()
        at_a_time = len(list(tmp_path.iterdir()))
        time.sleep(0.02)
        mine.unlink()
        return at_a_time

    codes = {place: ended.code for place, ended in run_each([partial(work, place) for place in range(9)], 3)}
    assert sorted(codes) == list(range(9))
    assert 1 <= max(codes.values()) <= 3


def test_work_that_is_killed_is_told_by_its_signal_and_the_rest_goes_on() -> None:
    def kill_itself() -> int:
        print("begun", flush=True)
        os.kill(os.getpid(), signal.SIGKILL)
        return 0

    ended = dict(run_each([kill_itself, lambda: 0], 1))
    assert (ended[0].code, ended[0].out, ended[1].code) == (-signal.SIGKILL, b"begun\n", 0)


def test_where_there_is_room_for_one_process_only_the_work_is_done_by_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    fork = os.fork
    asked: list[int] = []

    def fork_every_other_time() -> int:
        asked.append(len(asked))
        if len(asked) % 2 == 0:
            raise BlockingIOError(11, "Resource temporarily unavailable")
        return fork()

    def work() -> int:
        time.sleep(0.05)
        return 3

    monkeypatch.setattr(os, "fork", fork_every_other_time)
    ended = dict(run_each([work] * 4, 4))
    assert [ended[place].code for place in range(4)] == [3, 3, 3, 3]
