"""Every finding on a kit, from every stage, in one list."""

from __future__ import annotations

from booklet.kit.finding import Finding
from booklet.placing.supplies import check_supplies
from booklet.placing.worked import WorkedKit
from booklet.proof.images import check_images
from booklet.proof.letters import check_letters
from booklet.sorting.pile import check_pile


def kit_findings(worked: WorkedKit) -> tuple[Finding, ...]:
    """What cutting, sorting, placing, the supplies, images and typefaces have to say, in the work's order."""
    return (
        *(finding for sheet in worked.sheets for finding in sheet.findings),
        *worked.ledger.findings,
        *check_pile(worked.kit),
        *(finding for layout in worked.layouts for finding in layout.findings),
        *check_supplies(worked.kit, worked.layouts),
        *check_images(worked),
        *check_letters(worked.kit),
    )
