// What a person types as a figure. null: nothing; NaN: no number, or one that may be read two ways.
"use strict";

const readNumber = (() => {
  const parts = new Intl.NumberFormat(document.documentElement.lang || "en").formatToParts(1.5);
  const point = parts.find((part) => part.type === "decimal").value;
  const other = point === "," ? "." : ",";
  // "1,000" is a thousand to some and one to others: only the page's own mark may stand so.
  const twofold = new RegExp(`^[+-]?[1-9]\\d{0,2}\\${other}\\d{3}$`);

  return (typed) => {
    const text = typed.trim().replace(/\u2212/g, "-");
    if (!text) return null;
    if (!/^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/.test(text) || twofold.test(text)) return NaN;
    return Number(text.replace(",", "."));
  };
})();
