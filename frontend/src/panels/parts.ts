// Pieces that several sides of the table share.

import { add, folding, h } from "../dom";

/** A panel with a heading and a line that says what it is for. */
export function panel(title: string, lead: string, ...children: Node[]): HTMLElement {
  return h("section", { class: "panel" }, h("h2", {}, title), h("p", { class: "lead" }, lead), ...children);
}

/** A card with a heading. */
export function card(title: string, ...children: (Node | string | null)[]): HTMLElement {
  const made = h("section", { class: "card" }, h("h3", {}, title));
  add(made, ...children);
  return made;
}

/** A figure with what it is: the large number first. */
export function figure(value: string, name: string, range?: string): HTMLElement {
  return h("div", { class: "figure" }, h("span", { class: "figure-value" }, value), range ? h("span", { class: "figure-range" }, range) : null, h("span", { class: "figure-name" }, name));
}

/** How an answer was worked out, folded; `answer` is which one. */
export function because(lines: string[], answer: string, title = "How this was worked out"): HTMLElement | null {
  if (!lines.length) return null;
  return folding(answer, title, { class: "because" }, h("ul", {}, ...lines.map((line) => h("li", {}, line))));
}

/** A table in a box that scrolls by itself. */
export function table(caption: string, heads: string[], rows: (string | Node)[][], numbers: number[] = []): HTMLElement {
  return h(
    "div",
    { class: "scroll table-box", tabindex: "0", role: "region", "aria-label": caption },
    h(
      "table",
      {},
      h("caption", { class: "sr" }, caption),
      h("thead", {}, h("tr", {}, ...heads.map((name, at) => h("th", { scope: "col", class: numbers.includes(at) ? "n" : "" }, name)))),
      h("tbody", {}, ...rows.map((cells) => h("tr", {}, ...cells.map((cell, at) => (at === 0 ? h("th", { scope: "row" }, cell) : h("td", { class: numbers.includes(at) ? "n" : "" }, cell)))))),
    ),
  );
}

/** Run `act` a moment after the last call. */
export function soon(act: () => void, ms = 250): () => void {
  let timer = 0;
  return () => {
    clearTimeout(timer);
    timer = window.setTimeout(act, ms);
  };
}

/** A number as a person types it: "1,5" and "1.5" are the same. Null when it is none. */
export function typedNumber(words: string): number | null {
  const clean = words.trim().replace(",", ".");
  if (clean === "" || !/^-?\d*\.?\d+$/.test(clean)) return null;
  return Number(clean);
}
