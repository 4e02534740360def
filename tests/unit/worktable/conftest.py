from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from hookwright.worktable import Table, make_app


@pytest.fixture
def table(tmp_path: Path) -> Table:
    folder = tmp_path / "patterns"
    folder.mkdir()
    (tmp_path / "secret.md").write_text("not hers", encoding="utf-8")
    return Table(folder, clock=lambda: 1_000_000.0)


@pytest.fixture
def app(table: Table) -> Any:
    return make_app(table)
