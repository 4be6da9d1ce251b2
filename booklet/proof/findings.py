"""Every finding on a kit, from every stage, in one list."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.cutting.model import CutSheet
from booklet.kit.finding import Finding
from booklet.kit.kit import Kit
from booklet.placing.facing import check_facing
from booklet.placing.resolved import ResolvedKit
from booklet.placing.supplies import check_supplies
from booklet.proof.images import check_images
from booklet.proof.late_work import check_late_work
from booklet.proof.letters import check_letters
from booklet.proof.papers_used import check_papers_used
from booklet.proof.print_ways import check_print_ways
from booklet.proof.titles import check_titles
from booklet.proof.told_lengths import check_told_lengths
from booklet.proof.words_cut import check_words_cut
from booklet.sorting.ledger import check_pieces, made_pieces
from booklet.sorting.pile import check_pile


def sheet_findings(kit: Kit, sheets: Sequence[CutSheet]) -> tuple[Finding, ...]:
    """What there is to say of the sheets alone, whatever the layouts make of their pieces."""
    return (
        *(finding for sheet in sheets for finding in sheet.findings),
        *check_pieces(kit, made_pieces(kit, sheets)),
    )


def kit_findings(resolved: ResolvedKit) -> tuple[Finding, ...]:
    """What every stage has to say, in the order of the work, then of all that is printed."""
    return (
        *(finding for sheet in resolved.sheets for finding in sheet.findings),
        *resolved.ledger.findings,
        *check_pile(resolved.kit),
        *(finding for layout in resolved.layouts for finding in layout.findings),
        *check_facing(resolved.kit, resolved.layouts),
        *check_supplies(resolved.kit, resolved.layouts),
        *check_print_ways(resolved),
        *check_late_work(resolved),
        *check_words_cut(resolved),
        *check_told_lengths(resolved),
        *check_images(resolved),
        *check_letters(resolved.kit),
        *check_titles(resolved.kit),
        *check_papers_used(resolved.kit),
    )
