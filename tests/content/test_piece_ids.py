"""Names by which each piece is ticked: no two have the same."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.content.piece_ids import ids_of, piece_ids
from booklet.kit.load import LoadedKit
from booklet.kit.source import Source
from booklet.placing.resolved import resolve_kit
from tests.content.specs import DEMOS, demo
from tests.kits import cut, cut_one, layout, make_kit, ready, sheet


@pytest.mark.parametrize("kit", DEMOS)
def test_every_piece_has_a_name_of_its_own(kit: str) -> None:
    resolved = demo(kit)
    ids = piece_ids(resolved)
    assert len(set(ids.values())) == len(resolved.ledger.entries)
    cut = [entry for entry in resolved.ledger.entries if entry.label]
    assert set(ids_of(resolved, cut)) >= {entry.label for entry in cut}


def test_pieces_that_are_called_like_each_other_have_names_of_their_own() -> None:
    strips = sheet(cut("5", "wave"), cut("2", "wave"))
    label = cut_one(strips).pieces[0].label
    box = [ready(label), ready("mat", count=2), ready("mat 2")]
    kit = make_kit(strips, ready=box, layouts=[layout("base", label, "wave", "mat", "mat", "mat 2")])
    resolved = resolve_kit(LoadedKit(kit, Source("kit.yaml", None, ()), Path()))
    entries = resolved.ledger.entries
    ids = piece_ids(resolved)
    assert len(set(ids.values())) == len(entries)
    # A label, and the first of a name, stand as a cut slip and a list say them.
    assert [ids[place] for place, entry in enumerate(entries) if entry.label] == [
        entry.label for entry in entries if entry.label
    ]
    assert {"mat", "mat 2", "mat 3"} <= set(ids.values())
