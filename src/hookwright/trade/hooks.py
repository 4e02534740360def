"""Hook sizes. The shaft in millimetres is the fact; letters and numbers are labels that drift between makers, years and countries.

Where one label stands for several shafts, all of them are given: choosing is the maker's business.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from ._load import records

Family = Literal["yarn", "steel", "lace"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hook:
    """One size. `us` as printed ("H-8", "7"), `uk` the old UK number, `japanese` the zero number ("8/0"); `also` other US labels for this
    shaft, `also_mm` another shaft printed for this label. `family`: yarn hooks, US steel hooks, Japanese lace hooks."""

    mm: float
    family: Family = "yarn"
    us_letters: tuple[str, ...] = ()
    us_number: str = ""
    uk: str = ""
    japanese: str = ""
    also: tuple[str, ...] = ()
    also_uk: tuple[str, ...] = ()
    also_mm: float | None = None
    sure: str = "high"
    source: str = ""

    @property
    def us(self) -> str:
        """The US label: letter and number as customarily printed; empty where there is none."""
        letters = "/".join(self.us_letters)
        if self.family == "steel":
            return f"steel {self.us_number}"
        return f"{letters}-{_half(self.us_number)}" if letters and self.us_number else letters or _half(self.us_number)


@lru_cache(maxsize=1)
def hooks() -> tuple[Hook, ...]:
    """Every hook of the trade's tables: yarn hooks, then steel, then Japanese lace hooks."""
    yarn = (
        Hook(
            mm=float(record["mm"]),
            us_letters=tuple(record.get("us_letters", ())),
            us_number=record.get("us_number", ""),
            uk=record.get("uk", ""),
            japanese=record.get("japanese", ""),
            also=tuple(record.get("also_us", ())),
            also_uk=tuple(record.get("also_uk", ())),
            sure=record["sure"],
            source=record["source"],
        )
        for record in records("hooks", "hook")
    )
    steel = (
        Hook(mm=float(r["mm"]), family="steel", us_number=r["number"], also_mm=r.get("other_mm"), sure=r["sure"], source=r["source"])
        for r in records("hooks", "steel")
    )
    lace = (Hook(mm=float(r["mm"]), family="lace", japanese=r["number"], source=r["source"]) for r in records("hooks", "lace"))
    return (*yarn, *steel, *lace)


def by_mm(mm: float) -> Hook | None:
    """The yarn hook of this shaft (within 0.05 mm), else a steel or lace one; None when none is listed.

    >>> by_mm(5).us, by_mm(1.65).us
    ('H-8', 'steel 7')
    """
    near = [hook for hook in hooks() if abs(hook.mm - mm) < 0.05]
    return min(near, key=lambda hook: ("yarn", "steel", "lace").index(hook.family)) if near else None


def named(text: str) -> tuple[Hook, ...]:
    """Every hook that the words may mean; several where the trade disagrees, none where it knows no such size.

    >>> [hook.mm for hook in named("5 mm")], [hook.mm for hook in named("size H/8")], [hook.mm for hook in named("US 7 steel")]
    ([5.0], [5.0], [1.65])
    >>> [hook.mm for hook in named("No. 7")], [hook.mm for hook in named("4/0")], [hook.mm for hook in named("K-10 1/2")]
    ([4.5, 1.65], [2.5], [6.5])
    """
    words = text.strip()
    mm = re.search(r"(\d+(?:[.,]\d+)?)\s*mm\b", words, re.I)
    if mm:
        size = float(mm[1].replace(",", "."))
        found = by_mm(size)
        return (found or Hook(mm=size, sure="told"),)
    zero = re.search(r"\b(\d+(?:\.\d+)?)/0\b", words)
    if zero:
        return tuple(hook for hook in hooks() if hook.japanese == zero[0])
    label = _label(words)
    if label is None:
        return ()
    letter, number = label
    return tuple(hook for hook in hooks() if _matches(hook, letter, number, words.lower()))


def label(mm: float, system: Literal["US", "UK"] = "US") -> str:
    """How a hook is written: millimetres first, the label as information.

    >>> label(5.0), label(4.5, "UK"), label(4.1)
    ('5 mm (US H-8)', '4.5 mm (old UK 7)', '4.1 mm')
    """
    hook = by_mm(mm)
    told = (
        ""
        if hook is None
        else (f"US {hook.us}" if system == "US" and hook.us else f"old UK {hook.uk}" if system == "UK" and hook.uk else "")
    )
    return f"{mm:g} mm" + (f" ({told})" if told else "")


def _half(number: str) -> str:
    return number.replace(".5", " 1/2") if number.startswith("10.") else number


def _label(words: str) -> tuple[str, str] | None:
    text = re.sub(r"(\d+)\s*(?:-|\s)?\s*(?:1/2|½)", r"\1.5", words)
    text = re.sub(r"(?i)\b(?:US|UK|size|no\.?|nr\.?|number|steel|crochet|hook|lace|old|canad\w*)\b|#", " ", text)
    both = re.search(r"\b([B-Ua-u])\s*[-/ ]?\s*(\d+(?:\.5)?)\b", text)
    if both:
        return both[1].upper(), both[2]
    letters = re.search(r"(?<![A-Za-z])([B-UX])(?![A-Za-z])", text)
    if letters:
        return letters[1], ""
    number = re.search(r"\b(\d+(?:\.5)?)\b", text)
    return ("", number[1]) if number else None


def _matches(hook: Hook, letter: str, number: str, words: str) -> bool:
    if "steel" in words:
        return hook.family == "steel" and hook.us_number == number
    if "lace" in words and hook.family == "lace":
        return hook.japanese == number
    if letter:
        if hook.family != "yarn":
            return False
        also = any(other.split("-")[0] == letter and (not number or other.endswith(f"-{number}")) for other in hook.also)
        return (letter in hook.us_letters and (not number or hook.us_number in ("", number))) or also
    uk, us = "uk" in words, "us" in words
    by_us = hook.us_number == number or number in hook.also
    if hook.family == "yarn":
        return (by_us and not uk) or ((hook.uk == number or number in hook.also_uk) and not us and (uk or hook.uk == number))
    return hook.family == "steel" and hook.us_number == number and not uk
