"""What every command needs: reading files safely, writing them whole, tables, colours, and one way to fail."""

from __future__ import annotations

import logging
import os
import secrets
import stat
import sys
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, TextIO

if TYPE_CHECKING:
    from ..pattern import Pattern

LOG = logging.getLogger("hookwright")
"""Logs go to standard error with -v, and hold names and numbers, never pattern text."""

STDIN = "<standard input>"
"""What a lone "-" on the command line becomes before the options are taken apart."""

MOST_BYTES = 10_000_000
"""A pattern file may be this big; the longest real ones are a few hundred kB."""

_PACKED = {b"%PDF": "a PDF", b"PK\x03\x04": "a packed document (.docx?)", b"\xd0\xcf\x11\xe0": "an old word processor file"}


class CannotDo(Exception):
    """The command could not be carried out. The message is one sentence for the maker: what, where, what to do."""


@dataclass(frozen=True, slots=True)
class Source:
    """A file as read: `name` for messages, `path` (None for standard input), `text` exactly as it stands (byte-order mark and CR kept)."""

    name: str
    path: Path | None
    text: str


def read_bytes(name: str, most: int = MOST_BYTES) -> bytes:
    """The bytes of a file, or of standard input for "-". Raises CannotDo, saying why, for anything that is not a readable file."""
    if name in ("-", STDIN):
        data = sys.stdin.buffer.read(most + 1)
        if len(data) > most:
            raise CannotDo(f"Standard input is longer than {_megabytes(most)}: a pattern is not.")
        return data
    path = Path(name)
    try:
        about = path.stat()
        if stat.S_ISDIR(about.st_mode):
            raise CannotDo(f"{name} is a folder: give the pattern file in it.")
        if not stat.S_ISREG(about.st_mode):
            raise CannotDo(f"{name} is not a plain file.")
        if about.st_size > most:
            raise CannotDo(f"{name} is {_megabytes(about.st_size)}: files up to {_megabytes(most)} are read.")
        return path.read_bytes()
    except FileNotFoundError:
        raise CannotDo(f"There is no file {name}.{_nearest(path)}") from None
    except PermissionError:
        raise CannotDo(f"{name} may not be read: check its permissions.") from None
    except (OSError, ValueError) as failure:
        raise CannotDo(f"{name} could not be read ({getattr(failure, 'strerror', None) or failure}).") from None


def read_source(name: str) -> Source:
    """A text file as it stands. UTF-8, UTF-16 with its mark, or Windows Latin. Raises CannotDo for binary, empty and unreadable files."""
    data = read_bytes(name)
    piped = name in ("-", STDIN)
    shown = "Standard input" if piped else name
    text = decode(data, shown)
    if not text.strip("\ufeff \t\r\n"):
        raise CannotDo(f"{shown} is empty.")
    return Source(shown, None if piped else Path(name), text)


def decode(data: bytes, shown: str) -> str:
    """Text out of bytes. Raises CannotDo when they are no text.

    >>> decode(b"Row 1: sc", "a.md"), decode("Größe".encode("cp1252"), "a.txt")
    ('Row 1: sc', 'Größe')
    """
    for start, kind in _PACKED.items():
        if data.startswith(start):
            raise CannotDo(f"{shown} is {kind}, not text: `hookwright read` turns documents into patterns.")
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        try:
            return data.decode("utf-16")
        except UnicodeDecodeError:
            raise CannotDo(f"{shown} is broken UTF-16 text: save it as UTF-8.") from None
    if b"\0" in data:
        raise CannotDo(f"{shown} is not text (it holds zero bytes).")
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        pass
    strange = sum(byte < 32 and byte not in (9, 10, 12, 13) for byte in data)
    try:
        if strange * 200 <= len(data):
            return data.decode("cp1252")
    except UnicodeDecodeError:
        pass
    raise CannotDo(f"{shown} is not text that can be read: save it as UTF-8.")


def load(name: str) -> tuple[Source, Pattern]:
    """A file and the pattern read from it. Raises CannotDo when there is no row in it or its front matter is broken."""
    from ..reading import read

    source = read_source(name)
    pattern = read(source.text)
    broken = next((trouble for trouble in pattern.troubles if trouble.kind == "yaml"), None)
    if broken is not None:
        line, _ = place(source.text, broken.span.start)
        reason = broken.message.partition("could not be read: ")[2] or broken.message
        raise CannotDo(f"{source.name}, line {line}: the front matter could not be read: {reason.rstrip('.')}.")
    if not any(part.rows for part in pattern.parts):
        raise CannotDo(f"{source.name}: no row of a pattern was found in it (a row begins like `Row 1:` or `Rnd 1:`).")
    rows = sum(len(part.rows) for part in pattern.parts)
    LOG.info(
        "%s: %d characters, %d parts, %d instructions, %s terms", source.name, len(source.text), len(pattern.parts), rows, pattern.terms
    )
    return source, pattern


def place(text: str, at: int) -> tuple[int, int]:
    """Line and column of a code point, both from 1.

    >>> place("ab\\ncd", 4)
    (2, 2)
    """
    start = text.rfind("\n", 0, at) + 1
    return text.count("\n", 0, at) + 1, at - start + 1


def sizes_of(pattern: Pattern, told: str | None) -> tuple[int, ...]:
    """The sizes to work: all, or the one told by its number (from 1) or its name. Raises CannotDo for one the pattern does not have."""
    if told is None:
        return tuple(range(pattern.sizes))
    names = [name.lower() for name in pattern.facts.size_names]
    if told.lower() in names:
        return (names.index(told.lower()),)
    if told.isdigit() and 1 <= int(told) <= pattern.sizes:
        return (int(told) - 1,)
    known = ", ".join(pattern.facts.size_names) if names else "one size only"
    raise CannotDo(f"There is no size {told}: the pattern has {known}.")


def write_file(path: Path, content: bytes | str) -> None:
    """Write a file whole or not at all: beside its place first, then renamed into it. Raises CannotDo when it cannot be."""
    data = content.encode("utf-8") if isinstance(content, str) else content
    beside = path.with_name(f".{path.name}.{secrets.token_hex(4)}.part")
    try:
        beside.write_bytes(data)
        beside.replace(path)
    except OSError as failure:
        beside.unlink(missing_ok=True) if beside.parent.is_dir() else None
        raise CannotDo(f"{path} could not be written: {_reason(failure)}.") from None


def write_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write files into a folder, made if need be. Every file is written beside its place before the first is renamed into it.

    Names use "/" and stay inside the folder; raises ValueError for one that does not, CannotDo when the folder cannot be written.
    """
    targets = {folder.joinpath(*_inside(name).parts): data for name, data in files.items()}
    waiting: list[tuple[Path, Path]] = []
    try:
        if folder.exists() and not folder.is_dir():
            raise CannotDo(f"{folder} is a file, not a folder: give another name after -o.")
        for path, data in targets.items():
            path.parent.mkdir(parents=True, exist_ok=True)
            beside = path.with_name(f".{path.name}.{secrets.token_hex(4)}.part")
            waiting.append((beside, path))
            beside.write_bytes(data)
        for beside, path in waiting:
            beside.replace(path)
    except OSError as failure:
        for beside, _ in waiting:
            if beside.exists():
                beside.unlink()
        raise CannotDo(f"{folder} could not be written: {_reason(failure)}.") from None


@dataclass(frozen=True, slots=True)
class Colours:
    """Terminal colours; all empty where they are not wanted."""

    bold: str = ""
    dim: str = ""
    red: str = ""
    yellow: str = ""
    green: str = ""
    blue: str = ""
    off: str = ""

    @classmethod
    def of(cls, stream: TextIO) -> Colours:
        """Colours on a terminal that wants them; NO_COLOR and TERM=dumb are obeyed (no-color.org)."""
        plain = not stream.isatty() or os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb"
        if plain and not os.environ.get("FORCE_COLOR"):
            return cls()
        return cls("\x1b[1m", "\x1b[2m", "\x1b[31m", "\x1b[33m", "\x1b[32m", "\x1b[34m", "\x1b[0m")


def width(text: str) -> int:
    """Columns that a text takes on a terminal: wide East Asian letters take two, marks that combine take none.

    >>> width("dc"), width("長編"), width("e\\u0301")
    (2, 4, 1)
    """
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text)


def table(
    heads: Sequence[str], rows: Iterable[Sequence[str]], *, right: Sequence[int] = (), colours: Colours | None = None, indent: str = ""
) -> str:
    """A plain table: heads, then rows, columns two spaces apart; the columns in `right` stand to the right.

    >>> print(table(("row", "sts"), [("Row 1", "8"), ("Row 2", "12")], right=(1,)))
    row    sts
    Row 1    8
    Row 2   12
    """
    tint = colours or Colours()
    lines = [tuple(heads), *(tuple(row) for row in rows)]
    wide = [max(width(line[column]) for line in lines) for column in range(len(heads))]

    def cell(line: Sequence[str], column: int) -> str:
        gap = " " * (wide[column] - width(line[column]))
        return gap + line[column] if column in right else line[column] + gap

    out = [indent + "  ".join(cell(line, column) for column in range(len(heads))).rstrip() for line in lines]
    return "\n".join((f"{tint.dim}{out[0]}{tint.off}" if tint.off else out[0], *out[1:]))


def _inside(name: str) -> PurePosixPath:
    path = PurePosixPath(name)
    if path.is_absolute() or ".." in path.parts or not path.parts:
        raise ValueError(f"{name} leads out of the folder")
    return path


def _reason(failure: OSError) -> str:
    if isinstance(failure, PermissionError):
        return "no permission to write there"
    if isinstance(failure, FileNotFoundError):
        return "its folder does not exist"
    return (failure.strerror or str(failure)).lower()


def _nearest(path: Path) -> str:
    from difflib import get_close_matches

    try:
        names = [entry.name for entry in path.parent.iterdir() if entry.is_file()]
    except OSError:
        return ""
    near = get_close_matches(path.name, names, n=1, cutoff=0.75)
    return f" Did you mean {path.with_name(near[0])}?" if near else ""


def _megabytes(size: int) -> str:
    return f"{size / 1_000_000:.0f} MB"
