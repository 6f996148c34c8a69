// A field that offers what may be meant while somebody types: the editable combobox with a list of the ARIA Authoring Practices.
const PAUSE = 90; // milliseconds without a key before it asks

// `offers(text)` returns a promise of [{text, name, told, more}]; `chosen(offer)` is told what was taken; `seen(offers, text)` all that is offered.
export function combobox(input, list, { offers, chosen, seen = () => {}, opensEmpty = false }) {
  let shown = [];
  let active = -1;
  let waiting = 0;
  let asked = 0;

  function close() {
    list.hidden = true;
    active = -1;
    input.setAttribute("aria-expanded", "false");
    input.removeAttribute("aria-activedescendant");
  }

  function mark(index) {
    active = index;
    [...list.children].forEach((item, number) => item.setAttribute("aria-selected", String(number === active)));
    if (active < 0) { input.removeAttribute("aria-activedescendant"); return; }
    input.setAttribute("aria-activedescendant", list.children[active].id);
    list.children[active].scrollIntoView({ block: "nearest" });
  }

  function open() {
    list.replaceChildren(...shown.map((offer, number) => {
      const item = Object.assign(document.createElement("li"), { id: `${list.id}-${number}` });
      item.setAttribute("role", "option");
      item.setAttribute("aria-selected", "false");
      const parts = [["strong", offer.name], ["span", offer.more], ["small", offer.told]];
      item.append(...parts.filter(([, text]) => text).map(([kind, text]) => Object.assign(document.createElement(kind), { textContent: text })));
      item.addEventListener("pointerdown", (event) => event.preventDefault()); // the field keeps the focus
      item.addEventListener("click", () => take(number));
      return item;
    }));
    list.hidden = !shown.length;
    input.setAttribute("aria-expanded", String(!list.hidden));
    mark(-1);
  }

  function take(number) {
    const offer = shown[number];
    close();
    chosen(offer);
  }

  async function ask({ opens }) {
    const mine = ++asked;
    const text = input.value;
    const found = text.trim() || opensEmpty ? await offers(text).catch(() => []) : [];
    if (mine !== asked || text !== input.value) return;
    shown = found;
    seen(found, text);
    if (opens && document.activeElement === input) open(); else close();
  }

  input.addEventListener("input", () => { clearTimeout(waiting); waiting = setTimeout(() => ask({ opens: true }), PAUSE); });
  input.addEventListener("focus", () => { if (opensEmpty && !input.value.trim()) ask({ opens: true }); });
  input.addEventListener("blur", () => { clearTimeout(waiting); close(); ask({ opens: false }); });
  input.addEventListener("keydown", (event) => {
    if (event.altKey && event.key !== "ArrowDown") return;
    if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      event.preventDefault();
      if (list.hidden) { ask({ opens: true }).then(() => { if (!list.hidden) mark(0); }); return; }
      const step = event.key === "ArrowDown" ? 1 : -1;
      mark((active + step + shown.length) % shown.length);
    } else if (event.key === "Enter" && !list.hidden && active >= 0) {
      event.preventDefault();
      take(active);
    } else if (event.key === "Tab" && !list.hidden && active >= 0) take(active);
    else if (event.key === "Escape" && !list.hidden) { event.preventDefault(); close(); }
    else if (event.key === "Enter") close();
  });
  return { look: () => ask({ opens: false }) };
}
