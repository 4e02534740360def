// Everything one publishes, at a click, with progress and cancel.

import { button, choice, fill, h } from "../dom";
import { trouble } from "../notice";
import { now, on } from "../store";
import { ask, Stale } from "../wire";
import { panel } from "./parts";
import type { Side } from "./tabs";

interface Published {
  folder: string;
  files: { name: string; size: number; what: string }[];
  stamp: string;
}

export function makePublish(): Side {
  const body = panel("Publish", "Booklet, web page, pictures and checked text, all from the one worked fabric, under one stamp.");
  const stage = h("div", { class: "publish" });
  let terms: "as written" | "US" | "UK" = "as written";
  let paper: "a5" | "a4" | "letter" = "a5";
  const go = button("Publish", { class: "main", icon: "save", onclick: () => void run() });
  const before = h("p", { class: "told" });
  body.append(
    choice("publish-terms", "Terms shown first", [["as written", "As written"], ["US", "US terms first"], ["UK", "UK terms first"]], terms, (value) => (terms = value)),
    choice("publish-paper", "Paper", [["a5", "A5"], ["a4", "A4"], ["letter", "US letter"]], paper, (value) => (paper = value)),
    before,
    go,
    stage,
  );

  const run = async (): Promise<void> => {
    const stop = new AbortController();
    const bar = h("progress", { max: 6, value: 0, "aria-label": "Publishing" });
    const step = h("p", { class: "hint", role: "status" }, "Beginning …");
    fill(stage, h("div", { class: "card" }, bar, step, button("Cancel", { onclick: () => stop.abort() })));
    go.disabled = true;
    try {
      const made = await ask<Published>(
        "publish",
        { terms, paper },
        ({ done, of, words }) => {
          bar.max = of;
          bar.value = done;
          fill(step, words);
        },
        stop.signal,
      );
      show(made);
    } catch (reason) {
      if (reason instanceof Stale) fill(stage, h("p", { class: "told", role: "status" }, "Cancelled. Nothing was written."));
      else {
        fill(stage);
        trouble(reason);
      }
    } finally {
      go.disabled = false;
    }
  };

  const show = (made: Published): void => {
    const list = h("ul", { class: "files" });
    for (const file of made.files) {
      const href = `/published/${encodeURIComponent(now.name)}/${file.name.split("/").map(encodeURIComponent).join("/")}`;
      list.append(
        h(
          "li",
          {},
          h("a", { href, target: "_blank", rel: "noopener" }, file.name),
          h("span", { class: "hint" }, `${file.what} · ${size(file.size)}`),
          h("a", { href, download: file.name.split("/").at(-1), class: "link", "aria-label": `Save ${file.name}` }, "Save"),
        ),
      );
    }
    fill(stage, h("section", { class: "card", tabindex: "-1" }, h("h3", {}, "Published"), h("p", {}, "In the folder ", h("strong", {}, made.folder), made.stamp ? `, stamp ${made.stamp}.` : "."), list));
  };

  const warn = (): void => {
    const errors = now.proof?.findings.filter((one) => one.severity === "error").length ?? 0;
    fill(before, errors ? `${errors} ${errors === 1 ? "finding is" : "findings are"} still to mend; a follower would meet ${errors === 1 ? "it" : "them"}.` : "");
    before.hidden = !errors;
  };
  on("proof", warn);
  on("opened", () => fill(stage));
  return { key: "publish", name: "Publish", body, shown: warn };
}

function size(bytes: number): string {
  return bytes < 1000 ? `${bytes} B` : bytes < 1_000_000 ? `${Math.round(bytes / 1000)} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`;
}
