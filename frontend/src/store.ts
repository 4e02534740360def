// What the page knows just now, and who wants to hear when it changes.

export type At = [number, number];
export type State = "agrees" | "differs" | "unstated" | "uncompared" | "unread" | "assumed";
export interface RowInfo {
  part: string;
  label: string;
  at: At;
  label_at: At;
  text: string;
  full: string;
  state: State;
  worked: string;
  fabric: [number, number][];
}
export interface Edit {
  at: At;
  text: string;
}
export interface Repair {
  grade: "shown" | "asked" | "safe";
  title: string;
  edits: Edit[];
}
export interface Finding {
  rule: string;
  severity: "error" | "warning" | "note";
  at: At;
  message: string;
  working: string[];
  notes: { at: At; text: string }[];
  part: string | null;
  row: string | null;
  size: number | null;
  repair: Repair | null;
}
export interface Proof {
  version: number;
  title: string;
  terms: "US" | "UK";
  terms_because: string;
  sizes: string[];
  size: number;
  stitches: number;
  yarns: string[];
  rows: RowInfo[];
  findings: Finding[];
  more_findings: number;
  took_ms: number;
  trouble?: string;
}

export interface Wishes {
  theme: "auto" | "light" | "dark";
  units: "cm" | "in";
  hand: "right" | "left";
  terms: "as written" | "US" | "UK";
}

type Events = {
  opened: { name: string };
  text: { text: string; version: number };
  proof: Proof;
  cursor: { at: number; row: number | null };
  wishes: Wishes;
  kept: { kept: "yes" | "soon" | "no" | "asked"; words?: string };
  size: { size: number };
};
type Listener<T> = (event: T) => void;

const listeners = new Map<keyof Events, Set<Listener<never>>>();

export function on<K extends keyof Events>(what: K, listener: Listener<Events[K]>): () => void {
  const set = listeners.get(what) ?? new Set();
  listeners.set(what, set);
  set.add(listener as Listener<never>);
  return () => set.delete(listener as Listener<never>);
}

export function tell<K extends keyof Events>(what: K, event: Events[K]): void {
  for (const listener of listeners.get(what) ?? []) (listener as Listener<Events[K]>)(event);
}

const KEPT_WISHES = "hookwright.wishes";

export function readWishes(): Wishes {
  const fallback: Wishes = { theme: "auto", units: "cm", hand: "right", terms: "as written" };
  try {
    return { ...fallback, ...(JSON.parse(localStorage.getItem(KEPT_WISHES) ?? "{}") as Partial<Wishes>) };
  } catch {
    return fallback;
  }
}

export const now = {
  name: "",
  text: "",
  version: 0,
  size: 0,
  proof: null as Proof | null,
  row: null as number | null,
  wishes: readWishes(),
};

export function wish(change: Partial<Wishes>): void {
  now.wishes = { ...now.wishes, ...change };
  localStorage.setItem(KEPT_WISHES, JSON.stringify(now.wishes));
  dress();
  tell("wishes", now.wishes);
}

/** Put the theme on the page. */
export function dress(): void {
  const { theme } = now.wishes;
  if (theme === "auto") delete document.documentElement.dataset["theme"];
  else document.documentElement.dataset["theme"] = theme;
}
