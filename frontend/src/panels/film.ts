// The film: what to shoot as a checklist whose ticks stay, the texts that go beside it, and what was said against what is written.

import { button, field, fill, h } from "../dom";
import { trouble } from "../notice";
import { now, on } from "../store";
import { ask, Stale } from "../wire";
import { card, panel, soon, typedNumber } from "./parts";
import { turnTo, type Side } from "./tabs";

interface Shot {
  number: number;
  how: string;
  title: string;
  shows: string;
  frame: string;
  card: string;
  face: string;
  minutes: string;
  before: string;
}
interface Film {
  title: string;
  setup: string[];
  samples: string[];
  shots: Shot[];
  photos: string[];
  shorter: string[];
  total: string;
  on_camera: string;
  chapters: { at: string; title: string }[];
  cautions: string[];
  texts: Record<string, string>;
}
interface Said {
  heard: { at: string; kind: string; row: string; message: string; words: string; sure: number; doubtful: boolean }[];
  more: number;
  remarks: string[];
}

const KEPT = "hookwright.film.";

/** Which lines of the checklist are done, by their words, so that a tick stays with its shot when others come or go. */
function ticks(): Set<string> {
  try {
    return new Set(JSON.parse(localStorage.getItem(KEPT + now.name) ?? "[]") as string[]);
  } catch {
    return new Set();
  }
}

function tick(line: string, done: boolean): void {
  const kept = ticks();
  if (done) kept.add(line);
  else kept.delete(line);
  localStorage.setItem(KEPT + now.name, JSON.stringify([...kept]));
}

export function makeFilm(): Side {
  const body = panel("Film", "What to shoot, in which order, from the rows themselves; then what you said against what is written.");
  const minutes = h("input", { type: "text", inputmode: "decimal", size: 6, placeholder: "all of it" });
  const plan = h("div", { class: "film" });
  const file = h("input", { type: "file", accept: ".vtt,.srt,.txt,text/vtt", hidden: true, id: "film-captions", "aria-label": "Captions" });
  const verdict = h("div", { class: "film-heard", role: "status" });
  const listen = card(
    "Captions against the pattern",
    h("p", {}, "Drop a caption file (.vtt, .srt) anywhere on the table, or choose it: every count, row and stitch said otherwise than written is listed with its time."),
    button("Choose captions", { icon: "bring", onclick: () => file.click() }),
    file,
    verdict,
  );
  body.append(field("A shorter cut of … minutes", minutes), plan, listen);
  let shown = false;
  let stale = true;

  const read = async (): Promise<void> => {
    if (!now.name || !shown) return;
    try {
      const film = await ask<Film>("film", { terms: now.wishes.terms, hand: now.wishes.hand, minutes: typedNumber(minutes.value) });
      stale = false;
      fill(plan, ...draw(film));
    } catch (reason) {
      if (reason instanceof Stale) return;
      fill(plan, h("p", { class: "empty" }, reason instanceof Error ? reason.message : ""));
    }
  };
  const later = soon(() => void read(), 400);

  const compare = async (captions: string, name: string): Promise<void> => {
    fill(verdict, h("p", { class: "hint" }, `Listening to ${name} …`));
    try {
      fill(verdict, ...told(await ask<Said>("heard", { captions }), name));
    } catch (reason) {
      fill(verdict);
      if (!(reason instanceof Stale)) trouble(reason);
    }
  };
  file.addEventListener("change", () => {
    const chosen = file.files?.[0];
    if (chosen) void chosen.text().then((words) => compare(words, chosen.name));
    file.value = "";
  });
  addEventListener("hookwright-captions", (event) => {
    const dropped = (event as CustomEvent<File>).detail;
    turnTo("film");
    void dropped.text().then((words) => compare(words, dropped.name));
  });
  minutes.addEventListener("input", later);
  const again = (): void => {
    stale = true;
    if (shown) later();
  };
  on("proof", again);
  on("wishes", again);
  on("opened", () => (fill(plan), fill(verdict), again()));
  return {
    key: "film",
    name: "Film",
    body,
    shown: () => {
      shown = true;
      if (stale) void read();
    },
    hidden: () => (shown = false),
  };
}

function draw(film: Film): HTMLElement[] {
  const done = ticks();
  const count = h("p", { class: "told", role: "status" });
  const boxes: HTMLInputElement[] = [];
  const recount = (): void => fill(count, `${boxes.filter((one) => one.checked).length} of ${boxes.length} done. ${film.total} in all; on camera: ${film.on_camera}.`);
  const line = (words: string, ...more: (HTMLElement | null)[]): HTMLElement => {
    const box = h("input", { type: "checkbox", checked: done.has(words), onchange: () => (tick(words, box.checked), recount()) });
    boxes.push(box);
    return h("li", {}, h("label", { class: "tick" }, box, h("span", {}, h("strong", {}, words), ...more)));
  };
  const shots = film.shots.map((shot) =>
    line(
      `${shot.number}. ${shot.title}`,
      h("span", { class: "hint" }, ` ${[shot.how, shot.minutes, shot.face].filter(Boolean).join(" · ")}`),
      shot.shows ? h("span", { class: "shows" }, shot.shows) : null,
      shot.before ? h("span", { class: "shows" }, `Have ready: ${shot.before}`) : null,
    ),
  );
  const samples = film.samples.map((words) => line(words));
  const photos = film.photos.map((words) => line(words));
  recount();
  const texts = h("ul", { class: "files" });
  for (const [name, words] of Object.entries(film.texts)) texts.append(h("li", {}, h("span", {}, name), button(`Save ${name}`, { class: "plain small", icon: "save", onclick: () => save(name, words) })));
  return [
    count,
    card("Before the shoot", h("ul", {}, ...film.setup.map((words) => h("li", {}, words))), samples.length ? h("ul", { class: "ticks" }, ...samples) : null),
    card("Shots", h("ol", { class: "ticks" }, ...shots)),
    ...(photos.length ? [card("Photographs for the page", h("ul", { class: "ticks" }, ...photos))] : []),
    ...(film.shorter.length ? [card("What a shorter cut drops", h("ul", {}, ...film.shorter.map((words) => h("li", {}, words))))] : []),
    ...(film.cautions.length ? [card("Say so in the film", h("ul", {}, ...film.cautions.map((words) => h("li", {}, words))))] : []),
    card("Chapters", h("ol", { class: "plain-list" }, ...film.chapters.map((one) => h("li", {}, h("strong", {}, one.at), ` ${one.title}`)))),
    card("Texts beside the film", texts),
  ];
}

function told(said: Said, name: string): HTMLElement[] {
  const sure = said.heard.filter((one) => !one.doubtful);
  const rest = said.heard.filter((one) => one.doubtful);
  const items = (list: Said["heard"]): HTMLElement[] =>
    list.map((one) => h("li", {}, h("strong", {}, [one.at, one.row].filter(Boolean).join(" · ")), ` ${one.message}`, one.words ? h("q", { class: "hint" }, one.words) : null));
  return [
    h("p", { class: "told" }, sure.length ? `${name}: ${sure.length} ${sure.length === 1 ? "difference" : "differences"}.` : `${name}: what is said agrees with what is written.`),
    ...said.remarks.map((words) => h("p", { class: "hint" }, words)),
    ...(sure.length ? [h("ol", { class: "heard" }, ...items(sure))] : []),
    ...(rest.length ? [h("details", {}, h("summary", {}, `${rest.length} doubtful`), h("ol", { class: "heard" }, ...items(rest)))] : []),
    ...(said.more ? [h("p", { class: "hint" }, `${said.more} more are not listed.`)] : []),
  ];
}

function save(name: string, words: string): void {
  const href = URL.createObjectURL(new Blob([words], { type: "text/plain;charset=utf-8" }));
  const link = h("a", { href, download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(href), 10_000);
}
