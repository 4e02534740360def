"""What is kept as data beside the comparison is used, and nothing is asked of it that is not there."""

import re
import tomllib
from pathlib import Path

from hookwright.teaching import hearing
from hookwright.teaching.hearing import evidence

FOLDER = Path(hearing.__file__).parent
CODE = {path.stem: path.read_text(encoding="utf-8") for path in FOLDER.glob("*.py")}


def test_every_set_of_words_is_asked_for_by_the_module_it_is_named_after() -> None:
    lexicon = tomllib.loads((FOLDER / "lexicon.toml").read_text(encoding="utf-8"))
    kept = {(module, name) for module, sets in lexicon.items() for name in sets} - {("tokens", "heads"), ("tokens", "abbreviations")}
    asked = {(module, name) for module, code in CODE.items() for name in re.findall(rf"""["']{module}["'], ["'](\w+)["']""", code)}
    assert not kept - asked


def test_every_weight_is_of_evidence_that_is_collected() -> None:
    told = re.findall(r'"([^"\n]+)": ', CODE["evidence"])
    patterns = [re.sub(r"\\{.+?\\}", ".+", re.escape(name)) for name in told]
    patterns += [r".+ (before|behind)"]  # the states of a neighbour
    for kind in ("number", "left out"):
        assert [name for name in evidence.weights()[kind] if not any(re.fullmatch(one, name) for one in patterns)] == []


def test_no_word_stands_twice_in_a_set_of_words() -> None:
    lexicon = tomllib.loads((FOLDER / "lexicon.toml").read_text(encoding="utf-8"))
    kept = {f"{module}.{name}": one["words"].split() for module, sets in lexicon.items() for name, one in sets.items() if "words" in one}
    assert len(kept) > 30
    assert {name: twice for name, told in kept.items() if (twice := sorted({word for word in told if told.count(word) > 1}))} == {}
