"""What must hold of a mutant that went through `check` and `make`."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from booklet.kit.words import is_unseen
from tests.fuzz.run import CPU_SECONDS, FAULT, MEGABYTES, SPEC, Outcome, Told

_LINED = re.compile(rf"{re.escape(SPEC)}:(\d+): .")
_COUNTED = re.compile(r"(nothing wrong|\d+ (errors?|warnings?|notes?))(, \d+ (errors?|warnings?|notes?))*")
_MORE = re.compile(r"and \d+ more")


@dataclass(frozen=True)
class Fault:
    """Something that must not happen, and what shows it."""

    kind: str
    shown: str


def faults(text: str, outcome: Outcome, figures: bool, seconds: int = CPU_SECONDS) -> Iterator[Fault]:
    """What is wrong with the way in which a spec was dealt with."""
    yield from _faults_of(outcome.check, "check", seconds)
    yield from _without_line(outcome.check, text)
    make = outcome.make
    if make is None:
        return
    yield from _faults_of(make, "make", seconds)
    if outcome.check.exit == 0 and make.exit != 0:
        yield Fault("check says nothing, make refuses", _last(make.err))
    if outcome.check.exit == 1 and make.exit == 0:
        yield Fault("check refuses, make says nothing", _last(outcome.check.out))
    yield from _half_written(make, outcome.files, figures)


def _faults_of(told: Told, command: str, seconds: int) -> Iterator[Fault]:
    said = told.out + told.err
    if told.exit is None:
        yield Fault(f"{command} was ended", f"by signal {told.signal}")
        return
    if FAULT in said:
        yield Fault(f"{command} ends in a traceback", said[said.index(FAULT) :])
    if "larger than this computer" in said:
        yield Fault(f"{command} takes too much memory", "")
    if told.exit not in (0, 1) and not _is_too_large(told):
        yield Fault(f"{command} exits {told.exit}", _last(told.err))
    if told.seconds > seconds:
        yield Fault(f"{command} takes too long", f"{told.seconds:.1f} s")
    if told.megabytes > MEGABYTES:
        yield Fault(f"{command} takes too much memory", f"{told.megabytes:.0f} MB")
    if any(map(is_unseen, said)):
        yield Fault(f"{command} prints what a terminal obeys", ascii(said)[:300])


def _without_line(told: Told, text: str) -> Iterator[Fault]:
    """Each line of `check` names a line of the spec; the last one counts them."""
    if told.exit is None or FAULT in told.err or _is_too_large(told):
        return
    if told.err:
        yield Fault("check complains without a line", _last(told.err))
        return
    *lines, count = told.out.splitlines() or [""]
    last_line = len(text.splitlines()) + 1
    for line in lines:
        found = _LINED.match(line)
        if not found and not _MORE.fullmatch(line):
            yield Fault("check: a finding without a line", line)
        elif found and not 1 <= int(found[1]) <= last_line:
            yield Fault("check: a line that the spec does not have", line)
    if not _COUNTED.fullmatch(count):
        yield Fault("check: no count at the end", count)


def _is_too_large(told: Told) -> bool:
    """Whether a file is refused for its size, which is that of no line."""
    return told.exit == 2 and "is larger than a kit spec can be" in told.err


def _half_written(make: Told, files: dict[str, tuple[str, str]], figures: bool) -> Iterator[Fault]:
    if make.exit != 0:
        if files:
            yield Fault("files in spite of a refusal", ", ".join(files))
        return
    aside = [name for name in files if "/." in f"/{name}"]
    if aside:
        yield Fault("files left aside", ", ".join(aside))
    wanted = {"out/kit-read.pdf", "out/kit-sorting.csv", "out/kit-supplies.csv"}
    lacking = (wanted | ({"out/kit-print.pdf"} if figures else set())) - files.keys()
    if lacking:
        yield Fault("files lacking", ", ".join(sorted(lacking)))
    for name, (begins, ends) in files.items():
        if name.endswith(".pdf") and not (begins == "%PDF-" and ends.endswith("%%EOF\n")):
            yield Fault("half a file", name)


def _last(said: str) -> str:
    lines = said.strip().splitlines()
    return lines[-1] if lines else ""
