"""Whether the booklet is thin enough to be folded as one."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.binding.signature import MOST_FOLDED, PAGES_PER_SHEET, USUAL_SIGNATURE
from booklet.kit.finding import Finding, warning
from booklet.placing.resolved import ResolvedKit

# Two covers and the welcome.
_OTHER_PAGES = 3


def least_pages(resolved: ResolvedKit) -> int:
    """How many pages the booklet has at least: one for each sheet that is cut and each layout, and a few."""
    cut = sum(1 for sheet in resolved.sheets if sheet.stages)
    return cut + len(resolved.layouts) + _OTHER_PAGES


def check_thickness(resolved: ResolvedKit) -> Iterator[Finding]:
    """A warning for a kit of more pages than are folded into one another; pages are not laid out for that."""
    sheets = -(-least_pages(resolved) // PAGES_PER_SHEET)
    if sheets > MOST_FOLDED:
        found = (
            f"at least {sheets} sheets of paper, of which {MOST_FOLDED} or so of 80 g can be folded as one"
        )
        cure = f"make it with --sheets-in-signature {USUAL_SIGNATURE}, or of flat leaves with --flat"
        yield warning("booklet-thick", ("layouts",), found, cure)
