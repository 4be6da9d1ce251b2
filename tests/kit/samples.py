"""A small whole kit spec, and copies of it that are broken in one line."""

from __future__ import annotations

from pathlib import Path

from booklet.kit.errors import Problem, SpecError
from booklet.kit.load import LoadedKit, parse_kit

FOLDER = Path(__file__).parent / "specs"
HARBOUR = (FOLDER / "harbour.yaml").read_text(encoding="utf-8")


def parsed(text: str) -> LoadedKit:
    """The kit of a spec's text."""
    return parse_kit(text, "harbour.yaml", FOLDER)


def with_line(old: str, new: str, text: str = HARBOUR) -> tuple[str, int]:
    """The spec with the one line that holds `old` typed differently there, and that line's number."""
    lines = text.splitlines()
    (number,) = [number for number, line in enumerate(lines) if old in line]
    lines[number] = lines[number].replace(old, new)
    return "\n".join(lines) + "\n", number + 1


def problems(text: str) -> tuple[Problem, ...]:
    """What is wrong with a spec's text; nothing if it loads."""
    try:
        parsed(text)
    except SpecError as error:
        return error.problems
    return ()
