"""A second process, on another core, that answers questions beside what this one does meanwhile.

Unlike a fork it may be started beside threads, and stays for many questions.
"""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
from collections.abc import Callable
from importlib import import_module
from typing import Any, BinaryIO, Generic, TypeVar, cast

Question = TypeVar("Question")
Reply = TypeVar("Reply")
# What the second process runs; it finds modules where this one does.
_SERVE = f"from {__name__} import serve; serve()"


class SecondProcess(Generic[Question, Reply]):
    """A process that answers one question at a time by a function of a module.

    The function must have no side effects.  Without a second core, or where the process cannot be had or has
    gone, questions are answered in this process when their replies are asked for.  One thread uses it.
    """

    def __init__(self, reply: Callable[[Question], Reply]) -> None:
        self._reply = reply
        self._asked: Question | None = None
        self._process = _started(reply) if (os.cpu_count() or 1) > 1 else None

    def ask(self, question: Question) -> None:
        """Have a question answered meanwhile, in the place of one whose reply was not asked for."""
        self._received()
        if self._process is None:
            return
        try:
            pickle.dump(question, _pipe(self._process.stdin), pickle.HIGHEST_PROTOCOL)
            _pipe(self._process.stdin).flush()
        except OSError:
            self.close()
        else:
            self._asked = question

    def reply(self, question: Question) -> Reply:
        """The reply to a question: to the one that was asked last it is on its way."""
        if self._asked is question:
            found = self._received()
            if found:
                return found[0]
        return self._reply(question)

    def close(self) -> None:
        """End the process."""
        process, self._process, self._asked = self._process, None, None
        if process is not None:
            process.kill()
            process.wait()
            for pipe in (process.stdin, process.stdout):
                _close(_pipe(pipe))

    def _received(self) -> tuple[Reply] | None:
        """What the process replies to what it was asked; None where it was asked nothing, or failed."""
        if self._asked is None or self._process is None:
            return None
        self._asked = None
        try:
            found: tuple[Reply] | None = pickle.load(_pipe(self._process.stdout))
        except (OSError, EOFError, pickle.UnpicklingError):
            self.close()
            return None
        return found


def _started(reply: Callable[..., object]) -> subprocess.Popen[bytes] | None:
    """The process; it has nothing to say, also when it is stopped together with this one."""
    command = [sys.executable, "-P", "-c", _SERVE, reply.__module__, reply.__qualname__]
    try:
        return subprocess.Popen(
            command,
            env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
        )
    except OSError:  # there may be no more processes, or too little memory
        return None


def _pipe(pipe: object) -> BinaryIO:
    return cast(BinaryIO, pipe)


def _close(pipe: BinaryIO) -> None:
    try:
        pipe.close()
    except OSError:  # what was not sent yet cannot be
        return


def serve() -> None:
    """In the second process: reply to each question until there are none, as when the first has gone."""
    module, name = sys.argv[1:]
    reply: Callable[[Any], Any] = getattr(import_module(module), name)
    asking, replying = sys.stdin.buffer, sys.stdout.buffer
    while True:
        try:
            question = pickle.load(asking)
        except EOFError:
            return
        pickle.dump(_reply_of(reply, question), replying, pickle.HIGHEST_PROTOCOL)
        replying.flush()


def _reply_of(reply: Callable[[Any], Any], question: Any) -> tuple[Any] | None:
    """A reply; None where there is none, which then fails where it can be told."""
    try:
        return (reply(question),)
    except Exception:
        return None
