// The order as it is typed: the form's fields by the names of the interface, without those that ask for nothing.
const form = document.getElementById("order");

export function order() {
  const asking = {};
  for (const field of form.elements) {
    if (!field.name) continue;
    if (field.type === "checkbox") { if (field.checked) asking[field.name] = true; }
    else if (field.value.trim()) asking[field.name] = field.value.trim();
  }
  if (asking.vehicles) asking.vehicles = [asking.vehicles];
  if (asking.spot) asking.spot = asking.spot.split(";").map((one) => one.trim()).filter(Boolean); // a price in hand has commas in it
  return asking;
}

// Puts an order into the form, in place of all that stood there.
export function fill(asking) {
  for (const field of form.elements) {
    if (!field.name) continue;
    const value = asking[field.name];
    if (field.type === "checkbox") field.checked = Boolean(value);
    else field.value = Array.isArray(value) ? value.join(field.name === "spot" ? "; " : ", ") : (value ?? "");
  }
  wished();
}

// Says beside "More wishes" how many there are, since they may be folded away.
export function wished() {
  const fields = [...document.getElementById("more").querySelectorAll("[name]")];
  const count = fields.filter((field) => (field.type === "checkbox" ? field.checked : field.value.trim())).length;
  document.getElementById("wished").textContent = count ? `(${count})` : "";
}
