"""Narrations written by hand, weighed: `python benches/by_hand.py [PREFIX …] [--list]`, e.g. `python benches/by_hand.py e --list`.

For each file of tests/cases/teach, and of tests/cases/heard_once (not all of whose slips are found), whose name begins with a prefix:
minutes, slips planted, found (kind and row, within five seconds), false alarms; at the end the sums. `--list` names each missed slip and
false alarm.
"""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "unit" / "teaching"))

from test_narrations import FILES, heard, is_it, told

from hookwright.teaching import CannotHear

ONCE = sorted((Path(__file__).parents[1] / "tests" / "cases" / "heard_once").glob("*.timed"))


def main() -> None:
    prefixes = tuple(one for one in sys.argv[1:] if not one.startswith("-")) or ("",)
    sums = [0.0, 0, 0, 0]
    for path in (one for one in (*FILES, *ONCE) if one.stem.startswith(prefixes)):
        cues = told(path)[2]
        try:
            found, slips = heard(path)
        except CannotHear as error:
            found, slips = (), told(path)[3]
            print(f"{path.stem}: {error}")
        missed = [slip for slip in slips if not any(is_it(one, slip) for one in found)]
        alarms = [one for one in found if not any(is_it(one, slip) for slip in slips)]
        row = [cues[-1].end / 60, len(slips), len(slips) - len(missed), len(alarms)]
        sums = [a + b for a, b in zip(sums, row, strict=True)]
        print(f"{path.stem:32} {row[0]:5.1f} min  {row[2]:2} of {row[1]:2} found  {row[3]:2} false")
        if "--list" in sys.argv:
            for slip in missed:
                print(f"      MISSED {slip}")
            for one in alarms:
                print(f"      ALARM  {one.at}: {one.kind}, {one.row}: {one.message} ({one.sure}) “{one.words}”")
    per = 10 * sums[3] / max(sums[0], 0.1)
    share = sums[2] / max(sums[1], 1)
    print(f"{'ALL':32} {sums[0]:5.1f} min  {sums[2]:2} of {sums[1]:2} found ({share:.0%})  {sums[3]:2} false ({per:.1f} in 10 min)")


if __name__ == "__main__":
    main()
