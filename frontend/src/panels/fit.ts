// Fit: the pattern as it is, in another width, length, gauge, in several sizes, for the yarn in hand; and back onto the page.

import { button, byLength, byMetres, choice, field, fill, h } from "../dom";
import { notice, trouble } from "../notice";
import { rewrite } from "../page/editor";
import { now, on } from "../store";
import { api, ask, Stale } from "../wire";
import { picture } from "../fabric/svg";
import { card, figure, panel, soon, typedNumber } from "./parts";
import type { Side } from "./tabs";

interface Measures {
  size: string;
  width_cm: number;
  length_cm: number;
  stitches: number;
  metres: number | null;
}
interface Changed {
  page: string;
  rows: string;
  whole: string;
  picture: string | null;
  sizes: string[];
  notes: string[];
  before: Measures[];
  after: Measures[];
}
type Change = "repeats" | "gauge" | "widths" | "ball" | "mirror";

const WAYS: [Change, string][] = [
  ["repeats", "Wider or longer"],
  ["gauge", "In my gauge"],
  ["widths", "In several sizes"],
  ["ball", "For the yarn I have"],
  ["mirror", "The other side"],
];

export function makeFit(): Side {
  const body = panel("Fit", "The same pattern, fitted anew: every count, the chain and the yarn follow. Look first, then write it into the pattern.");
  const form = h("div", { class: "fields" });
  const out = h("div", { role: "status", class: "stack" });
  let way: Change = "repeats";
  let keep: "size" | "counts" = "size";
  let shown = false;
  const text = (value = "", placeholder = ""): HTMLInputElement => h("input", { type: "text", value, placeholder, autocomplete: "off" });
  const wider = text();
  const longer = text();
  const gauge = text("", "18 dc and 9 rows = 10 cm");
  const widths = text("", "38 (42, 46) cm");
  const ball = text("", "100 g = 200 m");

  const dress = (): void => {
    const unit = now.wishes.units;
    const fields: Record<Change, HTMLElement[]> = {
      repeats: [field(`Wider by, ${unit}`, wider, "less than nothing: narrower"), field(`Longer by, ${unit}`, longer, "less than nothing: shorter")],
      gauge: [
        field("Your gauge", gauge, "counted in the middle of your swatch"),
        choice("fit-keep", "What stays", [["size", "The size stays"], ["counts", "The counts stay"]], keep, (value) => ((keep = value), void run())),
      ],
      widths: [field("Widths or girths, smallest first", widths, "as the trade writes them: 38 (42, 46) cm")],
      ball: [field("The yarn in your hand", ball, "grams and metres; trims are set aside first")],
      mirror: [],
    };
    fill(form, ...fields[way]);
    form.hidden = way === "mirror";
  };

  const wish = (): Record<string, unknown> | null => {
    const cm = now.wishes.units === "cm" ? 1 : 2.54;
    if (way === "repeats") {
      const [w, l] = [typedNumber(wider.value), typedNumber(longer.value)];
      if (!w && !l) return null;
      return { wider_cm: (w ?? 0) * cm, longer_cm: (l ?? 0) * cm };
    }
    if (way === "gauge") return gauge.value.trim() ? { gauge: gauge.value, keep } : null;
    if (way === "widths") return widths.value.trim() ? { widths: widths.value } : null;
    if (way === "ball") return ball.value.trim() ? { ball: ball.value } : null;
    return {};
  };

  const run = async (): Promise<void> => {
    if (!shown) return;
    const asked = wish();
    if (!asked) return fill(out, h("p", { class: "hint" }, { repeats: "Say by how much, for example 5.", gauge: "Write your gauge.", widths: "Write the sizes.", ball: "Say what you have.", mirror: "" }[way]));
    out.setAttribute("aria-busy", "true");
    if (!out.querySelector(".card")) fill(out, h("p", { class: "hint" }, "Working it anew …"));
    try {
      show(await ask<Changed>("resize", { change: way, ...asked }));
    } catch (reason) {
      if (!(reason instanceof Stale)) fill(out, h("div", { class: "card" }, h("p", { class: "trouble-line" }, reason instanceof Error ? reason.message : "")));
    } finally {
      out.removeAttribute("aria-busy");
    }
  };

  const show = (made: Changed): void => {
    const units = now.wishes.units;
    const [old, fresh] = [made.before[0], made.after[0]];
    const more = (value: number, was: number, say: (value: number) => string): string => `was ${say(was)}${value === was ? "" : `, ${value > was ? "+" : "−"}${say(Math.abs(value - was))}`}`;
    const count = (value: number): string => value.toLocaleString("en");
    const figures = old && fresh
      ? h(
          "div",
          { class: "figures" },
          figure(byMetres(fresh.width_cm, units), "wide", more(fresh.width_cm, old.width_cm, (value) => byMetres(value, units))),
          figure(byMetres(fresh.length_cm, units), "long", more(fresh.length_cm, old.length_cm, (value) => byMetres(value, units))),
          figure(count(fresh.stitches), "stitches", more(fresh.stitches, old.stitches, count)),
          fresh.metres !== null && old.metres !== null ? figure(byLength(fresh.metres, units), "of yarn, likely", more(fresh.metres, old.metres, (value) => byLength(value, units))) : null,
        )
      : null;
    const several = made.after.length > 1 ? h("ul", { class: "obtained" }, ...made.after.map((one) => h("li", {}, `${one.size || "Size"}: ${byMetres(one.width_cm, units)} × ${byMetres(one.length_cm, units)}, ${count(one.stitches)} stitches${one.metres === null ? "" : `, ${byLength(one.metres, units)}`}`))) : null;
    fill(
      out,
      card(
        "It would be",
        figures,
        several,
        made.sizes.length ? h("ul", { class: "obtained" }, ...made.sizes.map((size) => h("li", {}, size))) : null,
        made.notes.length ? h("ul", { class: "hint" }, ...made.notes.map((note) => h("li", {}, note))) : null,
        h("div", { class: made.picture ? "two" : "one" }, made.picture ? picture(made.picture, `Outline as it would be. ${made.sizes.join("; ")}`) : null, h("pre", { class: "draft-rows", tabindex: "0", role: "region", "aria-label": "Rows as they would be" }, made.rows)),
        h(
          "div",
          { class: "answers" },
          button("Write it into the pattern", { class: "main", onclick: () => (rewrite(made.page, "fit"), notice("The pattern is fitted. Undo on the page brings the old one back.")) }),
          button("As a new pattern", { onclick: () => void apart(made).catch(trouble) }),
        ),
      ),
    );
  };

  const apart = async (made: Changed): Promise<void> => {
    const { name } = await api<{ name: string }>("POST", "/api/patterns", { name: `${now.name.slice(0, 60)} (fitted)`, text: made.page });
    dispatchEvent(new CustomEvent("hookwright-open", { detail: name }));
  };

  const again = soon(() => void run(), 350);
  for (const input of [wider, longer, gauge, widths, ball]) input.addEventListener("input", again);
  body.append(
    choice("fit-way", "How to fit it", WAYS, way, (value) => {
      way = value;
      fill(out);
      dress();
      void run();
    }),
    form,
    out,
  );
  dress();
  on("wishes", dress);
  on("opened", () => fill(out));
  return {
    key: "fit",
    name: "Fit",
    body,
    shown: () => {
      shown = true;
      void run();
    },
    hidden: () => (shown = false),
  };
}
