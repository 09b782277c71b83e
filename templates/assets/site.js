// Three comforts; every page works without them: ticks and entries that stay, whether a paper
// that brought the reader here still holds, and the finder.
"use strict";

(() => {
  const guide = document.body.dataset.guide;
  const kept = guide ? [...document.querySelectorAll("[data-keep]")] : [];
  const key = (field) => `baybook ${guide} ${field.id}`;

  const store = (() => {
    try {
      localStorage.getItem("");
      return localStorage;
    } catch {
      return null; // private windows and blocked storage: the page still works
    }
  })();

  const show = (field, value) => {
    if (field.type === "checkbox") field.checked = value === "1";
    else field.value = value ?? "";
  };

  if (store && kept.length) {
    const forget = document.getElementById("forget");
    for (const field of kept) {
      show(field, store.getItem(key(field)));
      field.addEventListener("input", () => {
        const value = field.type === "checkbox" ? (field.checked ? "1" : "") : field.value;
        if (value) store.setItem(key(field), value);
        else store.removeItem(key(field));
      });
    }
    if (forget) {
      forget.hidden = false;
      forget.addEventListener("click", () => {
        for (const field of kept) {
          store.removeItem(key(field));
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

  const finder = document.getElementById("finder");
  if (!finder) return;
  const entries = [...document.querySelectorAll(".entries > li[data-text]")];
  const count = document.getElementById("count");
  const plain = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();

  const fits = (entry, asked) => {
    const { vehicle, charger, station, first, last, text } = entry.dataset;
    const year = Number(asked.get("year"));
    const words = plain(asked.get("text") ?? "").split(/[\s,;]+/).filter(Boolean);
    return (
      (!asked.get("vehicle") || asked.get("vehicle") === vehicle) &&
      (!asked.get("charger") || asked.get("charger") === charger) &&
      (!asked.get("station") || asked.get("station") === station) &&
      (!year || (Number(first) <= year && year <= Number(last))) &&
      words.every((word) => plain(text).includes(word))
    );
  };

  const filter = () => {
    const asked = new FormData(finder);
    let found = 0;
    for (const entry of entries) {
      entry.hidden = !fits(entry, asked);
      found += entry.hidden ? 0 : 1;
    }
    for (const section of document.querySelectorAll("main > section")) {
      const inside = [...section.querySelectorAll("li[data-text]")];
      if (inside.length) section.hidden = inside.every((entry) => entry.hidden);
    }
    const any = [...asked.values()].some(Boolean);
    count.textContent = any ? (found ? `${count.dataset.some} ${found}` : count.dataset.none) : "";
    const query = new URLSearchParams([...asked].filter(([, value]) => value)).toString();
    try {
      history.replaceState(null, "", query ? `?${query}` : location.pathname);
    } catch {
      // a page opened from a folder may not change its address
    }
  };

  for (const [name, value] of new URLSearchParams(location.search)) {
    const field = finder.elements.namedItem(name);
    if (field) field.value = value;
  }
  finder.addEventListener("input", filter);
  finder.addEventListener("submit", (event) => {
    event.preventDefault();
    filter();
  });
  filter();
})();
