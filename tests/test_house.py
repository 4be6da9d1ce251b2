"""The order of the house: data flows one way, and so do the imports."""

from __future__ import annotations

import ast
import re
import sys
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]

# Each stage may import from itself and from those before it.
STAGES = (
    "measure",
    "kit",
    "cutting",
    "sorting",
    "placing",
    "drawing.shapes",
    "drawing.writers",
    "drawing.papers",
    "drawing.marks",
    "drawing.cutting",
    "drawing.layouts",
    "drawing.overview",
    "drawing.templates",
    "content",
    "pages",
    "binding",
    "web",
    "proof",
    "view",
    "cli",
)
# The stages that know a library; no other does.
KNOWN_TO = {
    "reportlab": {"drawing.writers", "pages"},
    "reportlab.lib": {"drawing.writers", "pages"},
    "reportlab.lib.pagesizes": {"pages"},
    "reportlab.platypus": {"pages"},
    "svgwrite": {"drawing.writers"},
    "pypdfium2": {"proof", "view", "cli"},
}

# Distributions whose modules bear another name.  The core of pydantic comes with it, release for release.
DISTRIBUTIONS = {"PIL": "pillow", "yaml": "pyyaml", "pydantic_core": "pydantic"}
# Asked for without an import of ours: reportlab takes up rl_accel by itself, to set type faster.
UNSEEN = {"rl-accel"}

# The start-up of the program stands outside the stages and may call on any of them.
OUTSIDE = {"booklet", "booklet.__main__", "booklet.drawing"}

Sources = Mapping[str, str]


def sources_of_the_project() -> dict[str, str]:
    """Every module of the package by its dotted name."""
    return {
        dotted(path.relative_to(ROOT)): path.read_text(encoding="utf-8")
        for path in sorted((ROOT / "booklet").rglob("*.py"))
    }


def dotted(path: Path) -> str:
    parts = path.with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


@cache
def nodes(text: str) -> tuple[ast.AST, ...]:
    """All that a module is made of."""
    return tuple(ast.walk(ast.parse(text)))


def imported(sources: Sources, module: str) -> set[str]:
    """What a module imports, at its top or inside a function: modules of the project, and of others."""
    names: set[str] = set()
    for node in nodes(sources[module]):
        if isinstance(node, ast.Import):
            names.update(alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = absolute(sources, module, node)
            names.update(f"{base}.{alias.name}" for alias in node.names)
    return {owner(sources, name) for name in names}


def absolute(sources: Sources, module: str, node: ast.ImportFrom) -> str:
    if node.level == 0:
        return node.module or ""
    is_package = any(name.startswith(module + ".") for name in sources)
    parents = module.split(".")
    kept = parents[: len(parents) - node.level + is_package]
    return ".".join([*kept, *([node.module] if node.module else [])])


def owner(sources: Sources, name: str) -> str:
    """The module of the project that holds `name`, or the name itself where it comes from elsewhere."""
    parts = name.split(".")
    heads = (".".join(parts[:length]) for length in range(len(parts), 0, -1))
    return next((head for head in heads if head in sources), name)


def stage_of(module: str) -> str | None:
    """The stage of a module: a folder, or a folder within one where the order within it is fixed as well."""
    parts = module.split(".")
    if parts[0] != "booklet" or len(parts) < 2:
        return None
    return next((".".join(parts[1:end]) for end in (3, 2) if ".".join(parts[1:end]) in STAGES), parts[1])


def strangers(sources: Sources) -> list[str]:
    """Modules that belong to no stage."""
    return [module for module in sources if stage_of(module) not in STAGES and module not in OUTSIDE]


def against_the_order(sources: Sources) -> Iterator[str]:
    """Imports of a later stage, or of what no stage knows."""
    for module in sources:
        stage = stage_of(module)
        if stage not in STAGES:
            continue
        for name in sorted(imported(sources, module)):
            other = stage_of(name)
            if other is not None and (other not in STAGES or STAGES.index(other) > STAGES.index(stage)):
                yield f"{module} imports {name}"


def out_of_place(sources: Sources) -> Iterator[str]:
    """Imports of a drawing library in a stage that is to know nothing of it."""
    for module in sources:
        stage = stage_of(module)
        for name in sorted(imported(sources, module)) if stage in STAGES else ():
            for library, stages in KNOWN_TO.items():
                is_of_library = name == library or name.startswith(library + ".")
                if is_of_library and stage not in stages:
                    yield f"{module} imports {name}"


def asked_for(requirements: Iterable[str]) -> set[str]:
    """The names of required distributions, as PEP 503 has them compared."""
    return {same_name(re.split(r"[^\w.-]", line.strip(), maxsplit=1)[0]) for line in requirements}


def same_name(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


def third_parties(sources: Sources) -> set[str]:
    """The distributions whose modules are imported, at the top of a module or inside a function."""
    tops = {name.split(".")[0] for module in sources for name in imported(sources, module)}
    others = tops - sys.stdlib_module_names - {"booklet"}
    return {same_name(DISTRIBUTIONS.get(name, name)) for name in others}


def cycle(sources: Sources) -> list[str]:
    """One ring of modules that import each other, or nothing."""
    within = {module: sorted(imported(sources, module) & sources.keys()) for module in sources}
    done: set[str] = set()

    def search(path: list[str]) -> list[str]:
        for name in within[path[-1]]:
            if name in path:
                return [*path[path.index(name) :], name]
            if name not in done and (found := search([*path, name])):
                return found
        done.add(path[-1])
        return []

    return next((ring for module in sources if module not in done and (ring := search([module]))), [])


def test_every_module_belongs_to_a_stage() -> None:
    sources = sources_of_the_project()
    assert {stage_of(module) for module in sources} >= set(STAGES)
    assert strangers(sources) == []


def test_imports_run_one_way() -> None:
    assert list(against_the_order(sources_of_the_project())) == []


def test_only_writers_and_pages_know_the_drawing_libraries() -> None:
    assert list(out_of_place(sources_of_the_project())) == []


def test_no_modules_import_each_other_in_a_ring() -> None:
    assert cycle(sources_of_the_project()) == []


def test_what_is_imported_is_what_is_asked_for() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert third_parties(sources_of_the_project()) | UNSEEN == asked_for(project["dependencies"])


def test_a_wheel_holds_every_package_and_what_lies_beside() -> None:
    setup = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["setuptools"]
    in_tree = {dotted(path.parent.relative_to(ROOT)) for path in (ROOT / "booklet").rglob("*.py")}
    assert set(setup["packages"]) == in_tree | {"booklet.fonts", "booklet.kit_specs"}
    lying = {"booklet.fonts": "fonts", "booklet.kit_specs": "kit_specs", "booklet.web": "booklet/web"}
    assert setup["package-dir"] == {"booklet": "booklet"} | {
        name: lying[name] for name in ("booklet.fonts", "booklet.kit_specs")
    }
    for package, folder in lying.items():
        kept = {name for pattern in setup["package-data"][package] for name in (ROOT / folder).glob(pattern)}
        assert {path for path in (ROOT / folder).iterdir() if path.is_file() and path.suffix != ".py"} == kept


def test_each_licence_that_is_named_comes_with_its_text() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    texts = [
        path.read_text(encoding="utf-8") for name in project["license-files"] for path in ROOT.glob(name)
    ]
    titles = {"MIT": "MIT License", "OFL-1.1": "SIL OPEN FONT LICENSE Version 1.1"}
    assert project["license"].split(" AND ") == list(titles)
    for title in titles.values():
        assert any(title in text for text in texts), title
    assert sum("Font Software" in text for text in texts) == 2  # each family has its own notice of copyright


# Words.

# Two words of a sentence: letters, perhaps a comma, a space, letters.
_SENTENCE = re.compile(r"[^\W\d_]{2,}[,.:;]? +[^\W\d_]{2,}")
# Names by which the parts of a figure or the styles of type are found, and what a format prescribes.
NEVER_PRINTED = {
    "cut marker",
    "dimension ends",
    "enlarged view",
    "placing marker",
    "register mark",
    "ring leader",
    "scale words",
    "cell strong",
    "signal on ink",
    "'Booklet Sans', 'Source Sans 3', sans-serif",
    "'Booklet Serif', 'Source Serif 4', serif",
    '<?xml version="1.0" encoding="utf-8" ?>\n',
    "<!DOCTYPE html>\n",
    "width=device-width, initial-scale=1",
    "font-family:'Booklet Sans';font-weight:400",
    "font-family:'Booklet Sans';font-weight:600",
    "font-family:'Booklet Sans';font-style:italic",
    "font-family:'Booklet Serif';font-weight:600",
}
# They set type: they break lines, hyphenate and choose quotes, and decide nothing about the kit.
TYPOGRAPHY = {"booklet.pages.hyphens", "booklet.pages.text", "booklet.pages.type"}
_READS_TEXT = {
    *("startswith", "endswith", "removeprefix", "removesuffix", "replace"),
    *("split", "rsplit", "partition", "rpartition"),
}


def stage_sources(sources: Sources, stage: str) -> dict[str, str]:
    """The modules of a stage, or of several that lie in one folder; none of the words of a language."""
    mine = {name: text for name, text in sources.items() if name.split(".")[1:2] == [stage]}
    return {name: text for name, text in mine.items() if not name.startswith("booklet.content.words")}


def sentences(sources: Sources) -> Iterator[str]:
    """Text of two words or more, but for docstrings, names of choices and what is raised.

    The values of an enumeration are names, and an error is told to who typed the kit: neither is printed.
    """
    for module, text in sources.items():
        tree = ast.parse(text)
        exempt = {
            id(node) for root in (*docstrings(tree), *choices(tree), *raised(tree)) for node in ast.walk(root)
        }
        for node in ast.walk(tree):
            if id(node) in exempt or not isinstance(node, ast.Constant) or not isinstance(node.value, str):
                continue
            if _SENTENCE.search(node.value) and node.value not in NEVER_PRINTED:
                yield f"{module}:{node.lineno} says {node.value!r}"


def docstrings(tree: ast.Module) -> Iterator[ast.AST]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef):
            yield from (one for one in node.body[:1] if isinstance(one, ast.Expr))


def choices(tree: ast.Module) -> Iterator[ast.AST]:
    for node in ast.walk(tree):
        if isinstance(node, ast.ClassDef) and any(ast.unparse(base).endswith("Enum") for base in node.bases):
            yield node


def raised(tree: ast.Module) -> Iterator[ast.AST]:
    """What is raised, and the functions of the module that write it."""
    raising = [node for node in ast.walk(tree) if isinstance(node, ast.Raise | ast.Assert)]
    calls = [call for node in raising for call in ast.walk(node) if isinstance(call, ast.Call)]
    writers = {call.func.id for call in calls if isinstance(call.func, ast.Name)}
    yield from raising
    yield from (node for node in tree.body if isinstance(node, ast.FunctionDef) and node.name in writers)


def read_back(sources: Sources) -> Iterator[str]:
    """Where a text is taken apart or compared by its letters."""
    for module, text in sources.items():
        if any(name.split(".")[0] == "re" for name in imported({module: text}, module)):
            yield f"{module} imports re"
        for node in nodes(text):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and takes_apart(node):
                yield f"{module}:{node.lineno} calls {node.func.attr}"


def takes_apart(call: ast.Call) -> bool:
    """Whether a method of text is called.

    A flowable is split as well, by a width and a height.
    """
    assert isinstance(call.func, ast.Attribute)
    is_flowable = call.func.attr == "split" and len(call.args) == 2 and not has_text(call)
    return call.func.attr in _READS_TEXT and not is_flowable


def has_text(call: ast.Call) -> bool:
    return any(isinstance(arg, ast.Constant) and isinstance(arg.value, str) for arg in call.args)


@pytest.mark.parametrize("stage", ["drawing", "content", "pages", "binding", "web", "view"])
def test_no_sentence_stands_outside_the_words(stage: str) -> None:
    sources = stage_sources(sources_of_the_project(), stage)
    assert sources
    assert list(sentences(sources)) == []


@pytest.mark.parametrize("stage", ["content", "pages", "web"])
def test_no_decision_reads_words_that_are_printed(stage: str) -> None:
    sources = stage_sources(sources_of_the_project(), stage)
    assert sources
    assert list(read_back({name: text for name, text in sources.items() if name not in TYPOGRAPHY})) == []


# The checks themselves, on made-up sources that break the order.


@pytest.mark.parametrize(
    "line",
    [
        "from booklet.pages.flow import fill",
        "from booklet.pages import flow",
        "import booklet.pages.flow as flow",
        "from ..pages.flow import fill",
        "from ..pages import flow",
        "def late():\n    from booklet.pages.flow import fill",
        "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from booklet.pages.flow import fill",
    ],
)
def test_a_later_stage_is_caught(line: str) -> None:
    sources = {
        "booklet.pages": "",
        "booklet.pages.flow": "",
        "booklet.cutting": "",
        "booklet.cutting.tree": line,
    }
    assert list(against_the_order(sources)) == ["booklet.cutting.tree imports booklet.pages.flow"]


def test_a_package_s_own_relative_imports_are_read_from_the_package() -> None:
    sources = {"booklet.kit": "from . import sheet\nfrom ..cli import main", "booklet.kit.sheet": ""}
    assert list(against_the_order(sources)) == ["booklet.kit imports booklet.cli.main"]


def test_an_earlier_stage_and_other_libraries_pass() -> None:
    sources = {
        "booklet.kit.sheet": "",
        "booklet.cutting.tree": "import re\nfrom booklet.kit.sheet import Sheet",
    }
    assert list(against_the_order(sources)) == []


def test_a_stage_without_a_place_is_caught() -> None:
    sources = {"booklet.kit": "from booklet.tools import anything", "booklet.tools": ""}
    assert strangers(sources) == ["booklet.tools"]
    assert list(against_the_order(sources)) == ["booklet.kit imports booklet.tools"]


@pytest.mark.parametrize(
    ("stage", "line", "caught"),
    [
        ("placing", "from reportlab.pdfgen.canvas import Canvas", True),
        ("kit", "def draw():\n    import svgwrite", True),
        ("drawing.writers", "from reportlab.pdfgen.canvas import Canvas", False),
        ("drawing.writers", "from reportlab.lib.pagesizes import A4", True),
        ("drawing.marks", "from reportlab.lib import pagesizes", True),
        ("pages", "from reportlab.lib.pagesizes import A4", False),
        ("content", "from reportlab.pdfbase.pdfmetrics import stringWidth", True),
        ("binding", "import reportlab", True),
        ("kit", "import reportlabels", False),
    ],
)
def test_a_drawing_library_out_of_place_is_caught(stage: str, line: str, caught: bool) -> None:
    assert bool(list(out_of_place({f"booklet.{stage}.made_up": line}))) == caught


def test_a_ring_is_caught() -> None:
    sources = {
        "booklet.kit.a": "from booklet.kit.b import x",
        "booklet.kit.b": "def later():\n    from booklet.kit import c",
        "booklet.kit.c": "import booklet.kit.a",
        "booklet.kit.d": "from booklet.kit.a import y",
    }
    assert cycle(sources) == ["booklet.kit.a", "booklet.kit.b", "booklet.kit.c", "booklet.kit.a"]


def test_a_lattice_without_a_ring_passes() -> None:
    sources = {
        "booklet.kit.a": "from booklet.kit import b, c",
        "booklet.kit.b": "from booklet.kit import d",
        "booklet.kit.c": "from booklet.kit import d",
        "booklet.kit.d": "",
    }
    assert cycle(sources) == []


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("from PIL import Image", {"pillow"}),
        ("def late():\n    import numpy.typing as typing", {"numpy"}),
        (
            "if TYPE_CHECKING:\n    from fontTools.pens import basePen",
            {"fonttools"},
        ),
        ("from . import sheet\nimport xml.sax.saxutils, zlib", set()),
        ("from __future__ import annotations\nfrom booklet.kit import sheet", set()),
    ],
)
def test_an_import_of_another_distribution_is_seen(line: str, found: set[str]) -> None:
    assert third_parties({"booklet.kit.made_up": line, "booklet.kit": "", "booklet.kit.sheet": ""}) == found


def test_a_requirement_is_known_by_its_name() -> None:
    lines = ["pikepdf>=10", "rl_accel >=0.9", "types-PyYAML", "ruamel.yaml[jinja2]==1; python_version < '4'"]
    assert asked_for(lines) == {"pikepdf", "rl-accel", "types-pyyaml", "ruamel-yaml"}


@pytest.mark.parametrize(
    ("line", "caught"),
    [
        ('said = "Cut at the mark"', True),
        ('said = f"Cut at {mark}, then turn"', True),
        ('"""What this does for the pages."""', False),
        ('def make():\n    """Make what there is."""', False),
        ('raise ValueError("no such thing")', False),
        ('def told(x):\n    return "too high for it"\n\ndef check(x):\n    raise ValueError(told(x))', False),
        ('from enum import Enum\nclass Kind(Enum):\n    COVER = "front cover"', False),
        ('class Cover:\n    name = "front cover"', True),
        ('path = "M 16 50 L 25 66"', False),
        ('name = "pocket-1"', False),
        ('role = "ring leader"', False),
    ],
)
def test_a_sentence_outside_the_words_is_caught(line: str, caught: bool) -> None:
    assert bool(list(sentences({"booklet.content.made_up": line}))) == caught


@pytest.mark.parametrize(
    ("line", "caught"),
    [
        ("import re", True),
        ("def late():\n    from re import sub", True),
        ('is_its = said.startswith("its ")', True),
        ('words = said.split(" ")', True),
        ("words = said.split()", True),
        ('first, rest = said.split(" ", 1)', True),
        ("parts = flowable.split(width, height)", False),
        ("from dataclasses import replace\nother = replace(one, text='')", False),
        ('said = said.replace("the ", "its ")', True),
    ],
)
def test_a_text_that_is_read_back_is_caught(line: str, caught: bool) -> None:
    assert bool(list(read_back({"booklet.content.made_up": line}))) == caught


def test_the_words_of_a_language_may_hold_sentences() -> None:
    sources = {"booklet.content.words.english.front": 'said = "Cut at the mark"', "booklet.content.front": ""}
    assert stage_sources(sources, "content") == {"booklet.content.front": ""}


def test_no_test_needs_a_browser_and_is_thorough() -> None:
    """Each kind is a run of its own (`.ci/run`); all of the folder are marked for a browser."""
    in_browser = (ROOT / "tests" / "browser").glob("*.py")
    assert [path.name for path in in_browser if "mark.thorough" in path.read_text(encoding="utf-8")] == []
