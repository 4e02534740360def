"""A narration: sentences with times, slips planted in it, written as captions of one kind or another."""

from __future__ import annotations

import random
import re
from dataclasses import dataclass, field, replace

from hookwright.teaching.cues import clock
from hookwright.trade.terms import name as full_name

from .noise import misheard
from .rows import ToSay
from .styles import Style, voiced

WORDS_A_SECOND = 2.6
KINDS = ("count", "row", "dialect", "left out", "row never said", "count never said")


@dataclass
class Planted:
    """A slip: its kind, the row it is at, and the second (filled in when the narration is timed)."""

    kind: str
    row: str
    at: float = -1.0
    what: str = ""


@dataclass
class Line:
    text: str
    slip: Planted | None = None
    before: Planted | None = None
    """A slip that lies just before this line: something left out."""
    after: Planted | None = None
    """A slip that lies just behind it."""
    wrong: str = ""
    """The words that are wrong in it."""


@dataclass
class Narration:
    style: str
    lines: list[Line]
    planted: list[Planted]
    captions: str = ""
    seconds: float = 0.0
    cues: list[tuple[float, float, str]] = field(default_factory=list)


_OTHER_NAMES = {
    "US": ("half double crochet", "single crochet", "double crochet", "treble crochet"),
    "UK": ("half treble", "double crochet", "double treble", "treble"),
}


def narrate(r: random.Random, rows: list[ToSay], style: Style, terms: str, slips: int) -> Narration:
    """A narration of the rows in a style with up to so many slips, each in a row of its own."""
    planted: list[Planted] = []
    at_row = _spread(r, rows, slips)
    lines = [Line(voiced(style, s)) for s in style.opening]
    part, waiting = rows[0].part if rows else "", None
    for k, row in enumerate(rows):
        if row.part != part:
            part = row.part
            lines.append(Line(style.part.format(part=part) + "."))
        kind = at_row.get(k)
        told, slip, waiting = _row_lines(r, rows, k, style, terms, kind, waiting)
        lines += told
        if slip is not None:
            planted.append(slip)
        if style.between and kind != "row never said" and r.random() < style.often:
            lines.append(Line(voiced(style, r.choice(style.between))))
    lines += [Line(voiced(style, s)) for s in style.closing]
    if waiting is not None:
        lines[-len(style.closing) if style.closing else -1].before = waiting
    return Narration(style.name, lines, planted)


def _spread(r: random.Random, rows: list[ToSay], slips: int) -> dict[int, str]:
    """Row index → kind of slip, no two in neighbouring rows."""
    free = list(range(len(rows)))
    r.shuffle(free)
    out: dict[int, str] = {}
    for k in free:
        if len(out) >= slips:
            break
        if any(abs(k - other) < 2 for other in out):
            continue
        kinds = [kind for kind in KINDS if _possible(rows, k, kind)]
        if kinds:
            out[k] = r.choice(kinds)
    return out


def _possible(rows: list[ToSay], k: int, kind: str) -> bool:
    row = rows[k]
    if kind == "dialect":
        return any(_named(c) for c in row.clauses) and not row.again and len(_all_named(row)) == 1
    if kind == "left out":
        return _droppable(row) is not None
    if kind == "row":
        return row.first == row.last
    if kind == "count never said":
        if any(re.match(rf"{row.count} [a-z ]+ in (?:the |a )?(?:ring|magic|loop)", clause) for clause in row.clauses):
            return False  # "6 single crochet in the ring" tells the count
        return k == 0 or rows[k - 1].count != row.count
    return True


def _named(clause: str) -> str | None:
    for name in ("half double crochet", "half treble", "double treble", "single crochet", "double crochet", "treble crochet", "treble"):
        if re.match(rf"(?:\d+ |front post |back post )?{name}", clause):
            return name
    return None


def _all_named(row: ToSay) -> set[str]:
    return {name for c in row.clauses if (name := _named(c))}


def _droppable(row: ToSay) -> int | None:
    """A clause whose stitch (or inner chain) no other clause of the row names."""
    if row.again:
        return None
    names = [_item(c) for c in row.clauses]
    first = next((k for k, name in enumerate(names) if name and name != "chain"), len(names))
    names = ["" if name == "chain" and k < first else name for k, name in enumerate(names)]
    for k in range(len(row.clauses) - 1, 0, -1):
        if names[k] and names.count(names[k]) == 1 and sum(bool(n) for n in names) >= 2:
            return k
    return None


def _item(clause: str) -> str:
    if clause.startswith("chain ") and "count" not in clause:
        return "chain"
    name = _named(clause)
    if name is None or clause.startswith("repeat") or "skip" in clause:
        return ""
    if "together" in clause:
        return f"dec {name}"
    if re.match(r"^\d+ ", clause) and "in the" in clause:
        return f"inc {name}"
    post = "front " if "front post" in clause else "back " if "back post" in clause else ""
    return post + name


def _row_lines(
    r: random.Random, rows: list[ToSay], k: int, style: Style, terms: str, kind: str | None, waiting: Planted | None
) -> tuple[list[Line], Planted | None, Planted | None]:
    row = rows[k]
    slip = Planted(kind, row.label) if kind else None
    if kind == "row never said":
        return [], slip, slip
    announced = row if kind != "row" else replace(row, first=_wrong_row(r, rows, row), last=0)
    if kind == "row":
        announced = replace(announced, last=announced.first)
    lines = [Line(voiced(style, style.announce(r, announced)), slip if kind == "row" else None)]
    if style.corrects and r.random() < 0.25 and kind != "row":
        wrong = replace(row, first=row.first + 1, last=row.last + 1)
        lines = [
            Line(
                voiced(
                    style, f"{style.announce(r, wrong).rstrip('.')}, sorry, {style.announce(r, row)[0].lower()}{style.announce(r, row)[1:]}"
                )
            )
        ]
        lines = [Line(voiced(style, f"{_rows_words(wrong)}, sorry, {_rows_words(row)}.").capitalize())]
    if waiting is not None:
        lines[0].before, waiting = waiting, None
    clauses = [*row.lead, *row.clauses]
    if kind == "left out":
        drop = _droppable(row)
        assert drop is not None
        assert slip is not None
        slip.what = row.clauses[drop]
        kept = [*row.lead, *row.clauses[:drop]], row.clauses[drop + 1 :]
        first = [Line(voiced(style, s)) for s in style.tell(r, row, kept[0])] if kept[0] else []
        second = [Line(voiced(style, s)) for s in style.tell(r, row, kept[1])] if kept[1] else []
        (second[0] if second else first[-1]).before = slip
        lines += first + second
    else:
        lines += _told(r, style, row, clauses, terms, slip if kind == "dialect" else None)
    if kind == "count never said":
        lines[-1].after = slip
        return lines, slip, None
    counted = row if kind != "count" else _wrong_count(r, rows, k)
    text = voiced(style, style.count(r, counted))
    if style.corrects and r.random() < 0.25 and kind != "count":
        text = voiced(style, f"That makes {row.count + 2}, no wait, {row.count} stitches.")
    lines.append(Line(text, slip if kind == "count" else None))
    return lines, slip, None


def _rows_words(row: ToSay) -> str:
    return f"{row.noun} {row.first}" if row.first == row.last else f"{row.noun}s {row.first} to {row.last}"


def _told(r: random.Random, style: Style, row: ToSay, clauses: list[str], terms: str, slip: Planted | None) -> list[Line]:
    if slip is None:
        return [Line(voiced(style, s)) for s in style.tell(r, row, clauses)]
    at = r.choice([k for k, c in enumerate(clauses) if _named(c)])
    name = _named(clauses[at])
    assert name is not None
    wrong = _translated(name, terms)
    changed = [*clauses[:at], clauses[at].replace(name, wrong), *clauses[at + 1 :]]
    lines = [Line(voiced(style, s)) for s in style.tell(r, row, changed)]
    if style.figures:
        wrong = {"double crochet": "dc", "half double crochet": "hdc", "single crochet": "sc"}.get(wrong, wrong)
    hit = next((line for line in lines if wrong in line.text.lower()), lines[0])
    hit.slip, hit.wrong = slip, wrong
    return lines


def _translated(name: str, terms: str) -> str:
    """The name the other dialect has for the same stitch."""
    ours, theirs = ("US", "UK") if terms == "US" else ("UK", "US")
    for kind in ("hdc", "sc", "dc", "tr", "dtr"):
        if full_name(kind, ours) == name or full_name(kind, ours) == f"{name} crochet":  # type: ignore[arg-type]
            return full_name(kind, theirs)  # type: ignore[arg-type]
    return name


def _wrong_row(r: random.Random, rows: list[ToSay], row: ToSay) -> int:
    return max(1, row.first + r.choice((-1, 1, 1, 2, 10)) if row.first > 1 else row.first + r.choice((1, 2, 3)))


def _wrong_count(r: random.Random, rows: list[ToSay], k: int) -> ToSay:
    row = rows[k]
    right = {int(n) for n in re.findall(r"\d+", row.count_text)} | {row.count}
    wrong = row.count + r.choice((-4, -3, -2, -1, 1, 2, 3, 5))
    while wrong in right or wrong < 2:
        wrong += 1
    return replace(
        row,
        count=wrong,
        count_text=row.count_text.replace(str(row.count), str(wrong), 1) if str(row.count) in row.count_text else f"{wrong} stitches",
    )


def timed(r: random.Random, narration: Narration, *, machine: bool, form: str) -> Narration:
    """The narration with times and as captions: "vtt", "srt", "plain", "rolling"."""
    at = 1.0
    for line in narration.lines:
        words = len(line.text.split())
        length = max(0.8, words / WORDS_A_SECOND)
        text = misheard(r, line.text) if machine else line.text
        for slip in (line.slip, line.before):
            if slip is not None:
                slip.at = at
        pieces = _pieces(text)
        for k, piece in enumerate(pieces):
            start = at + length * k / len(pieces)
            narration.cues.append((start, at + length * (k + 1) / len(pieces), piece))
        if line.slip is not None and line.slip.kind in ("count", "dialect"):
            line.slip.at = at + length * _share(line) - 0.3
        at += length
        if line.after is not None:
            line.after.at = at
        at += r.uniform(0.2, 1.5)
    narration.seconds = at
    narration.captions = _FORMS[form](narration.cues)
    return narration


def _share(line: Line) -> float:
    """How far into a line its wrong word stands: the name, or the number of a count."""
    text = line.text.lower()
    at = text.find(line.wrong) if line.wrong else max((m.start() for m in re.finditer(r"\d+|stitches|stitch", text)), default=0)
    return max(at, 0) / max(len(text), 1)


def _pieces(text: str, most: int = 9) -> list[str]:
    words = text.split()
    return [" ".join(words[k : k + most]) for k in range(0, len(words), most)] or [""]


def _vtt(cues: list[tuple[float, float, str]]) -> str:
    return "WEBVTT\n\n" + "\n".join(f"{clock(a)} --> {clock(b)}\n{text}\n" for a, b, text in cues)


def _srt(cues: list[tuple[float, float, str]]) -> str:
    return "\n".join(f"{k}\n{clock(a, mark=',')} --> {clock(b, mark=',')}\n{text}\n" for k, (a, b, text) in enumerate(cues, 1))


def _plain(cues: list[tuple[float, float, str]]) -> str:
    return "\n".join(f"{int(a) // 60}:{int(a) % 60:02} {text}" for a, _, text in cues) + "\n"


def _rolling(cues: list[tuple[float, float, str]]) -> str:
    """Two lines, the upper one said before; then both again for a blink."""
    out, upper = ["WEBVTT", "Kind: captions", "Language: en", ""], " "
    for a, b, text in cues:
        words = text.split()
        step = (b - a) / max(len(words), 1)
        timed_words = words[0] + "".join(f"<{clock(a + step * k)}><c> {w}</c>" for k, w in enumerate(words[1:], 1)) if words else ""
        out += [
            f"{clock(a)} --> {clock(b - 0.01)} align:start position:0%",
            upper,
            timed_words,
            "",
            f"{clock(b - 0.01)} --> {clock(b)} align:start position:0%",
            text,
            " ",
            "",
        ]
        upper = text
    return "\n".join(out)


_FORMS = {"vtt": _vtt, "srt": _srt, "plain": _plain, "rolling": _rolling}
