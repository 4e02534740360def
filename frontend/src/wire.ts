// The wire to the server: opens again by itself when it breaks, and never loses what was typed meanwhile.

import { now, tell, type Proof } from "./store";

interface Answer<T> {
  answer?: T;
  trouble?: string;
  stale?: boolean;
  cancelled?: boolean;
  version?: number;
}
export interface Opened {
  name: string;
  text: string;
  rescued: string | null;
  held?: boolean;
}
export class Trouble extends Error {}
export class Stale extends Error {}

type Step = { done: number; of: number; words: string };
interface Waiting {
  take(answer: Answer<unknown>): void;
  step?: (step: Step) => void;
}

let socket: WebSocket | null = null;
let number = 0;
const waiting = new Map<number, Waiting>();
let onChanged: (theirs: string | null) => void = () => {};
let onTaken: () => void = () => {};
let onBack: () => Promise<void> = async () => {};
let ready: Promise<void> | null = null;

export function listen(handlers: { changed: (theirs: string | null) => void; taken: () => void; back: () => Promise<void> }): void {
  onChanged = handlers.changed;
  onTaken = handlers.taken;
  onBack = handlers.back;
}

/** Connect (once); resolves when the wire is open. */
export function connect(): Promise<void> {
  ready ??= new Promise((resolve) => {
    const made = new WebSocket(`${location.protocol === "https:" ? "wss" : "ws"}://${location.host}/live`);
    socket = made;
    made.onopen = () => resolve();
    made.onmessage = (event) => take(JSON.parse(event.data as string) as Record<string, unknown>);
    made.onclose = () => lost();
  });
  return ready;
}

function lost(): void {
  ready = null;
  socket = null;
  for (const one of waiting.values()) one.take({ trouble: "The wire to the worktable broke; it is being mended." });
  waiting.clear();
  if (now.name) tell("kept", { kept: "no", words: "The worktable does not answer. Your words are safe in this window; leave it open." });
  setTimeout(() => {
    void connect().then(() => onBack());
  }, 700);
}

function take(message: Record<string, unknown>): void {
  const { is, id } = message as { is?: string; id?: number };
  if (is === "step" && id !== undefined) waiting.get(id)?.step?.(message as unknown as Step);
  else if (is === "proof") {
    if (message["version"] === now.version) {
      const nothing = { title: "", terms: "US", terms_because: "", sizes: [], size: 0, stitches: 0, yarns: [], rows: [], findings: [], more_findings: 0 };
      now.proof = { ...nothing, ...message } as unknown as Proof;
      tell("proof", now.proof);
    }
  } else if (is === "kept") {
    if (message["version"] === now.version) tell("kept", { kept: "yes" });
  } else if (is === "not-kept") tell("kept", { kept: "no", words: String(message["trouble"]) });
  else if (is === "changed") onChanged(message["theirs"] as string | null);
  else if (is === "taken") onTaken();
  else if (id !== undefined) {
    const one = waiting.get(id);
    waiting.delete(id);
    one?.take(message as Answer<unknown>);
  }
}

function send(message: Record<string, unknown>): void {
  if (socket?.readyState === WebSocket.OPEN) socket.send(JSON.stringify(message));
}

function request<T>(message: Record<string, unknown>, step?: (step: Step) => void, signal?: AbortSignal): Promise<T> {
  number += 1;
  const id = number;
  return connect().then(
    () =>
      new Promise<T>((resolve, reject) => {
        if (signal?.aborted) {
          reject(new Stale()); // taken back while the wire was being mended
          return;
        }
        const one: Waiting = {
          take: (answer) => {
            if (answer.trouble !== undefined) reject(new Trouble(answer.trouble));
            else if (answer.stale) reject(new Stale());
            else resolve(answer.answer as T);
          },
        };
        if (step) one.step = step;
        waiting.set(id, one);
        signal?.addEventListener("abort", () => send({ do: "cancel", id }));
        send({ ...message, id });
      }),
  );
}

export function openPattern(name: string, over = false): Promise<Opened> {
  return request<Opened>({ do: "open", name, over, version: now.version });
}

/** Send what was typed: the whole text, with its version. */
export function sendText(): void {
  send({ do: "text", text: now.text, version: now.version, size: now.size });
}

/** Ask something about the text as it is now. Rejects with Stale when something newer was asked. */
export function ask<T>(verb: string, wish: Record<string, unknown> = {}, step?: (step: Step) => void, signal?: AbortSignal): Promise<T> {
  return request<T>({ do: "ask", verb, with: { size: now.size, ...wish } }, step, signal);
}

export function settle(choice: "mine" | "theirs" | "both"): Promise<{ name: string; text?: string; copy?: string }> {
  return request({ do: "settle", choice });
}

/** A request to the server's folder. Rejects with Trouble and its sentence. */
export async function api<T>(method: string, path: string, body?: unknown): Promise<T> {
  const options: RequestInit = { method };
  if (body instanceof Blob) options.body = body;
  else if (body !== undefined) {
    options.body = JSON.stringify(body);
    options.headers = { "content-type": "application/json" };
  }
  let response: Response;
  try {
    response = await fetch(path, options);
  } catch {
    throw new Trouble("The worktable does not answer. Is it still running?");
  }
  const answer = (await response.json().catch(() => ({}))) as T & { trouble?: string };
  if (!response.ok) throw new Trouble(answer.trouble ?? `The worktable refused (${response.status}).`);
  return answer;
}

/** A file made by the server, saved by the browser. */
export async function download(path: string, body: unknown): Promise<void> {
  const response = await fetch(path, { method: "POST", body: JSON.stringify(body), headers: { "content-type": "application/json" } });
  if (!response.ok) throw new Trouble(((await response.json().catch(() => ({}))) as { trouble?: string }).trouble ?? "That could not be made.");
  const name = decodeURIComponent(/filename\*=UTF-8''(.+)$/.exec(response.headers.get("content-disposition") ?? "")?.[1] ?? "picture");
  const link = document.createElement("a");
  link.href = URL.createObjectURL(await response.blob());
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
