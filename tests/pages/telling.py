"""The sentences of a page whose steps are typed in YAML, with lengths as a hand types them."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping, Sequence
from pathlib import Path

from booklet.kit.finding import Severity
from booklet.kit.kit import Kit
from booklet.measure.length import Unit
from booklet.pages.sentences import StepWords, step_words
from booklet.placing.place_layouts import place_layouts
from booklet.placing.resolved import ResolvedKit
from booklet.sorting.ledger import Ledger
from tests.placing.layouts import PIECES, kit_of, pieces, steps_of

_FRACTION = re.compile("([0-9]?)([⁰¹²³⁴⁵⁶⁷⁸⁹]+⁄[₀₁₂₃₄₅₆₇₈₉]+)")


def typed(text: str) -> str:
    """Printed fractions as they are typed, `6¹⁄₄` as `6 1/4`, and every space a plain one."""

    def plain(found: re.Match[str]) -> str:
        whole = f"{found[1]} " if found[1] else ""
        return whole + unicodedata.normalize("NFKC", found[2]).replace("\u2044", "/")

    return _FRACTION.sub(plain, text).replace("\u00a0", " ")


def resolved(kit: Kit, sizes: Mapping[str, str] = PIECES) -> ResolvedKit:
    """A kit whose pieces come from nowhere, so that no label and no box is spoken of."""
    layouts = place_layouts(kit, pieces(sizes, kit.unit))
    return ResolvedKit(kit, Path(), (), Ledger((), ()), layouts)


def told(steps: str, unit: Unit = Unit.INCH, sizes: Mapping[str, str] = PIECES) -> Sequence[StepWords]:
    """The words of the steps of a page that is as it should be."""
    done = resolved(kit_of({"steps": steps_of(steps)}, unit=unit), sizes)
    (layout,) = done.layouts
    assert [finding for finding in layout.findings if finding.severity is Severity.ERROR] == []
    return step_words(done, layout)


def bodies(steps: str, unit: Unit = Unit.INCH, sizes: Mapping[str, str] = PIECES) -> list[str]:
    """The sentences of each step, lengths as typed."""
    return [typed(words.body) for words in told(steps, unit, sizes)]


def body(steps: str) -> str:
    """The sentences of the last step."""
    return bodies(steps)[-1]
