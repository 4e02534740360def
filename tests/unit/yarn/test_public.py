"""The package's public names."""

from __future__ import annotations

from pathlib import Path

import pytest

import hookwright.yarn as yarn


def test_every_public_name_is_there() -> None:
    for name in yarn.__all__:
        assert getattr(yarn, name) is not None
    assert list(yarn.__all__) == sorted(yarn.__all__)
    with pytest.raises(AttributeError, match="no attribute"):
        yarn.nothing  # noqa: B018


def test_no_public_name_is_hidden_by_a_module() -> None:
    """Importing a module sets its name on the package: a function of the same name would then be lost."""
    modules = {path.stem for path in Path(yarn.__file__).parent.glob("*.py")}
    assert not modules & set(yarn.__all__)
