// The phone's page: the code once, then the log of one pattern, and nothing else.

import "./styles/base.css";
import "./styles/log.css";
import { fill, h } from "./dom";
import { buttons, type LogState } from "./log/buttons";

const root = document.getElementById("log")!;
const news = h("p", { class: "phone-news", role: "status" });

async function call<T>(method: string, path: string, body?: unknown): Promise<T> {
  const options: RequestInit = { method };
  if (body !== undefined) {
    options.body = JSON.stringify(body);
    options.headers = { "content-type": "application/json" };
  }
  const response = await fetch(path, options).catch(() => null);
  if (!response) throw new Error("The worktable does not answer; is the phone on its network, and is sharing still allowed?");
  const answer = (await response.json().catch(() => ({}))) as T & { trouble?: string };
  if (response.status === 401) enter();
  if (!response.ok) throw new Error(answer.trouble ?? "That did not work.");
  return answer;
}

function say(reason: unknown): void {
  fill(news, reason instanceof Error ? reason.message : "");
  setTimeout(() => fill(news), 8000);
}

function enter(): void {
  const input = h("input", { type: "text", inputmode: "numeric", pattern: "[0-9]{6}", maxlength: 6, autocomplete: "one-time-code", class: "code-input", required: true });
  const form = h("form", { class: "enter" }, h("label", { class: "field" }, h("span", { class: "field-name" }, "The code on the worktable"), input), h("button", { class: "tap main" }, "Open the log"));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void call("POST", "/enter", { code: input.value.trim() }).then(open).catch(say);
  });
  fill(root, h("h1", {}, "Log at the hook"), form, news);
  input.focus();
}

async function open(): Promise<void> {
  const first = await call<LogState>("GET", "/log");
  const taps = buttons({
    write: (entry) => call<LogState>("POST", "/log", entry),
    undo: (id) => call<LogState>("DELETE", `/log/${id}`),
    changed: () => {},
    trouble: say,
  });
  fill(root, h("h1", {}, first.pattern ?? "Log"), news, taps.box);
  taps.show(first);
  setInterval(() => {
    if (!document.hidden) void call<LogState>("GET", "/log").then(taps.show).catch(say);
  }, 5000);
}

void open().catch(() => enter());
