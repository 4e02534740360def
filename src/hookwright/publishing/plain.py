"""The checked plain text: the whole sheet in one set of terms, no markup, one row a paragraph, ready for a screen reader or a post."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from .sheet import Sheet, Table, Terms


def plain_text(sheet: Sheet, terms: Terms) -> str:
    """The text, lines ended by a line feed. No-break spaces become ordinary ones: plain text is searched and edited."""
    return "\n".join(_lines(sheet, terms)).replace("\u00a0", " ").rstrip() + "\n"


def _lines(sheet: Sheet, terms: Terms) -> Iterator[str]:
    edition = sheet.editions[terms]
    yield sheet.title
    yield " · ".join(part for part in (sheet.designer, sheet.stamp, f"{terms} terms") if part)
    yield from _section("", [sheet.description] if sheet.description else [])
    yield from _section("Materials", [f"{what}: {which}" for what, which in sheet.materials])
    yield from _section(edition.gauge_word, edition.gauge)
    yield from _table(sheet.measures)
    yield from _section("What you need to know", [*([f"Level: {sheet.level}"] if sheet.level else []), ", ".join(sheet.skills)])
    shorts = [
        f"{short.short}: {short.meaning}" + (f" ({edition.other}: {short.other})" if short.other else "") for short in edition.abbreviations
    ]
    yield from _section("Abbreviations", shorts)
    yield from _section("Special stitches", [f"{name}: {words}." for name, words in edition.specials])
    yield from _section("Notes", [f"- {note}" for note in (*sheet.remarks, *edition.notes)])
    for part in edition.parts:
        rows = [_row(row.label, row.words, row.count) for row in part.rows]
        yield from _section(part.heading or "Instructions", rows)
    yield from _section("Finishing", sheet.finishing)
    for drawn in edition.drawings:
        yield from _section(drawn.title, [drawn.alt])
    yield from _table(sheet.yarns)
    yield from _section("Care", sheet.care)
    yield from _section("Please take care", [f"- {caution}" for caution in sheet.cautions])
    yield from _section("What you may do with it", sheet.rights)


def _row(label: str, words: str, count: str) -> str:
    return f"{f'{label}: ' if label else ''}{words}" + (f" — {count}." if count else ".")


def _section(heading: str, lines: Iterable[str]) -> Iterator[str]:
    told = [line for line in lines if line]
    if not told:
        return
    yield ""
    if heading:
        yield heading.upper()
    yield from told


def _table(table: Table | None) -> Iterator[str]:
    if table is None:
        return
    lines = [f"{row[0]}: " + ", ".join(f"{head} {cell}" for head, cell in zip(table.head[1:], row[1:], strict=True)) for row in table.rows]
    yield from _section(table.caption, [*lines, *([table.note] if table.note else [])])
