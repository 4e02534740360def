// Versions to go back to, each with what changed in its counts.

import { button, fill, h } from "../dom";
import { notice, questionFor, trouble } from "../notice";
import { rewrite } from "../page/editor";
import { now, on } from "../store";
import { api } from "../wire";
import { when } from "./shelf";

interface Version {
  id: number;
  at: number;
  why: string;
  counts: Record<string, string>;
}

const EVERY_MS = 3 * 60_000;

/** Keep a version when a pattern is opened and then every few minutes of work. */
export function keepVersions(): void {
  let last = "";
  const keep = (): void => {
    if (!now.name || now.text === last || !now.text.trim()) return;
    last = now.text;
    void keepNow("").catch(() => {});
  };
  on("opened", () => setTimeout(keep, 1500));
  setInterval(keep, EVERY_MS);
}

async function keepNow(why: string): Promise<void> {
  await api("POST", `/api/versions/${encodeURIComponent(now.name)}`, { text: now.text, why });
}

/** "Row 4: 12 sc → 14 sc" for every row whose count differs. */
export function changes(before: Record<string, string>, after: Record<string, string>): string[] {
  const lines: string[] = [];
  for (const [row, count] of Object.entries(after)) {
    const old = before[row];
    if (old === undefined) lines.push(`${row}: new, ${count}`);
    else if (old !== count) lines.push(`${row}: ${old} → ${count}`);
  }
  for (const row of Object.keys(before)) if (!(row in after)) lines.push(`${row}: gone`);
  return lines;
}

export async function showVersions(): Promise<void> {
  const list = h("ol", { class: "version-list" });
  const dialog = h("dialog", { class: "shelf", "aria-labelledby": "versions-title" });
  const draw = async (): Promise<void> => {
    const { versions } = await api<{ versions: Version[] }>("GET", `/api/versions/${encodeURIComponent(now.name)}`);
    fill(list, ...versions.map((one, at) => line(one, versions[at + 1], dialog)));
    if (!versions.length) list.append(h("li", { class: "empty" }, "No version is kept yet. One is kept every few minutes of work, and whenever you ask for it."));
  };
  const keep = async (): Promise<void> => {
    const why = await questionFor("Keep this version", "What for?", "Before the next change", "Keep");
    if (why === null) return;
    await keepNow(why);
    await draw();
  };
  dialog.append(
    h("div", { class: "dialog-head" }, h("h2", { id: "versions-title" }, "Versions of ", h("q", {}, now.name)), button("Close", { icon: "close", bare: true, onclick: () => dialog.close() })),
    h("div", { class: "shelf-deeds" }, button("Keep this version", { class: "main", icon: "save", onclick: () => void keep().catch(trouble) })),
    list,
  );
  dialog.addEventListener("close", () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
  await draw().catch(trouble);
}

function line(version: Version, before: Version | undefined, dialog: HTMLDialogElement): HTMLLIElement {
  const differs = before ? changes(before.counts, version.counts) : [];
  const go = button("Go back to this", {
    class: "plain small",
    "aria-label": `Go back to the version of ${when(version.at)}`,
    onclick: () => void back(version, dialog).catch(trouble),
  });
  return h(
    "li",
    {},
    h("div", { class: "version-head" }, h("strong", {}, when(version.at)), version.why ? h("span", { class: "why" }, version.why) : null, go),
    differs.length
      ? h("details", {}, h("summary", {}, `${differs.length} ${differs.length === 1 ? "count" : "counts"} changed`), h("ul", { class: "count-changes" }, ...differs.slice(0, 60).map((words) => h("li", {}, words))))
      : h("p", { class: "hint" }, before ? "The counts are those of the version before." : "The first version kept."),
  );
}

async function back(version: Version, dialog: HTMLDialogElement): Promise<void> {
  await keepNow("Before going back").catch(() => {});
  const old = await api<{ text: string }>("GET", `/api/version/${version.id}`);
  rewrite(old.text, "version");
  dialog.close();
  notice(`The page is as it was ${when(version.at)}. Undo brings the other back.`);
}
