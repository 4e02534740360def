// The head of a pattern (its facts, in YAML) folded to one line, since she mostly writes rows; one press unfolds it.

import { StateEffect, StateField, type EditorState, type Extension } from "@codemirror/state";
import { Decoration, EditorView, WidgetType, type DecorationSet } from "@codemirror/view";
import { button, h } from "../dom";

export const foldFront = StateEffect.define<boolean>();

/** Where the head ends (the end of its closing line), or 0 when there is none worth folding. */
export function frontEnd(state: EditorState): number {
  if (state.doc.line(1).text !== "---") return 0;
  for (let number = 2; number <= Math.min(state.doc.lines, 400); number += 1) {
    const line = state.doc.line(number);
    if (/^(---|\.\.\.)\s*$/.test(line.text)) return number > 4 ? line.to : 0;
  }
  return 0;
}

class Folded extends WidgetType {
  constructor(readonly lines: number, readonly words: string) {
    super();
  }
  override eq(other: Folded): boolean {
    return other.lines === this.lines && other.words === this.words;
  }
  override toDOM(view: EditorView): HTMLElement {
    return h(
      "div",
      { class: "folded-front" },
      h("span", { class: "folded-words" }, this.words),
      button(`Facts, ${this.lines} lines`, { class: "link", "aria-expanded": "false", onclick: () => view.dispatch({ effects: foldFront.of(false), selection: { anchor: 0 }, scrollIntoView: true }) }),
    );
  }
  override ignoreEvent(): boolean {
    return true;
  }
}

class Unfolded extends WidgetType {
  override eq(): boolean {
    return true;
  }
  override toDOM(view: EditorView): HTMLElement {
    return h("div", { class: "folded-front open" }, button("Fold the facts", { class: "link", "aria-expanded": "true", onclick: () => view.dispatch({ effects: foldFront.of(true) }) }));
  }
}

/** The facts worth a glance, from the head as it is written. */
function glance(state: EditorState, end: number): string {
  const head = state.doc.sliceString(0, end);
  const fact = (key: string): string => (new RegExp(`^${key}:[ \\t]*(.+)$`, "m").exec(head)?.[1] ?? "").replace(/^["']|["']$/g, "").trim();
  const terms = fact("terms");
  const hook = fact("hook");
  return [fact("title"), terms && `${terms} terms`, hook && `hook ${/^[\d.]+$/.test(hook) ? `${hook} mm` : hook}`].filter(Boolean).join(" · ");
}

function dress(state: EditorState, folded: boolean): DecorationSet {
  const end = frontEnd(state);
  if (!end) return Decoration.none;
  if (folded) return Decoration.set([Decoration.replace({ widget: new Folded(state.doc.lineAt(end).number, glance(state, end)), block: true }).range(0, end)]);
  return Decoration.set([Decoration.widget({ widget: new Unfolded(), block: true, side: -1 }).range(0)]);
}

const field = StateField.define<{ folded: boolean; marks: DecorationSet }>({
  create: (state) => ({ folded: frontEnd(state) > 0, marks: dress(state, true) }),
  update(value, transaction) {
    let folded = value.folded;
    for (const effect of transaction.effects) if (effect.is(foldFront)) folded = effect.value;
    const end = frontEnd(transaction.state);
    // A selection or an edit inside the head unfolds it: nothing is changed unseen.
    if (folded && end) {
      const inside = transaction.selection && transaction.state.selection.main.from < end && !transaction.effects.some((effect) => effect.is(foldFront));
      let touched = false;
      transaction.changes.iterChangedRanges((_a, _b, from) => {
        if (from < end) touched = true;
      });
      if ((inside && transaction.state.selection.main.to > 0) || touched) folded = false;
    }
    if (folded === value.folded && !transaction.docChanged) return value;
    return { folded, marks: dress(transaction.state, folded) };
  },
  provide: (self) => [EditorView.decorations.from(self, (value) => value.marks), EditorView.atomicRanges.of((view) => (view.state.field(self).folded ? view.state.field(self).marks : Decoration.none))],
});

export const front: Extension = field;
