// The sides of the table, as tabs: one at a time beside the page; on a narrow screen the page is one of them.

import { h } from "../dom";
import { makeDraft } from "./draft";
import { makeFabric } from "./fabric";
import { makeFilm } from "./film";
import { makeFit } from "./fit";
import { makeLearn } from "./learn";
import { makeLog } from "./log";
import { makePublish } from "./publish";
import { makeYarn } from "./yarn";

export interface Side {
  key: string;
  name: string;
  body: HTMLElement;
  shown: () => void;
  hidden?: () => void;
}

let pick: (key: string, focus?: boolean) => void = () => {};

/** Turn to a side of the table ("page" only matters on a narrow screen). */
export function turnTo(key: string): void {
  pick(key);
}

export function makeTabs(page: HTMLElement): HTMLElement {
  const sides: Side[] = [makeFabric(), makeYarn(), makeFit(), makeDraft(), makeLog(), makeFilm(), makePublish(), makeLearn()];
  const list = h("div", { role: "tablist", class: "tabs", "aria-label": "Sides of the table" });
  const bodies = h("div", { class: "sides" });
  const all: Side[] = [{ key: "page", name: "Page", body: page, shown: () => {} }, ...sides];
  const tabs = new Map<string, HTMLButtonElement>();
  for (const side of all) {
    const tab = h("button", { type: "button", role: "tab", id: `tab-${side.key}`, class: `tab tab-${side.key}`, "aria-controls": `side-${side.key}` }, side.name);
    tab.addEventListener("click", () => pick(side.key));
    tabs.set(side.key, tab);
    list.append(tab);
    if (side.key !== "page") {
      side.body.id = `side-${side.key}`;
      side.body.setAttribute("role", "tabpanel");
      side.body.setAttribute("aria-labelledby", `tab-${side.key}`);
      side.body.classList.add("side");
      side.body.tabIndex = -1;
      bodies.append(side.body);
    }
  }
  page.id = "side-page";
  let last: Side | undefined;
  pick = (key, focus = false) => {
    const chosen = all.find((side) => side.key === key) ?? sides[0]!;
    const narrow = matchMedia("(max-width: 60rem)").matches;
    if (!narrow && chosen.key === "page") {
      page.querySelector<HTMLElement>(".cm-content")?.focus();
      return;
    }
    document.body.dataset["side"] = chosen.key;
    for (const side of all) {
      const tab = tabs.get(side.key)!;
      const mine = side === chosen;
      tab.setAttribute("aria-selected", String(mine));
      tab.tabIndex = mine ? 0 : -1;
      if (side.key !== "page") side.body.hidden = !mine;
    }
    const tab = tabs.get(chosen.key)!;
    tab.scrollIntoView({ block: "nearest", inline: "center" });
    if (focus) tab.focus();
    if (last !== chosen) {
      last?.hidden?.();
      last = chosen;
      chosen.shown();
    }
  };
  list.addEventListener("keydown", (event) => {
    const shown = all.filter((side) => tabs.get(side.key)!.offsetParent !== null);
    const at = shown.findIndex((side) => tabs.get(side.key)!.getAttribute("aria-selected") === "true");
    const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: shown.length - 1 }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    pick(shown[(to + shown.length) % shown.length]!.key, true);
  });
  addEventListener("keydown", (event) => {
    if (!event.altKey || event.ctrlKey || event.metaKey || !/^Digit\d$/.test(event.code)) return;
    const number = Number(event.code.slice(5));
    const side = number === 0 ? all[0] : sides[number - 1];
    if (!side) return;
    event.preventDefault();
    pick(side.key, side.key !== "page");
  });
  const narrow = matchMedia("(max-width: 60rem)");
  narrow.addEventListener("change", () => pick(document.body.dataset["side"] === "page" && !narrow.matches ? "fabric" : (document.body.dataset["side"] ?? "fabric")));
  const box = h("div", { class: "table" }, list, bodies);
  queueMicrotask(() => pick(narrow.matches ? "page" : "fabric"));
  return box;
}
