// One step at a time, for a hand that holds a tool: the step with its warnings and its hold, and
// three keys under the thumb. Without script, the whole list is there.
"use strict";

(() => {
  const start = document.getElementById("walk-start");
  const bar = document.getElementById("walk");
  const steps = [...document.querySelectorAll(".step-item")];
  if (!start || !bar || steps.length === 0) return;
  const key = `baybook ${document.body.dataset.guide} at`;
  const status = bar.querySelector("[role=status]");
  const press = (what) => bar.querySelector(`[data-do=${what}]`);
  const tick = (step) => step.querySelector(".step .tick");
  const number = (step) => step.id.replace("step-", "");
  const fill = (said, values) =>
    Object.entries(values).reduce((text, [name, value]) => text.replace(`{${name}}`, value), said);
  const walking = () => document.body.classList.contains("walking");
  let at = 0;

  const say = () => {
    const open = steps.slice(0, at).find((step) => !tick(step).checked);
    status.textContent = fill(bar.dataset.where, {
      number: number(steps[at]),
      last: number(steps.at(-1)),
    });
    if (open) status.append(" ", fill(bar.dataset.open, { number: number(open) }));
    status.classList.toggle("other", Boolean(open));
  };

  const go = (to) => {
    at = Math.max(0, Math.min(to, steps.length - 1));
    for (const now of document.querySelectorAll("#steps .now")) now.classList.remove("now");
    steps[at].classList.add("now");
    steps[at].closest("section").classList.add("now");
    press("back").disabled = at === 0;
    press("next").disabled = at === steps.length - 1;
    device?.setItem(key, number(steps[at]));
    say();
    scrollTo(0, 0);
    const action = steps[at].querySelector(".action");
    action.tabIndex = -1;
    action.focus({ preventScroll: true });
  };

  // The screen stays on while the reader asks for it, where the device can.
  const awake = document.getElementById("walk-awake");
  let lock = null;
  const stay = async () => {
    const wanted = walking() && awake.checked && !document.hidden;
    if (wanted && !lock) {
      try {
        lock = await navigator.wakeLock.request("screen");
        lock.addEventListener("release", () => (lock = null));
      } catch {
        awake.checked = false; // a battery that is low may forbid it
      }
    } else if (!wanted) await lock?.release();
  };
  if ("wakeLock" in navigator) {
    awake.closest(".awake").hidden = false;
    awake.addEventListener("change", stay);
    document.addEventListener("visibilitychange", stay);
  }

  const leave = () => {
    document.body.classList.remove("walking");
    bar.hidden = true;
    stay();
  };
  const walk = (to) => {
    document.body.classList.add("walking");
    bar.hidden = false;
    go(to);
    stay();
  };

  start.hidden = false;
  start.addEventListener("click", () => {
    const open = steps.findIndex((step) => !tick(step).checked);
    const kept = steps.findIndex((step) => number(step) === device?.getItem(key));
    walk(open === -1 ? Math.max(kept, 0) : open);
  });
  press("back").addEventListener("click", () => go(at - 1));
  press("next").addEventListener("click", () => go(at + 1));
  press("done").addEventListener("click", () => {
    // What was not read is not done: a tall warning may have left the action under the keys.
    const action = steps[at].querySelector(".action");
    if (action.getBoundingClientRect().bottom > bar.getBoundingClientRect().top) {
      action.scrollIntoView({ block: "center" });
      return;
    }
    const box = tick(steps[at]);
    if (!box.checked) box.click();
    // A hold under the step is signed before anything after it.
    if (steps[at].querySelector(".hold, .elsewhere")) say();
    else go(at + 1);
  });
  press("leave").addEventListener("click", () => {
    leave();
    steps[at].scrollIntoView();
    start.focus({ preventScroll: true });
  });
  document.getElementById("steps").addEventListener("change", () => walking() && say());
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && walking()) press("leave").click();
  });
  // A link to a reading or a rule leads out of the steps; a link to a step leads to it.
  addEventListener("hashchange", () => {
    const step = steps.findIndex(({ id }) => `#${id}` === location.hash);
    if (!walking()) return;
    if (step >= 0) go(step);
    else {
      leave();
      document.getElementById(decodeURIComponent(location.hash.slice(1)))?.scrollIntoView();
    }
  });
})();
