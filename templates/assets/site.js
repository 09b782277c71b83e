// Three comforts; every page works without them: ticks and entries that stay, whether a paper
// that brought the reader here still holds, and a language that is chosen once.
"use strict";

// What a reader's device keeps; null in private windows and where storage is blocked.
const device = (() => {
  try {
    localStorage.getItem("");
    return localStorage;
  } catch {
    return null;
  }
})();

(() => {
  const guide = document.body.dataset.guide;
  const kept = guide ? [...document.querySelectorAll("[data-keep]")] : [];
  const key = (field) => `baybook ${guide} ${field.id}`;

  const show = (field, value) => {
    if (field.type === "checkbox") field.checked = value === "1";
    else field.value = value ?? "";
  };

  if (device && kept.length) {
    const forget = document.getElementById("forget");
    for (const field of kept) {
      show(field, device.getItem(key(field)));
      field.addEventListener("input", () => {
        const value = field.type === "checkbox" ? (field.checked ? "1" : "") : field.value;
        if (value) device.setItem(key(field), value);
        else device.removeItem(key(field));
      });
    }
    if (forget) {
      forget.hidden = false;
      forget.addEventListener("click", () => {
        for (const field of kept) {
          device.removeItem(key(field));
          show(field, null);
        }
      });
    }
  }

  const paper = document.getElementById("paper");
  const scanned = new URLSearchParams(location.search).get("r");
  if (paper && scanned) {
    const same = scanned === paper.dataset.number;
    paper.textContent = same ? paper.dataset.same : paper.dataset.other;
    paper.classList.toggle("other", !same);
    const old = document.querySelector(`[data-revision="${CSS.escape(scanned)}"]`);
    if (old) paper.append(" ", old.cloneNode(true));
    paper.hidden = false;
  }
})();

// The first page opens in the language that was chosen; every other address says its own, so that
// a guide that is kept for a bay without a network never leads to one that is not.
(() => {
  const key = "baybook language";
  for (const link of document.querySelectorAll(".tongues a")) {
    link.addEventListener("click", () => device?.setItem(key, link.lang));
    const chosen = document.getElementById("finder") && device?.getItem(key) === link.lang;
    if (chosen) location.replace(link.href + location.search + location.hash);
  }
})();
