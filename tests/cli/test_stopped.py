"""Stopped or killed at any moment: the files of the last run stay whole, and nothing runs on."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from booklet.cli.files import write_files

ROOT = Path(__file__).parents[2]

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="this system has no signals to stop it by")


# The program as it is called, once the interpreter has begun and has said so.
BEGUN = b"begun\n"
PROGRAM = "from booklet.__main__ import run; import sys; print('begun', flush=True); run()"


def started(*arguments: str) -> subprocess.Popen[bytes]:
    """`booklet` in a group of processes of its own, at its first line."""
    process = subprocess.Popen(
        [sys.executable, "-c", PROGRAM, *arguments],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        start_new_session=True,
    )
    assert process.stdout is not None
    assert process.stdout.readline() == BEGUN
    return process


def files_in(folder: Path) -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def runs_on(group: int) -> bool:
    """Whether a process of the group still runs (one that has ended waits a moment to be cleared away)."""
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            state, _, its_group = stat.read_text().rpartition(")")[2].split()[:3]
        except OSError:
            continue
        if int(its_group) == group and state != "Z":
            return True
    return False


@pytest.fixture(scope="module")
def seconds(tmp_path_factory: pytest.TempPathFactory) -> float:
    """How long a whole run takes here."""
    began = time.perf_counter()
    started("make", "roof-garden", "--out", str(tmp_path_factory.mktemp("whole"))).communicate()
    return time.perf_counter() - began


@pytest.mark.parametrize("share", [0.02, 0.1, 0.3, 0.6, 0.9])
@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM])
def test_who_stops_a_run_sees_no_traceback_and_keeps_what_was_there(
    share: float, how: signal.Signals, seconds: float, tmp_path: Path
) -> None:
    (tmp_path / "roof-garden-read.pdf").write_bytes(b"the last run's")
    process = started("make", "roof-garden", "--out", str(tmp_path))
    time.sleep(max(0.02, share * seconds))
    process.send_signal(how)
    out, err = process.communicate()
    assert b"Traceback" not in err
    assert process.returncode in (0, 130)
    if process.returncode == 130:
        assert out == b""
        assert err.endswith((b"stopped\n", b"stopped; what was there before is still there\n"))
        assert files_in(tmp_path) == {str(tmp_path / "roof-garden-read.pdf"): b"the last run's"}


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="processes are counted in /proc")
@pytest.mark.parametrize("share", [0.5, 0.8])
def test_what_a_run_has_begun_ends_with_it(share: float, seconds: float, tmp_path: Path) -> None:
    process = started("make", "hill-line", "--out", str(tmp_path))
    time.sleep(share * 2 * seconds)
    process.kill()
    process.communicate()
    for _ in range(100):
        if not runs_on(process.pid):
            return
        time.sleep(0.1)
    pytest.fail("a process of a run that was killed is still there")


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
