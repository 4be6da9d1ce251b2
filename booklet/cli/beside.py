"""Work done beside other work, on the computer's second core, where it has a way to do so."""

from __future__ import annotations

import os
import pickle
import threading
from collections.abc import Callable
from typing import TypeVar

Result = TypeVar("Result")


def begun_beside(work: Callable[[], Result]) -> Callable[[], Result]:
    """Begin some work in a copy of this process; what is returned waits for its result.

    The work must change nothing but its result.  Where processes cannot be copied, or other threads run that
    a copy would not have, or the copy fails, the work is done here when its result is asked for.
    """
    if not hasattr(os, "fork") or threading.active_count() > 1:
        return work
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        _send(work, writing)
    os.close(writing)

    def result() -> Result:
        with os.fdopen(reading, "rb") as pipe:
            sent = pipe.read()
        _, status = os.waitpid(child, 0)
        if status:
            return work()
        made: Result = pickle.loads(sent)
        return made

    return result


def _send(work: Callable[[], object], writing: int) -> None:
    """In the copy: do the work, send its result and end without tidying up what the original owns."""
    status = 1
    try:
        with os.fdopen(writing, "wb") as pipe:
            pickle.dump(work(), pipe, protocol=pickle.HIGHEST_PROTOCOL)
        status = 0
    finally:
        os._exit(status)
