// Pieces of a page brought up to date without loading it anew.
//
// [data-later] is fetched and put in its own place, as often as what comes has one again.
// A form with [data-quietly] is posted without leaving the page: what has changed of the pieces
// ([data-piece], by id) is put in; a box that is being typed in is left as it is.
// Without this script every page works by loading anew.

const parse = (text) => new DOMParser().parseFromString(text, "text/html");

async function bring(spot) {
  const address = spot.dataset.later;
  spot.removeAttribute("data-later");
  try {
    const answer = await fetch(address);
    const page = parse(await answer.text());
    const piece = page.querySelector(`#${CSS.escape(spot.id)}`) ?? page.querySelector("main > *");
    if (!piece || !spot.isConnected) return;
    spot.replaceWith(piece);
    start(piece);
  } catch {
    spot.textContent = "dryfit does not answer. Is it still open? Then load the page again.";
  }
}

function put(page) {
  const here = document.activeElement;
  for (const piece of document.querySelectorAll("[data-piece]")) {
    const newer = page.getElementById(piece.id);
    if (!newer || newer.isEqualNode(piece) || touched(piece, here)) continue;
    piece.replaceWith(newer);
    start(newer);
  }
  for (const box of document.querySelectorAll('input[name="saw"]')) {
    const newer = page.querySelector('input[name="saw"]');
    if (newer) box.value = newer.value;
  }
  document.dispatchEvent(new CustomEvent("pieces"));
}

const touched = (piece, here) =>
  piece.contains(here) && here.matches?.("input, textarea, select") && here.value !== here.defaultValue && !here.dataset.sent;

async function post(form, pressed) {
  const told = new FormData(form);
  if (pressed?.name) told.set(pressed.name, pressed.value);
  const boxes = [...form.elements].filter((box) => box.name && box.type !== "hidden");
  for (const box of boxes) box.dataset.sent = "1";
  try {
    const answer = await fetch(form.action, { method: "POST", body: told });
    say("");
    const page = parse(await answer.text());
    if (page.querySelector("[data-piece]")) put(page);
    else if (answer.ok) document.location.assign(answer.url);
    else say(`Not kept. ${page.querySelector("main p")?.textContent ?? ""}`);
  } catch {
    say("Not kept: dryfit does not answer. What you typed is still here; open dryfit and send it again.");
  }
  for (const box of boxes) delete box.dataset.sent;
}

function say(words) {
  const spot = document.getElementById("told");
  spot.className = words ? "call again" : "";
  spot.textContent = words;
}

export function start(root) {
  if (root.matches?.("[data-later]")) bring(root);
  for (const spot of root.querySelectorAll("[data-later]")) bring(spot);
}

document.addEventListener("submit", (event) => {
  if (!event.target.matches("[data-quietly]")) return;
  event.preventDefault();
  post(event.target, event.submitter);
});
document.addEventListener("change", (event) => {
  if (event.target.form?.matches("[data-quietly][data-at-once]")) event.target.form.requestSubmit();
});
start(document);
