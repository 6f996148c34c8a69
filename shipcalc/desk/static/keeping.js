// What is done with an answer: keep it, revise a kept one, send it as PDF or message; and a buyer's earlier quotes beside it.
import { send, told } from "./asking.js";
import { fill, order, wished } from "./order.js";

const form = document.getElementById("order");
const answer = document.getElementById("answer");
const done = document.getElementById("done");
const earlier = document.getElementById("earlier");
const buttons = Object.fromEntries(["keep", "revise", "pdf", "message"].map((id) => [id, document.getElementById(id)]));
const language = document.getElementById("language");
const PAUSE = 250;
const GONE = "The desk does not answer: nothing was done. It is tried again by itself; press once more then.";

export function keeping(state, { show, refuse, ask }) {
  let call = crypto.randomUUID(); // of this call: what is kept twice in it is kept once
  let waiting = 0;
  let isKept = false;
  let looked = () => {};

  function enable() {
    const has = Boolean(state.key);
    buttons.keep.disabled = !has || isKept;
    buttons.revise.disabled = !has || isKept || !state.open;
    buttons.pdf.disabled = buttons.message.disabled = !has;
  }

  // Does one thing with the answer to what is typed by now, with the buttons shut meanwhile.
  async function doing(work) {
    await ask();
    if (!state.key) return;
    for (const button of Object.values(buttons)) button.disabled = true;
    done.textContent = "";
    try { done.textContent = await work(); } catch { done.textContent = GONE; ask({ force: true }); }
    enable();
  }

  async function fine(response) {
    if (response.ok) return "";
    const [, sentence] = await told(response);
    if (response.status === 422) ask({ force: true });
    return sentence;
  }

  async function kept(path) {
    const response = await send(path, {});
    const fault = await fine(response);
    return fault ? [fault, null] : ["", await response.json()];
  }

  function isNowKept(given) {
    state.key = given.key;
    isKept = true;
    badge(given.number);
    look();
  }

  buttons.keep.addEventListener("click", () => doing(async () => {
    const [fault, given] = await kept(`/answer/${state.key}/keep?once=${call}-${state.key}`);
    if (fault) return fault;
    isNowKept(given);
    return `Kept as ${given.number}.`;
  }));

  buttons.revise.addEventListener("click", () => doing(async () => {
    const [fault, given] = await kept(`/answer/${state.key}/revise?number=${encodeURIComponent(state.open.number)}`);
    if (fault) return fault;
    state.open = { number: given.number, key: given.key };
    isNowKept({ ...given, number: given.told });
    return `Kept as ${given.told}: ${given.why}`;
  }));

  buttons.pdf.addEventListener("click", () => doing(async () => {
    const response = await fetch(`/answer/${state.key}/quote.pdf?language=${language.value}`);
    const fault = await fine(response);
    if (fault) return fault;
    const link = Object.assign(document.createElement("a"), { href: URL.createObjectURL(await response.blob()), download: "quote.pdf" });
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
    return "The offer is in your downloads, as quote.pdf.";
  }));

  buttons.message.addEventListener("click", () => doing(async () => {
    const response = await fetch(`/answer/${state.key}/message?language=${language.value}`);
    const fault = await fine(response);
    if (fault) return fault;
    const letter = await response.json();
    const as = (type, text) => new Blob([text], { type });
    const item = new ClipboardItem({ "text/plain": as("text/plain", letter.text), "text/html": as("text/html", letter.html) });
    try { await navigator.clipboard.write([item]); } catch { return "The browser does not let the page copy. Allow it for this page, and press once more."; }
    return `Copied: “${letter.subject}”. Paste it into a mail.`;
  }));

  function badge(number) {
    answer.querySelector(".kept")?.remove();
    const line = Object.assign(document.createElement("p"), { className: "kept" });
    line.append(Object.assign(document.createElement("strong"), { textContent: number }), " kept");
    answer.querySelector("article .vehicles")?.after(line);
  }

  async function look() {
    const response = await fetch(`/earlier?buyer=${encodeURIComponent(form.buyer.value.trim())}`).catch(() => null);
    if (response?.ok) earlier.innerHTML = await response.text(); // made by the desk, every text in it escaped
  }

  async function open(number, choice = "") {
    const response = await fetch(`/kept/${encodeURIComponent(number)}?choice=${choice}`).catch(() => null);
    if (!response?.ok) { const [title, text] = response ? await told(response) : ["No answer", GONE]; refuse(title, text, { quiet: false }); return; }
    const html = await response.text();
    const given = new DOMParser().parseFromString(html, "text/html").querySelector("article");
    fill(JSON.parse(given.dataset.order));
    state.choice = choice;
    state.open = { number: given.dataset.number, key: given.dataset.answer, choices: true };
    show(html, JSON.stringify([order(), choice]));
    isKept = true;
    enable();
    looked();
    look();
    wished();
    done.textContent = `${given.dataset.number} is open as it was promised. What you change is priced anew; Revise keeps it under the same number.`;
  }

  form.buyer.addEventListener("input", () => { clearTimeout(waiting); waiting = setTimeout(look, PAUSE); });
  earlier.addEventListener("click", (event) => {
    const row = event.target.closest("[data-number]");
    if (row) open(row.dataset.number);
  });

  return {
    look,
    answered() { isKept = false; enable(); },
    anew() { call = crypto.randomUUID(); isKept = false; done.textContent = ""; look(); enable(); },
    // Shows another choice of the quote as it was kept, where that is what stands there.
    choose() {
      if (!state.open || !answer.querySelector("[data-order]")) return false;
      open(state.open.number, state.choice);
      return true;
    },
    start(more) {
      looked = more.looked;
      look();
      const number = new URLSearchParams(location.search).get("number");
      if (number) open(number);
      enable();
    },
  };
}
