// Is it mine? An answer to each look, kept on the device. One that differs closes the guide: what
// follows is for another vehicle. It leads to those who can make a guide, never to the next one.
"use strict";

(() => {
  const checks = [...document.querySelectorAll(".check")];
  const box = document.getElementById("not-mine");
  if (!checks.length || !box) return;
  const status = document.getElementById("mine");
  const key = `baybook mine ${document.body.dataset.guide}`;

  const answer = (check) => check.querySelector("input:checked")?.value ?? "";
  const differs = (check) => answer(check) !== "" && answer(check) !== check.dataset.answer;

  const judge = () => {
    const other = checks.filter(differs);
    const open = checks.filter((check) => !answer(check)).length;
    for (const check of checks) check.classList.toggle("differs", other.includes(check));
    document.body.classList.toggle("not-mine", other.length > 0);
    box.hidden = other.length === 0;
    const said = other.length ? "" : open ? status.dataset.open : status.dataset.all;
    status.textContent = said.replace("[open]", open).replace("[all]", checks.length);
  };

  const keep = () => {
    const answers = checks.map(answer);
    if (answers.some(Boolean)) device?.setItem(key, answers.join(" "));
    else device?.removeItem(key);
  };

  const show = (answers) => {
    checks.forEach((check, at) => {
      for (const field of check.querySelectorAll("input")) {
        field.checked = field.value === answers[at];
      }
    });
    judge();
  };

  show((device?.getItem(key) ?? "").split(" "));
  document.getElementById("vehicle").addEventListener("change", () => {
    keep();
    judge();
    if (!box.hidden) box.scrollIntoView({ block: "nearest" });
  });
  document.getElementById("again").addEventListener("click", () => {
    show([]);
    keep();
    checks[0].querySelector("input").focus();
  });
  document.getElementById("forget")?.addEventListener("click", () => {
    show([]);
    keep();
  });
})();
