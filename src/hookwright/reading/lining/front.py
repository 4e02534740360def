"""YAML front matter: bounds first, then values with their places."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from ...pattern import Span

MAX_BYTES = 1_000_000
MAX_DEPTH = 20
MAX_ALIASES = 50
MAX_NODES = 20_000
"""Values after aliases are followed: fifty aliases can unfold to any number."""
_OPEN = re.compile(r"\ufeff?\s*\n?---[ \t]*\r?\n")
_CLOSE = re.compile(r"^(?:---|\.\.\.)[ \t]*\r?$", re.MULTILINE)


@dataclass(slots=True)
class Front:
    """The front matter as plain values; `end` where the body begins; `spans` of dotted keys; `problem`: why it could not be read."""

    values: Mapping[str, Any] = field(default_factory=dict)
    end: int = 0
    spans: dict[str, Span] = field(default_factory=dict)
    problem: str = ""
    problem_span: Span = Span(0, 0)


def read_front(text: str) -> Front:
    """The front matter of a text, empty when it has none. Never raises."""
    opened = _OPEN.match(text)
    if not opened:
        return Front()
    closed = _CLOSE.search(text, opened.end())
    if not closed:
        return Front()
    start, stop = opened.end(), closed.start()
    front = Front(end=closed.end())
    whole = Span(start, stop)
    if stop - start > MAX_BYTES:
        front.problem, front.problem_span = "the front matter is longer than 1 MB and was not read", whole
        return front
    block = text[start:stop]
    try:
        _load(block, start, front)
    except _Refused as refused:
        front.values, front.problem, front.problem_span = {}, str(refused), whole
    except Exception as error:  # the YAML library raises many kinds; none may leave reading
        front.values = {}
        front.problem, front.problem_span = _explain(error, block, start, whole)
    return front


class _Refused(Exception):
    pass


def _explain(error: Exception, block: str, start: int, whole: Span) -> tuple[str, Span]:
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    problem = str(getattr(error, "problem", None) or "it is not valid YAML").strip()
    if mark is None:
        return f"the front matter could not be read: {problem}", whole
    at = min(start + mark.index, whole.end)
    line_end = block.find("\n", mark.index)
    end = start + (line_end if line_end != -1 else len(block))
    return f"line {mark.line + 2} of the front matter could not be read: {problem}", Span(at, max(at, end))


def _load(block: str, start: int, front: Front) -> None:
    if len(re.findall(r"(?<![\w\"'])\*[\w-]+", block)) > MAX_ALIASES:
        raise _Refused(f"the front matter uses more than {MAX_ALIASES} aliases")
    from ruamel.yaml import YAML

    yaml = YAML(typ="rt", pure=True)
    node = yaml.compose(block)
    if node is None:
        return
    value = _value(node, 0, "", start, front.spans, [0])
    if not isinstance(value, dict):
        raise _Refused("the front matter must be a list of 'key: value' lines")
    front.values = value


def _value(node: Any, depth: int, path: str, start: int, spans: dict[str, Span], seen: list[int]) -> Any:
    seen[0] += 1
    if seen[0] > MAX_NODES:
        raise _Refused(f"the front matter unfolds to more than {MAX_NODES:,} values")
    if depth > MAX_DEPTH:
        raise _Refused(f"the front matter is nested more than {MAX_DEPTH} deep")
    if not str(node.tag or "").startswith("tag:yaml.org,2002:"):
        raise _Refused(f"tags ({node.tag}) are not taken in the front matter")
    if path and path not in spans and len(spans) < 5000:
        spans[path] = Span(start + node.start_mark.index, start + node.end_mark.index)
    kind = type(node).__name__
    if kind == "MappingNode":
        return {
            str(_scalar(key)): _value(value, depth + 1, f"{path}.{_scalar(key)}".strip("."), start, spans, seen)
            for key, value in node.value
        }
    if kind == "SequenceNode":
        return [_value(item, depth + 1, f"{path}.{k}".strip("."), start, spans, seen) for k, item in enumerate(node.value)]
    return _scalar(node)


def _scalar(node: Any) -> Any:
    text = node.value
    if not isinstance(text, str) or getattr(node, "style", None) in ("'", '"', "|", ">"):
        # The YAML library marks where a folded scalar was broken with a bell character.
        return text.replace("\a", "") if isinstance(text, str) else str(text)
    if re.fullmatch(r"[+-]?\d{1,12}", text):
        return int(text)
    if re.fullmatch(r"[+-]?\d{1,12}\.\d{1,9}", text):
        return float(text)
    low = text.lower()
    if low in ("true", "false", "yes", "no"):
        return low in ("true", "yes")
    if low in ("", "null", "~"):
        return None
    return text
