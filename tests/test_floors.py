"""Imports point downward only, packages of one floor never import each other, and every module can be imported alone."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

SRC = Path(__file__).parents[1] / "src" / "hookwright"

FLOORS: tuple[tuple[str, ...], ...] = (
    ("trade", "demo"),
    ("pattern",),
    ("reading", "working"),
    ("measuring", "writing"),
    ("shaping", "yarn"),
    ("proofing", "drawing"),
    ("drafting", "teaching"),
    ("publishing", "records"),
    ("session",),
    ("cli", "worktable", "editor", "importing"),
)
FLOOR = {package: number for number, packages in enumerate(FLOORS) for package in packages}

MAY_START = {("cli", "worktable"), ("cli", "editor"), ("cli", "importing")}
"""The command line starts the other shells; nothing else on the top floor knows a neighbour."""


def _modules() -> list[Path]:
    return sorted(path for path in SRC.rglob("*.py") if "node_modules" not in path.parts)


def _name(path: Path) -> str:
    parts = path.relative_to(SRC.parent).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def _imports(path: Path) -> Iterator[tuple[int, str]]:
    """(line, full name) of everything of ours that a module imports, also inside functions and under TYPE_CHECKING."""
    package = _name(path).split(".") if path.name == "__init__.py" else _name(path).split(".")[:-1]
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names if alias.name.startswith("hookwright"))
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            full = ".".join([*base, *(node.module or "").split(".")]).strip(".")
            if full == "hookwright":
                yield from ((node.lineno, f"hookwright.{alias.name}") for alias in node.names)
            elif full.startswith("hookwright"):
                yield node.lineno, full
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "import_module":
            yield from ((node.lineno, arg.value) for arg in node.args if isinstance(arg, ast.Constant) and "hookwright" in str(arg.value))


def _package(name: str) -> str | None:
    parts = name.split(".")
    return parts[1] if len(parts) > 1 and parts[1] in FLOOR else None


def _forbidden(importer: str, imported: str) -> bool:
    if importer == imported or (importer, imported) in MAY_START:
        return False
    return FLOOR[imported] >= FLOOR[importer]


@pytest.mark.parametrize("path", _modules(), ids=_name)
def test_imports_point_downward(path: Path) -> None:
    here = _package(_name(path))
    if here is None:
        assert path.parent == SRC, f"{_name(path)} stands on no floor: add its package to FLOORS"
        return
    wrong = [f"line {line}: {name}" for line, name in _imports(path) if (there := _package(name)) is not None and _forbidden(here, there)]
    assert not wrong, f"{_name(path)} (floor {FLOOR[here]}) reaches up or sideways: {wrong}"


def test_every_package_stands_on_a_floor() -> None:
    packages = {path.name for path in SRC.iterdir() if (path / "__init__.py").exists()}
    assert packages == set(FLOOR)


def test_the_walk_sees_imports_inside_functions(tmp_path: Path) -> None:
    probe = SRC / "cli" / "common.py"
    assert any(name == "hookwright.reading" for _, name in _imports(probe)), "the import of reading inside `load` was not seen"
    assert _forbidden("pattern", "reading") and _forbidden("reading", "working") and not _forbidden("working", "pattern")


def test_each_module_imports_alone() -> None:
    """Every module in a fresh state: whatever is imported, its package's `__init__` runs first, so a package is loaded afresh once, and
    what each of its modules brings in of its own floor beyond that is thrown out before the next. Lower floors stay: no floor imports one
    above it (the tests before this one), so that no circle goes through them."""
    script = (
        "import importlib, sys\n"
        "def ours(floor): return {m for m in sys.modules if m.split('.')[:2] == ['hookwright', floor]}\n"
        "def alone(name):\n"
        "    try:\n"
        "        importlib.import_module(name)\n"
        "    except Exception as failure:\n"
        "        print(f'{name}: {type(failure).__name__}: {failure}')\n"
        "for line in sys.stdin:\n"
        "    package, *modules = line.split()\n"
        "    floor = (package.split('.') + [''])[1]\n"
        "    for old in ours(floor): del sys.modules[old]\n"
        "    alone(package)\n"
        "    loaded = ours(floor)\n"
        "    for name in modules:\n"
        "        if name not in loaded:\n"
        "            alone(name)\n"
        "            for new in ours(floor) - loaded: del sys.modules[new]\n"
    )
    run_by_others = ("__main__.py", "env.py")  # `python -m`, and the migrations' own runner
    packages: dict[str, list[str]] = {}
    for path in _modules():
        if path.name not in run_by_others:
            name = _name(path)
            packages.setdefault(name if path.name == "__init__.py" else name.rpartition(".")[0], []).append(name)
    lines = "\n".join(" ".join([package, *(name for name in names if name != package)]) for package, names in packages.items())
    done = subprocess.run([sys.executable, "-c", script], input=lines, capture_output=True, text=True, timeout=600, check=False)
    assert done.stdout == "" and done.returncode == 0, done.stdout + done.stderr


def test_no_module_passes_the_wall() -> None:
    """800 lines is a wall: what grows to it is two modules."""
    long = {_name(path): count for path in _modules() if (count := len(path.read_text(encoding="utf-8").splitlines())) > 800}
    assert not long
