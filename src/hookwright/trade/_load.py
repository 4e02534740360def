"""Reads the data files of this package, once each, when first asked for."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

_DATA = Path(__file__).parent / "data"

Record = dict[str, Any]


@cache
def table(name: str) -> dict[str, Any]:
    """The data file `name` (without its ending) as it stands."""
    return tomllib.loads((_DATA / f"{name}.toml").read_text(encoding="utf-8"))


def records(name: str, kind: str) -> list[Record]:
    """The records `[[kind]]` of a data file, each with its sources written out.

    >>> records("hooks", "steel")[0]["number"]
    '00'
    """
    data = table(name)
    sources: dict[str, str] = data["sources"]
    return [{**record, "source": "; ".join(sources[key] for key in record["source"])} for record in data.get(kind, ())]


def ranged(record: Record, key: str) -> tuple[float, float] | None:
    """A pair (low, high) of a record, or None where it is not told."""
    pair = record.get(key)
    return None if pair is None else (float(pair[0]), float(pair[1]))
