"""Fabrics for the chart tests: those built by hand and the gallery's patterns."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from hookwright.working.fabric import Fabric

TESTS = Path(__file__).parents[2]
sys.path.insert(0, str(TESTS))


@pytest.fixture(scope="session")
def pieces() -> dict[str, Fabric]:
    """Hand-built pieces by name: rows, lace, shells, ripples, cables, squares, rounds."""
    import charts_fabrics
    import fabrics

    return {
        **charts_fabrics.all_rows(),
        **charts_fabrics.all_rounds(),
        "rectangle": fabrics.rectangle(12, 5),
        "triangle": fabrics.triangle(9),
        "bevel": fabrics.bevelled_strip(),
    }
