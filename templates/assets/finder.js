// The finder of the first page. Without it the lists stand as they are; with it a list of hits takes
// their place, made of the same lines. The index says what a line alone does not: make, model, years.
"use strict";

// What is found, without the page: tested by itself.
const finding = (() => {
  const LETTERS = { ß: "ss", æ: "ae", œ: "oe", ø: "o", ł: "l", đ: "d", ð: "d", þ: "th", ı: "i" };
  const plain = (text) =>
    text
      .normalize("NFKD")
      .replace(/\p{M}/gu, "")
      .toLowerCase()
      .replace(/[ßæœøłđðþı]/g, (letter) => LETTERS[letter]);

  // "3.0 D" has the words 3.0 and d; a decimal comma is a point.
  const words = (text) =>
    (plain(text).match(/[\p{L}\p{N}]+(?:[.,]\p{N}+)*/gu) ?? []).map((w) => w.replaceAll(",", "."));

  // A number is never guessed: the next one is another product.
  const allowed = (word) =>
    /\p{N}/u.test(word) ? 0 : word.length >= 8 ? 2 : word.length >= 4 ? 1 : 0;

  // Letters put in, left out, changed or two swapped, until `typed` is `word`, and until it begins it.
  const distances = (typed, word) => {
    const a = [...typed];
    const b = [...word];
    let before = null;
    let last = Array.from({ length: b.length + 1 }, (_, at) => at);
    for (let i = 1; i <= a.length; i += 1) {
      const row = [i];
      for (let j = 1; j <= b.length; j += 1) {
        const other = a[i - 1] === b[j - 1] ? 0 : 1;
        row[j] = Math.min(row[j - 1] + 1, last[j] + 1, last[j - 1] + other);
        if (before && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
          row[j] = Math.min(row[j], before[j - 2] + 1);
        }
      }
      [before, last] = [last, row];
    }
    return [last[b.length], Math.min(...last)];
  };

  const near = (typed, all) => {
    const limit = allowed(typed);
    if (!limit) return [];
    const found = all.map((word) => [word, ...distances(typed, word)]);
    const whole = found.filter(([, other]) => other <= limit);
    return (whole.length ? whole : found.filter(([, , other]) => other <= limit)).map(([w]) => w);
  };

  // Words are taken as typed where anything fits them so; only else as the nearest that there are.
  const search = (entries, text) => {
    const typed = words(text);
    const all = [...new Set(entries.flatMap((entry) => [...entry.words]))].sort();
    const begun = typed.map((word) => all.filter((other) => other.startsWith(word)));
    const guesses = (at) => near(typed[at], all).filter((word) => !begun[at].includes(word));
    const reached = (readings) =>
      entries.filter((entry) =>
        readings.every(
          (reading, at) => inYears(entry, typed[at]) || reading.some((word) => entry.words.has(word)),
        ),
      );
    const first = typed.map((word, at) =>
      begun[at].length || entries.some((entry) => inYears(entry, word)) ? begun[at] : guesses(at),
    );
    let hits = reached(first);
    let readings = first;
    if (!hits.length) {
      readings = typed.map((_, at) => [...new Set([...begun[at], ...guesses(at)])]);
      hits = reached(readings);
    }
    const read = typed.flatMap((word, at) => {
      const as = readings[at].filter(
        (other) => !begun[at].includes(other) && hits.some((entry) => entry.words.has(other)),
      );
      return as.length ? [[word, as]] : [];
    });
    return { hits, read };
  };

  const inYears = (entry, word) =>
    /^(19|20)\d\d$/.test(word) && entry.first !== undefined && holds(entry, "year", word);

  const holds = (entry, field, value) => {
    if (!value) return true;
    if (field === "year") return entry.first <= Number(value) && Number(value) <= entry.last;
    if (field === "drive") return entry.drive === value || entry.drive === "both";
    return entry[field] === value;
  };

  const FIELDS = ["make", "model", "year", "engine", "drive", "charger", "station"];
  const chosen = (entries, asked, but) =>
    entries.filter((entry) =>
      FIELDS.every((field) => field === but || holds(entry, field, asked[field])),
    );

  // What tells an entry from those like it, as names of fields; its code where nothing else does.
  const TELLING = ["variant", "drive", "charger", "station"];
  const differing = (entry, alike) => {
    const fields = TELLING.filter((field) => alike.some((e) => e[field] !== entry[field]));
    const same = alike.filter((e) => fields.every((field) => e[field] === entry[field]));
    return same.length > 1 ? [...fields, "code"] : fields;
  };

  const folderName = (make, model) =>
    `${make} ${model}`
      .normalize("NFKD")
      .replace(/\p{M}/gu, "")
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, "-")
      .replace(/^-|-$/g, "");

  // The columns of finder.json as entries by their fit: publish/finder.py says how they are told.
  const unpack = (index) => {
    if (index.format !== 1) throw new Error("finder.json is of another format");
    const { vehicles, fits } = index;
    const found = new Map();
    let line = 0;
    vehicles.fits.forEach((own, at) => {
      const make = index.makes[vehicles.make[at]];
      const model = vehicles.model[at];
      const slug = vehicles.slug[at];
      const folder = slug.startsWith("/") ? slug.slice(1) : folderName(make, model) + slug;
      const first = vehicles.first[at];
      const after = vehicles.last[at];
      for (const end = line + own; line < end; line += 1) {
        const job = index.jobs[fits.job[line]];
        found.set(`${folder}/${job}`, {
          make,
          model,
          engine: index.engines[vehicles.engine[at]],
          first,
          last: after < 0 ? Infinity : first + after,
          drive: ["left", "right", "both"][vehicles.sides[at]],
          charger: index.chargers[fits.charger[line]],
          station: index.stations[fits.station[line]],
          mark: index.marks[fits.mark[line]],
          code: `${vehicles.code[at]}/${job.toUpperCase()}`,
        });
      }
    });
    return found;
  };

  return { plain, words, allowed, distances, search, chosen, differing, folderName, unpack, FIELDS };
})();

(() => {
  const form = document.getElementById("finder");
  if (!form) return;
  const say = form.dataset;
  const AT_ONCE = 60; // hits that are shown before one asks for more
  const status = document.getElementById("count");
  const hitList = document.getElementById("hits");
  const lists = [...document.querySelectorAll("[data-lists]")];
  const none = document.getElementById("none");
  const more = document.getElementById("more");
  const filled = (sentence, values) =>
    sentence.replace(/\[(\w+)\]/g, (_, name) => String(values[name]));
  const by = new Intl.Collator(document.documentElement.lang, { numeric: true });
  let entries = [];
  let limit = AT_ONCE;

  // A line of the lists, and what the index adds to it.
  const entryOf = (line, order, index) => {
    const fit = line.querySelector("a.name").getAttribute("href").split("/").slice(1, 3).join("/");
    const told = index?.get(fit) ?? {};
    const sides = told.drive ? say[told.drive] : "";
    const { charger, station, code } = told; // make, model and engine stand in the line
    const said = [...line.querySelectorAll("a, span")].map((part) => part.textContent);
    const text = [...said, fit, sides, charger, station, code].filter(Boolean).join(" ");
    const title = line.querySelector("a.name").textContent;
    const variant = told.make ? title.replace(`${told.make} ${told.model}`, "").trim() : title;
    return { ...told, line, order, variant, words: new Set(finding.words(text)) };
  };

  const values = (field, among) => {
    if (field !== "year") {
      const found = new Set(among.map((entry) => entry[field]).filter(Boolean));
      if (field === "drive" && found.delete("both")) ["left", "right"].forEach((s) => found.add(s));
      return [...found].sort(by.compare);
    }
    if (!among.length) return [];
    const newest = new Date().getFullYear();
    const last = among.map((e) => (e.last === Infinity ? Math.max(newest, e.first) : e.last));
    const [from, to] = [Math.min(...among.map((e) => e.first)), Math.max(...last)];
    const years = Array.from({ length: to - from + 1 }, (_, at) => to - at);
    return years.filter((y) => among.some((e) => e.first <= y && y <= e.last)).map(String);
  };

  const option = (value, text) => Object.assign(document.createElement("option"), { value, text });

  // Each choice offers what still leads to an entry.
  const offer = (asked) => {
    for (const field of finding.FIELDS) {
      const select = form.elements.namedItem(field);
      const offered = values(field, finding.chosen(entries, asked, field));
      const kept = asked[field];
      if (kept && !offered.includes(kept)) offered.unshift(kept);
      if (offered.join("\n") === select.dataset.offered) continue;
      select.dataset.offered = offered.join("\n");
      const named = (value) => option(value, field === "drive" ? (say[value] ?? value) : value);
      select.replaceChildren(option("", say.any), ...offered.map(named));
      select.value = kept ?? "";
    }
  };

  // What differs is said between hits of one make and model.
  const shown = (entry, alike) => {
    const line = entry.line.cloneNode(true);
    const fields = alike.length > 1 ? finding.differing(entry, alike) : [];
    if (fields.length) {
      const value = (field) => (field === "drive" ? say[entry.drive] : entry[field]);
      const note = document.createElement("span");
      note.className = "note differs";
      const told = fields.map((field) => `${say[`label${field}`]} ${value(field)}`).join("; ");
      note.textContent = `${say.differs} ${told}`;
      line.querySelector("div").append(note);
    }
    return line;
  };

  const list = (hits) => {
    const named = (entry) => `${entry.make ?? ""} ${entry.model ?? ""}`;
    const alike = grouped(hits, named);
    const sorted = [...hits].sort((a, b) => by.compare(named(a), named(b)) || a.order - b.order);
    const lines = sorted
      .slice(0, limit)
      .map((entry) => shown(entry, entry.make ? alike.get(named(entry)) : []));
    hitList.replaceChildren(...lines);
    more.hidden = sorted.length <= limit;
  };

  const grouped = (items, key) => {
    const found = new Map();
    for (const item of items) {
      const of = key(item);
      if (!found.has(of)) found.set(of, []);
      found.get(of).push(item);
    }
    return found;
  };

  const tell = (hits, read) => {
    const refused = hits.filter((entry) => entry.mark === "refused").length;
    const guesses = read.map(([typed, as]) => filled(say.read, { typed, as: as.join(", ") }));
    const counted = filled(refused ? say.somerefused : say.some, { count: hits.length, refused });
    status.textContent = [...guesses, ...(hits.length ? [counted] : [])].join(" ");
    none.hidden = hits.length > 0;
  };

  const keepAddress = (asked) => {
    const query = new URLSearchParams(Object.entries(asked)).toString();
    try {
      history.replaceState(null, "", (query ? `?${query}` : location.pathname) + location.hash);
    } catch {
      // a page opened from a folder may not change its address
    }
  };

  const filter = () => {
    const all = [...new FormData(form)].map(([name, value]) => [name, value.trim()]);
    const asked = Object.fromEntries(all.filter(([, value]) => value));
    const any = Object.keys(asked).length > 0;
    const { hits, read } = finding.search(finding.chosen(entries, asked), asked.text ?? "");
    offer(asked);
    for (const section of lists) section.hidden = any;
    document.getElementById("found").hidden = !any;
    if (any) {
      list(hits);
      tell(hits, read);
    } else {
      hitList.replaceChildren();
      status.textContent = "";
    }
    keepAddress(asked);
  };

  const restart = () => {
    limit = AT_ONCE;
    filter();
  };

  const start = (index) => {
    const lines = [...document.querySelectorAll("[data-lists] .entries > li")];
    entries = lines.map((line, order) => entryOf(line, order, index));
    for (const field of finding.FIELDS) {
      form.elements.namedItem(field).closest("div").hidden = !index; // a line alone has no columns
    }
    offer({});
    for (const [name, value] of new URLSearchParams(location.search)) {
      const field = form.elements.namedItem(name);
      if (!field) continue;
      if (field.tagName === "SELECT" && ![...field.options].some((o) => o.value === value)) {
        field.append(option(value, value));
      }
      field.value = value;
    }
    form.addEventListener("input", restart);
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      restart();
      status.scrollIntoView();
    });
    form.addEventListener("reset", () => setTimeout(restart));
    more.addEventListener("click", () => {
      limit = Infinity;
      filter();
    });
    filter();
  };

  form.hidden = false;
  fetch(say.index)
    .then((answer) => (answer.ok ? answer.json() : Promise.reject(answer.status)))
    .then(finding.unpack)
    .catch(() => null) // from a disk nothing is fetched: what stands in the lines is searched
    .then(start);
})();
