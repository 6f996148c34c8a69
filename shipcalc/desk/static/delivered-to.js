// <delivered-to vehicle="HV-1042" key="…"></delivered-to> on a dealer's own page: what delivery costs to the visitor's place.
// The desk that answers is the one this script comes from. Colours and letters are those of the page around it.
const DESK = new URL(import.meta.url).origin;

const STYLE = `
  :host { display: block; max-width: 26rem; font: inherit; color: inherit; }
  form { display: flex; gap: .5rem; flex-wrap: wrap; align-items: end; }
  label { flex: 1 1 12rem; } input { display: block; width: 100%; box-sizing: border-box; font: inherit; padding: .4rem .5rem; }
  button { font: inherit; padding: .45rem 1rem; cursor: pointer; }
  output { display: block; margin-top: .6rem; min-height: 3.2em; }
  p { margin: .2rem 0; } .price { font-size: 1.3em; font-weight: 600; } .small { font-size: .9em; }`;

class DeliveredTo extends HTMLElement {
  connectedCallback() {
    const root = this.attachShadow({ mode: "open" });
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(STYLE);
    root.adoptedStyleSheets = [sheet];
    const form = document.createElement("form");
    const label = Object.assign(document.createElement("label"), { textContent: "Delivered to" });
    this.place = Object.assign(document.createElement("input"), { required: true, maxLength: 120, placeholder: "ZIP, or city and country", autocomplete: "postal-code" });
    label.append(this.place);
    this.told = document.createElement("output");
    form.append(label, Object.assign(document.createElement("button"), { textContent: "What does it cost?" }));
    form.addEventListener("submit", (event) => { event.preventDefault(); this.ask(); });
    root.append(form, this.told);
  }

  async ask() {
    this.asked?.abort();
    const mine = (this.asked = new AbortController());
    this.say([["small", "One moment …"]]);
    const address = `${DESK}/delivered?${new URLSearchParams({ vehicle: this.getAttribute("vehicle") ?? "", to: this.place.value.trim() })}`;
    const response = await fetch(address, { headers: { "X-Site-Key": this.getAttribute("key") ?? "" }, signal: mine.signal }).catch(() => null);
    if (mine.signal.aborted) return;
    const told = await response?.json().catch(() => null);
    if (!told) this.say([["", "Nobody answers just now. Please ask us."]]);
    else if (!response.ok) this.say([["", told.detail ?? "Please ask us."]]);
    else this.say([
      ...told.know_first.map((one) => ["", one]),
      ["price", told.price],
      ["", `to ${told.to}, there by ${told.there_by}: ${told.how}.`],
      ...(told.paid_there ? [["", `To be paid there besides, an estimate: ${told.paid_there}.`]] : []),
      ["small", `Good until ${told.valid_until}; we confirm it in writing.`],
    ]);
  }

  say(lines) {
    this.told.replaceChildren(...lines.map(([name, text]) => Object.assign(document.createElement("p"), { className: name, textContent: text })));
  }
}

customElements.define("delivered-to", DeliveredTo);
