"""The front matter: facts as YAML, in the order a maker looks for them. JSON strings are YAML strings, so quoting is JSON's."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import fields
from typing import Any, Literal

from ..pattern import Facts, Gauge, Sized, Trim, Yarn
from ..trade.terms import abbr
from .numbers import figure, sizes

_SAFE = re.compile(r"[A-Za-z][A-Za-z0-9 _./()-]*(?<! )")
_MISREAD = frozenset({"yes", "no", "on", "off", "true", "false", "null", "y", "n", "~"})


def front_matter(facts: Facts, *, terms: Literal["US", "UK"], language: str) -> str:
    """The facts between `---` lines; "" when the pattern tells none. Stitch names are in `terms`."""
    told = {key: value for key, value in _facts(facts, terms, language).items() if value not in ("", None, {}, [], ())}
    return "---\n" + "".join(_entry(key, value, 0) for key, value in told.items()) + "---\n"


def _facts(facts: Facts, terms: Literal["US", "UK"], language: str) -> dict[str, Any]:
    return {
        "title": facts.title,
        "version": facts.version,
        "designer": facts.designer,
        "terms": terms,
        "language": language,
        "intended": facts.intended,
        "hook": f"{figure(facts.hook_mm)} mm" if facts.hook_mm else "",
        "sizes": _sizes(facts),
        "finished": {size.what: f"{sizes(size.cm)} cm" for size in facts.finished},
        "gauge": [_gauge(gauge, terms) for gauge in facts.gauge],
        "yarns": {key: _yarn(yarn) for key, yarn in facts.yarns.items()},
        "swatches": [
            {"yarn": s.yarn, "in": abbr(s.stitch, terms), "stitches": s.stitches, "rows": s.rows, "grams": s.grams} for s in facts.swatches
        ],
        "turning_chains": {abbr(kind, terms): {"chains": t.chains, "counts": t.counts} for kind, t in facts.turning_chains.items()},
        "trims": [_trim(trim) for trim in facts.trims],
        "pace": {kind if kind == "st" else abbr(kind, terms): seconds for kind, seconds in facts.pace.items()},
        "prices": dict(facts.prices),
        "pictures": [_told(picture) for picture in facts.pictures],
        **{str(key): value for key, value in facts.notes.items()},
    }


def _sizes(facts: Facts) -> dict[str, Any]:
    if not facts.size_names:
        return {}
    measures = {what: sizes(values) for what, values in facts.size_measures.items()}
    return {"names": list(facts.size_names), **({"measures": measures} if measures else {})}


def _gauge(gauge: Gauge, terms: Literal["US", "UK"]) -> dict[str, Any]:
    told: dict[str, Any] = {"in": abbr(gauge.stitch, terms), "stitches": gauge.stitches}
    if gauge.rows is not None:
        told["rows"] = gauge.rows
    told["over"] = counted_over(gauge.over_cm)
    if gauge.over_rows_cm is not None:
        told["over_rows"] = counted_over(gauge.over_rows_cm)
    if gauge.blocked is not None:
        told["blocked"] = gauge.blocked
    return told


def counted_over(cm: float) -> str:
    """What a gauge is counted over, as it was told: 10.16 cm are 4 in."""
    inches = cm / 2.54
    return f"{inches:.0f} in" if abs(inches - round(inches)) < 1e-6 and abs(cm - round(cm)) > 1e-6 else f"{figure(cm)} cm"


_YARN_KEYS = {"ball_m": "metres", "ball_g": "grams", "balls_stated": "balls"}


def _yarn(yarn: Yarn) -> dict[str, Any]:
    told = {_YARN_KEYS.get(key, key): value for key, value in _told(yarn).items() if key not in ("id", "sequence")}
    if yarn.strands == 1:
        told.pop("strands", None)
    if yarn.sequence:
        told["sequence"] = [{"colour": run.colour, "metres": run.metres} for run in yarn.sequence]
    return told


def _trim(trim: Trim) -> dict[str, Any]:
    renamed = {"card_cm": "card", "length_cm": "length", "tie_cm": "tie"}
    return {renamed.get(key, key): f"{figure(value)} cm" if key in renamed else value for key, value in _told(trim).items()}


def _told(record: Any) -> dict[str, Any]:
    """The fields of a record that say something."""
    values = {field.name: getattr(record, field.name) for field in fields(record)}
    return {key: value for key, value in values.items() if value not in (None, "", ())}


def _entry(key: str, value: Any, depth: int) -> str:
    indent = "  " * depth
    if isinstance(value, Mapping) and value and any(isinstance(item, (Mapping, list, tuple)) for item in value.values()):
        return f"{indent}{_scalar(key)}:\n" + "".join(_entry(str(k), v, depth + 1) for k, v in value.items())
    if isinstance(value, (list, tuple)) and value and all(isinstance(item, Mapping) for item in value):
        return f"{indent}{_scalar(key)}:\n" + "".join(f"{indent}  - {_flow(item)}\n" for item in value)
    return f"{indent}{_scalar(key)}: {_flow(value)}\n"


def _flow(value: Any) -> str:
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{_scalar(str(k))}: {_flow(v)}" for k, v in value.items()) + "}"
    if isinstance(value, Sized):
        return _flow(list(value.values))
    if isinstance(value, Sequence) and not isinstance(value, str):
        return "[" + ", ".join(_flow(item) for item in value) + "]"
    return _scalar(value)


def _scalar(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, (int, float)):
        return figure(value)
    if value is None:
        return "null"
    text = str(value)
    plain = _SAFE.fullmatch(text) and text.lower() not in _MISREAD
    return text if plain else json.dumps(text, ensure_ascii=False)
