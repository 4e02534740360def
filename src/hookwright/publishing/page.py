"""The web page: one file that needs no network and no other file, readable without its script, with ticks kept by the browser."""

from __future__ import annotations

import re
from base64 import b64encode
from functools import cache
from hashlib import sha256
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from .anchors import slug
from .sheet import Drawn, Sheet, SheetPart

if TYPE_CHECKING:
    from jinja2 import Template
    from markupsafe import Markup


def page(sheet: Sheet) -> bytes:
    """The page, UTF-8. Both sets of terms are in it, the sheet's own shown first; charts are drawn into it."""
    style, script = _asset("page.css"), _asset("page.js")
    text = _template().render(
        sheet=sheet,
        editions=tuple(sheet.editions.values()),
        parts=_parts(sheet),
        drawings=[_drawn(drawn) for drawn in sheet.drawings],
        mirrored=any(drawn.mirror for drawn in sheet.drawings),
        key=f"{slug(sheet.title)} {sheet.stamp}",
        style=style,
        script=script,
        style_hash=_hash(style),
        script_hash=_hash(script),
    )
    return text.encode()


@cache
def _asset(name: str) -> str:
    return (files(__package__ or __name__) / "data" / name).read_text(encoding="utf-8")


@cache
def _template() -> Template:
    from jinja2 import Environment, StrictUndefined

    setter = Environment(autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
    setter.filters["bound"] = _bound
    return setter.from_string(_asset("page.html.j2"))


def _bound(text: str) -> Markup:
    """The text with "ch-3" and the like kept on one line."""
    from markupsafe import Markup, escape

    return Markup(_HYPHENED.sub(r'<span class="whole">\g<0></span>', str(escape(text))))


_HYPHENED = re.compile(r"\bch-\d+")


def _hash(text: str) -> str:
    """The source of a content security policy that lets this very text run and no other."""
    return f"sha256-{b64encode(sha256(text.encode()).digest()).decode()}"


def _parts(sheet: Sheet) -> list[dict[str, Any]]:
    """Every part with its rows, each said in both terms."""
    sides: list[tuple[SheetPart, ...]] = [edition.parts for edition in sheet.editions.values()]
    terms = list(sheet.editions)
    return [
        {
            "anchor": same[0].anchor,
            "heading": same[0].heading,
            "rows": [
                {"anchor": rows[0].anchor, "rows": rows[0].rows, "said": list(zip(terms, rows, strict=True))}
                for rows in zip(*(part.rows for part in same), strict=True)
            ],
        }
        for same in zip(*sides, strict=True)
    ]


def _drawn(drawn: Drawn) -> dict[str, str]:
    return {
        "file": drawn.file,
        "title": drawn.title,
        "alt": drawn.alt,
        "right": _inline(drawn.svg),
        "left": _inline(drawn.mirror) if drawn.mirror else "",
    }


def _inline(svg: str) -> str:
    return f"data:image/svg+xml;base64,{b64encode(svg.encode()).decode()}"
