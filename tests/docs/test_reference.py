"""The generated reference pages agree with the code, every page can be reached, and every link leads somewhere."""

from __future__ import annotations

import importlib.util
import re
from pathlib import Path
from types import ModuleType

import pytest

DOCS = Path(__file__).parents[2] / "docs"
ROOT = DOCS.parent


def generator() -> ModuleType:
    spec = importlib.util.spec_from_file_location("docs_generate", DOCS / "generate.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_generated_pages_are_not_stale(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    wanted = generator().pages()
    stale = [path for path, text in wanted.items() if not (DOCS / path).exists() or (DOCS / path).read_text(encoding="utf-8") != text]
    assert not stale, f"run `python docs/generate.py`: {stale}"
    there = {path.relative_to(DOCS).as_posix() for path in (DOCS / "reference").rglob("*.md")}
    assert there == set(wanted), "pages that the generator no longer writes"


def _pages() -> list[Path]:
    return sorted([*DOCS.rglob("*.md"), ROOT / "README.md", ROOT / "CONTRIBUTING.md", ROOT / "CHANGELOG.md"])


@pytest.mark.parametrize("page", _pages(), ids=lambda page: page.relative_to(ROOT).as_posix())
def test_links_lead_somewhere(page: Path) -> None:
    text = re.sub(r"```.*?```", "", page.read_text(encoding="utf-8"), flags=re.S)
    targets = [target.split("#")[0] for target in re.findall(r"\]\(([^)\s]+)\)", text) if not target.startswith(("http", "#", "mailto:"))]
    lost = [target for target in targets if target and not (page.parent / target).exists()]
    assert not lost


def test_every_page_is_reached_from_the_index() -> None:
    seen: set[Path] = set()
    waiting = [DOCS / "index.md"]
    while waiting:
        page = waiting.pop()
        if page in seen or not page.exists():
            continue
        seen.add(page)
        found = re.findall(r"\]\(([^)\s#]+\.md)(?:#[^)]*)?\)", page.read_text(encoding="utf-8"))
        waiting += [(page.parent / target).resolve() for target in found if not target.startswith("http")]
    unreached = {page for page in DOCS.rglob("*.md") if page.resolve() not in {one.resolve() for one in seen}}
    assert not unreached, f"no link leads to {sorted(page.name for page in unreached)}"
