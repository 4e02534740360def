"""Counting a row, and holding the count against what the pattern states."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import compress

from ..pattern import Count
from ..trade.kinds import FOUNDATION_STITCHES, HEIGHT, base, counts_as
from .fabric import Counted, How, Role, Stitches
from .tiles import tiles_in

EMPTY = Counted(total=0, by_kind={}, made={})

SPACE_WORDS = frozenset(("sp", "ch-sp", "ch sp", "loop", "lp", "mesh", "arch", "space", "hole"))


_STITCHES = bytes(role == Role.STITCH for role in range(256))


def count(stitches: Stitches, *, slip_stitches: bool) -> Counted:
    """Count the elements of a row. `slip_stitches`: whether slip stitches inside the row count as stitches."""
    role, names = stitches.role, stitches.names
    by_kind: dict[str, int] = {}
    made: dict[str, int] = {}
    total = 0
    if not any(role):
        for code in set(stitches.kind):
            made[names[code]] = stitches.kind.count(code)
    else:
        top = role.find(Role.START_TOP)
        while top >= 0:
            name = stitches.stands.get(top, "ch")
            made[name] = made.get(name, 0) + 1
            top = role.find(Role.START_TOP, top + 1)
        for code, number in Counter(compress(stitches.kind, role.translate(_STITCHES))).items():
            made[names[code]] = made.get(names[code], 0) + number
    for name, number in made.items():
        if name == "sl st" and not slip_stitches:
            continue
        total += number
        key = counts_as(name)
        by_kind[key] = by_kind.get(key, 0) + number
    _count_chains(stitches, by_kind)
    if tiles := tiles_in(stitches):
        by_kind["tile"] = tiles
    for _, told in stitches.groups.values():
        name = told.removeprefix("beg ")
        by_kind[name] = by_kind.get(name, 0) + 1
    leading = _first_group(stitches)
    if leading is not None:
        name, _ = leading
        by_kind[name] = by_kind.get(name, 0) + 1
    return Counted(total=total, by_kind=by_kind, made=made, stitches=stitches)


def _in_groups(stitches: Stitches, kind: str) -> set[int]:
    """How many of `kind` may be told with the groups they stand in: those of named groups, or of unnamed ones of one size."""
    places = [i for first, (length, _) in stitches.groups.items() for i in range(first, min(first + length, len(stitches)))]
    if places and (leading := _first_group(stitches)) is not None:
        start = stitches.role.index(Role.START_TOP)
        places += range(start, start + leading[1])
    counted = set(stitches.counted())
    found = {_number(stitches, (i for i in places if i in counted), kind)}
    for among in (counted, {i for i in counted if stitches.role[i] != Role.START_TOP}):
        together: dict[tuple[tuple[int, int, How], ...], list[int]] = {}
        for i in among:
            feet = tuple(stitches.feet_of(i))
            if len(feet) == 1 and feet[0][2] != How.RING:
                together.setdefault(feet, []).append(i)
        for size in {len(group) for group in together.values()} - {1}:
            found.add(_number(stitches, (i for group in together.values() if len(group) == size for i in group), kind))
    return found


def _number(stitches: Stitches, places: Iterable[int], kind: str) -> int:
    named = (stitches.stands.get(i, "") if stitches.role[i] == Role.START_TOP else stitches.name(i) for i in set(places))
    return sum(counts_as(name) == kind for name in named if name)


def _first_group(stitches: Stitches) -> tuple[str, int] | None:
    """The group that a round begins with: "ch 3, 2 dc in ring, ch 2, * shell of 3 dc in ring …" holds one more shell than are named."""
    if Role.START_TOP not in stitches.role or not stitches.groups:
        return None
    start = stitches.role.index(Role.START_TOP)
    alike = _begun_alike(stitches, start)
    if alike is not None:
        return alike
    kind = stitches.stands.get(start)
    feet = tuple(stitches.feet_of(start + 1)) if start + 1 < len(stitches) else ()
    end = start + 1
    while end < len(stitches) and stitches.role[end] == Role.STITCH and stitches.name(end) == kind and tuple(stitches.feet_of(end)) == feet:
        end += 1
    if (
        end - start < 2
        or (end - start == 2 and feet != tuple(stitches.feet_of(start)))
        or any(first < end and first + length > start for first, (length, _) in stitches.groups.items())
    ):
        return None
    names = {told for length, told in stitches.groups.values() if length == end - start}
    return (names.pop(), end - start) if len(names) == 1 else None


def _begun_alike(stitches: Stitches, start: int) -> tuple[str, int] | None:
    """ "Ch 4 (counts as dc and ch 1), dc in same st": the first of the groups that follow, told stitch by stitch."""
    if any(start >= first and start < first + length for first, (length, _) in stitches.groups.items()):
        return None
    names = set()
    for first, (length, told) in stitches.groups.items():
        end = start + length
        if end > len(stitches) or first < end or "ch" not in (shape := _shape(stitches, first, length)):
            continue
        if _shape(stitches, start, length) == shape and stitches.role[end - 1] == Role.STITCH:
            names.add((told, length))
    return names.pop() if len(names) == 1 else None


def _shape(stitches: Stitches, first: int, length: int) -> tuple[str, ...]:
    return tuple(
        stitches.stands.get(i, "") if stitches.role[i] == Role.START_TOP else stitches.name(i) for i in range(first, first + length)
    )


def _count_chains(stitches: Stitches, by_kind: dict[str, int]) -> None:
    role = stitches.role
    if Role.CHAIN not in role:
        return
    run = closing = 0
    for i, r in enumerate((*role, Role.STITCH)):
        if r == Role.CHAIN:
            run += 1
        elif run and r == Role.HANGING:
            closing = HEIGHT.get(stitches.name(i), 0)  # "ch 2, dc in first sc" is a loop of 5: the stitch stands for the chains it is high
        elif run:
            for key, number in (("ch", run), (f"ch-{run + closing} sp", 1), ("sp", 1)):
                by_kind[key] = by_kind.get(key, 0) + number
            run = closing = 0


def held(counted: Counted, stitches: Stitches, what: str) -> int:
    """What a row holds of `what` that rows are worked down to: stitches in all, or spaces — of a figure's own ("until 1 loop remains" of a
    pineapple) those between its single crochets."""
    if what == "tile":
        return counted.by_kind.get("tile", 0)
    if what != "sp":
        return counted.by_kind.get(what, counted.total)  # "until 1 shell remains"; a group under no name of its own counts its stitches
    kinds = [
        "ch" if role == Role.CHAIN else stitches.name(i)
        for i, role in enumerate(stitches.role)
        if role in (Role.CHAIN, Role.STITCH, Role.START_TOP)
    ]
    if not any(kind not in ("sc", "ch") for kind in kinds):
        return counted.by_kind.get("sp", 0)
    runs, now, open_at = [0], 0, False
    for k, kind in enumerate(kinds):
        if kind == "sc":
            now = now + 1 if open_at and kinds[k - 1] == "ch" else 0
            runs.append(now)
            open_at = True
        elif kind != "ch":
            open_at, now = False, 0
    return max(runs)


@dataclass(frozen=True, slots=True)
class Comparison:
    """One stated number against the worked one. `worked` None: this noun can't be counted here."""

    count: Count
    stated: int
    worked: int | None

    @property
    def differs(self) -> bool:
        return self.worked is not None and self.worked != self.stated


def compare(counted: Counted, stated: Sequence[Count], size: int, *, before: int | None, chains_count: bool) -> tuple[Comparison, ...]:
    """Each stated count beside the worked number. `before`: the row below's total (for counts told as a change)."""
    told = {c.kind for c in stated}
    result = []
    for item in stated:
        number = item.number.at(size)
        if number is None or item.approximate or item.running or item.per:
            continue
        worked = _worked(counted, item, told, before, chains_count)
        if worked is not None and item.kind in PLAIN_KINDS and worked - 2 * _crossed(stated, size) == number:
            worked = number  # "(11 cross sts, 2 dc)": those in the crosses are told with them
        if worked not in (None, number) and item.kind.endswith((*SPACE_WORDS,)) and _of_figure(counted) == number:
            worked = number  # "(8 lps)" in a row of a pineapple between shells: its own
        result.append(Comparison(item, number, worked))
    return tuple(result)


def _of_figure(counted: Counted) -> int | None:
    """The loops of a figure of loops that stands among other stitches."""
    return held(counted, counted.stitches, "sp") if counted.stitches is not None else None


def _crossed(stated: Sequence[Count], size: int) -> int:
    """How many crosses, of two stitches each, the row's counts tell beside its stitches."""
    return sum(item.number.at(size) or 0 for item in stated if item.kind == "cross")


def _worked(counted: Counted, item: Count, told: set[str], before: int | None, chains_count: bool) -> int | None:
    by_kind = counted.by_kind
    if item.change:
        plain = item.kind == "st" or item.kind in PLAIN_KINDS
        return counted.total - before if before is not None and plain else None  # "1 shell less": of these nobody counted the row below
    if item.kind == "st":
        with_chains = chains_count if item.chains is None else item.chains
        return with_its_chains(counted, (item,)) if with_chains else counted.total
    number = number_of(by_kind, item.kind, told)
    if number and number + 1 in item.number.values and item.kind.startswith("ch-") and _loop_begun_with(counted) is not None:
        return number + 1  # "8 sc, 8 ch-1 sps": the chains that the row begins with are one of them
    if item.chains and item.kind in PLAIN_KINDS and number is not None and number + by_kind.get("ch", 0) in item.number.values:
        return number + by_kind.get("ch", 0)  # "30 sc, counting the ch"
    if number and number not in item.number.values and counted.stitches is not None and item.kind in PLAIN_KINDS and told & GROUPS:
        others = {number - grouped for grouped in _in_groups(counted.stitches, item.kind)}
        return next((one for one in item.number.values if one in others), number)
    return number


def with_its_chains(counted: Counted, stated: Sequence[Count]) -> int:
    """A row's total with its chains; of the chains that it begins with as many as its other spaces have, where the stated number does not
    take in all of them: "(16 sts)" are 8 sc and 8 ch-1 spaces, the first of them turned with."""
    number = counted.total + counted.by_kind.get("ch", 0)
    loop = _loop_begun_with(counted)
    if loop is None or any(number in item.number.values for item in stated if item.kind == "st"):
        return number
    return number - loop[0] + loop[1]


def _loop_begun_with(counted: Counted) -> tuple[int, int] | None:
    """The chains of the loop that a row begins with, and those of its other spaces, where these are all alike and shorter."""
    stitches = counted.stitches
    if stitches is None or not len(stitches) or stitches.role[0] != Role.CHAIN:
        return None
    spaces = {key for key in counted.by_kind if key.startswith("ch-") and key.endswith(" sp")}
    own = next((k for k, role in enumerate(stitches.role) if role != Role.CHAIN), len(stitches))
    if counted.by_kind.get(f"ch-{own} sp") != 1 or len(spaces) != 2:
        return None
    others = int((spaces - {f"ch-{own} sp"}).pop()[3:-3])
    return (own, others) if others < own else None


def number_of(by_kind: Mapping[str, int], kind: str, told: set[str] | frozenset[str] = frozenset()) -> int | None:
    """How many of `kind` were worked; a plain kind takes in its post stitches unless they are told apart, a foundation stitch is one of its
    kind ("90 fhdc"). None: not a thing counted here.

    >>> number_of({"dc": 4, "FPdc": 2}, "dc"), number_of({"dc": 4, "FPdc": 2}, "dc", {"dc", "FPdc"}), number_of({"dc": 1}, "petal")
    (6, 4, None)
    """
    kind = FOUNDATION_STITCHES.get(kind, kind)
    if kind in SPACE_WORDS:
        return by_kind.get("sp", 0)
    if kind in ("block", "group") and "tile" in by_kind and kind not in by_kind:
        return by_kind["tile"]
    if kind in by_kind or kind == "ch":
        number = by_kind.get(kind, 0) + (by_kind.get(f"beg {kind}", 0) if f"beg {kind}" not in told else 0)
        number += sum(n for k, n in by_kind.items() if k != kind and k not in told and k[:2] in ("FP", "BP") and base(k) == kind)
        return number
    if kind.startswith("ch-") and kind.endswith(" sp"):
        return 0 if "sp" in by_kind else None
    posts = sum(n for k, n in by_kind.items() if k[:2] in ("FP", "BP") and base(k) == kind and k not in told)
    if posts:
        return posts
    if kind[:2] in ("FP", "BP") and any(k[:2] in ("FP", "BP") for k in by_kind):
        return 0  # post stitches were worked, and none of these
    return None if kind not in PLAIN_KINDS or not by_kind else 0


GROUPS = frozenset(("shell", "V-st", "fan", "cl", "group", "petal", "corner", "scallop", "half shell", "point", "cluster"))
"""What is told beside the stitches that stand in none: "(4 shells, 5 dc)"."""
PLAIN_KINDS = frozenset(("sc", "hdc", "dc", "tr", "dtr", "sl st"))


def chain_beside(told: Comparison, stitches: Stitches) -> Comparison:
    """The comparison, with the starting chain left out or taken in where the count says so: "(29 dc, not counting turning ch)"."""
    with_chain = told.count.turning_chain if told.count.turning_chain is not None else told.count.chains
    if with_chain is None or told.worked is None:
        return told
    starts = (stitches.stands.get(i) for i, role in enumerate(stitches.role[:16]) if role == Role.START_TOP)
    counted = sum(name is not None and told.count.kind in ("st", counts_as(name)) for name in starts)
    beside = -counted if not with_chain else int(not counted and Role.START in stitches.role)
    return replace(told, worked=told.stated) if beside and told.worked + beside == told.stated else told


def made_here(stated: Sequence[Count], counted: Counted) -> tuple[Count, ...]:
    """The counts of a range of unlike rows that its last row can be held to: "Rows 19-21: as rows 15-17. (24 holes, 12 scallops)" tells
    its holes of another of them."""
    told = {count.kind for count in stated}
    return tuple(one for one in stated if one.change or number_of(counted.by_kind, one.kind, told) != 0)


def told_row_by_row(stated: Sequence[Count], rows: int, k: int) -> tuple[Count, ...] | None:
    """The count of the k-th of so many rows where one is listed for each ("Rows 4-6: Repeat Row 3. (24, 30, 36 dc)"); None elsewhere."""
    kinds = {count.kind for count in stated} - {"st"}
    if rows < 2 or len(stated) != rows or len(kinds) > 1 or len({count.number for count in stated}) < 2:
        return None
    if any(count.change or count.per or count.running for count in stated):
        return None
    if kinds and stated[-1].kind == "st":
        return None  # "(12 dc, 24 sts)": two counts of one row
    return (replace(stated[k], kind=next(iter(kinds), "st")),)
