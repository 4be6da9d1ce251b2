"""What the README says is so: its spec builds, its numbers are right, its message is what is printed."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from PIL import Image, ImageChops, ImageStat

from booklet.cli import main as command
from booklet.kit.hands import Hand
from booklet.kit.kit import trimmer_limits
from booklet.kit.load import parse_kit
from booklet.kit.own_trimmer import fit_trimmer, load_trimmer
from booklet.kit.schema import json_schema
from booklet.measure.length import Size, Unit, parse_length
from booklet.pages.office_paper import OfficePaper
from booklet.pages.tiles import OVERLAP
from booklet.placing.details import NestBorder
from booklet.placing.resolved import ResolvedKit, resolve_kit
from booklet.proof.findings import kit_findings
from tests.kits import in_pocket
from tests.readme_picture import PICTURE, opening
from tests.templates.joined import read_pages

README = (Path(__file__).parent.parent / "README.md").read_text(encoding="utf-8")


def block(name: str) -> str:
    """The fenced block between the README's comments of this name."""
    found = re.search(rf"<!-- {name}: begin -->\n```\w+\n(.*?)```\n<!-- {name}: end -->", README, re.DOTALL)
    assert found is not None, f"the README has no block {name}"
    return found[1]


def resolved_spec() -> ResolvedKit:
    return resolve_kit(parse_kit(block("spec"), "window.yaml", Path()))


def test_the_spec_has_ten_lines_and_nothing_wrong() -> None:
    assert len(block("spec").splitlines()) == 10
    assert kit_findings(resolved_spec()) == ()


def test_the_pieces_are_as_said() -> None:
    resolved = resolved_spec()
    sizes = {p.name: p.size for stage in resolved.sheets[0].stages for s in stage.strips for p in s.pieces}
    assert sizes["middle"] == Size(Fraction(13, 2), Fraction(12))
    assert sizes["panel"] == Size(Fraction(13, 2), Fraction(8))
    assert sizes["scrap"] == Size(Fraction(13, 2), Fraction(4))
    (panel,) = [piece for piece in resolved.sheets[0].pieces if piece.name == "panel"]
    assert panel.part.bottom == 12  # at the foot of the print
    filed = [entry for entry in in_pocket(resolved.ledger, 1) if entry.name != "sand"]
    assert len(filed) == 3


def test_the_border_of_the_photograph_is_as_said() -> None:
    (layout,) = resolved_spec().layouts
    (border,) = [d for step in layout.steps for d in step.details if isinstance(d, NestBorder)]
    assert (border.across, border.down) == (Fraction(5, 4), Fraction(1))


def test_the_sheet_with_cuts_in_two_steps_has_nothing_wrong() -> None:
    """In a kit that asks for both bands and for all squares but the spare one."""
    spec = block("spec").replace("fern", "carriage")
    start, end = spec.index("  - {id: carriage"), spec.index("  - {id: sand")
    bands = "{column: [band, band], left: 0, top: 0, bottom: 0}"
    squares = "{row: [square], count: 4, left: 0, right: 0, top: 5}"
    asked = f"layouts: [{{id: window, pocket: 1, base: sand, steps: [{bands}, {squares}]}}]"
    text = spec[:start] + block("cuts") + spec[end : spec.index("layouts:")] + asked
    kit = parse_kit(text, "window.yaml", Path())
    assert kit_findings(resolve_kit(kit)) == ()


def test_the_trimmer_of_ones_own_can_be_used(tmp_path: Path) -> None:
    file = tmp_path / "trimmer.yaml"
    file.write_text(block("trimmer"), encoding="utf-8")
    kit = fit_trimmer(resolved_spec().kit, load_trimmer(file, "trimmer.yaml"))
    limits = trimmer_limits(kit)
    assert (limits.mark, limits.blade, kit.trimmer.hand) == (Fraction(1, 16), Fraction(13), Hand.LEFT)


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_what_is_usual_of_a_trimmer_is_as_said(unit: str) -> None:
    usual = trimmer_limits(parse_kit(f"unit: {unit}\n{block('spec')}", "window.yaml", Path()).kit)
    for key in ("mark", "reach", "blade", "hold"):
        (row,) = re.findall(rf"\| `{key}` \|[^|]*\| ([^|]*) \|", README)
        said = {each.split()[-1]: each for each in row.split(" or ")}
        assert parse_length(said[unit], Unit(unit)) == getattr(usual, key)


def test_every_key_and_every_word_of_choice_is_explained() -> None:
    code = re.findall(r"`([^`\n]+)`", README) + re.findall(r"```yaml\n(.*?)```", README, re.DOTALL)
    keys, words = said_in(json_schema())
    assert len(keys) > 100
    assert len(words) > 60
    for word in keys | words:
        assert any(re.search(rf"(?<!\w){re.escape(word)}(?!\w)", each) for each in code), word


def test_every_command_and_every_option_is_explained(capsys: pytest.CaptureFixture[str]) -> None:
    def helped(*words: str) -> str:
        with pytest.raises(SystemExit) as ended:
            command([*words, "--help"])
        assert ended.value.code == 0
        return capsys.readouterr().out

    commands = re.findall(r"^    ([a-z]+) ", helped(), re.MULTILINE)
    assert len(commands) == README.count("\n| `booklet ")
    for name in commands:
        assert f"\n| `booklet {name}" in README, name
        options = set(re.findall(r"^  (--[a-z-]+)", helped(name), re.MULTILINE)) - {"--help"}
        for option in options:
            assert re.search(rf"`[^`\n]*{option}(?![a-z-])", README), f"{name} {option}"


def said_in(part: Any) -> tuple[set[str], set[str]]:
    """The keys that a JSON Schema knows, and the words of which one is to be chosen; `no` goes with `yes`."""
    if isinstance(part, list):
        inner = [said_in(each) for each in part]
    elif isinstance(part, dict):
        inner = [said_in(each) for each in part.values()]
        inner.append((set(part.get("properties", ())), set()))
        chosen = [*part.get("enum", ()), *([part["const"]] if "const" in part else [])]
        inner.append((set(), {word for word in chosen if isinstance(word, str) and word != "no"}))
    else:
        return set(), set()
    return set().union(*(keys for keys, _ in inner)), set().union(*(words for _, words in inner))


def test_the_message_is_the_one_that_is_printed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    spec = block("spec").replace("at: [9, 2 1/2]", "at: [12 1/2, 2 1/2]")
    (tmp_path / "window.yaml").write_text(spec, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert command(["check", "window.yaml"]) == 1
    printed = capsys.readouterr().out
    assert block("says").strip() in printed.splitlines()


def test_the_planned_cuts_are_those_that_are_printed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    spec = block("spec")
    start, end = spec.index("  - {id: fern"), spec.index("  - {id: sand")
    (tmp_path / "window.yaml").write_text(spec[:start] + block("plan") + spec[end:], encoding="utf-8")
    assert command(["plan", str(tmp_path / "window.yaml")]) == 0
    assert capsys.readouterr().out == block("planned")


@pytest.mark.usefixtures("booklets_made_once")
def test_the_picture_shows_what_the_tool_makes() -> None:
    drawn, kept = opening(), Image.open(PICTURE).convert("RGB")
    assert kept.size == drawn.size
    # Few colours and another release of the renderer move a tone a little; another page moves far more.
    assert _difference(drawn, kept) < 0.01
    turned = kept.transpose(Image.Transpose.FLIP_LEFT_RIGHT)
    assert _difference(drawn, turned) > 0.03


def _difference(one: Image.Image, other: Image.Image) -> float:
    return sum(ImageStat.Stat(ImageChops.difference(one, other)).mean) / 3 / 255


@pytest.mark.usefixtures("booklets_made_once")
def test_the_commands_for_a_lost_page_do_what_is_said(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert command(["make", "hill-line", "--out", "."]) == 0
    lines = [line.partition("#") for line in block("reprint").splitlines() if line.startswith("booklet ")]
    assert len(lines) == 4
    for typed, _, _ in lines:
        assert command(typed.split()[1:]) == 0
    said = lines[0][2].strip()
    assert (tmp_path / said).is_file()
    assert "piece badge mat" in capsys.readouterr().out


def test_templates_take_as_many_pages_as_said(tmp_path: Path) -> None:
    said = re.findall(r"`\"?([\w -]+?)\"?` takes (\d+)", README)
    assert len(said) == 2
    for name, count in said:
        assert command(["template", "hill-line", name, "--out", str(tmp_path)]) == 0
        (file,) = tmp_path.glob(f"hill-line-template-{name.replace(' ', '-')}.pdf")
        pages = read_pages(file.read_bytes())
        assert len(pages) == int(count)
        names = ["".join(sign.text for sign in page.signs) for page in pages]
        assert all(f"A{column}" in names[column - 1] for column in (1, 2))


def test_what_is_said_of_templates_is_so() -> None:
    section = README.split("## At true size")[1].split("## ")[0]
    (overlap,) = re.findall(r"overlap by (\d+) mm", section)
    assert int(overlap) * Unit.MILLIMETRE.points == OVERLAP
    assert "4 in and 100 mm" in section
    (row,) = (line for line in README.splitlines() if "`booklet template KIT NAME`" in line)
    for option in ("--paper", "--piece", "--layout"):
        assert option in row
    assert all(f"`{paper.value}`" in row or f" {paper.value}`" in row for paper in OfficePaper)
