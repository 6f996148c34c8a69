// The call page: every change asks anew, and the last question is the one that is answered.
import { LOST, say, send, told } from "./asking.js";

const form = document.getElementById("order");
const answer = document.getElementById("answer");
const done = document.getElementById("done");
const place = document.getElementById("place");
const stock = document.getElementById("stock");
const PAUSE = 250; // milliseconds without a key before it asks

let asked = null; // the question that is under way
let waiting = 0;

function order() {
  const asking = {};
  for (const field of form.elements) {
    if (!field.name) continue;
    if (field.type === "checkbox") { if (field.checked) asking[field.name] = true; }
    else if (field.value.trim()) asking[field.name] = field.value.trim();
  }
  if (asking.vehicles) asking.vehicles = [asking.vehicles];
  return asking;
}

async function ask() {
  const now = order();
  done.textContent = "";
  if (!now.vehicles || !now.to) return;
  asked?.abort();
  const mine = (asked = new AbortController());
  answer.setAttribute("aria-busy", "true");
  try {
    const response = await send("/answer", now, mine.signal);
    if (response.ok) answer.innerHTML = await response.text(); // made by the desk, every text in it escaped
    else say(answer, ...(await told(response)));
  } catch (lost) {
    if (lost.name === "AbortError") return;
    say(answer, "No answer", LOST);
  }
  if (asked === mine) answer.setAttribute("aria-busy", "false");
}

function soon() {
  clearTimeout(waiting);
  waiting = setTimeout(ask, PAUSE);
}

async function offer(path, text) {
  if (text.trim().length < 2) return null;
  const response = await fetch(`${path}?text=${encodeURIComponent(text.trim())}`).catch(() => null);
  return response?.ok ? response.json() : null;
}

form.vehicles.addEventListener("input", async () => {
  const found = await offer("/api/stock", form.vehicles.value);
  if (!found) return;
  stock.replaceChildren(...found.vehicles.slice(0, 12).map((one) => {
    const name = [one.year, one.make, one.model, one.body].filter(Boolean).join(" ");
    return Object.assign(document.createElement("option"), { value: one.stock_number, textContent: name });
  }));
});

form.to.addEventListener("input", async () => {
  const text = form.to.value;
  const found = await offer("/api/place", text);
  if (text !== form.to.value) return;
  const namesakes = (found?.others ?? []).slice(0, 4).map((one) => [one.name, one.subdivision || one.country].join(", "));
  place.textContent = found?.found ? (namesakes.length ? `also: ${namesakes.join("; ")}` : "") : (found?.suggestions ?? []).slice(0, 4).join("; ");
});

form.addEventListener("input", soon);
form.addEventListener("submit", (event) => { event.preventDefault(); clearTimeout(waiting); ask(); });

document.getElementById("save").addEventListener("click", async (event) => {
  event.target.disabled = true;
  try {
    const response = await send("/api/quotes", order());
    done.textContent = response.ok ? `Kept as ${(await response.json()).number}.` : (await told(response))[1];
  } catch { done.textContent = "The desk does not answer: nothing was kept."; }
  event.target.disabled = false;
});

document.getElementById("pdf").addEventListener("click", async () => {
  const response = await send("/quote.pdf", order()).catch(() => null);
  if (!response?.ok) { done.textContent = response ? (await told(response))[1] : "The desk does not answer."; return; }
  const link = Object.assign(document.createElement("a"), { href: URL.createObjectURL(await response.blob()), download: "quote.pdf" });
  link.click();
  URL.revokeObjectURL(link.href);
});
