"""Every phrase's own examples: the words beside the module are read into the steps it says."""

from __future__ import annotations

import importlib
import pkgutil

import pytest

from hookwright.reading import phrases
from hookwright.reading.rows import Context, Lexicon, read_row
from hookwright.reading.shown import shown
from hookwright.reading.wording.characters import plain

MODULES = sorted(info.name for info in pkgutil.iter_modules(phrases.__path__))
EXAMPLES = [
    (name, *example)
    for name in MODULES
    for example in getattr(importlib.import_module(f"hookwright.reading.phrases.{name}"), "EXAMPLES", ())
]


@pytest.mark.parametrize(("module", "words", "expected"), EXAMPLES)
def test_example_is_read_as_told(module: str, words: str, expected: str) -> None:
    reading = read_row(plain(words), Context(main="sc", rounds=True), Lexicon())
    assert shown(reading.steps, reading.counts) == expected


def test_phrase_modules_have_examples() -> None:
    assert len(EXAMPLES) > 60
