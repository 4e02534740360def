"""How fast and how exactly fabric relaxes, beside general-purpose tools on the same fabric.

Run: `uv run --group bench python benches/shape.py` (about two minutes; `--quick` leaves out the graph layouts, `--large` adds 100,000
stitches; `--cpu` counts processor time, for a machine that others use). Every piece starts 1.25 x 0.8 off its gauge, with noise of a
tenth of a stitch. Sizes stand beside the edge error, since a folded layout can have a small edge error.
"""

from __future__ import annotations

import argparse
import math
import os
import resource
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
if "--cpu" in sys.argv:
    time.perf_counter = time.process_time  # one thread throughout, so that on an idle machine the two are the same

import numpy as np
from scipy.optimize import least_squares, minimize

sys.path.insert(0, str(Path(__file__).parents[1]))

from tests import fabrics

from hookwright.measuring import PartMeasures, measure
from hookwright.shaping.cloth import Cloth, Floats, cloth_of
from hookwright.shaping.piece import shape_part
from hookwright.shaping.relax import edge_error, energy, lengths
from hookwright.shaping.start import unroll
from hookwright.shaping.ties import HEIGHT, Ties, ties_of
from hookwright.working.fabric import Fabric

TALL = {"dc": (20.0, 10.0)}
EVEN = {"dc": (20.0, 20.0 * math.tau / 12)}
"""A dc 12 / 2 pi = 1.91 times as tall as wide, for which 12 a round are just flat; at twice as tall they are 4.5 % too few for a plane."""


@dataclass(frozen=True)
class Case:
    name: str
    made: Fabric
    flat: bool
    gauge: tuple[float, float] | None = None
    """Of 12-a-round circles laid flat: width and height of a stitch, cm."""


def named_cases() -> list[Case]:
    sphere = _ball(20)
    plane = [6]
    while len(plane) < 14:
        plane.append(round(plane[-1] * 4 / 3))
    square = {"sc": (10.0, 10.0)}
    return [
        Case("rectangle 30 x 40", fabrics.rectangle(30, 40), True),
        Case("bevelled strip", fabrics.bevelled_strip(gauge={"dc": (13, 6.5)}), True),
        Case("circle, 12 dc a round", fabrics.disc(12, 10, "dc", stacked=False, gauge=EVEN), True, (0.5, 6 / math.tau)),
        Case(
            "circle, 12 dc, 4.5 % too few for a plane, pressed flat",
            fabrics.disc(12, 10, "dc", stacked=False, gauge=TALL),
            True,
            (0.5, 1.0),
        ),
        Case("circle, 12 dc, 4.5 % too few for a plane, left free", fabrics.disc(12, 10, "dc", stacked=False, gauge=TALL), False),
        Case("cup, 8 dc a round", fabrics.disc(8, 10, "dc", stacked=False, gauge=TALL), False),
        Case("ruffle, 18 dc a round", fabrics.disc(18, 10, "dc", stacked=False, gauge=TALL), False),
        Case("sc sphere, 19 rounds", fabrics.rounds(fabrics.rounds_of(sphere), gauge=square), False),
        Case("hyperbolic, 1 in 3", fabrics.rounds(fabrics.rounds_of(plane), gauge={"sc": (10.0, 11.0)}), False),
    ]


def off_gauge(part: PartMeasures, *, flat: bool) -> Floats:
    start = unroll(cloth_of(part), flat=flat)
    noise = np.random.default_rng(7).normal(0.0, 0.1 * part.scale.unit_cm, start.shape)
    if flat:
        noise[:, 2] = 0.0
    return np.asarray(start * [1.25, 0.8, 0.8] + noise)


def sizes(part: PartMeasures, cloth: Cloth, at: Floats, *, flat: bool) -> tuple[float, float]:
    """Two sizes that tell folds: flat rows width and length, flat rounds twice the diameter, the rest girth and extent."""
    if not part.in_rounds:
        spans = [at[int(cloth.first[r]) : int(cloth.first[r + 1])] for r in range(len(cloth.rows))]
        wide = max(float(np.linalg.norm(span[-1] - span[0])) for span in spans if len(span) > 1)
        return wide, float(np.linalg.norm(spans[-1].mean(axis=0) - spans[0].mean(axis=0)))
    rim = at[int(cloth.first[-2]) : int(cloth.first[-1])] if flat else _widest(cloth, at)
    girth = float(np.linalg.norm(np.roll(rim, -1, axis=0) - rim, axis=1).sum())
    return girth, 2 * float(np.linalg.norm(rim - rim.mean(axis=0), axis=1).mean())


def _widest(cloth: Cloth, at: Floats) -> Floats:
    r = max(range(len(cloth.rows)), key=lambda r: cloth.rows[r].total)
    return at[int(cloth.first[r]) : int(cloth.first[r + 1])]


@dataclass(frozen=True)
class Judge:
    """Puts every tool's layout of one case into the table by the same measures, all ties counted."""

    case: Case
    part: PartMeasures
    cloth: Cloth
    ties: Ties
    give: float
    ours: float
    held: float

    def line(self, tool: str, seconds: float, at: Floats) -> None:
        got, want = (sizes(self.part, self.cloth, at, flat=self.case.flat), _wanted(self.part, self.cloth, flat=self.case.flat))
        off = ", ".join("-" if math.isnan(b) else f"{100 * (a / b - 1):+.1f}" for a, b in zip(got, want, strict=True))
        beyond = f"{100 * edge_error(self.ties, at, self.give):.2f}" if self.give else "-"
        more = energy(self.ties, at)[0] / self.held
        print(
            f"| {self.case.name} ({self.cloth.nodes}) | {tool} | {1000 * seconds:.0f} | {seconds / self.ours:.1f} x "
            f"| {100 * edge_error(self.ties, at):.2f} | {beyond} | {more:.3g} x | {off} |"
        )


def round_floor(per: int, rounds: int, width: float, height: float) -> float:
    """The least edge error (RMS) that `rounds` round rounds of `per`, twice `per` … stitches can have in a plane, as SciPy finds it."""
    k = np.arange(1, rounds + 1)
    many = np.sqrt(per * k)

    def errors(radius: Floats) -> Floats:
        along = math.tau * radius / (per * k * width) - 1
        return np.concatenate([many * along, many * (np.diff(radius, prepend=0.0) / height - 1)])

    return math.sqrt(least_squares(errors, height * k.astype(float)).cost / float(many @ many))


def accuracy(*, layouts: bool) -> None:
    heads = ("piece (nodes)", "tool", "ms", "of ours", "edge error % (RMS)", "beyond what gives", "energy, of ours", "two sizes, % off")
    print(f"| {' | '.join(heads)} |")
    print("| --- " * len(heads) + "|")
    for case in named_cases():
        part = measure(case.made).parts[0]
        cloth, start = cloth_of(part), off_gauge(part, flat=case.flat)
        ties = ties_of(cloth, flat=case.flat)
        out = min((shape_part(part, start=start, flat=case.flat) for _ in range(3)), key=lambda out: out.seconds.total)
        dims = 2 if case.flat else 3
        at = out.at[:, :dims]
        judge = Judge(case, part, cloth, ties, out.give, out.seconds.total, energy(ties, at)[0])
        judge.line("ours, all in", out.seconds.total, at)
        if case.gauge is not None:
            print(f"| {case.name} | least that round rounds can have | - | - | {100 * round_floor(12, 10, *case.gauge):.2f} | - | - | - |")
        for tool, run in _others(cloth, ties, start[:, :dims], layouts=layouts).items():
            began = time.perf_counter()
            at = run()
            spent = time.perf_counter() - began
            judge.line(tool, spent, at * _best_scale(ties, at))


def _wanted(part: PartMeasures, cloth: Cloth, *, flat: bool) -> tuple[float, float]:
    if not part.in_rounds:
        return sizes(part, cloth, unroll(cloth), flat=True)
    assert part.rounds is not None
    girth = part.rounds.girth_cm
    if flat:
        return math.pi * part.rounds.diameter_cm, part.rounds.diameter_cm
    return girth, girth / math.pi if part.rounds.lies != "ruffles" else math.nan  # how far a ruffle's rim strays is not fixed by its gauge


def _best_scale(ties: Ties, at: Floats) -> float:
    length = lengths(ties.matrix @ at)[ties.edges]
    rest = ties.rest[ties.edges]
    return float((length / rest).sum() / ((length / rest) ** 2).sum()) if length.any() else 1.0


def _others(cloth: Cloth, ties: Ties, start: Floats, *, layouts: bool) -> dict[str, Callable[[], Floats]]:
    dims = start.shape[1]

    def scipy_lbfgs(begin: Floats) -> Floats:
        def both(x: Floats) -> tuple[float, Floats]:
            value, gradient = energy(ties, x.reshape(-1, dims))
            return value, gradient.ravel()

        done = minimize(both, begin.ravel(), jac=True, method="L-BFGS-B", options={"maxiter": 400, "maxfun": 2000})
        return np.asarray(done.x.reshape(-1, dims))

    random = np.random.default_rng(3).normal(0, np.ptp(start, axis=0).max() / 4, start.shape)
    found: dict[str, Callable[[], Floats]] = {
        "SciPy L-BFGS-B, same energy and start": lambda: scipy_lbfgs(start),
        "SciPy L-BFGS-B, random start": lambda: scipy_lbfgs(random),
    }
    return found | _layouts(cloth, ties, dims) if layouts else found


def _layouts(cloth: Cloth, ties: Ties, dims: int) -> dict[str, Callable[[], Floats]]:
    """Graph layouts on the graph of rows and heights (each stitch to the nearer node at its foot)."""
    edges = np.flatnonzero(ties.kind <= HEIGHT)
    pairs, rests = [], []
    for e in edges:
        row = ties.matrix[[e]]
        ends = row.indices[np.argsort(-np.abs(row.data))[:2]]
        if len(ends) == 2:
            pairs.append((int(ends[0]), int(ends[1])))
            rests.append(float(ties.rest[e]))
    found: dict[str, Callable[[], Floats]] = {}
    try:
        import networkx as nx

        graph = nx.Graph()
        graph.add_nodes_from(range(cloth.nodes))
        graph.add_edges_from((a, b, {"weight": 1 / rest, "far": rest}) for (a, b), rest in zip(pairs, rests, strict=True))

        def as_array(layout: dict[int, Floats]) -> Floats:
            return np.array([layout[i] for i in range(cloth.nodes)])

        found["networkx spring, 50 steps"] = lambda: as_array(nx.spring_layout(graph, dim=dims, seed=1, iterations=50))
        if cloth.nodes <= 600:
            found["networkx Kamada-Kawai, lengths"] = lambda: as_array(nx.kamada_kawai_layout(graph, dim=dims, weight="far"))
    except ImportError:
        print("networkx is not installed: left out")
    try:
        import igraph

        mesh = igraph.Graph(n=cloth.nodes, edges=pairs)
        found["igraph Fruchterman-Reingold"] = lambda: np.array(mesh.layout_fruchterman_reingold(dim=dims).coords)
        found["igraph Kamada-Kawai, lengths"] = lambda: np.array(mesh.layout_kamada_kawai(dim=dims, weights=rests).coords)
        found["igraph DrL"] = lambda: np.array(mesh.layout_drl(dim=dims).coords)
    except ImportError:
        print("igraph is not installed: left out")
    return found


def times(*, large: bool) -> None:
    heads = ("piece", "nodes", "where", "cloth + ties + start", "factor", "run (steps)", "all in, s", "all in / factor", "edge error %")
    print(f"\n| {' | '.join(heads)} | sizes % off |")
    print("| --- " * (len(heads) + 1) + "|")
    fits: dict[str, list[tuple[int, float]]] = {}
    sides = [32, 55, 100, *([316] if large else [])]
    for side, rounds in zip(sides, [18, 31, 58, 182], strict=False):
        for name, made in (("rectangle", fabrics.rectangle(side, side)), ("disc, 6 sc", _disc(rounds))):
            part = measure(made).parts[0]
            _ = part.placed if not part.in_rounds else part.rounds
            for where, start in (("unrolled", None), ("wrong gauge", off_gauge(part, flat=True))):
                runs = 1 if side > 150 else 3
                out = min((shape_part(part, start=start, flat=True) for _ in range(runs)), key=lambda out: out.seconds.total)
                s, cloth = out.seconds, out.cloth
                got = (out.width_cm, out.length_cm)
                want = (part.width_cm, part.length_cm)
                off = ", ".join(f"{100 * (a / b - 1):+.2f}" for a, b in zip(got, want, strict=True))
                before = s.cloth + s.ties + s.start
                ratio = f"{s.total / s.factor:.2f}" if s.factor else "-"
                print(
                    f"| {name} | {cloth.nodes} | {where} | {before:.3f} | {s.factor:.3f} | {s.run:.3f} ({out.iterations}) | {s.total:.3f} "
                    f"| {ratio} | {100 * out.strain:.3f} | {off} |"
                )
                fits.setdefault(f"{name}, {where}", []).append((cloth.nodes, s.total))
    for many in (47, 87):
        part = measure(fabrics.rounds(fabrics.rounds_of(_ball(many)), gauge={"sc": (10.0, 10.0)})).parts[0]
        assert part.rounds is not None and part.rounds.height_cm
        out = min((shape_part(part) for _ in range(3)), key=lambda out: out.seconds.total)
        off = f"{100 * (out.girth_cm / part.rounds.girth_cm - 1):+.2f}, {100 * (out.height_cm / part.rounds.height_cm - 1):+.2f}"
        print(
            f"| sc ball | {out.cloth.nodes} | unrolled | - | {out.seconds.factor:.3f} | {out.seconds.run:.3f} ({out.iterations}) "
            f"| {out.seconds.total:.3f} | - | {100 * out.strain:.3f} | {off} |"
        )
    for name, found in fits.items():
        n, t = np.log([x for x, _ in found]), np.log([y for _, y in found])
        print(f"{name}: cost grows as n^{np.polyfit(n, t, 1)[0]:.2f} from {found[0][0]} to {found[-1][0]} nodes")
    print(f"most memory in use: {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")


def _ball(many: int) -> list[int]:
    """Stitches of a ball's rounds: the sine of their place."""
    return [max(3, round(2 * many * math.sin(math.pi * i / many))) for i in range(1, many)]


def _disc(rounds: int) -> Fabric:
    return fabrics.disc(6, rounds, stacked=False, gauge={"sc": (10.0, 20 * math.pi / 6)})


if __name__ == "__main__":
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--quick", action="store_true")
    asked.add_argument("--large", action="store_true")
    asked.add_argument("--cpu", action="store_true")
    told = asked.parse_args()
    accuracy(layouts=not told.quick)
    times(large=told.large)
