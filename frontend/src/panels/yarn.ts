// Ask the yarn: how much, where to turn around, where the stripes fall, how long, what it costs.

import { button, byLength, byMass, field, fill, folding, h, round } from "../dom";
import { notice, trouble } from "../notice";
import { change } from "../page/editor";
import { now, on, type Edit } from "../store";
import { ask, Stale } from "../wire";
import { stripes as stripesPicture } from "../fabric/stripes";
import { because, card, figure, panel, soon, table, typedNumber } from "./parts";
import type { Side } from "./tabs";

interface Range {
  low: number;
  likely: number;
  high: number;
}
interface YarnOf {
  id: string;
  name: string;
  colour: string;
  metres: Range;
  grams: Range;
  balls: { likely: number; buy: number; said: string } | null;
  of_which: Record<string, number>;
  hand: { weighed: boolean };
}
interface Answer {
  yarns: YarnOf[];
  main: string;
  rows: { part: string; label: string; metres: number; so_far: number }[];
  turn_around: { row: string; stop_at_grams: number; have_grams: number; reserved_grams: number; rows_between: [number, number]; as_written: boolean; working: string[] } | null;
  rows_left?: { rows: number; last: string | null; spare_grams: number; one_more: string; working: string[] };
  hours: Range & { days: number; because: string[] };
  cost?: { currency: string; yarn_bought: number; materials: number; labour: number; whole: number; implied_wage: number | null; working: string[] };
  trims: { working: string }[];
  because: string[];
  trouble: string[];
  labels: string[];
}
export interface Striped {
  yarns: string[];
  yarn: string;
  why?: string;
  repeat_metres: number;
  colours: string[];
  hues: Record<string, string>;
  bands: { part: string; copy: number; row: string; stitch: number; of: number; colour: string }[];
  more_bands: number;
  balls: { number: number; begins: string; pulled_off: number; joined_at: string | null; used: number; left: number; metres_into_repeat: number }[];
  starts: { metres_into_repeat: number; pull_off: number; first: string; last: string; match: number; sure: number }[];
  rows: { label: string; stretches: [number, string][]; stitches: number; direction: number }[];
}

export function makeYarn(): Side {
  const body = panel("Yarn", "Reckoned from the stitches themselves. The middle figure is likely; nine makers of ten fall inside the range.");
  const much = h("div");
  const turn = h("div");
  const left = h("div");
  const cost = h("div");
  const stripes = h("div");
  const long = h("div");
  let shown = false;
  let asked = "";
  let before: Answer | null = null;

  const box = (): HTMLInputElement => h("input", { type: "text", inputmode: "decimal", autocomplete: "off", size: 6 });
  const have = box();
  const scale = box();
  const leftG = box();
  const after = h("select");
  const ballPrice = box();
  const wage = box();
  const price = box();
  const pull = box();
  const start = box();
  const backward = h("input", { type: "checkbox" });
  const match = h("input", { type: "checkbox", checked: true });
  scale.value = "1";

  const wishes = (): Record<string, unknown> | null => {
    const wish: Record<string, unknown> = {};
    for (const [key, input] of [
      ["have_g", have], ["scale_g", scale], ["left_g", leftG], ["ball_price", ballPrice], ["wage", wage], ["price", price], ["pull_off_m", pull], ["start_m", start],
    ] as const) {
      const value = typedNumber(input.value);
      input.setAttribute("aria-invalid", String(value === null && input.value.trim() !== ""));
      if (value !== null && value >= 0) wish[key] = value;
    }
    if (after.value) wish["after"] = after.value;
    return { ...wish, backward: backward.checked, match: match.checked };
  };

  const answer = async (): Promise<void> => {
    if (!shown) return;
    const wish = wishes();
    const key = `${now.version} ${now.size} ${JSON.stringify(wish)} ${now.wishes.units}`;
    if (key === asked) return;
    asked = key;
    body.setAttribute("aria-busy", "true");
    try {
      const told = await ask<Answer>("yarn", wish ?? {});
      before = told;
      amounts(told);
      turning(told);
      dispatchEvent(new Event("hookwright-asked-yarn"));
      colours(await ask<Striped>("stripes", wish ?? {}));
    } catch (reason) {
      if (!(reason instanceof Stale)) {
        fill(much, h("p", { class: "empty" }, reason instanceof Error ? reason.message : ""));
        if (!before) for (const place of [turn, left, cost, stripes, long]) fill(place);
      } else asked = "";
    } finally {
      body.removeAttribute("aria-busy");
    }
  };

  const amounts = (told: Answer): void => {
    const units = now.wishes.units;
    const cards = told.yarns.map((yarn) =>
      card(
        [yarn.name || `Yarn ${yarn.id}`, yarn.colour].filter(Boolean).join(", "),
        h(
          "div",
          { class: "figures" },
          figure(byLength(yarn.metres.likely, units), "likely length", `${byLength(yarn.metres.low, units)} to ${byLength(yarn.metres.high, units)}`),
          figure(byMass(yarn.grams.likely, units), "likely weight", `${byMass(yarn.grams.low, units)} to ${byMass(yarn.grams.high, units)}`),
          yarn.balls ? figure(String(yarn.balls.buy), yarn.balls.buy === 1 ? "ball to buy" : "balls to buy", `${round(yarn.balls.likely, 2)} used, likely`) : null,
        ),
        h("p", { class: "told" }, `Of this: ${Object.entries(yarn.of_which).filter(([, metres]) => metres > 0.05).map(([what, metres]) => `${what} ${byLength(metres, units)}`).join(", ")}.${yarn.balls ? ` ${yarn.balls.said}` : ""}${yarn.hand.weighed ? "" : " Weigh a swatch to narrow the range."}`),
        yarn.balls ? button(`Write ${yarn.balls.buy} ${yarn.balls.buy === 1 ? "ball" : "balls"} into the pattern`, { class: "plain small", onclick: () => void write(`yarns.${yarn.id}.balls`, yarn.balls!.buy) }) : null,
      ),
    );
    fill(
      much,
      ...cards,
      because(told.because, "metres"),
      folding("yarn", "Row by row", { class: "because" }, table("Yarn row by row", ["Row", "This row", "So far"], told.rows.map((row) => [row.part && told.rows[0]?.part !== told.rows.at(-1)?.part ? `${row.part} · ${row.label}` : row.label, byLength(row.metres, units), byLength(row.so_far, units)]), [1, 2])),
    );
    fill(
      long,
      card(
        "How long",
        h("div", { class: "figures" }, figure(`${round(told.hours.likely, 1)} h`, "at the hook, likely", `${round(told.hours.low, 1)} to ${round(told.hours.high, 1)} h`), figure(String(told.hours.days), told.hours.days === 1 ? "day, with rests" : "days, with rests")),
        because(told.hours.because, "hours"),
      ),
    );
    if (told.cost) {
      const money = (value: number): string => value.toFixed(2);
      fill(
        cost,
        h("div", { class: "figures" }, figure(money(told.cost.whole), "in all"), figure(money(told.cost.yarn_bought), "yarn, as bought"), told.cost.labour ? figure(money(told.cost.labour), "your hours") : null, told.cost.implied_wage !== null ? figure(money(told.cost.implied_wage), "an hour is what that price pays") : null),
        because(told.cost.working, "cost"),
      );
    } else fill(cost, h("p", { class: "hint" }, "Fill in a price to see."));
    const labels = [...new Set(told.labels)];
    if (after.options.length !== labels.length + 1) fill(after, h("option", { value: "" }, "before the first row"), ...labels.map((label) => h("option", { value: label }, label)));
  };

  const turning = (told: Answer): void => {
    const units = now.wishes.units;
    fill(
      turn,
      told.trouble.length ? h("p", { class: "trouble-line" }, told.trouble.join(" ")) : null,
      told.turn_around
        ? h(
            "div",
            {},
            h("div", { class: "figures" }, figure(told.turn_around.row, told.turn_around.as_written ? "is the last row of the growing half" : "would be the last row of the growing half, grown on as before"), figure(byMass(told.turn_around.stop_at_grams, units), "on the scale: turn now", `of ${byMass(told.turn_around.have_grams, units)} in hand`)),
            because(told.turn_around.working, "turn"),
          )
        : h("p", { class: "hint" }, "This piece does not grow, so there is no place to turn around; “Rows left” below tells how far the yarn goes."),
    );
    fill(
      left,
      told.rows_left
        ? h("div", {}, h("div", { class: "figures" }, figure(String(told.rows_left.rows), told.rows_left.rows === 1 ? "more row" : "more rows", told.rows_left.last ? `to ${told.rows_left.last}` : ""), figure(byMass(told.rows_left.spare_grams, units), "to spare then")), h("p", { class: "told" }, `${told.rows_left.one_more.charAt(0).toUpperCase()}${told.rows_left.one_more.slice(1)}.`), because(told.rows_left.working, "rows left"))
        : h("p", { class: "hint" }, "Weigh what is left and say after which row."),
    );
  };

  const colours = (told: Striped): void => {
    if (!told.yarns.length) return fill(stripes, h("p", { class: "hint" }, told.why ?? ""));
    const units = now.wishes.units;
    const key = h("ul", { class: "hues" }, ...told.colours.map((colour) => h("li", {}, hue(told.hues[colour] ?? "#888888"), colour)));
    // A ball's `joined_at` is where it came to its end: there the next one begins.
    const second = told.balls.slice(1).map((ball, at) => ({ ...ball, begins_in: told.balls[at]?.joined_at })).filter((ball) => ball.begins_in);
    fill(
      stripes,
      key,
      stripesPicture(told),
      second.length ? h("p", {}, second.map((ball) => `Ball ${ball.number} begins in ${ball.begins_in}, in ${ball.begins}${ball.pulled_off > 0.05 ? `, after ${byLength(ball.pulled_off, units)} are pulled off so that the colours go on` : ""}.`).join(" ")) : null,
      folding("yarn", "Every change of colour", { class: "because" }, table("Every change of colour", ["Row", "From stitch", "Colour"], told.bands.map((band) => [band.row, band.of ? `${band.stitch} of ${band.of}` : "", h("span", {}, hue(told.hues[band.colour] ?? "#888888"), band.colour)]), [1])),
      told.starts.length
        ? folding(
            "yarn",
            "Begin so that both ends match",
            { class: "because" },
            table(
              "Where to begin the ball",
              ["Pull off", "First rows", "Last rows", "Match", ""],
              told.starts.map((one) => [byLength(one.pull_off, units), one.first, one.last, `${Math.round(one.match * 100)} %, ${Math.round(one.sure * 100)} % to be relied on`, button("Try", { class: "link", "aria-label": `Try pulling off ${byLength(one.pull_off, units)}`, onclick: () => ((pull.value = round(one.pull_off, 2)), soonAnswer()) })]),
              [0],
            ),
          )
        : null,
      h("p", { class: "hint" }, told.more_bands ? `The first ${told.bands.length} changes are listed.` : ""),
    );
  };

  const soonAnswer = soon(() => void answer(), 300);
  for (const input of [have, scale, leftG, ballPrice, wage, price, pull, start]) input.addEventListener("input", soonAnswer);
  for (const input of [after, backward, match]) input.addEventListener("change", () => void answer());
  const tick = (input: HTMLInputElement, words: string): HTMLLabelElement => h("label", { class: "toggle" }, input, h("span", {}, words));
  body.append(
    much,
    card("Stripes", stripes, h("div", { class: "fields" }, field("Pull off first, m", pull), field("Begin at, m into the repeat", start), tick(backward, "Ball from its other end"), tick(match, "Match at each new ball"))),
    card("Turn around", h("p", { class: "hint" }, "With what you have, where does a piece that grows and shrinks again turn?"), h("div", { class: "fields" }, field("Yarn in hand, g", have), field("Scale shows steps of, g", scale)), turn),
    card("Rows left", h("div", { class: "fields" }, field("Left on the scale, g", leftG), field("After", after)), left),
    long,
    card("What it costs", h("div", { class: "fields" }, field("A ball costs", ballPrice), field("Wage, an hour", wage), field("Sold at", price)), cost),
  );
  much.classList.add("stack");
  on("proof", () => void answer());
  on("size", () => void answer());
  on("wishes", () => void answer());
  on("opened", () => {
    asked = "";
    before = null;
    for (const place of [much, turn, left, cost, stripes, long]) fill(place);
    fill(after);
  });
  return {
    key: "yarn",
    name: "Yarn",
    body,
    shown: () => {
      shown = true;
      void answer();
    },
    hidden: () => (shown = false),
  };
}

/** A small field of colour. */
export function hue(colour: string): SVGSVGElement {
  const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  svg.setAttribute("class", "swatch");
  svg.setAttribute("viewBox", "0 0 10 10");
  svg.setAttribute("aria-hidden", "true");
  const rect = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  rect.setAttribute("width", "10");
  rect.setAttribute("height", "10");
  rect.setAttribute("rx", "2");
  rect.setAttribute("fill", /^#[0-9a-f]{6}$/i.test(colour) ? colour : "#888888");
  svg.append(rect);
  return svg;
}

/** Write a fact into the head of the pattern. */
export async function write(key: string, value: unknown): Promise<void> {
  try {
    const { edits } = await ask<{ edits: Edit[] }>("fact", { key, value });
    if (edits.length) change(edits, "fact");
    notice(edits.length ? "Written into the head of the pattern." : "The pattern says so already.");
  } catch (reason) {
    trouble(reason);
  }
}
