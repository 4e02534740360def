"""A maker's patterns as plain `.md` files in one folder of hers. Nothing here leaves that folder, and nothing is ever half-written.

A file is written beside the old one and then renamed over it, so that a reader (or a power cut) meets the old or the new text, whole.
What was on the disk when we last looked is remembered by a mark (a hash of its bytes): a save that would cover somebody else's change
is refused. Deleting moves a file to `.hookwright/bin`, from where it comes back.
"""

from __future__ import annotations

import contextlib
import errno
import hashlib
import os
import re
import uuid
from dataclasses import dataclass
from pathlib import Path

from .names import clean_name, known_name, tidy_name, unused_name

SUFFIX = ".md"
LARGEST = 4_000_000
"""Bytes of one pattern; a book of a hundred patterns is smaller."""
_BIN_NAME = re.compile(r"^[0-9a-f]{32}~.+\.md$")


class FolderTrouble(Exception):
    """Something a maker must know: one sentence with what to do."""


class ChangedOutside(FolderTrouble):
    """The file is not what it was when we last read or wrote it. `theirs` is what is there now (None: the file is gone)."""

    def __init__(self, name: str, theirs: Kept | None) -> None:
        super().__init__(f"“{name}” was {'changed' if theirs else 'removed'} outside the worktable.")
        self.theirs = theirs


@dataclass(frozen=True, slots=True)
class Kept:
    """A pattern as kept on the disk: its text with plain line ends, and how the file writes them."""

    text: str
    mark: str
    crlf: bool = False
    bom: bool = False


@dataclass(frozen=True, slots=True)
class Entry:
    """One pattern on the shelf. `changed` is seconds since the epoch."""

    name: str
    changed: float
    size: int


def sentence_for(trouble: OSError, name: str) -> str:
    """What went wrong with a file, as a maker can act on it."""
    if trouble.errno in (errno.ENOSPC, errno.EDQUOT):
        return f"The disk is full, so “{name}” could not be saved. Make some room; your words stay here meanwhile."
    if trouble.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        return f"The folder may not be written to, so “{name}” could not be saved. Allow writing, or open another folder."
    if trouble.errno == errno.ENOENT:
        return f"“{name}” is not in the folder any more."
    return f"“{name}” could not be reached ({trouble.strerror or 'unknown reason'})."


class Folder:
    """The shelf: every pattern of one folder."""

    def __init__(self, root: Path) -> None:
        self.root = root.resolve()

    def entries(self) -> list[Entry]:
        """Every pattern, the one touched last first."""
        found = []
        with contextlib.suppress(OSError), os.scandir(self.root) as items:
            for item in items:
                if item.name.endswith(SUFFIX) and not item.name.startswith(".") and item.is_file(follow_symlinks=False):
                    stat = item.stat(follow_symlinks=False)
                    found.append(Entry(item.name[: -len(SUFFIX)], stat.st_mtime, stat.st_size))
        return sorted(found, key=lambda entry: (-entry.changed, entry.name))

    def names(self) -> set[str]:
        return {entry.name for entry in self.entries()}

    def path(self, name: str) -> Path:
        """The file of a pattern. Raises `BadName`; refuses links, which could lead out of the folder."""
        path = self.root / (known_name(name) + SUFFIX)
        if path.is_symlink() or path.parent != self.root:
            raise FolderTrouble(f"“{name}” is a link to somewhere else; the worktable only opens files of this folder.")
        return path

    def stamp(self, name: str) -> tuple[int, int] | None:
        """A cheap look whether the file changed: (nanoseconds, bytes), or None when it is gone."""
        try:
            stat = self.path(name).stat()
        except OSError:
            return None
        return stat.st_mtime_ns, stat.st_size

    def read(self, name: str) -> Kept:
        """The pattern as it is on the disk. Raises `FolderTrouble`."""
        try:
            path = self.path(name)
            if path.stat().st_size > LARGEST:
                raise FolderTrouble(f"“{name}” is larger than {LARGEST // 1_000_000} MB; that is no pattern.")
            raw = path.read_bytes()
        except OSError as trouble:
            raise FolderTrouble(sentence_for(trouble, name)) from trouble
        try:
            text = raw.decode("utf-8")
        except UnicodeDecodeError as trouble:
            where = raw.count(b"\n", 0, trouble.start) + 1
            raise FolderTrouble(
                f"“{name}” is not UTF-8 text (line {where}); save it as UTF-8, or drop the file here to bring it in."
            ) from trouble
        bom = text.startswith("\ufeff")
        return Kept(text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n"), mark_of(raw), "\r\n" in text, bom)

    def save(self, name: str, text: str, before: Kept | None) -> Kept:
        """Write the text over `before` (None: a new file). Raises `ChangedOutside` rather than cover what somebody else wrote."""
        path = self.path(name)
        self._check_unchanged(name, path, before)
        crlf, bom = (before.crlf, before.bom) if before else (False, False)
        raw = (("\ufeff" if bom else "") + (text.replace("\n", "\r\n") if crlf else text)).encode("utf-8")
        if before is None or mark_of(raw) != before.mark:
            self._write(path, raw, name)
        return Kept(text, mark_of(raw), crlf, bom)

    def _check_unchanged(self, name: str, path: Path, before: Kept | None) -> None:
        try:
            there = mark_of(path.read_bytes())
        except FileNotFoundError:
            if before is not None:
                raise ChangedOutside(name, None) from None
            return
        except OSError as trouble:
            raise FolderTrouble(sentence_for(trouble, name)) from trouble
        if before is None:
            raise FolderTrouble(f"There is already a pattern called “{name}”.")
        if there != before.mark:
            raise ChangedOutside(name, self.read(name))

    def _write(self, path: Path, raw: bytes, name: str) -> None:
        beside = path.with_name(f".{path.name}.part")
        try:
            with beside.open("wb") as file:
                file.write(raw)
                file.flush()
                os.fsync(file.fileno())
            beside.replace(path)
        except OSError as trouble:
            with contextlib.suppress(OSError):
                beside.unlink(missing_ok=True)
            raise FolderTrouble(sentence_for(trouble, name)) from trouble

    def create(self, name: str, text: str = "") -> str:
        """A new pattern under this name, or the name with a number when it is taken; the name given back is the one used."""
        kept = unused_name(clean_name(name), self.names())
        self.save(kept, text, None)
        return kept

    def duplicate(self, name: str) -> str:
        return self.create(f"{tidy_name(name)[:100]} copy", self.read(name).text)

    def rename(self, name: str, to: str) -> str:
        """The new name. Raises `FolderTrouble` when it is taken."""
        new = clean_name(to)
        if new == name:
            return name
        old_path, new_path = self.path(name), self.path(new)
        if new.casefold() in {taken.casefold() for taken in self.names() - {name}}:
            raise FolderTrouble(f"There is already a pattern called “{new}”.")
        try:
            old_path.rename(new_path)
        except OSError as trouble:
            raise FolderTrouble(sentence_for(trouble, name)) from trouble
        return new

    @property
    def bin(self) -> Path:
        return self.root / ".hookwright" / "bin"

    def delete(self, name: str) -> str:
        """Put the pattern into the bin; the key given back brings it home again."""
        key = f"{uuid.uuid4().hex}~{known_name(name)}{SUFFIX}"
        try:
            self.bin.mkdir(parents=True, exist_ok=True)
            self.path(name).rename(self.bin / key)
        except OSError as trouble:
            raise FolderTrouble(sentence_for(trouble, name)) from trouble
        return key

    def restore(self, key: str) -> str:
        """Take a pattern out of the bin. The name it has now (numbered when its own was taken meanwhile)."""
        if not _BIN_NAME.match(key) or "/" in key or "\\" in key:
            raise FolderTrouble("That is nothing the bin has given out.")
        name = unused_name(known_name(key.partition("~")[2].removesuffix(SUFFIX)), self.names())
        try:
            (self.bin / key).rename(self.path(name))
        except OSError as trouble:
            raise FolderTrouble(sentence_for(trouble, name)) from trouble
        return name

    def rescue(self, name: str, text: str) -> None:
        """Keep words that may not be saved just now (a question is open) where a restart finds them."""
        place = self.root / ".hookwright" / "unsaved"
        try:
            place.mkdir(parents=True, exist_ok=True)
        except OSError as trouble:
            raise FolderTrouble(sentence_for(trouble, name)) from trouble
        self._write(place / (known_name(name) + SUFFIX), text.encode("utf-8"), name)

    def rescued(self, name: str) -> str | None:
        """Words kept by `rescue`, if any."""
        with contextlib.suppress(OSError, UnicodeDecodeError):
            return (self.root / ".hookwright" / "unsaved" / (known_name(name) + SUFFIX)).read_text("utf-8")
        return None

    def forget_rescued(self, name: str) -> None:
        with contextlib.suppress(OSError):
            (self.root / ".hookwright" / "unsaved" / (known_name(name) + SUFFIX)).unlink(missing_ok=True)


def mark_of(raw: bytes) -> str:
    return hashlib.sha256(raw).hexdigest()
