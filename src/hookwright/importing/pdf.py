"""PDF → lines of text (pdfium) → blocks: running heads and page numbers left out, broken lines put together again."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from .blocks import ROW, Block, to_markdown
from .bounds import BOUNDS, Refused

_ENDS = (".", ":", "!", "?", ")", "]", "}")
_LABEL = re.compile(r"^[A-Z][\w &'’-]{0,40}(?:\s*\((?:make \d+|[A-Z, ]+)\))?:?$")
_BULLET = re.compile(r"^[•·▪◦–-]\s+")


def read_pdf(data: bytes) -> str:
    """The Markdown pattern in a PDF. Raises Refused for damaged, locked and over-long documents."""
    return to_markdown(pdf_blocks(_pages(data)))


def _pages(data: bytes) -> list[list[str]]:
    import pypdfium2

    try:
        document = pypdfium2.PdfDocument(data)
    except pypdfium2.PdfiumError as failure:
        locked = "assword" in str(failure)
        raise Refused("is protected by a password." if locked else "is a damaged PDF.") from None
    try:
        if len(document) > BOUNDS.pages:
            raise Refused(f"has {len(document)} pages: up to {BOUNDS.pages} are read.")
        pages = []
        total = 0
        for page in document:
            text = page.get_textpage().get_text_bounded()
            total += len(text)
            if total > BOUNDS.characters:
                raise Refused("holds more text than a pattern may.")
            pages.append([line.replace("\ufffe", "-").rstrip() for line in text.replace("\r\n", "\n").replace("\r", "\n").split("\n")])
        return pages
    except pypdfium2.PdfiumError:
        raise Refused("is a damaged PDF.") from None
    finally:
        document.close()


def pdf_blocks(pages: list[list[str]]) -> Iterator[Block]:
    """Blocks from lines: a line that goes on the one before is joined to it; short capitalised lines between rows are headings."""
    repeated = _running(pages)
    lines = [line.strip() for page in pages for line in [*page, ""] if line.strip() not in repeated and not _page_number(line)]
    widest = sorted(len(line) for line in lines if line)
    full = widest[int(len(widest) * 0.8)] if widest else 0
    block: list[str] = []
    titled = False
    for line in lines:
        if block and (not line or not _goes_on(block[-1], line, full)) and (line or not _open(block)):
            made = _made(block)
            yield made if titled or not made.level else Block(made.text, level=1)
            titled, block = True, []
        if line:
            block.append(line)
    if block:
        yield _made(block)


def _running(pages: list[list[str]]) -> set[str]:
    """Heads and feet: the same first or last lines on most pages."""
    if len(pages) < 3:
        return set()
    edges: Counter[str] = Counter()
    for page in pages:
        told = [line.strip() for line in page if line.strip()]
        edges.update(set(told[:2] + told[-2:]))
    return {line for line, times in edges.items() if times >= max(3, len(pages) * 0.6) and not ROW.match(line)}


def _page_number(line: str) -> bool:
    return re.fullmatch(r"(?:page\s*)?\d{1,3}(?:\s*(?:/|of)\s*\d{1,3})?", line.strip(), re.I) is not None


def _goes_on(before: str, line: str, full: int) -> bool:
    """Whether `line` belongs to the paragraph of the line before it."""
    if ROW.match(line) or _BULLET.match(line) or _LABEL.match(before):
        return False
    if line[0].islower() or line[0] in "*([{,;&":
        return True
    if before.endswith(("-", ",", ";", "*", "&")):
        return True
    return len(before) >= 0.75 * full and not (_LABEL.match(line) and before.endswith(_ENDS))


def _open(block: list[str]) -> bool:
    """Whether a paragraph cannot end here: a bracket or a comma is still open (a page break in the middle of a row)."""
    text = " ".join(block)
    return bool(ROW.match(text)) and (text.endswith((",", ";", "-")) or text.count("(") > text.count(")"))


def _made(block: list[str]) -> Block:
    text = block[0]
    for line in block[1:]:
        hyphened = re.search(r"[a-z]-$", text) and line[:1].islower()
        text = text[:-1] + line if hyphened else f"{text} {line}"
    if _LABEL.match(text) and not text.endswith(".") and not ROW.match(text):
        return Block(text.rstrip(":"), level=2)
    bullet = _BULLET.match(text)
    return Block(text[bullet.end() :], item=True) if bullet else Block(text)
