"""`hookwright draft`: measurements and a swatch to a pattern, or an existing pattern to another gauge, size, side or amount of yarn."""

from __future__ import annotations

import json as json_module
import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

from cyclopts import Parameter

from .common import CannotDo, load, write_file

if TYPE_CHECKING:
    from ..drafting import Draft

Flag = Annotated[bool, Parameter(negative=())]


def draft(
    family: str | None = None,
    /,
    *,
    gauge: str | None = None,
    from_: Annotated[str | None, Parameter(name="--from")] = None,
    output: Annotated[Path | None, Parameter(name=["--output", "-o"])] = None,
    picture: Path | None = None,
    turning_chain: str | None = None,
    rounds: Literal["joined", "spiral"] | None = None,
    last: Literal["either", "right-side", "wrong-side"] = "either",
    stacked: Flag = False,
    hook: str | None = None,
    terms: Literal["US", "UK"] | None = None,
    wider: int | None = None,
    longer: int | None = None,
    mirror: Flag = False,
    keep: Literal["size", "counts"] = "size",
    widths: str | None = None,
    ball: str | None = None,
    table: Flag = False,
    json: Flag = False,
    svg: Path | None = None,
    **measures: str,
) -> int:
    """Turn measurements into a pattern: `hookwright draft rectangle --gauge "14 dc and 7 rows = 10 cm" --width 24cm --length 170cm`.

    `hookwright draft` alone lists the families; `hookwright draft FAMILY` what each of them asks.

    Parameters
    ----------
    family
        What to draft: rectangle, bevelled-strip, triangle, circle, sphere, hat …
    gauge
        The swatch: "14 dc and 7 rows = 10 cm". With --from: the new gauge.
    from_
        Begin from this pattern instead of a family.
    output
        Write the pattern to this file, and its picture beside it (.svg).
    picture
        Write the picture here: the outline asked, dashed, over the outline obtained (.svg or .png).
    turning_chain
        "3 counts", "2 not counted"; left out: custom's chain, not counted.
    rounds
        How rounds end; left out: spiral in sc, joined otherwise.
    last
        Which side the last row shows.
    stacked
        Increases above each other, for corners.
    hook
        The hook, for the head of the pattern: "5 mm".
    terms
        US or UK words, in the gauge you give and in what is written; left out: US, or with --from the pattern's own.
    wider
        With --from: so many repeats wider (less than nothing: narrower).
    longer
        With --from: so many row repeats longer (less than nothing: shorter).
    mirror
        With --from: the other side of a pair, its shaping reversed.
    keep
        With --from and --gauge: the same size (counts change), or the same counts (the size changes).
    widths
        With --from: a run of sizes by their widths or girths: "38 (42, 46) cm".
    ball
        With --from: the largest that this yarn allows, trims set aside: "100 g = 200 m".
    table
        With --from: a table of wider, longer and other gauges: chain, stitches, rows, size, yarn.
    json
        Print the account as JSON (hookwright/draft/1).
    svg
        For the family `path`: take the first path of this SVG file.
    measures
        What the family asks, each with its unit: --width 24cm.
    """
    from ..drafting import Refused

    try:
        if from_ is not None:
            made, own = _changed(from_, family, gauge, turning_chain, wider, longer, mirror, keep, widths, ball, table)
            terms = terms or own
            if isinstance(made, str):
                print(made, end="")
                return 0
        else:
            if family is None or (gauge is None and not measures):
                return _families(family)
            if gauge is None:
                raise CannotDo('A draft needs your gauge: --gauge "14 dc and 7 rows = 10 cm".')
            from ..drafting import draft as drafted
            from ..drafting.asks import gauge_of

            given: dict[str, str | float] = dict(measures)
            if svg is not None:
                given["d"] = _path_of(svg)
            told = gauge_of(gauge, terms=terms or "US")
            made = drafted(family, told, given, turning_chain=turning_chain, rounds=rounds, last=last, stacked=stacked, hook_mm=_hook(hook))
        inches = any(_INCHES.search(text) for text in (gauge or "", *map(str, measures.values()), widths or ""))
        return _give(made, output, picture, terms or "US", json, inches)
    except Refused as refusal:
        raise CannotDo(str(refusal)) from refusal


_INCHES = re.compile(r"[\d)]\s*(?:in\b|inch|[\"″])")
"""A length in inches among what was asked: the account is then in inches too."""


def _give(made: Draft, output: Path | None, picture: Path | None, terms: Literal["US", "UK"], json: bool, inches: bool) -> int:
    from ..drafting.picture import picture as drawn
    from ..writing import PLAIN, write

    text = write(made.pattern, terms=terms, style=PLAIN).text
    if json:
        from ..drafting.account import account

        print(json_module.dumps({**account(made), "text": text}, indent=1, ensure_ascii=False))
    elif output is None:
        print(text, end="")
    if output is not None:
        write_file(output, text)
    if not json:
        report = made.report(terms, inches=inches)
        print(f"\n{report}" if output is None else f"{output}\n{report}", file=sys.stderr)
    target = picture or (output.with_suffix(".svg") if output is not None and made.views else None)
    if target is not None and made.views:
        svg = drawn(made)
        if target.suffix.lower() == ".png":
            from ..drawing.png import to_png

            write_file(target, to_png(svg, dpi=144))
        else:
            write_file(target, svg)
    return 0


def _families(name: str | None) -> int:
    """What can be drafted, or what one family asks."""
    from ..drafting import families, unknown_family

    known = families()
    if name is None:
        print("Families (hookwright draft FAMILY tells what each asks):\n")
        for family in known.values():
            print(f"  {family.name:<16}{family.what}")
        return 0
    if name not in known:
        raise unknown_family(name)
    family = known[name]
    print(f"{family.name}: {family.what}\n")
    for measure, meaning in family.lengths.items():
        print(f"  --{measure:<16}{meaning}{' (needed)' if measure in family.needs else ''}")
    for word, meaning in family.words.items():
        print(f"  --{word:<16}{meaning}")
    print('\nand --gauge "14 dc and 7 rows = 10 cm".')
    return 0


def _hook(text: str | None) -> float | None:
    if text is None:
        return None
    from ..drafting import length_cm

    if text.strip().replace(".", "", 1).isdigit():
        raise CannotDo(f"The hook {text.strip()} has no unit. Say {text.strip()} mm.")
    return round(10 * length_cm(text, "hook"), 2)


def _path_of(file: Path) -> str:
    from .common import read_source

    source = read_source(str(file))
    found = re.search(r"<path\b[^>]*?\sd=([\"'])(.*?)\1", source.text, re.S)
    if found is None:
        raise CannotDo(f"{file}: there is no <path> in it.")
    return found[2]


def _changed(
    file: str,
    family: str | None,
    gauge: str | None,
    turning_chain: str | None,
    wider: int | None,
    longer: int | None,
    mirror: bool,
    keep: Literal["size", "counts"],
    widths: str | None,
    ball: str | None,
    table: bool,
) -> tuple[Draft | str, Literal["US", "UK"]]:
    """An existing pattern changed in the one way that was asked, and the terms it speaks."""
    if family is not None:
        raise CannotDo("Give a family or --from, not both.")
    said = {
        "--wider": wider is not None,
        "--longer": longer is not None,
        "--mirror": mirror,
        "--gauge": gauge is not None and not table,
        "--widths": widths is not None,
        "--ball": ball is not None,
        "--table": table,
    }
    asked = [name for name, told in said.items() if told]
    one = {"--wider", "--longer"} >= set(asked) or len(asked) == 1
    if not asked:
        raise CannotDo("Say what to change: --gauge, --wider, --longer, --mirror, --widths, --ball, or --table.")
    if not one:
        raise CannotDo(f"One change at a time: {' and '.join(asked)} were asked.")
    from .. import drafting

    _, pattern = load(file)
    if table:
        return drafting.table_of(pattern, gauge), pattern.terms
    if mirror:
        return drafting.mirrored_pattern(pattern), pattern.terms
    if widths is not None:
        return drafting.graded(pattern, widths), pattern.terms
    if ball is not None:
        return drafting.largest_for(pattern, ball), pattern.terms
    if gauge is not None:
        return drafting.regauged(pattern, gauge, keep=keep, turning_chain=turning_chain), pattern.terms
    return drafting.by_repeats(pattern, wider=wider or 0, longer=longer or 0), pattern.terms
