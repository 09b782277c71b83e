// A reader's own station at this guide's output. `judgeOwn` is generator/baybook/checks/equipment.py
// once more, in the same order, and is tested against it case by case. null: left blank.
"use strict";

const judgeOwn = (outlet, own) => {
  const any = (figure) => (figure === null ? Infinity : figure);
  const allowed = (absolute) => absolute * (1 - outlet.absolute_margin);
  const over = (found, limit) => (found > limit ? "no" : null);
  const absolute = any(own.absolute_V);
  const watts = Math.min(outlet.full_W, any(own.input_W));
  const amps = Math.min(outlet.charger_A, any(own.input_A));

  const slip = () => {
    const rising = [own.window_min_V, own.start_V, own.window_max_V, own.absolute_V];
    const given = rising.filter((volts) => volts !== null);
    const figures = [...given, own.input_A, own.input_W].filter((figure) => figure !== null);
    const falls = given.some((volts, place) => place > 0 && volts < given[place - 1]);
    return falls || figures.some((figure) => figure <= 0) ? "unknown" : null;
  };
  const absoluteMaximum = () =>
    own.absolute_V === null ? "unknown" : over(outlet.high_V, allowed(own.absolute_V));
  const defaultBack = () => {
    if (!outlet.default_after_reset) return null;
    return own.absolute_V === null ? "unknown" : over(outlet.default_high_V, own.absolute_V);
  };
  const inWindow = () => {
    const bottoms = [own.start_V, own.window_min_V];
    const under = bottoms.some((volts) => volts !== null && outlet.low_V < volts);
    if (under || outlet.high_V > any(own.window_max_V)) return "no";
    return own.window_max_V === null || bottoms.includes(null) ? "unknown" : null;
  };
  const connector = () => {
    if (own.connector === null) return "unknown";
    return [outlet.connector, ...outlet.mates].includes(own.connector) ? null : "no";
  };
  const plug = () => {
    if (outlet.charger_A <= outlet.plug_A) return null;
    return own.input_A === null ? "unknown" : over(own.input_A, outlet.plug_A);
  };
  const lead = () => {
    if (Math.min(outlet.full_W / outlet.set_V, outlet.charger_A) <= outlet.lead_A) return null;
    if (Math.min(watts / outlet.set_V, amps) <= outlet.lead_A) return null;
    return own.input_W === null || own.input_A === null ? "unknown" : "no";
  };
  const feed = () =>
    Math.min(watts, outlet.high_V * amps) > outlet.counted_W ? "unknown" : null;
  const polarity = () => {
    if (own.polarity === null || own.polarity === "unknown") return "unknown";
    if (outlet.polarity === "unknown") return "hold";
    if (own.polarity !== outlet.polarity) return "no";
    return own.polarity === "centre negative" ? "hold" : null;
  };
  const defaultOutside = () => {
    if (!outlet.default_after_reset || outlet.default_high_V > absolute) return null;
    const top = Math.min(any(own.window_max_V), allowed(absolute));
    const under = own.window_min_V !== null && outlet.default_low_V < own.window_min_V;
    return under || outlet.default_high_V > top ? "hold" : null;
  };
  const defaultOnce = () =>
    !outlet.default_after_reset && outlet.default_high_V > absolute ? "hold" : null;

  const reasons = [
    ["DA-15", slip()],
    ["OV-01", absoluteMaximum()],
    ["OV-03", defaultBack()],
    ["OV-02", inWindow()],
    ["OV-08", connector()],
    ["OV-10", plug()],
    ["OV-07", lead()],
    ["CA-01", feed()],
    ["OV-12", polarity()],
    ["OV-04", defaultOutside()],
    ["OV-05", defaultOnce()],
    ["OV-09", "hold"],
  ]
    .filter(([, said]) => said !== null)
    .map(([code, said]) => `${said} ${code}`);
  const found = (said) => reasons.some((reason) => reason.startsWith(said));
  const verdict = found("no ") ? "no" : found("unknown ") ? "unknown" : "not refused";
  return { verdict, reasons };
};

(() => {
  const form = document.getElementById("own");
  if (!form) return;
  const outlet = JSON.parse(form.dataset.outlet);
  const figures = [...form.querySelectorAll("input")];
  const answer = document.getElementById("own-answer");
  let asked = false;

  const figure = (field) => {
    const value = readNumber(field.value);
    const fault = value !== null && !(value > 0 && Number.isFinite(value));
    field.setAttribute("aria-invalid", String(fault));
    document.getElementById(`${field.id}-fault`).hidden = !fault;
    return fault ? NaN : value;
  };

  const show = ({ verdict, reasons }) => {
    for (const part of answer.querySelectorAll("[data-verdict]"))
      part.hidden = part.dataset.verdict !== verdict;
    for (const part of answer.querySelectorAll("[data-reason]"))
      part.hidden = !reasons.includes(part.dataset.reason);
    for (const part of answer.querySelectorAll(".reasons, [data-note]")) part.hidden = !verdict;
  };

  const judge = () => {
    const own = Object.fromEntries(figures.map((field) => [field.name, figure(field)]));
    const unread = Object.values(own).some(Number.isNaN);
    for (const name of Object.keys(own)) if (Number.isNaN(own[name])) own[name] = null;
    for (const name of ["connector", "polarity"]) own[name] = form.elements[name].value || null;
    const { verdict, reasons } = judgeOwn(outlet, own);
    if (!unread) return show({ verdict, reasons });
    show({ verdict: verdict === "no" ? "no" : "unknown", reasons: ["entry", ...reasons] });
  };

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    asked = true;
    judge();
  });
  form.addEventListener("input", () => asked && judge());
  form.addEventListener("reset", () => {
    asked = false;
    show({ verdict: "", reasons: [] });
    for (const field of figures) {
      field.setAttribute("aria-invalid", "false");
      document.getElementById(`${field.id}-fault`).hidden = true;
    }
  });
  form.hidden = false;
  document.getElementById("own-plain").hidden = true;
})();
