"""Every code block of the docs runs. `python` blocks of a page share one namespace; in `console` blocks the lines after `$` are carried
out, and the output written below them must be what comes out (a line `…` stands for any lines)."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path

import pytest

from hookwright.cli import help_text
from hookwright.cli.run import run

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "src" / "hookwright" / "demo"
BLOCK = re.compile(r"^```(?P<kind>python|console)[^\n]*\n(?P<body>.*?)^```", re.S | re.M)


def _blocks() -> list[tuple[Path, int, str, str]]:
    pages = [*sorted((ROOT / "docs").rglob("*.md")), ROOT / "README.md"]
    return [
        (page, text.count("\n", 0, match.start()) + 1, match["kind"], match["body"])
        for page in pages
        for text in [page.read_text(encoding="utf-8")]
        for match in BLOCK.finditer(text)
    ]


@pytest.fixture(autouse=True)
def beside_the_demo(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for piece in DEMO.glob("*.md"):
        shutil.copy(piece, tmp_path)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")


@pytest.mark.parametrize(
    ("page", "line", "body"),
    [(page, line, body) for page, line, kind, body in _blocks() if kind == "console"],
    ids=lambda value: value.name if isinstance(value, Path) else str(value) if isinstance(value, int) else "block",
)
def test_console_block(page: Path, line: int, body: str, capfd: pytest.CaptureFixture[str]) -> None:
    for command, expected in _commands(body):
        words = shlex.split(command, comments=True)
        assert words[0] == "hookwright", f"{page.name}:{line}: only hookwright is run here"
        status = 0
        if words[1:] in ([], ["--help"]):
            print(help_text())
        else:
            status = run(words[1:])
        out = capfd.readouterr()
        assert status in (0, 1), f"{page.name}:{line}: `{command}` could not be carried out: {out.err}"
        if expected:
            assert _fits(expected, [one.rstrip() for one in out.out.splitlines()]), f"{page.name}:{line}: `{command}` prints\n{out.out}"


def _commands(body: str) -> list[tuple[str, list[str]]]:
    out: list[tuple[str, list[str]]] = []
    for line in body.splitlines():
        if line.startswith("$ "):
            out.append((line[2:], []))
        elif out:
            out[-1][1].append(line.rstrip())
    return [(command, lines if any(lines) else []) for command, lines in out]


def _fits(expected: list[str], got: list[str]) -> bool:
    """Whether the lines are these, where a line `…` stands for any number of lines."""
    if not expected:
        return not [line for line in got if line]
    if expected[0] == "…":
        return any(_fits(expected[1:], got[skip:]) for skip in range(len(got) + 1))
    if not expected[0] and (not got or got[0]):
        return _fits(expected[1:], got)
    return bool(got) and got[0] == expected[0] and _fits(expected[1:], got[1:])


@pytest.mark.parametrize("page", sorted({page for page, _, kind, _ in _blocks() if kind == "python"}), ids=lambda page: page.name)
def test_python_blocks(page: Path) -> None:
    names: dict[str, object] = {}
    for where, line, kind, body in _blocks():
        if where == page and kind == "python":
            exec(compile("\n" * line + body, str(page), "exec"), names)


def test_the_matcher_can_fail() -> None:
    assert _fits(["a", "…", "d"], ["a", "b", "c", "d"]) and not _fits(["a", "d"], ["a", "b", "d"])
