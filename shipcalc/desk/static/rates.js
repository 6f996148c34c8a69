// The rates page: workbooks are sent and what is wrong with them is shown by cell.
import { LOST, say, send, told } from "./asking.js";

const form = document.getElementById("check");
const place = document.getElementById("told");

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const response = await send("/rates/check", new FormData(form)).catch(() => null);
  if (!response) say(place, "No answer", LOST);
  else if (response.ok) place.innerHTML = await response.text(); // made by the desk, every text in it escaped
  else say(place, ...(await told(response)));
});
