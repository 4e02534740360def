""".docx documents → HTML (mammoth) → blocks. The archive is looked over before it is opened."""

from __future__ import annotations

import io
import zipfile

from .blocks import to_markdown
from .bounds import BOUNDS, Refused
from .html import html_blocks


def read_docx(data: bytes) -> str:
    """The Markdown pattern in a .docx. Raises Refused for archives that are damaged, too big, or no document."""
    _look_over(data)
    import mammoth

    try:
        result = mammoth.convert_to_html(io.BytesIO(data), convert_image=mammoth.images.img_element(lambda image: {}))
    except (KeyError, ValueError, AttributeError, zipfile.BadZipFile, OSError) as failure:
        raise Refused("is a damaged .docx document.") from failure
    except Exception as failure:
        if type(failure).__module__.startswith(("xml", "mammoth", "cobble")):
            raise Refused("is a damaged .docx document.") from failure
        raise
    return to_markdown(html_blocks(result.value))


def _look_over(data: bytes) -> None:
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            entries = archive.infolist()
    except (zipfile.BadZipFile, ValueError, OSError, NotImplementedError):
        raise Refused("is a damaged .docx document.") from None
    if len(entries) > BOUNDS.entries or sum(entry.file_size for entry in entries) > BOUNDS.unpacked_bytes:
        raise Refused("unpacks to more than a document may hold.")
    if any(entry.flag_bits & 1 for entry in entries):
        raise Refused("is protected by a password.")
    if "word/document.xml" not in {entry.filename for entry in entries}:
        raise Refused("is an archive, but no .docx document.")
    xml = [entry for entry in entries if entry.filename.endswith((".xml", ".rels"))]
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        for entry in xml:
            try:
                with archive.open(entry) as inside:
                    head = inside.read(4096)
            except (zipfile.BadZipFile, NotImplementedError, OSError, RuntimeError):
                raise Refused("is a damaged .docx document.") from None
            if b"<!DOCTYPE" in head or b"<!ENTITY" in head:
                raise Refused("declares entities of its own, which a .docx never needs.")
