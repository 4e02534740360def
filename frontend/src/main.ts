// The worktable: the page she writes on at the left, the sides of the table at the right.

import "@fontsource/atkinson-hyperlegible/latin-400.css";
import "@fontsource/atkinson-hyperlegible/latin-700.css";
import "@fontsource/atkinson-hyperlegible/latin-400-italic.css";
import "@fontsource/atkinson-hyperlegible/latin-ext-400.css";
import "@fontsource-variable/newsreader/index.css";
import "./styles/base.css";
import "./styles/table.css";
import "./styles/page.css";
import "./styles/panels.css";
import "./styles/log.css";
import { add, button, fill, h } from "./dom";
import { notice, question, trouble } from "./notice";
import { focusPage, lock, makeEditor, openText, rewrite } from "./page/editor";
import { makeFindings } from "./panels/findings";
import { makeHead } from "./panels/head";
import { demo, onDemo } from "./panels/learn";
import { onOpen, patternNames, showShelf, takeDrops } from "./panels/shelf";
import { makeTabs, turnTo } from "./panels/tabs";
import { keepVersions } from "./panels/versions";
import { dress, now, on, tell } from "./store";
import { api, connect, listen, openPattern, sendText, settle } from "./wire";

const LAST = "hookwright.last";
const empty = h("div", { class: "no-pattern", hidden: true });
let keptText = "";

async function open(name: string): Promise<void> {
  if (!name) return closeAll();
  let opened = await openPattern(name);
  if (opened.held) {
    const answer = await question("This pattern lies open in another window", [`“${name}” can be written in one window at a time. What is typed there is kept.`], [
      ["here", "Go on here", "main"],
      ["leave", "Leave it there"],
    ]);
    if (answer !== "here") return showShelf();
    opened = await openPattern(name, true);
  }
  now.name = opened.name;
  now.size = 0;
  localStorage.setItem(LAST, opened.name);
  empty.hidden = true;
  document.body.classList.remove("shelf-only");
  keptText = opened.text;
  openText(opened.text);
  lock(false);
  tell("opened", { name: opened.name });
  tell("kept", { kept: "yes" });
  sendText();
  if (opened.rescued !== null) await offerRescued(opened.rescued);
}

function closeAll(): void {
  now.name = "";
  openText("");
  lock(true);
  document.body.classList.add("shelf-only");
  empty.hidden = false;
  tell("opened", { name: "" });
}

async function offerRescued(words: string): Promise<void> {
  const answer = await question(
    "Words that were not saved",
    ["When this pattern was last open, the file had been changed elsewhere, and your own words were put aside. They are still here.", preview(words)],
    [
      ["mine", "Put my words on the page", "main"],
      ["leave", "Leave the page as it is"],
    ],
  );
  if (answer === "mine") rewrite(words, "rescued");
}

function preview(words: string): HTMLElement {
  return h("pre", { class: "preview", tabindex: "0" }, words.length > 1500 ? `${words.slice(0, 1500)}\n…` : words);
}

let askedAboutOutside = false;

/** The file was changed or removed outside: ask once (watching and keeping may both notice it), never overwrite. */
async function changedOutside(theirs: string | null): Promise<void> {
  if (askedAboutOutside) return;
  askedAboutOutside = true;
  try {
    await askAboutOutside(theirs);
  } finally {
    askedAboutOutside = false;
  }
}

async function askAboutOutside(theirs: string | null): Promise<void> {
  tell("kept", { kept: "asked" });
  const gone = theirs === null;
  const choices: ["mine" | "theirs" | "both", string, ("main" | "plain")?][] = gone
    ? [["mine", "Write my words as a new file", "main"]]
    : [
        ["both", "Keep both", "main"],
        ["mine", "Keep my words"],
        ["theirs", "Take the other text"],
      ];
  const answer = await question(
    gone ? "The file was removed" : "The file was changed elsewhere",
    gone
      ? [`“${now.name}” is not in the folder any more. Nothing is lost: your words are on the page.`]
      : [`Another program wrote into “${now.name}”. Nothing was overwritten. “Keep both” puts your words into a copy. The other text:`, preview(theirs)],
    choices,
  );
  const settled = await settle(answer ?? (gone ? "mine" : "both"));
  if (settled.text !== undefined) rewrite(settled.text, "theirs");
  if (settled.copy) notice(`Your words are kept as “${settled.copy}”.`, { words: "Open it", do: () => void open(settled.copy!).catch(trouble) });
  sendText();
}

async function takenAway(): Promise<void> {
  lock(true);
  const answer = await question("Open in another window now", ["What you wrote here is kept."], [["back", "Go on here again", "main"], ["leave", "Leave it there"]]);
  if (answer === "back") await open(now.name);
}

/** The server is back: take up the pattern again, with what was typed meanwhile. */
async function takeUpAgain(): Promise<void> {
  if (!now.name) return;
  const mine = now.text;
  const opened = await openPattern(now.name, true);
  if (opened.text !== mine && opened.text !== keptText && opened.rescued !== mine) {
    const answer = await question("The file is another than the page", ["While the worktable was away the file was changed.", preview(opened.text)], [
      ["mine", "Keep the page", "main"],
      ["theirs", "Take the file"],
    ]);
    if (answer === "theirs") {
      rewrite(opened.text, "theirs");
      return;
    }
  }
  now.version += 1;
  sendText();
  notice("The worktable answers again.");
}

async function start(): Promise<void> {
  dress();
  const page = h("section", { class: "page", "aria-label": "The page" });
  const editor = h("div", { class: "editor" });
  add(page, editor, makeFindings());
  add(empty, h("h2", {}, "An empty table"), h("p", {}, "Open a pattern from the shelf, start a new one, or drop a file here."), button("Your patterns", { class: "main", icon: "shelf", onclick: () => void showShelf() }), button("Open the demo", { onclick: () => void demo().catch(trouble) }));
  const root = document.getElementById("worktable")!;
  fill(root, h("a", { class: "skip", href: "#side-page", onclick: (event: Event) => (event.preventDefault(), focusPage()) }, "To the page"), makeHead(), h("main", { class: "boards" }, page, makeTabs(page)), empty, h("div", { class: "drop-here", "aria-hidden": "true" }, "Drop it here to bring it in"));
  makeEditor(editor);
  takeDrops();
  keepVersions();
  onOpen(open);
  onDemo(open);
  addEventListener("hookwright-open", (event) => void open((event as CustomEvent<string>).detail).catch(trouble));
  on("kept", ({ kept }) => {
    if (kept === "yes") keptText = now.text;
  });
  listen({ changed: (theirs) => void changedOutside(theirs).catch(trouble), taken: () => void takenAway().catch(trouble), back: () => takeUpAgain().catch(trouble) });
  await connect();
  const { patterns } = await patternNames();
  const wanted = new URLSearchParams(location.search).get("pattern") ?? localStorage.getItem(LAST) ?? "";
  const first = patterns.find((one) => one.name === wanted) ?? patterns[0];
  if (first)
    await open(first.name).catch((reason) => {
      trouble(reason);
      closeAll();
      return showShelf();
    });
  else {
    const { name } = await api<{ name: string }>("POST", "/api/demo", {});
    await open(name);
    turnTo("learn");
  }
  document.documentElement.dataset["ready"] = "yes";
}

/** For tests: whether the newest words are proofed and kept. */
Object.assign(window, { hookwrightAtRest: () => now.proof?.version === now.version && document.querySelector(".kept")?.getAttribute("data-kept") === "yes" });

void start().catch(trouble);
