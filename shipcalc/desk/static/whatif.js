// The what-ifs: each changes a field of the form, so that what is asked always stands there; and the keys for all buttons of the page.
const form = document.getElementById("order");
const letters = document.getElementById("letters");
const TERMS = ["DDP", "DAP", "CIF", "FOB", "EXW"]; // those that are asked for most; all eleven are in the form

const yards = () => [...document.querySelectorAll("#yards option")].map((one) => one.value);
const shown = () => document.querySelector("#answer article")?.dataset ?? {};

// Returns what comes after a value in a round that begins and ends with nothing, without what is so already.
function after(value, round, own) {
  const others = ["", ...round.filter((one) => one !== own)];
  return others[(others.indexOf(value) + 1) % others.length];
}

// `state` holds what no field of the form says: which choice is shown.
const WHATIFS = {
  enclosed: { on: () => form.trailer.value === "enclosed", flip: () => { form.trailer.value = form.trailer.value === "enclosed" ? "" : "enclosed"; } },
  soonest: { on: (state) => state.choice === "soonest", flip: (state, on) => { state.choice = on ? "" : "soonest"; form.express.checked = !on; } },
  christmas: { on: () => form.by.value === "christmas", flip: (state, on) => { form.by.value = on ? "" : "christmas"; } },
  collect: { on: () => form.collect.checked, flip: (state, on) => { form.collect.checked = !on; state.choice = on ? "" : "collect"; } },
  terminal: { on: () => form.terminal.checked, flip: (state, on) => { form.terminal.checked = !on; state.choice = on ? "" : "terminal"; } },
  yard: { on: () => form.from.value !== "", flip: () => { form.from.value = after(form.from.value, yards(), shown().yard); }, told: () => `from ${form.from.value}` },
  term: { on: () => form.term.value !== "", flip: () => { form.term.value = after(form.term.value, TERMS, form.term.value ? "" : shown().term); }, told: () => `under ${form.term.value}` },
  currency: { on: () => form.currency.value !== "", flip: (state, on) => { form.currency.value = on ? "" : theirs(); }, told: () => `in ${form.currency.value}` },
};

function theirs() {
  const currency = shown().currency;
  return currency && currency !== "USD" ? currency : "EUR";
}

export function whatifs(state, changed) {
  for (const chip of document.querySelectorAll("[data-whatif]")) {
    const what = WHATIFS[chip.dataset.whatif];
    chip.addEventListener("click", () => { what.flip(state, what.on(state)); changed(); });
  }
}

// Shows which of them are on, and as what.
export function marked(state) {
  for (const chip of document.querySelectorAll("[data-whatif]")) {
    const what = WHATIFS[chip.dataset.whatif];
    const on = what.on(state);
    chip.dataset.usual ??= chip.firstChild.textContent;
    chip.firstChild.textContent = on && what.told ? `${what.told()} ` : chip.dataset.usual;
    chip.setAttribute("aria-pressed", String(on));
  }
}

function isTypedIn(field) {
  return field.matches("input:not([type=checkbox]), select, textarea");
}

// A letter alone where no field is typed in, with Alt everywhere; whoever dictates, or whose letters are taken, turns the first off.
export function keys(choose) {
  letters.checked = stored() !== "off";
  letters.addEventListener("change", () => { try { localStorage.setItem("letters", letters.checked ? "on" : "off"); } catch { /* not kept, then */ } });
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.shiftKey || event.getModifierState("AltGraph") || event.defaultPrevented) return;
    if (!event.altKey && (!letters.checked || isTypedIn(event.target))) return;
    const key = /^[a-z]$/i.test(event.key) ? event.key.toUpperCase() : event.code.replace(/^Key/, "");
    if (!event.altKey && /^[1-9]$/.test(event.key)) { choose(event.key); return; }
    const button = [...document.querySelectorAll("button[data-key]")].find((one) => one.dataset.key === key && !one.disabled);
    if (!button) return;
    event.preventDefault();
    button.click();
  });
}

function stored() {
  try { return localStorage.getItem("letters"); } catch { return null; }
}
