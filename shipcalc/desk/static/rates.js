// The rates page: workbooks and mails are sent, shown, and put in force. What the desk sends has every text in it escaped.
import { LOST, say, send, told } from "./asking.js";

const now = document.getElementById("now");
const mail = document.getElementById("mail");
const mailTold = document.getElementById("mail-told");
let answers = {};

// Sends, and shows what comes back in a place; what went wrong is said in another one, so that nothing that was shown is lost.
async function shown(place, path, body, trouble) {
  place.setAttribute("aria-busy", "true");
  const response = await send(path, body).catch(() => null);
  place.removeAttribute("aria-busy");
  if (!response) say(trouble(), "No answer", LOST);
  else if (!response.ok) say(trouble(), ...(await told(response)));
  else { place.innerHTML = await response.text(); return true; }
  return false;
}

const inForce = () => document.getElementById("effect") ?? document.getElementById("sent-told");
const sent = () => document.getElementById("sent-told") ?? now;

now.addEventListener("submit", (event) => {
  event.preventDefault();
  const form = event.target;
  if (form.id === "send") shown(now, "/rates/draft", new FormData(form), sent);
  if (form.id === "in-force") shown(now, "/rates/draft/in-force", { since: form.elements.since.value }, inForce);
});

now.addEventListener("click", async (event) => {
  const button = event.target.closest("button");
  if (!button) return;
  if ("drop" in button.dataset && sure(button)) shown(now, "/rates/draft/drop", {}, sent);
  if ("back" in button.dataset && sure(button)) shown(now, "/rates/back", { fingerprint: button.dataset.back }, sent);
  if ("effect" in button.dataset) {
    const place = document.getElementById("effect");
    place.textContent = "Pricing a basket of transports with both books …";
    const on = document.getElementById("on").value;
    const response = await fetch(`/rates/draft/effect${on ? `?on=${on}` : ""}`).catch(() => null);
    if (!response) say(place, "No answer", LOST);
    else if (response.ok) place.innerHTML = await response.text();
    else say(place, ...(await told(response)));
  }
});

// What cannot be taken back by one step is pressed twice.
function sure(button) {
  if (button.dataset.asked) return true;
  button.dataset.asked = "yes";
  button.textContent = "Press again to do it";
  setTimeout(() => { if (button.isConnected) { delete button.dataset.asked; button.textContent = "drop" in button.dataset ? "Drop the draft" : "Go back to it"; } }, 5000);
  return false;
}

function asSent() {
  const body = new FormData(mail);
  for (const name of [...body.keys()]) if (name.startsWith("answer-")) body.delete(name);
  body.set("answers", JSON.stringify(answers));
  return body;
}

const trouble = () => { const box = document.createElement("div"); mailTold.prepend(box); return box; };

mail.addEventListener("submit", (event) => { event.preventDefault(); answers = {}; shown(mailTold, "/rates/mail", asSent(), trouble); });

mailTold.addEventListener("click", async (event) => {
  const button = event.target.closest("button");
  if (!button) return;
  if ("answer" in button.dataset) {
    for (const field of mailTold.querySelectorAll("[data-key]")) if (field.type !== "radio" ? field.value.trim() : field.checked) answers[field.dataset.key] = field.value;
    shown(mailTold, "/rates/mail", asSent(), trouble);
  }
  if ("take" in button.dataset) {
    const body = asSent();
    body.set("seen", button.dataset.take);
    if (!(await shown(mailTold, "/rates/mail/take", body, trouble))) return;
    const response = await fetch("/rates/now").catch(() => null);
    if (response?.ok) now.innerHTML = await response.text();
  }
});
