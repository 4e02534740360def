// Draft: choose a family, give the measurements, watch outline and rows appear, take the rows into the pattern.

import { button, field, fill, h } from "../dom";
import { notice, trouble } from "../notice";
import { append } from "../page/editor";
import { now, on } from "../store";
import { api, ask, Stale } from "../wire";
import { picture } from "../fabric/svg";
import { card, panel, soon } from "./parts";
import type { Side } from "./tabs";

interface Family {
  name: string;
  what: string;
  needs: string[];
  lengths: Record<string, string>;
  words: Record<string, string>;
}
interface Drafted {
  rows: string;
  whole: string;
  picture: string;
  sizes: string[];
  notes: string[];
  stitches: number;
}

/** Measures to begin with, in cm, so that a draft is there at once; every one is hers to change. */
const BEGIN: Record<string, number> = {
  width: 30, length: 150, top: 20, depth: 45, side: 30, diameter: 20, girth: 50, height: 20, cuff: 20, "upper-arm": 32, armhole: 20, neck: 44, yoke: 120, chest: 100, arm: 34, bevel: 20,
};
const FOR_FAMILY: Record<string, Record<string, number>> = {
  rectangle: { width: 30, length: 160 }, trapezium: { width: 50, top: 30, length: 40 }, triangle: { width: 140, depth: 60 }, kite: { width: 40, length: 60 }, crescent: { length: 140, depth: 35 }, wing: { length: 160, depth: 45 },
  oval: { width: 30, length: 50 }, tube: { girth: 50, length: 25 }, cone: { girth: 40, height: 25 }, egg: { length: 12, girth: 30 }, sphere: { diameter: 10 }, back: { width: 50, length: 35, armhole: 20 }, "v-neck-front": { width: 50, length: 35, armhole: 20 },
  sleeve: { cuff: 22, "upper-arm": 34, length: 44 }, "bevelled-strip": { width: 15, length: 150 }, raglan: { neck: 44, chest: 100, arm: 34, depth: 24 }, "round-yoke": { neck: 44, yoke: 130, depth: 22 }, bias: { width: 40 }, square: { side: 10 }, hexagon: { side: 8 }, octagon: { side: 7 }, "round-triangle": { side: 14 },
};
const WORDS_TO_BEGIN: Record<string, Record<string, string>> = {
  polygon: { points: "0 0, 60 0, 60 30, 30 50, 0 30 cm" }, path: { d: "M0 0 L50 0 L50 30 Q25 60 0 30 Z" }, profile: { pairs: "0 6, 6 24, 14 30, 20 20 cm" }, hat: { sizes: "52 (54, 57) cm" }, mitten: { sizes: "18 (20, 22) cm" },
};

export function makeDraft(): Side {
  const body = panel("Draft", "Choose a shape and give its measures. Outline and rows appear as you type; take them into the pattern when they please you.");
  const shapes = h("div", { class: "choices", role: "group", "aria-label": "Shapes" });
  const fields = h("div", { class: "fields" });
  const out = h("div", { class: "drafted", role: "status" });
  const gauge = h("input", { type: "text", value: "14 dc and 7 rows = 10 cm", autocomplete: "off" });
  let families: Family[] = [];
  let chosen: Family | null = null;
  let made: Drafted | null = null;
  const filter = h("input", { type: "search", placeholder: "Find a shape", "aria-label": "Find a shape" });
  const form = card("Measures", fields);
  form.hidden = true;
  body.append(card("Shape", filter, shapes), form, out);

  const load = async (): Promise<void> => {
    if (families.length) return;
    try {
      families = await ask<Family[]>("families");
      drawShapes();
    } catch (reason) {
      if (!(reason instanceof Stale)) fill(shapes, h("p", { class: "empty" }, reason instanceof Error ? reason.message : ""));
    }
  };

  const drawShapes = (): void => {
    const wanted = filter.value.toLowerCase();
    fill(
      shapes,
      ...families
        .filter((one) => `${one.name} ${one.what}`.toLowerCase().includes(wanted))
        .map((one) => h("button", { type: "button", class: "family", "aria-pressed": String(one === chosen), onclick: () => choose(one) }, h("strong", {}, one.name.replace(/-/g, " ")), h("span", {}, one.what))),
    );
    if (!shapes.childElementCount) shapes.append(h("p", { class: "empty" }, "No shape of that name."));
  };
  filter.addEventListener("input", drawShapes);

  const choose = (family: Family): void => {
    chosen = family;
    made = null;
    drawShapes();
    form.hidden = false;
    fill(fields, field("Gauge", gauge, "counted in the middle of a swatch"));
    for (const [name, what] of Object.entries(family.lengths)) {
      const begin = FOR_FAMILY[family.name]?.[name] ?? (family.needs.includes(name) ? BEGIN[name] : undefined);
      const unit = now.wishes.units;
      const value = begin === undefined ? "" : unit === "cm" ? `${begin} cm` : `${Math.round((begin / 2.54) * 4) / 4} in`;
      fields.append(field(title(name), h("input", { type: "text", name, value, autocomplete: "off", placeholder: family.needs.includes(name) ? "" : "left out", oninput: again }), what));
    }
    for (const [name, what] of Object.entries(family.words)) {
      const known = /^[a-z-]+(, [a-z-]+)+$/.test(what.replace(/ \([^)]*\)/g, "")) ? what.replace(/ \([^)]*\)/g, "").split(", ") : null;
      const input = known
        ? h("select", { name, onchange: again }, h("option", { value: "" }, "as usual"), ...known.map((word) => h("option", { value: word }, word)))
        : h("input", { type: "text", name, value: WORDS_TO_BEGIN[family.name]?.[name] ?? "", placeholder: "left out", autocomplete: "off", oninput: again });
      fields.append(field(title(name), input, known ? what : what));
    }
    form.scrollIntoView({ block: "nearest" });
    void run();
  };

  const run = async (): Promise<void> => {
    if (!chosen) return;
    const measures: Record<string, string> = {};
    for (const input of fields.querySelectorAll<HTMLInputElement | HTMLSelectElement>("[name]")) if (input.value.trim()) measures[input.name] = input.value.trim();
    if (!out.childElementCount) fill(out, h("p", { class: "hint" }, "Drafting …"));
    try {
      made = await ask<Drafted>("draft", { family: chosen.name, gauge: gauge.value, measures });
      show(made);
    } catch (reason) {
      if (reason instanceof Stale) return;
      made = null;
      fill(out, h("div", { class: "card" }, h("p", { class: "trouble-line" }, reason instanceof Error ? reason.message : "This cannot be drafted.")));
    }
  };
  const again = soon(() => void run(), 250);
  gauge.addEventListener("input", again);

  const show = (drafted: Drafted): void => {
    fill(
      out,
      card(
        "The draft",
        h("ul", { class: "obtained" }, ...drafted.sizes.map((size) => h("li", {}, size))),
        h("div", { class: "two" }, picture(drafted.picture, `Outline as asked and as obtained. ${drafted.sizes.join("; ")}`), h("pre", { class: "draft-rows", tabindex: "0", role: "region", "aria-label": "Rows of the draft" }, drafted.rows)),
        drafted.notes.length ? h("ul", { class: "hint" }, ...drafted.notes.map((note) => h("li", {}, note))) : null,
        h(
          "div",
          { class: "answers" },
          button("Take the rows into the pattern", { class: "main", onclick: () => (append(drafted.rows), notice(`${drafted.stitches.toLocaleString("en")} stitches are on the page.`)) }),
          button("Begin a new pattern with it", { onclick: () => void begin(drafted).catch(trouble) }),
        ),
      ),
    );
  };

  const begin = async (drafted: Drafted): Promise<void> => {
    const { name } = await api<{ name: string }>("POST", "/api/patterns", { name: title(chosen?.name ?? "Draft"), text: drafted.whole });
    dispatchEvent(new CustomEvent("hookwright-open", { detail: name }));
  };

  on("opened", () => {
    const told = /^gauge:\s*\n\s*-\s*\{in: (\w+), stitches: ([\d.]+), rows: ([\d.]+), over: "?([\d.]+ \w+)"?/m.exec(now.text);
    if (told) gauge.value = `${told[2]} ${told[1]} and ${told[3]} rows = ${told[4]}`;
  });
  return { key: "draft", name: "Draft", body, shown: () => void load() };
}

function title(name: string): string {
  const words = name.replace(/-/g, " ");
  return words.charAt(0).toUpperCase() + words.slice(1);
}

