// The margin at the right of the page: beside every row, its running count and how it stands.

import { RangeSet, StateEffect, StateField, type Range } from "@codemirror/state";
import { gutter, GutterMarker } from "@codemirror/view";
import { h } from "../dom";
import type { RowInfo, State } from "../store";

export const setRows = StateEffect.define<RowInfo[]>();

const SIGN: Record<State, string> = { agrees: "✓", differs: "≠", unstated: "", uncompared: "–", unread: "?", assumed: "≈" };
export const SAID: Record<State, string> = {
  agrees: "as stated",
  differs: "not the count stated",
  unstated: "no count stated",
  uncompared: "the count stated was not compared",
  unread: "not understood",
  assumed: "assumed from what is stated",
};

class Count extends GutterMarker {
  constructor(readonly row: RowInfo) {
    super();
  }
  override eq(other: Count): boolean {
    return other.row.text === this.row.text && other.row.state === this.row.state && other.row.full === this.row.full;
  }
  override toDOM(): Node {
    const { row } = this;
    return h(
      "div",
      { class: `count ${row.state}`, title: `${row.label}: ${row.full}, ${SAID[row.state]}` },
      h("span", { class: "number" }, row.text),
      h("span", { class: "sign" }, SIGN[row.state]),
    );
  }
}

const counts = StateField.define<RangeSet<Count>>({
  create: () => RangeSet.empty,
  update(value, transaction) {
    let next = value.map(transaction.changes);
    for (const effect of transaction.effects)
      if (effect.is(setRows)) {
        const length = transaction.state.doc.length;
        const seen = new Set<number>();
        const marks: Range<Count>[] = [];
        for (const row of effect.value) {
          const line = transaction.state.doc.lineAt(Math.min(row.label_at[1] > row.label_at[0] ? row.label_at[0] : row.at[0], length));
          if (row.text === "" || seen.has(line.from)) continue;
          seen.add(line.from);
          marks.push(new Count(row).range(line.from));
        }
        next = RangeSet.of(marks, true);
      }
    return next;
  },
});

export function margin() {
  return [counts, gutter({ class: "margin", side: "after", markers: (view) => view.state.field(counts)})];
}
