"""The checked plain text: the whole sheet in one set of terms, no markup, one row a paragraph, ready for a screen reader or a post."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from .sheet import Aloud, Edition, Sheet, SheetRow, Table, Terms


def plain_text(sheet: Sheet, terms: Terms) -> str:
    """The text, lines ended by a line feed. No-break spaces become ordinary ones: plain text is searched and edited."""
    edition = sheet.editions[terms]
    rows = [(part.heading, [_row(row.label, row.words, row.count) for row in part.rows]) for part in edition.parts]
    shorts = [
        f"{short.short}: {short.meaning}" + (f" ({edition.other}: {short.other})" if short.other else "") for short in edition.abbreviations
    ]
    return _set(_lines(sheet, edition, edition, shorts, rows, "- "))


def aloud_text(sheet: Sheet, terms: Terms, words: Aloud) -> str:
    """The text for a reader of screens: no abbreviation and no sign, one size, each row a paragraph by itself."""
    rows = [(part.heading, [f"{_aloud_row(row)}\n" for row in part.rows]) for part in words.parts]
    return _set(_lines(sheet, sheet.editions[terms], words, [], rows, ""))


def _set(lines: Iterable[str]) -> str:
    return "\n".join(lines).replace("\u00a0", " ").rstrip() + "\n"


Parts = Sequence[tuple[str, Sequence[str]]]


def _lines(sheet: Sheet, edition: Edition, words: Edition | Aloud, shorts: Sequence[str], parts: Parts, bullet: str) -> Iterator[str]:
    size = f"Size {words.size}" if isinstance(words, Aloud) and words.size else ""
    yield sheet.title
    yield (" · " if bullet else ". ").join(part for part in (sheet.designer, sheet.stamp, f"{edition.terms} terms", size) if part)
    yield from _section("", [sheet.description] if sheet.description else [])
    yield from _section("Materials", [f"{what}: {which}" for what, which in sheet.materials])
    yield from _section(edition.gauge_word, words.gauge)
    yield from _table(sheet.measures, size.removeprefix("Size "))
    yield from _section("What you need to know", [*([f"Level: {sheet.level}"] if sheet.level else []), ", ".join(sheet.skills)])
    yield from _section("Abbreviations", shorts)
    yield from _section("Special stitches", [f"{name}: {said}." for name, said in words.specials])
    yield from _section("Notes", [f"{bullet}{note}" for note in (*sheet.remarks, *words.notes)])
    for heading, rows in parts:
        yield from _section(heading or "Instructions", rows)
    yield from _section("Finishing", sheet.finishing)
    yield from _section("Pictures", [photo.caption for photo in sheet.photos])
    for drawn in edition.drawings if bullet else ():
        yield from _section(drawn.title, [drawn.alt])
    yield from _table(sheet.yarns, "")
    yield from _table(edition.choices, "")
    yield from _section("Care", sheet.care)
    yield from _section("Please take care", [f"{bullet}{caution}" for caution in sheet.cautions])
    yield from _section("What you may do with it", sheet.rights)


def _aloud_row(row: SheetRow) -> str:
    return f"{f'{row.label}: ' if row.label else ''}{row.words}." + (f" In all, {row.count}." if row.count else "")


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


def _table(table: Table | None, only: str) -> Iterator[str]:
    """The rows of a table as sentences; of one column where `only` names it."""
    if table is None:
        return
    columns = [k for k in range(1, len(table.head)) if not only or only not in table.head or table.head[k] == only]
    lines = [f"{row[0]}: " + ", ".join(_cell(table.head[k], row[k], len(columns)) for k in columns) for row in table.rows]
    yield from _section(table.caption, [*lines, *([table.note] if table.note else [])])


def _cell(head: str, cell: str, columns: int) -> str:
    return cell if columns == 1 else f"{head} {cell}"
