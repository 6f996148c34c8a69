// What every page needs to ask the desk: sending, and telling in a sentence what went wrong.
export const LOST = "The desk does not answer. Is it still running? Start it again with shipcalc desk; nothing that was kept is lost.";

// Who uses the page, and the token that shows the desk that its own page asks. Asked once, and anew where the desk was started again.
let session = null;
export function who() {
  session ??= fetch("/session").then((response) => response.json()).catch(() => { session = null; return { name: "", role: "", token: "" }; });
  return session;
}

// Sends JSON, or a FormData with files in it.
export async function send(path, told, signal, method = "POST") {
  const response = await sent(path, told, signal, method);
  if (response.status !== 403 || (await response.clone().json().catch(() => ({}))).type !== "urn:shipcalc:page-too-old") return response;
  session = null;
  return sent(path, told, signal, method);
}

async function sent(path, told, signal, method) {
  const headers = { "X-Desk-Token": (await who()).token };
  if (told instanceof FormData) return fetch(path, { method, headers, body: told, signal });
  headers["Content-Type"] = "application/json";
  return fetch(path, { method, headers, body: JSON.stringify(told), signal });
}

// Returns title and sentence of an answer that is a problem (RFC 9457).
export async function told(response) {
  const problem = await response.json().catch(() => ({}));
  return [problem.title ?? "No answer", problem.detail ?? `The desk answered ${response.status}.`];
}

// Shows a problem in a place of the page, in place of what stood there.
export function say(place, title, text) {
  const box = document.createElement("div");
  box.className = "problem";
  box.setAttribute("role", "alert");
  box.append(Object.assign(document.createElement("strong"), { textContent: title }), Object.assign(document.createElement("p"), { textContent: text }));
  place.replaceChildren(box);
}
