// What is typed beside printed limits is at once in, low or high: in the readings and in the holds.
// After site.js, which brings back what was typed before.
"use strict";

(() => {
  const words = document.getElementById("judged")?.dataset;
  if (!words) return;

  const judge = (limits, typed) => {
    const { low, high, unit } = limits;
    const text = typed.trim();
    const value = readNumber(unit && text.endsWith(unit) ? text.slice(0, -unit.length) : text);
    if (value === null) return "";
    if (Number.isNaN(value)) return "words";
    if (low !== undefined && value < Number(low)) return "low";
    if (high !== undefined && value > Number(high)) return "high";
    return "in";
  };

  const say = (found, unit) => {
    if (found !== "words") return words[found] ?? "";
    return unit ? words.words.replace("{unit}", unit) : words.bare;
  };

  const link = (limits, found) => {
    const question = limits[`${found}Question`];
    if (!question && !limits.below) return [];
    const go = document.createElement("a");
    go.href = question ? `#tree-${question}` : limits.below;
    go.textContent = question ? words.go.replace("{number}", question) : words.below;
    return [" ", go];
  };

  const show = (place) => {
    const field = place.querySelector("input.field");
    const line = place.querySelector(".found");
    const found = judge(place.dataset, field.value);
    const missed = found === "low" || found === "high";
    line.className = `found ${found}`;
    line.textContent = say(found, place.dataset.unit);
    if (missed) line.append(...link(place.dataset, found));
    place.classList.toggle("missed", missed);
    field.setAttribute("aria-invalid", String(missed || found === "words"));
  };

  const places = [...document.querySelectorAll("[data-unit]")];
  for (const place of places) {
    show(place);
    place.addEventListener("input", () => show(place));
  }
  document.getElementById("forget")?.addEventListener("click", () => places.forEach(show));
})();
