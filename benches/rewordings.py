"""The same pattern in other words makes the same fabric: `python benches/rewordings.py [--corpus FOLDER] [--rule N] [--show 3]`.

Each rule says one thing of the trade in several ways (the sentences are ours). It is applied on its own to every text; a text fares badly when
one of its rows is then worked otherwise, or less surely, than in the words it was written in. What is counted is texts, not rows.
"""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from hookwright.reading import read
from hookwright.working import Fabric, work

ROOT = Path(__file__).parent.parent
CASES = ROOT / "tests" / "cases"

RULES: tuple[tuple[str, tuple[str, ...]], ...] = (
    (r"\b[Rr]ep(?:eat)? from \*(?! to)", ("repeat from the *", "rpt from *", "repeating from *", "* repeat from *")),
    (r"\b(\d+|two|three|four|five|six) more times\b", (r"another \1 times", r"\1 times more", r"\1 further times", r"for \1 more times", r"\1 more x", r"an additional \1 times")),
    (r"\bacross(?=[;,.]| to turn)", ("to end", "to end of row", "all across", "all the way across", "to the end of the row", "along the row", "across the row")),
    (r"\baround(?=[;,.])", ("to end", "to end of round", "all around", "all the way around", "round", "around the entire round", "to the end of the round")),
    (r"\bin next (?=(?:st|sc|dc|hdc|tr)\b)", ("in the next ", "into next ", "into the next ", "in following ", "in the following ", "in nxt ", "on next ")),
    (r"\bin next (\d+) (sts|sc|dc|hdc|tr)\b", (r"in each of next \1 \2", r"in each of the next \1 \2", r"in the next \1 \2", r"into each of the next \1 \2", r"in following \1 \2", r"over next \1 \2", r"in ea of next \1 \2")),
    (r"\b[Ii]n each (st|sc|dc|hdc|tr)\b(?= across| around)", (r"in every \1", r"into each \1", r"in each and every \1", r"in ea \1", r"in all \1s", r"evenly in each \1")),
    (r"\b[Ss]k(?:ip)? (?=next|\d)", ("miss ", "skip ", "sk ", "skipping ", "leave out ", "pass over ")),
    (r"\b[Jj]oin with sl st (?:in|to) (?:first|top of first|1st) (sc|dc|hdc|st)\b", (r"sl st in first \1 to join", r"ss to first \1 to join", r"slip stitch into first \1 to join", r"join to first \1 with a sl st", r"join with a slip stitch to first \1", r"join round with sl st in first \1", r"close with sl st in first \1", r"sl st into top of first \1", r"connect with sl st to first \1", r"join w/ sl st to first \1", r"joining with sl st in first \1", r"sl st to 1st \1 to close", r"join the round with a slip stitch in the first \1 made", r"finish with sl st in first \1")),
    (r"; join\.|, join\.", ("; join with sl st.", ", sl st to join.", "; sl st to first st to join.", "; close round.", ", join the round.", "; sl st in first st.", ". Join.", ". Sl st to close.", "; join to beg.", "; join to first st.", ", ss to join.")),
    (r"[Cc]h (\d), turn\b", (r"turn, ch \1", r"chain \1, turn", r"ch \1 and turn", r"ch\1, turn", r"ch \1. Turn", r"turn with ch \1", r"\1 ch, turn")),
    (r"\bCh 1, turn[,;.]? ", ("Turn, ch 1, ", "Turn work, ch 1, ", "Turn; ch 1, ", "Ch 1 and turn, ", "Turn your work and chain 1. ", "T, ch 1, ", "Turn. Ch 1 (does not count). ")),
    (r"[,;.] turn\.", ("; turn.", ". Turn.", ", turn work.", ", turn your work.", ". TURN.", " and turn.", ", TURN.")),
    (r"\bturn\. \((\d+) (sts|sc|dc|hdc|st)\)", (r"turn. [\1 \2]", r"turn. – \1 \2", r"turn = \1 \2", r"turn: \1 \2.", r"turn. \1 \2.", r"turn (\1 \2).", r"turn. {\1 \2}", r"turn. Total: \1 \2.", r"turn. You should have \1 \2.", r"turn -- \1 \2.", r"turn. <\1 \2>", r"turn. You now have \1 \2.", r"turn. /\1 \2/", r"turn. Stitch count: \1.", r"turn. \1 \2 in total.")),
    (r"\((\d+) (sts|sc|dc|hdc)\)(?=\.?\n)", (r"[\1 \2]", r"– \1 \2", r"= \1 \2", r"\1 \2.", r"{\1 \2}", r"(total \1 \2)", r"(\1 \2 in total)", r"(\1 \2 at end of round)", r"(\1)", r"(= \1 \2)", r"<\1>", r"- \1 \2 made.", r"(you should have \1 \2)", r"Count: \1", r"(\1 stitches)", r"\1 \2 total.")),
    (r"(?m)^Row (\d+): ", (r"Row \1. ", r"R\1: ", r"R\1 - ", r"ROW \1: ", r"Row \1 - ", r"Row \1) ", r"row \1 ", r"\1. ", r"Row #\1: ", r"**Row \1:** ", r"Row \1 – ", r"Row no. \1: ", r"Row \1; ", r"• Row \1: ", r"*Row \1:* ")),
    (r"(?m)^Row (\d+) \((RS|WS)\): ", (r"Row \1 [\2]: ", r"Row \1: (\2) ", r"\2 Row \1: ", r"Row \1 - \2: ", r"Row \1 (\2) ", r"(\2) Row \1: ", r"Row \1/\2: ", r"Row \1, \2: ")),
    (r"(?m)^(?:Rnd|Round) (\d+): ", (r"Round \1: ", r"Rnd \1. ", r"R\1: ", r"RND \1: ", r"Rd \1: ", r"Rnd \1 - ", r"R\1 - ", r"Rnd. \1: ", r"Rnd\1: ", r"\1) ", r"Rnd #\1: ", r"**Round \1** ", r"Round \1 – ", r"ROUND \1. ", r"Rnds \1: ", r"Rnd \1) ")),
    (r"\b2 (sc|dc|hdc|tr) in (?:the )?next (st|sc|dc|hdc|tr)\b", (r"2\1 in next \2", r"two \1 in next \2", r"work 2 \1 in next \2", r"make 2 \1 into next \2", r"(2 \1) in next \2", r"2 \1 into next \2", r"\1 twice in next \2", r"(\1, \1) in next \2", r"\1 inc in next \2", r"inc with 2 \1 in next \2", r"increase in next \2", r"2 x \1 in next \2")),
    (r"\b(sc|dc|hdc)2tog\b", (r"\1 2 tog", r"\1 2 together", r"\1-2tog", r"\1 next 2 sts tog", r"\1 next 2 sts together", r"\1 dec", r"dec", r"\1 the next two sts together", r"\1dec", r"decrease over next 2 sts", r"work 2 sts together", r"\1 decrease")),
    (r"\b[Ii]nc in (?:the )?next st\b|(?<=, )inc(?=[\],)*;])", ("inc", "inc in next st", "2 sc in next st", "inc 1", "1 inc", "inc in next", "2 sc in next", "increase", "inc in the next stitch")),
    (r"\b[Ff]asten off\b", ("Finish off", "End off", "Cut yarn and fasten off", "Tie off", "Bind off", "FO", "Break off", "Break yarn", "Cut yarn", "Fasten off and weave in ends")),
    (r"(?<!\d )\bsc in 2nd ch from hook\b", ("sc in second ch from hook", "sc into 2nd chain from hook", "1 sc in 2nd ch from the hook", "starting in 2nd ch from hook, sc in ch", "skip 1 ch, sc in next ch", "skip first ch, sc in next ch", "sc in the 2nd ch from your hook", "sc in the second chain from the hook", "beginning with 2nd ch from hook, sc in ch")),
    (r"\band in each ch across\b", ("and in each ch to end", "and in every ch across", "and each ch across", "and in each remaining ch across", "and in each chain to the end", "and across", "and in rem ch across", "and all along ch", "and in each of the remaining chs", "and into each ch to end")),
    (r"\((counts as (?:first )?(?:a )?(dc|hdc|tr)(?: here and throughout)?)\)", (r"(counts as 1 \2)", r"(first \2 made)", r"(beg \2)", r"(counts as a \2 st)", r"– counts as first \2 –", r"[counts as \2]", r"(does count as \2)", r"(counts as \2, now and throughout)", r"(equals 1 \2)", r"(= 1 \2)", r"(count as \2)", r"(stands for first \2)")),
    (r"\((?:does not count|doesn't count)(?: as (?:a )?st(?:itch)?)?\)", ("(not counted)", "(doesn't count as a stitch)", "(does NOT count as st)", "(not counted as a stitch)", "(ch does not count)", "(this does not count as a st)", "(not a st)", "(never counts as a st)", "[does not count as a stitch]", "– does not count as a stitch –")),
    (r"(?m)^[Cc]h (\d+)\.(?= |\n)", (r"Chain \1.", r"Ch \1:", r"\1 ch.", r"Make \1 ch.", r"Make a chain of \1.", r"Chain \1 sts.", r"Work \1 ch.", r"Ch \1 loosely.", r"Starting ch: \1.", r"Make a foundation chain of \1 ch.", r"Begin with ch \1.", r"To start, ch \1.", r"Using main colour, ch \1.", r"Make a slip knot and ch \1.", r"Foundation: Ch \1.")),
    (r"\b(\d) (sc|dc|hdc|tr) in ring\b", (r"\1 \2 into ring", r"\1 \2 into the ring", r"work \1 \2 in ring", r"\1 \2 in the ring", r"work \1 \2 into the centre of the ring", r"\1 \2 in centre of ring", r"make \1 \2 into ring", r"\1 \2 inside the ring")),
    (r"\bin same st(?: as join(?:ing)?)?\b", ("in the same st", "into same st", "in st at base of ch", "in the same stitch as join", "in same stitch", "in joining st", "at base of ch")),
    (r"(?<!\d )\bdc in next dc\b", ("1 dc in next dc", "dc in next", "dc into the next dc", "work 1 dc in next dc", "dc in top of next dc", "dc on next dc", "dc over next dc", "dc in the next dc along")),
    (r"\b([Ss]c|[Dd]c|[Hh]dc) in next (\d+) sts\b", (r"\2 \1", r"\1 \2", r"\1 in next \2 stitches", r"1 \1 in each of next \2 sts", r"\1 x \2", r"\2 x \1", r"work \2 \1", r"\1 next \2 sts", r"\2\1", r"\1 in the next \2", r"\1 across next \2 sts", r"\1 in each of the following \2 sts")),
    (r"\bin (?:the )?ch-(\d+) sp\b", (r"in \1-ch sp", r"in ch\1 space", r"in ch-\1 space", r"into ch-\1 sp", r"in ch \1 sp", r"in the chain-\1 space", r"in ch-\1 loop", r"in sp", r"under ch-\1", r"in \1-chain space", r"into the ch-\1-sp", r"over ch-\1")),
    (r"\bto last (\d+|two|three) (?:sts|stitches)\b", (r"until last \1 sts", r"to within last \1 sts", r"to the last \1 sts", r"until \1 sts remain", r"until the last \1 stitches", r"till last \1 sts", r"up to last \1 sts", r"until there are \1 sts left", r"across to last \1 stitches")),
    (r"\bin (?:the )?back loop(?:s)? only\b|\bBLO\b|\bin blo\b", ("in back loops only", "in the back loop", "through back loop only", "tbl", "in BL only", "in back lp only" )),
    (r"(?m)^Rows (\d+)\s?[-–]\s?(\d+): Rep(?:eat)? (?:Row|row) (\d+)\.", (r"Rows \1 to \2: Repeat row \3.", r"Rows \1 through \2: As row \3.", r"Rows \1–\2: Same as Row \3.", r"Rows \1-\2: Work as Row \3.", r"Rows \1-\2: Like Row \3.", r"Row \1-\2: Rep R\3.", r"Rows \1-\2: = Row \3.", r"Rows \1-\2: Work in the same way as Row \3.", r"Rows \1-\2: As for Row \3.", r"For Rows \1-\2, repeat Row \3.", r"Rows \1-\2: Follow Row \3.", r"Repeat Row \3 for Rows \1-\2.")),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Text:
    name: str
    words: str


def texts(corpus: Path | None) -> Iterator[Text]:
    """Our own whole patterns, then the corpus when it is there."""
    for path in [*sorted((CASES / "reading").glob("*.md")), *sorted((ROOT / "examples").glob("*.md"))]:
        yield Text(path.stem, path.read_text(encoding="utf-8"))
    if corpus:
        for path in sorted((corpus / "patterns").glob("*.txt")):
            body = re.sub(r"\A(?:# (?:url|text|title|source)[^\n]*\n)+", "", path.read_text(encoding="utf-8"))
            yield Text(f"corpus {path.stem}", body)


@dataclass(frozen=True, slots=True)
class Worked:
    """One row as it came out."""

    number: str
    total: int
    read: str
    worked: str
    state: str
    words: str


def outcome(words: str) -> list[Worked]:
    """What the first size is worked to, row by row."""
    fabric: Fabric = work(read(words))
    rows = [row for part in fabric.parts for row in part.rows if not row.foundation]
    return [
        Worked(str(row.number), row.counted.total, row.read, row.worked, row.state, " ".join(row.written.span.of(words).split()))
        for row in rows
    ]


def worse(before: list[Worked], after: list[Worked]) -> str:
    """In one line what went wrong, or nothing."""
    if len(before) != len(after):
        return f"{len(before)} rows became {len(after)}"
    for was, now in zip(before, after, strict=True):
        if was.worked != "yes":
            continue
        told = f"row {was.number}: "
        if was.total != now.total:
            told += f"{was.total} became {now.total}"
        elif was.read == "whole" and now.read != "whole":
            told += "no longer read whole"
        elif now.worked != "yes":
            told += f"worked {now.worked}"
        elif now.state == "differs" and was.state != "differs":
            told += "now said to differ"
        else:
            continue
        return f"{told} | {now.words}"
    return ""


def _capital(match: re.Match[str], other: str) -> str:
    said = match.expand(other)
    return said[:1].upper() + said[1:] if match[0][:1].isupper() else said


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--corpus", type=Path)
    asked.add_argument("--rule", type=int, action="append")
    asked.add_argument("--show", type=int, default=2)
    choice = asked.parse_args()
    pieces = [(text, outcome(text.words)) for text in texts(choice.corpus)]
    tried = bad = 0
    for number, (told, others) in enumerate(RULES):
        if choice.rule and number not in choice.rule:
            continue
        for other in others:
            hit, wrong = 0, []
            for text, before in pieces:
                words = re.sub(told, lambda match, other=other: _capital(match, other), text.words)  # type: ignore[misc]
                if words == text.words:
                    continue
                hit += 1
                if why := worse(before, outcome(words)):
                    wrong.append(f"{text.name}: {why}"[:240])
            tried, bad = tried + hit, bad + len(wrong)
            if wrong:
                print(f"{number:3} {len(wrong):3} of {hit:3}  {other!r}   ← {told}")
                for line in wrong[: choice.show]:
                    print(f"          {line}")
                sys.stdout.flush()
    print(f"{len(RULES)} rules; {tried} reworded texts, {tried - bad} worked as before ({(tried - bad) / max(1, tried):.1%})")


if __name__ == "__main__":
    main()
