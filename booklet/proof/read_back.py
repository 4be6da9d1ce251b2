"""A finished booklet read back: what its pages were to show against what stands on them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from difflib import SequenceMatcher
from functools import reduce

from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.proof.claim import Claim
from booklet.proof.numerals import Token, leeway, numerals, placed_tokens, tokens, written_number
from booklet.proof.printed import Box, Page


@dataclass(frozen=True)
class Printed:
    """A number on a page, or a word that nothing claims: where it stands, its claim, whether that holds."""

    token: Token
    box: Box
    claim: Claim | None
    holds: bool


@dataclass(frozen=True)
class PageProof:
    """What was found on a page: its numbers, which claims lack theirs or a word, which numbers and words
    nothing claims, which claims print another number than they stand for, whether all of it can be read.
    """

    page: int
    printed: tuple[Printed, ...]
    missing: tuple[Claim, ...]
    unclaimed: tuple[Token, ...]
    misprinted: tuple[Claim, ...]
    is_read: bool = True

    @property
    def found(self) -> int:
        """How many numbers stand there as they are claimed."""
        return sum(one.holds for one in self.printed)

    @property
    def holds(self) -> bool:
        """Whether all of it is right."""
        return self.is_read and not (self.missing or self.unclaimed or self.misprinted)


def read_back(claims: Sequence[Claim], pages: Sequence[Page]) -> tuple[PageProof, ...]:
    """Each page of a finished file, and each that claims speak of, proved against the claims."""
    on_page: defaultdict[int, list[Claim]] = defaultdict(list)
    for claim in claims:
        on_page[claim.page].append(claim)
    read = {page.number: page for page in pages}
    return tuple(_proved(number, on_page[number], read.get(number)) for number in sorted({*on_page, *read}))


def _proved(number: int, claims: Sequence[Claim], page: Page | None) -> PageProof:
    claimed = [(token, claim) for claim in claims for token in tokens(claim.said)]
    printed = list(placed_tokens(page.text)) if page else []
    # In order: two numbers that have changed places are both wrong.
    said, read = [token for token, _ in claimed], [token for token, _ in printed]
    missing: dict[str, Claim] = {}
    unclaimed: list[int] = []
    claim_of: dict[int, Claim] = {}
    for what, start, end, first, last in SequenceMatcher(None, said, read, autojunk=False).get_opcodes():
        if what == "equal":
            claim_of |= {first + at - start: claimed[at][1] for at in range(start, end)}
        else:
            missing |= {claim.key: claim for _, claim in claimed[start:end]}
            unclaimed += range(first, last)
    lacking = list(_but_for_order(missing.values(), read, unclaimed, claim_of))
    misprinted = tuple(claim for claim in claims if not _says_its_value(claim))
    return PageProof(
        number,
        tuple(_printed(page, printed, claim_of, misprinted)) if page else (),
        tuple(lacking),
        tuple(read[at] for at in unclaimed),
        misprinted,
    )


def _printed(
    page: Page,
    printed: Sequence[tuple[Token, slice]],
    claim_of: Mapping[int, Claim],
    misprinted: Sequence[Claim],
) -> Iterator[Printed]:
    """The numbers of a page, and the words that nothing claims, where they stand."""
    for at, (token, place) in enumerate(printed):
        claim = claim_of.get(at)
        if claim is None or isinstance(token, Fraction):
            boxes = [letter.box for letter in page.letters[place] if letter.is_ink]
            box = reduce(Box.joined, boxes) if boxes else Box(0.0, 0.0, 0.0, 0.0)
            yield Printed(token, box, claim, claim is not None and claim not in misprinted)


def _but_for_order(
    missing: Iterable[Claim], read: Sequence[Token], unclaimed: list[int], claim_of: dict[int, Claim]
) -> Iterator[Claim]:
    """What is missing besides texts of a figure: they have no order, and take what is unclaimed."""
    for claim in missing:
        taken = _taken(list(tokens(claim.said)), read, unclaimed) if not claim.is_in_order else None
        if taken is None:
            yield claim
            continue
        for at in taken:
            unclaimed.remove(at)
            claim_of[at] = claim


def _taken(said: Sequence[Token], read: Sequence[Token], unclaimed: Sequence[int]) -> list[int] | None:
    """The first of what is unclaimed for each token that is said; None where one lacks."""
    taken: list[int] = []
    for token in said:
        at = next((at for at in unclaimed if read[at] == token and at not in taken), None)
        if at is None:
            return None
        taken.append(at)
    return taken


def _says_its_value(claim: Claim) -> bool:
    """Whether a text shows the numbers behind it, exactly or, where it says so, to the mark that it may."""
    if not claim.value:
        return True
    written = written_number(claim.said)
    said = (written,) if written is not None else tuple(numerals(claim.said))
    off = leeway(claim.said, claim.unit)
    return len(said) == len(claim.value) and all(
        abs(one - other) <= off for one, other in zip(said, claim.value, strict=True)
    )
