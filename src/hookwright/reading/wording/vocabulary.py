"""The words of the craft in English, as data: how each is written and what class of word it is.

A line of `_WORDS` is `kind [value] : spelling, spelling, …`. A spelling of several words matches with blanks,
    hyphens or full stops of
abbreviations between them. Stitch names are kept as written ("dc" may be US or UK); `terms.py` says what they mean.
Sources: the abbreviation lists cited in trade/data, and common practice in print since 1840 (no single source).
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any, TypeAlias

_STITCHES = """
sl st : sl st, slst, sl sts, slip st, slip sts, slip stitch, slip stitches, slip stitched, ss, sl, slip stitching, slips,
    slip, s s, sl stitch, sl stitches, slip loop, slipstitch, slipstitches
sc : sc, s c, single crochet, single crochets, scs, scc, sgl crochet, single croc, sing crochet, standing sc, standing single crochet,
    standing single, loop stitch, loop stitches, loop st, loop sts, lp st, lp sts, fur stitch, fur st
hdc : hdc, h d c, half double crochet, half double crochets, half double, half dc, half d c, hdcs, short double crochet,
    short double crochets, short double, short d c, short dc, s d c, sdc, half doubles, hlf dc, h dc, hhdc,
    long hdc, elongated hdc,
    herringbone hdc, herringbone half double crochet, herringbone half double, standing hdc, standing half double crochet
dc : dc, d c, double crochet, double crochets, dcs, double, doubles, dbl crochet, dbl croc, dble crochet, dbl c,
    ldc, linked dc, linked double crochet, standing dc, standing double crochet, long dc, long d c, long double crochet, elongated dc,
    dropped dc,
    drop dc
htr : htr, h tr, half treble, half trebles, half treble crochet, half treble crochets, h tr c, half tr, htc
tr : tr, tr c, treble, trebles, treble crochet, treble crochets, trc, triple crochet, triple crochets, trs, tc, triple, t c,
    treb, trbl, tr crochet, ltr, linked tr, linked treble, linked treble crochet, standing tr, standing treble,
    long tr, elongated tr, dropped tr, drop tr
dtr : dtr, d tr, d tr c, double treble, double trebles, double treble crochet, dbl tr, dbl treble, double triple,
    double triple crochet, dtrc, double tr, dbl tr c
trtr : trtr, tr tr, tr tr c, triple treble, triple trebles, triple treble crochet, ttr, treble treble
qtr : qtr, quad tr, quadtr, quadruple treble, quad treble, quadruple treble crochet
esc : esc, ext sc, extended single crochet, extended sc
ehdc : ehdc, ext hdc, extended half double crochet, extended hdc
edc : edc, ext dc, extended double crochet, extended dc
ehtr : ehtr, extended half treble
etr : etr, extended treble, extended tr
fsc : fsc, foundation single crochet, foundation sc, fnd sc, sc foundation
fhdc : fhdc, foundation half double crochet, foundation hdc
fdc : fdc, foundation double crochet, foundation dc
fhtr : fhtr, foundation half treble
ftr : ftr, foundation treble, foundation treble crochet, foundation tr
rsc : rsc, reverse sc, reverse single crochet, rev sc, crab st, crab stitch, reverse sc st, crab stitches
spike : spike, spike st, spike stitch, spike sc, spike stitches, spike sts, long sc, long s c, long single crochet, elongated sc
plain : plain, plain st, plain stitch, plain stitches, plain crochet
long : long, long st, long stitch, long crochet, long stitches, long treble, longs
xlong : extra long
fpsc : fpsc, front post sc, front post single crochet, fp sc
fphdc : fphdc, front post hdc, front post half double crochet, fp hdc
fpdc : fpdc, front post dc, front post double crochet, fp dc, front post double crochets, fpdcs, front dc, front raised dc
fptr : fptr, front post tr, front post treble, front post treble crochet, fp tr, fptrc, fptrs, front raised tr,
    raised treble front, rtrf, front raised treble
fpdtr : fpdtr, front post dtr, front post double treble, fp dtr, rdtrf, raised double treble front
fphtr : fphtr, front post htr, front post half treble, raised half treble front
bpsc : bpsc, back post sc, back post single crochet, bp sc
bphdc : bphdc, back post hdc, back post half double crochet, bp hdc
bpdc : bpdc, back post dc, back post double crochet, bp dc, bpdcs, back dc, back raised dc
bptr : bptr, back post tr, back post treble, back post treble crochet, bp tr, bptrc, bptrs, back raised tr,
    raised treble back, rtrb, back raised treble
bpdtr : bpdtr, back post dtr, back post double treble, bp dtr, rdtrb
bphtr : bphtr, back post htr, back post half treble, raised half treble back
knot st : love knot, love knots, lover's knot, lover's knots, lovers knot, lovers knots, true lover's knot, true lover's knots,
    solomon's knot, solomon's knots, solomon knot, solomon knots, solomons knot, solomons knots, knot st, knot sts, knot stitch,
    knot stitches, love knot st, love knot stitch
tss : tss, tunisian simple stitch, tunisian simple stitches, tunisian simple, afghan st, afghan stitch, afghan sts, afghan stitches
tks : tks, tunisian knit stitch, tunisian knit stitches, tunisian knit
tps : tps, tunisian purl stitch, tunisian purl stitches, tunisian purl, purl afghan st, purl afghan stitch, purl afghan sts,
    purl afghan stitches, afghan purl st, afghan purl stitch, afghan purl sts, afghan purl stitches, purl tunisian st,
    purl tunisian stitch, purl tunisian sts, purl tunisian stitches, purl tricot st, purl tricot stitch, purl tricot sts,
    purl tricot stitches, tricot purl st, tricot purl stitch, tricot purl sts, tricot purl stitches
trs : tunisian reverse stitch, tunisian reverse
tfs : tfs, tunisian full stitch, tunisian full
tes : tes, tunisian extended stitch, tunisian extended
bsc : blsc, bsc
flsc : flsc
bhdc : blhdc, bhdc
bdc : bldc, bdc
"""

_GROUPS = """
cl : cl, cls, cluster, clusters, cluster st, cluster stitch, clst
bobble : bobble, bobbles, bo, bob, bobble st, bobble stitch, mb
puff : puff, puffs, puff st, puff sts, puff stitch, puff stitches, pf st
popcorn : popcorn, popcorns, pc, pc st, popcorn st, popcorn stitch, pop st, popcorn sts, pcs, pop, pc sts
star : star st, star stitch
bullion : bullion, bullions, bullion st, bullion sts, bullion stitch, bullion stitches, roll st, roll sts, roll stitch, roll stitches
shell : shell, shells, shell st, shell stitch, sh
V-st : v, v st, v stitch, v sts, vst, v stitches, vs, v-st
picot : picot, picots, p, ps, pic
fan : fan, fans
petal : petal, petals, leaf
cable : cable, cables
beg shell : beginning shell, beg shell, starting shell, beg sh, beginning sh
"""

_WORDS = """
pass forward : forward pass, fwp, fwdp, fwd pass
pass back : return pass, retp, rtn pass, work return pass, work the return pass, complete return pass, complete with return pass,
    work a return pass, standard return pass
ch : ch, chs, chain, chains, chain st, chain sts, chain stitch, chain stitches, ch st, ch sts, ch stitch, foundation chain,
    foundation ch, base chain, base ch, commencing chain, ch stitches,
    chn, chaining, chained
skip : skip, sk, miss, skp, skips, missing, skipping, ignoring, skipped, misses, missed, leave out, pass over, pass by, passing over
turn : turn, turning, trn, turn work, turn the work, turn your work, turn piece, flip, turned
join : join, joins, jn, joined, joining, close, closing, jng, unite, united, unites
rep : repeat, rep, rpt, reps, repeats, repeating, repeated, rpts
inc : inc, incs, inc'ing, increase, increases, incr, increasing, increased, inc st, widen, widening, widenings, widened, increasings
dec : dec, decs, dec'ing, decrease, decreases, decr, invdec, inv dec, invisible decrease, decreasing, invisible dec, dcr,
    invisible decreases, idec, sc dec, dec st, lose, losing, decreased, decreasings, narrowing, narrowings, narrowed
foff : fasten off, finish off, fo, end off, tie off, break off, cut yarn, break yarn, cut thread, break thread, bind off,
    fasten and cut, cut the yarn, fastening off, break wool, cut off, cut wool, break cotton, cut cord, break cord,
    fasten down, f o, f off, break the yarn, break the thread, fastened off, break the wool, fasten off yarn, cut the thread,
    cut off yarn, end yarn, fastenoff, fasten it off, tie off yarn
tog : tog, together, tg
in : in, into, inside, onto, on, within, ino, inn, upon
over : over, through, thru, thro
over off : work off, works off, working off, worked off
around : around, round, all around, all the way around, all the way, all the way round, the whole way round, right around,
    rounds about, all round, arnd, ard, about
across : across, accross, acros, along row, across row, all the way across, the whole way across, all the way along,
    whole length, entire length, the whole length, the entire length, the whole row, the entire row, the whole of the row
along : along, up, down
along : up along, down along, over ends of, along ends of
from : from, frm, off
of : of
at : at
to : to, ot, onto the
until : until, till, til, untill
with : with, w, using, wth
without : without
by : by
between : between, bet, betw, btwn, btw, in between
under : under, underneath
behind : behind
before : before
after : after
above : above
below : below, beneath
for : for, for the
as : as, like
than : than
and : and, plus, also, as well as
or : or
but : but, except, however
then : then, now, next work, and then, immediately
the : the, this, these, those, that, your, its, their, another, it
a : a, an
each : each, every, ea, evry, each and every, each and ev, each of the, ever, per
all : all, both all, everything that left, everything that is left, everything left, everything else, all that left,
    all that is left, all that are left, what left, what is left, everything
both : both
any : any
next : next, nxt, following, foll, fol, follwing, succeeding, ensuing, folg, nex, nx, consecutive
last : last, final, previous last, lst last
same : same, sm
rem : remaining, rem, remainder, rest, remain, remains, left, remg
other : other, others
alt : alternate, alt, alternating, alternately, altn
prev : previous, prev, preceding, prec, prior, foregoing
center : center, centre, middle, mid, ctr, cent
beg : beginning, beg, begin, commence, commencing, commences, commenced,
    commencement, start, starting, initial, begins, begg, starts, opening, began
half : half
noun : vertical bar, vertical bars, front vertical bar, front vertical bars,
    st, sts, stitch, stitches, sitches, stich, stiches, sthe, stitchs, stithes
sp : sp, sps, space, spaces, spc, gap, gaps, spcs, window, windows
lp : lp, lps, loop, loops, arch, arches, arc, arcs
mesh : mesh, meshes, msh, hole, holes, square hole, eyelet, eyelets
group : group, groups, grp, gr, grps, set, sets, scallop, scallops, pair, pairs, motif, motifs, blk, tile, tiles, medallion, medallions,
    flower, flowers, strip, strips
ring : ring, circle, rng
mring : magic ring, mr, magic circle, adjustable ring, magic loop, magic rng, mc ring, sliding loop, sliding ring, m r,
    adjustable loop, adj ring, adj loop, adj lp, adj circle,
    double ring, amigurumi ring, slip ring, magical ring, magicring, adjustable magic ring
hook : hook, hk, needle
row : row, rows, rw
rnd : rnd, rnds, rds, rd, rounds
tch : turning ch, turning chain, tch, t ch, turn ch, tc, turning chains, beg ch, beginning chain, beginning ch,
    starting chain, starting ch, turnch, start ch, initial ch, initial chain, start chain, first chain, t chain, begch, st ch,
    joining chain
base : base, foot, bottom
top : top, tip, head, peak, point, eye
side : side, sides, edge, edges
ends : rows end, rows ends, rows edge, ends of rows, row ends, row end, end of rows, ends of row, end of each row,
    end of every row, side of rows, sides of rows, end sts of rows
corner : corner, corners, cor, spine, spines
marker : marker, markers, marked st, marked stitch, marked
place : place, placing, pl, position, spot
bar : bar, bars, strand, strands, upright, uprights, upright thread, upright threads, upright bar, upright bars
tail : tail
piece : piece, pieces, the work, section, segment
times : times, time, tms
once : once, twice, thrice
more : more, additional, addl, again, extra, further
total : total, in all, altogether, in total, all told, totally, total of, all together
even : work even, work straight, go straight, keep straight, go on straight, carry on straight, continue straight, even,
    straight, evenly, evenly spaced, plainly, evenly across, even over
patt : pattern, patt, pat, ptn, patts, patterns, established pattern, stitch pattern,
    stripe sequence, stripe pattern, striping pattern, stripe patt, color sequence, colour sequence, color pattern, colour pattern
counts : counts, count, counted, counting, acts, stands, stand, equals, equal, is, makes, represents, make up, serves, considered,
    counts now, forms, replaces
not : not, doesn't, don't, does not, do not, dont, doesnt, didn't, never, isn't, won't, no, don t
leave : leave, leaving, leaves
unworked : unworked, unwkd, unused, un-worked
work : work, make, do, crochet, wk, working, making, crocheting, mk, worked, put, place, makes, crocheted, wkg, cast on,
    stitch in, putting, dial
cont : continue, cont, continuing, con, proceed, keep, carry on
ending : ending, finishing
end : end, ends, ended, finish, finishes
having : having, always, keeping
sides : right side, rs, wrong side, ws, right sides, wrong sides
loop back : back loop only, back loops only, blo, back lp only, back lps only, back loop, back loops, back lp, back lps,
    back half, back thread, back threads, back threads only,
    back thread only, bl only, back strand, in back loop only, back part, bk lp, bk loop, bk lps, bk lp only, b lp, back loops alone,
    back of loop, tbl, bls only, back ridge, blp, back lo, bl of, bls of
loop front : front loop only, front loops only, flo, front lp only, front lps only, front loop, front loops, front lp,
    front lps, front half, front thread, front threads, front threads only,
    front thread only, fl only, front strand, fl, fls only, flp, front of loop, front part, ft lp
loop both : both loops, both lps, both lps only, both loops only, both threads
loop third : third loop, third loop only, 3rd loop, 3rd lp, third lp, back bump, back bumps, bumps, bottom loop,
    3rd loop only, back bar, third loops, horizontal bar, horizontal bar below the loops, horizontal bar below the top loops,
    horizontal bar under the loops, horizontal bar below the v, horizontal bar behind the loops, loop behind the back loop,
    lp behind the back lp, loop below the back loop, camel loop, camel loops
loop free_front : free front loop, free front loops, free front lp, free front lps, unused front loop, unused front loops,
    unworked front loops, unworked front loop, remaining front loops, rem front lps, free front strand, remaining front loop,
    exposed front loops, leftover front loops
loop free_back : free back loop, free back loops, free back lps, free back lp, unworked back loops, unused back loops
post : post, posts, pst, stem of, stems of
free : free, empty, open, exposed
raised : raised
front : front
back : back
opp : opposite side, other side, opp side, underside, opposite edge, lower edge, bottom loops, second side, opposite sides,
    bottom of, other edge of the chain, other edge of chain, other edge of the ch, other edge of the foundation chain,
    other edge of the starting chain, other edge of your chain
attach : attach, tie on, tie in, rejoin, re-join, join in again, join on again,
    fasten on, reattach, start new, fasten in, re-attach, attaching, attached,
    fasten the thread to, fasten the thread in, fasten the thread into, fasten the thread on, fasten the thread at,
    fasten the cotton to, fasten the cotton in, fasten the cotton into, fasten the cotton on, fasten the cotton at,
    fasten the wool to, fasten the wool in, fasten the wool into, fasten the wool on, fasten the wool at, fasten thread to,
    fasten thread in, fasten thread into, fasten thread on, fasten thread at, fasten cotton to, fasten cotton in,
    fasten cotton into, fasten cotton on, fasten cotton at, fasten wool to, fasten wool in, fasten wool into, fasten wool on,
    fasten wool at, fasten the yarn to, fasten the yarn in, fasten the yarn into, fasten the yarn on, fasten the yarn at,
    fasten yarn to, fasten yarn in, fasten yarn into, fasten yarn on, fasten yarn at
change : change, switch, changing, chg, change color, change colour, switching, change colors, change colours, color change,
    colour change, swap, swapping, swap color, swap colour, swap colors, swap colours, switch color, switch colour, switch colors,
    switch colours, changed
drop : drop, dropping, leave off, leaving off
pick : pick up, pickup, picking up
carry : carry, carrying
color : color, colour, yarn, shade, colors, colours, yarns, thread, strand of, col, clr, wool
stuff : stuff, stuffing, fill, filling, fiberfill
counter : stitch count, st count, stitch counts, count is
yo : yo, y o, yarn over the hook, yarn over, yoh, wrap yarn, thread over, yarn round hook, yrh, yarn over hook, wool over,
    throw thread over, thread over hook, yon, wrap, yarn round needle, yo hook, wool round hook
pull : pull, draw, drawing, pulling, pull up, draw up, pulled, bring, drawn
insert : insert, inserting
reversing : reversing, reverse, reversed
multiple : multiple, multiples
measures : measures, measure, measuring
shaping : shaping, shape, shapings
"""

NUMBERS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11,
    "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
    "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90, "hundred": 100,
    "dozen": 12,
}  # fmt: skip

_ORDINALS = {
    "first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8, "ninth": 9, "tenth": 10,
    "eleventh": 11, "twelfth": 12, "thirteenth": 13, "fourteenth": 14, "fifteenth": 15, "sixteenth": 16, "seventeenth": 17,
    "eighteenth": 18, "nineteenth": 19, "twentieth": 20, "thirtieth": 30, "2ad": 2, "1rst": 1, "le": 1,
}  # fmt: skip

# Words that change nothing that is counted: how to work, not what. Skipped inside an instruction.
_IDLE = """
in-succession
loosely tightly carefully neatly firmly slightly gently very just only again simply still please note quickly snugly somewhat well
first-time too more-or-less directly right left hand there here you should will can may be now have has been which where when
actually basically usually normally approximately also yet their them they one's if need needed necessary desired
required finally instead same-way thus ok okay securely temporarily securely closely regularly only. one another gather lightly
rather also each-time slip-knot slipknot slip-loop-on-hook completely entirely
close-together close-to-each-other closely-together
ordinary usual forward throughout ways way previously newly
""".split()  # noqa: SIM905

# Words that decide a number or a place: never skipped silently when unknown grammar surrounds them.
Entry: TypeAlias = tuple[str, Any]
Trie: TypeAlias = dict[str, tuple[tuple[tuple[str, ...], str, Any], ...]]


def _split(spelling: str) -> tuple[str, ...]:
    return tuple(spelling.replace("-", " ").split())


def _lines(table: str) -> list[str]:
    """The lines of a table; one that begins with blanks goes on with the line before."""
    return re.sub(r"\n\s+", " ", table.strip()).splitlines()


def _entries() -> dict[tuple[str, ...], Entry]:
    entries: dict[tuple[str, ...], Entry] = {}
    for table, kind in ((_STITCHES, "st"), (_GROUPS, "grp")):
        for line in _lines(table):
            value, spellings = line.split(" : ", 1)
            for spelling in spellings.split(","):
                entries.setdefault(_split(spelling.strip()), (kind, value.strip()))
    for words, (kind, value) in list(entries.items()):
        if kind == "grp" and value not in ("picot", "shell", "beg shell"):
            for begins in ("beg", "beginning", "starting"):
                entries.setdefault((begins, *words), (kind, value))  # a round's first cluster is a cluster, whatever chain it begins with
    for line in _lines(_WORDS):
        head, _, spellings = line.partition(" :")
        kind, _, value = head.strip().partition(" ")
        for spelling in spellings.split(","):
            if spelling.strip():
                entries.setdefault(_split(spelling.strip()), (kind, value or spelling.strip()))
    for word, number in NUMBERS.items():
        entries[(word,)] = ("n", number)
        for unit in ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine"):
            if number in range(20, 100, 10):
                entries[(word, unit)] = ("n", number + NUMBERS[unit])
    for word, number in _ORDINALS.items():
        entries[(word,)] = ("o", number)
    for tens in ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty"):
        for unit, number in list(_ORDINALS.items())[:9]:
            entries[(tens, unit)] = ("o", NUMBERS[tens] + number)
    for word in _IDLE:
        entries.setdefault(_split(word), ("idle", word))
    return entries


def as_trie(entries: dict[tuple[str, ...], Entry]) -> Trie:
    """Entries by their first word, longest first."""
    trie: dict[str, list[tuple[tuple[str, ...], str, Any]]] = {}
    for words, (kind, value) in entries.items():
        trie.setdefault(words[0], []).append((words[1:], kind, value))
    return {word: tuple(sorted(found, key=lambda one: -len(one[0]))) for word, found in trie.items()}


@lru_cache(maxsize=1)
def base_entries() -> dict[tuple[str, ...], Entry]:
    """Every spelling known before a pattern is opened."""
    return _entries()


@lru_cache(maxsize=1)
def base_trie() -> Trie:
    return as_trie(base_entries())


@lru_cache(maxsize=256)
def trie_with(extra: tuple[tuple[tuple[str, ...], Entry], ...]) -> Trie:
    """The vocabulary with a pattern's own words added (they win)."""
    if not extra:
        return base_trie()
    return as_trie({**base_entries(), **dict(extra)})
