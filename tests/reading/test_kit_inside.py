"""A reading file that a stranger gives: its kit is taken out, or refused in one line that says why."""

from __future__ import annotations

import zlib
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from typing import Any

import pikepdf
import pypdf
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from booklet.cli.main import main
from booklet.kit.errors import UsageError
from booklet.kit.load import parse_kit
from booklet.kit.own_trimmer import load_trimmer
from booklet.pages.booklet import make_booklet, write_booklet
from booklet.placing.resolved import resolve_kit
from booklet.proof.kit_inside import GivenKit, kit_inside
from tests.finished.kits import PLAIN
from tests.once import laid_once, written_once
from tests.reading.made import made, made_of, with_image
from tests.spec_data import SPECS, WHOLE_DEMOS

NAME = "june.pdf"


def made_again(found: GivenKit) -> bytes:
    """The reading file of a kit that was found: another than there was, if anything of the kit is another."""
    return written_once(laid_once(resolve_kit(found.loaded)), found.edition.is_draft)


def saved_again(file: bytes, change: Callable[[pikepdf.Pdf], object] = lambda _: None, **how: Any) -> bytes:
    """A file opened, changed and saved by another program."""
    out = BytesIO()
    with pikepdf.open(BytesIO(file)) as document:
        change(document)
        document.save(out, **how)
    return out.getvalue()


def refusal(file: bytes) -> str:
    with pytest.raises(UsageError) as refused:
        kit_inside(NAME, file)
    said = str(refused.value)
    assert "\n" not in said
    assert NAME in said
    return said


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_the_file_alone_makes_the_same_file_again(kit: str) -> None:
    found = kit_inside(NAME, made(kit).file)
    assert write_booklet(make_booklet(resolve_kit(found.loaded))) == made(kit).file
    assert (found.edition.name, found.edition.is_draft, found.pages) == (
        made(kit).laid.edition,
        False,
        len(made(kit).laid.pages),
    )


def test_a_draft_is_made_again_as_a_draft() -> None:
    draft = written_once(made("roof-garden").laid, is_draft=True)
    assert made_again(kit_inside(NAME, draft)) == draft


def test_a_file_for_a_person_s_trimmer_is_made_again_for_that(tmp_path: Path) -> None:
    mine = tmp_path / "mine.yaml"
    mine.write_text("unit: in\nblade: 13\nzero: right\n")
    one = made_of(parse_kit(PLAIN, "plain.yaml", SPECS, load_trimmer(mine, "mine.yaml")))
    assert one.file != made(PLAIN).file
    assert made_again(kit_inside(NAME, one.file)) == one.file


@pytest.mark.parametrize("how", [{"recompress_flate": True}, {"linearize": True}, {"qdf": True}])
def test_a_file_that_another_program_has_saved_still_has_its_kit(how: dict[str, Any]) -> None:
    again = saved_again(with_image("tide.jpg").file, **how)
    assert again != with_image("tide.jpg").file
    assert made_again(kit_inside(NAME, again)) == with_image("tide.jpg").file


def test_a_file_that_pypdf_has_saved_still_has_its_kit() -> None:
    writer, out = pypdf.PdfWriter(clone_from=BytesIO(made("roof-garden").file)), BytesIO()
    writer.write(out)
    assert made_again(kit_inside(NAME, out.getvalue())) == made("roof-garden").file


# What is no reading file.


def test_what_is_no_pdf_is_refused() -> None:
    assert "empty" in refusal(b"")
    assert "no PDF" in refusal(b"title: a kit spec\n" * 200)


def test_a_damaged_file_is_refused() -> None:
    file = made("roof-garden").file
    assert "damaged" in refusal(file[: len(file) // 2])


def test_an_encrypted_file_is_refused_whether_or_not_it_opens() -> None:
    for password in ("", "sea"):
        lock = pikepdf.Encryption(owner="owner", user=password)
        assert "encrypted" in refusal(saved_again(made("roof-garden").file, encryption=lock))


def test_a_file_without_a_kit_is_refused_with_the_file_that_is_expected() -> None:
    def strip(document: pikepdf.Pdf) -> None:
        del document.Root["/Names"]

    for file in (saved_again(made("roof-garden").file, strip), foreign()):
        assert "has no kit inside, expected a reading file" in refusal(file)


def foreign() -> bytes:
    """A PDF of someone else's, with a file attached that is no spec."""
    document, out = pikepdf.new(), BytesIO()
    document.add_blank_page()
    document.attachments["notes.txt"] = b"some notes"
    document.save(out)
    return out.getvalue()


# Attachments that nobody but a stranger would make.


def with_attached(*names: str, content: bytes = b"x") -> bytes:
    def attach(document: pikepdf.Pdf) -> None:
        for name in names:
            document.attachments[name] = pikepdf.AttachedFileSpec(document, content, filename=name)

    return saved_again(made("roof-garden").file, attach)


@pytest.mark.parametrize(
    "name",
    [
        "../kit.png",
        "/etc/passwd",
        "folder/kit.png",
        "C:kit.png",
        "C:\\kit.png",
        "\\\\host\\kit.png",
        ".hidden.png",
        "..",
        "a\x00b.png",
        "a\nb.png",
        "a" * 300 + ".png",
    ],
)
def test_a_name_that_leads_anywhere_is_refused(name: str) -> None:
    assert "was not attached by `booklet make`" in refusal(with_attached(name))


def test_two_files_of_one_name_are_refused() -> None:
    def twice(document: pikepdf.Pdf) -> None:
        names = document.Root.Names.EmbeddedFiles.Names
        names.append(names[0])
        names.append(names[1])

    assert "two files inside" in refusal(saved_again(made("roof-garden").file, twice))
    assert "2 specs inside" in refusal(with_attached("ROOF-GARDEN.yaml"))


def test_two_specs_are_refused() -> None:
    assert "2 specs inside" in refusal(with_attached("another.yaml"))


def test_more_files_than_any_kit_has_are_refused() -> None:
    assert "more than 200 files" in refusal(with_attached(*(f"{number}.png" for number in range(210))))


def replaced(content: bytes, **entries: Any) -> bytes:
    """The reading file with another stream in the place of the attached spec."""

    def change(document: pikepdf.Pdf) -> None:
        spec = document.Root.Names.EmbeddedFiles.Names[1]
        spec.EF = pikepdf.Dictionary(F=document.make_stream(content, **entries))

    return saved_again(made("roof-garden").file, change, compress_streams=False)


def test_a_spec_that_unpacks_to_more_than_any_spec_is_never_unpacked_whole() -> None:
    packing = zlib.compressobj(9)
    bomb = b"".join(packing.compress(b"#" * (1 << 20)) for _ in range(64)) + packing.flush()
    assert len(bomb) < 1 << 20
    said = refusal(replaced(bomb, Filter=pikepdf.Name.FlateDecode))
    assert "larger than such a file can be (1024 KiB)" in said


def test_a_spec_larger_than_any_spec_is_refused() -> None:
    assert "larger than such a file can be" in refusal(replaced(b"#" * ((1 << 20) + 1)))


def test_a_file_that_is_packed_otherwise_is_refused() -> None:
    twice = pikepdf.Array([pikepdf.Name.FlateDecode, pikepdf.Name.FlateDecode])
    packed = zlib.compress(zlib.compress(made("roof-garden").loaded.typed[0].data))
    assert "packed in an unknown way" in refusal(replaced(packed, Filter=twice))


def test_a_file_that_cannot_be_unpacked_or_has_no_end_is_refused() -> None:
    packed = zlib.compress(made("roof-garden").loaded.typed[0].data)
    assert "cannot be unpacked" in refusal(replaced(b"no zlib", Filter=pikepdf.Name.FlateDecode))
    assert "its end is missing" in refusal(replaced(packed[:-40], Filter=pikepdf.Name.FlateDecode))


def test_a_spec_that_is_none_is_refused_with_its_line() -> None:
    assert "roof-garden.yaml:1: " in refusal(replaced(b"titel: June\n"))
    assert "UTF-8" in refusal(replaced(b"\xff\xfe\x00"))
    laughs = b"a: &a [x]\n" + b"".join(b"b%d: &b%d [*a, *a]\n" % (at, at) for at in range(9))
    assert "the kit inside june.pdf cannot be read" in refusal(replaced(laughs))


def test_an_attached_image_that_is_none_is_refused() -> None:
    def change(document: pikepdf.Pdf) -> None:
        del document.Root["/AF"]
        document.attachments["tide.jpg"] = b"no image"

    said = refusal(saved_again(with_image("tide.jpg").file, change))
    assert "tide.jpg, which cannot be read as an image" in said


def test_a_kit_whose_image_is_missing_is_refused() -> None:
    def change(document: pikepdf.Pdf) -> None:
        del document.Root["/AF"]

    assert "no file tide.jpg" in refusal(saved_again(with_image("tide.jpg").file, change))


def test_an_attached_file_that_was_changed_is_refused() -> None:
    def change(document: pikepdf.Pdf) -> None:
        held = document.Root.Names.EmbeddedFiles.Names[1].EF.F
        held.write(held.read_bytes().replace(b"Six", b"Ten"))

    assert "is not as it was attached" in refusal(saved_again(made("roof-garden").file, change))


def test_a_tree_of_names_that_is_a_ring_has_an_end() -> None:
    def ring(document: pikepdf.Pdf) -> None:
        tree = document.make_indirect(pikepdf.Dictionary())
        tree.Kids = pikepdf.Array([tree, tree])
        document.Root.Names.EmbeddedFiles = tree

    assert "has no end" in refusal(saved_again(made("roof-garden").file, ring))


@pytest.mark.parametrize(
    "odd",
    [
        pikepdf.String("no tree"),
        pikepdf.Dictionary(Names=pikepdf.Array([1, 2])),
        pikepdf.Dictionary(Names=pikepdf.Array([pikepdf.String("a.yaml"), pikepdf.Dictionary()])),
        pikepdf.Dictionary(
            Names=pikepdf.Array(
                [pikepdf.String("a.yaml"), pikepdf.Dictionary(EF=pikepdf.Dictionary(F=pikepdf.Array()))]
            )
        ),
        pikepdf.Dictionary(Kids=pikepdf.Array([pikepdf.Name.No])),
    ],
)
def test_a_list_of_files_that_is_none_is_refused(odd: Any) -> None:
    def change(document: pikepdf.Pdf) -> None:
        document.Root.Names.EmbeddedFiles = odd

    assert refusal(saved_again(made("roof-garden").file, change))


SPOTS = st.deferred(
    lambda: st.lists(
        st.tuples(st.integers(0, len(made("roof-garden").file) - 60), st.binary(min_size=1, max_size=60)),
        min_size=1,
        max_size=4,
    )
)


def read_or_refused(file: bytes) -> GivenKit | str:
    try:
        return kit_inside(NAME, file)
    except UsageError as refused:
        return str(refused)


@pytest.mark.thorough
@given(SPOTS)
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_a_file_with_bytes_overwritten_is_read_or_refused(spots: list[tuple[int, bytes]]) -> None:
    file = bytearray(made("roof-garden").file)
    for at, written in spots:
        file[at : at + len(written)] = written
    found = read_or_refused(bytes(file))
    if isinstance(found, str):
        assert "\n" not in found
    else:
        assert found.loaded.kit == made("roof-garden").loaded.kit


def test_nothing_is_written_but_the_page_and_its_list(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "june.pdf").write_bytes(made("roof-garden").file)
    monkeypatch.chdir(tmp_path)
    assert main(["reprint", "june.pdf", "--page", "3"]) == 0
    assert sorted(str(path.relative_to(tmp_path)) for path in tmp_path.rglob("*") if path.is_file()) == [
        "june.pdf",
        "out/roof-garden-files.sha256",
        "out/roof-garden-page-3.pdf",
    ]
