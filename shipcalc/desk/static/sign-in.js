// Signing in: then on to the page that was asked for.
import { LOST, say, send, told } from "./asking.js";

const form = document.getElementById("sign-in"); // its fields are named name and password

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const response = await send("/sign-in", { name: form.elements.name.value, password: form.elements.password.value }).catch(() => null);
  const place = document.getElementById("told");
  if (!response) { say(place, "No answer", LOST); return; }
  if (!response.ok) { say(place, ...(await told(response))); form.elements.password.select(); return; }
  const to = new URLSearchParams(location.search).get("to") ?? "/";
  location.assign(to.startsWith("/") && !to.startsWith("//") && !to.includes("\\") ? to : "/");
});
