// A reading that is typed in is at once in, low or high. After site.js, which keeps what was typed.
"use strict";

(() => {
  const table = document.querySelector("table.readings[data-in]");
  if (!table) return;
  const words = table.dataset;

  const judge = (row, typed) => {
    const { low, high, unit } = row.dataset;
    const text = typed.trim();
    const value = readNumber(unit && text.endsWith(unit) ? text.slice(0, -unit.length) : text);
    if (value === null) return "";
    if (Number.isNaN(value)) return "words";
    if (low !== undefined && value < Number(low)) return "low";
    if (high !== undefined && value > Number(high)) return "high";
    return "in";
  };

  const show = (row) => {
    const field = row.querySelector("input.field");
    const found = judge(row, field.value);
    const line = row.querySelector(".found");
    const missed = found === "low" || found === "high";
    const question = missed && row.dataset[`${found}Question`];
    line.className = `found ${found}`;
    line.textContent = found === "words" ? row.dataset.words : (words[found] ?? "");
    if (missed) {
      const go = document.createElement("a");
      go.href = question ? `#tree-${question}` : `#outside-${row.dataset.id}`;
      go.textContent = question ? words.go.replace("{number}", question) : words.below;
      line.append(" ", go);
    }
    row.classList.toggle("missed", missed);
    field.setAttribute("aria-invalid", String(missed || found === "words"));
  };

  const rows = [...table.querySelectorAll("tr.reading")].filter((row) => row.dataset.words);
  for (const row of rows) {
    show(row);
    row.addEventListener("input", () => show(row));
  }
  document.getElementById("forget")?.addEventListener("click", () => rows.forEach(show));
})();
