// The words behind a stitch that was picked in the drawing.

import { StateEffect, StateField } from "@codemirror/state";
import { Decoration, EditorView, type DecorationSet } from "@codemirror/view";

export const setLit = StateEffect.define<[number, number] | null>();

export const lit = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update(value, transaction) {
    let next = transaction.docChanged ? Decoration.none : value;
    for (const effect of transaction.effects)
      if (effect.is(setLit)) {
        const at = effect.value;
        next = at && at[1] > at[0] && at[1] <= transaction.state.doc.length ? Decoration.set([Decoration.mark({ class: "lit-words" }).range(at[0], at[1])]) : Decoration.none;
      }
    return next;
  },
  provide: (field) => EditorView.decorations.from(field),
});
