"""Questions answered in a second process: the same replies as in this one, and nothing left running."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator

import pytest

from booklet.measure.second_process import SecondProcess
from tests.cli.runs import ends_soon
from tests.measure.replies import as_often, twice

# Starts one, says which process that is, and waits.
PARENT = """
import os
os.cpu_count = lambda: 2
from booklet.measure.second_process import SecondProcess
from tests.measure.replies import twice
second = SecondProcess(twice)
second.ask(4)
print(second.reply(4)[0], flush=True)
input()
"""


@pytest.fixture(autouse=True)
def two_cores(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "cpu_count", lambda: 2)


@pytest.fixture
def second() -> Iterator[SecondProcess[int, tuple[int, int]]]:
    process = SecondProcess(twice)
    yield process
    process.close()


def test_what_was_asked_is_answered_there(second: SecondProcess[int, tuple[int, int]]) -> None:
    workers = set()
    for question in (1, 2, 3):
        second.ask(question)
        worker, reply = second.reply(question)
        assert reply == 2 * question
        workers.add(worker)
    assert len(workers) == 1
    assert os.getpid() not in workers


def test_what_was_not_asked_is_answered_here(second: SecondProcess[int, tuple[int, int]]) -> None:
    assert second.reply(7) == (os.getpid(), 14)
    second.ask(300)
    assert second.reply(500) == (os.getpid(), 1000)
    worker, reply = second.reply(300)
    assert (worker != os.getpid(), reply) == (True, 600)
    assert second.reply(300) == (os.getpid(), 600)  # it was told once


def test_a_question_is_forgotten_for_a_newer_one(second: SecondProcess[int, tuple[int, int]]) -> None:
    second.ask(1000)
    second.ask(2000)
    worker, reply = second.reply(2000)
    assert (worker != os.getpid(), reply) == (True, 4000)
    assert second.reply(1000) == (os.getpid(), 2000)


def test_replies_larger_than_a_pipe_holds_hold_nothing_up() -> None:
    second = SecondProcess(as_often)
    second.ask(900)
    second.ask(901)
    assert len(second.reply(901)) == 901_000
    second.close()


def test_what_fails_there_fails_here_where_it_can_be_told(
    second: SecondProcess[int, tuple[int, int]], capfd: pytest.CaptureFixture[str]
) -> None:
    second.ask(0)
    with pytest.raises(ValueError, match="no question"):
        second.reply(0)
    second.ask(5)
    worker, reply = second.reply(5)
    assert (worker != os.getpid(), reply) == (True, 10)
    assert capfd.readouterr().err == ""


def test_when_the_process_has_gone_questions_are_answered_here(
    second: SecondProcess[int, tuple[int, int]], monkeypatch: pytest.MonkeyPatch
) -> None:
    second.ask(13)
    monkeypatch.setattr(os, "_exit", lambda _: None)
    assert second.reply(13) == (os.getpid(), 26)
    for question in (300, 400):
        second.ask(question)
        assert second.reply(question) == (os.getpid(), 2 * question)


def test_without_a_second_core_questions_are_answered_here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "cpu_count", lambda: 1)
    second = SecondProcess(twice)
    second.ask(3)
    assert second.reply(3) == (os.getpid(), 6)
    second.close()


def test_where_no_process_can_be_started_questions_are_answered_here(monkeypatch: pytest.MonkeyPatch) -> None:
    def none_left(*_: object, **__: object) -> None:
        raise OSError

    monkeypatch.setattr(subprocess, "Popen", none_left)
    second = SecondProcess(twice)
    second.ask(3)
    assert second.reply(3) == (os.getpid(), 6)


def test_it_is_ended(second: SecondProcess[int, tuple[int, int]]) -> None:
    second.ask(3)
    worker, _ = second.reply(3)
    second.close()
    with pytest.raises(ProcessLookupError):
        os.kill(worker, 0)
    assert second.reply(3) == (os.getpid(), 6)


def test_it_ends_with_the_first_process_however_that_ends() -> None:
    command = [sys.executable, "-c", PARENT]
    path = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE}
    with subprocess.Popen(command, env=path, start_new_session=True, **pipes) as parent:  # type: ignore[call-overload]
        assert parent.stdout is not None
        assert int(parent.stdout.readline()) != parent.pid
        parent.kill()
        assert ends_soon(parent.pid)
