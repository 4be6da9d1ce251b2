"""The program in a process of its own, and small kits for it."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import tempfile
import time
import traceback
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import IO, NoReturn

from booklet.cli import main

# A kit with something for each file that `make` writes, soon made: what is tested with it is not its content.
SMALL_SPEC = """\
title: First kit
publisher: Harbour Paper
sheet: 6 x 6
papers:
  reed: {title: Reed, front: {colours: ["#dfe7d2"]}}
  sand: {title: Sand, front: {colours: ["#efe3cf"]}}
sheets:
  - {id: reed, paper: reed, cuts: [{at: [4], leaves: [panel, strip]}]}
  - {id: sand, paper: sand}
layouts:
  - id: first-page
    title: First page
    pocket: 1
    base: sand
    steps:
      - {place: panel, left: 0, top: 0}
      - {place: strip, right: 0, top: 0}
"""
ROOT = Path(__file__).parents[2]
_PATHS = [path for path in [os.environ.get("PYTHONPATH")] if path]
# The program as it is called, once the interpreter has begun and has said so.
BEGUN = b"begun\n"
PROGRAM = "from booklet.__main__ import run; import sys; print('begun', flush=True); run()"


def run(*arguments: str | Path, folder: Path = ROOT, **settings: str) -> subprocess.CompletedProcess[bytes]:
    """`booklet`, from its beginning to its end."""
    return subprocess.run(
        [sys.executable, "-m", "booklet", *map(str, arguments)],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": os.pathsep.join([str(ROOT), *_PATHS]), **settings},
        capture_output=True,
        check=False,
    )


def started(*arguments: str | Path, program: str = PROGRAM) -> subprocess.Popen[bytes]:
    """`booklet` in a group of processes of its own, at its first line."""
    process = subprocess.Popen(
        [sys.executable, "-c", program, *map(str, arguments)],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        start_new_session=True,
    )
    assert process.stdout is not None
    assert process.stdout.readline() == BEGUN
    return process


def runs_on(group: int) -> int:
    """How many processes of the group still run (one that has ended waits a moment to be cleared away)."""
    count = 0
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            state, _, its_group = stat.read_text().rpartition(")")[2].split()[:3]
        except OSError:
            continue
        count += int(its_group) == group and state != "Z"
    return count


def ends_soon(group: int) -> bool:
    """Whether every process of the group ends before long."""
    for _ in range(100):
        if not runs_on(group):
            return True
        time.sleep(0.1)
    return False


def files_in(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, hidden ones too, by its name from there."""
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def small_kits(folder: Path, names: Sequence[str]) -> list[Path]:
    """Small kits that differ in their titles."""
    folder.mkdir(exist_ok=True)
    for name in names:
        text = SMALL_SPEC.replace("title: First kit", f"title: The kit of {name}")
        (folder / f"{name}.yaml").write_text(text, encoding="utf-8")
    return [folder / f"{name}.yaml" for name in names]


def in_copy(action: Callable[[], int], log: Path) -> int:
    """Do something in a copy of this process, in which all is loaded already; the copy's number.

    What it says goes to a file.  It can be stopped as the program can, and ends with what the action returns.
    """
    process = os.fork()
    if process:
        return process
    code = 1
    try:
        for stopper in (signal.SIGINT, signal.SIGTERM):
            signal.signal(stopper, signal.default_int_handler)
        with log.open("a", encoding="utf-8") as sys.stdout, log.open("a", encoding="utf-8") as sys.stderr:
            code = action()
    except BaseException:
        log.write_text(f"{log.read_text()}\n{traceback.format_exc()}")
    finally:
        os._exit(code)


def run_in_copy(*arguments: str | Path, folder: Path = ROOT) -> subprocess.CompletedProcess[bytes]:
    """`booklet` in a copy of this process, in which all is loaded already, from its beginning to its end."""
    with tempfile.TemporaryFile() as out, tempfile.TemporaryFile() as err:
        process = os.fork()
        if process == 0:
            _end_as_program(list(map(str, arguments)), folder, out.fileno(), err.fileno())
        code = ended(process)
        said, told = (_whole(stream) for stream in (out, err))
    return subprocess.CompletedProcess(arguments, code, said, told)


def _end_as_program(arguments: list[str], folder: Path, out: int, err: int) -> NoReturn:
    """Become the program: with its own two streams, which those that it starts are given, too."""
    code = 1
    try:
        os.chdir(folder)
        for number, stream in ((1, out), (2, err)):
            os.dup2(stream, number)
        with open(1, "w", encoding="utf-8") as sys.stdout, open(2, "w", encoding="utf-8") as sys.stderr:
            code = main(arguments)
    except BaseException:
        os.write(err, traceback.format_exc().encode())
    finally:
        os._exit(code)


def _whole(stream: IO[bytes]) -> bytes:
    stream.seek(0)
    return stream.read()


def ended(process: int) -> int:
    """How a copy ended: its exit code, negative for the signal that killed it."""
    return os.waitstatus_to_exitcode(os.waitpid(process, 0)[1])
