"""What the styles must not ask of WebKit, the browser of most tablets, and what they offer to older ones.

Seen in WebKitGTK 2.50 and WPE WebKit 2.38; which versions of Safari know what is from memory.
"""

from __future__ import annotations

import re

from booklet.web.companion import read_part

_PAGE, _VIEWS = read_part("page.css"), read_part("views.css")


def rules(style: str) -> list[str]:
    """The innermost rules of a style, each from its selectors to its closing brace."""
    without_comments = re.sub(r"/\*.*?\*/", "", style, flags=re.DOTALL)
    return [rule.strip() for rule in re.findall(r"[^{}]*\{[^{}]*\}", without_comments)]


def test_sections_are_laid_out_late_only_where_a_browser_holds_what_is_read() -> None:
    """WebKit lets it slip as sections above grow: a link to a sheet led into the sheet before it."""
    late = [line for line in (_PAGE + _VIEWS).splitlines() if "content-visibility" in line]
    assert len(late) == 1
    assert late[0].startswith("@supports (overflow-anchor: auto) {")


def test_no_rule_asks_how_wide_a_container_is() -> None:
    """With one in the page, WebKit kept a tablet turned to its wide side to the rules for a telephone."""
    assert "@container" not in _PAGE + _VIEWS
    assert [rule for rule in rules(_PAGE + _VIEWS) if re.search(r"container(-type)?:", rule)] == []


def test_a_height_of_the_window_is_also_said_as_older_tablets_know_it() -> None:
    """`dvh` is known from Safari 15.4 on; without a height the bar lies below what is seen."""
    high = [rule for rule in rules(_VIEWS) if "dvh" in rule]
    assert high
    for rule in high:
        assert re.search(r"height: 100vh; height: 100dvh", rule)


def test_what_asks_for_what_it_holds_stands_alone() -> None:
    """A browser that does not know `:has` (Safari before 15.4) drops all that shares a rule with it."""
    for rule in rules(_PAGE + _VIEWS):
        selectors = rule.split("{", 1)[0]
        if ":has(" in selectors:
            alone = re.sub(r"\([^()]*\)", "", selectors)
            assert "," not in alone
