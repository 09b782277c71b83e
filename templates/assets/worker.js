// Answers from the network; without one, from what a reader chose to keep (see guide/offline.js). It
// keeps nothing by itself, so that no page is ever older than the network's without saying so.
"use strict";

const PATIENCE_MS = 4000; // a network in a garage may neither answer nor fail

const keptFor = async ({ url }) => {
  const page = url.split("?")[0];
  const way = page.endsWith("/") ? `${page}index.html` : page;
  return caches.match(way, { ignoreSearch: true });
};

const answer = async (request) => {
  // A page is asked for anew: a browser may hold an older one, and take it for fresh.
  const network = request.mode === "navigate" ? fetch(request, { cache: "no-cache" }) : fetch(request);
  network.catch(() => null); // it may fail after we have answered
  const kept = await keptFor(request);
  if (!kept) return network;
  const late = new Promise((resolve) => setTimeout(resolve, PATIENCE_MS));
  return (await Promise.race([network.catch(() => null), late])) ?? kept;
};

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const own = new URL(request.url).origin === self.location.origin;
  // What asks to be stored nowhere wants to know what the network says, and nothing else.
  if (own && request.method === "GET" && request.cache !== "no-store") {
    event.respondWith(answer(request));
  }
});
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("install", () => self.skipWaiting());
