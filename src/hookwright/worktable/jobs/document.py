"""The proofer's jobs: it keeps the last few documents worked, so that an edit costs only what it changes. Positions go out in UTF-16."""

from __future__ import annotations

from collections import OrderedDict
from typing import Any

from ...pattern import Finding, Repair
from ...session import Session, Units, format_edits, step_span, symbols, tallies, write_fact
from ...session import complete as complete_at
from ...session import hover as hover_at
from ...trade.terms import abbr
from ..bench import Payload, Tell

OPEN_AT_ONCE = 4
MOST_FINDINGS = 500
_sessions: OrderedDict[str, Session] = OrderedDict()


def session_for(payload: Payload) -> Session:
    """The session of the payload's document, brought up to its text."""
    name = str(payload.get("name", ""))
    session = _sessions.pop(name, None) or Session()
    _sessions[name] = session
    while len(_sessions) > OPEN_AT_ONCE:
        _sessions.popitem(last=False)
    session.size = int(payload.get("size", session.size))
    session.update(str(payload["text"]))
    return session


def proof(payload: Payload, tell: Tell) -> dict[str, Any]:
    """Running counts, findings and outline of the text."""
    session = session_for(payload)
    units = Units(session.text)
    pattern = session.read
    counts = tallies(session)
    findings = session.findings
    return {
        "title": pattern.facts.title,
        "terms": pattern.terms,
        "terms_because": pattern.terms_because,
        "sizes": list(pattern.facts.size_names),
        "size": min(session.size, pattern.sizes - 1),
        "stitches": session.fabric().stitch_count,
        "yarns": sorted(pattern.facts.yarns),
        "rows": [
            {
                "part": tally.part_name,
                "label": tally.label,
                "at": units.span(tally.span),
                "label_at": units.span(tally.label_span),
                "text": tally.text,
                "full": tally.full,
                "state": tally.state,
                "worked": tally.worked,
                "fabric": tally.rows[:1] + tally.rows[-1:] if len(tally.rows) > 1 else tally.rows,
            }
            for tally in counts
        ],
        "findings": [finding_json(finding, units) for finding in findings[:MOST_FINDINGS]],
        "more_findings": max(0, len(findings) - MOST_FINDINGS),
    }


def finding_json(finding: Finding, units: Units) -> dict[str, Any]:
    return {
        "rule": finding.rule,
        "severity": finding.severity,
        "at": units.span(finding.span),
        "message": finding.message,
        "working": list(finding.working),
        "notes": [{"at": units.span(span), "text": words} for span, words in finding.notes],
        "part": finding.part,
        "row": finding.row,
        "size": finding.size,
        "repair": repair_json(finding.repair, units) if finding.repair else None,
    }


def repair_json(repair: Repair, units: Units) -> dict[str, Any]:
    return {
        "grade": repair.grade,
        "title": repair.title,
        "edits": [{"at": units.span(edit.span), "text": edit.text} for edit in repair.edits],
    }


def hover(payload: Payload, tell: Tell) -> dict[str, Any] | None:
    """What is known about the words at `at`."""
    session = session_for(payload)
    units = Units(session.text)
    card = hover_at(session, units.to_point(int(payload["at"])))
    return None if card is None else {"at": units.span(card.span), "head": card.head, "lines": list(card.lines)}


def complete(payload: Payload, tell: Tell) -> list[dict[str, Any]]:
    """What may stand at `at`."""
    session = session_for(payload)
    units = Units(session.text)
    return [
        {"label": item.label, "insert": item.insert, "kind": item.kind, "at": units.span(item.span), "detail": item.detail}
        for item in complete_at(session, units.to_point(int(payload["at"])))[:60]
    ]


def tidy(payload: Payload, tell: Tell) -> list[dict[str, Any]]:
    """The edits that tidy the text."""
    session = session_for(payload)
    units = Units(session.text)
    return [{"at": units.span(edit.span), "text": edit.text} for edit in format_edits(session)]


def row(payload: Payload, tell: Tell) -> dict[str, Any] | None:
    """The whole derivation of the row at `at`: what it was offered, each step with its words, the total."""
    session = session_for(payload)
    units = Units(session.text)
    found = session.row_at(units.to_point(int(payload["at"])))
    if found is None:
        return None
    part, written = found
    works = [done for _, done in session.worked(written)]
    return {
        "part": part.name,
        "label": written.label,
        "at": units.span(written.span),
        "worked": [
            {
                "label": done.label,
                "side": done.side,
                "side_because": done.side_because,
                "begins": done.begins,
                "offered": done.offered,
                "used": done.used,
                "total": done.counted.total,
                "by_kind": dict(done.counted.by_kind),
                "state": done.state,
                "readings": list(done.readings),
                "steps": [
                    {
                        "at": units.span(line.span),
                        "words": line.span.of(session.text),
                        "took": line.took,
                        "made": line.made,
                        "so_far": line.so_far,
                        "note": line.note,
                    }
                    for line in done.derivation
                ],
            }
            for done in (works if len(works) <= 3 else [works[0], works[-1]])
        ],
    }


def history(payload: Payload, tell: Tell) -> dict[str, str]:
    """Every row's count in words, for keeping beside a version."""
    session = session_for(payload)
    return {f"{tally.part_name} · {tally.label}".removeprefix(" · "): tally.full for tally in tallies(session)}


def outline(payload: Payload, tell: Tell) -> list[dict[str, Any]]:
    """Parts and rows."""
    session = session_for(payload)
    units = Units(session.text)
    return [
        {"name": part.name, "at": units.span(part.span), "rows": [{"name": row.name, "at": units.span(row.span)} for row in part.inside]}
        for part in symbols(session)
    ]


MOST_LOG_ROWS = 3000


def log_rows(payload: Payload, tell: Tell) -> list[dict[str, Any]]:
    """Every row in worked order with its words and count, for the log at the hook."""
    session = session_for(payload)
    rows: list[dict[str, Any]] = []
    for part in session.fabric().parts:
        for done in part.rows:
            if not done.foundation and len(rows) < MOST_LOG_ROWS:
                words = " ".join(done.written.span.of(session.text).split())[:600]
                rows.append({"part": part.name, "label": done.label, "words": words, "total": done.counted.total, "side": done.side})
    return rows


def fact(payload: Payload, tell: Tell) -> dict[str, Any]:
    """The edits that write a fact (`key`, `value`) into the pattern's front matter."""
    session = session_for(payload)
    units = Units(session.text)
    edits = write_fact(session.text, str(payload["key"]), payload["value"])
    return {"edits": [{"at": units.span(edit.span), "text": edit.text} for edit in edits]}


def stand(payload: Payload, tell: Tell) -> list[tuple[int, int]]:
    """What the row `row` of part `part` stands on: (row, element) of every foot outside the row itself."""
    session = session_for(payload)
    parts = session.fabric().parts
    part, row = int(payload["part"]), int(payload["row"])
    if not (0 <= part < len(parts) and 0 <= row < len(parts[part].rows)):
        return []
    stitches = parts[part].rows[row].stitches
    found = {(row - back, at) for i in range(len(stitches)) for back, at, _ in stitches.feet_of(i) if back > 0 and at >= 0}
    return sorted(found)[:MOST_FEET]


MOST_FEET = 5000


def stitch(payload: Payload, tell: Tell) -> dict[str, Any] | None:
    """The words behind one stitch, and what it stands on."""
    session = session_for(payload)
    units = Units(session.text)
    parts = session.fabric().parts
    part, row, at = int(payload["part"]), int(payload["row"]), int(payload["stitch"])
    if not (0 <= part < len(parts) and 0 <= row < len(parts[part].rows) and 0 <= at < len(parts[part].rows[row].stitches)):
        return None
    done = parts[part].rows[row]
    span = step_span(done.written, done.stitches.step[at]) or done.written.span
    kind = abbr(done.stitches.name(at), session.read.terms)
    on = [f"{abbr(parts[part].rows[row - back].stitches.name(foot), session.read.terms)} of {parts[part].rows[row - back].label}"
          for back, foot, _ in done.stitches.feet_of(at) if foot >= 0 and back <= row]  # fmt: skip
    return {
        "at": units.span(span),
        "head": f"{done.label}, {kind}",
        "lines": [f"“{' '.join(span.of(session.text).split())[:200]}”", *(["stands on " + " and ".join(on[:4])] if on else [])],
    }
