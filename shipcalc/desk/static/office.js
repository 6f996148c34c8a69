// The office's pages: each form does one thing by its own address, and what came of it stands beside what was pressed.
import { LOST, say, send, told, who } from "./asking.js";
import { listen, patch, rememberSources } from "./live.js";

const live = document.getElementById("live");
const dialog = document.getElementById("who");
const line = document.getElementById("line");
const NOTE_STAYS = 12000; // milliseconds

// Asks once who acts, and keeps it in this browser; whoever has signed in is known already.
async function myName() {
  const signedIn = (await who()).name;
  const known = signedIn || localStorage.getItem("who");
  if (known) return known;
  dialog.showModal();
  await new Promise((closed) => dialog.addEventListener("close", closed, { once: true }));
  const name = dialog.querySelector("input").value.trim();
  if (dialog.returnValue !== "yes" || !name) return null;
  localStorage.setItem("who", name);
  return name;
}

// Fetches the parts of the page anew. Asked for while it is under way, it does so once more afterwards.
let fetching = false, again = false;
async function refresh() {
  if (fetching) { again = true; return; }
  fetching = true;
  const response = await fetch(`${live.dataset.parts}${location.search}`).catch(() => null);
  if (response?.ok) {
    const fresh = new DOMParser().parseFromString(`<div>${await response.text()}</div>`, "text/html").body.firstElementChild; // made by the desk, every text in it escaped
    patch(live, document.adoptNode(fresh));
  } else if (response) announced((await told(response))[1]);
  fetching = false;
  if (again) { again = false; refresh(); }
}

function typed(form) {
  const changed = {}, plain = {};
  for (const field of form.elements) {
    if (!field.name || field.type === "file") continue;
    if (field.type === "checkbox") { if (field.checked) plain[field.name] = true; }
    else if (form.dataset.under) { if (field.value !== field.defaultValue) changed[field.name] = field.value.trim(); }
    else if (field.value.trim() !== "" || field.name === "to" || field.name === "text") plain[field.name] = field.value.trim();
  }
  return form.dataset.under ? { [form.dataset.under]: changed } : plain;
}

function asForm(fields, file) {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.append(name, value);
  form.append("file", file);
  return form;
}

function outcomeOf(form) { return form.querySelector(".outcome"); }

async function act(form, { taken = false, file = null } = {}) {
  const outcome = outcomeOf(form);
  const name = await myName();
  if (name === null) { say(outcome, "Nothing was done", "Say who you are first: your name stands in the history."); return false; }
  const fields = { ...typed(form), who: name };
  const looks = "looks" in form.dataset && !taken;
  if (looks) fields.look = true;
  if (taken && form.dataset.changed && form.dataset.do.endsWith("/move")) fields.seen = JSON.parse(form.dataset.changed);
  const isFile = "file" in form.dataset;
  const sent = file ?? (isFile ? form.elements.file?.files[0] : null);
  if (isFile && !sent) return false;
  form.setAttribute("aria-busy", "true");
  form.dataset.busy = "";
  let ok = false;
  try {
    const response = await send(form.dataset.do, isFile ? asForm(fields, sent) : fields);
    ok = response.ok;
    if (ok) shown(form, await response.text(), looks);
    else await refused(outcome, response);
  } catch {
    say(outcome, "No answer", LOST);
  }
  form.removeAttribute("aria-busy");
  if (!looks || !ok) delete form.dataset.busy;
  if (ok && !looks) {
    form.reset();
    delete form.dataset.changed;
    const fetched = form.closest(".fetched"); // what was asked there was asked of how it stood before
    if (fetched) { fetched.parentElement.open = false; fetched.replaceChildren(); }
    await refresh();
  }
  return ok;
}

async function refused(outcome, response) {
  const problem = await response.clone().json().catch(() => ({}));
  say(outcome, ...(await told(response)));
  if (problem.cells?.length) {
    const list = document.createElement("ul");
    list.append(...problem.cells.map((cell) => Object.assign(document.createElement("li"), { textContent: cell })));
    outcome.firstElementChild.append(list);
  }
}

// Shows what came of it; after a look, with the button that does it.
function shown(form, html, looks) {
  const outcome = outcomeOf(form);
  outcome.innerHTML = html; // made by the desk, every text in it escaped
  const said = outcome.querySelector(".outcome-told");
  if (looks) {
    form.dataset.changed = said.dataset.changed;
    if (JSON.parse(said.dataset.changed).length) {
      const button = Object.assign(document.createElement("button"), { type: "submit", textContent: form.dataset.looks });
      button.dataset.take = "";
      said.append(Object.assign(document.createElement("p"), { className: "take" }));
      said.lastElementChild.append(button);
      button.focus({ preventScroll: true });
      outcome.scrollIntoView({ block: "nearest" });
    }
    return;
  }
  const still = outcome.querySelector(".letter, a, .warm");
  if (!still && form.closest("li")) {
    announced([...said.querySelectorAll("li")].map((one) => one.textContent).join("; ") || "Nothing changed.", takenBack(form));
    return;
  }
  if (said.dataset.shipment) said.querySelector("a").focus();
  // The part is fetched anew in a moment: what is to be read on stands above it.
  const part = form.closest("[data-part]");
  if (part && still) { const kept = Object.assign(document.createElement("div"), { className: "kept-told" }); kept.append(said); keep(part, kept); }
  else announced(said.innerText);
}

function keep(part, kept) {
  const close = Object.assign(document.createElement("button"), { type: "button", className: "plain", textContent: "I have read it" });
  close.addEventListener("click", () => kept.remove());
  kept.append(close);
  document.getElementById("told").append(kept);
  kept.scrollIntoView({ block: "nearest" });
}

// What is said at the foot of the page stays for a while, or until something else is said.
let saidAt = 0;
function announced(text, button = null) {
  const note = document.getElementById("note");
  note.replaceChildren(text, ...(button ? [button] : []));
  clearTimeout(saidAt);
  saidAt = setTimeout(() => note.replaceChildren(), NOTE_STAYS);
}

// A button that opens a task again which was just ticked, perhaps by mistake.
function takenBack(form) {
  const fields = typed(form);
  if (!form.dataset.do.endsWith("/tick") || fields.state === "open") return null;
  const button = Object.assign(document.createElement("button"), { type: "button", className: "plain", textContent: "Open it again" });
  button.addEventListener("click", async () => {
    const response = await send(form.dataset.do, { line: fields.line, state: "open", who: (await myName()) ?? "" }).catch(() => null);
    announced(response?.ok ? "It is open again." : response ? (await told(response))[1] : LOST);
    refresh();
  });
  return button;
}

live.addEventListener("submit", (event) => {
  const form = event.target.closest("form[data-do]");
  if (!form) return;
  event.preventDefault();
  if (form.hasAttribute("aria-busy")) return;
  act(form, { taken: event.submitter?.hasAttribute("data-take") ?? false });
});

// What was looked at no longer holds once something else is typed.
live.addEventListener("input", (event) => {
  const form = event.target.closest("form[data-looks]");
  if (form?.dataset.changed) { delete form.dataset.changed; delete form.dataset.busy; outcomeOf(form).replaceChildren(); }
});

// A fold whose content is fetched when it is opened.
live.addEventListener("toggle", async (event) => {
  const fold = event.target;
  if (!fold.open || !fold.dataset.fetch) return;
  const place = fold.querySelector(":scope > .fetched");
  if (place.childElementCount && !place.querySelector(".problem")) return;
  const response = await fetch(fold.dataset.fetch).catch(() => null);
  if (response?.ok) place.innerHTML = await response.text(); // made by the desk, every text in it escaped
  else if (response) say(place, ...(await told(response)));
  else say(place, "No answer", LOST);
}, true);

live.addEventListener("click", async (event) => {
  const copy = event.target.closest("[data-copy]");
  if (!copy) return;
  const text = copy.closest("div, details").querySelector(".letter").textContent;
  const done = await navigator.clipboard?.writeText(text).then(() => true, () => false);
  copy.textContent = done ? "Copied" : "Mark the text and copy it by hand";
});
document.getElementById("told").addEventListener("click", (event) => {
  const copy = event.target.closest("[data-copy]");
  if (copy) navigator.clipboard?.writeText(copy.closest("details").querySelector(".letter").textContent).then(() => { copy.textContent = "Copied"; });
});

// More rows of a list, without losing what is open elsewhere on the page.
live.addEventListener("click", (event) => {
  const more = event.target.closest("[data-more]");
  if (!more) return;
  event.preventDefault();
  history.replaceState(null, "", more.getAttribute("href"));
  refresh();
});

// A link to a field opens the fold that it is in.
function openAt(hash) {
  const at = hash.length > 1 ? document.getElementById(decodeURIComponent(hash.slice(1))) : null;
  for (let fold = at?.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
  const own = at?.querySelector(":scope > details");
  if (own && at.matches(".task")) own.open = true;
  if (at?.matches("input")) at.focus();
  else at?.scrollIntoView();
}
addEventListener("hashchange", () => openAt(location.hash));
live.addEventListener("click", (event) => { const link = event.target.closest("a[href^='#']"); if (link) setTimeout(() => openAt(link.hash)); });

// A scan dropped on a task.
for (const kind of ["dragover", "drop"]) addEventListener(kind, (event) => { if (event.dataTransfer?.types.includes("Files")) event.preventDefault(); });
live.addEventListener("dragover", (event) => {
  const target = event.target.closest("[data-drop]");
  for (const one of live.querySelectorAll(".drop-here")) if (one !== target) one.classList.remove("drop-here");
  target?.classList.add("drop-here");
});
live.addEventListener("dragleave", (event) => { if (!event.relatedTarget) for (const one of live.querySelectorAll(".drop-here")) one.classList.remove("drop-here"); });
live.addEventListener("drop", async (event) => {
  const target = event.target.closest("[data-drop]");
  for (const one of live.querySelectorAll(".drop-here")) one.classList.remove("drop-here");
  const files = [...(event.dataTransfer?.files ?? [])];
  if (!files.length) return;
  if (!target) { announced("Drop the file on a task, or on the box under Files."); return; }
  const form = target.matches("form") ? target : target.querySelector("form[data-file]");
  form.closest("details")?.setAttribute("open", "");
  for (const file of files) if (!(await act(form, { file }))) break;
});

rememberSources(live);
live.dataset.ready = ""; // before it, a form that is sent does nothing: its method is that of a dialog
openAt(location.hash);
const mine = live.dataset.listens;
listen({
  line,
  after: live.dataset.after,
  caughtUp: refresh,
  happened: (event) => { if (mine === "all" || event.number === mine) refresh(); },
});
