"use strict";
// Reloads the page when the preview has a newer one. It waits by a script element, not by a
// connection of its own: the policy of the published pages lets nothing else through.
(() => {
  const own = new URL(document.currentScript.src);
  const wait = () => {
    const script = document.createElement("script");
    script.src = `/_preview/wait.js?at=${own.searchParams.get("at")}&n=${Date.now()}`;
    script.onload = () => { script.remove(); wait(); };
    script.onerror = () => { script.remove(); setTimeout(wait, 1000); };
    document.head.append(script);
  };
  // Not before the page is there: a script that waits would hold up its `load`.
  addEventListener("load", () => setTimeout(wait, 0));
})();
