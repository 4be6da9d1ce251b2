"""A kit spec file -> the kit, or every problem of the file at once."""

from __future__ import annotations

from pathlib import Path

from pydantic_core import ValidationError

from booklet.kit.images import Images
from booklet.kit.kit import Kit, with_sheet
from booklet.kit.kit_files import KitFile, typed_files
from booklet.kit.layout import Layout
from booklet.kit.own_trimmer import OwnTrimmer, fit_trimmer
from booklet.kit.read import read_data, read_model
from booklet.kit.references import check_references
from booklet.kit.sheet import Sheet
from booklet.kit.shorthand import write_out
from booklet.kit.source import Source, as_typed
from booklet.kit.text import read_text
from booklet.kit.tree import Complaint, plain
from booklet.kit.tree_again import ItemAgain, read_item_again
from booklet.measure.dataclass import dataclass, replace

_A_KIT_SPEC = "a kit spec"


@dataclass(frozen=True)
class LoadedKit:
    """A kit, where its values were typed, and the images that it names, in a folder or held.

    With a person's `own` trimmer it is the kit as it is made for that.  `typed` are the files
    that were typed, `in_short` is the kit before what it says in short was written out.
    """

    kit: Kit
    source: Source
    images: Images
    own: OwnTrimmer | None = None
    typed: tuple[KitFile, ...] = ()
    in_short: Kit | None = None


def load_kit(path: str | Path, own: OwnTrimmer | None = None) -> LoadedKit:
    """Read a kit spec; a person's own trimmer takes the place of the kit's.

    Raises SpecError with every problem of the file, UsageError where there is no such file.
    """
    file = Path(path)
    name = spec_name(file)
    return parse_kit(spec_text(file), name, file.parent, own)


def spec_name(file: Path) -> str:
    """What messages call a spec: as it was given, never where it lies on this computer."""
    return file.name if file.is_absolute() else str(file)


def spec_text(file: Path) -> str:
    """The text of a kit spec.

    Raises UsageError where there is no such file, SpecError at the first byte or letter that it may not hold.
    """
    return read_text(file, spec_name(file), _A_KIT_SPEC)


def parse_kit(text: str, name: str, images: Images, own: OwnTrimmer | None = None) -> LoadedKit:
    """A spec's text as a kit; `name` is for messages, `images` are those that it names.

    Raises SpecError with every problem of the text.
    """
    kit, source = read_model(Kit, text, name, _A_KIT_SPEC, lambda kit, _: _check(kit, images))
    return _loaded(kit, source, text, images, own)


def parse_kit_again(text: str, before: LoadedKit) -> LoadedKit:
    """A spec's text as a kit, when it was another `before`: one sheet or layout that differs is read alone.

    Raises what `parse_kit` raises.
    """
    name, images, own = before.source.name, before.images, before.own
    again = read_item_again(text, before.source)
    kit = None if again is None or before.in_short is None else _with_item(before.in_short, again)
    if again is None or kit is None or _check(kit, images):
        return parse_kit(text, name, images, own)
    source = Source(name, again.tree, tuple(text.splitlines()))
    return _loaded(kit, source, text, images, own)


def _with_item(kit: Kit, again: ItemAgain) -> Kit | None:
    """A kit, in short, with a sheet or a layout read anew; None where that has a fault."""
    data, at = plain(again.item), again.index
    try:
        if again.key == "sheets":
            return with_sheet(kit, at, read_data(Sheet, data, kit.unit))
        layout = read_data(Layout, data, kit.unit)
    except ValidationError:
        return None
    return replace(kit, layouts=(*kit.layouts[:at], layout, *kit.layouts[at + 1 :]))


def _loaded(kit: Kit, source: Source, text: str, images: Images, own: OwnTrimmer | None) -> LoadedKit:
    """A kit without a fault, all of it written out, and for a person's own trimmer where there is one."""
    written = write_out(kit)
    source = replace(source, typed=written.typed)
    typed = typed_files(text, source.file_name, own.text if own else None)
    fitted = fit_trimmer(written.kit, own) if own else written.kit
    return LoadedKit(fitted, source, images, own, typed, kit)


def _check(kit: Kit, images: Images) -> list[Complaint]:
    """What cannot be written out of a kit, and what its names lead to when it is, where it is typed."""
    written = write_out(kit)
    found = check_references(written.kit, images)
    return [
        *written.complaints,
        *(replace(one, path=as_typed(one.path, written.typed)) for one in found),
    ]
