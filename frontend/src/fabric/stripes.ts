// The piece as bars of colour, a row a bar: where each stretch of a self-striping yarn falls.

import { h } from "../dom";
import type { Striped } from "../panels/yarn";

const NS = "http://www.w3.org/2000/svg";
const WIDE = 640;

export function stripes(told: Striped): HTMLElement {
  const rows = told.rows;
  const high = Math.max(3, Math.min(9, 520 / Math.max(1, rows.length)));
  const most = Math.max(1, ...rows.map((row) => row.stitches));
  const svg = document.createElementNS(NS, "svg");
  svg.setAttribute("viewBox", `0 0 ${WIDE} ${Math.ceil(rows.length * high)}`);
  svg.setAttribute("role", "img");
  svg.setAttribute("class", "stripes");
  svg.setAttribute("aria-label", `${rows.length} rows in the colours as they fall, the first row at the foot: ${told.colours.join(", ")}. The table below lists every change.`);
  rows.forEach((row, at) => {
    const wide = (row.stitches / most) * WIDE;
    const y = (rows.length - 1 - at) * high;
    let from = 0;
    for (const [to, colour] of row.stretches) {
      const rect = document.createElementNS(NS, "rect");
      const [low, top] = row.direction >= 0 ? [from, to] : [1 - to, 1 - from];
      rect.setAttribute("x", (low * wide).toFixed(2));
      rect.setAttribute("y", y.toFixed(2));
      rect.setAttribute("width", Math.max(0.2, (top - low) * wide).toFixed(2));
      rect.setAttribute("height", (high + 0.15).toFixed(2));
      rect.setAttribute("fill", told.hues[colour] ?? "#888888");
      const title = document.createElementNS(NS, "title");
      title.textContent = `${row.label}: ${colour}`;
      rect.append(title);
      svg.append(rect);
      from = to;
    }
  });
  return h("div", { class: "stripes-box" }, svg);
}
