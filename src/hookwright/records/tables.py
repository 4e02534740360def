"""The tables: versions of patterns, the log kept at the hook, swatches. Times are UTC seconds since the epoch."""

from __future__ import annotations

from sqlalchemy import JSON, Float, Index, Integer, String, Text
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column


class Base(DeclarativeBase):
    """What every table has in common."""


class VersionTable(Base):
    """A pattern's text as it was at one moment, with its counts."""

    __tablename__ = "version"
    id: Mapped[int] = mapped_column(Integer, primary_key=True)
    pattern: Mapped[str] = mapped_column(String(200), nullable=False)
    at: Mapped[float] = mapped_column(Float, nullable=False)
    why: Mapped[str] = mapped_column(String(200), nullable=False, default="")
    text: Mapped[str] = mapped_column(Text, nullable=False)
    counts: Mapped[dict[str, str]] = mapped_column(JSON, nullable=False)
    __table_args__ = (Index("version_of", "pattern", "at"),)


class LogTable(Base):
    """One entry of the log at the hook."""

    __tablename__ = "log"
    id: Mapped[int] = mapped_column(Integer, primary_key=True)
    pattern: Mapped[str] = mapped_column(String(200), nullable=False)
    at: Mapped[float] = mapped_column(Float, nullable=False)
    kind: Mapped[str] = mapped_column(String(20), nullable=False)
    row: Mapped[int | None] = mapped_column(Integer)
    value: Mapped[float | None] = mapped_column(Float)
    words: Mapped[str] = mapped_column(Text, nullable=False, default="")
    __table_args__ = (Index("log_of", "pattern", "at"),)


class SwatchTable(Base):
    """A measured or weighed swatch. Lengths in cm."""

    __tablename__ = "swatch"
    id: Mapped[int] = mapped_column(Integer, primary_key=True)
    pattern: Mapped[str] = mapped_column(String(200), nullable=False)
    at: Mapped[float] = mapped_column(Float, nullable=False)
    yarn: Mapped[str] = mapped_column(String(80), nullable=False, default="A")
    stitch: Mapped[str] = mapped_column(String(40), nullable=False)
    stitches: Mapped[float] = mapped_column(Float, nullable=False)
    rows: Mapped[float] = mapped_column(Float, nullable=False)
    width_cm: Mapped[float | None] = mapped_column(Float)
    height_cm: Mapped[float | None] = mapped_column(Float)
    grams: Mapped[float | None] = mapped_column(Float)
    hook_mm: Mapped[float | None] = mapped_column(Float)
    words: Mapped[str] = mapped_column(Text, nullable=False, default="")
    __table_args__ = (Index("swatch_of", "pattern", "at"),)
