// The search of a swatch book. The book itself stands in the file; this reads it from there, and
// without this it is a book to read and print. What is found is shown as copies of its patches.

const AT_ONCE = 24;
const ANOTHER_COLOUR = 5.0; // ΔE00, as in studio/actions/match_colour.py

const byId = (id) => document.getElementById(id);
const form = byId("search");
const colourField = byId("colour");
const picker = byId("picker");
const wordsField = byId("words");
const orderField = byId("order");
const everyField = byId("every");
const said = byId("said");
const answer = byId("answer");
const shown = byId("shown");
const more = byId("more");
const book = byId("book");

const swatches = Array.from(book.querySelectorAll("figure"), (figure) => ({
  figure,
  code: figure.id,
  key: Number(figure.dataset.key),
  mix: figure.dataset.mix,
  lab: figure.dataset.lab.split(" ").map(Number),
  places: figure.dataset.places.split(" ").map(Number),
  text: null,
}));
const coded = new Map(swatches.map((swatch) => [swatch.code, swatch]));
const ORDERS = Array.from(orderField.options, (option) => option.value);
const PARTS = Array.from(orderField.options, (option) => JSON.parse(option.dataset.parts));

const folded = (text) => text.normalize("NFD").replace(/[\u0300-\u036f]/g, "").toLowerCase();
const counted = (count, one, many) => `${count.toLocaleString("en")} ${count === 1 ? one : many}`;

function textOf(swatch) {
  if (swatch.text === null) {
    const lines = swatch.figure.querySelectorAll(".said");
    swatch.text = folded(Array.from(lines, (line) => line.textContent).join(" "));
  }
  return swatch.text;
}

// What was asked for as a colour: nothing (null), a fault, or a colour with the swatch it is of.
function wantedColour(text) {
  const given = text.trim();
  if (given === "") {
    return null;
  }
  const swatch = /^[a-z]+\d[a-z0-9]*$/i.test(given) && !/^n\d+$/i.test(given)
    ? coded.get(given.toUpperCase())
    : undefined;
  const lab = swatch ? swatch.lab : readColour(given);
  return lab ? { given: swatch ? swatch.code : given, lab, swatch } : { given, lab: null };
}

// The swatches that hold all words, each mix by its nearest unless every swatch is wanted; nearest
// first, what is equally near in the order it was recorded.
function nearest(held, wanted, every) {
  const best = new Map();
  for (const swatch of held) {
    if (swatch !== wanted.swatch) {
      const found = { swatch, apart: ciede2000(wanted.lab, swatch.lab) };
      const group = every ? swatch.key : swatch.mix;
      const other = best.get(group);
      if (other === undefined || nearerFirst(found, other) < 0) {
        best.set(group, found);
      }
    }
  }
  return Array.from(best.values()).sort(nearerFirst);
}

const nearerFirst = (one, other) =>
  one.apart - other.apart || one.swatch.key - other.swatch.key;

function partOf(order, place) {
  let end = 0;
  return PARTS[order].findIndex(([, count]) => place < (end += count));
}

function patchOf(found, wanted) {
  const figure = found.swatch.figure.cloneNode(true);
  figure.removeAttribute("id");
  if (wanted !== null) {
    const screen = onScreen(wanted.lab);
    const half = document.createElement("div");
    half.className = screen.inside ? "colour" : "colour outside";
    half.style.setProperty("--srgb", screen.hex);
    half.style.setProperty("--lab", `lab(${wanted.lab[0]}% ${wanted.lab[1]} ${wanted.lab[2]})`);
    figure.querySelector(".ground").prepend(half);
    const line = document.createElement("span");
    line.className = "apart";
    line.textContent = `ΔE00 ${found.apart.toFixed(2)}`;
    figure.querySelector(".name").append(line);
    figure.dataset.apart = String(found.apart);
  }
  return figure;
}

let list = { found: [], wanted: null, order: 0, done: 0 };

function addPatches(count) {
  const added = document.createDocumentFragment();
  const { found, wanted, order } = list;
  const end = Math.min(found.length, list.done + count);
  for (; list.done < end; list.done += 1) {
    const each = found[list.done];
    if (wanted === null) {
      const part = partOf(order, each.swatch.places[order]);
      if (part !== list.part) {
        list.part = part;
        const heading = document.createElement("h2");
        heading.textContent = PARTS[order][part][0];
        added.append(heading);
      }
    }
    added.append(patchOf(each, wanted));
  }
  shown.append(added);
  const left = found.length - list.done;
  more.hidden = left === 0;
  more.textContent = `Show more: ${left.toLocaleString("en")} left`;
}

function sentence(wanted, found, words) {
  const holding = words ? ` with “${words}”` : "";
  if (wanted !== null && wanted.lab === null) {
    const such = swatches[0].code;
    return `“${wanted.given}” is not a colour that this book can read; write one like #767d63, ` +
      `lab(51 -6 13), or a swatch of the book such as ${such}.`;
  }
  if (wanted === null) {
    return words ? `${counted(found.length, "swatch", "swatches")}${holding}.` : "";
  }
  if (found.length === 0) {
    return `No other swatch${holding} to compare with ${wanted.given}.`;
  }
  const what = everyField.checked
    ? counted(found.length, "swatch", "swatches")
    : counted(found.length, "mix", "mixes");
  const near = found.filter((each) => each.apart <= ANOTHER_COLOUR).length;
  const first = `${found[0].swatch.code}, ΔE00 ${found[0].apart.toFixed(2)}`;
  const how = near === 0
    ? `nothing within ΔE00 5, so even the nearest, ${first}, is another colour`
    : `${near.toLocaleString("en")} within ΔE00 5; nearest: ${first}`;
  const screen = onScreen(wanted.lab);
  const off = screen.off > NOTABLE ? `, ΔE00 ${screen.off.toFixed(1)} off` : "";
  const outside = screen.inside ? "" : ` It is outside sRGB; the nearest is shown${off}.`;
  return `${what}${holding}, nearest to ${wanted.given} first; ${how}.${outside}`;
}

function search() {
  const wanted = wantedColour(colourField.value);
  const words = wordsField.value.trim();
  const parts = folded(words).split(/\s+/).filter(Boolean);
  const order = orderField.selectedIndex;
  const readable = wanted !== null && wanted.lab !== null;
  colourField.setAttribute("aria-invalid", String(wanted !== null && !readable));
  byId("ordering").hidden = readable;
  byId("all").hidden = !readable;

  const held = parts.length
    ? swatches.filter((swatch) => parts.every((part) => textOf(swatch).includes(part)))
    : swatches;
  const found = readable
    ? nearest(held, wanted, everyField.checked)
    : held
        .map((swatch) => ({ swatch, apart: null }))
        .sort((one, other) => one.swatch.places[order] - other.swatch.places[order]);
  if (readable) {
    picker.value = onScreen(wanted.lab).hex;
  }

  const asWritten = !readable && parts.length === 0 && ORDERS[order] === book.dataset.order;
  list = { found, wanted: readable ? wanted : null, order, done: 0, part: -1 };
  shown.textContent = "";
  if (asWritten) {
    more.hidden = true;
  } else {
    addPatches(AT_ONCE);
  }
  answer.hidden = asWritten;
  book.classList.toggle("away", !asWritten);
  said.textContent = sentence(wanted, found, words);
}

// A link to a swatch, or its machine-readable code, leads to it in the book.
function goTo() {
  let code = location.hash.slice(1);
  try {
    code = decodeURIComponent(code);
  } catch (stray) {
    return; // a % in an address that is no code
  }
  if (coded.has(code) && book.classList.contains("away")) {
    form.reset();
    search();
    coded.get(code).figure.scrollIntoView();
  }
}

form.hidden = false;
form.addEventListener("input", (event) => {
  if (event.target === picker) {
    colourField.value = picker.value;
  }
  search();
});
form.addEventListener("submit", (event) => event.preventDefault());
form.addEventListener("reset", () => setTimeout(search));
more.addEventListener("click", () => addPatches(2 * AT_ONCE));
new IntersectionObserver(
  (seen) => {
    if (seen.some((each) => each.isIntersecting) && !more.hidden) {
      addPatches(AT_ONCE);
    }
  },
  { rootMargin: "800px" },
).observe(more);
addEventListener("hashchange", goTo);
addEventListener("beforeprint", () => {
  if (list.wanted === null && !answer.hidden) {
    addPatches(swatches.length);
  }
});
// The words are read, and the formula is compiled, while nobody waits for them.
setTimeout(() => {
  swatches.forEach(textOf);
  nearest(swatches, { lab: [50.0, 0.0, 0.0] }, true);
}, 300);
search();
