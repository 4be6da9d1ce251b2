"""A shell completes the commands and their options by what `booklet complete` prints."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from booklet.cli import main
from tests.cli.runs import run

pytest.importorskip("shtab", reason="what the project asks for is not all installed")


def completed(shell: str, folder: Path) -> Path:
    """The file by which a shell completes."""
    done = run("complete", shell)
    assert (done.returncode, done.stderr) == (0, b"")
    file = folder / ("_booklet" if shell == "zsh" else f"booklet.{shell}")
    file.write_bytes(done.stdout)
    return file


def asked(shell: str, *words: str, folder: Path) -> str:
    if shutil.which(shell) is None:
        pytest.skip(f"{shell} is not here")
    done = subprocess.run([shell, *words], cwd=folder, capture_output=True, text=True, check=False)
    assert done.stderr == ""
    return done.stdout


def offered_by_bash(folder: Path, typed: str) -> list[str]:
    """What bash offers for the last of the words typed."""
    file = completed("bash", folder)
    words = typed.split(" ")
    script = (
        f"source {file}; COMP_WORDS=({' '.join(map(repr, words))}); COMP_CWORD={len(words) - 1}; "
        "_shtab_booklet; printf '%s\\n' \"${COMPREPLY[@]}\""
    )
    return asked("bash", "--norc", "-c", script, folder=folder).split()


def test_bash_completes_commands_options_choices_and_files(tmp_path: Path) -> None:
    (tmp_path / "may.yaml").touch()
    assert offered_by_bash(tmp_path, "booklet temp") == ["template"]
    assert set(offered_by_bash(tmp_path, "booklet make --pr")) == {"--processes", "--proof", "--press"}
    assert set(offered_by_bash(tmp_path, "booklet make --manual-duplex fa")) == {"face-down", "face-up"}
    assert offered_by_bash(tmp_path, "booklet check ma") == ["may.yaml"]


def test_fish_completes_commands_and_options(tmp_path: Path) -> None:
    file = completed("fish", tmp_path)

    def offered(typed: str) -> set[str]:
        script = f"source {file}; complete --do-complete '{typed}'"
        lines = asked("fish", "--no-config", "-c", script, folder=tmp_path).splitlines()
        return {line.split("\t")[0] for line in lines}

    assert offered("booklet temp") == {"template"}
    assert {"--processes", "--proof", "--press"} <= offered("booklet make --pr")


def test_zsh_reads_it_as_a_completion_of_booklet(tmp_path: Path) -> None:
    file = completed("zsh", tmp_path)
    assert file.read_text().startswith("#compdef booklet\n")
    assert asked("zsh", "--no-rcs", "-n", str(file), folder=tmp_path) == ""


def test_another_shell_is_refused_with_those_that_are_known(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["complete", "cmd"])
    assert ended.value.code == 2
    said = capsys.readouterr().err
    assert all(shell in said for shell in ("bash", "zsh", "fish"))


def test_no_other_command_loads_what_makes_completions() -> None:
    program = "import sys; from booklet.cli import main; main(['schema']); sys.exit('shtab' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", program], capture_output=True).returncode == 0
