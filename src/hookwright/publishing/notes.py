"""What must be said before the rows: the starting chain, the signs, the sides. Told from the worked fabric."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..pattern import FLAT
from ..working.fabric import Fabric, Role, RowWork
from ..writing import Lexicon, Style, Written


def notes_of(fabrics: Sequence[Fabric], written: Written, style: Style) -> tuple[str, ...]:
    """The notes in the terms of `written` and the style it is in, in the order they are needed."""
    return (*_starting_chains(fabrics, Lexicon(terms=written.terms, style=style)), *_sides(fabrics), *_signs(written, style))


def _starting_chains(fabrics: Sequence[Fabric], lexicon: Lexicon) -> Iterator[str]:
    rows = [row for fabric in fabrics for part in fabric.parts for row in part.rows]
    for chains, stands, round_ in dict.fromkeys(told for row in rows if (told := _start(row)) is not None):
        chain = f"{lexicon.word('ch')}{lexicon.space}{chains}"
        start = f"The {chain} at the start of a {'round' if round_ else 'row'}"
        if stands:
            stitch = f"1{lexicon.space}{lexicon.stitch(stands)}"
            yield (
                f"{start} counts as {stitch}: it stands in the first stitch, so the next stitch to work is the second, "
                f"and the top of the {chain} is worked into like any other stitch."
            )
        else:
            yield f"{start} does not count as a stitch: work into the first stitch, and not into the chain."


def _start(row: RowWork) -> tuple[int, str, bool] | None:
    """(chains, what they stand for or "", in rounds) of the row's starting chain; None without one."""
    if row.foundation or row.read == "no":
        return None
    chains = 0
    for i, role in enumerate(row.stitches.role):
        if role == Role.START:
            chains += 1
        elif role == Role.START_TOP:
            stands = row.stitches.stands.get(i, "")
            return (chains + 1, stands, row.made_in not in FLAT) if row.index > 1 or row.made_in not in FLAT else None
        else:
            break
    return (chains, "", row.made_in not in FLAT) if chains and (row.index > 1 or row.made_in not in FLAT) else None


def _sides(fabrics: Sequence[Fabric]) -> Iterator[str]:
    rows = [row for part in fabrics[0].parts for row in part.rows if not row.foundation] if fabrics else []
    if not rows:
        return
    if any(row.turned for row in rows):
        first = next((row for row in rows if row.number is not None), rows[0])
        yield f"{first.label} is a {'right' if first.side == 'RS' else 'wrong'}-side row; the sides change with every turn."
    elif all(row.made_in in ("joined", "spiral") for row in rows):
        yield "The right side faces you throughout: the work is not turned."
    if rows and all(row.made_in == "spiral" for row in rows if row.number is not None):
        yield "The rounds are not joined: mark the first stitch of each and move the marker up."


def _signs(written: Written, style: Style) -> Iterator[str]:
    if style.spoken:
        return
    words = " ".join(row.words for part in written.parts for row in part.rows)
    if "rep from *" in words:
        yield "* … ; rep from *: work the steps from the star again and again, as far as is told."
    if "[" in words:
        yield "[ … ] 4 times: work the steps in square brackets as often as is told, along the row."
    if any(mark in words for mark in (") in ", ") around ", ") between ")):
        yield "( … ) in: work everything in round brackets into that one place."
    if any(row.count for part in written.parts for row in part.rows):
        yield "The count after the dash is what the row holds when it is done."
