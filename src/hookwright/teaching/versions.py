"""Two versions of a pattern laid side by side: which rows differ, in words or only in what comes out, and in which sizes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from ..pattern import Pattern
from ..trade import hooks
from ..working import Fabric, RowWork
from ..writing import PLAIN, settled, with_counts, write
from .between import told_after
from .counts import count_words
from .needs import needed

ChangeKind: TypeAlias = Literal["words", "count", "carried", "new", "gone", "facts"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RowChange:
    """One row (or run of rows) that differs. `numbers` its row numbers, `was` and `now` words and count, "" where it is new or gone;
    `kind` "carried": the words are the same and another count comes out, because a row below changed; `sizes` those it concerns."""

    kind: ChangeKind
    part: str
    label: str
    numbers: tuple[int, ...]
    was: str
    now: str
    sizes: tuple[str, ...]


THEN = "; then: "
"""Before what is told behind a row: where the eyes go, how firmly it is stuffed."""

_Key: TypeAlias = tuple[str, int | str]


def row_changes(old: Pattern, old_fabrics: Sequence[Fabric], new: Pattern, new_fabrics: Sequence[Fabric]) -> tuple[RowChange, ...]:
    """Every row that differs between two versions, in the new one's order; rows that are gone come last. Rows are matched by part and
    number (a row without one by its label)."""
    before, after = _told(old, old_fabrics), _told(new, new_fabrics)
    made_before, made_after = _made(old_fabrics), _made(new_fabrics)
    found = list(_differences(before, after, made_before, made_after, new))
    return tuple(_merged([*_facts(old, new), *found]))


def _told(pattern: Pattern, fabrics: Sequence[Fabric]) -> dict[_Key, tuple[str, str]]:
    """(part, number or label) → (label, words with count), for every row."""
    counted = with_counts(settled(pattern, fabrics), fabrics)
    written = write(counted, terms=pattern.terms, style=PLAIN)
    out: dict[_Key, tuple[str, str]] = {}
    for told, part, words in zip(pattern.parts, counted.parts, written.parts, strict=True):
        for row, said in zip(part.rows, words.rows, strict=True):
            after = " ".join(told_after(pattern, told, row.id))
            numbers = {n for size in range(pattern.sizes) for n in row.numbers_at(size)}
            keys: list[int | str] = [*sorted(numbers)] or [said.label or row.label]
            for key in keys:
                text = f"{said.words}{THEN}{after}" if after and key == keys[-1] else said.words  # behind the last of them only
                text = f"{text} ({said.count})" if said.count else text
                out.setdefault((part.name, key), (said.label or row.label, text))
    return out


_Made: TypeAlias = dict[_Key, dict[int, RowWork]]


def _made(fabrics: Sequence[Fabric]) -> _Made:
    """(part, number or label) → size → the row as worked."""
    out: _Made = {}
    for fabric in fabrics:
        for part in fabric.parts:
            for row in part.rows:
                if not row.foundation:
                    out.setdefault((part.name, row.number if row.number is not None else row.label), {}).setdefault(fabric.size, row)
    return out


def _differences(
    before: Mapping[_Key, tuple[str, str]], after: Mapping[_Key, tuple[str, str]], was: _Made, now: _Made, new: Pattern
) -> Iterator[RowChange]:
    for key, (label, words) in after.items():
        if key not in before:
            yield _change("new", key, label, "", words, _names(now.get(key, {}), new))
            continue
        _, old_words = before[key]
        differ = _differ(was.get(key, {}), now.get(key, {}))
        if old_words != words and _without_count(old_words) != _without_count(words):
            yield _change("words", key, label, old_words, words, _sizes(differ, new))
        elif old_words != words and differ:
            yield _change("count", key, label, old_words, words, _sizes(differ, new))
        elif old_words != words:
            yield _change("count", key, label, old_words, words, ("every size",))
        elif differ:
            had, has = _count(was[key].get(differ[0]), new), _count(now[key].get(differ[0]), new)
            if had != has:  # the same stitches on other places below need no note
                yield _change("carried", key, label, had, has, _sizes(differ, new))
    for key, (label, words) in before.items():
        if key not in after:
            yield _change("gone", key, label, words, "", _names(was.get(key, {}), new))


def _without_count(words: str) -> str:
    return words.rpartition(" (")[0] or words


def _change(kind: ChangeKind, key: _Key, label: str, was: str, now: str, sizes: tuple[str, ...]) -> RowChange:
    part, number = key
    numbers = (number,) if isinstance(number, int) else ()
    return RowChange(kind=kind, part=part, label=label, numbers=numbers, was=was, now=now, sizes=sizes)


def _differ(was: Mapping[int, RowWork], now: Mapping[int, RowWork]) -> list[int]:
    """The sizes in which the row comes out otherwise."""
    return [size for size in sorted({*was, *now}) if _signature(was.get(size)) != _signature(now.get(size))]


def _signature(row: RowWork | None) -> object:
    if row is None:
        return None
    st = row.stitches
    return (
        row.counted.total, tuple(sorted(row.counted.by_kind.items())), bytes(st.role), tuple(st.name(i) for i in range(len(st))),
        tuple(st.foot_at), tuple(st.foot_back), bytes(st.foot_how), tuple(st.colours[c] for c in st.colour), row.turned,
    )  # fmt: skip


def _count(row: RowWork | None, pattern: Pattern) -> str:
    return "" if row is None else count_words(row, pattern.terms)


def _names(rows: Mapping[int, RowWork], pattern: Pattern) -> tuple[str, ...]:
    return _sizes(sorted(rows), pattern)


def _sizes(sizes: Sequence[int], pattern: Pattern) -> tuple[str, ...]:
    """The names of sizes; ("every size",) for all of them."""
    names = pattern.facts.size_names
    if len(sizes) >= pattern.sizes:
        return ("every size",)
    return tuple(names[size] if size < len(names) else str(size + 1) for size in sizes)


def _facts(old: Pattern, new: Pattern) -> Iterator[RowChange]:
    """Hook, gauge and yarns that differ."""
    for label, was, now in (
        ("Hook", _hook(old), _hook(new)),
        ("Gauge", _gauge(old), _gauge(new)),
        ("Yarn", _yarns(old), _yarns(new)),
        ("Materials", _materials(old), _materials(new)),
    ):
        if was != now:
            yield RowChange(kind="facts", part="", label=label, numbers=(), was=was, now=now, sizes=("every size",))


def _hook(pattern: Pattern) -> str:
    return hooks.label(pattern.facts.hook_mm) if pattern.facts.hook_mm else ""


def _gauge(pattern: Pattern) -> str:
    return "; ".join(f"{g.stitches:g} {g.stitch} and {g.rows or 0:g} rows over {g.over_cm:g} cm" for g in pattern.facts.gauge)


def _yarns(pattern: Pattern) -> str:
    return "; ".join(
        f"{y.id}: {y.name} {y.weight} {y.ball_m or 0:g} m / {y.ball_g or 0:g} g {y.colour}".strip() for y in pattern.facts.yarns.values()
    )


def _materials(pattern: Pattern) -> str:
    """What one needs as the pattern's prose tells it; figures of the front matter are compared one by one."""
    return "; ".join(line for what, line in needed(pattern) if not what)


def _merged(found: list[RowChange]) -> list[RowChange]:
    out: list[RowChange] = []
    for change in found:
        last = out[-1] if out else None
        same = last is not None and last.numbers and change.numbers and change.numbers[0] == last.numbers[-1] + 1
        told_alike = last is not None and (change.kind == "carried" or (last.was, last.now) == (change.was, change.now))
        if (
            last is not None
            and same
            and told_alike
            and last.kind == change.kind
            and last.label == change.label
            and last.part == change.part
        ):
            now = change.now if change.kind == "carried" else last.now
            was = change.was if change.kind == "carried" else last.was
            sizes = last.sizes if last.sizes == change.sizes else tuple(dict.fromkeys((*last.sizes, *change.sizes)))
            out[-1] = replace(change, numbers=(*last.numbers, *change.numbers), was=was, now=now, sizes=sizes)
        else:
            out.append(change)
    return out
