"""How long a changed page takes in a warm process, from the text of its spec to its picture.

    python -m tests.benchmarks.bench_again [KIT] [ROUNDS]

Of each sheet that is cut the first reading is set a mark back, of each layout one distance of one of its
steps.  Times are of the processor, a median for each sheet and each layout, and of all of those.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from io import StringIO
from pathlib import Path
from statistics import median
from time import process_time
from typing import Any

import pypdfium2
import yaml

from booklet.cli.main import raise_gc_threshold
from booklet.kit.load import parse_kit
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit, parse_length
from booklet.measure.words import exact_length
from booklet.pages.again import lay_section_again, write_page_again
from booklet.pages.booklet import LaidBooklet, make_booklet
from booklet.placing.resolved import ResolvedKit, resolve_kit

KITS = Path(__file__).resolve().parents[2] / "kit_specs"
# The goals in milliseconds: a sheet, a layout.
GOALS = {"sheet": 100.0, "layout": 150.0}
# Pixels to a point: as a page is looked at on a screen.
_SCALE = 96 / 72
_MARK = Fraction(1, 8)
_DISTANCES = ("left", "right", "top", "bottom", "gap")


@dataclass(frozen=True)
class Change:
    """A section, and texts of the spec between which it changes: as it is, a mark less, and a mark more."""

    anchor: str
    texts: tuple[str, str, str]

    @property
    def kind(self) -> str:
        """What changes: a sheet or a layout."""
        return self.anchor.split("-")[0]


def changes(kit: str) -> Iterator[Change]:
    """A change for each sheet with written cuts, and for each layout with a distance that is a number."""
    # As it is typed: `on` is a word.
    usual = yaml.load((KITS / f"{kit}.yaml").read_text(), yaml.BaseLoader)
    text = _dumped(usual)
    for sheet in usual["sheets"]:
        cuts = [cut for cut in sheet.get("cuts", ()) if isinstance(cut, dict) and "at" in cut]
        if cuts:
            readings = cuts[0]["at"]
            place = (readings, 0) if isinstance(readings, list) else (cuts[0], "at")
            yield Change(f"sheet-{sheet['id']}", (text, *_with(usual, *place)))
    for layout in usual["layouts"]:
        said = [(step, key) for step in layout["steps"] for key in _DISTANCES if _is_length(step.get(key))]
        if said:
            yield Change(f"layout-{layout['id']}", (text, *_with(usual, *said[0])))


def _is_length(value: object) -> bool:
    return isinstance(value, str) and value[:1].isdigit()


def _with(usual: Any, holder: Any, key: Any) -> tuple[str, str]:
    """The spec with a number in it an eighth less, and an eighth more."""
    before = holder[key]
    texts = []
    for more in (-_MARK, _MARK):
        holder[key] = exact_length(parse_length(before, Unit.INCH) + more, Unit.INCH)
        texts.append(_dumped(usual))
    holder[key] = before
    return texts[0], texts[1]


def _dumped(data: Any) -> str:
    out = StringIO()
    yaml.safe_dump(data, out, sort_keys=False, allow_unicode=True, width=100)
    return out.getvalue()


def look(text: str, kit: str, anchor: str, before: tuple[ResolvedKit, LaidBooklet]) -> float | None:
    """The milliseconds from a text to the picture of its changed page; None where more pages change."""
    start = process_time()
    resolved = resolve_kit(parse_kit(text, f"{kit}.yaml", KITS), before[0])
    again = lay_section_again(before[1], resolved, anchor)
    if again is None:
        return None
    pypdfium2.PdfDocument(write_page_again(again, min(again.pages)).pdf)[0].render(scale=_SCALE).to_pil()
    return (process_time() - start) * 1000


def bench_again(kit: str, rounds: int) -> dict[str, dict[str, float]]:
    """The median of each sheet and of each layout, in milliseconds, by its anchor."""
    found: dict[str, dict[str, float]] = {"sheet": {}, "layout": {}}
    before: tuple[ResolvedKit, LaidBooklet] | None = None
    for change in changes(kit):
        if before is None:
            resolved = resolve_kit(parse_kit(change.texts[0], f"{kit}.yaml", KITS))
            before = resolved, make_booklet(resolved)
        look(change.texts[1], kit, change.anchor, before)
        times = [look(change.texts[1], kit, change.anchor, before) for _ in range(rounds)]
        if None not in times:
            found[change.kind][change.anchor] = median(time for time in times if time is not None)
    return found


if __name__ == "__main__":
    raise_gc_threshold()
    chosen = sys.argv[1] if len(sys.argv) > 1 else "hill-line"
    for kind, times in bench_again(chosen, int(sys.argv[2]) if len(sys.argv) > 2 else 5).items():
        for anchor, time in times.items():
            print(f"{anchor:32} {time:4.0f} ms")
        whole = median(times.values())
        met = "within" if whole <= GOALS[kind] else "NOT within"
        print(f"a {kind}: {whole:.0f} ms, {met} {GOALS[kind]:g} ms")
