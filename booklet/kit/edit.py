"""Put steps into a spec's text in place of `cuts: plan`, and change nothing else."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from booklet.kit.errors import UsageError, place_text
from booklet.kit.finding import SpecPath
from booklet.kit.sheet import CutStep
from booklet.kit.source import Source
from booklet.kit.tree import Spot
from booklet.kit.typed import block_cuts, flow_cuts
from booklet.measure.dataclass import dataclass
from booklet.measure.length import Unit

# What YAML takes for the end of a line (PyYAML's reader, which counts the lines).
_BREAK = re.compile("\r\n|[\n\r\x85\u2028\u2029]")
_PLAN = re.compile("plan|\"plan\"|'plan'")
_KEY = re.compile(r"""["']?cuts["']?\s*:""")


@dataclass(frozen=True)
class NewCuts:
    """The steps for one sheet, and a comment above them."""

    cuts: tuple[CutStep, ...]
    comment: str


@dataclass(frozen=True)
class _Edit:
    """Other text for what stands between two places."""

    start: int
    end: int
    text: str


def put_cuts(text: str, source: Source, new: Mapping[int, NewCuts], unit: Unit) -> str:
    """The spec's text with steps for sheets, by their index, where it says `cuts: plan`.

    Between braces the steps stand in one line, else in lines of their own below a comment.  Raises UsageError
    where a sheet's `cuts: plan` is not typed at the sheet itself.
    """
    edits = [
        edit
        for index, cuts in new.items()
        for edit in _edits(text, source, ("sheets", index, "cuts"), cuts, unit)
    ]
    if len({(edit.start, edit.end) for edit in edits}) < len(edits):
        raise UsageError(f"two sheets of {source.file_name} share one `cuts: plan`; write it out for each")
    for edit in sorted(edits, key=lambda edit: -edit.start):
        text = text[: edit.start] + edit.text + text[edit.end :]
    return text


def _edits(text: str, source: Source, where: SpecPath, new: NewCuts, unit: Unit) -> Iterator[_Edit]:
    key, node = source.spot(where), source.node(where)
    start = _offset(text, key)
    colon = _KEY.match(text, start)
    value = _offset(text, node.spot) if node is not None else -1
    plan = _PLAN.match(text, value) if value >= 0 else None
    if colon is None or plan is None or text[colon.end() : value].strip():
        place = place_text(source.name, key.line)
        raise UsageError(f"{place}: `cuts: plan` is not typed at the sheet itself; write it out there")
    if source.is_flow(where[:-1]):
        yield _Edit(plan.start(), plan.end(), flow_cuts(new.cuts, unit))
        return
    line_end = _BREAK.search(text, plan.end())
    end = line_end.start() if line_end else len(text)
    ending = line_end or _BREAK.search(text)
    indent = key.column + 1
    lines = [f"{' ' * indent}# {new.comment}", *block_cuts(new.cuts, unit, indent)]
    breaks = ending[0] if ending else "\n"
    yield _Edit(colon.end(), plan.end(), "")
    yield _Edit(end, end, "".join(breaks + line for line in lines))


def _offset(text: str, spot: Spot) -> int:
    """How many letters stand before a place."""
    at = 0
    for _ in range(spot.line - 1):
        found = _BREAK.search(text, at)
        if found is None:
            return len(text)
        at = found.end()
    return at + spot.column - 1
