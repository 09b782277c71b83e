// Keeps a guide on the device, so that it opens in a garage without a network. The page works
// without it. What was kept says since when nobody could tell whether it still holds.
"use strict";

(() => {
  const box = document.getElementById("offline");
  if (!box || !("serviceWorker" in navigator) || !("caches" in window)) return;
  const { list, worker, guide } = box.dataset;
  const name = `baybook ${guide}`;
  const note = box.querySelector(".offline-note");
  const keep = box.querySelector("[data-do=keep]");
  const drop = box.querySelector("[data-do=drop]");
  const words = (said, values) =>
    Object.entries(values).reduce((text, [key, value]) => text.replace(`{${key}}`, value), said);
  const today = () => new Date().toLocaleDateString("sv"); // year, month, day, as the pages have it

  const kept = () => {
    try {
      return JSON.parse(localStorage.getItem(name));
    } catch {
      return null;
    }
  };

  const show = (key, values = {}) => {
    note.textContent = words(box.dataset[key], values);
    note.classList.toggle("other", key === "stale");
    keep.hidden = Boolean(kept());
    drop.hidden = !kept();
    box.hidden = false;
  };

  const hold = async (told) => {
    await navigator.serviceWorker.register(worker);
    await caches.delete(name);
    const cache = await caches.open(name);
    await cache.addAll(told.files.map((file) => new Request(file, { cache: "no-cache" })));
    localStorage.setItem(name, JSON.stringify({ version: told.version, on: today() }));
  };

  const size = (bytes) =>
    (bytes / 1e6).toLocaleString(document.documentElement.lang, { maximumFractionDigits: 1 });

  const look = async () => {
    const before = kept();
    let told;
    try {
      const answer = await fetch(list, { cache: "no-store" });
      if (answer.headers.has("X-Kept")) throw new Error("from the device");
      told = await answer.json();
    } catch {
      if (before) show("stale", { day: before.on });
      return;
    }
    keep.addEventListener("click", async () => {
      try {
        await hold(told);
        show("kept", { day: today() });
      } catch {
        await caches.delete(name);
        localStorage.removeItem(name);
        show("failed");
      }
    });
    if (!before) show("can", { size: size(told.bytes) });
    else {
      try {
        if (before.version === told.version) {
          localStorage.setItem(name, JSON.stringify({ ...before, on: today() }));
          show("kept", { day: today() });
        } else {
          await hold(told);
          show("renewed", { day: today() });
        }
      } catch {
        show("stale", { day: before.on });
      }
    }
  };

  drop.addEventListener("click", async () => {
    await caches.delete(name);
    localStorage.removeItem(name);
    show("gone");
  });
  look();
})();
