"""Run work in a forked process, on a second core where there is one."""

from __future__ import annotations

import os
import pickle
import signal
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TypeVar

# How often a fork looks whether its parent is still there, in seconds.
_LOOK_EVERY = 0.5
Result = TypeVar("Result")


@contextmanager
def run_in_fork(work: Callable[[], Result]) -> Iterator[Callable[[], Result]]:
    """Start some work in a forked process; the function yielded waits for its result and returns it.

    The work must have no side effects, and is killed if its result is not asked for by the end.  Memory that
    either process changes afterwards is copied page by page, so fork while little is allocated.
    Without fork or a second core, with other threads running (the fork would lack them), or where the fork
    fails, the work is done in this process when its result is asked for.
    """
    if not _may_fork():
        yield work
        return
    reading, writing = os.pipe()
    parent = os.getpid()
    try:
        child = os.fork()
    except OSError:  # there may be no more processes, or too little memory
        os.close(reading)
        os.close(writing)
        yield work
        return
    if child == 0:
        os.close(reading)
        threading.Thread(target=_end_after, args=(parent,), daemon=True).start()
        _send(work, writing)
    os.close(writing)
    try:
        with os.fdopen(reading, "rb") as pipe:
            yield lambda: _unpacked(pipe.read(), work)
    finally:
        os.kill(child, signal.SIGKILL)  # it has ended, or its result is not wanted
        os.waitpid(child, 0)


def _may_fork() -> bool:
    return hasattr(os, "fork") and threading.active_count() == 1 and (os.cpu_count() or 1) > 1


def wait_for_end_of(parent: int) -> None:
    """In a fork: return once the parent, the process of this number, has ended, however that came about."""
    while os.getppid() == parent:
        time.sleep(_LOOK_EVERY)


def _end_after(parent: int) -> None:
    wait_for_end_of(parent)
    os._exit(1)


def _send(work: Callable[[], object], writing: int) -> None:
    """In the fork: do the work, send its result and exit without cleaning up what the parent owns."""
    try:
        sent = pickle.dumps(work(), protocol=pickle.HIGHEST_PROTOCOL)
        with os.fdopen(writing, "wb") as pipe:
            pipe.write(sent)
    finally:
        os._exit(0)


def _unpacked(sent: bytes, work: Callable[[], Result]) -> Result:
    """What the fork sent, or the work done here where it sent nothing or was stopped half-way."""
    try:
        result: Result = pickle.loads(sent)
    except (EOFError, pickle.UnpicklingError):
        return work()
    return result
