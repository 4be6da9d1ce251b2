"""Work done beside other work: the same result wherever it is done, and nothing left running."""

from __future__ import annotations

import errno
import os
import pickle
import threading
from pathlib import Path
from time import sleep

import pytest

from booklet.measure.fork import run_in_fork

pytestmark = pytest.mark.usefixtures("made_afresh")
needs_copies = pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot copy a process")


@pytest.fixture(autouse=True)
def two_cores(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "cpu_count", lambda: 2)


def worker() -> int:
    return os.getpid()


@needs_copies
def test_work_is_done_in_a_copy_and_its_result_comes_back(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(threading, "active_count", lambda: 1)  # the test runner may have threads of its own
    with run_in_fork(lambda: {"figure": b"lines", "done by": worker()}) as result:
        made = result()
    assert made["figure"] == b"lines"
    assert made["done by"] != os.getpid()


@needs_copies
def test_a_result_larger_than_a_pipe_holds_comes_back_whole(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(threading, "active_count", lambda: 1)
    with run_in_fork(lambda: bytes(range(256)) * 40_000) as result:
        assert result() == bytes(range(256)) * 40_000


@needs_copies
def test_a_copy_that_fails_is_made_good_here(
    monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(threading, "active_count", lambda: 1)
    here = os.getpid()

    def work() -> int:
        if os.getpid() != here:
            raise MemoryError
        return 7

    with run_in_fork(work) as result:
        assert result() == 7
    assert capfd.readouterr().err == ""  # nobody sees a copy's troubles


@needs_copies
def test_who_leaves_early_leaves_nothing_running(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(threading, "active_count", lambda: 1)
    started = tmp_path / "started"

    def work() -> None:
        started.write_text(str(os.getpid()))
        sleep(600)

    def stop() -> None:
        while not (started.exists() and started.read_text()):
            sleep(0.005)
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt), run_in_fork(work):
        stop()
    with pytest.raises(ProcessLookupError):
        os.kill(int(started.read_text()), 0)


@pytest.mark.parametrize("hindrance", ["one core", "a thread", "no copies", "no room for one"])
def test_where_no_copy_may_be_made_the_work_is_done_here(
    monkeypatch: pytest.MonkeyPatch, hindrance: str
) -> None:
    monkeypatch.setattr(threading, "active_count", lambda: 2 if hindrance == "a thread" else 1)
    if hindrance == "one core":
        monkeypatch.setattr(os, "cpu_count", lambda: 1)
    if hindrance == "no copies":
        monkeypatch.delattr(os, "fork", raising=False)
    if hindrance == "no room for one":
        monkeypatch.setattr(os, "fork", refuse)
    before = opened()
    with run_in_fork(worker) as result:
        assert result() == os.getpid()
    assert opened() == before


def refuse() -> int:
    raise BlockingIOError(errno.EAGAIN, "no more processes")


def opened() -> list[str]:
    """What this process holds open, where the system tells."""
    return os.listdir("/proc/self/fd") if Path("/proc/self/fd").exists() else []


@needs_copies
def test_a_copy_that_is_stopped_while_it_sends_is_made_good_here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(threading, "active_count", lambda: 1)
    whole = pickle.dumps

    def half(thing: object, protocol: int) -> bytes:
        sent = whole(thing, protocol)
        return sent[: len(sent) // 2]

    monkeypatch.setattr(pickle, "dumps", half)
    with run_in_fork(lambda: ["figure"] * 100 + [worker()]) as result:
        assert result()[-1] == os.getpid()
