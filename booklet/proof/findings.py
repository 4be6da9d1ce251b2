"""Every finding on a kit, from every stage, in one list."""

from __future__ import annotations

from booklet.kit.finding import Finding
from booklet.placing.supplies import check_supplies
from booklet.placing.worked import WorkedKit
from booklet.sorting.pile import check_pile


def kit_findings(worked: WorkedKit) -> tuple[Finding, ...]:
    """What cutting, sorting, placing and the supplies have to say, in the order of the work."""
    return (
        *(finding for sheet in worked.sheets for finding in sheet.findings),
        *worked.ledger.findings,
        *check_pile(worked.kit),
        *(finding for layout in worked.layouts for finding in layout.findings),
        *check_supplies(worked.kit, worked.layouts),
    )
