// The first hour: three short tasks on the demo, ticked off by what she really does.

import { button, fill, h } from "../dom";
import { trouble } from "../notice";
import { now, on } from "../store";
import { api } from "../wire";
import { panel } from "./parts";
import { turnTo, type Side } from "./tabs";

interface Task {
  key: string;
  title: string;
  words: string[];
  go: [string, string];
}

const TASKS: Task[] = [
  {
    key: "caught",
    title: "Break a row, see it caught, mend it",
    words: [
      "Go to the page and change a number in any row: a count in brackets will do. It is underlined at once, and the list under the page shows what was expected and the sum.",
      "Press the repair beside the finding, or write the row right yourself.",
    ],
    go: ["page", "Go to the page"],
  },
  {
    key: "fabric",
    title: "See the fabric you wrote",
    words: ["The chart shows every stitch where it lies. Put the cursor into a row: its stitches light up. Click a stitch: its words light up."],
    go: ["fabric", "Go to the fabric"],
  },
  {
    key: "yarn",
    title: "Ask how much yarn it takes",
    words: ["Metres, grams and balls come from the stitches themselves, as a range, for nobody's hand is another's. Weigh a swatch and the range narrows."],
    go: ["yarn", "Go to the yarn"],
  },
];

const KEPT = "hookwright.learned";

function learned(): Set<string> {
  try {
    return new Set(JSON.parse(localStorage.getItem(KEPT) ?? "[]") as string[]);
  } catch {
    return new Set();
  }
}

let openIt: (name: string) => Promise<void> = async () => {};
export function onDemo(handler: (name: string) => Promise<void>): void {
  openIt = handler;
}

export function makeLearn(): Side {
  const body = panel("Learn", "Three short tasks, on a piece that nobody minds breaking.");
  const list = h("ol", { class: "tasks" });
  const deeds = h("p", { class: "shelf-deeds" });
  body.append(list, deeds);
  const done = learned();
  let hadErrors = "";
  const finish = (key: string): void => {
    if (done.has(key)) return;
    done.add(key);
    localStorage.setItem(KEPT, JSON.stringify([...done]));
    draw();
  };
  const draw = (): void => {
    fill(
      list,
      ...TASKS.map((task, at) =>
        h(
          "li",
          { class: done.has(task.key) ? "task done" : "task" },
          h("h3", {}, h("span", { class: "task-mark", "aria-hidden": "true" }, done.has(task.key) ? "✓" : String(at + 1)), task.title, done.has(task.key) ? h("span", { class: "sr" }, " (done)") : null),
          ...task.words.map((words) => h("p", {}, words)),
          button(task.go[1], { class: "plain small", icon: "go", onclick: () => turnTo(task.go[0]) }),
        ),
      ),
    );
    fill(
      deeds,
      button("Open a fresh demo", { onclick: () => void demo().catch(trouble) }),
      done.size ? button("Begin again", { class: "link", onclick: () => (done.clear(), localStorage.removeItem(KEPT), draw()) }) : null,
      h("span", { class: "hint" }, done.size === TASKS.length ? "All three done. Hover over any word of the craft to learn what it means." : ""),
    );
  };
  on("proof", (proof) => {
    const errors = proof.findings.filter((one) => one.severity === "error").length;
    if (errors) hadErrors = now.name;
    else if (hadErrors === now.name && proof.rows.length > 1) finish("caught");
  });
  on("cursor", ({ row }) => {
    if (row !== null && document.body.dataset["side"] === "fabric") finish("fabric");
  });
  addEventListener("hookwright-asked-yarn", () => finish("yarn"));
  draw();
  return { key: "learn", name: "Learn", body, shown: draw };
}

export async function demo(): Promise<void> {
  const { name } = await api<{ name: string }>("POST", "/api/demo", {});
  await openIt(name);
  turnTo("learn");
}
