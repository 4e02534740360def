// How the pattern's text is dressed: headings larger, row labels firm, the head (its facts) quiet.

import { RangeSetBuilder, StateEffect, StateField, type EditorState } from "@codemirror/state";
import { Decoration, EditorView, type DecorationSet } from "@codemirror/view";
import type { RowInfo } from "../store";

export const setDressing = StateEffect.define<RowInfo[]>();

const label = Decoration.mark({ class: "row-label" });
const heading = [1, 2, 3].map((level) => Decoration.line({ class: `heading heading-${level}` }));
const hash = Decoration.mark({ class: "hash" });
const head = Decoration.line({ class: "front" });

function lines(state: EditorState): DecorationSet {
  const builder = new RangeSetBuilder<Decoration>();
  let inHead = state.doc.line(1).text === "---";
  const most = Math.min(state.doc.lines, 5000);
  for (let number = 1; number <= most; number += 1) {
    const line = state.doc.line(number);
    if (inHead) {
      builder.add(line.from, line.from, head);
      if (number > 1 && /^(---|\.\.\.)\s*$/.test(line.text)) inHead = false;
      continue;
    }
    const level = /^(#{1,3}) /.exec(line.text)?.[1]?.length;
    const mark = level ? heading[level - 1] : undefined;
    if (mark && level) {
      builder.add(line.from, line.from, mark);
      builder.add(line.from, line.from + level, hash);
    }
  }
  return builder.finish();
}

const lineField = StateField.define<DecorationSet>({
  create: lines,
  update: (value, transaction) => (transaction.docChanged ? lines(transaction.state) : value),
  provide: (field) => EditorView.decorations.from(field),
});

const labelField = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update(value, transaction) {
    let next = value.map(transaction.changes);
    for (const effect of transaction.effects)
      if (effect.is(setDressing)) {
        const length = transaction.state.doc.length;
        const spans = effect.value.map((row) => row.label_at).filter(([from, to]) => from < to && to <= length);
        next = Decoration.set(spans.map(([from, to]) => label.range(from, to)), true);
      }
    return next;
  },
  provide: (field) => EditorView.decorations.from(field),
});

export const dressing = [lineField, labelField];
