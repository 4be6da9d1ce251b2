"""The files that a kit is made from, as they may be handed on: the spec, a person's trimmer, the images."""

from __future__ import annotations

from enum import Enum
from pathlib import PurePath

from booklet.kit.images import Images, load_image
from booklet.kit.kit import Kit
from booklet.kit.references import image_names
from booklet.measure.dataclass import dataclass

TRIMMER_NAME = "trimmer.yaml"
_SPEC_ENDING = ".yaml"
_UNNAMED = "kit"


class FileRole(Enum):
    """What a file of a kit is."""

    SPEC = "spec"
    TRIMMER = "trimmer"
    IMAGE = "image"


@dataclass(frozen=True)
class KitFile:
    """A file that a kit is made from: its name without a folder, what it is, its bytes."""

    name: str
    role: FileRole
    data: bytes

    @property
    def media_type(self) -> tuple[str, str]:
        """What kind of file it is, as its bytes begin; of a text what RFC 9512 calls YAML."""
        if self.role is not FileRole.IMAGE:
            return "application", "yaml"
        return "image", "png" if self.data[:4] == b"\x89PNG" else "jpeg"


def typed_files(text: str, name: str, trimmer: str | None) -> tuple[KitFile, ...]:
    """The text of a spec in a file of this name, and of a person's trimmer where the kit is for that."""
    spec = KitFile(_plain_name(name), FileRole.SPEC, text.encode("utf-8"))
    if trimmer is None:
        return (spec,)
    return (spec, KitFile(TRIMMER_NAME, FileRole.TRIMMER, trimmer.encode("utf-8")))


def image_files(kit: Kit, images: Images) -> tuple[KitFile, ...]:
    """The images of a kit, each once, without the notes of a camera: those are nobody's business.

    Raises PictureError for an image that can no longer be read.
    """
    names = dict.fromkeys(name for _, name in image_names(kit))
    return tuple(KitFile(name, FileRole.IMAGE, load_image(images, name).data) for name in names)


def _plain_name(name: str) -> str:
    """A spec's name in letters, digits, - and _, which any computer takes; never that of a trimmer."""
    stem = PurePath(name).stem
    plain = "".join(
        letter if (letter.isascii() and letter.isalnum()) or letter in "-_" else "-" for letter in stem
    )
    kept = plain if plain.strip("-") else _UNNAMED
    return (
        f"{_UNNAMED}-{kept}{_SPEC_ENDING}" if f"{kept}{_SPEC_ENDING}" == TRIMMER_NAME else kept + _SPEC_ENDING
    )
