"""One mutant through `check` and `make`, each in a forked process with limits on time and memory."""

from __future__ import annotations

import json
import os
import resource
import signal
import sys
import tempfile
import traceback
from collections.abc import Sequence
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from dataclasses import asdict, dataclass, field
from functools import cache
from importlib import import_module
from io import StringIO
from pathlib import Path
from typing import Any
from unittest.mock import patch

from tests.fuzz.mutants import PICTURE, Mutant, picture_of

# Of the processor, on a computer that does little else: two programs on one core slow each other down.
CPU_SECONDS = 5
MEGABYTES = 500
SPEC = "kit.yaml"
_KIB, _MIB = 1 << 10, 1 << 20
# A process that waits for something would never use up its time of the processor.
_WAIT_SECONDS = 120
FAULT = "FAULT "


@dataclass(frozen=True)
class Told:
    """What a command told and took: its exit code, None where it was ended, by `signal`; CPU seconds, MB."""

    exit: int | None
    out: str = ""
    err: str = ""
    seconds: float = 0.0
    megabytes: float = 0.0
    signal: int = 0


@dataclass(frozen=True)
class Outcome:
    """What became of a mutant; `files` are those that `make` left, with their beginnings and ends."""

    check: Told
    make: Told | None = None
    files: dict[str, tuple[str, str]] = field(default_factory=dict)


def run_mutant(
    mutant: Mutant,
    *,
    figures: bool,
    is_made: bool = True,
    is_made_if_refused: bool = False,
    seconds: int = CPU_SECONDS,
) -> Outcome:
    """Check a mutant, and make it too, if nothing is wrong with it or in any case.

    With `figures` all files are written, else only the pages to read and the tables.
    """
    with tempfile.TemporaryDirectory(prefix="fuzz-") as folder:
        home = Path(folder)
        (home / SPEC).write_bytes(mutant.text.encode("utf-8", "surrogatepass"))
        (home / PICTURE).write_bytes(picture_of(mutant))
        check = _limited(home, ["check", SPEC], figures, seconds)
        if not ((is_made and check.exit == 0) or (is_made_if_refused and check.exit == 1)):
            return Outcome(check)
        make = _limited(home, ["make", SPEC, "--out", "out"], figures, seconds)
        return Outcome(check, make, _files(home))


def _files(home: Path) -> dict[str, tuple[str, str]]:
    found = {}
    for path in sorted(home.rglob("*")):
        if path.is_file() and path.name not in (SPEC, PICTURE):
            data = path.read_bytes()
            found[str(path.relative_to(home))] = (data[:5].decode("latin-1"), data[-8:].decode("latin-1"))
    return found


def _limited(home: Path, arguments: Sequence[str], figures: bool, seconds: int) -> Told:
    """Run a command in a fork of this process."""
    reading, writing = os.pipe()
    sys.stdout.flush()
    child = os.fork()
    if child == 0:
        os.close(reading)
        _in_fork(home, arguments, figures, seconds, writing)
    os.close(writing)
    with os.fdopen(reading, "rb") as pipe:
        sent = pipe.read()
    _, status, used = os.wait4(child, 0)
    if not sent:
        ended = os.WTERMSIG(status) if os.WIFSIGNALED(status) else 0
        return Told(None, signal=ended, seconds=used.ru_utime + used.ru_stime, megabytes=_mb(used.ru_maxrss))
    return Told(**json.loads(sent))


def _mb(maxrss: int) -> float:
    return maxrss * _KIB / _MIB


def _in_fork(home: Path, arguments: Sequence[str], figures: bool, seconds: int, writing: int) -> None:
    try:
        os.chdir(home)
        signal.alarm(_WAIT_SECONDS)
        resource.setrlimit(resource.RLIMIT_CPU, (seconds + 1, seconds + 1))
        _limit_memory()
        told = _told(arguments, figures)
        with os.fdopen(writing, "wb") as pipe:
            pipe.write(json.dumps(asdict(told)).encode())
    finally:
        os._exit(0)


def _limit_memory() -> None:
    """Let the process grow to so many megabytes, what it shares with its parent counted."""
    size, resident = map(int, Path("/proc/self/statm").read_text().split()[:2])
    page = resource.getpagesize()
    most = MEGABYTES * _MIB + (size - resident) * page
    resource.setrlimit(resource.RLIMIT_AS, (most, most))


def _told(arguments: Sequence[str], figures: bool) -> Told:
    from booklet.cli.main import main

    out, err = StringIO(), StringIO()
    with redirect_stdout(out), redirect_stderr(err), _as_asked(figures):
        try:
            code: int | None = main(arguments)
        except SystemExit as ended:
            code = ended.code if isinstance(ended.code, int) else 2
    used = resource.getrusage(resource.RUSAGE_SELF)
    return Told(code, out.getvalue(), err.getvalue(), used.ru_utime + used.ru_stime, _mb(used.ru_maxrss))


@contextmanager
def _as_asked(figures: bool) -> Any:
    """All work in this process, where it is counted; a fault told with its traceback."""
    names = ("cli.guard", "cli.commands", "cli.binding_options", "measure.fork")
    guard, commands, options, fork = (import_module(f"booklet.{name}") for name in names)
    changes: list[tuple[Any, str, Any]] = [
        (guard, "_fault_text", _with_traceback),
        (fork, "_may_fork", lambda: False),
    ]
    if not figures:
        changes += [(commands, "_figure_files", _nothing), (options, "print_files", _nothing)]
    patches = [patch.object(*change) for change in changes]
    for each in patches:
        each.start()
    try:
        yield
    finally:
        for each in patches:
            each.stop()


def _nothing(*_: object) -> dict[str, bytes]:
    return {}


def _with_traceback(fault: Exception) -> str:
    return FAULT + "".join(traceback.format_exception(fault))


@cache
def warm_up(mutant: Mutant) -> None:
    """Import and read once, in this process, what every fork needs."""
    with tempfile.TemporaryDirectory(prefix="fuzz-") as folder, redirect_stdout(StringIO()):
        (Path(folder) / SPEC).write_text(mutant.text, encoding="utf-8")
        from booklet.cli.main import main, raise_gc_threshold

        raise_gc_threshold()
        with redirect_stderr(StringIO()), _as_asked(figures=True):
            main(["make", str(Path(folder) / SPEC), "--out", str(Path(folder) / "out")])
