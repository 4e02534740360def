"""Plain text, in any of the encodings it comes in."""

from __future__ import annotations

from .bounds import Refused


def read_text(data: bytes) -> str:
    """The text of a file: UTF-8, UTF-16 with its mark, or Windows Latin; line ends as "\\n". Raises Refused for bytes that are no text."""
    return _decoded(data).lstrip("\ufeff").replace("\r\n", "\n").replace("\r", "\n").replace("\f", "\n\n")


def _decoded(data: bytes) -> str:
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        try:
            return data.decode("utf-16")
        except UnicodeDecodeError:
            raise Refused("is broken UTF-16 text.") from None
    if b"\0" in data:
        raise Refused("is not text (it holds zero bytes).")
    for encoding in ("utf-8", "cp1252"):
        try:
            return data.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise Refused("is not text in an encoding that is known: save it as UTF-8.")
