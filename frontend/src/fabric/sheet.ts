// A drawing on a sheet that can be zoomed and moved, by pointer and by keys.

import { button, fill, h } from "../dom";
import { drawing } from "./svg";

const LEAST = 0.1;
const MOST = 24;

export interface Sheet {
  box: HTMLElement;
  tools: HTMLElement;
  show: (svg: string, key: string) => SVGSVGElement | null;
  say: (words: string) => void;
  svg: () => SVGSVGElement | null;
  reveal: (element: Element) => void;
}

/** A sheet; `key` of `show` tells whether the zoom may stay (same drawing, redrawn) or starts anew. */
export function makeSheet(label: string): Sheet {
  const paper = h("div", { class: "paper" });
  const box = h("div", { class: "sheet", tabindex: "0", role: "region", "aria-label": label }, paper);
  let svg: SVGSVGElement | null = null;
  let natural: [number, number] = [1, 1];
  let scale = 1;
  let fitted = true;
  let lastKey = "";
  const apply = (): void => {
    if (!svg) return;
    svg.setAttribute("width", String(Math.round(natural[0] * scale)));
    svg.setAttribute("height", String(Math.round(natural[1] * scale)));
  };
  const room = (): [number, number] => [Math.max(80, box.clientWidth - 26), Math.max(80, box.clientHeight - 26)];
  const fit = (): void => {
    const [width, height] = room();
    scale = Math.min(width / natural[0], height / natural[1]);
    const wide = natural[0] * scale;
    if (wide < width * 0.22) scale = Math.min((width * 0.4) / natural[0], scale * 3);
    fitted = true;
    apply();
  };
  const zoom = (by: number, around?: [number, number]): void => {
    const before = scale;
    scale = Math.min(MOST, Math.max(LEAST, scale * by));
    fitted = false;
    const [x, y] = around ?? [box.clientWidth / 2, box.clientHeight / 2];
    const left = (box.scrollLeft + x) * (scale / before) - x;
    const top = (box.scrollTop + y) * (scale / before) - y;
    apply();
    box.scrollTo({ left, top });
  };
  box.addEventListener(
    "wheel",
    (event) => {
      if (!event.ctrlKey && !event.metaKey) return;
      event.preventDefault();
      const frame = box.getBoundingClientRect();
      zoom(Math.exp(-event.deltaY / 300), [event.clientX - frame.left, event.clientY - frame.top]);
    },
    { passive: false },
  );
  box.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "+" || event.key === "=") zoom(1.25);
    else if (event.key === "-") zoom(0.8);
    else if (event.key === "0") fit();
    else return;
    event.preventDefault();
  });
  drag(box);
  new ResizeObserver(() => {
    if (fitted && svg) fit();
  }).observe(box);
  const tools = h(
    "div",
    { class: "tools", role: "group", "aria-label": "Zoom" },
    button("Smaller", { icon: "minus", bare: true, onclick: () => zoom(0.8) }),
    button("Larger", { icon: "plus", bare: true, onclick: () => zoom(1.25) }),
    button("Whole drawing", { icon: "fit", bare: true, onclick: fit }),
  );
  return {
    box,
    tools,
    svg: () => svg,
    say: (words) => {
      svg = null;
      fill(paper, h("p", { class: "empty" }, words));
      paper.classList.add("bare-paper");
    },
    reveal: (element) => {
      const frame = box.getBoundingClientRect();
      const at = element.getBoundingClientRect();
      const margin = 30;
      const out = at.bottom > frame.bottom - margin || at.top < frame.top + margin || at.left > frame.right - margin || at.right < frame.left + margin;
      if (!out) return;
      box.scrollBy({ left: at.left + at.width / 2 - frame.left - frame.width / 2, top: at.top + at.height / 2 - frame.top - frame.height / 2, behavior: matchMedia("(prefers-reduced-motion: reduce)").matches ? "instant" : "smooth" });
    },
    show: (text, key) => {
      const made = drawing(text);
      if (!made) return null;
      svg = made;
      const view = (made.getAttribute("viewBox") ?? "0 0 100 100").split(/[\s,]+/).map(Number);
      natural = [(view[2] ?? 100) * 3.78, (view[3] ?? 100) * 3.78];
      const keep = key === lastKey;
      lastKey = key;
      const [left, top] = [box.scrollLeft, box.scrollTop];
      paper.classList.remove("bare-paper");
      fill(paper, made);
      if (keep && !fitted) {
        apply();
        box.scrollTo({ left, top });
      } else fit();
      return made;
    },
  };
}

/** Moving the sheet by dragging it with the pointer. */
function drag(box: HTMLElement): void {
  let from: [number, number, number, number] | null = null;
  box.addEventListener("pointerdown", (event) => {
    if (event.button !== 0 || event.pointerType === "touch") return;
    from = [event.clientX, event.clientY, box.scrollLeft, box.scrollTop];
  });
  box.addEventListener("pointermove", (event) => {
    if (!from || !(event.buttons & 1)) return;
    const [x, y] = [event.clientX - from[0], event.clientY - from[1]];
    if (Math.abs(x) + Math.abs(y) < 5) return;
    box.classList.add("dragging");
    box.scrollTo(from[2] - x, from[3] - y);
  });
  addEventListener("pointerup", () => {
    from = null;
    setTimeout(() => box.classList.remove("dragging"));
  });
}
