"""Two versions of a pattern laid side by side: which rows differ, in words or only in what comes out, and in which sizes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from typing import Literal, TypeAlias

from ..pattern import Pattern
from ..trade import hooks
from ..working import Fabric, RowWork
from ..writing import PLAIN, settled, with_counts, write
from .between import told_after
from .counts import count_words
from .needs import needed

ChangeKind: TypeAlias = Literal["words", "count", "carried", "new", "gone", "renumbered", "facts"]


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
    film: tuple[int, ...] = ()
    """The row numbers under which a film of the old version shows it; those of `numbers` where none was put in or taken out before it."""

    @property
    def shown(self) -> tuple[int, ...]:
        return self.film or self.numbers


THEN = "; then: "
"""Before what is told behind a row: where the eyes go, how firmly it is stuffed."""

_Key: TypeAlias = tuple[str, int | str]


def row_changes(old: Pattern, old_fabrics: Sequence[Fabric], new: Pattern, new_fabrics: Sequence[Fabric]) -> tuple[RowChange, ...]:
    """Every row that differs between two versions, in the new one's order; rows that are gone come last.

    Rows are matched by part and number (a row without one by its label); where rows were put in or taken out, those behind them by their
    words, and told as renumbered.
    """
    before, after = _told(old, old_fabrics), _told(new, new_fabrics)
    made_before, made_after = _made(old_fabrics), _made(new_fabrics)
    moved = _moves(before, after) if _alike_in_all_sizes(old) and _alike_in_all_sizes(new) else {}
    then = {key: moved.get(key, key) for key in after}
    found = list(_differences(before, after, made_before, made_after, new, then))
    return tuple(_merged([*_facts(old, new), *found]))


def _alike_in_all_sizes(pattern: Pattern) -> bool:
    """Whether the rows have the same numbers in every size."""
    return all(len(set(row.numbers)) <= 1 for part in pattern.parts for row in part.rows)


MOVED = 3
"""So many rows at least must stand under another number in the same words before rows count as put in or taken out (ours)."""


def _moves(before: Mapping[_Key, tuple[str, str]], after: Mapping[_Key, tuple[str, str]]) -> dict[_Key, _Key | None]:
    """New row → old row (None: put in) of every part whose rows were moved on by others put in or taken out."""
    found: dict[_Key, _Key | None] = {}
    for part in dict.fromkeys(part for part, _ in after):
        old, new = _numbered(before, part), _numbered(after, part)
        told_old, told_new = [_without_count(before[key][1]) for key in old], [_without_count(after[key][1]) for key in new]
        pairs: dict[_Key, _Key | None] = {}
        for op, i, upto, j, end in SequenceMatcher(None, told_old, told_new, autojunk=False).get_opcodes():
            for k in range(j, end):
                at = i + k - j
                pairs[new[k]] = old[at] if op in ("equal", "replace") and at < upto else None
        moved = [key for key, was in pairs.items() if was is not None and was != key and _same_words(before[was], after[key])]
        by_number = sum(key not in before or not _same_words(before[key], after[key]) for key in new)
        by_words = sum(was is None or not _same_words(before[was], after[key]) for key, was in pairs.items())
        if len(moved) >= MOVED and by_words < by_number:
            found |= pairs
    return found


def _numbered(rows: Mapping[_Key, tuple[str, str]], part: str) -> list[_Key]:
    return sorted((key for key in rows if key[0] == part and isinstance(key[1], int)), key=lambda key: key[1])


def _same_words(one: tuple[str, str], other: tuple[str, str]) -> bool:
    return _without_count(one[1]) == _without_count(other[1])


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
    before: Mapping[_Key, tuple[str, str]], after: Mapping[_Key, tuple[str, str]], was: _Made, now: _Made, new: Pattern,
    then: Mapping[_Key, _Key | None],
) -> Iterator[RowChange]:  # fmt: skip
    """`then`: new row → the old row it was; None where it was none."""
    for change, old in _by_row(before, after, was, now, new, then):
        film = (old[1],) if old is not None and old != (change.part, *change.numbers) and isinstance(old[1], int) else ()
        yield replace(change, film=film)
    for key, (label, words) in before.items():
        if key not in then.values():
            yield _change("gone", key, label, words, "", _names(was.get(key, {}), new))


def _by_row(
    before: Mapping[_Key, tuple[str, str]], after: Mapping[_Key, tuple[str, str]], was: _Made, now: _Made, new: Pattern,
    then: Mapping[_Key, _Key | None],
) -> Iterator[tuple[RowChange, _Key | None]]:  # fmt: skip
    for key, (label, words) in after.items():
        old = then[key]
        if old is None or old not in before:
            yield _change("new", key, label, "", words, _names(now.get(key, {}), new)), None
            continue
        old_label, old_words = before[old]
        differ = _differ(was.get(old, {}), now.get(key, {}))
        if old_words != words and _without_count(old_words) != _without_count(words):
            yield _change("words", key, label, old_words, words, _sizes(differ, new)), old
        elif old_words != words and differ:
            yield _change("count", key, label, old_words, words, _sizes(differ, new)), old
        elif old_words != words:
            yield _change("count", key, label, old_words, words, ("every size",)), old
        elif differ and (had := _count(was[old].get(differ[0]), new)) != (has := _count(now[key].get(differ[0]), new)):
            yield _change("carried", key, label, had, has, _sizes(differ, new)), old  # the same stitches on other places need no note
        elif old != key:
            yield _change("renumbered", key, label, _one_row(old_label, old), _one_row(label, key), ("every size",)), old


def _one_row(label: str, key: _Key) -> str:
    """The label of one row: "Row 5" of "Rows 4-9"."""
    return f"{label.partition(' ')[0].removesuffix('s')} {key[1]}"


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
        if last is not None and same and last.kind == change.kind == "renumbered" and last.part == change.part and _goes_on(last, change):
            out[-1] = _longer(last, change)
        elif (
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
            film = (*last.film, *change.film)
            out[-1] = replace(change, numbers=(*last.numbers, *change.numbers), was=was, now=now, sizes=sizes, film=film)
        else:
            out.append(change)
    return out


def _goes_on(last: RowChange, change: RowChange) -> bool:
    """Whether two renumbered rows are moved on by as much."""
    return change.film[0] - last.film[-1] == change.numbers[0] - last.numbers[-1]


def _longer(last: RowChange, change: RowChange) -> RowChange:
    """A run of renumbered rows with one more: "Rows 5-9" that were "Rows 4-8"."""
    noun = last.now.partition(" ")[0].removesuffix("s")
    numbers, film = (*last.numbers, *change.numbers), (*last.film, *change.film)
    was, now = f"{noun}s {film[0]}-{film[-1]}", f"{noun}s {numbers[0]}-{numbers[-1]}"
    return replace(change, label=now, numbers=numbers, film=film, was=was, now=now)
