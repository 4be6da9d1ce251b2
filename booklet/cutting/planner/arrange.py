"""From a positive verdict to a pattern: the one with fewest cuts, then fewest takes.

Every cut makes one rectangle more, so a sheet of n pieces and s rectangles of scrap takes n + s - 1 cuts,
and the fewest cuts are the fewest rectangles of scrap.  They are counted up from none; at each number the
sheet is cut in two in every way that the table of least boxes allows, and each part again; what is proved
about a part is memoised.  A rectangle as large as its pieces has no scrap, any other at least one: this alone
leaves few options to try.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TypeAlias

from booklet.cutting.planner.beam_search import beam_search
from booklet.cutting.planner.boxes import BoxTable, fill_table
from booklet.cutting.planner.effort import Effort, OutOfEffortError
from booklet.cutting.planner.patterns import PatternLeaf, PatternNode, count_scraps, join_parts
from booklet.cutting.planner.regions import (
    ALL_EDGES,
    CutOption,
    Region,
    Search,
    cut_option,
    fitting_splits,
    least_length,
    loose_options,
    tight_options,
)

# The most bundles whose boxes are tried for a good pattern.
_BUNDLES = 4200
# What a good pattern takes is bounded by the number of bundles; this effort is never spent.
_AMPLE = 1_000_000_000


@dataclass(frozen=True)
class FoundPattern:
    """A pattern, and whether its number of rectangles of scrap is proved to be the least."""

    pattern: PatternNode
    fewest: bool


# Takes, then the squares of the areas of scrap, negative: scrap in one piece before scrap in many.
Cost: TypeAlias = tuple[int, int]


@dataclass
class _Memo:
    """What is known about regions: `found` and `proved` count rectangles of scrap."""

    search: Search
    proved: dict[Region, int] = field(default_factory=dict)
    found: dict[Region, int] = field(default_factory=dict)
    tight: dict[Region, tuple[CutOption, ...]] = field(default_factory=dict)
    loose: dict[Region, tuple[CutOption, ...]] = field(default_factory=dict)
    fewest: dict[tuple[Region, bool | None], tuple[Cost, PatternNode]] = field(default_factory=dict)


def arrange(
    table: BoxTable, width: int, height: int, effort: Effort, borders: tuple[int, ...] = ()
) -> FoundPattern | None:
    """The pattern with fewest cuts, then fewest takes, for all pieces of a table that says they fit.

    `borders` gives for each kind the edges of the sheet that it must touch, as bits.  Returns None if the
    borders cannot be had; raises `OutOfEffortError` if that is not settled within the effort.
    """
    borders = borders or (0,) * len(table.fields.kinds)
    memo = _Memo(Search(table, borders, effort))
    region = memo.search.region(table.fields.whole, width, height, ALL_EDGES)
    most = 2 * table.fields.size(region.bundle) + 2
    try:
        if not _can_leave(memo, region, most):
            return None
    except OutOfEffortError:
        return _good_pattern(memo, region)
    return FoundPattern(_with_few_takes(memo, region, effort), table.complete)


def _good_pattern(memo: _Memo, region: Region) -> FoundPattern:
    """A pattern of few cuts; proved fewest if it meets the bound that is proved so far."""
    search = Search(_narrow(memo.search.table, region), memo.search.borders, Effort(_AMPLE))
    try:
        pattern = beam_search(search, region.width, region.height)
    except LookupError as none:
        if any(search.borders):
            raise OutOfEffortError("no pattern keeps the wishes, as far as the effort goes") from none
        pattern = _plain_pattern(_again(memo, Effort(_AMPLE)), region)
    fewest = memo.search.table.complete and count_scraps(pattern) == _at_least(memo, region)
    return FoundPattern(pattern, fewest)


def _narrow(table: BoxTable, region: Region) -> BoxTable:
    """The table, or a narrow one in place of one with too many bundles to try all their boxes."""
    if len(table.codes) <= _BUNDLES:
        return table
    slack = region.width * region.height - table.fields.area(region.bundle)
    breadth = _BUNDLES // table.fields.size(region.bundle)
    return fill_table(table.fields.kinds, region.width, region.height, slack, Effort(_AMPLE), breadth)


def _again(memo: _Memo, effort: Effort) -> _Memo:
    """The memo with a fresh effort as large as the first; what is known is kept."""
    search = memo.search.with_effort(Effort(effort.limit))
    return _Memo(search, memo.proved, memo.found, memo.tight, memo.loose)


def _with_few_takes(memo: _Memo, region: Region, effort: Effort) -> PatternNode:
    found = _found_pattern(memo, region)
    try:
        return _fewest_takes(_again(memo, effort), region, None)[1]
    except OutOfEffortError:
        return found


def _can_leave(memo: _Memo, region: Region, scrap: int) -> bool:
    """Whether the region can be cut up with at most `scrap` rectangles of scrap; notes the least number."""
    if not region.bundle:
        return scrap >= 1
    if region in memo.found:
        return memo.found[region] <= scrap
    while (least := _at_least(memo, region)) <= scrap:
        if memo.search.is_piece(region) or any(
            _option_can(memo, option, least) for option in _options(memo, region, least)
        ):
            memo.found[region] = least
            return True
        memo.proved[region] = least + 1
    return False


def _at_least(memo: _Memo, region: Region) -> int:
    """The number of rectangles of scrap that the region is known to leave, or more."""
    if not region.bundle:
        return 1
    if region in memo.proved:
        return memo.proved[region]
    return int(region.width * region.height > memo.search.area(region.bundle))


def _option_can(memo: _Memo, option: CutOption, scrap: int) -> bool:
    least = _at_least(memo, option.second)
    for share in range(_at_least(memo, option.first), scrap - least + 1):
        if _can_leave(memo, option.first, share):
            return _can_leave(memo, option.second, scrap - share)
    return False


def _options(memo: _Memo, region: Region, scrap: int) -> Iterator[CutOption]:
    """The options to cut the region in two that so much scrap allows."""
    if region not in memo.tight:
        memo.tight[region] = tuple(tight_options(memo.search, region))
    yield from memo.tight[region]
    if scrap < 2:
        return
    if region not in memo.loose:
        memo.loose[region] = tuple(loose_options(memo.search, region))
    yield from memo.loose[region]


def _found_pattern(memo: _Memo, region: Region) -> PatternNode:
    """The pattern that `_can_leave` found."""
    if not region.bundle:
        return PatternLeaf(region.width, region.height, None)
    if memo.search.is_piece(region):
        return _piece(memo, region)
    scrap = memo.found[region]
    option = next(option for option in _options(memo, region, scrap) if _known(memo, option, scrap))
    return join_parts(
        option.upright, (_found_pattern(memo, option.first), _found_pattern(memo, option.second))
    )


def _known(memo: _Memo, option: CutOption, scrap: int) -> bool:
    parts = [1 if not part.bundle else memo.found.get(part) for part in (option.first, option.second)]
    return None not in parts and sum(part or 0 for part in parts) <= scrap


def _piece(memo: _Memo, region: Region) -> PatternLeaf:
    return PatternLeaf(region.width, region.height, memo.search.single(region.bundle))


def _fewest_takes(memo: _Memo, region: Region, within: bool | None) -> tuple[Cost, PatternNode]:
    """Of the patterns with least scrap one with fewest takes; `within` is the cut that made the region."""
    if not region.bundle:
        return (0, -((region.width * region.height) ** 2)), PatternLeaf(region.width, region.height, None)
    if memo.search.is_piece(region):
        return (0, 0), _piece(memo, region)
    key = region, within
    if key not in memo.fewest:
        memo.fewest[key] = min(_patterns_with_takes(memo, region, within), key=lambda taken: taken[0])
    return memo.fewest[key]


def _patterns_with_takes(
    memo: _Memo, region: Region, within: bool | None
) -> Iterator[tuple[Cost, PatternNode]]:
    scrap = memo.found[region]
    for option in _options(memo, region, scrap):
        memo.search.effort.spend(1)
        if _option_can(memo, option, scrap):
            first, one = _fewest_takes(memo, option.first, option.upright)
            second, other = _fewest_takes(memo, option.second, option.upright)
            cost = (int(option.upright != within) + first[0] + second[0], first[1] + second[1])
            yield cost, join_parts(option.upright, (one, other))


def _plain_pattern(memo: _Memo, region: Region) -> PatternNode:
    """Some pattern, by always choosing the cut that sets most scrap aside in one strip."""
    if not region.bundle:
        return PatternLeaf(region.width, region.height, None)
    if memo.search.is_piece(region):
        return _piece(memo, region)
    if region in memo.found:
        return _found_pattern(memo, region)
    option = _strip_of_scrap(memo.search, region) or _first_split(memo.search, region)
    return join_parts(
        option.upright, (_plain_pattern(memo, option.first), _plain_pattern(memo, option.second))
    )


def _strip_of_scrap(search: Search, region: Region) -> CutOption | None:
    """Cut off as scrap what the region has to spare in one direction, the larger strip of the two."""
    wide, tall = least_length(search, region, True), least_length(search, region, False)
    if (region.width - wide, region.height - tall) == (0, 0):
        return None
    if (region.width - wide) * region.height >= (region.height - tall) * region.width:
        return cut_option(search, region, True, region.bundle, 0, wide)
    return cut_option(search, region, False, region.bundle, 0, tall)


def _first_split(search: Search, region: Region) -> CutOption:
    for upright in (True, False):
        for part, rest, least, _ in fitting_splits(search, region, upright):
            return cut_option(search, region, upright, part, rest, least)
    raise AssertionError("a region that the table says can be cut can be cut in two")
