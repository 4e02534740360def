// The log at the hook, on the worktable: what the phone shows too, and what the log amounts to.

import { button, fill, h } from "../dom";
import { notice, trouble } from "../notice";
import { append, change } from "../page/editor";
import { now, on, type Edit } from "../store";
import { api, ask } from "../wire";
import { buttons, type LogState } from "../log/buttons";
import { card, panel } from "./parts";
import type { Side } from "./tabs";

export function makeLog(): Side {
  const body = panel("Log at the hook", "Tap as you work. The log becomes rows, your pace and a weighed swatch.");
  const place = h("div", { class: "log" });
  const made = h("div", { class: "log-made" });
  body.append(place, made);
  let shown = false;
  const path = (): string => `/api/log/${encodeURIComponent(now.name)}`;

  const taps = buttons({
    write: (entry) => api<LogState>("POST", path(), entry),
    undo: (id) => api<LogState>("DELETE", `${path()}/${id}`),
    changed: (state) => amounts(state),
    trouble,
  });
  place.append(taps.box);

  const read = async (): Promise<void> => {
    if (!now.name) return;
    try {
      taps.show(await api<LogState>("GET", path()));
    } catch (reason) {
      fill(made, h("p", { class: "empty" }, reason instanceof Error ? reason.message : ""));
    }
  };

  const amounts = (state: LogState): void => {
    fill(made, phone(state, read), summary(state));
  };

  on("opened", () => shown && void read());
  // The phone writes too: look again while the log is in sight.
  setInterval(() => {
    if (shown && !document.hidden && now.name) void read();
  }, 4000);
  return {
    key: "log",
    name: "Log",
    body,
    shown: () => {
      shown = true;
      void read();
    },
    hidden: () => (shown = false),
  };
}

function phone(state: LogState, again: () => Promise<void>): HTMLElement {
  const shared = state.shared;
  if (!shared)
    return card(
      "On your phone",
      h("p", {}, "While you allow it, a phone on the same network can open this log, and nothing else. It ends with this session."),
      button("Allow a phone", { icon: "phone", onclick: () => void api("POST", "/api/share", { name: now.name }).then(again).catch(trouble) }),
    );
  return card(
    "On your phone",
    h("p", {}, "Open this address on the phone:"),
    h("p", { class: "address" }, shared.address),
    shared.code ? h("p", {}, "and enter this code. It works once:") : h("p", {}, "A phone has been let in. Allow again for a new code."),
    shared.code ? h("p", { class: "code", "aria-label": `Code ${[...shared.code].join(" ")}` }, shared.code) : null,
    button("Stop", { onclick: () => void api("DELETE", "/api/share").then(again).catch(trouble) }),
  );
}

function summary(state: LogState): HTMLElement {
  const list = h("ul", { class: "deeds" });
  if (state.written.length)
    list.append(
      h("li", {}, h("span", {}, `${state.written.length} rows told at the hook`), button("Write them into the pattern", { class: "plain small", onclick: () => (append(`${state.written.join("\n")}\n`), notice("The rows were written at the end of the pattern.")) })),
    );
  if (state.seconds_per_stitch)
    list.append(
      h("li", {}, h("span", {}, `Your pace: ${state.seconds_per_stitch} s a stitch (minutes ${state.minutes_from})`), button("Take this pace", { class: "plain small", onclick: () => void take("pace.st", state.seconds_per_stitch) })),
    );
  if (state.grams_used && state.grams_stitches)
    list.append(
      h(
        "li",
        {},
        h("span", {}, `${state.grams_used} g went into ${state.grams_stitches} stitches`),
        button("Take this as a swatch", { class: "plain small", onclick: () => void take("swatches.+", { yarn: now.proof?.yarns[0] ?? "A", in: mainStitch(state), stitches: state.grams_stitches, rows: 1, grams: state.grams_used }) }),
      ),
    );
  if (!list.childElementCount) list.append(h("li", { class: "empty" }, "Weigh the ball twice, or log a few rows, and figures appear here."));
  return card("What the log gives", list);
}

function mainStitch(state: LogState): string {
  const words = state.plan.map((row) => row.words).join(" ").toLowerCase();
  const kinds = ["sc", "hdc", "dc", "tr"];
  const uk = now.proof?.terms === "UK";
  const said = uk ? ["dc", "htr", "tr", "dtr"] : kinds;
  const counts = said.map((word) => words.split(new RegExp(`\\b${word}\\b`)).length - 1);
  return kinds[counts.indexOf(Math.max(...counts))] ?? "dc";
}

async function take(key: string, value: unknown): Promise<void> {
  try {
    const { edits } = await ask<{ edits: Edit[] }>("fact", { key, value });
    if (edits.length) change(edits, "fact");
    notice("Written into the head of the pattern.");
  } catch (reason) {
    trouble(reason);
  }
}
