"""What `booklet complete` does: print what lets a shell complete the commands, their options and files."""

from __future__ import annotations

from argparse import Action, ArgumentParser, Namespace, _SubParsersAction
from collections.abc import Iterator

from booklet.cli.exits import Exit

_SHELLS = ("bash", "zsh", "fish")
# What stands for a file, and for a folder, in the help.
_FILES = {"KIT", "SOURCE", "FILE", "PDF", "CSV"}
_FOLDERS = {"DIR"}


def add_complete(parser: ArgumentParser) -> None:
    """Declare the shell."""
    parser.add_argument("shell", choices=_SHELLS, help="the shell that is to complete what is typed")


def complete(program: ArgumentParser, options: Namespace) -> Exit:
    """Print the completion of a program for a shell, to be put where that shell looks for it."""
    import shtab

    for action in _actions(program):
        if action.metavar in _FILES:
            action.complete = shtab.FILE  # type: ignore[attr-defined]  # where shtab looks for it
        elif action.metavar in _FOLDERS:
            action.complete = shtab.DIRECTORY  # type: ignore[attr-defined]
    print(shtab.complete(program, options.shell), end="")
    return Exit.WELL


def _actions(parser: ArgumentParser) -> Iterator[Action]:
    """The arguments of a program and of its commands."""
    for action in parser._actions:
        yield action
        if isinstance(action, _SubParsersAction):
            for command in action.choices.values():
                yield from _actions(command.declared())
