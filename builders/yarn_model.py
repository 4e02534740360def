"""Fit the areal yarn model on published pieces, choose its form inside the left-out loop, and write its constants.

    metres = area x K x (M/200)^1/4 x (5/hook)^1/2 x lace^openness x relief^heavy     (+ foundation chain + two ends, added explicitly)

Metres per area is one over a length; the form above says that length is the geometric mean of the yarn's and the hook's diameters (a yarn's
diameter goes with the root of its mass per length). Four more forms compete; the choice is made by their error over the *inner* left-out
sources, so the outer error contains the cost of choosing. All fits are weighted least squares on logarithms: an amount known only as "n
skeins" carries the variance of that interval. Run: `python builders/yarn_model.py` (a few seconds); `--write` renews the constants.
"""
# ruff: noqa: T201

from __future__ import annotations

import csv
import math
import sys
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

ROOT = Path(__file__).resolve().parent.parent
Array = NDArray[np.float64]
OWN_SD = 0.17
"""Scatter of pieces whose amount is known well (log units), from a first unweighted fit; only sets the weight of skein intervals."""
CHAIN_PER_LENGTH = 5.0
"""Yarn in a chain, as a multiple of its length: 25.5 in for 5 in (windchilde.com/bluedepth/tag/crochet)."""
END_M = 0.15
"""Yarn left in each end (common practice, no source: 10-15 cm)."""


@dataclass(frozen=True)
class Pieces:
    """The usable pieces as columns (length n): logs of metres per cm2 and everything a form may look at."""

    ids: tuple[str, ...]
    source: NDArray[np.str_]
    area: Array
    metres: Array
    explicit: Array
    m_per_100g: Array
    hook: Array
    lace: Array
    graded: Array
    heavy: Array
    tall: Array
    weight: Array

    def only(self, mask: NDArray[np.bool_]) -> Pieces:
        ids = tuple(name for name, kept in zip(self.ids, mask, strict=True) if kept)
        rest = (getattr(self, name)[mask] for name in list(self.__dataclass_fields__)[1:])
        return Pieces(ids, *rest)


def hook_for(m_per_100g: float) -> float:
    """The hook usual for a yarn, mm: the middles of the council's crochet table, categories 1-6, as a power law."""
    middles = ((405.0, 2.875), (325.0, 4.0), (225.0, 5.0), (165.0, 6.0), (105.0, 7.75), (60.0, 12.5))
    slope, at = np.polyfit([math.log(m / 200) for m, _ in middles], [math.log(h) for _, h in middles], 1)
    return float(math.exp(at) * (m_per_100g / 200) ** slope)


def pieces() -> Pieces:
    """Read the table; pieces without size, or known only as "at most one skein" (U1), are not fitted."""
    with (ROOT / "authorities" / "yarn_pieces.csv").open(newline="", encoding="utf-8") as file:
        rows = [r for r in csv.DictReader(file) if r["area_cm2"] and r["metres_point"] and r["kind"] != "U1"]

    def column(name: str) -> Array:
        return np.array([float(r[name]) for r in rows])

    area, metres, m100 = column("area_cm2"), column("metres_point"), column("m_per_100g")
    width = np.array([float(r["width_cm"] or math.sqrt(float(r["area_cm2"]))) for r in rows])
    skein = np.array([math.log(float(r["metres_hi"]) / float(r["metres_lo"])) ** 2 / 12 if r["kind"] == "U" else 0.0 for r in rows])
    weight = OWN_SD**2 / (OWN_SD**2 + skein)
    openness = column("open")
    return Pieces(
        ids=tuple(r["id"] for r in rows), source=np.array([r["source"] for r in rows]), area=area, metres=metres,
        explicit=CHAIN_PER_LENGTH * width / 100 + 2 * END_M, m_per_100g=m100,
        hook=np.array([float(r["hook_mm"]) if r["hook_mm"] else hook_for(float(r["m_per_100g"])) for r in rows]),
        lace=(openness == 2).astype(float), graded=openness / 2, heavy=column("heavy"),
        tall=np.array([float(r["stitch"] in ("dc", "tr")) for r in rows]), weight=weight / weight.mean(),
    )  # fmt: skip


def base(p: Pieces) -> Array:
    return 0.25 * np.log(p.m_per_100g / 200) - 0.5 * np.log(p.hook / 5)


@dataclass(frozen=True)
class Form:
    """One shape the model may take: columns to fit, and whether the geometric-mean law stands fixed (offset) or is fitted too."""

    name: str
    columns: tuple[str, ...]
    law: bool = True
    explicit: bool = True
    weighted: bool = True

    def design(self, p: Pieces) -> Array:
        extra = {"size": np.log(p.area / 2000), "law": base(p), "hook": np.log(p.hook / 5), "lace": p.lace, "graded": p.graded,
                 "heavy": p.heavy, "tall": p.tall}  # fmt: skip
        return np.column_stack([np.ones(len(p.ids)), *(extra[name] for name in self.columns)])

    def fit(self, p: Pieces) -> Array:
        known = p.metres - p.explicit if self.explicit else p.metres
        z = np.log(known / p.area) - (base(p) if self.law else 0)
        root = np.sqrt(p.weight) if self.weighted else np.ones(len(p.ids))
        return np.asarray(np.linalg.lstsq(self.design(p) * root[:, None], z * root, rcond=None)[0])

    def predict(self, p: Pieces, found: Array) -> Array:
        metres = p.area * np.exp(self.design(p) @ found + (base(p) if self.law else 0))
        return np.asarray(metres + (p.explicit if self.explicit else 0))


PLAIN = Form("plain: K, lace, heavy (unweighted, nothing explicit)", ("lace", "heavy"), explicit=False, weighted=False)
FORMS = (
    Form("K, lace, heavy", ("lace", "heavy")),
    Form("K, graded openness, heavy", ("graded", "heavy")),
    Form("K, free exponent, lace, heavy", ("law", "lace", "heavy"), law=False),
    Form("K, free hook exponent, lace, heavy", ("hook", "lace", "heavy"), law=False),
    Form("K, size, lace, heavy", ("size", "lace", "heavy")),
    Form("K, tall stitches, lace, heavy", ("tall", "lace", "heavy")),
)


def left_out(form: Form, p: Pieces) -> Array:
    """log(actual / predicted), each source predicted by the others."""
    out = np.zeros(len(p.ids))
    for source in np.unique(p.source):
        mask = p.source == source
        out[mask] = np.log(p.metres[mask] / form.predict(p.only(mask), form.fit(p.only(~mask))))
    return out


def choose(p: Pieces) -> tuple[Form, Array]:
    """The form with the smallest mean left-out error, and its left-out residuals."""
    tried = [(form, left_out(form, p)) for form in FORMS]
    return min(tried, key=lambda pair: float(np.average(np.abs(pair[1]), weights=p.weight)))


def tolerance(residuals: Array, level: float = 0.9, sure: float = 0.75) -> float:
    """The factor f such that x/÷f holds `level` of new pieces with confidence `sure`: an order statistic of |residual| (Wilks 1941).

    The k-th smallest holds at least `level` of all pieces unless fewer than k of the n lie inside the true bound: a binomial chance.
    """
    n = len(residuals)
    chance, rank = 0.0, n
    for k in range(n):
        chance += math.comb(n, k) * level**k * (1 - level) ** (n - k)
        if chance >= sure:
            rank = k + 1
            break
    return float(np.exp(np.sort(np.abs(residuals))[rank - 1]))


def nested(p: Pieces) -> tuple[Array, list[str], list[bool]]:
    """Left-out residuals with the choice of form and the width of the interval made without the source that is predicted."""
    out, names, inside = np.zeros(len(p.ids)), [], []
    for source in np.unique(p.source):
        mask = p.source == source
        rest = p.only(~mask)
        form, inner = choose(rest)
        out[mask] = np.log(p.metres[mask] / form.predict(p.only(mask), form.fit(rest)))
        names.append(form.name)
        inside += list(np.abs(out[mask]) <= math.log(tolerance(inner)))
    return out, names, inside


def mdape(residuals: Array) -> float:
    """Median absolute percentage error of the prediction."""
    return float(np.median(np.abs(np.exp(-residuals) - 1)) * 100)


def over_sources(p: Pieces, residuals: Array, tries: int = 4000) -> tuple[float, float]:
    """5th and 95th percentile of the median error when whole sources are drawn again."""
    rng, names = np.random.default_rng(4), np.unique(p.source)
    groups = [residuals[p.source == name] for name in names]
    draws = [mdape(np.concatenate([groups[i] for i in rng.integers(0, len(names), len(names))])) for _ in range(tries)]
    low, high = np.quantile(draws, (0.05, 0.95))
    return float(low), float(high)


def constants_over_sources(form: Form, p: Pieces, tries: int = 1000) -> Array:
    """5th and 95th percentile of the constants (2 x k) when whole sources are drawn again."""
    rng, names = np.random.default_rng(5), np.unique(p.source)
    draws = []
    for _ in range(tries):
        picked = np.concatenate([np.flatnonzero(p.source == names[i]) for i in rng.integers(0, len(names), len(names))])
        sample = Pieces(tuple(p.ids[i] for i in picked), *(getattr(p, name)[picked] for name in list(p.__dataclass_fields__)[1:]))
        if sample.lace.sum() and sample.heavy.sum():
            draws.append(np.exp(form.fit(sample)))
    return np.asarray(np.quantile(np.array(draws), (0.05, 0.95), axis=0))


def siblings(form: Form, p: Pieces) -> Array:
    """Differences (log) between the residuals of two pieces of one source: what a sibling piece tells about another."""
    residual = np.log(p.metres / form.predict(p, form.fit(p)))
    pairs = []
    for source in np.unique(p.source):
        own = np.flatnonzero(p.source == source)
        same = [(i, j) for n, i in enumerate(own) for j in own[n + 1 :] if p.m_per_100g[i] == p.m_per_100g[j] and p.hook[i] == p.hook[j]]
        pairs += [abs(residual[i] - residual[j]) for i, j in same]
    return np.array(pairs)


def main() -> None:
    p = pieces()
    print(f"{len(p.ids)} pieces from {len(np.unique(p.source))} sources\n")
    for form in (PLAIN, *FORMS):
        r = left_out(form, p)
        held = int(np.sum(np.abs(r) <= math.log(1.45)))
        print(
            f"{form.name:52s} MdAPE {mdape(r):5.2f} %  mean |log| {np.abs(r).mean():.4f}  rms {np.sqrt((r**2).mean()):.4f}  in "
            f"x/÷1.45: {held}"
        )
    r, names, inside = nested(p)
    low, high = over_sources(p, r)
    print(f"\nchoice made inside the loop: MdAPE {mdape(r):.2f} % (90 % over sources {low:.1f}-{high:.1f}); interval holds {sum(inside)}")
    for name in sorted(set(names)):
        print(f"   chosen {names.count(name):2d} times: {name}")
    form, residuals = choose(p)
    found = np.exp(form.fit(p))
    bounds = constants_over_sources(form, p)
    factor = tolerance(residuals)
    pairs = siblings(form, p)
    print(f"\nshipped: {form.name}: {np.round(found, 4)}, over sources {np.round(bounds, 3).tolist()}")
    print(
        f"interval x/÷{factor:.3f}; {len(pairs)} pairs of siblings: median |log ratio| {np.median(pairs):.3f}, 90 % "
        f"{np.quantile(pairs, 0.9):.3f}"
    )
    if "--write" in sys.argv:
        write(found, bounds, factor, mdape(r), (low, high), pairs, len(p.ids))


def write(found: Array, bounds: Array, factor: float, error: float, spread: tuple[float, float], pairs: Array, n: int) -> None:
    """Put the constants where the package reads them."""
    k, lace, heavy = (float(v) for v in found)
    at, slope = hook_for(200.0), math.log(hook_for(400.0) / hook_for(200.0)) / math.log(2)
    text = f"""# Written by builders/yarn_model.py from authorities/yarn_pieces.csv: do not edit by hand.
form = "K, lace, heavy"
pieces = {n}
k_m_per_cm2 = {k:.5f}
k_90 = [{bounds[0][0]:.4f}, {bounds[1][0]:.4f}]
lace = {lace:.4f}
lace_90 = [{bounds[0][1]:.3f}, {bounds[1][1]:.3f}]
relief = {heavy:.4f}
relief_90 = [{bounds[0][2]:.3f}, {bounds[1][2]:.3f}]
interval_90 = {factor:.4f}
left_out_mdape_percent = {error:.2f}
left_out_mdape_90 = [{spread[0]:.1f}, {spread[1]:.1f}]
sibling_sd = {float(np.sqrt(np.mean(pairs**2) / 2)):.4f}
sibling_pairs = {len(pairs)}
usual_hook_mm_at_200 = {at:.4f}
usual_hook_exponent = {slope:.4f}
chain_per_length = {CHAIN_PER_LENGTH}
end_m = {END_M}
"""
    (ROOT / "src" / "hookwright" / "yarn" / "data" / "areal.toml").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
