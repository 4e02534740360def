"""The web page: one file that needs no network and no other file, readable without its script, with ticks kept by the browser."""

from __future__ import annotations

import json
import re
from base64 import b64encode
from functools import cache
from hashlib import sha256
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from .anchors import slug
from .sheet import Drawn, Photo, Sheet

if TYPE_CHECKING:
    from jinja2 import Template
    from markupsafe import Markup


def page(sheet: Sheet) -> bytes:
    """The page, UTF-8. Both sets of terms are in it, the sheet's own shown first; charts are drawn into it."""
    style, script = _asset("page.css") + _size_rules(len(sheet.edition.sizes)), _asset("page.js")
    text = _template().render(
        sheet=sheet,
        editions=tuple(sheet.editions.values()),
        parts=_parts(sheet),
        drawings=_drawings(sheet),
        portrait=_shot(sheet.portrait) if sheet.portrait else None,
        photos=[_shot(photo) for photo in sheet.photos if photo is not sheet.portrait],
        sizes=[(str(k), name) for k, (name, _) in enumerate(sheet.edition.sizes, start=1)],
        mirrored=any(drawn.mirror for drawn in sheet.edition.drawings),
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


def _size_rules(sizes: int) -> str:
    """Style for the choice of one size: only its words and its rows are shown."""
    if not sizes:
        return ""
    ways = [ALL, *(str(k) for k in range(1, sizes + 1))]
    rules = [f"body:has(#size-{way}:checked) .sz-{way}{{display:revert!important}}" for way in ways]
    rules += [f"body:has(#size-{way}:checked) .not-{way}{{display:none}}" for way in ways[1:]]
    return ".sz:not(.sz-all){display:none}\n@supports selector(:has(a)){html .sz{display:none!important}\n" + "\n".join(rules) + "}\n"


def _bound(text: str) -> Markup:
    """The text with "ch-3" and the like kept on one line."""
    from markupsafe import Markup, escape

    return Markup(_HYPHENED.sub(r'<span class="whole">\g<0></span>', str(escape(text))))


_HYPHENED = re.compile(r"\bch-\d+")


def _hash(text: str) -> str:
    """The source of a content security policy that lets this very text run and no other."""
    return f"sha256-{b64encode(sha256(text.encode()).digest()).decode()}"


ALL = "all"
"""The class of words for every size at once."""


def _parts(sheet: Sheet) -> list[dict[str, Any]]:
    """Every part with its rows; each row said in both terms, for all sizes at once and for each size alone."""
    return [
        {"anchor": part.anchor, "heading": part.heading, "rows": [_row(sheet, k, at) for at in range(len(part.rows))]}
        for k, part in enumerate(sheet.edition.parts)
    ]


def _row(sheet: Sheet, part: int, at: int) -> dict[str, Any]:
    row = sheet.edition.parts[part].rows[at]
    said = []
    for terms, edition in sheet.editions.items():
        ways = [(ALL, edition.parts[part].rows[at])]
        ways += [(str(k), rows[row.anchor]) for k, (_, rows) in enumerate(edition.sizes, start=1) if row.anchor in rows]
        said.append((terms, ways))
    covers = {way: told.rows for way, told in said[0][1]}
    missing = [str(k) for k in range(1, len(sheet.edition.sizes) + 1) if str(k) not in covers]
    return {"anchor": row.anchor, "said": said, "rows": json.dumps(covers), "missing": missing}


def _drawings(sheet: Sheet) -> list[dict[str, Any]]:
    """Every drawing with its words in both terms."""
    return [
        {
            "file": drawn.file,
            "title": drawn.title,
            "said": [(terms, _drawn(edition.drawings[k])) for terms, edition in sheet.editions.items()],
        }
        for k, drawn in enumerate(sheet.edition.drawings)
    ]


def _drawn(drawn: Drawn) -> dict[str, str]:
    left = _inline(drawn.mirror) if drawn.mirror else ""
    return {"alt": drawn.alt, "caption": drawn.caption, "right": _inline(drawn.svg), "left": left}


def _shot(photo: Photo) -> dict[str, str | int]:
    data = f"data:image/jpeg;base64,{b64encode(photo.data).decode()}"
    return {"data": data, "alt": photo.alt, "caption": photo.caption, "width": photo.width_px, "height": photo.height_px}


def _inline(svg: str) -> str:
    return f"data:image/svg+xml;base64,{b64encode(svg.encode()).decode()}"
