"""Settings: what the pattern's front matter says, then `hookwright.toml` in its folder or above, then the defaults."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from .common import CannotDo, Source

FILE = "hookwright.toml"
MOST_BYTES = 100_000

_DEFAULTS: dict[str, tuple[Any, Callable[[Any], bool], str]] = {
    "terms": ("US", lambda v: v in ("US", "UK"), '"US" or "UK"'),
    "language": ("en", lambda v: isinstance(v, str) and 2 <= len(v) <= 8, 'a language code such as "en"'),
    "units": ("cm", lambda v: v in ("cm", "in"), '"cm" or "in"'),
    "hand": ("right", lambda v: v in ("right", "left"), '"right" or "left"'),
    "studio": ("", lambda v: isinstance(v, str), "a name"),
    "pace": (0.0, lambda v: isinstance(v, int | float) and v >= 0, "seconds a stitch"),
    "tail_m": (0.15, lambda v: isinstance(v, int | float) and 0 <= v <= 5, "metres left at each yarn end"),
}
"""Setting → (default, is a value of it fit, what fits)."""


@dataclass(frozen=True, slots=True)
class Setting:
    """A value and where it came from: "default", "front matter of …", "…/hookwright.toml"."""

    value: Any
    origin: str


def settings_for(source: Source | None, front_matter: Mapping[str, object] | None = None) -> dict[str, Setting]:
    """Every setting for a pattern file (or for the working folder). Raises CannotDo for a `hookwright.toml` that cannot be used."""
    out = {name: Setting(default, "default") for name, (default, _, _) in _DEFAULTS.items()}
    start = source.path.resolve().parent if source and source.path else Path.cwd()
    found = _find(start)
    if found is not None:
        out |= _from_file(found)
    if source is not None:
        told = front_matter if front_matter is not None else _told_in(source)
        out |= {name: Setting(told[name], f"front matter of {source.name}") for name in _DEFAULTS if _fits(name, told.get(name))}
    return out


def _find(start: Path) -> Path | None:
    return next((folder / FILE for folder in (start, *start.parents) if (folder / FILE).is_file()), None)


def _from_file(path: Path) -> dict[str, Setting]:
    try:
        data = path.read_bytes()
        if len(data) > MOST_BYTES:
            raise CannotDo(f"{path} is too big for a settings file.")
        told = tomllib.loads(data.decode("utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as failure:
        raise CannotDo(f"{path} is not valid TOML: {str(failure).rstrip('.')}.") from None
    except OSError as failure:
        raise CannotDo(f"{path} could not be read ({failure.strerror}).") from None
    for name, value in told.items():
        if name not in _DEFAULTS:
            raise CannotDo(f"{path}: there is no setting `{name}`; the settings are {', '.join(_DEFAULTS)}.")
        if not _fits(name, value):
            raise CannotDo(f"{path}: `{name}` should be {_DEFAULTS[name][2]}.")
    return {name: Setting(value, str(path)) for name, value in told.items()}


def _fits(name: str, value: object) -> bool:
    return value is not None and _DEFAULTS[name][1](value)


def _told_in(source: Source) -> dict[str, object]:
    from ..reading import read

    pattern = read(source.text)
    told: dict[str, object] = dict(pattern.facts.notes)
    told |= {"terms": pattern.terms, "language": pattern.language}
    return told
