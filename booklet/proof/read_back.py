"""A finished booklet read back: what its pages were to show against what stands on them."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

from booklet.measure.exact import Fraction
from booklet.measure.words import APPROXIMATELY, FINEST, RULER
from booklet.proof.claim import Claim
from booklet.proof.numerals import Token, numerals, tokens, written_number
from booklet.proof.printed import Page


@dataclass(frozen=True)
class PageProof:
    """What was found on a page: how many numbers of its claims, which claims lack theirs or a word, which
    numbers and words nothing claims, and which claims print another number than they stand for.
    """

    page: int
    found: int
    missing: tuple[Claim, ...]
    unclaimed: tuple[Token, ...]
    misprinted: tuple[Claim, ...]

    @property
    def holds(self) -> bool:
        """Whether all of it is right."""
        return not (self.missing or self.unclaimed or self.misprinted)


def read_back(claims: Sequence[Claim], pages: Sequence[Page]) -> tuple[PageProof, ...]:
    """Each page of a finished file, and each that claims speak of, proved against the claims."""
    on_page: defaultdict[int, list[Claim]] = defaultdict(list)
    for claim in claims:
        on_page[claim.page].append(claim)
    read = {page.number: page for page in pages}
    return tuple(_proved(number, on_page[number], read.get(number)) for number in sorted({*on_page, *read}))


def _proved(number: int, claims: Sequence[Claim], page: Page | None) -> PageProof:
    claimed = [(token, claim) for claim in claims for token in tokens(claim.said)]
    printed = list(tokens(page.text)) if page else []
    # In order: two numbers that have changed places are both wrong.
    same = SequenceMatcher(None, [token for token, _ in claimed], printed, autojunk=False)
    missing: dict[str, Claim] = {}
    unclaimed: list[Token] = []
    for what, start, end, first, last in same.get_opcodes():
        if what != "equal":
            missing |= {claim.key: claim for _, claim in claimed[start:end]}
            unclaimed += printed[first:last]
    lacking, left = _but_for_order(missing.values(), Counter(unclaimed))
    return PageProof(
        number,
        _count_of_numbers(printed) - _count_of_numbers(left.elements()),
        tuple(lacking),
        tuple(left.elements()),
        tuple(claim for claim in claims if not _says_its_value(claim)),
    )


def _count_of_numbers(read: Iterable[Token]) -> int:
    return sum(isinstance(token, Fraction) for token in read)


def _but_for_order(missing: Iterable[Claim], unclaimed: Counter[Token]) -> tuple[list[Claim], Counter[Token]]:
    """What is missing, and what is unclaimed, besides texts of a figure: those have no order of reading."""
    lacking: list[Claim] = []
    for claim in missing:
        said = Counter(tokens(claim.said))
        if not claim.is_in_order and said <= unclaimed:
            unclaimed -= said
        else:
            lacking.append(claim)
    return lacking, unclaimed


def _says_its_value(claim: Claim) -> bool:
    """Whether a text shows the numbers behind it, exactly or, where it says so, to the mark that it may."""
    if not claim.value:
        return True
    written = written_number(claim.said)
    said = (written,) if written is not None else tuple(numerals(claim.said))
    off = _leeway(claim)
    return len(said) == len(claim.value) and all(
        abs(one - other) <= off for one, other in zip(said, claim.value, strict=True)
    )


def _leeway(claim: Claim) -> Fraction:
    if APPROXIMATELY not in claim.said:
        return Fraction(0)
    return max(FINEST[claim.unit], RULER[claim.unit]) / 2 if claim.unit else Fraction(1, 20)
