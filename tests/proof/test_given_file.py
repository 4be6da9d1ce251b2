"""Whatever bytes are given, a file is refused with a reason, or it is proved: nothing else is raised."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.kit.errors import UsageError
from booklet.proof.given_file import Wanted, check_given
from booklet.proof.proof import Proof, prove
from tests.finished.kits import PLAIN
from tests.proof.finished import finished

MADE = finished(PLAIN)
WANTED = Wanted("A Week Outdoors", MADE.laid.edition, len(MADE.pages), "page")
SPOTS = st.lists(
    st.tuples(st.integers(0, len(MADE.file) - 1), st.binary(min_size=1, max_size=12)), max_size=6
)


def proved(file: bytes) -> Proof | str:
    """What was found, or why the file was refused."""
    try:
        check_given("given.pdf", file, WANTED)
    except UsageError as error:
        return str(error)
    return prove(MADE.expected, file, None)


@given(SPOTS)
@settings(max_examples=30, deadline=None)
def test_a_file_with_bytes_overwritten_is_refused_or_proved(spots: list[tuple[int, bytes]]) -> None:
    file = bytearray(MADE.file)
    for at, written in spots:
        file[at : at + len(written)] = written
    found = proved(bytes(file))
    assert isinstance(found, Proof) or found.startswith("given.pdf ")
    if bytes(file) == MADE.file:
        assert isinstance(found, Proof)
        assert found.holds


def test_a_change_that_no_page_shows_changes_nothing() -> None:
    found = proved(MADE.file.replace(b"/Creator (kit-booklet ", b"/Creator (tik-bookle  "))
    assert isinstance(found, Proof)
    assert found.holds
