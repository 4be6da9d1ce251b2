"""The kit that a command is asked about, made for the trimmer that it is asked for."""

from __future__ import annotations

import os
from argparse import Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from booklet.cli.progress import note

if TYPE_CHECKING:
    from booklet.kit.load import LoadedKit
    from booklet.kit.own_trimmer import OwnTrimmer

_OWN_NAME = "trimmer.yaml"


def load_asked(options: Namespace) -> LoadedKit:
    """Load the kit that is named; where it is made for a person's own trimmer, standard error says so.

    Raises SpecError with every problem of the kit or of the trimmer's file, UsageError where there is none.
    """
    from booklet.kit.bundled import find_spec
    from booklet.kit.load import load_kit

    own = own_asked(options)
    loaded = load_kit(find_spec(options.kit), own)
    if own is not None:
        note(f"made for the trimmer of {own.name}")
    return loaded


def own_place() -> Path:
    """Where a person's own trimmer is kept: the usual place of the platform for settings."""
    from platformdirs import user_config_path

    return user_config_path("booklet", appauthor=False) / _OWN_NAME


def own_asked(options: Namespace) -> OwnTrimmer | None:
    """The trimmer of the file that is named, or of the person's own one where there is one."""
    from booklet.kit.own_trimmer import load_trimmer

    if options.kit_trimmer:
        return None
    if options.trimmer is not None:
        return load_trimmer(options.trimmer, str(options.trimmer))
    place = own_place()
    # Unlike Path.is_file, it takes a folder that somebody else keeps closed for one that holds nothing.
    return load_trimmer(place, str(place)) if os.path.isfile(place) else None
