"""HTML as plain data: words stay words."""

from __future__ import annotations

from booklet.web.markup import Drawn, element, html_text
from tests.web.reading import read_page


def test_words_and_values_are_escaped_and_drawings_are_not() -> None:
    page = element("p", "a < b & c", Drawn("<svg></svg>"), title='say "x" <y>', class_="one")
    assert html_text(page) == (
        '<p title="say &quot;x&quot; &lt;y&gt;" class="one">a &lt; b &amp; c<svg></svg></p>'
    )


def test_what_is_not_there_is_left_out() -> None:
    page = element("p", None, [["a"], "b"], hidden=True, id=None, open=False, data_count=3)
    assert html_text(page) == '<p hidden data-count="3">ab</p>'


def test_what_holds_nothing_has_no_end() -> None:
    assert html_text(element("p", element("br"), element("input", type="checkbox"))) == (
        '<p><br><input type="checkbox"></p>'
    )


def test_a_text_that_would_end_its_element_is_read_back_as_it_was() -> None:
    sharp = "</p><script>alert(1)</script>"
    page = read_page(html_text(element("p", sharp, title=sharp)).encode())
    assert (page.text, page.all_of("title"), page.faults) == (sharp, [sharp], [])
