"""What each hard text costs: `python benches/strength.py`. CPU seconds to read, work and proof it, and what is then told."""

from __future__ import annotations

import resource
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))

from tests.properties.test_strength import HARD

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work


def main() -> None:
    print("| text | characters | CPU s | first of what is told |\n| --- | --- | --- | --- |")
    for name, text in HARD.items():
        started = time.process_time()
        pattern = read(text)
        found = proof(pattern, [work(pattern)])
        spent = time.process_time() - started
        told = next((one.message for one in found if one.rule == "limit-reached"), found[0].message if found else "nothing")
        print(f"| {name} | {len(text):,} | {spent:.1f} | {told[:90]} |", flush=True)
    print(f"\npeak memory: {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")


if __name__ == "__main__":
    main()
