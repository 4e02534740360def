"""Short pieces told in many ways: `python benches/ways.py [FILE …] [--by-chance N] [--quiet]`.

For each piece of the files (`tests/cases/ways/*.txt` unless named): the plain text, then one wording changed at a time, has to come out
row by row as its makers say; `--by-chance N`: then every phrase worded by chance, N times. What does not is listed by its wording.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from tests.ways import BARE, PLAIN, WAYS, amiss, by_chance, one_by_one, pieces


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("files", nargs="*", type=Path)
    asked.add_argument("--by-chance", type=int, default=0)
    asked.add_argument("--quiet", action="store_true")
    asked.add_argument("--only", default="", help="pieces whose name holds this")
    asked.add_argument("--text", action="store_true", help="with the text of each that fails")
    choice = asked.parse_args()
    sums = {PLAIN: [0, 0], BARE: [0, 0], "one changed": [0, 0], "by chance": [0, 0]}
    for path in choice.files or sorted(WAYS.glob("*.txt")):
        for piece in pieces(path):
            if choice.only not in piece.name:
                continue
            for said, text in (*one_by_one(piece), *by_chance(piece, choice.by_chance)):
                kind = "by chance" if said.startswith("by chance ") else said if said in (PLAIN, BARE) else "one changed"
                wrong = amiss(piece, text)
                sums[kind][0] += not wrong
                sums[kind][1] += 1
                if wrong and not choice.quiet:
                    print(f"{path.stem}/{piece.name}: {said}: {wrong}")
                    if choice.text:
                        print("    " + text.replace("\n", "\n    "))
                if wrong and kind in (PLAIN, BARE):
                    break
    for kind, (right, tried) in sums.items():
        if tried:
            print(f"{kind}: {right:,} of {tried:,} come out ({right / tried:.1%})")


if __name__ == "__main__":
    main()
