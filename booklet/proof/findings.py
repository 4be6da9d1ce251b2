"""Every finding on a kit, from every stage, in one list."""

from __future__ import annotations

from booklet.kit.finding import Finding
from booklet.placing.resolved import ResolvedKit
from booklet.placing.supplies import check_supplies
from booklet.proof.images import check_images
from booklet.proof.letters import check_letters
from booklet.proof.titles import check_titles
from booklet.sorting.pile import check_pile


def kit_findings(resolved: ResolvedKit) -> tuple[Finding, ...]:
    """What cutting, sorting, placing, the supplies, images, letters and titles have to say, in order."""
    return (
        *(finding for sheet in resolved.sheets for finding in sheet.findings),
        *resolved.ledger.findings,
        *check_pile(resolved.kit),
        *(finding for layout in resolved.layouts for finding in layout.findings),
        *check_supplies(resolved.kit, resolved.layouts),
        *check_images(resolved),
        *check_letters(resolved.kit),
        *check_titles(resolved.kit),
    )
