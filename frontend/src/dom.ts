// The only ways this page makes elements. Text always goes in as text: there is no innerHTML anywhere.

type Child = Node | string | number | null | undefined | false;
type Attributes = Record<string, string | number | boolean | null | undefined | ((event: never) => void)>;

/** An element with attributes (`on…` are listeners, false/null are left out) and children. */
export function h<K extends keyof HTMLElementTagNameMap>(tag: K, attributes: Attributes = {}, ...children: (Child | Child[])[]): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (typeof value === "function") element.addEventListener(name.slice(2).toLowerCase(), value as EventListener);
    else element.setAttribute(name, value === true ? "" : String(value));
  }
  add(element, ...children);
  return element;
}

/** Put children into an element; strings become text. */
export function add(parent: Element, ...children: (Child | Child[])[]): void {
  for (const child of children.flat()) {
    if (child === null || child === undefined || child === false) continue;
    parent.append(child instanceof Node ? child : String(child));
  }
}

/** Replace everything in an element. */
export function fill(parent: Element, ...children: (Child | Child[])[]): void {
  parent.replaceChildren();
  add(parent, ...children);
}

const unfolded = new Set<string>();

/** A list that is folded until asked for, and stays as she left it when a new answer builds it again. `place` tells lists of one name apart. */
export function folding(place: string, summary: string, attributes: Attributes, ...children: (Child | Child[])[]): HTMLDetailsElement {
  const key = `${place}: ${summary}`;
  const made = h("details", { ...attributes, open: unfolded.has(key) }, h("summary", {}, summary), ...children);
  // "toggle" comes later than the click, and not at all for an element that was replaced meanwhile: what counts is the click itself.
  made.querySelector("summary")?.addEventListener("click", () => (made.open ? unfolded.delete(key) : unfolded.add(key)));
  return made;
}

const SVG = "http://www.w3.org/2000/svg";

/** Our icons: one 20 × 20 stroke each, drawn for this page. */
const STROKES: Record<string, string> = {
  plus: "M10 4v12M4 10h12",
  minus: "M4 10h12",
  close: "M5 5l10 10M15 5L5 15",
  shelf: "M3.5 4v13M16.5 4v13M3.5 9h13M3.5 15h13M6 9V5.5h2.5V9M10 9V4.5h2.5V9M7 15v-3h5v3",
  sun: "M10 6.5a3.5 3.5 0 1 1 0 7a3.5 3.5 0 0 1 0-7M10 2v2M10 16v2M2 10h2M16 10h2M4.4 4.4l1.4 1.4M14.2 14.2l1.4 1.4M4.4 15.6l1.4-1.4M14.2 5.8l1.4-1.4",
  moon: "M15.5 12.2A6.5 6.5 0 0 1 7.8 4.5a6.5 6.5 0 1 0 7.7 7.7z",
  fit: "M4 8V4h4M16 8V4h-4M4 12v4h4M16 12v4h-4",
  print: "M6 8V3.5h8V8M6 14H4V8h12v6h-2M6 12h8v4.5H6z",
  save: "M10 3v9M6.5 8.5L10 12l3.5-3.5M4 16h12",
  undo: "M4 8h8a4 4 0 0 1 0 8H8M4 8l3.5-3.5M4 8l3.5 3.5",
  more: "M5 10h.01M10 10h.01M15 10h.01",
  back: "M12.5 4.5L7 10l5.5 5.5",
  go: "M7.5 4.5L13 10l-5.5 5.5",
  needle: "M4 16L14 6M13 4.5a2.2 2.2 0 1 1 2.5 2.5M4 16l1-3",
  clock: "M10 3a7 7 0 1 1 0 14a7 7 0 0 1 0-14M10 6v4l3 2",
  phone: "M6.5 2.5h7v15h-7zM9 15h2",
  lamp: "M7 13.5c-1.6-1-2.5-2.4-2.5-4.2a5.5 5.5 0 0 1 11 0c0 1.8-.9 3.2-2.5 4.2zM8 16.5h4",
  bring: "M3.5 11v5.5h13V11M10 3v9M6.5 6.5L10 3l3.5 3.5",
  tick: "M4 10.5l4 4L16 6",
};

/** An icon; decorative, so it is hidden from screen readers: the button it stands in has words. */
export function icon(name: keyof typeof STROKES | string): SVGSVGElement {
  const svg = document.createElementNS(SVG, "svg");
  svg.setAttribute("viewBox", "0 0 20 20");
  svg.setAttribute("class", "icon");
  svg.setAttribute("aria-hidden", "true");
  const path = document.createElementNS(SVG, "path");
  path.setAttribute("d", STROKES[name] ?? "");
  svg.append(path);
  return svg;
}

/** A button with words, an icon, or both. `say` is its name when only the icon shows. */
export function button(words: string, attributes: Attributes & { icon?: string; bare?: boolean } = {}): HTMLButtonElement {
  const { icon: named, bare, ...rest } = attributes;
  const made = h("button", { type: "button", class: bare ? "bare" : "plain", ...rest });
  if (named) made.append(icon(named));
  if (bare && named) {
    made.setAttribute("aria-label", words);
    made.title = words;
  } else add(made, h("span", {}, words));
  return made;
}

/** A labelled field. The input is given; its label stands above it. */
export function field(label: string, input: HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement, hint?: string): HTMLLabelElement {
  return h("label", { class: "field" }, h("span", { class: "field-name" }, label), input, hint ? h("span", { class: "hint" }, hint) : null);
}

/** A choice between a few words, as radio buttons that look like one bar. */
export function choice<T extends string>(name: string, label: string, options: [T, string][], now: T, pick: (value: T) => void): HTMLFieldSetElement {
  const set = h("fieldset", { class: "choice" }, h("legend", { class: "sr" }, label));
  for (const [value, words] of options) {
    const input = h("input", { type: "radio", name, value, checked: value === now, onchange: () => pick(value) });
    set.append(h("label", {}, input, h("span", {}, words)));
  }
  return set;
}

let counter = 0;
export function uid(stem: string): string {
  counter += 1;
  return `${stem}-${counter}`;
}

export function byMetres(cm: number, units: "cm" | "in"): string {
  return units === "cm" ? `${round(cm, 1)} cm` : `${round(cm / 2.54, 2)} in`;
}

export function byLength(metres: number, units: "cm" | "in"): string {
  return units === "cm" ? `${round(metres, metres < 10 ? 1 : 0)} m` : `${round(metres / 0.9144, metres < 10 ? 1 : 0)} yd`;
}

export function byMass(grams: number, units: "cm" | "in"): string {
  return units === "cm" ? `${round(grams, grams < 10 ? 1 : 0)} g` : `${round(grams / 28.349523125, 2)} oz`;
}

export function round(value: number, places: number): string {
  return value.toLocaleString("en", { maximumFractionDigits: places, useGrouping: true });
}
