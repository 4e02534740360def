"""The demo pieces, read, worked and published once for all tests of the folder."""

from __future__ import annotations

from functools import cache

import pytest

from hookwright.demo import piece
from hookwright.pattern import Pattern
from hookwright.publishing import Publication, publish
from hookwright.reading import read
from hookwright.working import Fabric, work


@cache
def worked(name: str) -> tuple[Pattern, tuple[Fabric, ...]]:
    pattern = read(piece(name))
    return pattern, tuple(work(pattern, size=size) for size in range(pattern.sizes))


@cache
def published(name: str) -> Publication:
    return publish(*worked(name))


@pytest.fixture
def pad() -> Publication:
    return published("bollard-seat-pad")


@pytest.fixture
def hat() -> Publication:
    return published("fogbell-hat")


@pytest.fixture
def wrap() -> Publication:
    return published("ebbline-wrap")
