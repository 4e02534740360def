"""The records on disk: one SQLite file beside the patterns, reached through SQLAlchemy, brought up to date by migrations.

SQLite's own journal makes every write whole or not at all, so that a killed process or a cut of power leaves the last finished write. What
the disk refuses becomes a `RecordsTrouble` with a sentence.
"""

from __future__ import annotations

import contextlib
import sqlite3
import threading
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from .kept import KINDS, LogEntry, RecordsTrouble, SwatchRecord, Version

if TYPE_CHECKING:
    from sqlalchemy import Engine
    from sqlalchemy.orm import Session

HEAD = "0002"
"""The newest migration; a test holds it against the scripts."""
_opening = threading.Lock()
"""Two threads that open a new file at once must not both bring it up to date."""
VERSIONS_KEPT = 300
"""Of one pattern; the oldest unnamed ones go first."""


class Records:
    """All records of one folder. Open with `Records.at`."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    @classmethod
    def at(cls, path: Path) -> Records:
        """The records in the file `path`, made or brought up to date when needed. Raises `RecordsTrouble`."""
        with _opening, _told(path):
            path.parent.mkdir(parents=True, exist_ok=True)
            if _stands_at(path) != HEAD:
                _migrate(path)
            return cls(_engine(path))

    def close(self) -> None:
        self._engine.dispose()

    @contextlib.contextmanager
    def _session(self) -> Iterator[Session]:
        from sqlalchemy.orm import Session

        with _told(Path(str(self._engine.url.database))), Session(self._engine) as session, session.begin():
            yield session

    def keep_version(self, pattern: str, text: str, *, at: float, why: str = "", counts: Mapping[str, str] | None = None) -> Version | None:
        """Keep the text as a version; None when the newest version holds the same text and no new reason is given."""
        from .tables import VersionTable

        with self._session() as session:
            newest = self._newest(session, pattern)
            if newest is not None and newest.text == text and not why:
                return None
            row = VersionTable(pattern=pattern, at=at, why=why, text=text, counts=dict(counts or {}))
            session.add(row)
            session.flush()
            self._thin_out(session, pattern)
            return _version(row)

    @staticmethod
    def _newest(session: Session, pattern: str) -> Any:
        from sqlalchemy import select

        from .tables import VersionTable

        asked = (
            select(VersionTable).where(VersionTable.pattern == pattern).order_by(VersionTable.at.desc(), VersionTable.id.desc()).limit(1)
        )
        return session.scalars(asked).first()

    @staticmethod
    def _thin_out(session: Session, pattern: str) -> None:
        from sqlalchemy import delete, select

        from .tables import VersionTable

        unnamed = select(VersionTable.id).where(VersionTable.pattern == pattern, VersionTable.why == "").order_by(VersionTable.at.desc())
        too_old = list(session.scalars(unnamed.offset(VERSIONS_KEPT)))
        if too_old:
            session.execute(delete(VersionTable).where(VersionTable.id.in_(too_old)))

    def versions(self, pattern: str) -> tuple[Version, ...]:
        """Every version of a pattern, the newest first, with its counts and without its text."""
        from sqlalchemy import select

        from .tables import VersionTable

        asked = select(VersionTable).where(VersionTable.pattern == pattern).order_by(VersionTable.at.desc(), VersionTable.id.desc())
        with self._session() as session:
            return tuple(_version(row, text=False) for row in session.scalars(asked))

    def version(self, number: int) -> Version | None:
        """One version with its text."""
        from .tables import VersionTable

        with self._session() as session:
            row = session.get(VersionTable, number)
            return None if row is None else _version(row)

    def rename(self, pattern: str, to: str) -> None:
        """Take everything kept of a pattern along to its new name."""
        from sqlalchemy import update

        from .tables import LogTable, SwatchTable, VersionTable

        with self._session() as session:
            for table in (VersionTable, LogTable, SwatchTable):
                session.execute(update(table).where(table.pattern == pattern).values(pattern=to))

    def log(self, pattern: str, entry: LogEntry) -> LogEntry:
        """Write an entry into the log; the entry given back has its number."""
        from .tables import LogTable

        if entry.kind not in KINDS:
            raise RecordsTrouble(f"The log knows no entry of the kind “{entry.kind}”.")
        with self._session() as session:
            row = LogTable(pattern=pattern, at=entry.at, kind=entry.kind, row=entry.row, value=entry.value, words=entry.words)
            session.add(row)
            session.flush()
            return _entry(row)

    def unlog(self, pattern: str, number: int) -> bool:
        """Take one entry out again (the undo of a wrong tap); whether it was there."""
        from .tables import LogTable

        with self._session() as session:
            row = session.get(LogTable, number)
            if row is None or row.pattern != pattern:
                return False
            session.delete(row)
            return True

    def entries(self, pattern: str) -> tuple[LogEntry, ...]:
        """The log of a pattern in the order of time."""
        from sqlalchemy import select

        from .tables import LogTable

        with self._session() as session:
            asked = select(LogTable).where(LogTable.pattern == pattern).order_by(LogTable.at, LogTable.id)
            return tuple(_entry(row) for row in session.scalars(asked))

    def keep_swatch(self, pattern: str, swatch: SwatchRecord) -> SwatchRecord:
        """Keep a swatch; the one given back has its number."""
        from .tables import SwatchTable

        with self._session() as session:
            row = SwatchTable(pattern=pattern, **{name: getattr(swatch, name) for name in _SWATCH_FIELDS})
            session.add(row)
            session.flush()
            return _swatch(row)

    def swatches(self, pattern: str) -> tuple[SwatchRecord, ...]:
        """The swatches of a pattern, the newest first."""
        from sqlalchemy import select

        from .tables import SwatchTable

        with self._session() as session:
            asked = select(SwatchTable).where(SwatchTable.pattern == pattern).order_by(SwatchTable.at.desc(), SwatchTable.id.desc())
            return tuple(_swatch(row) for row in session.scalars(asked))


_SWATCH_FIELDS = ("at", "yarn", "stitch", "stitches", "rows", "width_cm", "height_cm", "grams", "hook_mm", "words")


def _version(row: Any, text: bool = True) -> Version:
    return Version(id=row.id, pattern=row.pattern, at=row.at, why=row.why, text=row.text if text else "", counts=dict(row.counts))


def _entry(row: Any) -> LogEntry:
    return LogEntry(id=row.id, kind=row.kind, at=row.at, row=row.row, value=row.value, words=row.words)


def _swatch(row: Any) -> SwatchRecord:
    return SwatchRecord(id=row.id, **{name: getattr(row, name) for name in _SWATCH_FIELDS})


def _engine(path: Path) -> Engine:
    from sqlalchemy import create_engine, event

    engine = create_engine(f"sqlite:///{path}", connect_args={"timeout": 5})

    @event.listens_for(engine, "connect")
    def careful(connection: sqlite3.Connection, _record: object) -> None:
        connection.execute("PRAGMA synchronous=FULL")
        connection.execute("PRAGMA foreign_keys=ON")

    return engine


def _stands_at(path: Path) -> str | None:
    """The migration a file stands at; None for a new file. Asked without SQLAlchemy, so that opening stays quick."""
    if not path.exists():
        return None
    connection = sqlite3.connect(path, timeout=5)
    try:
        connection.execute("PRAGMA schema_version").fetchone()
        found = connection.execute("SELECT version_num FROM alembic_version").fetchone()
    except sqlite3.OperationalError as trouble:
        if "no such table" in str(trouble):
            return None
        raise
    finally:
        connection.close()
    return None if found is None else str(found[0])


def _migrate(path: Path) -> None:
    """Bring the file up to date; what was there is kept beside it first."""
    from alembic import command
    from alembic.config import Config

    if path.exists() and path.stat().st_size:
        source, copy = sqlite3.connect(path), sqlite3.connect(path.with_suffix(".before.db"))
        with contextlib.closing(source), contextlib.closing(copy):
            source.backup(copy)
    engine = _engine(path)
    settings = Config()
    settings.set_main_option("script_location", str(Path(__file__).parent / "migrations"))
    try:
        with engine.begin() as connection:
            settings.attributes["connection"] = connection
            command.upgrade(settings, "head")
    finally:
        engine.dispose()


@contextlib.contextmanager
def _told(path: Path) -> Iterator[None]:
    """Turn what the disk or the database refuses into a sentence."""
    try:
        yield
    except RecordsTrouble:
        raise
    except Exception as trouble:
        sentence = _sentence(trouble, path)
        if sentence is None:
            raise
        raise RecordsTrouble(sentence) from trouble


def _sentence(trouble: Exception, path: Path) -> str | None:
    words = str(getattr(trouble, "orig", trouble)).lower()
    if "full" in words or "no space" in words:
        return "The disk is full, so the records (versions, log, swatches) could not be written. What was kept before is whole."
    if "readonly" in words or "read-only" in words or "permission denied" in words or "unable to open" in words:
        return f"The records cannot be written: the folder {path.parent.parent.name} may not be written to. Patterns can be read."
    if "not a database" in words or "malformed" in words:
        return f"The records file {path.name} is damaged. Move it away; a new one is begun, and your patterns are not touched."
    if "locked" in words:
        return "The records are in use by another program just now; try again."
    if "can't locate revision" in words:
        return "The records were written by a newer Hookwright; bring this one up to date to use them."
    if isinstance(trouble, OSError) or "disk i/o" in words:
        return f"The records could not be reached ({words})."
    return None
