"""A text read with an earlier reading at hand, and with everything remembered, is the text read afresh: words, places and ids."""

from __future__ import annotations

from again import MORE, TEXTS, WORDS, forget_all, whole
from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.reading import read


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(TEXTS), st.data())
def test_an_edit_is_read_as_the_whole_text_is(text: str, data: st.DataObject) -> None:
    before = read(text)
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(text)))
        if data.draw(st.booleans()):
            text = text[:at] + data.draw(st.sampled_from(WORDS)) + text[at:]
        else:
            text = text[:at] + text[at + data.draw(st.integers(1, 30)) :]
        after = read(text, before=before)
        remembered = read(text)
        assert whole(after) == whole(remembered)
        before = after
    forget_all()
    assert whole(before) == whole(read(text))


def test_rows_that_stand_where_they_stood_are_the_same_rows() -> None:
    text = MORE[0]
    before = read(text)
    after = read(text.replace("Rep Row 2.", "Rep Row 2 all along."), before=before)
    assert after.parts[0].rows[0] is before.parts[0].rows[0]
    assert after.parts[0].rows[1] is before.parts[0].rows[1]
    assert after.parts[0].rows[-1] is not before.parts[0].rows[-1]
    later = after.parts[-1].rows[-1]
    assert later.span.of(after.source) == before.parts[-1].rows[-1].span.of(before.source)


def test_ids_are_unique_and_in_order() -> None:
    for text in TEXTS:
        seen = [step.id for part in read(text).parts for row in part.rows for step in row.steps]
        assert len(set(seen)) == len(seen)
        firsts = [min(step.id for step in row.steps) for part in read(text).parts for row in part.rows if row.steps]
        assert firsts == sorted(firsts)
