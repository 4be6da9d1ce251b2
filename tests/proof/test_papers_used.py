"""A paper that nothing is made of is worth a look."""

from __future__ import annotations

from typing import Any

from booklet.kit.finding import Finding, Severity
from booklet.proof.papers_used import check_papers_used
from tests.kits import PAPERS, make_kit, ready, sheet


def unused(*papers: str, **more: Any) -> list[Finding]:
    """What is said of a kit that describes two papers and has a sheet of each of these."""
    sheets = [sheet(id=paper, paper=paper) for paper in papers]
    return list(check_papers_used(make_kit(*sheets, papers=PAPERS, **more)))


def test_a_paper_of_no_sheet() -> None:
    (told,) = unused("plain")
    assert (told.id, told.severity, told.where) == ("paper-unused", Severity.NOTE, ("papers", "shingle"))
    assert unused("plain", "shingle") == []


def test_a_paper_of_ready_cut_pieces_only() -> None:
    assert unused("shingle", ready=[ready("mat")]) == []
