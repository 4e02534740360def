// The large buttons of the log: the same on the worktable and on the phone.

import { button, fill, h } from "../dom";

export interface LogEntry {
  id: number;
  kind: "row" | "ripped" | "grams" | "minutes" | "hook" | "note";
  at: number;
  row: number | null;
  value: number | null;
  words: string;
}
export interface LogState {
  entries: LogEntry[];
  plan: { part: string; label: string; words: string; total: number; side: string }[];
  row: number;
  stitches: number;
  minutes: number;
  minutes_from: string;
  seconds_per_stitch: number | null;
  grams_used: number | null;
  grams_stitches: number;
  hook_mm: number | null;
  ripped: number;
  written: string[];
  shared: { address: string; code: string | null; pattern: string; here: boolean } | null;
  pattern?: string;
}

interface Deeds {
  write: (entry: Record<string, unknown>) => Promise<LogState>;
  undo: (id: number) => Promise<LogState>;
  changed: (state: LogState) => void;
  trouble: (reason: unknown) => void;
}

export function buttons(deeds: Deeds): { box: HTMLElement; show: (state: LogState) => void } {
  const next = h("div", { class: "log-next", "aria-live": "polite" });
  const done = h("button", { type: "button", class: "tap main" });
  const rip = h("button", { type: "button", class: "tap" }, "Ripped back …");
  const undo = button("Undo the last tap", { icon: "undo", class: "tap small-tap" });
  const own = h("details", { class: "own-words" }, h("summary", {}, "Worked otherwise?"));
  const words = h("textarea", { rows: 2, maxlength: 2000, "aria-label": "How the row was worked" });
  const count = h("input", { type: "number", inputmode: "numeric", min: 0, max: 100000, "aria-label": "Stitches counted" });
  own.append(h("label", { class: "field" }, h("span", { class: "field-name" }, "How the row was worked"), words), h("label", { class: "field" }, h("span", { class: "field-name" }, "Stitches counted"), count));
  const figures = h("div", { class: "log-figures" });
  const past = h("ol", { class: "log-past", tabindex: "0", "aria-label": "What was logged" });
  const box = h("div", { class: "log-box" }, next, done, own, h("div", { class: "taps" }, rip, undo), figures, h("h3", {}, "So far"), past);
  let state: LogState | null = null;

  const write = async (entry: Record<string, unknown>): Promise<void> => {
    try {
      show(await deeds.write(entry));
    } catch (reason) {
      deeds.trouble(reason);
    }
  };
  done.addEventListener("click", () => {
    if (!state) return;
    const counted = count.value.trim() === "" ? null : Number(count.value);
    void write({ kind: "row", row: state.row + 1, value: counted, words: words.value.trim() });
    words.value = "";
    count.value = "";
  });
  rip.addEventListener("click", () => {
    if (state) void ripTo(state.row).then((row) => (row === null ? undefined : write({ kind: "ripped", row })));
  });
  undo.addEventListener("click", () => {
    const last = state?.entries.at(-1);
    if (last) void deeds.undo(last.id).then(show).catch(deeds.trouble);
  });
  for (const [kind, label, unit, step] of [
    ["grams", "On the scale", "g", "0.1"],
    ["minutes", "Minutes worked", "min", "1"],
    ["hook", "Hook now", "mm", "0.25"],
  ] as const) {
    const input = h("input", { type: "number", inputmode: "decimal", min: 0, max: 100000, step, "aria-label": `${label}, in ${unit}` });
    const form = h("form", { class: "log-figure" }, h("label", {}, h("span", { class: "field-name" }, label), h("span", { class: "with-unit" }, input, h("span", {}, unit))), h("button", { type: "submit", class: "plain" }, "Log"));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      if (input.value.trim() === "") return;
      void write({ kind, value: Number(input.value) });
      input.value = "";
    });
    figures.append(form);
  }

  const show = (given: LogState): void => {
    if (state && JSON.stringify(given) === JSON.stringify(state)) return;
    state = given;
    const coming = given.plan[given.row];
    const last = given.plan[given.row - 1];
    fill(
      next,
      h("p", { class: "log-row" }, coming ? `Now: ${coming.part && given.plan[0]?.part !== given.plan.at(-1)?.part ? `${coming.part} · ` : ""}${coming.label}` : given.plan.length ? "Every row is done." : `Row ${given.row + 1}`),
      coming ? h("p", { class: "log-words" }, coming.words) : null,
      coming ? h("p", { class: "hint" }, `${coming.total} when it is done, ${coming.side === "RS" ? "right side" : "wrong side"} facing${last ? `; the row below has ${last.total}` : ""}.`) : null,
    );
    fill(done, coming ? `${coming.label} done` : `Row ${given.row + 1} done`);
    rip.disabled = given.row === 0;
    undo.disabled = given.entries.length === 0;
    fill(past, ...given.entries.slice(-40).reverse().map((entry) => h("li", {}, h("span", {}, said(entry, given)), h("time", {}, new Date(entry.at * 1000).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" })))));
    past.hidden = given.entries.length === 0;
    deeds.changed(given);
  };
  return { box, show };
}

function said(entry: LogEntry, state: LogState): string {
  const label = (row: number | null): string => (row ? (state.plan[row - 1]?.label ?? `Row ${row}`) : "the start");
  switch (entry.kind) {
    case "row":
      return `${label(entry.row)} done${entry.value === null ? "" : `, ${entry.value} stitches`}${entry.words ? `: ${entry.words}` : ""}`;
    case "ripped":
      return `Ripped back to ${label(entry.row)}`;
    case "grams":
      return `${entry.value} g on the scale`;
    case "minutes":
      return `${entry.value} minutes`;
    case "hook":
      return `Hook ${entry.value} mm`;
    default:
      return entry.words;
  }
}

/** Ask which row still stands. */
function ripTo(now: number): Promise<number | null> {
  return new Promise((resolve) => {
    const input = h("input", { type: "number", inputmode: "numeric", min: 0, max: Math.max(0, now - 1), value: Math.max(0, now - 1) });
    const form = h("form", { method: "dialog" });
    const dialog = h("dialog", { class: "question", "aria-labelledby": "rip-title" }, h("h2", { id: "rip-title" }, "Ripped back"), form);
    form.append(
      h("label", { class: "field" }, h("span", { class: "field-name" }, "The last row that still stands (0 = everything is ripped)"), input),
      h("div", { class: "answers" }, h("button", { class: "main" }, "Log it"), button("Leave it", { onclick: () => dialog.close() })),
    );
    form.addEventListener("submit", () => resolve(input.value.trim() === "" ? null : Math.max(0, Math.min(now, Math.round(Number(input.value))))));
    dialog.addEventListener("close", () => {
      resolve(null);
      dialog.remove();
    });
    document.body.append(dialog);
    dialog.showModal();
    input.select();
  });
}
