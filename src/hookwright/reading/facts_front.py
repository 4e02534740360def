"""Facts from the front matter's keys. A value that cannot be taken becomes a trouble at its place; the rest is still taken."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any, TypeVar

from ..pattern import NOWHERE, ColourRun, Facts, FinishedSize, Gauge, Picture, Span, Swatch, Trim, Trouble, TurningChain, Yarn
from ..trade import hooks, units
from .facts_prose import gauge_told
from .wording.terms import Terms, us_id

T = TypeVar("T")
KNOWN = frozenset(
    ("title", "version", "designer", "terms", "language", "intended", "hook", "sizes", "finished", "gauge", "yarns", "swatches",
     "turning_chains", "trims", "pace", "prices", "pictures")
)  # fmt: skip


class FrontFacts:
    """Takes the front matter's values into `Facts`."""

    def __init__(self, values: Mapping[str, Any], spans: Mapping[str, Span], terms: Terms) -> None:
        self.values, self.spans, self.terms = values, spans, terms
        self.troubles: list[Trouble] = []

    def facts(self) -> Facts:
        """Everything the keys tell; unknown keys are kept as notes."""
        values = self.values
        names, measures = self._sizes(values.get("sizes"))
        return Facts(
            title=_words(values.get("title")), version=_words(values.get("version")), designer=_words(values.get("designer")),
            hook_mm=self._hook(values.get("hook")), size_names=names, size_measures=measures,
            gauge=tuple(self._gauges(values.get("gauge"))), yarns=self._yarns(values.get("yarns")),
            swatches=tuple(self._each("swatches", values.get("swatches"), self._swatch)),
            turning_chains=self._turning(values.get("turning_chains")),
            trims=tuple(self._each("trims", values.get("trims"), self._trim)), finished=self._finished(values.get("finished")),
            pace=self._pace(values.get("pace")), prices=self._prices(values.get("prices")),
            pictures=tuple(self._each("pictures", values.get("pictures"), self._picture)),
            intended=_one_of(values.get("intended")), notes={k: v for k, v in values.items() if k not in KNOWN},
            spans=dict(self.spans),
        )  # fmt: skip

    # --- taking single values ----------------------------------------------------------------------------------------------------

    def _wrong(self, key: str, what: str) -> None:
        self.troubles.append(Trouble(kind="fact", span=self.spans.get(key, NOWHERE), message=f"{key}: {what}", data={"key": key}))

    def _number(self, key: str, value: Any, *, above: float = 0.0) -> float | None:
        """A number above `above`; "12" and "1 1/2" are taken as well. None (and a trouble) when it is none."""
        if value is None or value == "":
            return None
        if isinstance(value, bool):
            self._wrong(key, "expected a number")
            return None
        number = value if isinstance(value, (int, float)) else units.parse_number(str(value))
        if number is None:
            amount = units.parse(str(value))
            number = None if amount is None else amount.number
        if number is None or not float(number) > above or float(number) > 1e9:
            self._wrong(key, f"expected a number above {above:g}, found “{value}”")
            return None
        return float(number)

    def _amount(self, key: str, value: Any, unit: str) -> float | None:
        """A measure in `unit` ("10 cm", "4 in"); a bare number is taken to be in `unit` already."""
        if value is None or value == "":
            return None
        amount = units.parse(str(value)) if isinstance(value, str) else None
        if amount is None:
            return self._number(key, value)
        try:
            number = float(amount.to(unit).number)
        except ValueError:
            self._wrong(key, f"expected a measure in {unit}, found “{value}”")
            return None
        if number <= 0:
            self._wrong(key, f"expected a measure above 0, found “{value}”")
            return None
        return number

    def _amounts(self, key: str, value: Any) -> tuple[float, ...]:
        """Lengths for every size, in cm: "50 (55, 60) cm", [50, 55, 60], 41 in."""
        if isinstance(value, (list, tuple)):
            return tuple(v for v in (self._amount(key, one, "cm") for one in value) if v is not None)
        text = str(value).strip()
        found = units.find(text.replace("(", " ").replace(")", " "))
        unit = found[-1][2].unit if found else "cm"
        if found and found[-1][2].dimension != "length":
            self._wrong(key, f"expected lengths, found “{value}”")
            return ()
        pieces = [p for p in text.replace("(", ",").replace(")", ",").split(",") if p.strip()]
        numbers = [units.parse_number(_bare(p)) for p in pieces]
        kept = [n for n in numbers if n is not None]
        if not kept or any(n <= 0 for n in kept):
            self._wrong(key, f"expected a length, found “{value}”")
            return ()
        return tuple(float(units.Amount(n, unit).to("cm").number) for n in kept)

    def _each(self, key: str, value: Any, take: Callable[[str, Mapping[str, Any]], T | None]) -> Iterable[T]:
        entries = value if isinstance(value, (list, tuple)) else [value] if value else []
        for i, entry in enumerate(entries):
            if isinstance(entry, Mapping):
                one = take(f"{key}.{i}", entry)
                if one is not None:
                    yield one
            else:
                self._wrong(f"{key}.{i}" if f"{key}.{i}" in self.spans else key, f"expected keys and values, found “{entry}”")

    # --- the keys ------------------------------------------------------------------------------------------------------------------

    def _hook(self, value: Any) -> float | None:
        if value in (None, ""):
            return None
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            return self._number("hook", value)
        found = hooks.named(str(value))
        if not found:
            self._wrong("hook", f"no hook is known as “{value}”; write its size in millimetres, such as 5 mm")
            return None
        return found[0].mm

    def _sizes(self, value: Any) -> tuple[tuple[str, ...], Mapping[str, tuple[float, ...]]]:
        if isinstance(value, (list, tuple)):
            value = {"names": value}
        if not isinstance(value, Mapping):
            if value:
                self._wrong("sizes", "expected names, such as names: [S, M, L]")
            return (), {}
        told = value.get("names")
        names = tuple(_words(one) for one in told) if isinstance(told, (list, tuple)) else ()
        measures = value.get("measures")
        taken = {str(k): self._amounts(f"sizes.measures.{k}", v) for k, v in measures.items()} if isinstance(measures, Mapping) else {}
        for key, lengths in taken.items():
            if lengths and len(lengths) not in (1, len(names)):
                self._wrong(f"sizes.measures.{key}", f"{len(names)} sizes are named, and {len(lengths)} measures are told")
        return names, taken

    def _gauges(self, value: Any) -> Iterable[Gauge]:
        """Gauges told by keys, or as a sentence ("18 sts and 20 rows = 10 cm in sc")."""
        entries = value if isinstance(value, (list, tuple)) else [value]
        told = [gauge_told(one, self.terms) if isinstance(one, str) else None for one in entries]
        yield from (one for one in told if one is not None)
        if any(told):
            value = [entry for entry, one in zip(entries, told, strict=True) if one is None]
        yield from self._each("gauge", value, self._gauge)

    def _gauge(self, key: str, entry: Mapping[str, Any]) -> Gauge | None:
        stitches = self._number(f"{key}.stitches", entry.get("stitches", entry.get("sts")))
        if stitches is None:
            if "stitches" not in entry:
                self._wrong(key, "a gauge needs the number of stitches")
            return None
        blocked = entry.get("blocked")
        return Gauge(
            stitch=us_id(_words(entry.get("in", entry.get("stitch", "sts"))).strip(), self.terms), stitches=stitches,
            rows=self._number(f"{key}.rows", entry.get("rows", entry.get("rounds"))),
            over_cm=self._amount(f"{key}.over", entry.get("over"), "cm") or 10.0,
            over_rows_cm=self._amount(f"{key}.over_rows", entry.get("over_rows"), "cm"),
            blocked=blocked if isinstance(blocked, bool) else None,
        )  # fmt: skip

    def _yarns(self, value: Any) -> Mapping[str, Yarn]:
        if isinstance(value, (list, tuple)):
            value = {chr(65 + i): one for i, one in enumerate(value)}
        if not isinstance(value, Mapping):
            if value:
                self._wrong("yarns", "expected a letter for each yarn, such as A: {name: …, metres: 200, grams: 100}")
            return {}
        return {str(name): self._yarn(str(name), entry) for name, entry in value.items()}

    def _yarn(self, name: str, entry: Any) -> Yarn:
        key = f"yarns.{name}"
        if not isinstance(entry, Mapping):
            return Yarn(id=name, name=_words(entry))
        metres = self._amount(f"{key}.metres", entry.get("metres"), "m")
        if metres is None and "yards" in entry:
            yards = self._number(f"{key}.yards", entry["yards"])
            metres = None if yards is None else yards * 0.9144
        grams = self._amount(f"{key}.grams", entry.get("grams"), "g")
        if grams is None and "ounces" in entry:
            ounces = self._number(f"{key}.ounces", entry["ounces"])
            grams = None if ounces is None else ounces * 28.349523125
        runs = tuple(self._each(f"{key}.sequence", entry.get("sequence"), self._run))
        return Yarn(
            id=name,
            name=_words(entry.get("name")),
            weight=_words(entry.get("weight")),
            ball_m=metres,
            ball_g=grams,
            strands=int(self._number(f"{key}.strands", entry.get("strands", 1)) or 1),
            colour=_words(entry.get("colour", entry.get("color"))),
            fibre=_words(entry.get("fibre", entry.get("fiber"))),
            balls_stated=self._number(f"{key}.balls", entry.get("balls")),
            sequence=runs,
        )

    def _run(self, key: str, entry: Mapping[str, Any]) -> ColourRun | None:
        metres = self._amount(f"{key}.metres", entry.get("metres"), "m")
        return None if metres is None else ColourRun(colour=_words(entry.get("colour", entry.get("color"))), metres=metres)

    def _swatch(self, key: str, entry: Mapping[str, Any]) -> Swatch | None:
        stitches, rows = self._number(f"{key}.stitches", entry.get("stitches")), self._number(f"{key}.rows", entry.get("rows"))
        grams = self._amount(f"{key}.grams", entry.get("grams"), "g")
        if stitches is None or rows is None or grams is None:
            self._wrong(key, "a swatch needs stitches, rows and grams")
            return None
        stitch = us_id(_words(entry.get("in", "sc")), self.terms)
        return Swatch(yarn=_words(entry.get("yarn", "A")), stitch=stitch, stitches=stitches, rows=rows, grams=grams)

    def _turning(self, value: Any) -> Mapping[str, TurningChain]:
        taken: dict[str, TurningChain] = {}
        for word, entry in value.items() if isinstance(value, Mapping) else ():
            key = f"turning_chains.{word}"
            if isinstance(entry, Mapping) and isinstance(entry.get("counts"), bool):
                chains = self._number(f"{key}.chains", entry.get("chains"))
                if chains is not None:
                    taken[us_id(str(word), self.terms)] = TurningChain(chains=int(chains), counts=entry["counts"])
            else:
                self._wrong(key, "expected {chains: 3, counts: true}")
        return taken

    def _trim(self, key: str, entry: Mapping[str, Any]) -> Trim | None:
        def whole(name: str) -> int | None:
            number = self._number(f"{key}.{name}", entry.get(name))
            return None if number is None else int(number)

        def length(name: str) -> float | None:
            return self._amount(f"{key}.{name}", entry.get(name), "cm")

        return Trim(
            kind=_words(entry.get("kind", "trim")), number=whole("number") or 1, wraps=whole("wraps"), strands=whole("strands"),
            card_cm=length("card"), length_cm=length("length"), tie_cm=length("tie"), yarn=_words(entry.get("yarn")),
        )  # fmt: skip

    def _finished(self, value: Any) -> tuple[FinishedSize, ...]:
        if not isinstance(value, Mapping):
            return ()
        taken = ((str(what), self._amounts(f"finished.{what}", told)) for what, told in value.items())
        return tuple(FinishedSize(what=what, cm=cm) for what, cm in taken if cm)

    def _pace(self, value: Any) -> Mapping[str, float]:
        if not isinstance(value, Mapping):
            value = {"st": value} if value else {}
        taken = {"st" if k == "st" else us_id(str(k), self.terms): self._number(f"pace.{k}", _without_seconds(v)) for k, v in value.items()}
        return {k: v for k, v in taken.items() if v is not None}

    def _prices(self, value: Any) -> Mapping[str, float | str]:
        if not isinstance(value, Mapping):
            return {}
        return {str(k): float(v) if isinstance(v, (int, float)) and not isinstance(v, bool) else str(v) for k, v in value.items()}

    def _picture(self, key: str, entry: Mapping[str, Any]) -> Picture | None:
        file = _words(entry.get("file"))
        if not file or file.startswith(("/", "\\")) or ".." in file.replace("\\", "/").split("/") or ":" in file:
            self._wrong(key, "a picture is a file in the pattern's own folder")
            return None
        return Picture(file=file, row=_words(entry.get("row")), alt=_words(entry.get("alt")))


def _bare(piece: str) -> str:
    """A piece of a size list without its unit."""
    found = units.MEASURE.fullmatch(piece.strip())
    return found["number"] if found else piece.strip().rstrip('cmin"” ').strip()


def _without_seconds(value: Any) -> Any:
    """ "3.1 s" without its unit: a pace is always in seconds a stitch."""
    return value.strip().removesuffix("seconds").removesuffix("sec").removesuffix("s").strip() if isinstance(value, str) else value


def _one_of(value: Any) -> Any:
    word = str(value or "").strip().lower()
    return word if word in ("flat", "toy", "garment") else ""


def _words(value: Any) -> str:
    return "" if value is None else str(value).strip()
