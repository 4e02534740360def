"use strict";
(() => {
  const key = "hookwright " + document.body.dataset.key;
  const read = () => { try { return JSON.parse(localStorage.getItem(key)) || {}; } catch { return {}; } };
  const kept = read();
  const keep = () => { try { localStorage.setItem(key, JSON.stringify(kept)); } catch { /* a reader who keeps nothing still reads */ } };
  const rows = [...document.querySelectorAll(".row")];
  const bar = document.querySelector(".progress");
  const told = bar.querySelector("output");

  const size = () => { const chosen = document.querySelector("input[name=size]:checked"); return chosen ? chosen.value : "all"; };
  const covers = (row) => JSON.parse(row.dataset.rows)[size()];
  const worked = () => rows.filter((row) => covers(row) !== undefined);
  const many = (row) => Math.max(1, covers(row) || 0);
  const done = (row) => Math.min(many(row), Number((kept.done || {})[row.id]) || 0);
  const tell = () => {
    const all = worked().reduce((sum, row) => sum + many(row), 0);
    told.textContent = `${worked().reduce((sum, row) => sum + done(row), 0)} of ${all} rows ticked`;
  };
  const set = (row, number) => {
    kept.done = kept.done || {};
    kept.done[row.id] = Math.max(0, Math.min(many(row), number));
    keep();
    show(row);
    tell();
  };
  const show = (row) => {
    row.querySelector(".tick").checked = done(row) === many(row);
    const counter = row.querySelector(".counter");
    if (!counter) return;
    counter.hidden = many(row) === 1;
    counter.querySelector("output").textContent = `${done(row)} of ${many(row)}`;
  };
  const button = (words, label, act) => {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = words;
    made.setAttribute("aria-label", label);
    made.addEventListener("click", act);
    return made;
  };

  for (const row of rows) {
    if (Object.values(JSON.parse(row.dataset.rows)).some((number) => number > 1)) {
      const counter = document.createElement("div");
      counter.className = "counter";
      const name = [...row.querySelectorAll("b")].map((b) => b.textContent)[0] || "Rows";
      counter.append(
        button("−", `${name} one row back`, () => set(row, done(row) - 1)),
        Object.assign(document.createElement("output"), { ariaLive: "polite" }),
        button("+", `${name} one row done`, () => set(row, done(row) + 1)),
      );
      row.append(counter);
    }
    row.querySelector(".tick").addEventListener("change", (event) => set(row, event.target.checked ? many(row) : 0));
  }
  bar.hidden = rows.length === 0;
  bar.querySelector(".clear").addEventListener("click", () => rows.forEach((row) => set(row, 0)));

  for (const input of document.querySelectorAll(".controls input")) {
    const name = input.name;
    if (kept[name] !== undefined) input.checked = input.type === "checkbox" ? kept[name] : kept[name] === input.value;
    input.addEventListener("change", () => {
      kept[name] = input.type === "checkbox" ? input.checked : input.value;
      keep();
      rows.forEach(show);
      tell();
    });
  }
  rows.forEach(show);
  tell();
  document.querySelector(".controls").addEventListener("submit", (event) => event.preventDefault());
})();
