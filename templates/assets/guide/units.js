// The other unit beside a value, or the value alone: a choice kept on the device for every guide.
// The value that controls is never touched.
"use strict";

(() => {
  const choice = document.getElementById("second-unit");
  if (!choice || !document.querySelector(".converted:not(.why)")) return;
  const key = "baybook units";

  const show = () => document.body.classList.toggle("one-unit", !choice.checked);

  choice.checked = device?.getItem(key) !== "one";
  choice.closest("p").hidden = false;
  show();
  choice.addEventListener("change", () => {
    if (choice.checked) device?.removeItem(key);
    else device?.setItem(key, "one");
    show();
  });
})();
