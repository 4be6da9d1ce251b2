"""Killed, stopped, without room, without permission, two at once: the old files stay whole or all are new."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

import pytest

from booklet.cli import main
from booklet.cli.files import write_files
from booklet.cli.unstopped import unstopped
from booklet.cli.written import list_name
from tests.cli.runs import ROOT, ended, ends_soon, files_in, in_copy, runs_on, small_kits, started

pytestmark = [
    pytest.mark.skipif(not hasattr(os, "fork"), reason="this system has no signals to stop it by"),
    # The runner of the tests has threads; the program has none when it copies itself.
    pytest.mark.filterwarnings("ignore:.*multi-threaded.*:DeprecationWarning"),
]
MOMENTS = 20
# Some of them from beginning to end for each run of the tests, the others for the thorough ones.
AT_EACH = [
    pytest.param(moment, marks=[] if moment % 5 == 2 else [pytest.mark.thorough]) for moment in range(MOMENTS)
]
# As what nobody is named who may do all.
NOBODY = 65534


@pytest.fixture(scope="module")
def may_and_june(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """Two states of one kit."""
    folder = tmp_path_factory.mktemp("kits")
    (june,) = small_kits(folder / "june", ["kit"])
    (may,) = small_kits(folder / "may", ["kit"])
    may.write_text(may.read_text().replace("The kit of kit", "The kit of May"))
    return may, june


@pytest.fixture(scope="module")
def made(may_and_june: tuple[Path, Path], tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """Where each of the two was made; all that it takes is loaded from then on."""
    # Figures are drawn in a copy, which would load these for itself alone, and may not where it is not root.
    import svgwrite  # noqa: F401

    import booklet.drawing.writers.svg_writer  # noqa: F401

    folders = tmp_path_factory.mktemp("may"), tmp_path_factory.mktemp("june")
    for spec, folder in zip(may_and_june, folders, strict=True):
        assert make(spec, folder) == 0
    return folders


def make(spec: Path, out: Path) -> int:
    return main(["make", str(spec), "--out", str(out)])


@pytest.fixture
def out(made: tuple[Path, Path], tmp_path: Path) -> Path:
    """A folder that holds what was made in May."""
    shutil.copytree(made[0], tmp_path / "out")
    return tmp_path / "out"


@pytest.fixture(scope="module")
def seconds(may_and_june: tuple[Path, Path], tmp_path_factory: pytest.TempPathFactory) -> float:
    """How long it takes a process to make the kit in which all is loaded."""
    folder = tmp_path_factory.mktemp("whole")
    began = time.perf_counter()
    assert ended(in_copy(partial(make, may_and_june[1], folder / "out"), folder / "said")) == 0
    return time.perf_counter() - began


# Stopped and killed.


@pytest.fixture
def stopped(
    out: Path, seconds: float, may_and_june: tuple[Path, Path], tmp_path: Path
) -> Callable[[signal.Signals, int], int]:
    """Make June where May lies, and stop that at one of the moments; how it ended."""

    def stop(how: signal.Signals, moment: int) -> int:
        process = in_copy(partial(make, may_and_june[1], out), tmp_path / "said")
        time.sleep((moment + 0.5) / MOMENTS * seconds)
        os.kill(process, how)
        return ended(process)

    return stop


@pytest.mark.parametrize("moment", AT_EACH)
@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM])
def test_whoever_stops_it_at_any_moment_finds_all_as_it_was_or_all_new(
    how: signal.Signals,
    moment: int,
    stopped: Callable[[signal.Signals, int], int],
    out: Path,
    made: tuple[Path, Path],
    tmp_path: Path,
) -> None:
    code = stopped(how, moment)
    assert "Traceback" not in (tmp_path / "said").read_text() or code == 1  # stopped before it began
    may, june = map(files_in, made)
    if code == 0:
        assert files_in(out) == june
    else:
        assert code in (1, 130)
        assert files_in(out) in (may, june)


@pytest.mark.parametrize("moment", AT_EACH)
def test_killed_at_any_moment_it_leaves_whole_files_that_a_later_run_replaces(
    moment: int,
    stopped: Callable[[signal.Signals, int], int],
    out: Path,
    may_and_june: tuple[Path, Path],
    made: tuple[Path, Path],
    tmp_path: Path,
) -> None:
    assert stopped(signal.SIGKILL, moment) in (0, -signal.SIGKILL)
    may, june = map(files_in, made)
    for name, content in files_in(out).items():
        if not name.startswith(".booklet-") and name != list_name("kit"):
            assert content in (may.get(name), june.get(name)), name
    if files_in(out) != may:
        for left in out.glob(".booklet-*"):
            os.utime(left, (0, 0))  # as if it had lain there for a while
        assert ended(in_copy(partial(make, may_and_june[1], out), tmp_path / "said")) == 0
        assert files_in(out) == june


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="processes are counted in /proc")
def test_what_a_run_has_begun_ends_with_it(tmp_path: Path) -> None:
    process = started("make", "roof-garden", "--out", tmp_path)
    while runs_on(process.pid) < 2 and process.poll() is None:
        time.sleep(0.005)
    process.kill()
    process.communicate()
    assert ends_soon(process.pid)


def test_a_stop_that_comes_at_a_bad_moment_waits_for_its_end() -> None:
    done = []

    def put_all() -> None:
        with unstopped():
            os.kill(os.getpid(), signal.SIGINT)
            done.append("the files")

    with pytest.raises(KeyboardInterrupt):
        put_all()
    assert done == ["the files"]
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


def test_what_a_killed_run_left_aside_is_removed_by_a_later_one(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    ended = subprocess.Popen([sys.executable, "-c", ""])
    ended.wait()
    left = tmp_path / f".booklet-{ended.pid}-a1"
    running = tmp_path / f".booklet-{os.getpid()}-b2"
    fresh = tmp_path / f".booklet-{ended.pid}-c3"
    other = tmp_path / ".booklet-notes"
    for folder in (left, running, fresh, other):
        folder.mkdir()
        (folder / "new-0").write_bytes(b"half")
    for folder in (left, running, other):
        os.utime(folder, (0, 0))
    write_files(tmp_path, {"kit.pdf": b"pages"})
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted(
        ["kit.pdf", running.name, fresh.name, other.name]
    )
    assert capsys.readouterr().err == f"removed {left}, which a run that was killed had left\n"


@pytest.mark.parametrize("moment", AT_EACH[:8])
@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM])
def test_whoever_stops_it_while_it_loads_sees_one_line(how: signal.Signals, moment: int) -> None:
    process = started("check", "roof-garden")
    time.sleep(0.02 + moment * 0.05)  # it has said that it begins just before it does
    process.send_signal(how)
    _, err = process.communicate()
    assert process.returncode in (0, 130)
    if process.returncode == 130:
        assert err.startswith(b"booklet: stopped")
        assert err.count(b"\n") == 1


# No room.


def limited(size: int, action: Callable[[], int]) -> int:
    """An action on a system on which no file may grow beyond a size."""
    import resource

    resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))
    return action()


@pytest.mark.parametrize("size", [0, 1000, 50_000])
def test_a_file_that_may_not_grow_so_large_leaves_all_as_it_was(
    size: int, out: Path, may_and_june: tuple[Path, Path], tmp_path: Path
) -> None:
    before = files_in(out)
    said = tmp_path / "said"
    # What is said is not to be limited, too.
    os.mkfifo(said)
    process = in_copy(partial(limited, size, partial(make, may_and_june[1], out)), said)
    told = said.read_text()
    assert ended(process) == 2
    assert told == f"booklet: {out} cannot be written: file too large\n"
    assert files_in(out) == before


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of 256 KiB, in memory."""
    disk = tmp_path / "disk"
    disk.mkdir()
    options = ["mount", "-t", "tmpfs", "-o", "size=256k,mode=755", "tmpfs", str(disk)]
    if shutil.which("mount") is None or subprocess.run(options, capture_output=True).returncode != 0:
        pytest.skip("no disk may be mounted here: only root may, and not in every container")
    yield disk
    subprocess.run(["umount", str(disk)], check=True)


def test_a_disk_that_is_full_keeps_what_it_has(
    small_disk: Path, may_and_june: tuple[Path, Path], tmp_path: Path
) -> None:
    (small_disk / "mine").write_bytes(bytes(100_000))
    before = files_in(small_disk)
    assert ended(in_copy(partial(make, may_and_june[1], small_disk), tmp_path / "said")) == 2
    assert (tmp_path / "said").read_text() == (
        f"booklet: {small_disk} cannot be written: no space left on device\n"
    )
    assert files_in(small_disk) == before
    # There is room once more where nothing was left.
    (small_disk / "yours").write_bytes(bytes(100_000))


# No permission.


def without_permission(action: Callable[[], int]) -> int:
    """An action of somebody who is not root: root may write anywhere."""
    if os.geteuid() == 0:
        os.setgid(NOBODY)
        os.setuid(NOBODY)
    return action()


@pytest.mark.parametrize("mode", [0o555, 0o000])
def test_a_folder_that_may_not_be_written_is_told_and_left(
    mode: int, out: Path, may_and_june: tuple[Path, Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = files_in(out)
    shutil.copy(may_and_june[1], tmp_path)
    tmp_path.chmod(0o755)  # whoever is not root gets in by where he stands: the folders above are root's
    monkeypatch.chdir(tmp_path)
    out.chmod(mode)
    action = partial(without_permission, partial(make, Path("kit.yaml"), Path("out")))
    assert ended(in_copy(action, tmp_path / "said")) == 2
    out.chmod(0o755)
    assert (tmp_path / "said").read_text() == "booklet: out cannot be written: permission denied\n"
    assert files_in(out) == before


# Two at once, and nobody who listens.


@pytest.mark.parametrize("turn", [0, 1, *(pytest.param(turn, marks=pytest.mark.thorough) for turn in (2, 3))])
def test_two_at_once_into_one_folder_leave_the_files_of_one_of_them(
    turn: int, out: Path, may_and_june: tuple[Path, Path], made: tuple[Path, Path], tmp_path: Path
) -> None:
    specs = may_and_june if turn % 2 else reversed(may_and_june)
    both = [in_copy(partial(make, spec, out), tmp_path / f"said-{n}") for n, spec in enumerate(specs)]
    assert [ended(process) for process in both] == [0, 0]
    found = files_in(out)
    assert found in [files_in(folder) for folder in made]


@pytest.mark.parametrize("others", [["nowhere"], pytest.param([], marks=pytest.mark.thorough)])
def test_all_is_made_though_nobody_listens_any_more(
    others: list[str], may_and_june: tuple[Path, Path], tmp_path: Path
) -> None:
    process = started("make", may_and_june[0], *others, "--out", tmp_path)
    assert process.stdout is not None
    process.stdout.close()
    assert process.stderr is not None
    err = process.stderr.read()
    process.stderr.close()
    assert process.wait() == 0
    assert b"Traceback" not in err
    assert (tmp_path / "kit-print.pdf").exists()


def test_what_cannot_be_told_of_several_kits_ends_with_2(
    may_and_june: tuple[Path, Path], tmp_path: Path
) -> None:
    (other,) = small_kits(tmp_path / "kits", ["other"])
    with open("/dev/full", "w", encoding="utf-8") as full:
        done = subprocess.run(
            [sys.executable, "-m", "booklet", "make", may_and_june[0], other, "--out", tmp_path],
            cwd=ROOT,
            stdout=full,
            stderr=subprocess.PIPE,
            check=False,
        )
    assert done.returncode == 2
    assert done.stderr == b"booklet: could not go on: No space left on device\n"


def test_a_stop_that_a_library_drops_comes_again() -> None:
    """As pydantic's core does, which calls Python and reports what it raises without handing it on."""
    program = (
        "from booklet.__main__ import run; import sys, time; from booklet.cli import commands\n"
        "class Dropped:\n"
        "    def __del__(self): raise KeyboardInterrupt\n"
        "def check(options):\n"
        "    Dropped()\n"
        "    time.sleep(60)\n"
        "commands.check = check\n"
        "print('begun', flush=True); run()"
    )
    process = started("check", "roof-garden", program=program)
    _, err = process.communicate()
    assert process.returncode == 130
    assert err == b"booklet: stopped; what was there before is still there\n"
