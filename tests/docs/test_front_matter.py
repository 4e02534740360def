"""The front matter of the demo pieces keeps to the published schema, and the schema names what reading takes."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest
from ruamel.yaml import YAML

from hookwright import demo, pattern
from hookwright.reading.facts_front import KNOWN

SCHEMA = json.loads((Path(pattern.__file__).parent / "front-matter-1.json").read_text(encoding="utf-8"))
PIECES = sorted(Path(demo.__file__).parent.glob("*.md"))


def front_matter(path: Path) -> dict[str, object]:
    told = YAML(typ="safe").load(path.read_text(encoding="utf-8").split("---\n")[1])
    assert isinstance(told, dict)
    return told


def test_the_schema_names_the_keys_that_reading_takes() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    assert set(SCHEMA["properties"]) == set(KNOWN)


@pytest.mark.parametrize("path", PIECES, ids=lambda path: path.stem)
def test_demo_pieces_keep_to_it(path: Path) -> None:
    jsonschema.validate(front_matter(path), SCHEMA)


def test_it_can_fail() -> None:
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({**front_matter(PIECES[0]), "terms": "Klingon"}, SCHEMA)
