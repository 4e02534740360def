"""The drawings of the tutorial are those the program draws today."""

from __future__ import annotations

import importlib.util
import re
from pathlib import Path
from types import ModuleType

import pytest

DOCS = Path(__file__).parents[2] / "docs"


@pytest.fixture(scope="module")
def pictures() -> ModuleType:
    spec = importlib.util.spec_from_file_location("pictures", DOCS / "pictures.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_no_drawing_is_stale(pictures: ModuleType) -> None:
    stale = [name for name, data in pictures.drawings().items() if (DOCS / "pictures" / name).read_bytes() != data]
    assert stale == [], "run `python docs/pictures.py`"


def test_every_picture_of_the_pages_is_there_and_told_in_words() -> None:
    shown = [(page, *found) for page in DOCS.glob("*.md") for found in re.findall(r"!\[([^\]]*)\]\(([^)]+)\)", page.read_text("utf-8"))]
    assert shown
    for page, words, target in shown:
        assert len(words) > 15, f"{page.name}: {target} has no words"
        assert (page.parent / target).is_file(), f"{page.name}: {target} is missing"
