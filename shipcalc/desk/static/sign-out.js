// Signing out, on every page.
import { send } from "./asking.js";

document.getElementById("sign-out").addEventListener("click", async () => {
  await send("/sign-out", {}).catch(() => null);
  location.assign("/sign-in");
});
