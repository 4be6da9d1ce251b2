"""Some forty things that a designer says about a page, each as the steps of a spec."""

from __future__ import annotations

import pytest

from booklet.kit.finding import Severity
from tests.placing.layouts import page, pages

SAYINGS = {
    "lay the tag in the top left corner": "[{place: tag, flush: [top, left]}]",
    "an inch and a half in from the right, two down": "[{place: tag, right: 1 1/2, top: 2}]",
    "the mat in the middle of the page": "[{place: mat, centred: yes}]",
    "the title strip across the page, a third of the way down": "[{place: strip, left: 0, top: 4}]",
    "turn the strip to stand upright at the right edge": (
        "[{place: strip, turn: clockwise, flush: [right, top]}]"
    ),
    "show the back of the tag": "[{place: tag, left: 1, top: 1, face: back}]",
    "tilt the tag five degrees to the left": "[{place: tag, left: 4, top: 4, tilt: -5}]",
    "let the banner run off the page": "[{place: banner, right: -1/2, top: 2, overhang: yes}]",
    "the photo on its mat with an eighth all round": (
        "[{place: tall mat, centred: yes}, {photo: 4 x 6, on: tall mat, border: 1/8}]"
    ),
    "a mat on a mat, and whatever print fits": (
        "[{place: big mat, left: 1, top: 1}, {place: tall mat, on: big mat}, {photo: fits, on: tall mat}]"
    ),
    "slide the big mat under the small one": (
        "[{place: tall mat, centred: yes}, {place: big mat, under: tall mat}]"
    ),
    "sew the tag to the mat down its right side": (
        "[{place: mat, left: 1, top: 1}, {place: tag, left: 2, top: 2}, {stitch: [tag, mat], along: right,"
        " inset: 1/4, length: 1/4, spacing: 1/8, thread: twill}]"
    ),
    "tuck the end of the tag under the mat": (
        "[{place: mat, left: 3, top: 3}, {place: tag, left: 2, top: 3 1/2, tucked: mat}]"
    ),
    "the tag to the left of the mat, a quarter inch off, tops in line": (
        "[{place: mat, centred: yes}, {place: tag, beside: mat, side: left, gap: 1/4, flush: top}]"
    ),
    "the strip right below the mat, centred on the page": (
        "[{place: mat, left: 1, top: 1}, {place: strip, below: mat, centred: across, centred_on: page}]"
    ),
    "the badge above the strip, in line with the tag's left edge": (
        "[{place: tag, left: 3, top: 1}, {place: strip, left: 0, top: 8},"
        " {place: badge, above: strip, gap: 1/2, flush: left, flush_with: tag}]"
    ),
    "where the tag's column and the strip's row meet": (
        "[{place: tag, left: 1, top: 1}, {place: strip, left: 0, top: 6},"
        " {place: badge, beside: tag, below: strip, gap: 1/4}]"
    ),
    "three tags spread evenly across the page": "[{row: tag, count: 3, even_ends: yes, top: 2}]",
    "four badges between margins of half an inch": (
        "[{row: badge, count: 4, left: 1/2, right: 1/2, bottom: 1}]"
    ),
    "a stack of three badges a quarter inch apart down the right side": (
        "[{column: badge, count: 3, apart: 1/4, right: 1/2, centred: down}]"
    ),
    "a row of two photos and a place for the date": (
        "[{row: [{photo: 3 x 4}, {photo: 3 x 4}, {write: 3 x 2}], left: 1/2, right: 1/2, top: 1}]"
    ),
    "put mat, photo and badge together first, then lay them in the middle": (
        "[{place: tall mat, loose: yes}, {photo: 4 x 6, on: tall mat},"
        " {place: badge, beside: tall mat, gap: 1/4, flush: bottom},"
        " {group: [tall mat, badge], centred: yes}]"
    ),
    "now move both tags an inch in": (
        "[{place: tag, called: one, left: 0, top: 0}, {place: tag, called: two, beside: one, flush: top},"
        " {group: [one, two], left: 1, top: 1}]"
    ),
    "snip the strip in two and lay the ends at both sides": (
        "[{snip: strip, at: 5, leaves: [short end, long end]}, {place: short end, left: 0, top: 1},"
        " {place: long end, right: 0, top: 4}]"
    ),
    "snip a third off the foot of the tag, and throw it away": (
        "[{snip: tag, measured_from: bottom, at: 1, leaves: [scrap, head]}, {place: head, left: 1, top: 1}]"
    ),
    "trim round the printed rope of the badge": (
        "[{trim_round: badge, size: 1 3/4 x 1 3/4, outline: the rope}, {place: badge, left: 1, top: 1}]"
    ),
    "round the outer corners of the mat": (
        "[{place: mat, left: 1, top: 1}, {round: mat, radius: 1/4, corners: [top left, top right]}]"
    ),
    "ticket corners on the tag": (
        "[{punch: tag, corners: all, shape: ticket}, {place: tag, left: 1, top: 1}]"
    ),
    "a hole at the top of the tag for the ribbon": (
        "[{punch: tag, hole: 1/4, top: 1/4, centred: across}, {place: tag, left: 1, top: 1}]"
    ),
    "ink all edges of the mat before you lay it": (
        "[{ink: mat, supply: sea ink}, {place: mat, left: 1, top: 1}]"
    ),
    "draw a line three inches down and stencil below it, edge to edge": (
        "[{stencil: net, left: 0, right: 0, top: 3, bottom: 5 1/2, guideline: top, supply: sea ink}]"
    ),
    "a ribbon across, its ends taped behind": (
        "[{ribbon: twill, run: across, top: 2, ends: 1, uses: {rope tape: 2}}]"
    ),
    "wrap the mat with ribbon near its foot": (
        "[{place: mat, left: 1, top: 1}, {ribbon: twill, wrap: mat, bottom: 1/2}]"
    ),
    "a loop of ribbon peeking out from under the tag": (
        "[{place: tag, left: 2, top: 3}, {ribbon: twill, loop: 1 1/2, above: tag, gap: -1/2,"
        " centred: across, tucked: tag}]"
    ),
    "tie a bow on the strip, a little right of the middle": (
        "[{place: strip, left: 0, top: 5}, {ribbon: twill, bow: 9, on: strip, right: 4}]"
    ),
    "tape along the middle of the strip": (
        "[{place: strip, left: 0, top: 5}, {tape: rope tape, along: strip}]"
    ),
    "hold the photo's corner with a bit of tape": (
        "[{photo: 4 x 6, left: 2, top: 2},"
        " {tape: rope tape, length: 1 1/2, on: photo, left: -1/2, top: 0, tilt: -40}]"
    ),
    "raise the badge on four bits of foam": (
        "[{place: badge, left: 5, top: 5}, {raise: badge, foam: foam bits, count: 4}]"
    ),
    "a brad in each corner of the mat": (
        "[{place: mat, left: 1, top: 1}, {add: brass, corners: all, on: mat, inset: 1/8}]"
    ),
    "scatter five brads over the strip": (
        "[{place: strip, left: 0, top: 5}, {add: brass, count: 5, on: strip}]"
    ),
    "leave room to write, beside the photo": (
        "[{photo: 4 x 6, left: 1, top: 1}, {write: 4 x 2, beside: photo, gap: 1/2, flush: bottom}]"
    ),
    "if you like, add a tag; say it my way": (
        "[{place: tag, left: 1, top: 1, optional: yes, say: Add the tag if you have a story to tell.,"
        " tip: Write on it first.}]"
    ),
    "press everything flat overnight": (
        "[{place: tag, left: 1, top: 1}, {do: Press the page under a book overnight., on: tag}]"
    ),
}


def test_there_are_forty_and_more() -> None:
    assert len(SAYINGS) + 1 > 40


@pytest.mark.parametrize("saying", SAYINGS)
def test_it_can_be_said_and_there_is_nothing_to_say_against_it(saying: str) -> None:
    layout = page(SAYINGS[saying])
    assert [finding for finding in layout.findings if finding.severity is not Severity.NOTE] == []
    assert layout.items
    assert len({item.id for item in layout.items}) == len(layout.items)


def test_a_banner_across_both_pages_of_the_spread() -> None:
    left, right = pages(
        {"steps": "[{place: banner, spread: yes, centred: yes}]", "facing": "page-2"},
        {"steps": "[{other_half: banner}]", "base": "other base"},
    )
    assert [item.rect.width for item in (*left.items, *right.items)] == [4, 4]
    assert left.findings == right.findings == ()
