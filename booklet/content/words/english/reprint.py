"""The words about a page that is printed again on paper for an office: what it is, how to print it."""

from __future__ import annotations

from booklet.content.spans import Length, Line, Part, line, strong


class EnglishReprint:
    """The words about reprinted pages in English."""

    subject = line("Pages printed again")

    def page_of(self, kit: Part, page: int, count: int) -> Line:
        """Which page of which booklet it is."""
        return line(strong(f"Page {page} of {count}: "), kit)

    def side_of(self, kit: Part, leaf: int, page: int, *, is_front: bool) -> Line:
        """Which side of which leaf of a booklet it is."""
        side = "front" if is_front else "back"
        return line(strong(f"Leaf {leaf}, {side}, which is page {page}: "), kit)

    def edition(self, edition: str) -> Line:
        """The edition that it belongs to."""
        return line(f"Edition {edition}.")

    def print_true(self, *, is_leaf: bool) -> Line:
        """How to print it at its size."""
        sides = (
            "Print both sides at 100 %, without fitting, turned over on the long edge."
            if is_leaf
            else "Print at 100 %, without fitting to the paper."
        )
        return line(sides)

    def lay_in(self, *, fold_is_left: bool) -> Line:
        """How it goes into the booklet."""
        edge = "left" if fold_is_left else "right"
        return line(f"Cut it out along the marks. Its {edge} edge goes to the fold.")

    def bar(self, length: Length) -> Line:
        """What the bar is for."""
        return line("The bar is ", length, " long if the page has its true size.")

    def not_true(self, percent: int) -> Line:
        """That it is larger or smaller than the page is, and what that means for its drawings."""
        said = "Enlarged" if percent > 100 else "Reduced"
        return line(
            strong(f"{said} to {percent} %: not the page's true size. "),
            "What its drawings say of their scale does not hold here, and nothing may be measured on it.",
        )

    def name(self, kit: Part, pages: Part) -> Line:
        """What the file is called."""
        return line(kit, ": ", pages)

    def page_name(self, page: int) -> Line:
        """A page."""
        return line(f"page {page}")

    def pages_name(self, first: int, last: int) -> Line:
        """The first and the last of several pages."""
        return line(f"pages {first} to {last}")
