"""Writing a fact into a pattern's front matter (its YAML head), leaving every other line as it stands."""

from __future__ import annotations

import re
from io import StringIO
from typing import Any

from ..pattern import Edit, Span

_FRONT = re.compile(r"\A\ufeff?---[ \t]*\r?\n(?P<yaml>.*?)(?P<end>^---[ \t]*\r?$)", re.DOTALL | re.MULTILINE)


def write_fact(text: str, key: str, value: Any) -> tuple[Edit, ...]:
    """The edits that set `key` ("gauge", "yarns.A.balls") to plain data. Nothing when it is so already, or the head cannot be read.

    Lists: "swatches.+" adds to the end. A pattern without a head gets one.

    >>> write_fact("Row 1: Ch 4.\\n", "pace", {"st": 3.1})[0].text
    '---\\npace:\\n  st: 3.1\\n---\\n\\n'
    """
    from ruamel.yaml import YAML
    from ruamel.yaml.error import YAMLError

    yaml = YAML()
    yaml.indent(mapping=2, sequence=4, offset=2)
    yaml.preserve_quotes = True
    yaml.width = 4096
    found = _FRONT.match(text)
    try:
        head = yaml.load(found["yaml"]) if found else None
    except YAMLError:
        return ()
    head = {} if head is None else head
    if not isinstance(head, dict) or not _set(head, key.split("."), value):
        return ()
    out = StringIO()
    yaml.dump(head, out)
    if found is None:
        at = 1 if text.startswith("\ufeff") else 0
        return (Edit(Span(at, at), f"---\n{out.getvalue()}---\n\n"),)
    written = out.getvalue().replace("\n", "\r\n") if "\r\n" in found["yaml"] else out.getvalue()
    return () if written == found["yaml"] else (_smallest(Span(found.start("yaml"), found.end("yaml")), found["yaml"], written),)


def _set(holder: Any, keys: list[str], value: Any) -> bool:
    for at, key in enumerate(keys[:-1]):
        if not isinstance(holder, dict):
            return False
        if not isinstance(holder.get(key), dict | list):
            holder[key] = [] if keys[at + 1] == "+" else {}
        holder = holder[key]
    last = keys[-1]
    if last != "+" and isinstance(holder, dict) and last in holder and holder[last] == value:
        return False
    if last == "+":
        if not isinstance(holder, list):
            return False
        holder.append(value)
        return True
    if not isinstance(holder, dict):
        return False
    holder[last] = value
    return True


def _smallest(span: Span, old: str, new: str) -> Edit:
    """The edit narrowed to what differs."""
    start = 0
    while start < min(len(old), len(new)) and old[start] == new[start]:
        start += 1
    end = 0
    while end < min(len(old), len(new)) - start and old[-1 - end] == new[-1 - end]:
        end += 1
    return Edit(Span(span.start + start, span.end - end), new[start : len(new) - end])
