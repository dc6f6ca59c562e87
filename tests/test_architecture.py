"""Arrows point one way: read -> check -> compute -> render -> write, and only the edge touches the world."""

import ast
from pathlib import Path

import pytest

import sitegen

ROOT = Path(sitegen.__file__).parent
ORDER = (
    "problems",
    "report",
    "model",
    "read",
    "check",
    "schema",
    "compute",
    "labels",
    "sealing",
    "search",
    "render",
    "write",
    "cli",
    "__main__",
)
EDGE = {"read", "write", "cli", "__main__", ""}
WORLD = {"os", "io", "sys", "time", "random", "shutil", "socket", "subprocess", "tempfile", "pathlib"}
# What a pure module may take from those names, and why it stays pure.
ALLOWED = {
    ("render.pictures", "io"),  # bytes in memory
    ("render.printed_picture", "io"),  # the same
    ("render.zipped", "io"),  # the same
}
MODULES = sorted(ROOT.rglob("*.py"))


def name_of(path: Path) -> str:
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(part for part in parts if part != "__init__")


def imported(path: Path) -> set[str]:
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path.name}: imports are absolute, so that this test sees them"
            names.add(node.module or "")
    return names


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_a_stage_never_reaches_on_to_a_later_one(path: Path) -> None:
    here = name_of(path).split(".")[0]
    if here == "":
        return
    for name in imported(path):
        if name.startswith("sitegen."):
            there = name.split(".")[1]
            assert ORDER.index(there) <= ORDER.index(here), f"{name_of(path)} reaches on to {name}"


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_only_the_edge_touches_files_clock_and_environment(path: Path) -> None:
    here = name_of(path)
    if here.split(".")[0] in EDGE:
        return
    world = {name.split(".")[0] for name in imported(path)} & WORLD
    assert not {name for name in world if (here, name) not in ALLOWED}, f"{here} must stay pure"


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_no_pure_module_reads_the_clock(path: Path) -> None:
    if name_of(path).split(".")[0] in EDGE:
        return
    tree = ast.walk(ast.parse(path.read_text(encoding="utf-8")))
    assert not {n.attr for n in tree if isinstance(n, ast.Attribute)} & {"today", "now", "utcnow"}


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_a_module_says_what_it_is_for(path: Path) -> None:
    assert ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))), f"{path} has no docstring"


def test_only_one_module_imports_the_unit_library() -> None:
    assert [name_of(p) for p in MODULES if "pint" in imported(p)] == ["model.units"]


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_modules_and_functions_stay_small(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert len(text.splitlines()) <= 320, "a module is a screenful or three: split it"
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef):
            assert (node.end_lineno or 0) - node.lineno < 60, f"{node.name} is too long"
