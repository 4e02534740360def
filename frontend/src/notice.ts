// Short news at the foot of the page, with an undo where there is one; and questions in a dialog.

import { add, button, h } from "./dom";

let place: HTMLElement | null = null;

function corner(): HTMLElement {
  if (!place) {
    place = h("div", { class: "notices", role: "status", "aria-live": "polite" });
    document.body.append(place);
  }
  return place;
}

/** Say something; with `undo`, a button that takes it back. Stays longer when there is something to press. */
export function notice(words: string, undo?: { words: string; do: () => void }): void {
  const card = h("div", { class: "notice" }, h("span", {}, words));
  if (undo)
    card.append(
      button(undo.words, {
        onclick: () => {
          undo.do();
          card.remove();
        },
      }),
    );
  card.append(button("Put this notice away", { icon: "close", bare: true, onclick: () => card.remove() }));
  corner().append(card);
  setTimeout(() => card.remove(), undo ? 12_000 : 6_000);
}

/** Say what went wrong, in the server's own sentence. */
export function trouble(reason: unknown): void {
  if (reason instanceof Error && reason.message) notice(reason.message);
}

/** A question with a few answers; resolves to the key of the one chosen, or null when put away. */
export function question<K extends string>(title: string, words: (string | Node)[], answers: [K, string, ("main" | "plain")?][]): Promise<K | null> {
  return new Promise((resolve) => {
    const heading = h("h2", { id: "question-title" }, title);
    const dialog = h("dialog", { class: "question", "aria-labelledby": "question-title" }, heading);
    for (const line of words) dialog.append(typeof line === "string" ? h("p", {}, line) : line);
    const row = h("div", { class: "answers" });
    for (const [key, label, kind] of answers)
      row.append(
        button(label, {
          class: kind ?? "plain",
          onclick: () => {
            resolve(key);
            dialog.close();
          },
        }),
      );
    add(dialog, row);
    dialog.addEventListener("close", () => {
      resolve(null);
      dialog.remove();
    });
    document.body.append(dialog);
    dialog.showModal();
  });
}

/** A question answered by words. Resolves to null when put away. */
export function questionFor(title: string, label: string, start: string, go: string): Promise<string | null> {
  return new Promise((resolve) => {
    const input = h("input", { type: "text", value: start, maxlength: 80, autocomplete: "off" });
    const form = h("form", { method: "dialog" });
    const dialog = h("dialog", { class: "question", "aria-labelledby": "question-title" }, h("h2", { id: "question-title" }, title), form);
    add(
      form,
      h("label", { class: "field" }, h("span", { class: "field-name" }, label), input),
      h("div", { class: "answers" }, h("button", { class: "main" }, go), button("Leave it", { onclick: () => dialog.close() })),
    );
    form.addEventListener("submit", () => resolve(input.value));
    dialog.addEventListener("close", () => {
      resolve(null);
      dialog.remove();
    });
    document.body.append(dialog);
    dialog.showModal();
    input.select();
  });
}
