"""`chart`: one part of a worked fabric as an engraved chart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal, TypeAlias

from ..pattern import FLAT
from ..working.fabric import Fabric, How, PartWork, RowWork
from .abridging import Abridged, abridge
from .blocks import grows_from_a_corner, place_blocks
from .cloth import Line, lines_of
from .engraving import Engraver
from .fan import LEAST_ANGLE, grows_like_a_fan, grows_like_a_yoke, growth, place_fan, yoke_of
from .furniture import furnish
from .marks import Chart, Gap
from .meeting import Other, joined_to_others, lay_beside, others
from .narrowing import narrow
from .onto import edge_lines, framed, into_grey, stands_on, trim
from .oval import oval_sides
from .placed import Placed
from .relief import relieve
from .rounds import place_rounds
from .rows import place_rows
from .spacing import pitch_of
from .symbols import Cross
from .telling import tell
from .tunisian import is_tunisian, passes, place_passes
from .yarn_letters import colour_of, letters_of

Form: TypeAlias = Literal["auto", "rows", "round"]
Handed: TypeAlias = Literal["right", "left"]
AFRESH = "new"
"""Yarn joined without a word of its colour."""
LARGEST_RING, OPENS = 40, 1.5
"""A ring of at most so many chains whose rounds come to so many times as many stitches is a disc with a hole, and so is a yoke that
grows fast on a longer one; otherwise it is a tube."""


def chart(
    fabric: Fabric,
    part: int = 0,
    *,
    handed: Handed = "right",
    sc: Cross = "plus",
    form: Form = "auto",
    short: bool = True,
    key: bool = True,
) -> Chart:
    """Engrave one part. `short`: long runs of equal plain rows are broken, as publishers do; `form`: laid flat or in the round.

    Raises IndexError when the fabric has no such part.
    """
    made, placed = _engraved(fabric, part, handed, sc, form, short)
    work = fabric.parts[part]
    if any(line.meets for line in placed.lines):
        near = others(fabric, part)
        lay_beside(made, placed, (Other(_called(fabric, p, part), *_engraved(fabric, p, handed, sc, "auto", False)) for p in near))
    made.described = tell(work, made)
    furnish(made, placed, work, key=key)
    return made


def _engraved(fabric: Fabric, part: int, handed: Handed, sc: Cross, form: Form, short: bool) -> tuple[Chart, Placed]:
    """The symbols of one part, and where they were placed; no words yet."""
    work = fabric.parts[part]
    cut = abridge(work) if short else Abridged(tuple(range(len(work.rows))), ())
    onto = stands_on(fabric, part)
    lines = lines_of(work, cut.kept, joined_to_others(fabric, work), cut.like, onto.row if onto else None)
    frame = framed(fabric, onto, lines) if onto is not None else None
    if frame is not None:
        lines = frame
    elif onto is not None:
        trim(lines[0], onto.used, closed=onto.closed)
    arcs = form == "auto" and grows_like_a_yoke(lines)
    cuts = narrow(lines) if short and form != "round" and not arcs and not grows_round(lines) else []
    placed = place(lines, form)
    yarns = _yarns(work, fabric)
    numbers = {**yarns, "": yarns.get("", yarns.get(next(iter(fabric.pattern.facts.yarns), ""), 0))}
    numbers.setdefault(AFRESH, numbers[_before_afresh(work)])
    elsewhere = {colour: 0 for line in lines if line.elsewhere for colour in line.row.stitches.colours}
    engraver = Engraver(placed, sc, handed == "left", elsewhere | numbers)
    engraver.run()
    made = Chart(
        part=part,
        title=_title(fabric, work),
        form=placed.form,
        handed=handed,
        cross=sc,
        terms=fabric.pattern.terms,
        marks=engraver.marks,
        ties=engraver.ties,
        glyphs=engraver.glyphs,
        gaps=list(cut.gaps),
        cuts=cuts,
        yarns=tuple(yarns),
        letters=letters_of(tuple(yarns)),
        yarn_numbers=numbers,
        yarn_words=tuple(colour_of(yarn, fabric.pattern.facts) for yarn in yarns),
        row_labels={row.index: row.label for row in work.rows},
        options={"handed": handed, "sc": sc, "form": form, "short": "yes" if short else "no", "part": str(part + 1)},
    )
    if onto is not None:
        into_grey(made, onto, around=frame is not None)
    edge_lines(made, placed)
    relieve(made)
    if form == "auto" and is_tunisian(lines):
        made.strokes += passes(placed, mirrored=handed == "left")
    return made, placed


def place(lines: list[Line], form: Form = "auto") -> Placed:
    """Lay the lines out: in the round when the part grows from a centre, in cells when it is Tunisian, flat otherwise."""
    if form == "auto" and is_tunisian(lines):
        return place_passes(lines)
    if form == "round" or (form == "auto" and grows_round(lines)):
        return place_rounds(lines)
    if form == "auto" and grows_from_a_corner(lines):
        return place_blocks(lines)
    if form == "auto" and (grows_like_a_fan(lines) or grows_like_a_yoke(lines)):
        return place_fan(lines)
    return place_rows(lines)


def grows_round(lines: Sequence[Line]) -> bool:
    """Whether a part is worked in rounds that grow from a centre (a tube on a long ring of chains is laid flat instead)."""
    if oval_sides(lines) is not None:
        return True
    worked = [line for line in lines if line.posts and not line.foundation]
    flat = sum(line.row.made_in in FLAT for line in worked)
    if not worked or worked[0].row.made_in in FLAT or 3 * flat > len(worked):
        return False
    first = worked[0]
    if any(foot.how == How.RING for post in first.posts for foot in first.feet[post]):
        return True
    widest = max(len(line.posts) for line in worked)
    if lines[0].foundation and lines[0].row.made_in not in FLAT and widest >= OPENS * len(lines[0]):
        grown = yoke_of(lines)
        if len(lines[0]) <= LARGEST_RING or growth(grown, pitch_of(sorted({kind for line in grown for kind in line.kinds}))) >= LEAST_ANGLE:
            return True
    return len(first.posts) <= 24 or len(first.posts) * 3 <= widest


def _yarns(work: PartWork, fabric: Fabric) -> dict[str, int]:
    """The yarns in the order they come, each with its number; rows that name none are worked in the pattern's first.

    Yarn joined afresh is no yarn of its own: no colour is told of it.
    """
    seen: dict[str, int] = {}
    for row in work.rows:
        for colour in row.stitches.colours:
            if colour != AFRESH:
                seen.setdefault(colour, len(seen))
    home = next(iter(fabric.pattern.facts.yarns), "")
    if home not in seen or "" not in seen or home == "":
        return seen or {"": 0}
    order = dict.fromkeys(home if yarn == "" else yarn for yarn in seen)
    return {yarn: i for i, yarn in enumerate(order)}


def _before_afresh(work: PartWork) -> str:
    """The yarn in hand where yarn is joined without a word of its colour."""
    before = ""
    for row in work.rows:
        for colour in row.stitches.colours:
            if colour == AFRESH:
                return before
            before = colour
    return ""


def _called(fabric: Fabric, other: int, part: int) -> str:
    """What the key calls a piece that this one is joined to."""
    name = fabric.parts[other].name
    return (f"another {name}" if name else "another like it") if other == part else name or f"part {other + 1}"


def _title(fabric: Fabric, work: PartWork) -> str:
    title = fabric.pattern.facts.title
    return f"{title}: chart of {work.name}" if title else f"Chart of {work.name}"


__all__ = ["Chart", "Form", "Gap", "Handed", "RowWork", "chart", "grows_round", "place", "replace"]
