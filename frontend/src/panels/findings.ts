// The list under the page: everything a maker should look at, in the order of the text.

import { add, button, fill, h } from "../dom";
import { mend, show } from "../page/editor";
import { SIGNS, sign, working } from "../page/card";
import { now, on, type Finding, type Proof } from "../store";

const HOW_MANY: Record<Finding["severity"], [string, string]> = {
  error: ["to mend", "to mend"],
  warning: ["to look at", "to look at"],
  note: ["note", "notes"],
};

let open = true;
let only: Finding["severity"] | null = null;

export function makeFindings(): HTMLElement {
  const list = h("ol", { class: "finding-list", tabindex: "0", "aria-label": "Findings" });
  const head = h("div", { class: "findings-head" });
  const box = h("section", { class: "findings", "aria-label": "What to look at" }, head, list);
  const draw = (): void => {
    const proof = now.proof;
    box.dataset["open"] = String(open);
    fill(head, ...heading(proof, draw));
    fill(list);
    list.hidden = !open || !proof || proof.findings.length === 0;
    if (list.hidden || !proof) return;
    for (const finding of proof.findings.filter((one) => only === null || one.severity === only)) list.append(entry(finding));
    if (proof.more_findings) list.append(h("li", { class: "more" }, `and ${proof.more_findings} more; mend these first.`));
  };
  on("proof", draw);
  on("opened", draw);
  draw();
  return box;
}

function heading(proof: Proof | null, draw: () => void): (Node | null)[] {
  if (!proof) return [h("p", { class: "verdict" }, "Reading …")];
  if (proof.trouble) return [h("p", { class: "verdict" }, proof.trouble)];
  const counts = (["error", "warning", "note"] as const).map((kind) => [kind, proof.findings.filter((one) => one.severity === kind).length] as const);
  const there = counts.filter(([, count]) => count);
  if (!there.length) return [h("p", { class: "verdict well" }, h("span", { "aria-hidden": "true" }, "✓ "), verdict(proof))];
  const filters = there.map(([kind, count]) =>
    button(`${count} ${HOW_MANY[kind][count === 1 ? 0 : 1]}`, {
      class: `tally ${kind}`,
      "aria-pressed": String(only === kind),
      title: only === kind ? "Show all" : `Show only these`,
      onclick: () => {
        only = only === kind ? null : kind;
        draw();
      },
    }),
  );
  const toggle = button(open ? "Fold" : "Unfold", { class: "link", "aria-expanded": String(open), onclick: () => ((open = !open), draw()) });
  return [h("div", { class: "tallies", role: "group", "aria-label": "Show only" }, ...filters), toggle];
}

function verdict(proof: Proof): string {
  const rows = proof.rows.length;
  if (!rows) return now.text.trim() ? "No rows found yet. A row begins with its label: “Row 1:”." : "An empty page.";
  const agreeing = proof.rows.filter((row) => row.state === "agrees").length;
  const apart = proof.rows.filter((row) => row.state === "uncompared").length;
  const others = [agreeing + apart < rows ? "the others state none" : "", apart ? `${apart} state${apart === 1 ? "s" : ""} what was not counted` : ""];
  return [`Nothing to mend. ${agreeing} of ${rows} written rows agree with their stated count`, ...others.filter(Boolean)].join("; ") + ".";
}

function entry(finding: Finding): HTMLLIElement {
  const where = [finding.part, finding.row].filter(Boolean).join(" · ");
  const item = h("li", { class: `finding ${finding.severity}` });
  const go = h("button", { type: "button", class: "finding-go", title: "Go to the words", onclick: () => show(finding.at) }, sign(finding.severity));
  add(go, h("span", { class: "finding-words" }, where ? h("span", { class: "where" }, where) : null, h("span", { class: "message" }, finding.message)));
  add(item, go);
  const more = h("div", { class: "finding-more" });
  if (finding.working.length)
    more.append(h("details", {}, h("summary", {}, "How this was worked out"), working(finding.working)));
  const repair = finding.repair;
  if (repair?.edits.length && repair.grade !== "shown") more.append(button(repair.title, { class: "plain small", icon: "needle", onclick: () => mend(finding) }));
  else if (repair) more.append(h("p", { class: "cure" }, repair.title));
  if (more.childElementCount) item.append(more);
  return item;
}

export { SIGNS };
