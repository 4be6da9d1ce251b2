"""Whatever bytes are given, a file is refused with a reason, or it is proved: nothing else is raised."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.kit.errors import UsageError
from booklet.proof.given_file import Wanted, check_given
from booklet.proof.proof import Proof, prove
from tests.cli.runs import SMALL_SPEC
from tests.proof.finished import finished

pytestmark = pytest.mark.thorough

SPOTS = st.deferred(
    lambda: st.lists(
        st.tuples(st.integers(0, len(finished(SMALL_SPEC).file) - 1), st.binary(min_size=1, max_size=12)),
        max_size=6,
    )
)


def proved(file: bytes) -> Proof | str:
    """What was found, or why the file was refused."""
    made = finished(SMALL_SPEC)
    wanted = Wanted("First kit", made.laid.edition, len(made.pages), "page")
    try:
        check_given("given.pdf", file, wanted)
    except UsageError as error:
        return str(error)
    return prove(made.expected, file, None)


@given(SPOTS)
@settings(max_examples=30, deadline=None)
def test_a_file_with_bytes_overwritten_is_refused_or_proved(spots: list[tuple[int, bytes]]) -> None:
    file = bytearray(finished(SMALL_SPEC).file)
    for at, written in spots:
        file[at : at + len(written)] = written
    found = proved(bytes(file))
    assert isinstance(found, Proof) or found.startswith("given.pdf ")
    if bytes(file) == finished(SMALL_SPEC).file:
        assert isinstance(found, Proof)
        assert found.holds


def test_a_change_that_no_page_shows_changes_nothing() -> None:
    found = proved(finished(SMALL_SPEC).file.replace(b"/Creator (kit-booklet ", b"/Creator (tik-bookle  "))
    assert isinstance(found, Proof)
    assert found.holds
