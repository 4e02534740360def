"""HTML pages → blocks. Scripts, menus, forms and footers are left out; nothing is fetched."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from .blocks import ROW, Block, to_markdown
from .text import read_text

if TYPE_CHECKING:
    from selectolax.lexbor import LexborNode

LEFT_OUT = frozenset(
    ("script", "style", "noscript", "template", "nav", "footer", "form", "iframe", "object", "svg", "canvas", "button", "select", "head")
)
BLOCK = frozenset(
    ("p", "div", "section", "article", "main", "header", "blockquote", "pre", "figure", "figcaption", "dl", "dt", "dd", "address", "body")
)
_CHARSET = re.compile(rb"charset\s*=\s*[\"']?\s*([\w-]+)", re.I)


def read_html(data: bytes) -> str:
    """The Markdown pattern in an HTML page."""
    return to_markdown(html_blocks(_text(data)))


def _text(data: bytes) -> str:
    told = _CHARSET.search(data[:2048])
    if told and data[:2] not in (b"\xff\xfe", b"\xfe\xff"):
        try:
            return data.decode(told[1].decode("ascii"))
        except (LookupError, UnicodeDecodeError):
            pass
    return read_text(data)


def html_blocks(text: str) -> Iterator[Block]:
    """The blocks of an HTML text, in reading order."""
    from selectolax.lexbor import LexborHTMLParser

    body = LexborHTMLParser(text).body
    if body is not None:
        yield from _blocks(body)


def _blocks(node: LexborNode) -> Iterator[Block]:
    """Blocks below a node: runs of inline content become paragraphs of their own."""
    run: list[str] = []
    for child in node.iter(include_text=True):
        tag = child.tag or ""
        if tag in LEFT_OUT or tag == "-comment":
            continue
        if tag == "-text":
            run.append(child.text_content or "")
        elif tag == "br":
            run.append("\n")
        elif _is_block(tag):
            yield from _flushed(run)
            yield from _block(child, tag)
        elif any(_is_block(inner.tag or "") for inner in child.traverse() if inner != child):
            yield from _flushed(run)
            yield from _blocks(child)
        else:
            run.append(_inline(child))
    yield from _flushed(run)


def _is_block(tag: str) -> bool:
    return tag in BLOCK or tag in ("ul", "ol", "li", "table", "hr") or bool(re.fullmatch(r"h[1-6]", tag))


def _block(node: LexborNode, tag: str) -> Iterator[Block]:
    if re.fullmatch(r"h[1-6]", tag):
        yield Block(_inline(node).replace("\n", " "), level=int(tag[1]))
    elif tag in ("ul", "ol"):
        yield from _items(node, ordered=tag == "ol")
    elif tag == "table":
        yield from _table(node)
    elif tag == "pre":
        yield Block(node.text(deep=True) or "")
    elif tag != "hr":
        yield from _blocks(node)


def _items(node: LexborNode, *, ordered: bool) -> Iterator[Block]:
    number = _start(node)
    for child in node.iter():
        if child.tag != "li":
            continue
        blocks = list(_blocks(child))
        text = "\n".join(block.text for block in blocks)
        first = " ".join(text.split())
        yield Block(f"{number}. {text.strip()}" if ordered and not ROW.match(first) else text, item=not ordered)
        number += 1


def _start(node: LexborNode) -> int:
    told = node.attributes.get("start") or ""
    return int(told) if told.isdigit() and len(told) < 6 else 1


def _table(node: LexborNode) -> Iterator[Block]:
    """Each row of a table as one line: a label in the first cell is followed by a colon, a bare number in the last stands in brackets."""
    for row in node.css("tr"):
        cells = [" ".join(_inline(cell).split()) for cell in row.iter() if cell.tag in ("td", "th")]
        cells = [cell for cell in cells if cell]
        if len(cells) > 1 and ROW.match(f"{cells[0]} ") and not cells[0].endswith((":", ".", ")")):
            cells[0] += ":"
        if len(cells) > 2 and re.fullmatch(r"\d+(?:\s*[a-z]+)?", cells[-1], re.I):
            cells[-1] = f"({cells[-1]})"
        if cells:
            yield Block(" ".join(cells))


def _inline(node: LexborNode) -> str:
    parts: list[str] = []
    for child in node.iter(include_text=True):
        tag = child.tag or ""
        if tag == "-text":
            parts.append((child.text_content or "").replace("\n", " "))
        elif tag == "br":
            parts.append("\n")
        elif tag not in LEFT_OUT and tag != "-comment":
            parts.append(_inline(child))
    return "".join(parts)


def _flushed(run: list[str]) -> Iterator[Block]:
    text = "".join(part if part == "\n" else re.sub(r"[\n\r\t ]+", " ", part) if "\n" not in part.strip("\n") else part for part in run)
    run.clear()
    if text.strip():
        yield Block(text)
