"""The judge of the mutants sees each thing that must not happen."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.fuzz.judge import faults
from tests.fuzz.mutants import Mutant, starter
from tests.fuzz.run import CPU_SECONDS, FAULT, MEGABYTES, Outcome, Told, run_mutant, warm_up

TEXT = "title: x\nsheet: y\n"
SOUND = Told(0, "nothing wrong\n")
REFUSED = Told(1, "kit.yaml:2: sheet: found y\n1 error\n")
MADE = Told(0, "out/kit-read.pdf\n")
FILES = {
    "out/kit-read.pdf": ("%PDF-", "\n%%EOF\n"),
    "out/kit-sorting.csv": ("Piece", "1\n"),
    "out/kit-supplies.csv": ("Suppl", "1\n"),
}
WELL = Outcome(SOUND, MADE, FILES)


def kinds(outcome: Outcome) -> list[str]:
    return [fault.kind for fault in faults(TEXT, outcome, figures=False)]


@pytest.mark.parametrize("outcome", [WELL, Outcome(REFUSED), Outcome(REFUSED, Told(1, "", "1 error\n"))])
def test_what_is_well_is_not_blamed(outcome: Outcome) -> None:
    assert kinds(outcome) == []


@pytest.mark.parametrize(
    ("check", "kind"),
    [
        (Told(2, "", f"booklet: {FAULT}Traceback"), "check ends in a traceback"),
        (Told(None, signal=24), "check was ended"),
        (
            Told(1, "", "booklet: the kit is larger than this computer can work out\n"),
            "takes too much memory",
        ),
        (replace(SOUND, megabytes=MEGABYTES + 1), "check takes too much memory"),
        (replace(SOUND, seconds=CPU_SECONDS + 0.1), "check takes too long"),
        (Told(1, "sheet: found y\n1 error\n"), "a finding without a line"),
        (Told(1, "kit.yaml:9: sheet: found y\n1 error\n"), "a line that the spec does not have"),
        (Told(1, "kit.yaml:2: sheet: found y\n"), "no count at the end"),
        (Told(1, "kit.yaml:2: found \x1b[2J\n1 error\n"), "prints what a terminal obeys"),
    ],
)
def test_what_check_must_not_do(check: Told, kind: str) -> None:
    assert any(kind in found for found in kinds(Outcome(check)))


@pytest.mark.parametrize(
    ("outcome", "kind"),
    [
        (Outcome(SOUND, Told(1, "", "booklet: too much\n")), "check says nothing, make refuses"),
        (Outcome(REFUSED, MADE, FILES), "check refuses, make says nothing"),
        (Outcome(REFUSED, Told(1), FILES), "files in spite of a refusal"),
        (Outcome(SOUND, MADE, {**FILES, "out/.booklet-1/new": ("", "")}), "files left aside"),
        (Outcome(SOUND, MADE, {}), "files lacking"),
        (Outcome(SOUND, MADE, {**FILES, "out/kit-read.pdf": ("%PDF-", "endobj\n")}), "half a file"),
    ],
)
def test_what_make_must_not_do(outcome: Outcome, kind: str) -> None:
    assert kind in kinds(outcome)


@pytest.mark.thorough
def test_a_kit_is_ended_at_its_limits(monkeypatch: pytest.MonkeyPatch) -> None:
    from booklet.placing import resolved

    def endless(*_: object, **__: object) -> None:
        while True:
            pass

    def large(*_: object, **__: object) -> bytes:
        return b"x" * (MEGABYTES << 21)

    warm_up(starter())
    for work, kind in ((endless, "check was ended"), (large, "check takes too much memory")):
        monkeypatch.setattr(resolved, "resolve_kit", work)
        outcome = run_mutant(Mutant("starter", (), starter().text, "sound"), figures=False, seconds=1)
        assert kind in [fault.kind for fault in faults(starter().text, outcome, figures=False)]
