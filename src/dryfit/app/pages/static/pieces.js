// Pieces of a page brought up to date without loading it anew.
//
// [data-later] is fetched and put in its own place, as often as what comes has one again; other
// pieces that come with it are put in too. What is there stays until it comes.
// A form with [data-quietly] is posted without leaving the page, one after the other: what has
// changed of the pieces ([data-piece], by id) is put in, what is [data-wait] only as it comes later;
// a box that is being typed in is left as it is.
// Without this script every page works by loading anew.

const parse = (text) => new DOMParser().parseFromString(text, "text/html");

async function bring(spot, address = spot.dataset.later) {
  const turn = (spot.turn = (spot.turn ?? 0) + 1);
  spot.removeAttribute("data-later");
  spot.setAttribute("aria-busy", "true");
  try {
    const answer = await fetch(address);
    const page = parse(await answer.text());
    if (!spot.isConnected || spot.turn !== turn) return;
    if (answer.status === 409) {
      setTimeout(() => spot.turn === turn && bring(spot, address), 400);
      return;
    }
    const piece = page.querySelector(`#${CSS.escape(spot.id)}`) ?? page.querySelector("main > *");
    if (!piece) return;
    spot.replaceWith(piece);
    start(piece);
    put(page);
  } catch {
    spot.textContent = "dryfit does not answer. Is it still open? Then load the page again.";
  }
}

function put(page) {
  const saw = page.querySelector('input[name="saw"]');
  if (saw) for (const box of document.querySelectorAll('input[name="saw"]')) box.setAttribute("value", saw.value);
  for (const piece of document.querySelectorAll("[data-piece]")) {
    const newer = page.getElementById(piece.id);
    if (!newer || newer === piece || "wait" in newer.dataset || touched(piece)) continue;
    if (newer.dataset.later) bring(piece, newer.dataset.later);
    else if (!newer.isEqualNode(piece)) swap(piece, newer);
  }
  document.dispatchEvent(new CustomEvent("pieces"));
}

function swap(piece, newer) {
  const here = document.activeElement;
  const id = piece.contains(here) && here.id;
  piece.replaceWith(newer);
  start(newer);
  if (id) document.getElementById(id)?.focus();
}

const touched = (piece) =>
  [...piece.querySelectorAll("input:not([type=hidden]), textarea")].some((box) => box.value !== box.defaultValue && !box.dataset.sent);

let posted = Promise.resolve();
let waiting = 0;

async function post(form, pressed) {
  const told = new FormData(form);
  if (pressed?.name) told.set(pressed.name, pressed.value);
  const boxes = [...form.elements].filter((box) => box.name && box.type !== "hidden");
  for (const box of boxes) box.dataset.sent = "1";
  try {
    const short = [...told.values()].join("").length < 15000; // a browser sends no more on leaving
    const answer = await fetch(form.action, { method: "POST", body: told, keepalive: short });
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
  waiting += 1;
  posted = posted.then(() => post(event.target, event.submitter)).finally(() => (waiting -= 1));
});
document.addEventListener("click", async (event) => {
  const link = event.target.closest?.("a[href]");
  if (!link || !waiting || event.ctrlKey || event.metaKey) return;
  event.preventDefault(); // what was typed last is on its way: see first whether it is kept
  await posted;
  if (!document.querySelector(".refused, #slip[role=alert], #told.again")) document.location.assign(link.href.baseVal ?? link.href);
});
document.addEventListener("change", (event) => {
  if (event.target.form?.matches("[data-quietly][data-at-once]")) event.target.form.requestSubmit();
});
start(document);
