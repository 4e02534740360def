// The strip along the top: which pattern, whether it is kept, which size, and her wishes.

import { button, choice, fill, h, icon } from "../dom";
import { trouble } from "../notice";
import { change, findInPage } from "../page/editor";
import { now, on, tell, wish, type Edit } from "../store";
import { ask, sendText } from "../wire";
import { showShelf } from "./shelf";
import { showVersions } from "./versions";

export function makeHead(): HTMLElement {
  const name = h("span", { class: "pattern-name" }, "…");
  const shelf = h("button", { type: "button", class: "shelf-button", title: "Your patterns", onclick: () => void showShelf() }, icon("shelf"), name);
  const kept = h("span", { class: "kept", role: "status" });
  const sizes = h("label", { class: "sizes" });
  const bar = h(
    "header",
    { class: "head" },
    h("h1", { class: "brand" }, h("img", { src: "/mark.svg", alt: "", width: 26, height: 26 }), h("span", {}, "Worktable")),
    shelf,
    kept,
    h("span", { class: "spring" }),
    sizes,
    button("Versions", { class: "quiet", icon: "clock", onclick: () => void showVersions() }),
    menu(),
  );
  on("opened", (event) => {
    fill(name, event.name || "No pattern");
    document.title = event.name ? `${event.name} · Worktable` : "Worktable";
  });
  on("kept", (event) => {
    kept.dataset["kept"] = event.kept;
    fill(kept, { yes: "Kept", soon: "…", no: event.words ?? "Not kept", asked: "Waiting for your answer" }[event.kept]);
  });
  on("proof", (proof) => drawSizes(sizes, proof.sizes));
  on("opened", () => drawSizes(sizes, []));
  return bar;
}

function drawSizes(place: HTMLElement, names: string[]): void {
  place.hidden = names.length < 2;
  if (place.hidden) return fill(place);
  const select = h("select", { "aria-label": "Size shown" }, ...names.map((name, at) => h("option", { value: at, selected: at === now.size }, name)));
  select.addEventListener("change", () => {
    now.size = Number(select.value);
    now.version += 1;
    sendText();
    tell("size", { size: now.size });
  });
  fill(place, h("span", { class: "hint" }, "Size"), select);
}

function menu(): HTMLElement {
  const panel = h("div", { class: "menu", id: "wishes", popover: "auto" });
  const draw = (): void => {
    const { theme, units, hand } = now.wishes;
    fill(
      panel,
      h("h2", {}, "On this table"),
      h("p", { class: "menu-name" }, "Light"),
      choice("theme", "Light", [["auto", "As the computer"], ["light", "Light"], ["dark", "Dark"]], theme, (value) => wish({ theme: value })),
      h("p", { class: "menu-name" }, "Measures"),
      choice("units", "Measures", [["cm", "cm, m, g"], ["in", "in, yd, oz"]], units, (value) => wish({ units: value })),
      h("p", { class: "menu-name" }, "Hand"),
      choice("hand", "Hand", [["right", "Right-handed"], ["left", "Left-handed"]], hand, (value) => wish({ hand: value })),
      h("hr"),
      button("Tidy the page", { class: "menu-line", onclick: () => void tidy() }),
      button("Find on the page", { class: "menu-line", onclick: () => (panel.hidePopover(), findInPage()) }),
      h("p", { class: "hint" }, "Keys: F8 next finding · Ctrl-Space suggestions · Ctrl-Z undo · Alt-1 … Alt-7 the sides of the table · Alt-0 the page"),
    );
  };
  draw();
  const opener = button("Wishes", { icon: "sun", bare: true });
  opener.setAttribute("popovertarget", "wishes");
  return h("span", { class: "menu-holder" }, opener, panel);
}

async function tidy(): Promise<void> {
  try {
    const edits = await ask<Edit[]>("tidy");
    if (edits.length) change(edits, "tidy");
    document.getElementById("wishes")?.hidePopover();
  } catch (reason) {
    trouble(reason);
  }
}
