"""What a person signs for: what was proved, in sums, for each sheet and layout, and of which files."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from enum import Enum
from hashlib import sha256

from booklet.content.cutting.sheets import cut_sheets
from booklet.content.names import layout_name, sheet_name
from booklet.content.spans import Own
from booklet.content.ways import layout_anchor, sheet_anchor
from booklet.kit.finding import Finding, Severity
from booklet.kit.spreads import assembly_order
from booklet.measure.dataclass import dataclass
from booklet.placing.resolved import ResolvedKit
from booklet.proof.claim import Claim, Kind, section_of
from booklet.proof.proof import Proof
from booklet.proof.sums import (
    Margin,
    Sum,
    layout_margin,
    layout_sums,
    least_supply,
    sheet_margin,
    sheet_sums,
    supply_sums,
)


class TopicId(Enum):
    """What is looked at besides the checks of the files."""

    NUMBERS = "numbers"
    LENGTHS = "lengths"
    CONTENT = "content"
    HALVES = "halves"
    KIT = "kit"
    SUMS = "sums"


@dataclass(frozen=True)
class Topic:
    """One thing that was looked at: its id, the file if it is of one, and how many held, failed or were not
    checked.
    """

    id: str
    file: str
    looked_at: int
    failed: int
    unchecked: int = 0

    @property
    def held(self) -> int:
        """How many are as they are to be."""
        return max(self.looked_at - self.failed - self.unchecked, 0)


@dataclass(frozen=True)
class PartProof:
    """A sheet or a layout: its printed number and name, its pages, what was held there, its sums, its margin.

    `farthest` is the largest deviation of what is drawn for it, in millimetres on paper.
    """

    number: int
    name: Own
    pages: tuple[int, ...]
    numbers: int
    matched: int
    lengths: int
    farthest: float | None
    sums: tuple[Sum, ...]
    margin: Margin | None


@dataclass(frozen=True)
class ProvedFile:
    """A finished file that was proved: its name, its pages or sides, its digest."""

    name: str
    leaves: int
    digest: str


@dataclass(frozen=True)
class SignReport:
    """All that the sheet to sign says."""

    topics: tuple[Topic, ...]
    sheets: tuple[PartProof, ...]
    layouts: tuple[PartProof, ...]
    supplies: tuple[Sum, ...]
    least_supply: Sum | None
    own: tuple[Claim, ...]
    files: tuple[ProvedFile, ...]

    @property
    def failed(self) -> int:
        """How many things failed."""
        return sum(topic.failed for topic in self.topics)

    @property
    def unchecked(self) -> int:
        """How many things could not be checked."""
        return sum(topic.unchecked for topic in self.topics)


def sign_report(
    resolved: ResolvedKit, proof: Proof, findings: Sequence[Finding], files: Mapping[str, bytes]
) -> SignReport:
    """What was proved of a booklet, for a person to sign; `files` are those proved, by their names."""
    supplies = tuple(supply_sums(resolved))
    sheets, layouts = tuple(_sheets(resolved, proof)), tuple(_layouts(resolved, proof))
    sums = [one for part in (*sheets, *layouts) for one in part.sums] + list(supplies)
    leaves = (len(proof.pages), len(proof.pages) // 2)
    return SignReport(
        tuple(_topics(proof, findings, sums, has_print_file=len(files) > 1)),
        sheets,
        layouts,
        supplies,
        least_supply(resolved),
        tuple(claim for claim in proof.numbers if claim.kind is Kind.OWN and claim.is_in_order),
        tuple(
            ProvedFile(name, count, sha256(data).hexdigest())
            for (name, data), count in zip(files.items(), leaves, strict=False)
        ),
    )


def _topics(
    proof: Proof, findings: Sequence[Finding], sums: Sequence[Sum], *, has_print_file: bool
) -> Iterator[Topic]:
    pages = len(proof.pages)
    unclaimed = sum(len(page.unclaimed) for page in proof.pages)
    numbers = len(proof.numbers) + unclaimed
    amiss = len(proof.wrong | {claim.key for claim in proof.untraced}) + unclaimed
    yield Topic(TopicId.NUMBERS.value, "", numbers, amiss)
    lengths = sum(not one.holds for one in proof.lengths)
    yield Topic(TopicId.LENGTHS.value, "", len(proof.lengths), lengths)
    unread = sum(not page.is_read for page in proof.pages)
    yield Topic(TopicId.CONTENT.value, "", pages, max(len({one.section for one in proof.unlaid}), unread))
    if has_print_file:
        yield Topic(TopicId.HALVES.value, "", pages, len(proof.misplaced) + len(proof.unread_sides))
    else:
        yield Topic(TopicId.HALVES.value, "", pages, 0, pages)
    errors = sum(finding.severity is Severity.ERROR for finding in findings)
    yield Topic(TopicId.KIT.value, "", len(findings), errors)
    yield Topic(TopicId.SUMS.value, "", len(sums), sum(not one.closes for one in sums))
    for check in proof.checks:
        looked_at = max(check.looked_at, len(check.faults)) + check.unchecked
        yield Topic(check.id.value, check.file.value, looked_at, len(check.faults), check.unchecked)


# Sheets and layouts.


def _sheets(resolved: ResolvedKit, proof: Proof) -> Iterator[PartProof]:
    """The sheets in the order of cutting."""
    for sheet in cut_sheets(resolved):
        name = sheet_name(resolved.kit, sheet.index)
        sums, margin = tuple(sheet_sums(resolved, sheet)), sheet_margin(resolved, sheet)
        yield _part(proof, sheet_anchor(sheet.sheet.id), sheet.number, name, sums, margin)


def _layouts(resolved: ResolvedKit, proof: Proof) -> Iterator[PartProof]:
    """The layouts in the order of assembly."""
    for place, index in enumerate(assembly_order(resolved.kit), 1):
        layout = resolved.layouts[index]
        name = layout_name(resolved.kit, index)
        sums, margin = tuple(layout_sums(resolved, layout)), layout_margin(layout)
        yield _part(proof, layout_anchor(layout.id), place, name, sums, margin)


def _part(
    proof: Proof, anchor: str, number: int, name: Own, sums: tuple[Sum, ...], margin: Margin | None
) -> PartProof:
    claims = [claim for claim in proof.numbers if section_of(claim.key) == anchor]
    offs = [one.off for one in proof.lengths if section_of(one.claim.key) == anchor]
    farthest = None if None in offs else max((off for off in offs if off is not None), default=None)
    return PartProof(
        number,
        name,
        tuple(sorted({claim.page for claim in claims})),
        len(claims),
        sum(claim.key not in proof.wrong for claim in claims),
        len(offs),
        farthest,
        sums,
        margin,
    )
