"""Moments in which nobody stops the program: what has begun then is done, or undone, to its end."""

from __future__ import annotations

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager

# What stops the program: Ctrl-C, and who asks it to end.
STOPPERS = (signal.SIGINT, signal.SIGTERM)


@contextmanager
def unstopped() -> Iterator[list[int]]:
    """Let whoever stops this process wait until the end of the block; the signals that wait.

    Signals reach the main thread alone; in any other there is nothing to hold back.  They are held by their
    handlers, not by a mask: the libraries have threads of their own, which would take them nevertheless.
    """
    waiting: list[int] = []
    if threading.current_thread() is not threading.main_thread():
        yield waiting
        return
    handlers = {each: signal.getsignal(each) for each in STOPPERS}
    try:
        for each in STOPPERS:
            signal.signal(each, lambda number, _frame: waiting.append(number))
        yield waiting
    finally:
        for each, handler in handlers.items():
            signal.signal(each, signal.SIG_DFL if handler is None else handler)
        for number in waiting[:1]:
            signal.raise_signal(number)
