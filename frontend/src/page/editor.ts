// The page she writes on: CodeMirror with our margins, underlines, hover cards and completion.

import { acceptCompletion, autocompletion, closeBrackets, closeBracketsKeymap, completionKeymap, completionStatus, moveCompletionSelection, type CompletionContext, type CompletionResult } from "@codemirror/autocomplete";
import { defaultKeymap, history, historyKeymap, isolateHistory } from "@codemirror/commands";
import { lintKeymap, nextDiagnostic, setDiagnostics, type Diagnostic } from "@codemirror/lint";
import { highlightSelectionMatches, openSearchPanel, search, searchKeymap } from "@codemirror/search";
import { Compartment, EditorSelection, EditorState, Transaction, type ChangeSpec } from "@codemirror/state";
import { drawSelection, EditorView, highlightActiveLine, highlightSpecialChars, hoverTooltip, keymap, placeholder } from "@codemirror/view";
import { h } from "../dom";
import { trouble } from "../notice";
import { now, on, tell, type Edit, type Finding } from "../store";
import { ask, sendText } from "../wire";
import { findingCard } from "./card";
import { front, frontEnd } from "./front";
import { margin, setRows } from "./margin";
import { dressing, setDressing } from "./dressing";
import { lit, setLit } from "./lit";

const nonce = document.querySelector<HTMLMetaElement>('meta[name="hw-nonce"]')?.content ?? "";
const locked = new Compartment();
let view: EditorView;
let opening = false;

interface Card {
  at: [number, number];
  head: string;
  lines: string[];
}

const meanings = hoverTooltip(
  async (_view, pos) => {
    const version = now.version;
    const card = await ask<Card | null>("hover", { at: pos }).catch(() => null);
    if (!card || version !== now.version) return null;
    return {
      pos: card.at[0],
      end: card.at[1],
      above: true,
      create: () => ({
        dom: h(
          "div",
          { class: "hover-card" },
          h("strong", {}, card.head),
          ...card.lines.map((line) => (line === "—" ? h("hr") : h("p", {}, line))),
        ),
      }),
    };
  },
  { hoverTime: 350 },
);

async function complete(context: CompletionContext): Promise<CompletionResult | null> {
  const word = context.matchBefore(/[A-Za-z0-9-]*/);
  const line = context.state.doc.lineAt(context.pos);
  const before = line.text.slice(0, context.pos - line.from);
  const wants = context.explicit || (word && word.to - word.from >= 2) || before.endsWith("(") || before.trim() === "";
  if (!wants || (before.trim() === "" && !context.explicit && line.number > 1 && context.state.doc.line(line.number - 1).text.trim() === "")) return null;
  const found = await ask<{ label: string; insert: string; kind: string; at: [number, number]; detail: string }[]>("complete", { at: context.pos }).catch(() => []);
  const first = found[0];
  if (!first || context.aborted) return null;
  return {
    from: first.at[0],
    to: first.at[1],
    options: found.map((item, rank) => ({ label: item.label, apply: item.insert, type: item.kind, detail: item.detail.slice(0, 60), boost: -rank })),
    filter: false,
  };
}

/** Tab takes what is chosen, or the first suggestion; without suggestions it moves on, so that nobody is caught in the page. */
function takeFirst(target: EditorView): boolean {
  if (acceptCompletion(target)) return true;
  const status = completionStatus(target.state);
  if (status === "pending") return true; // suggestions are on their way: the key belongs to them
  return status === "active" && moveCompletionSelection(true)(target) && acceptCompletion(target);
}

/** Where a finding is underlined: at least one character, never past the end. */
function within(at: [number, number], length: number): { from: number; to: number } {
  const from = Math.min(at[0], length);
  return { from, to: Math.min(Math.max(at[1], from + 1), length) };
}

function diagnostic(finding: Finding, length: number): Diagnostic {
  return {
    ...within(finding.at, length),
    severity: finding.severity === "note" ? "info" : finding.severity,
    message: finding.message,
    markClass: `mark-${finding.severity}`,
    renderMessage: () => findingCard(finding, { mend: () => mend(finding) }),
  };
}

/** Carry out a finding's repair, as one step that can be undone. */
export function mend(finding: Finding): void {
  if (finding.repair) change(finding.repair.edits, "mend");
}

/** Edits to the text (positions in the text as the last proof saw it). */
export function change(edits: Edit[], why: string): void {
  if (now.proof && now.proof.version !== now.version) {
    trouble(new Error("The page changed meanwhile; try again in a moment."));
    return;
  }
  const changes: ChangeSpec[] = edits.map((edit) => ({ from: edit.at[0], to: edit.at[1], insert: edit.text }));
  view.dispatch({ changes, annotations: isolateHistory.of("full"), userEvent: `input.${why}`, scrollIntoView: true });
  view.focus();
}

/** Replace the whole text, as one step that can be undone. What stays the same is not touched, nor is the cursor in it. */
export function rewrite(text: string, why: string): void {
  const old = view.state.doc.toString();
  if (text === old) return;
  const short = Math.min(text.length, old.length);
  let start = 0;
  while (start < short && text[start] === old[start]) start += 1;
  let end = 0;
  while (end < short - start && text[text.length - 1 - end] === old[old.length - 1 - end]) end += 1;
  view.dispatch({ changes: { from: start, to: old.length - end, insert: text.slice(start, text.length - end) }, annotations: isolateHistory.of("full"), userEvent: `input.${why}` });
}

/** Put text at the end of the pattern, and show it. */
export function append(text: string): void {
  const end = view.state.doc.length;
  const before = end === 0 ? "" : view.state.doc.toString().endsWith("\n\n") ? "" : view.state.doc.toString().endsWith("\n") ? "\n" : "\n\n";
  view.dispatch({
    changes: { from: end, insert: before + text },
    selection: { anchor: end + before.length },
    annotations: isolateHistory.of("full"),
    userEvent: "input.append",
    scrollIntoView: true,
  });
}

/** Go to a place, select it and bring it into the middle. */
export function show(at: [number, number], focus = true): void {
  const length = view.state.doc.length;
  const range = EditorSelection.range(Math.min(at[0], length), Math.min(at[1], length));
  view.dispatch({ selection: range, effects: EditorView.scrollIntoView(range, { y: "center" }) });
  if (focus) view.focus();
}

export function focusPage(): void {
  view.focus();
}

export function findInPage(): void {
  openSearchPanel(view);
}

/** Open a text: a fresh history, the cursor at the top. */
export function openText(text: string, keepVersion = false): void {
  opening = true;
  const state = EditorState.create({ doc: text, extensions: extensions() });
  const end = frontEnd(state);
  view.setState(end && end < state.doc.length ? state.update({ selection: { anchor: end + 1 } }).state : state);
  opening = false;
  if (!keepVersion) now.version += 1;
  now.text = text;
  now.proof = null;
  tell("text", { text, version: now.version });
  tell("cursor", { at: 0, row: null });
}

/** Close the page to typing while another window holds it, or open it again. */
export function lock(yes: boolean): void {
  view.dispatch({ effects: locked.reconfigure(EditorState.readOnly.of(yes)) });
}

function typed(text: string): void {
  now.version += 1;
  now.text = text;
  tell("kept", { kept: "soon" });
  sendText();
  tell("text", { text, version: now.version });
}

let cursorRow: number | null = null;

function moved(at: number): void {
  const rows = now.proof?.rows ?? [];
  const found = rows.findIndex((row) => row.at[0] <= at && at <= row.at[1]);
  const row = found < 0 ? null : found;
  if (row === cursorRow) return;
  cursorRow = row;
  now.row = row;
  tell("cursor", { at, row });
}

function extensions() {
  return [
    EditorView.cspNonce.of(nonce),
    margin(),
    history(),
    drawSelection(),
    highlightSpecialChars(),
    highlightActiveLine(),
    highlightSelectionMatches({ minSelectionLength: 3 }),
    EditorView.lineWrapping,
    closeBrackets(),
    search({ top: true }),
    autocompletion({ override: [complete], icons: false, activateOnTypingDelay: 120, maxRenderedOptions: 40, selectOnOpen: false, defaultKeymap: false }),
    keymap.of([
      { key: "Tab", run: takeFirst },
      ...closeBracketsKeymap,
      ...defaultKeymap,
      ...searchKeymap,
      ...historyKeymap,
      ...completionKeymap,
      ...lintKeymap.filter((binding) => binding.key !== "Mod-Shift-m"),
    ]),
    front,
    dressing,
    lit,
    meanings,
    placeholder("Write or paste a pattern here, as you would for a follower. For example:\n\nRow 1: Ch 13, sc in 2nd ch from hook and in each ch across. (12 sc)"),
    locked.of([]),
    EditorView.contentAttributes.of({ "aria-label": "The pattern", spellcheck: "false", autocapitalize: "off", autocorrect: "off" }),
    EditorView.updateListener.of((update) => {
      if (update.docChanged && !opening) typed(update.state.doc.toString());
      if (update.selectionSet || update.docChanged) moved(update.state.selection.main.head);
    }),
  ];
}

export function makeEditor(parent: HTMLElement): void {
  view = new EditorView({ parent, state: EditorState.create({ doc: "", extensions: extensions() }) });
  on("proof", (proof) => {
    const length = view.state.doc.length;
    const marked = setDiagnostics(view.state, proof.findings.map((finding) => diagnostic(finding, length)));
    view.dispatch(marked, { effects: [setRows.of(proof.rows), setDressing.of(proof.rows)], annotations: Transaction.addToHistory.of(false) });
    document.documentElement.dataset["proofed"] = String(proof.version);
    document.documentElement.dataset["took"] = String(proof.took_ms);
    cursorRow = -1;
    moved(view.state.selection.main.head);
  });
}

/** Light the words of a stitch that was clicked in the drawing. */
export function lightWords(at: [number, number] | null): void {
  view.dispatch({ effects: setLit.of(at) });
  if (at) show(at, false);
}

export function nextFinding(): void {
  nextDiagnostic(view);
  view.focus();
}
