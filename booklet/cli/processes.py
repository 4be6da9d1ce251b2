"""Do several pieces of work, each in a process of its own, a few at a time."""

from __future__ import annotations

import io
import os
import select
import signal
import sys
import threading
import time
from collections import deque
from collections.abc import Callable, Generator, Sequence
from contextlib import redirect_stderr, redirect_stdout
from tempfile import TemporaryFile
from types import FrameType
from typing import IO, Any, NoReturn

from booklet.cli.exits import Exit
from booklet.cli.unstopped import unstopped
from booklet.measure.dataclass import dataclass
from booklet.measure.fork import wait_for_end_of

# A piece of work: it says what it has to say, and returns an exit code.
Work = Callable[[], int]
_Handler = Callable[[int, FrameType | None], Any] | int
# How long a process that is stopped has to tidy up, in seconds: a moment, unless the computer is busy.
_TO_TIDY = 20.0


@dataclass(frozen=True)
class Ended:
    """How a piece of work ended: its exit code, negative for the signal that killed it, and what it said."""

    code: int
    out: bytes
    err: bytes


@dataclass(frozen=True)
class _Running:
    """Work that is being done: its place, its process, and the files that take what it says."""

    place: int
    process: int
    out: IO[bytes]
    err: IO[bytes]


def core_count() -> int:
    """How many cores this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def run_each(works: Sequence[Work], most: int) -> Generator[tuple[int, Ended]]:
    """Do each piece of work, at most `most` at a time; as each ends, its place and how it ended.

    A piece of work must leave this process as it is.  Whoever closes the iterator, or interrupts it, stops
    what still runs, and all that was started stops if this process ends.  Where the system cannot copy a
    process, all is done in this one, one after another.
    """
    if not hasattr(os, "fork"):
        yield from ((place, _done_here(work)) for place, work in enumerate(works))
        return
    waiting = deque(enumerate(works))
    running: dict[int, _Running] = {}
    try:
        while waiting or running:
            while waiting and len(running) < most:
                if not _started(*waiting[0], running):
                    break  # the system has no room for another process now
                waiting.popleft()
            ended, _, _ = select.select(list(running), [], [])
            for end in ended:
                yield running[end].place, _collected(running, end)
    finally:
        _stop(running)


def _started(place: int, work: Work, running: dict[int, _Running]) -> bool:
    """Start a piece of work; whether there was room for it.

    It is known by the end of a pipe that nobody writes to: the pipe closes when its process ends.
    """
    out, err = TemporaryFile(), TemporaryFile()  # noqa: SIM115 (they are closed when it has ended)
    reading, writing = os.pipe()
    parent = os.getpid()
    interrupt = signal.getsignal(signal.SIGINT)  # a shell lets what runs beside it ignore that
    with unstopped() as stops:
        try:
            process = os.fork()
        except BlockingIOError:
            os.close(reading)
            os.close(writing)
            out.close()
            err.close()
            if running:
                return False
            raise
        if process == 0:
            os.close(reading)
            _work(work, (out, err), parent, interrupt or signal.SIG_DFL, stops)
        os.close(writing)
        running[reading] = _Running(place, process, out, err)
    return True


def _collected(running: dict[int, _Running], end: int) -> Ended:
    """How a process ended that has closed its pipe."""
    with unstopped():
        its = running.pop(end)
        os.close(end)
        _, status = os.waitpid(its.process, 0)
    return Ended(os.waitstatus_to_exitcode(status), _read(its.out), _read(its.err))


def _read(file: IO[bytes]) -> bytes:
    with file:
        file.seek(0)
        return file.read()


def _stop(running: dict[int, _Running]) -> None:
    """Stop what still runs: ask it, so that it tidies up, and end it if it takes too long."""
    with unstopped():
        for its in running.values():
            os.kill(its.process, signal.SIGTERM)
        last = time.monotonic() + _TO_TIDY
        for end, its in running.items():
            select.select([end], [], [], max(0.0, last - time.monotonic()))
            os.kill(its.process, signal.SIGKILL)  # it has ended, or had its time
            os.waitpid(its.process, 0)
            os.close(end)
            its.out.close()
            its.err.close()
        running.clear()


# In the process that was started.


def _work(
    work: Work, files: tuple[IO[bytes], IO[bytes]], parent: int, interrupt: _Handler, stops: list[int]
) -> NoReturn:
    """Do the work, say what it says into the files, and exit without cleaning up what the parent owns.

    It is interrupted as the parent is; `stops` are the signals that came before it could take any.
    """
    code = int(Exit.CALLED_WRONGLY)
    try:
        signal.signal(signal.SIGINT, interrupt)
        signal.signal(signal.SIGTERM, signal.default_int_handler)
        if stops:  # it was stopped before it could tell
            raise KeyboardInterrupt
        said = [_stream(file, number) for number, file in enumerate(files, start=1)]
        sys.stdout, sys.stderr = said
        threading.Thread(target=_stop_after, args=(parent,), daemon=True).start()
        code = work()
        for stream in said:
            stream.flush()
    except KeyboardInterrupt:
        code = Exit.STOPPED
    finally:
        os._exit(code)


def _stream(file: IO[bytes], number: int) -> io.TextIOWrapper:
    """What is said from now on, through Python or below it, goes to a file."""
    os.dup2(file.fileno(), number)
    raw = io.FileIO(number, "w", closefd=False)
    return io.TextIOWrapper(io.BufferedWriter(raw), _encoding(), "backslashreplace")


def _encoding() -> str:
    """How this terminal or pipe writes letters."""
    return getattr(sys.stdout, "encoding", None) or "utf-8"


def _stop_after(parent: int) -> None:
    """Stop this process, tidily, once the one that started it has ended, however that came about."""
    wait_for_end_of(parent)
    os.kill(os.getpid(), signal.SIGTERM)
    time.sleep(_TO_TIDY)
    os._exit(Exit.STOPPED)


def _done_here(work: Work) -> Ended:
    out, err = (io.TextIOWrapper(io.BytesIO(), _encoding(), "backslashreplace") for _ in range(2))
    with redirect_stdout(out), redirect_stderr(err):
        code = work()
    said = []
    for stream in (out, err):
        stream.flush()
        buffer = stream.buffer
        assert isinstance(buffer, io.BytesIO)
        said.append(buffer.getvalue())
    return Ended(code, *said)
