"""`hookwright try`: the tour. A draft with two slips is proofed, mended, measured, its yarn reckoned, and the piece published."""

from __future__ import annotations

import difflib
import re
import sys
import textwrap
import time
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from .common import Colours, table
from .publish import Progress, made_from, place_folder, refuse_foreign, worked

if TYPE_CHECKING:
    from ..pattern import Finding, Pattern
    from ..publishing import Publication
    from ..working.fabric import Fabric

WIDE = 80
FOLDER = Path("hookwright-tour")


def tour(*, output: Annotated[Path, Parameter(name=["--output", "-o"])] = FOLDER) -> int:
    """Show on a demo piece what Hookwright does; takes a few seconds and leaves a folder to look at.

    Parameters
    ----------
    output
        The folder to leave.
    """
    began = time.monotonic()
    tint, told = Colours.of(sys.stdout), Progress()
    refuse_foreign_pieces(output)
    print(_opening(tint))
    told("reading the draft and working every stitch")
    draft, drafted = _read("bollard-seat-pad-draft")
    findings = _findings(draft, drafted)
    told.end()
    print(_proofed(draft, drafted, findings, tint))
    told("working the mended pattern")
    pattern, fabrics = _read("bollard-seat-pad")
    left = [finding for finding in _findings(pattern, fabrics) if finding.severity != "note"]
    told.end()
    print(_mended(draft, pattern, fabrics, len(left), tint))
    print(_measured(fabrics, tint))
    if yarn := _yarn(pattern, fabrics, tint):
        print(yarn)
    made = _published(output, told)
    print(_folder(output, made, time.monotonic() - began, tint))
    return 0


def refuse_foreign_pieces(folder: Path) -> None:
    """Leave alone what the tour did not make."""
    from ..demo import PIECES

    for name in PIECES:
        refuse_foreign(folder / name)


def _read(name: str) -> tuple[Pattern, list[Fabric]]:
    from ..demo import piece
    from ..reading import read

    pattern = read(piece(name))
    return pattern, worked(pattern)


def _findings(pattern: Pattern, fabrics: list[Fabric]) -> tuple[Finding, ...]:
    from ..proofing import proof

    return proof(pattern, fabrics)


def _heading(number: int, words: str, tint: Colours) -> str:
    return f"\n{tint.bold}{tint.blue}{number}  {words}{tint.off}\n"


def _say(text: str) -> str:
    return textwrap.fill(" ".join(text.split()), WIDE)


def _opening(tint: Colours) -> str:
    words = """Brackwater Loft, a small studio by the sea that exists only here, has written a round seat pad. Before anybody
    picks up a hook, every stitch of the draft is worked by machine, on what the round below offers."""
    return f"{tint.bold}Hookwright: the tour{tint.off}\n\n{_say(words)}"


def _proofed(pattern: Pattern, fabrics: list[Fabric], findings: tuple[Finding, ...], tint: Colours) -> str:
    from ..proofing.terminal import Ink, show_counts, show_findings

    ink = Ink(tint.bold, tint.dim, tint.red, tint.yellow, tint.green, tint.blue, tint.off)
    loud = [finding for finding in findings if finding.severity != "note"]
    parts = [
        _heading(1, "The draft, proofed", tint) + "\n" + show_counts(pattern, fabrics[0], ink),
        show_findings(pattern, loud, ink),
    ]
    return "\n\n".join(part for part in parts if part.strip())


def _mended(draft: Pattern, pattern: Pattern, fabrics: list[Fabric], left: int, tint: Colours) -> str:
    lines = [_heading(2, "Mended", tint), *_changes(draft.source, pattern.source, tint)]
    rows = sum(not row.foundation for fabric in fabrics for part in fabric.parts for row in part.rows)
    stitches = sum(fabric.stitch_count for fabric in fabrics)
    verdict = "nothing is left to look at" if not left else f"{left} findings are left"
    return "\n".join([*lines, "", _say(f"Worked again: {rows} rounds, {stitches} stitches, every count agrees, {verdict}.")])


def _changes(before: str, after: str, tint: Colours) -> Iterator[str]:
    """What was changed in each row, with the words around it."""
    for old, new in zip(before.splitlines(), after.splitlines(), strict=True):
        if old == new or not old.startswith("Rnd"):
            continue
        was, now = _TOKEN.findall(old), _TOKEN.findall(new)
        for tag, a, b, c, d in difflib.SequenceMatcher(None, was, now, autojunk=False).get_opcodes():
            if tag != "equal":
                lead, tail = "".join(was[:a])[-AROUND:], "".join(was[b:])[: AROUND // 2]
                changed = f"{tint.red}{''.join(was[a:b])}{tint.off} → {tint.green}{''.join(now[c:d])}{tint.off}"
                yield f"  {tint.bold}{old.split(':')[0]}{tint.off}  …{lead}{changed}{tail}{'…' if len(tail) == AROUND // 2 else ''}"


_TOKEN = re.compile(r"\w+|\W")
AROUND = 26
"""Characters shown before a change."""


def _measured(fabrics: list[Fabric], tint: Colours) -> str:
    from ..measuring import LIES, measure, size_told
    from ..trade.units import both_lengths

    part = measure(fabrics[0]).parts[0]
    rounds = part.rounds
    size = size_told(part, both_lengths)
    because = f": {rounds.because}" if rounds and rounds.because else ""
    return (
        _heading(3, "Measured, before a metre of yarn is used", tint) + "\n" + _say(f"It comes out {size} and {LIES[part.lies]}{because}.")
    )


def _yarn(pattern: Pattern, fabrics: list[Fabric], tint: Colours) -> str:
    from ..publishing.yarns import answer_of

    answer = answer_of(pattern, fabrics)
    if answer is None:
        return ""
    rows = [[cell.replace("\u00a0", " ") for cell in row] for row in answer.table.rows]
    said = table(answer.table.head, rows, right=tuple(range(1, len(answer.table.head))), colours=tint)
    return _heading(4, "The yarn", tint) + "\n" + said + "\n\n" + _say(answer.table.note.replace("\u00a0", " "))


def _published(output: Path, told: Progress) -> dict[str, Publication]:
    from ..demo import PIECES

    made: dict[str, Publication] = {}
    for name in PIECES:
        pattern, fabrics = _read(name)

        def step(words: str, title: str = pattern.facts.title) -> None:
            told(f"publishing {title}: {words}")

        made[name] = made_from(pattern, fabrics, terms=None, paper="a5", told=step)
        place_folder(output / name, made[name].files)
    told.end()
    return made


def _folder(output: Path, made: dict[str, Publication], seconds: float, tint: Colours) -> str:
    lines = [_heading(5, "Published", tint)]
    lines.append(
        _say("The studio's three pieces, each under one version stamp: booklet, large-print booklet, page, pictures, checked text.")
    )
    for name, publication in made.items():
        lines += ["", f"  {tint.bold}{publication.sheet.title}{tint.off}  {tint.dim}{publication.sheet.stamp}{tint.off}"]
        pages = [file for file in publication.files if file.endswith((".html", ".pdf"))]
        lines += [f"    {output / name / file}" for file in pages]
        lines.append(f"    {tint.dim}and {len(publication.files) - len(pages)} more{tint.off}")
    page = (output / "bollard-seat-pad" / "bollard-seat-pad.html").resolve()
    lines += ["", f"Done in {seconds:.1f} s. Open in a browser, no network needed:", f"  {page.as_uri()}"]
    return "\n".join(lines)
