// One finding, told: what, the working step by step, and its repair. The same card stands in the list and at the underline.

import { button, h } from "../dom";
import type { Finding } from "../store";

export const SIGNS: Record<Finding["severity"], [string, string]> = {
  error: ["✕", "To mend"],
  warning: ["!", "To look at"],
  note: ["i", "Note"],
};

export function sign(severity: Finding["severity"]): HTMLElement {
  const [mark, words] = SIGNS[severity];
  return h("span", { class: `severity ${severity}` }, h("span", { "aria-hidden": "true" }, mark), h("span", { class: "sr" }, words));
}

export function findingCard(finding: Finding, deeds: { mend: () => void }): HTMLElement {
  const card = h("div", { class: "finding-card" }, h("p", { class: "message" }, sign(finding.severity), h("span", {}, finding.message)));
  if (finding.working.length) card.append(working(finding.working));
  const repair = finding.repair;
  if (repair) card.append(h("div", { class: "repair" }, repair.grade === "shown" || !repair.edits.length ? h("p", {}, repair.title) : button(repair.title, { class: "main small", icon: "needle", onclick: deeds.mend })));
  return card;
}

export function working(lines: string[]): HTMLElement {
  return h("ol", { class: "working" }, ...lines.map((line) => h("li", {}, line)));
}
