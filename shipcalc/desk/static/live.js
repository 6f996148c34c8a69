// A page that shows what others change: parts of it are replaced as they come, but for one that somebody is typing in.
const SOON = 300, RETRY = 2000; // milliseconds before a connection is tried again: at once, and once that did not help
const FIELDS = "input:not([type=hidden]), select, textarea";

// Tells whether something was typed or chosen in a part that would be lost with it.
export function isBusy(part) {
  if (part.matches("[data-busy]") || part.querySelector("[data-busy]")) return true;
  if (document.activeElement?.matches(FIELDS) && part.contains(document.activeElement) && document.activeElement.type !== "file") return true;
  return [...part.querySelectorAll(FIELDS)].some(isChanged);
}

function isChanged(field) {
  if (field.type === "checkbox") return field.checked !== field.defaultChecked;
  if (field.type === "file") return field.files.length > 0;
  if (field.tagName !== "SELECT") return field.value !== field.defaultValue;
  const first = [...field.options].findIndex((one) => one.defaultSelected);
  return field.selectedIndex !== Math.max(first, 0);
}

// Replaces the parts of `old` by those of `fresh` that differ. Open folds stay open, the focus stays where it was.
export function patch(old, fresh) {
  const focus = remembered(old);
  matched(old, fresh);
  if (!document.activeElement || document.activeElement === document.body) found(old, focus)?.focus();
}

function matched(old, fresh) {
  const theirs = [...fresh.children];
  const wanted = new Set(theirs.map(keyOf));
  const mine = new Map([...old.children].map((one) => [keyOf(one), one]));
  for (const [key, one] of mine) {
    if (wanted.has(key)) continue;
    if (isBusy(one)) remark(one, null); // it stays where it is, under the hands of whoever types in it
    else one.remove();
  }
  let at = old.firstElementChild;
  for (const one of theirs) {
    while (at && !wanted.has(keyOf(at))) at = at.nextElementSibling;
    const own = mine.get(keyOf(one));
    const kept = own ? renewed(own, one) : asSent(one);
    if (own && own === at) at = at.isConnected ? at.nextElementSibling : kept.nextElementSibling;
    else old.insertBefore(kept, at);
  }
}

// Returns what stands in the place of `own`: itself where nothing changed or something is being typed, else the fresh one.
function renewed(own, one) {
  if (own.querySelector("[data-part]") || one.querySelector("[data-part]")) { // a frame around parts
    matched(own, one);
    return own;
  }
  const source = one.outerHTML;
  if ((sources.get(own) ?? own.outerHTML) === source) return own;
  if (isBusy(own)) { remark(own, one); return own; }
  folds(own, one);
  sources.set(one, source);
  own.replaceWith(one);
  return one;
}

const sources = new WeakMap(); // a part as the desk wrote it, whatever was opened in it since
const keyOf = (one) => one.dataset.part ? `part ${one.dataset.part}` : one.dataset.list ? `list ${one.dataset.list}` : `${one.tagName} ${one.className} ${one.dataset.keep ?? ""}`;

// Remembers the parts as they were sent, before anybody opens a fold in them.
export function rememberSources(root) {
  for (const part of root.querySelectorAll("[data-part]")) sources.set(part, part.outerHTML);
}

function asSent(one) {
  sources.set(one, one.outerHTML);
  rememberSources(one);
  return one;
}

function folds(own, one) {
  const open = [...own.querySelectorAll("details")];
  const next = [...one.querySelectorAll("details")];
  for (const fold of open) {
    const same = next.find((two) => two.querySelector("summary")?.textContent === fold.querySelector("summary")?.textContent) ?? (open.length === next.length ? next[open.indexOf(fold)] : null);
    if (!same) continue;
    same.open = fold.open; // what is fetched into it is fetched anew
  }
}

// A quiet line in a part that was changed elsewhere while somebody types in it.
function remark(part, fresh) {
  if (part.matches("[data-quiet]")) return; // what is typed there is lost to nobody: words to find by
  part.querySelector(":scope > .changed")?.remove();
  const line = Object.assign(document.createElement("p"), { className: "changed" });
  line.setAttribute("role", "status");
  line.append("This was changed meanwhile. What you are typing stays. ");
  const button = Object.assign(document.createElement("button"), { type: "button", className: "plain", textContent: "Show the change, and drop what I typed" });
  button.addEventListener("click", () => {
    if (fresh) { sources.set(fresh, fresh.outerHTML); part.replaceWith(fresh); } else part.remove(); // gone, or on another list now
    const now = document.querySelector(`[data-part="${CSS.escape(part.dataset.part)}"]`);
    (now?.checkVisibility() ? now.querySelector("button, a, input") : null)?.focus();
  });
  line.append(button);
  part.append(line);
}

function remembered(root) {
  const active = document.activeElement;
  const part = active && root.contains(active) ? active.closest("[data-part]") : null;
  if (!part) return null;
  const list = part.parentElement;
  return { id: active.id, part: part.dataset.part, place: [...part.querySelectorAll("button, a, input, select, summary")].indexOf(active), list: list?.dataset.list ?? list?.closest("[data-part]")?.dataset.part, at: [...(list?.children ?? [])].indexOf(part) };
}

function found(root, focus) {
  if (!focus) return null;
  const named = focus.id ? document.getElementById(focus.id) : null;
  if (named?.checkVisibility()) return named;
  const part = root.querySelector(`[data-part="${CSS.escape(focus.part)}"]`);
  if (part?.checkVisibility()) return part.querySelectorAll("button, a, input, select, summary")[focus.place] ?? part.querySelector("button, a");
  const list = root.querySelector(`[data-list="${CSS.escape(focus.list ?? "")}"], [data-part="${CSS.escape(focus.list ?? "")}"]`);
  const items = list ? [...list.querySelectorAll("[data-part]")] : [];
  return (items[Math.min(focus.at, items.length - 1)] ?? root.querySelector("h3[tabindex], h2"))?.querySelector("button, a, summary") ?? root.querySelector("h3[tabindex], a");
}

// Listens to what happens at the desk, after the event that the page has seen already. `happened` is called with each event,
// `caughtUp` where some may have been missed, `line` is where a lost connection is said. A page that nobody sees lets go: a browser
// keeps only few connections to one desk.
export function listen({ happened, caughtUp, line, after = "" }) {
  let source = null, last = after, retry = 0, lost = false, failed = 0;
  function open() {
    clearTimeout(retry);
    source?.close();
    source = new EventSource(last ? `/events?after=${last}` : "/events");
    source.addEventListener("hello", (event) => { last = event.lastEventId || last; back(); });
    source.addEventListener("happened", (event) => { last = event.lastEventId; happened(JSON.parse(event.data)); });
    source.addEventListener("lost", (event) => { last = event.lastEventId || last; caughtUp(); });
    source.addEventListener("rates", () => happened({ what: "rates changed", number: "" }));
    source.addEventListener("error", () => {
      source.close();
      if (document.hidden) return;
      failed += 1;
      retry = setTimeout(open, failed === 1 ? SOON : RETRY);
      if (failed === 1) return; // the desk ends a stream now and then
      lost = true;
      line.hidden = false;
      line.textContent = "The connection to the desk is lost. What others change is not shown until it is back; it is tried again and again.";
    });
  }
  function back() {
    failed = 0;
    if (lost) { line.textContent = "The connection is back, and the page is up to date."; caughtUp(); setTimeout(() => { if (!lost) line.hidden = true; }, 4000); }
    lost = false;
  }
  document.addEventListener("visibilitychange", () => {
    if (document.hidden) { clearTimeout(retry); source?.close(); source = null; } else if (!source || source.readyState === EventSource.CLOSED) { open(); caughtUp(); }
  });
  addEventListener("pagehide", () => source?.close());
  if (!document.hidden) open();
}
