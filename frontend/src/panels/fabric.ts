// The fabric: the worked piece as chart, outline, colours, in the round, row by row, and in words.

import { button, choice, fill, folding, h } from "../dom";
import { trouble } from "../notice";
import { lightWords, show as showWords } from "../page/editor";
import { SAID } from "../page/margin";
import { now, on, wish, type At, type RowInfo } from "../store";
import { ask, download, Stale } from "../wire";
import { makeSheet, type Sheet } from "../fabric/sheet";
import type { Side } from "./tabs";

type View = "chart" | "outline" | "colours" | "round" | "rows" | "words";

interface Drawn {
  svg: string | null;
  parts: string[];
  part: number;
  told: string;
  why?: string;
}
interface Words {
  text: string;
  terms: string;
}

const VIEWS: [View, string][] = [
  ["chart", "Chart"],
  ["outline", "Outline"],
  ["colours", "Colours"],
  ["round", "3-D"],
  ["rows", "Rows"],
  ["words", "Words"],
];

export function makeFabric(): Side {
  let view: View = "chart";
  let part = 0;
  let whole = false;
  let shown = false;
  let drawnFor = "";
  const sheet: Sheet = makeSheet("The drawing");
  const told = h("div", { class: "told" });
  const partPick = h("select", { "aria-label": "Part shown", hidden: true });
  const stage = h("div", { class: "stage" });
  const body = h("section", { class: "fabric" });
  const bar = h("div", { class: "bar" });
  const round = h("div", { class: "round" });
  let stop3d: (() => void) | null = null;

  partPick.addEventListener("change", () => {
    part = Number(partPick.value);
    drawnFor = "";
    void draw();
  });

  const dressBar = (): void => {
    const picture = view === "chart" || view === "outline" || view === "colours";
    fill(
      bar,
      choice("fabric-view", "How the fabric is shown", VIEWS, view, (value) => {
        view = value;
        drawnFor = "";
        dressBar();
        void draw();
      }),
      h("span", { class: "spring" }),
      picture || view === "round" ? partPick : null,
      view === "words" || view === "chart"
        ? choice("fabric-terms", "Terms", [["as written", "As written"], ["US", "US"], ["UK", "UK"]], now.wishes.terms, (value) => wish({ terms: value }))
        : null,
      view === "chart" || view === "colours" ? toggle(view === "chart" ? "Every row" : "Other beginnings", whole, (yes) => ((whole = yes), (drawnFor = ""), void draw())) : null,
      picture ? sheet.tools : null,
      picture ? saving() : null,
    );
  };

  const saving = (): HTMLElement => {
    const menu = h("div", { class: "menu", id: "saving", popover: "auto" });
    for (const [form, words] of [["svg", "SVG, to scale without loss"], ["png", "PNG, a picture"], ["pdf", "PDF, to print"]] as const)
      menu.append(
        button(words, {
          class: "menu-line",
          onclick: () => {
            menu.hidePopover();
            void download("/api/picture", { ...wishes(), view, form, text: now.text, name: now.name }).catch(trouble);
          },
        }),
      );
    menu.append(button("Print", { class: "menu-line", icon: "print", onclick: () => (menu.hidePopover(), print()) }));
    const opener = button("Save or print", { icon: "save", bare: true });
    opener.setAttribute("popovertarget", "saving");
    return h("span", { class: "menu-holder" }, opener, menu);
  };

  const wishes = (): Record<string, unknown> => ({ part, whole, hand: now.wishes.hand, units: now.wishes.units, terms: now.wishes.terms });

  const draw = async (): Promise<void> => {
    if (!shown) return;
    const key = `${now.version} ${view} ${JSON.stringify(wishes())} ${now.size}`;
    if (key === drawnFor) return;
    drawnFor = key;
    if (view !== "round") {
      stop3d?.();
      stop3d = null;
    }
    if (!now.text.trim()) return nothing("The fabric appears here as you write.");
    if (view === "rows") return rows();
    body.classList.add("working");
    try {
      if (view === "words") await words();
      else if (view === "round") await inTheRound();
      else await pictured(view);
    } catch (reason) {
      if (!(reason instanceof Stale)) nothing(reason instanceof Error ? reason.message : "This could not be drawn.");
    } finally {
      if (key === drawnFor) body.classList.remove("working");
    }
  };

  const nothing = (words: string): void => {
    sheet.say(words);
    fill(told);
    fill(stage, sheet.box, told);
  };

  /** What the drawing says in words: its first sentence, the rest (a row a sentence) folded. */
  const tell = (words: string): void => {
    const end = words.search(/\. (?=[A-Z])/);
    const [first, rest] = end > 0 && words.length > 220 ? [words.slice(0, end + 1), words.slice(end + 2)] : [words, ""];
    fill(told, first, rest ? folding("drawing", "Row by row in words", {}, rest) : null);
  };

  const parts = (names: string[], at: number): void => {
    part = at;
    partPick.hidden = names.length < 2;
    fill(partPick, ...names.map((name, number) => h("option", { value: number, selected: number === at }, name || "Piece")));
  };

  const pictured = async (what: View): Promise<void> => {
    const answer = await ask<Drawn>(what, wishes());
    if (view !== what) return;
    parts(answer.parts, answer.part);
    tell(answer.told);
    if (!stage.contains(sheet.box)) fill(stage, sheet.box, told);
    if (!answer.svg) return nothing(answer.why ?? "There is nothing to draw yet.");
    sheet.box.dataset["view"] = what;
    const svg = sheet.show(answer.svg, `${now.name} ${what} ${part}`);
    if (what === "chart" && svg) light(false);
    document.documentElement.dataset["drawn"] = String(now.version);
  };

  const light = (reveal: boolean): void => {
    const svg = sheet.svg();
    if (!svg || view !== "chart") return;
    for (const lit of svg.querySelectorAll(".lit, .foot, .picked")) lit.classList.remove("lit", "foot", "picked");
    svg.classList.remove("has-lit");
    const row = now.row === null ? undefined : now.proof?.rows[now.row];
    const first = row?.fabric[0];
    const last = row?.fabric.at(-1);
    if (!row || !first || !last || first[0] !== part) return;
    let one: Element | null = null;
    for (const group of svg.querySelectorAll<SVGElement>("g.row")) {
      const at = Number(group.dataset["row"]);
      if (at < first[1] || at > last[1]) continue;
      group.classList.add("lit");
      one ??= group;
    }
    if (!one) return;
    svg.classList.add("has-lit");
    if (reveal) sheet.reveal(one);
    void feet(svg, first[1], row);
  };

  const feet = async (svg: SVGSVGElement, rowIndex: number, row: RowInfo): Promise<void> => {
    const version = now.version;
    const stand = await ask<[number, number][]>("stand", { part, row: rowIndex }).catch(() => []);
    if (sheet.svg() !== svg || version !== now.version || now.proof?.rows[now.row ?? -1] !== row) return;
    for (const [inRow, stitch] of stand) svg.querySelector(`use[data-row="${inRow}"][data-stitch="${stitch}"]`)?.classList.add("foot");
  };

  sheet.box.addEventListener("click", (event) => {
    if (sheet.box.classList.contains("dragging") || view !== "chart") return;
    const hit = nearest(sheet.svg(), event);
    if (hit) void pick(hit);
  });

  const pick = async (hit: SVGElement): Promise<void> => {
    const answer = await ask<{ at: At; head: string; lines: string[] } | null>("stitch", { part, row: Number(hit.dataset["row"]), stitch: Number(hit.dataset["stitch"]) }).catch(() => null);
    if (!answer) return;
    lightWords(answer.at);
    for (const old of sheet.svg()?.querySelectorAll(".picked") ?? []) old.classList.remove("picked");
    hit.classList.add("picked");
    fill(told, h("strong", {}, answer.head), ` ${answer.lines.join(" · ")}`);
  };

  const rows = (): void => {
    body.classList.remove("working");
    const table = h("table", { class: "rows" }, h("caption", { class: "sr" }, "Every written row with its count"), h("thead", {}, h("tr", {}, ...["Row", "Count", "How it stands"].map((name) => h("th", { scope: "col" }, name)))));
    const lines = h("tbody");
    let before = "";
    for (const row of now.proof?.rows ?? []) {
      if (row.part !== before) lines.append(h("tr", { class: "part-line" }, h("th", { colspan: 3, scope: "rowgroup" }, row.part || "Piece")));
      before = row.part;
      const go = h("button", { type: "button", class: "link", onclick: () => showWords(row.at) }, row.label);
      lines.append(h("tr", { class: row.state }, h("th", { scope: "row" }, go), h("td", {}, row.full), h("td", {}, SAID[row.state])));
    }
    table.append(lines);
    fill(stage, h("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Rows" }, now.proof?.rows.length ? table : h("p", { class: "empty" }, "No rows yet.")));
  };

  const words = async (): Promise<void> => {
    const answer = await ask<Words>("write", { terms: now.wishes.terms });
    if (view !== "words") return;
    const copy = button("Copy", { class: "plain small", onclick: () => void navigator.clipboard.writeText(answer.text).catch(trouble) });
    fill(
      stage,
      h("div", { class: "words-head" }, h("span", { class: "hint" }, `In ${answer.terms} terms, from the worked pattern.`), copy),
      h("pre", { class: "words", tabindex: "0", role: "region", "aria-label": "The pattern in words" }, answer.text),
    );
  };

  const inTheRound = async (): Promise<void> => {
    const answer = await ask<import("../fabric/round").Shape3d>("round", wishes());
    if (view !== "round") return;
    parts(answer.parts, answer.part);
    if (!answer.meshes) return nothing(answer.why ?? "There is nothing to show in the round yet.");
    stop3d?.();
    fill(stage, round, told);
    const { show3d } = await import("../fabric/round");
    if (view !== "round") return;
    stop3d = show3d(round, answer);
    tell(answer.told);
  };

  on("proof", () => void draw());
  on("size", () => void draw());
  on("wishes", () => {
    dressBar();
    void draw();
  });
  on("opened", () => {
    part = 0;
    drawnFor = "";
  });
  on("cursor", () => {
    if (shown) light(true);
  });
  fill(stage, sheet.box, told);
  fill(body, bar, stage);
  dressBar();
  return {
    key: "fabric",
    name: "Fabric",
    body,
    shown: () => {
      shown = true;
      void draw();
    },
    hidden: () => {
      shown = false;
      stop3d?.();
      stop3d = null;
      drawnFor = "";
    },
  };
}

function toggle(words: string, now: boolean, change: (yes: boolean) => void): HTMLLabelElement {
  const box = h("input", { type: "checkbox", checked: now });
  box.addEventListener("change", () => change(box.checked));
  return h("label", { class: "toggle" }, box, h("span", {}, words));
}

/** The stitch under the pointer, or the nearest within a finger's width. */
function nearest(svg: SVGSVGElement | null, event: MouseEvent): SVGElement | null {
  if (!svg) return null;
  const direct = (event.target as Element).closest<SVGElement>("use[data-stitch]");
  if (direct) return direct;
  let best: SVGElement | null = null;
  let least = 18;
  for (const use of svg.querySelectorAll<SVGElement>("use[data-stitch]")) {
    const box = use.getBoundingClientRect();
    const away = Math.hypot(box.left + box.width / 2 - event.clientX, box.top + box.height / 2 - event.clientY) - Math.max(box.width, box.height) / 2;
    if (away < least) {
      least = away;
      best = use;
    }
  }
  return best;
}
