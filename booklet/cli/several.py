"""`booklet make` of several kits: each in a process of its own, told apart, in the order given."""

from __future__ import annotations

import gc
import json
import os
import sys
from argparse import ArgumentParser, ArgumentTypeError, Namespace
from collections.abc import Mapping, Sequence
from contextlib import closing, suppress
from functools import partial
from typing import Any, TextIO

from booklet.cli.commands import make
from booklet.cli.exits import Exit
from booklet.cli.guard import complain, guarded
from booklet.cli.json_text import json_text
from booklet.cli.processes import Ended, core_count, run_each
from booklet.cli.progress import Tell, note, out_of_the_way, progress
from booklet.kit.errors import UsageError

# More processes than any computer at a desk has cores.
_MOST = 256


def add_several(parser: ArgumentParser) -> None:
    """Declare how many kits are made at once."""
    parser.add_argument(
        "--processes",
        type=_processes,
        metavar="N",
        help="of several kits, make so many at a time (default: as many as there are cores)",
    )


def _processes(text: str) -> int:
    if not (text.isascii() and text.isdigit() and 1 <= int(text[:9]) <= _MOST):
        raise ArgumentTypeError(f"expected from 1 to {_MOST}")
    return int(text)


def make_kits(options: Namespace) -> Exit:
    """Make one kit, or each of several; one that cannot be made does not keep the others from it.

    Raises UsageError, before anything is written, where two would write the same files.
    """
    if len(options.kits) == 1:
        return make(_of(options, options.kits[0]))
    _refuse_same_names(options.kits)
    ended: dict[int, Ended] = {}
    try:
        with progress() as tell:
            _make_all(options, ended, tell)
        is_stopped = False
    except KeyboardInterrupt:
        is_stopped = True
    if options.json:
        print(json_text(_told(options.kits, ended)))
    _sum_up(options.kits, ended)
    if is_stopped:
        complain("stopped; of the kits that were not made, what was there before is still there")
        return Exit.STOPPED
    return max(map(_exit_of, ended.values()))


def _of(options: Namespace, kit: str) -> Namespace:
    return Namespace(**{**vars(options), "kit": kit})


def _refuse_same_names(kits: Sequence[str]) -> None:
    """Raise UsageError where two kits have one name: their files would be called alike."""
    first: dict[str, str] = {}
    for kit in kits:
        name = _name(kit)
        if name in first:
            raise UsageError(
                f"{first[name]} and {kit} would write files of the same names: give one of them another "
                "name, or make them one by one with an --out of their own"
            )
        if name is not None:
            first[name] = kit


def _name(kit: str) -> str | None:
    """What a kit's files are named for, in small letters: some disks take them for capitals."""
    from booklet.kit.bundled import find_spec

    with suppress(UsageError):
        return find_spec(kit).stem.casefold()
    return None


def _make_all(options: Namespace, ended: dict[int, Ended], tell: Tell) -> None:
    """Make every kit; note by its place how each has ended, and show it once those before it are shown."""
    _load_what_all_need()
    works = [partial(guarded, make, _of(options, kit)) for kit in options.kits]
    shown = 0
    with closing(run_each(works, options.processes or core_count())) as ending:
        tell(f"Making {len(works)} kits")
        try:
            for place, its in ending:
                ended[place] = its
                tell(f"Made {len(ended)} of {len(works)} kits")
                while shown in ended:
                    _show(options, shown, ended[shown])
                    shown += 1
        except KeyboardInterrupt:
            for place in sorted(place for place in ended if place >= shown):
                _show(options, place, ended[place])
            raise


def _load_what_all_need() -> None:
    """Import the libraries once for all processes, and leave alone from now on what is in memory."""
    import numpy  # noqa: F401
    import pikepdf  # noqa: F401

    import booklet.cli.tables
    import booklet.drawing.writers.svg_writer
    import booklet.pages.booklet  # noqa: F401

    gc.freeze()


# What is said.


def _show(options: Namespace, place: int, ended: Ended) -> None:
    """Print what was said of a kit below its name, on either stream; JSON follows at the end."""
    out, err = b"" if options.json else ended.out, ended.err
    if ended.code < 0:
        err += f"booklet: killed by signal {-ended.code}\n".encode()
    heading = f"== {options.kits[place]} ==\n"
    with out_of_the_way():
        _say(sys.stdout, heading, out)
        _say(sys.stderr, "" if out and _is_one_place() else heading, err)


def _say(stream: TextIO | None, heading: str, said: bytes) -> None:
    if said and stream is not None:
        stream.write(heading)
        stream.flush()
        stream.buffer.write(said)
        stream.flush()


def _is_one_place() -> bool:
    """Whether both streams go to one place, such as a terminal: one heading will do."""
    with suppress(OSError, ValueError):  # a stream that is no file
        return os.path.samestat(os.fstat(sys.stdout.fileno()), os.fstat(sys.stderr.fileno()))
    return False


def _told(kits: Sequence[str], ended: Mapping[int, Ended]) -> dict[str, Any]:
    """What `--json` says of each kit that is made alone, with its name and its exit code."""
    each = [
        {"kit": kits[place], "exit_code": _exit_of(its), **(json.loads(its.out) if its.out else {})}
        for place, its in sorted(ended.items())
    ]
    return {"kits": each}


def _sum_up(kits: Sequence[str], ended: Mapping[int, Ended]) -> None:
    """Say at the end, on standard error, which kits are to be looked at."""
    wrong = [kits[place] for place, its in sorted(ended.items()) if its.code != Exit.WELL]
    said = f"{len(ended) - len(wrong)} of {len(kits)} kits are well"
    note(said + (f"; look at {', '.join(wrong)}" if wrong else ""))


def _exit_of(ended: Ended) -> Exit:
    return Exit(ended.code) if ended.code in set(Exit) else Exit.CALLED_WRONGLY
