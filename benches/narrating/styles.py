"""Styles of speaking: how a row is announced, its work told, its count given; what is said between. Tuned ones, and ones held out.

# ruff: noqa: E501

The held-out styles were written after the tuned ones had been worked on, and nothing was changed for them.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from dataclasses import dataclass

from hookwright.teaching.speech import aloud, number_words, ordinal_words

from .rows import ToSay


@dataclass(frozen=True)
class Style:
    """`announce`, `tell`, `count` make sentences; `between` are digressions and how often; `opening`, `closing` frame the film."""

    name: str
    announce: Callable[[random.Random, ToSay], str]
    tell: Callable[[random.Random, ToSay, list[str]], list[str]]
    count: Callable[[random.Random, ToSay], str]
    opening: tuple[str, ...] = ()
    closing: tuple[str, ...] = ()
    between: tuple[str, ...] = ()
    often: float = 0.0
    figures: bool = False
    uk: bool = False
    corrects: bool = False
    part: str = "now for the {part}"


def _n(n: int) -> str:
    return number_words(n)


def _rows(row: ToSay, *, to: str = "to") -> str:
    if row.first == row.last:
        return f"{row.noun} {_n(row.first)}"
    return f"{row.noun}s {_n(row.first)} {to} {_n(row.last)}"


def _sub(text: str, *pairs: tuple[str, str]) -> str:
    for pattern, put in pairs:
        text = re.sub(pattern, put, text)
    return text


# ---------------------------------------------------------------- tuned styles
def _precise_tell(r: random.Random, row: ToSay, clauses: list[str]) -> list[str]:
    return [f"{c[0].upper()}{c[1:]}." for c in clauses]


PRECISE = Style(
    name="precise",
    announce=lambda r, row: f"{_rows(row).capitalize()}.",
    tell=_precise_tell,
    count=lambda r, row: f"You now have {row.count_text}.",
    opening=("Hello, and welcome.", "Today we make this piece from the beginning to the end."),
    closing=("That is the whole of it.", "Weave in your ends."),
)


def _chatty_tell(r: random.Random, row: ToSay, clauses: list[str]) -> list[str]:
    joined = [_sub(c, (r"^chain (\d+)$", r"chain up \1")) for c in clauses]
    out, at = [], 0
    while at < len(joined):
        n = r.choice((1, 2, 2, 3))
        out.append(
            r.choice(("so we're going to ", "and then you want to ", "okay now ", "just ", "then "))
            + " and then ".join(joined[at : at + n])
            + "."
        )
        at += n
    return out


CHATTY = Style(
    name="chatty",
    announce=lambda r, row: r.choice(
        ("Alright so let's move on to {rows}.", "Okay, {rows}, here we go.", "So for {rows} it's really easy.", "Let's jump into {rows} you guys.")
    ).format(rows=_rows(row)),
    tell=_chatty_tell,
    count=lambda r, row: r.choice(
        ("And when you count, you should have {n} stitches.", "So that should give you a total of {n} stitches.", "And we've got {n} stitches all the way across.",
         "You'll want to have {n} stitches at the end there.")
    ).format(n=_n(row.count)),
    opening=("Hey everybody, welcome back to my little yarn room.", "I'm so excited to share this one with you.", "If you're new here, I have two cats and they will probably show up."),
    closing=("And that's it, you did it!", "Let me know in the comments which colour you picked.", "See you next time, bye!"),
    between=("My cat just jumped on the table, sorry about that.", "I remember making my first scarf when I was twelve and it was a disaster.", "I've been drinking way too much coffee today, like four cups.",
             "If your yarn splits, just be patient with it.", "My grandmother taught me double crochet when I was six years old.", "It took me about twenty minutes to find this hook."),
    often=0.5,
)  # fmt: skip


def _short_tell(r: random.Random, row: ToSay, clauses: list[str]) -> list[str]:
    short = [
        _sub(
            c, (r"half double crochet", "hdc"), (r"single crochet", "sc"), (r"double crochet", "dc"), (r"\bchain (\d)", r"ch \1"), (r"\bthe ", ""),
            (r"in each stitch across", "across"), (r"in each stitch around", "around"), (r"slip stitch", "sl st"),
        )
        for c in clauses
    ]  # fmt: skip
    return [", ".join(short) + "."]


SHORTHAND = Style(
    name="shorthand",
    announce=lambda r, row: (
        f"{row.noun.capitalize()} {row.first}." if row.first == row.last else f"{row.noun.capitalize()}s {row.first} to {row.last}."
    ),
    tell=_short_tell,
    count=lambda r, row: f"{row.count} stitches.",
    figures=True,
)


def _uk_tell(r: random.Random, row: ToSay, clauses: list[str]) -> list[str]:
    return [r.choice(("Right, ", "So, ", "Lovely. ", "Now, ")) + ", ".join(clauses) + "."]


UK = Style(
    name="UK speaker",
    announce=lambda r, row: r.choice(("On to {rows}.", "{rows} now.", "For {rows} then.")).format(rows=_rows(row)).capitalize(),
    tell=_uk_tell,
    count=lambda r, row: r.choice(("That's {n} stitches in total.", "And that leaves you with {n} stitches.", "Count them up, there should be {n} stitches.")).format(n=_n(row.count)),
    opening=("Hello, I'm using UK terms throughout this film.", "Do put the kettle on before we start."),
    closing=("And there we are, all done.",),
    between=("Mind the tension here, it's easy to pull too tight.",),
    often=0.2,
    uk=True,
)  # fmt: skip

CORRECTING = Style(
    name="corrects herself",
    announce=lambda r, row: r.choice(("Next is {rows}.", "This is {rows}.", "{rows}.")).format(rows=_rows(row)).capitalize(),
    tell=lambda r, row, clauses: [", then ".join(clauses).capitalize() + "."],
    count=lambda r, row: r.choice(("So we end up with {n} stitches.", "You should be at {n} stitches.", "That makes {n} stitches.")).format(n=_n(row.count)),
    opening=("Hi there, thanks for joining me.",),
    closing=("Thank you for watching.",),
    between=("Let me just move the camera a little.", "Where was I."),
    often=0.3,
    corrects=True,
)  # fmt: skip

AUTO = Style(
    name="auto-captions",
    announce=lambda r, row: r.choice(("okay so {rows}", "now we're on {rows}", "so {rows} we're gonna", "and now {rows}")).format(rows=_rows(row)),
    tell=lambda r, row, clauses: [r.choice(("you're gonna ", "we're going to ", "just ", "go ahead and ")) + " and ".join(clauses)],
    count=lambda r, row: r.choice(("so you should have {n} stitches", "and that'll give you {n} stitches", "you should now have {n} stitches total", "so there's {n} stitches")).format(n=_n(row.count)),
    opening=("hey guys welcome back to my channel", "today we're making something really cute"),
    closing=("alright that's it thanks for watching", "don't forget to subscribe"),
    between=("um let me just", "i hope you can see that okay", "um yeah so"),
    often=0.3,
)  # fmt: skip

TUNED = (PRECISE, CHATTY, SHORTHAND, UK, CORRECTING, AUTO)

# ---------------------------------------------------------------- held out: written last, nothing was changed for them
QUESTIONS = Style(
    name="asks questions",
    announce=lambda r, row: r.choice(("What happens in {rows}?", "Are you ready for {rows}?", "So what do we do with {rows}?", "Anyone still with me? Good, {rows}.")).format(rows=_rows(row)),
    tell=lambda r, row, clauses: ["Well, we " + ", and after that ".join(clauses) + "."],
    count=lambda r, row: r.choice(("How many is that? It's {n}.", "How many stitches do we have? {N} stitches.", "Did you get {n} stitches? I did.")).format(n=_n(row.count), N=_n(row.count).capitalize()),
    opening=("Have you ever wanted to make one of these?",),
    closing=("Wasn't that easy?",),
    between=("Do you see how neat that looks?", "Can you hear the rain outside?"),
    often=0.3,
)  # fmt: skip

ORDINAL = Style(
    name="ordinals, calm",
    announce=lambda r, row: (
        f"And now the {ordinal_words(row.first)} {row.noun}." if row.first == row.last else f"From the {ordinal_words(row.first)} {row.noun} to the {ordinal_words(row.last)} {row.noun}."
    ),
    tell=lambda r, row, clauses: ["Gently, " + ", followed by ".join(clauses) + "."],
    count=lambda r, row: r.choice(("Your stitch count is {n}.", "The total is {n}.", "{N} stitches lie on your lap.")).format(n=_n(row.count), N=_n(row.count).capitalize()),
    opening=("Take a deep breath, and find a comfortable chair.",),
    closing=("Rest your hands.",),
    between=("There is no hurry.", "Feel the yarn run through your fingers."),
    often=0.3,
)  # fmt: skip

CLASSROOM = Style(
    name="classroom",
    announce=lambda r, row: r.choice(("Everybody, eyes on {rows}.", "Please turn to {rows} on your sheet.", "We are working {rows}.", "{rows}, everyone.")).format(rows=_rows(row, to="through")).capitalize(),
    tell=lambda r, row, clauses: [f"Step {_n(k)}: {c}." for k, c in enumerate(clauses, 1)],
    count=lambda r, row: r.choice(("Check yourself: {n} stitches.", "If you do not have {n} stitches, raise your hand.", "Write down {n} stitches on your sheet.", "The answer is {n}.")).format(n=_n(row.count)),
    opening=("Good morning, class.", "There are eleven of you today."),
    closing=("Class dismissed.",),
    between=("Yes, Marta, you may use a bigger hook.", "We have ten minutes left."),
    often=0.3,
)  # fmt: skip

VOICEOVER = Style(
    name="voice-over",
    announce=lambda r, row: r.choice(("{rows} begins.", "Here {rows} is worked.", "{rows} follows.", "On the needle of the counter: {rows}.")).format(rows=_rows(row)).capitalize(),
    tell=lambda r, row, clauses: ["One works " + "; ".join(clauses) + "."],
    count=lambda r, row: r.choice(("The {noun} closes with {n} stitches.", "It holds {n} stitches.", "{N} stitches result.", "The count now stands at {n}.")).format(noun=row.noun, n=_n(row.count), N=_n(row.count).capitalize()),
    opening=("This film shows the making of one piece.",),
    closing=("The piece is finished.",),
)  # fmt: skip

SECOND = (QUESTIONS, ORDINAL, CLASSROOM, VOICEOVER)
"""First held out; their misses were then looked at, and what they showed in general (not their words) was mended."""

# ---------------------------------------------------------------- held out for good: nothing was changed for them
FRIEND = Style(
    name="to a friend",
    announce=lambda r, row: r.choice(("Ready? {rows}.", "So, {rows}, same idea.", "And {rows}, we can do this.", "Quick sip of tea, then {rows}.")).format(rows=_rows(row)),
    tell=lambda r, row, clauses: [f"I {r.choice(('always', 'just', 'simply'))} do this: " + "; ".join(clauses) + ".", "See?"],
    count=lambda r, row: r.choice(("Mine came to {n} stitches.", "I counted twice, {n} stitches both times.", "You and I both have {n} now.", "{N} stitches, on the dot.")).format(n=_n(row.count), N=_n(row.count).capitalize()),
    opening=("Come in, sit down.", "I saved you two biscuits."),
    closing=("Look at that, we finished.",),
    between=("My sister called three times today.", "This yarn smells of sheep, I love it.", "Where did I put my glasses?"),
    often=0.4,
)  # fmt: skip

MANUAL = Style(
    name="manual",
    announce=lambda r, row: f"Instruction for {_rows(row)}:",
    tell=lambda r, row, clauses: [f"{'First' if not k else 'Then'}, {c}." for k, c in enumerate(clauses)],
    count=lambda r, row: r.choice(("Result: {n} stitches.", "Expected count: {n}.", "Verify a total of {n} stitches before proceeding.", "End count {n}.")).format(n=_n(row.count)),
)  # fmt: skip

PODCAST = Style(
    name="podcast",
    announce=lambda r, row: r.choice(("which brings us to {rows} and", "then comes {rows} where", "moving along to {rows} and here", "now {rows} is where")).format(rows=_rows(row)),
    tell=lambda r, row, clauses: [r.choice(("what you do is ", "basically you ", "all that happens is you ")) + " plus ".join(clauses)],
    count=lambda r, row: r.choice(("so count those up and it comes to {n} stitches", "which is {n} stitches if you did it right", "and voila {n} stitches", "we're looking at {n} stitches")).format(n=_n(row.count)),
    opening=("what's up crafty people", "episode forty seven today"),
    closing=("and that was that folks",),
    between=("i was at the market on saturday and bought three lemons", "you know what i mean", "honestly my hands are tired"),
    often=0.4,
)  # fmt: skip

HELD_OUT = (FRIEND, MANUAL, PODCAST)


def voiced(style: Style, sentence: str) -> str:
    """A sentence as the style writes its numbers."""
    return sentence if style.figures else aloud(sentence)
