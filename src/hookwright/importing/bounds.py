"""What a document from a stranger may take."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """Bytes of the file and of what it unpacks to, entries in an archive, pages, characters of text, seconds, bytes of memory."""

    file_bytes: int = 50_000_000
    unpacked_bytes: int = 200_000_000
    entries: int = 5_000
    pages: int = 300
    characters: int = 5_000_000
    seconds: float = 60.0
    memory_bytes: int = 2_000_000_000


BOUNDS = Bounds()


class Refused(Exception):
    """A reader refuses a document; the message goes on after the document's name ("holds more than 300 pages.")."""
