// The call page: every change asks anew, and the last question is the one that is answered.
import { LOST, send, told } from "./asking.js";
import { combobox } from "./combobox.js";
import { keeping } from "./keeping.js";
import { fill, order, wished } from "./order.js";
import { keys, marked, whatifs } from "./whatif.js";

const form = document.getElementById("order");
const answer = document.getElementById("answer");
const empty = answer.firstElementChild;
const PAUSE = 180; // milliseconds without a key before it asks
const AGAIN = 1500; // milliseconds until a desk that is gone is looked for once more
const MOST_RECENT = 6;

// Which choice is shown, and what no field says: the kept quote that is open, the answer on the page.
const state = { choice: "", open: null, key: "", order: "" };
let asked = null; // the question that is under way
let waiting = 0;
let lost = 0;

const is = (now) => JSON.stringify([now, state.choice]);
const isWhole = (now) => now.vehicles && now.to && !/^\d{1,4}$/.test(now.to);

function shipment(now) {
  return JSON.stringify([now.vehicles, now.to]);
}

export async function ask({ quiet = false, force = false } = {}) {
  clearTimeout(waiting);
  const now = order();
  wished();
  marked(state);
  if (!isWhole(now)) { asked?.abort(); asked = null; clear(); return; }
  if (!force && is(now) === state.order) return;
  asked?.abort();
  const mine = (asked = new AbortController());
  answer.setAttribute("aria-busy", "true");
  const before = state.open?.key ?? (state.order && shipment(JSON.parse(state.order)[0]) === shipment(now) ? state.key : "");
  const query = new URLSearchParams({ choice: state.choice, beside: before });
  try {
    const response = await send(`/answer?${query}`, now, mine.signal);
    const text = response.ok ? await response.text() : await told(response);
    if (asked !== mine) return;
    if (response.ok) show(text, is(now)); else refuse(...text, { quiet });
  } catch (error) {
    if (error.name === "AbortError" || asked !== mine) return;
    refuse("No answer", LOST, { quiet: false });
    lookAgain();
  }
  answer.setAttribute("aria-busy", "false");
}

function show(html, asking) {
  answer.innerHTML = html; // made by the desk, every text in it escaped
  const given = answer.querySelector("article");
  state.key = given.dataset.answer;
  state.order = asking;
  kept.answered();
  const price = answer.querySelector("dd.price")?.textContent ?? "";
  document.getElementById("heard").textContent = `${answer.querySelector(".beside").textContent} ${price}`;
  marked(state);
}

function refuse(title, text, { quiet }) {
  const box = document.createElement("div");
  box.className = quiet ? "problem waiting" : "problem";
  if (!quiet) box.setAttribute("role", "alert");
  box.append(Object.assign(document.createElement("strong"), { textContent: title }), Object.assign(document.createElement("p"), { textContent: text }));
  answer.replaceChildren(box);
  state.key = state.order = "";
  kept.answered();
}

function clear() {
  answer.setAttribute("aria-busy", "false");
  if (answer.firstElementChild !== empty) answer.replaceChildren(empty);
  state.key = state.order = "";
  kept.answered();
}

// Looks for a desk that is gone until it is back, and then asks what is typed by then.
function lookAgain() {
  clearTimeout(lost);
  lost = setTimeout(async () => {
    const back = await fetch("/api/health").catch(() => null);
    if (back?.ok) { kept.look(); ask({ force: true }); } else lookAgain();
  }, AGAIN);
}

function soon() {
  clearTimeout(waiting);
  waiting = setTimeout(() => ask({ quiet: true }), PAUSE);
}

const kept = keeping(state, { show, refuse, ask });

const offered = async (path, text) => (await fetch(`${path}?text=${encodeURIComponent(text.trim())}`)).json();

// Of several stock numbers with commas between them the last is the one that is typed.
function lastOf(text) {
  const parts = text.split(",");
  const numbers = parts.slice(0, -1).every((part) => /^\s*[a-z]{0,6}[ -]?\d{1,8}\s*$/i.test(part));
  return numbers ? parts.at(-1) : text;
}

const vehicleTold = document.getElementById("vehicle-told");
const photo = document.getElementById("photo");
photo.addEventListener("error", () => { photo.hidden = true; });
const plain = (text) => text.toLowerCase().replace(/[\s-]/g, "");

const vehicles = combobox(form.vehicles, document.getElementById("vehicles-offered"), {
  offers: (text) => offered("/offered/vehicles", lastOf(text)),
  chosen(offer) {
    const text = form.vehicles.value;
    const last = lastOf(text);
    form.vehicles.value = `${text.slice(0, text.length - last.length)}${last.length < text.length ? " " : ""}${offer.text}`;
    seen([offer], form.vehicles.value);
    soon();
  },
  seen: (found, text) => seen(found, text),
});

function seen(found, text) {
  const typed = plain(lastOf(text));
  const one = found.find((offer) => plain(offer.text) === typed || (/^\d+$/.test(typed) && plain(offer.text).replace(/^[a-z]+/, "") === typed));
  vehicleTold.textContent = one ? `${one.name} · ${one.told}` : "";
  photo.hidden = !one?.photo;
  if (one?.photo) { photo.src = `/photo/${encodeURIComponent(one.photo)}`; photo.alt = `A photograph of the ${one.name}`; }
}

const placeTold = document.getElementById("place-told");

function recent() {
  try { return JSON.parse(localStorage.getItem("places") ?? "[]"); } catch { return []; }
}

const places = combobox(form.to, document.getElementById("places-offered"), {
  opensEmpty: true,
  async offers(text) {
    if (!text.trim()) return recent();
    return /^\d{1,4}$/.test(text.trim()) ? [] : offered("/offered/places", text);
  },
  chosen(offer) {
    form.to.value = offer.text;
    placeTold.textContent = `${offer.name}, ${offer.told}`;
    try { localStorage.setItem("places", JSON.stringify([offer, ...recent().filter((one) => one.text !== offer.text)].slice(0, MOST_RECENT))); } catch { /* none are kept, then */ }
    ask();
  },
  seen(found, text) {
    if (!text.trim() || !found.length) placeTold.textContent = "";
    else if (found.length === 1) placeTold.textContent = `${found[0].name}, ${found[0].told}`;
    else placeTold.textContent = `${found.length} places may be meant: ↓ to choose`;
  },
});

form.addEventListener("input", (event) => {
  if (event.target === form.vehicles || event.target === form.to) state.choice = "";
  soon();
});
form.addEventListener("change", () => ask());
form.addEventListener("submit", (event) => { event.preventDefault(); ask({ force: true }); });

function choose(number) {
  const given = answer.querySelector("article");
  if (!given || Number(number) > Number(given.dataset.choices)) return;
  state.choice = String(number);
  kept.choose() || ask();
}

answer.addEventListener("click", (event) => {
  const example = event.target.closest("[data-example]");
  if (example) { fill(JSON.parse(example.dataset.example)); vehicles.look(); places.look(); ask(); return; }
  const row = event.target.closest("[data-choice]");
  if (!row) return;
  choose(row.dataset.choice);
});

document.getElementById("anew").addEventListener("click", () => {
  fill({});
  Object.assign(state, { choice: "", open: null });
  kept.anew();
  vehicles.look();
  places.look();
  ask();
  form.vehicles.focus();
});

whatifs(state, () => ask());
keys(choose);
kept.start({ looked() { vehicles.look(); places.look(); } });
ask();
