// The shelf: every pattern of the folder; open, make new, bring in, duplicate, rename, delete with undo.

import { button, fill, h } from "../dom";
import { notice, questionFor, trouble } from "../notice";
import { now } from "../store";
import { api } from "../wire";

interface Entry {
  name: string;
  changed: number;
  size: number;
}

let openIt: (name: string) => Promise<void> = async () => {};

export function onOpen(handler: (name: string) => Promise<void>): void {
  openIt = handler;
}

export async function patternNames(): Promise<{ folder: string; patterns: Entry[] }> {
  return api("GET", "/api/patterns");
}

export async function showShelf(): Promise<void> {
  const list = h("ul", { class: "shelf-list" });
  const filter = h("input", { type: "search", placeholder: "Find a pattern", "aria-label": "Find a pattern", autocomplete: "off" });
  const dialog = h("dialog", { class: "shelf", "aria-labelledby": "shelf-title" });
  const title = h("h2", { id: "shelf-title" }, "Your patterns");
  const draw = async (): Promise<void> => {
    const { folder, patterns } = await patternNames();
    fill(title, "Your patterns ", h("small", {}, `in the folder “${folder}”`));
    const wanted = filter.value.toLowerCase();
    fill(list, ...patterns.filter((one) => one.name.toLowerCase().includes(wanted)).map((one) => line(one, dialog, draw)));
    if (!list.childElementCount) list.append(h("li", { class: "empty" }, wanted ? "No pattern of that name." : "The shelf is empty. Start a new pattern, or drop a file here."));
  };
  filter.addEventListener("input", () => void draw());
  dialog.append(
    h("div", { class: "dialog-head" }, title, button("Close", { icon: "close", bare: true, onclick: () => dialog.close() })),
    h(
      "div",
      { class: "shelf-deeds" },
      button("New pattern", { icon: "plus", class: "main", onclick: () => void start(dialog) }),
      button("Bring in a file", { icon: "bring", onclick: () => bringInByHand(() => dialog.close()) }),
      filter,
    ),
    list,
    h("p", { class: "hint" }, "Word, web page, PDF and text files can also be dropped anywhere on the worktable."),
  );
  dialog.addEventListener("close", () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
  await draw().catch(trouble);
}

function line(entry: Entry, dialog: HTMLDialogElement, draw: () => Promise<void>): HTMLLIElement {
  const here = entry.name === now.name;
  const open = h("button", { type: "button", class: "shelf-open", "aria-current": here ? "true" : null }, h("span", { class: "shelf-name" }, entry.name), h("span", { class: "when" }, when(entry.changed)));
  open.addEventListener("click", () => {
    dialog.close();
    void openIt(entry.name).catch(trouble);
  });
  const deed = (words: string, run: () => Promise<void>): HTMLButtonElement =>
    button(words, { class: "link", "aria-label": `${words} “${entry.name}”`, onclick: () => void run().then(draw).catch(trouble) });
  return h(
    "li",
    { class: here ? "here" : "" },
    open,
    h(
      "span",
      { class: "shelf-line-deeds" },
      deed("Rename", () => rename(entry.name)),
      deed("Duplicate", async () => void (await api("POST", `/api/patterns/${encodeURIComponent(entry.name)}/duplicate`))),
      deed("Delete", () => remove(entry.name, draw)),
    ),
  );
}

async function start(dialog: HTMLDialogElement): Promise<void> {
  const name = await questionFor("A new pattern", "What is it called?", "New pattern", "Begin");
  if (!name) return;
  try {
    const made = await api<{ name: string }>("POST", "/api/patterns", { name, text: `# ${name.trim()}\n\n` });
    dialog.close();
    await openIt(made.name);
  } catch (reason) {
    trouble(reason);
  }
}

export async function rename(name: string): Promise<void> {
  const to = await questionFor(`Rename “${name}”`, "New name", name, "Rename");
  if (!to || to === name) return;
  const made = await api<{ name: string }>("POST", `/api/patterns/${encodeURIComponent(name)}/rename`, { to });
  if (now.name === name) await openIt(made.name);
}

async function remove(name: string, draw: () => Promise<void>): Promise<void> {
  const { undo } = await api<{ undo: string }>("POST", `/api/patterns/${encodeURIComponent(name)}/delete`);
  const back = async (): Promise<void> => {
    const { name: again } = await api<{ name: string }>("POST", "/api/restore", { undo });
    await draw().catch(() => {});
    if (now.name === name || now.name === "") await openIt(again);
  };
  notice(`“${name}” was deleted.`, { words: "Undo", do: () => void back().catch(trouble) });
  if (now.name === name) await openIt("");
}

const TAKEN = ".docx,.html,.htm,.pdf,.txt,.md";

function bringInByHand(done: () => void): void {
  const input = h("input", { type: "file", accept: TAKEN, multiple: true });
  input.addEventListener("change", () => void bringIn([...(input.files ?? [])]).then(done));
  input.click();
}

/** Bring files in, one after the other, and open the last. */
export async function bringIn(files: File[]): Promise<void> {
  let last = "";
  for (const file of files) {
    if (file.size > 25_000_000) {
      notice(`“${file.name}” is larger than 25 MB and was not taken in.`);
      continue;
    }
    try {
      const made = await api<{ name: string; notes: string[] }>("POST", `/api/bring-in?file=${encodeURIComponent(file.name)}`, file);
      last = made.name;
      for (const words of made.notes.slice(0, 3)) notice(words);
    } catch (reason) {
      trouble(reason);
    }
  }
  if (last) await openIt(last).catch(trouble);
}

/** Files dropped anywhere are brought in. */
export function takeDrops(): void {
  let over = 0;
  const hold = (event: DragEvent): boolean => Boolean(event.dataTransfer?.types.includes("Files"));
  addEventListener("dragenter", (event) => {
    if (!hold(event)) return;
    over += 1;
    document.body.classList.add("dropping");
  });
  addEventListener("dragleave", (event) => {
    if (!hold(event)) return;
    over -= 1;
    if (over <= 0) document.body.classList.remove("dropping");
  });
  addEventListener("dragover", (event) => {
    if (hold(event)) event.preventDefault();
  });
  addEventListener(
    "drop",
    (event) => {
      if (!hold(event)) return;
      event.preventDefault();
      event.stopPropagation();
      over = 0;
      document.body.classList.remove("dropping");
      const files = [...(event.dataTransfer?.files ?? [])];
      const captions = files.find((file) => /\.(vtt|srt)$/i.test(file.name));
      if (captions) dispatchEvent(new CustomEvent("hookwright-captions", { detail: captions }));
      const others = files.filter((file) => !/\.(vtt|srt)$/i.test(file.name));
      if (others.length) void bringIn(others);
    },
    { capture: true },
  );
}

export function when(seconds: number): string {
  const then = new Date(seconds * 1000);
  const today = new Date();
  const time = then.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
  if (then.toDateString() === today.toDateString()) return `today ${time}`;
  return `${then.toLocaleDateString([], { day: "numeric", month: "short", year: then.getFullYear() === today.getFullYear() ? undefined : "numeric" })} ${time}`;
}
