"""Work done beside other work, on the computer's second core, where it has one and a way to use it."""

from __future__ import annotations

import os
import pickle
import signal
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TypeVar

Result = TypeVar("Result")


@contextmanager
def run_in_fork(work: Callable[[], Result]) -> Iterator[Callable[[], Result]]:
    """Begin some work in a copy of this process; what is handed out waits for its result.

    The work must change nothing but its result, and is stopped where nobody has asked for that in the end.
    What either process changes afterwards is copied page by page, so little should be there when work begins.
    Where processes cannot be copied, or there is one core, or other threads run that a copy would not have,
    or the copy fails, the work is done here when its result is asked for.
    """
    if not _may_copy():
        yield work
        return
    reading, writing = os.pipe()
    copy = os.fork()
    if copy == 0:
        os.close(reading)
        _send(work, writing)
    os.close(writing)
    try:
        with os.fdopen(reading, "rb") as pipe:
            yield lambda: _unpacked(pipe.read(), work)
    finally:
        os.kill(copy, signal.SIGKILL)  # it has ended, or nobody waits for it
        os.waitpid(copy, 0)


def _may_copy() -> bool:
    return hasattr(os, "fork") and threading.active_count() == 1 and (os.cpu_count() or 1) > 1


def _send(work: Callable[[], object], writing: int) -> None:
    """In the copy: do the work, send its result and end without tidying up what the original owns."""
    try:
        sent = pickle.dumps(work(), protocol=pickle.HIGHEST_PROTOCOL)
        with os.fdopen(writing, "wb") as pipe:
            pipe.write(sent)
    finally:
        os._exit(0)


def _unpacked(sent: bytes, work: Callable[[], Result]) -> Result:
    """What the copy sent, or the work done here where it sent nothing or was stopped half-way."""
    try:
        result: Result = pickle.loads(sent)
    except (EOFError, pickle.UnpicklingError):
        return work()
    return result
