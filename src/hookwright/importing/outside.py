"""Hands a document to a child process that may take only so much time and memory, and takes the Markdown back."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import PurePath

from .bounds import BOUNDS, Bounds

KINDS: dict[str, str] = {
    ".docx": "docx",
    ".html": "html",
    ".htm": "html",
    ".xhtml": "html",
    ".pdf": "pdf",
    ".txt": "text",
    ".text": "text",
    ".md": "text",
}
"""Ending of a file name → the reader for it."""

_NAMED = {"docx": "a .docx document", "html": "an HTML page", "pdf": "a PDF", "text": "a text"}


class CannotRead(Exception):
    """The document could not be turned into a pattern; the message says why, in one sentence."""


def read_document(data: bytes, name: str, *, kind: str | None = None, bounds: Bounds = BOUNDS) -> str:
    """The Markdown pattern in a document. `kind` as in KINDS, found by the bytes and the name's ending when not told.

    Raises CannotRead for anything that is damaged, too big, too slow, or holds no text.
    """
    reader = kind or kind_of(data, name)
    if len(data) > bounds.file_bytes:
        raise CannotRead(f"{name} is {len(data) // 1_000_000} MB: documents up to {bounds.file_bytes // 1_000_000} MB are read.")
    if not data.strip():
        raise CannotRead(f"{name} is empty.")
    answer = _ask(reader, data, name, bounds)
    if "error" in answer:
        raise CannotRead(f"{name} {answer['error']}")
    text = answer["text"]
    if not text.strip():
        hint = " (a scan? it needs text, not pictures of text)" if reader == "pdf" else ""
        raise CannotRead(f"{name} holds no text{hint}.")
    return text


def kind_of(data: bytes, name: str) -> str:
    """The reader for a document, by its first bytes, else by its name. Raises CannotRead where neither tells.

    >>> kind_of(b"%PDF-1.7", "x.txt"), kind_of(b"<!DOCTYPE html>", "page"), kind_of(b"Row 1", "a.txt")
    ('pdf', 'html', 'text')
    """
    head = data[:512].lstrip(b"\xef\xbb\xbf \t\r\n").lower()
    if head.startswith(b"%pdf"):
        return "pdf"
    if head.startswith(b"pk\x03\x04"):
        return "docx"
    if head.startswith(b"\xd0\xcf\x11\xe0"):
        raise CannotRead(f"{name} is an old word processor file: save it as .docx first.")
    if head.startswith((b"<!doctype html", b"<html", b"<?xml")) or b"<body" in head:
        return "html"
    ending = PurePath(name).suffix.lower()
    if ending in KINDS:
        if KINDS[ending] in ("pdf", "docx"):
            raise CannotRead(f"{name} is called {ending} but is not {_NAMED[KINDS[ending]]}.")
        return KINDS[ending]
    if b"\0" in data[:4096]:
        raise CannotRead(f"{name} is no document that can be read: .docx, .html, .pdf and .txt are.")
    return "text"


def _ask(reader: str, data: bytes, name: str, bounds: Bounds) -> dict[str, str]:
    command = [sys.executable, "-m", "hookwright.importing.child", reader]
    environment = {key: value for key, value in os.environ.items() if key in ("PATH", "PYTHONPATH", "SYSTEMROOT", "LANG", "LC_ALL", "TEMP")}
    try:
        done = subprocess.run(
            command, input=data, capture_output=True, timeout=bounds.seconds, check=False, env=environment | {"PYTHONUTF8": "1"}
        )
    except subprocess.TimeoutExpired:
        raise CannotRead(f"{name} took longer than {bounds.seconds:g} seconds to read and was given up.") from None
    if done.returncode == 0 and len(done.stdout) <= 4 * bounds.characters:
        try:
            answer: dict[str, str] = json.loads(done.stdout)
            return answer
        except ValueError:
            pass
    if b"MemoryError" in done.stderr or done.returncode in (-6, -9, 134, 137):
        raise CannotRead(f"{name} needed more memory than a document may take and was given up.")
    raise CannotRead(f"{name} could not be read as {_NAMED[reader]}: it may be damaged.")
