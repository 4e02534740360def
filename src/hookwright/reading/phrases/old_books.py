"""Ways of the books of 1840-1880 that no later maker used: chains named by their number, thread by its number, open crochet."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from ...pattern import ONE, RUN, Aside, Chain, Choice, Make, Place, Repeat, Ring, Sized, Skip, Step, Times
from .cursor import Cursor
from .things import THREADS

EXAMPLES = (
    ("4 chain, miss 4, 1 plain in the 4 chain", "ch4, skip4, sc@next ch-4 sp"),
    ("7 plain, and miss 1 in the 7 chain", "sc×7@next ch-7 sp, skip"),
    ("3 long on the 3 centre ones of the 5 long, 5 chain", "skip, dc×3, skip, ch5"),
    ("Single open crochet, with thread No. 40", "[dc, ch1, skip]×rest"),
)


def formed_of_chain(c: Cursor) -> list[Step] | None:
    """ "(The) first treble to be formed of 3 chain": which chain stands for the first of the stitches just told."""
    start = c.i
    c.take("the")
    if c.kind != "o" or c.t[c.i].val != 1 or c.look().kind != "st":
        c.i = start
        return None
    c.i += 2
    words = 0
    made = False
    while c.kind and c.kind != "n" and c.kind not in (",", ";", ".", "(", "*") and words < 7:
        made = made or c.t[c.i].text.lower() in ("formed", "made", "consisting", "composed", "consist", "replaced", "represented")
        c.i += 1
        words += 1
    if not made or c.kind != "n" or c.look().kind != "ch":
        c.i = start
        return None
    c.i += 2
    return [Aside(id=c.id(), span=c.span(start))]


def counted_chain(c: Cursor) -> Place | None:
    """ "(in) the 3 chain (of the last row)": the loop of so many chains; None with the cursor unmoved."""
    start = c.i
    before = c.t[c.i - 1].kind
    by_next = c.ctx.old and before == "next" and c.look().text == "chain" and c.t[c.i - 2].kind not in ("of", "each")
    if c.kind != "n" or not (before == "the" or by_next) or c.look().kind != "ch" or not isinstance(c.t[c.i].val, int) or c.t[c.i].val < 2:
        return None
    if c.look(2).kind in ("noun", "-") or (c.look(2).kind == "n" and c.look(3).kind != "times"):
        return None
    chains = c.t[c.i].val
    c.i += 2
    from .tails import tail

    found = tail(c, f"ch-{chains} sp")
    if c.i == start:
        return None
    return found


def lies_on(c: Cursor) -> bool:
    """Pass over "(5 chain, miss 2, 1 plain;) the plain on the treble": on what the stitches just told come to lie, by those numbers."""
    kind = c.us(str(c.t[c.i].val))
    if not any(isinstance(step, Make) and step.stitch == kind for step in c.out):
        return False
    k = c.i + 1
    while c.t[k].text.lower() in ("are", "is", "being", "come", "comes", "coming", "worked", "always", "to", "be", "fall", "falling"):
        k += 1
    if c.t[k].kind not in ("in", "over", "between") or c.t[k + 1].kind not in ("the", "those"):
        return False
    k += 2
    while c.t[k].kind in _LAIN_ON:
        k += 1
    if c.t[k].kind not in (".", ";", "", ")"):
        return False
    c.i = k
    return True


_LAIN_ON = frozenset("n st ch sp lp group of the last prev row rnd around before noun center".split())  # noqa: SIM905


def skip_in_chain(c: Cursor, step: Skip) -> list[Step] | None:
    """ "7 plain, and miss 1 in the 7 chain": the place is that of the stitches before it."""
    last = c.out[-1] if c.out else None
    if c.kind not in ("in", "on") or not isinstance(last, Make) or last.at != Place():
        return None
    start = c.i
    c.i += 1
    c.take("the")
    place = counted_chain(c)
    if place is None:
        c.i = start
        return None
    c.out[-1] = replace(last, at=place)
    return [step]


def on_centre(c: Cursor) -> list[Step] | None:
    """ "3 long on the 3 centre ones of the 5 long": as many are passed over on either side."""
    start = c.i
    told = c.t[c.i].val
    apart = int(c.ctx.old and c.look(2).kind == ",")  # "4 long, in the centre of the 6 long"
    if c.kind != "n" or c.look().kind != "st" or c.look(2 + apart).kind not in ("in", "over") or not isinstance(told, int):
        return None
    if apart and "center" not in [c.look(k).kind for k in (4, 5, 6)]:
        return None
    stitch = c.us(str(c.look().val))
    c.i += 2 + apart
    middle = on_middle(c, start, stitch, told)
    c.i = start if middle is None else c.i
    return middle


def on_middle(c: Cursor, start: int, stitch: str, told: int) -> list[Step] | None:
    """Past "(3 long) on the 3 centre ones of the 5 long": these stitches, and those passed over on either side. None with the cursor
    unmoved."""
    begin = c.i
    if not c.take("in", "over"):
        return None
    c.take("the")
    if c.ctx.old and (middle := _over_so_many(c, start, stitch, told)) is not None:
        return middle
    as_many = c.kind == "n" and c.t[c.i].val == told
    c.i += as_many
    if told == 1 and c.kind == "last" and (ended := _on_last(c, start, stitch)) is not None:
        return ended
    if not c.take("center"):
        c.i = begin
        return None
    if c.kind == "n" and c.t[c.i].val == told:
        c.i += 1
    c.i += c.kind in ("st", "noun") or c.t[c.i].text.lower() in ("one", "ones")
    many = Sized((told,))
    if as_many and told > 1 and c.kind in _CLOSE:  # "on the 4 centre ones": of however many stand there
        return [Make(id=c.id(), span=c.span(start), stitch=stitch, places=many, at=Place(nth=0))]
    if not c.take("of"):
        c.i = begin
        return None
    c.take("the")
    if c.ctx.old and told > 1 and c.kind == "st" and c.look().kind in _CLOSE:
        c.i += 1  # "4 long in the middle of the long"
        return [Make(id=c.id(), span=c.span(start), stitch=stitch, places=many, at=Place(nth=0))]
    whole = c.t[c.i].val
    named = c.look().kind in ("st", "noun")
    if c.kind != "n" or not (named or (c.ctx.old and c.look().kind in _CLOSE)) or not isinstance(whole, int):
        c.i = begin
        return None
    if whole <= told or (whole - told) % 2:
        c.i = begin
        return None
    c.i += 1 + named
    _of_last_row(c)
    side = Sized(((whole - told) // 2,))
    made = Make(id=c.id(), span=c.span(start), stitch=stitch, places=many)
    return [Skip(id=c.id(), span=c.span(start), number=side), made, Skip(id=c.id(), span=c.span(start), number=side)]


_CLOSE = frozenset((",", ";", ".", "", ")", "*"))


def _of_last_row(c: Cursor) -> None:
    if c.kind == "of" and c.look(1 + (c.look().kind == "the")).kind in ("last", "prev"):
        c.i += 1
        c.drop("the", "last", "prev")
        c.drop("row", "rnd", "around")


def the_so_many(c: Cursor) -> list[Step] | None:
    """ "The 4 treble over 4, 2 chain": so many as are told, over as many."""
    start = c.i
    if not c.ctx.old or c.look().kind != "n" or c.look(2).kind != "st" or c.look(3).kind not in ("over", "in"):
        return None
    c.i += 1
    got = on_centre(c)
    c.i = start if got is None else c.i
    return got


def _over_so_many(c: Cursor, start: int, stitch: str, told: int) -> list[Step] | None:
    """ "5 long over the 7 of last round", "3 plain over the 5": the middle ones of so many; None with the cursor unmoved."""
    begin = c.i
    whole = c.t[c.i].val
    if c.kind != "n" or not isinstance(whole, int) or whole < told or (whole - told) % 2 or told < 2:
        return None
    c.i += 1
    if c.take("st", "noun") and whole == told:
        c.i = begin
        return None
    _of_last_row(c)
    if c.kind not in (",", ";", ".", "", ")", "and"):
        c.i = begin
        return None
    made = Make(id=c.id(), span=c.span(start), stitch=stitch, places=Sized((told,)))
    side = Sized(((whole - told) // 2,))
    beside = [Skip(id=c.id(), span=c.span(start), number=side) for _ in range(2)] if whole > told else []
    return [*beside[:1], made, *beside[1:]]


def _on_last(c: Cursor, start: int, stitch: str) -> list[Step] | None:
    """ "(Miss 8,) 1 plain in the last of the 9 plain": those before it are passed over, once. None with the cursor unmoved."""
    begin = c.i
    c.i += 1
    c.i += c.t[c.i].text.lower() == "one"
    told = c.take("of") is not None
    c.take("the")
    whole = c.t[c.i].val
    if not told or c.kind != "n" or c.look().kind not in ("st", "noun") or not isinstance(whole, int) or c.look(2).kind in ("ch", "in"):
        c.i = begin
        return None
    before = next((step for step in reversed(c.out) if not isinstance(step, (Aside, Chain))), None)
    passed = before.number.values[0] or 0 if isinstance(before, Skip) else 0
    if passed not in (0, whole - 1) or c.run is not None:
        c.i = begin
        return None
    c.i += 2
    made = Make(id=c.id(), span=c.span(start), stitch=stitch)
    return [made] if passed else [Skip(id=c.id(), span=c.span(start), number=Sized((whole - 1,))), made]


def open_crochet(c: Cursor) -> list[Step] | None:
    """ "Single open crochet": one long, one chain, miss one, to the end (from memory: manuals of the 1850s)."""
    start = c.i
    if c.t[c.i].val != "single" or c.look().val != "open":
        return None
    c.i += 2
    if c.t[c.i].val in ("crochet", "stitch"):
        c.i += 1
    body = (
        Make(id=c.id(), span=c.span(start), stitch="dc"),
        Chain(id=c.id(), span=c.span(start), number=ONE),
        Skip(id=c.id(), span=c.span(start), number=ONE),
    )
    return [Repeat(id=c.id(), span=c.span(start), body=body, times=Times(kind="rest"))]


def with_thread(c: Cursor) -> list[Step] | None:
    """ "With thread No. 90", "using cotton No. 12", "with No. 20 cotton": which thread, not how many stitches."""
    start = c.i
    if c.kind not in ("with", "in"):
        return None
    c.i += 1
    named = c.t[c.i].val in THREADS
    c.i += named
    numbered = c.t[c.i].text.lower() in ("no", "nos", "number", "size")
    c.i += 1
    c.drop(".", "n", "and")
    after = c.t[c.i].val in THREADS
    c.i += after
    if not numbered or not (named or after or c.kind in (",", ";", "") or c.t[c.i - 1].kind == "."):
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start))]


def wound_ring(c: Cursor) -> list[Step] | None:
    """ "Wind the thread 12 times round a pencil, slip it off, and into the ring thus formed work 20 dc": a ring of thread, the piece's
    beginning. The cursor then stands before what goes into it."""
    start = c.i
    if not is_wound(c):
        return None
    while c.kind not in ("ring", "mring", "."):
        c.i += 1
    if c.kind == ".":
        c.i = start
        return None
    c.i += 1
    while c.t[c.i].text.lower() in ("thus", "so", "formed", "made", "work", "make", "put"):
        c.i += 1
    c.in_ring = True
    return [Ring(id=c.id(), span=c.span(start))]


def is_wound(c: Cursor) -> bool:
    """Whether a ring of thread is wound here, before anything is worked."""
    if not c.ctx.begins or c.t[c.i].val not in ("wind", "wrap", "twist", "winding", "twine"):
        return False
    words = [c.look(k) for k in range(1, 40)]
    near = {str(word.val) for word in words[:4]} | {word.kind for word in words[:4]}
    stop = next((k for k, word in enumerate(words) if word.kind in (".", "")), len(words))
    return bool(near & {*THREADS, "color", "yarn", "padding"}) and any(word.kind in ("ring", "mring") for word in words[:stop])


def chains_pass_over(step: Step, id_of: Callable[[], int], rounds: bool = False) -> Step:
    """ "5 chain, 7 long": where a unit tells nothing to be missed, each chain lies over as many stitches as it has (from memory)."""
    if not isinstance(step, Repeat) or step.times.kind != "rest":
        return step
    missed = {one.span for one in step.body if isinstance(one, Skip)}
    on_its_centre = any(isinstance(one, Make) and one.span in missed for one in step.body)  # "on the 3 centre ones of the 5 long"
    only_made = all(isinstance(one, (Make, Aside)) for one in step.body)  # "2 plain in 1, 2 plain" over open work: chains are stitches
    if (missed or only_made) and not on_its_centre and all(map(_bare, step.body)):
        return replace(step, body=tuple(map(_whatever_lies_under, step.body)))
    if not all(
        isinstance(one, (Chain, Aside)) or (isinstance(one, Make) and one.at == Place() and one.places != "rest") for one in step.body
    ):
        return step
    if not any(isinstance(one, Make) for one in step.body):
        return step
    body: list[Step] = []
    for one in step.body:
        # the rows are squares of stitches and chains: what lies under is counted off, whatever it is
        body.append(replace(one, at=Place(what="any")) if isinstance(one, Make) else one)
        if isinstance(one, Chain):
            body.append(Skip(id=id_of(), span=one.span, number=one.number, what="any"))
    passed = replace(step, body=tuple(body))
    if not rounds:
        return passed
    return Choice(id=id_of(), span=step.span, question=CHAINS_LIE_OVER, answers=((step,), (passed,)))  # a round grows by its chains


def _bare(step: Step) -> bool:
    """A chain, a stitch or a miss of so many, no place told but upon what the stitches lie."""
    if isinstance(step, Make):
        return (step.at == Place() or step.at.of == RUN) and step.places != "rest"
    return isinstance(step, (Chain, Aside)) or (isinstance(step, Skip) and step.what == "st" and not step.row)


def _whatever_lies_under(step: Step) -> Step:
    """ "One long, one chain, miss one" over open work: stitches and chains are counted off alike (from memory)."""
    if isinstance(step, Make):
        return step if step.at.of == RUN else replace(step, at=Place(what="any"))
    return replace(step, what="any") if isinstance(step, Skip) else step


CHAINS_LIE_OVER = "Do the chains of a unit lie over as many stitches?"
