// The call page: every change asks anew, and the last question is the one that is answered.
const form = document.getElementById("order");
const answer = document.getElementById("answer");
const done = document.getElementById("done");
const place = document.getElementById("place");
const stock = document.getElementById("stock");
const PAUSE = 250; // milliseconds without a key before it asks

let asked = null; // the question that is under way
let waiting = 0;

function order() {
  const told = {};
  for (const field of form.elements) {
    if (!field.name) continue;
    if (field.type === "checkbox") { if (field.checked) told[field.name] = true; }
    else if (field.value.trim()) told[field.name] = field.value.trim();
  }
  if (told.vehicles) told.vehicles = [told.vehicles];
  return told;
}

function send(path, told, signal) {
  return fetch(path, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(told), signal });
}

function say(title, text) {
  const box = document.createElement("div");
  box.className = "problem";
  box.append(Object.assign(document.createElement("strong"), { textContent: title }), Object.assign(document.createElement("p"), { textContent: text }));
  answer.replaceChildren(box);
}

async function told(response) {
  const problem = await response.json().catch(() => ({}));
  return [problem.title ?? "No answer", problem.detail ?? `The desk answered ${response.status}.`];
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
    else say(...(await told(response)));
  } catch (lost) {
    if (lost.name === "AbortError") return;
    say("The desk does not answer", "Is it still running? Start it again with shipcalc desk; nothing that was kept is lost.");
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
