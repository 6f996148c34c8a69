// What every page needs to ask the desk: sending, and telling in a sentence what went wrong.
export const LOST = "The desk does not answer. Is it still running? Start it again with shipcalc desk; nothing that was kept is lost.";

export function send(path, told, signal) {
  return fetch(path, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(told), signal });
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
