// Keeps a guide on the device, so that it opens in a garage without a network. The page works
// without it. What was kept says since when nobody could tell whether it still holds.
"use strict";

(() => {
  const box = document.getElementById("offline");
  if (!box || !("serviceWorker" in navigator) || !("caches" in window) || !device) return;
  const { list, worker, guide } = box.dataset;
  const name = `baybook ${guide}`;
  const PATIENCE_MS = 8000; // a network in a garage may neither answer nor fail
  const note = box.querySelector(".offline-note");
  const keep = box.querySelector("[data-do=keep]");
  const drop = box.querySelector("[data-do=drop]");
  const words = (said, values) =>
    Object.entries(values).reduce((text, [key, value]) => text.replace(`{${key}}`, value), said);
  const today = () => new Date().toLocaleDateString("sv"); // year, month, day, as the pages have it

  const kept = () => JSON.parse(device.getItem(name));
  const remember = (version) =>
    device.setItem(name, JSON.stringify({ version, on: today() }));

  const show = (key, values = {}) => {
    note.textContent = words(box.dataset[key], values);
    note.classList.toggle("other", key === "stale" || key === "behind");
    keep.hidden = Boolean(kept());
    drop.hidden = !kept();
    box.hidden = false;
  };

  const hold = async (told) => {
    await navigator.serviceWorker.register(worker);
    const cache = await caches.open(name);
    const asked = told.files.map((file) => new Request(file, { cache: "no-store" }));
    await cache.addAll(asked); // all or none: a copy that cannot be renewed stays whole
    const wanted = new Set(asked.map((request) => request.url));
    for (const old of await cache.keys()) if (!wanted.has(old.url)) await cache.delete(old);
    remember(told.version);
  };

  const forget = async () => {
    await caches.delete(name);
    device.removeItem(name);
  };

  const size = (bytes) =>
    (bytes / 1e6).toLocaleString(document.documentElement.lang, { maximumFractionDigits: 1 });

  const look = async () => {
    const before = kept();
    let told;
    try {
      const waited = AbortSignal.timeout(PATIENCE_MS);
      told = await (await fetch(list, { cache: "no-store", signal: waited })).json();
    } catch {
      if (before) show("stale", { day: before.on });
      return;
    }
    keep.addEventListener("click", async () => {
      try {
        await hold(told);
        show("kept", { day: today() });
      } catch {
        await forget();
        show("failed");
      }
    });
    if (!before) {
      show("can", { size: size(told.bytes) });
    } else if (before.version === told.version) {
      remember(told.version);
      show("kept", { day: today() });
    } else {
      await hold(told).then(
        () => show("renewed", { day: today() }),
        () => show("behind", { day: before.on }),
      );
    }
  };

  drop.addEventListener("click", async () => {
    await forget();
    show("gone");
  });
  look();
})();
