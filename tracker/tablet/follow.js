"use strict";
// Follows the work: one stream of steps, each of them whole. What is shown is set as text.
const by = (id) => document.getElementById(id);
const address = (path) => path + location.search;
const SILENCE_MS = Number(document.documentElement.dataset.silence); // the other side is never silent for so long
const touches = !by("keys").hidden; // without --touch there are no keys, and so no answers
const FIGURES = 6;
let stream = null, heardAt = 0, over = false, latest = null, typed = "", asked = "";

function text(id, words) {
  const at = by(id);
  if (at.textContent !== words) at.textContent = words;
}

function show(step) {
  latest = step;
  document.title = step.where ? step.where + " · " + step.title : step.title;
  text("title", step.title);
  text("part", step.part ? "· " + step.part : "");
  text("side", step.side);
  text("where", step.where);
  text("repeats", step.repeats ? "· " + step.repeats : "");
  by("resting").hidden = !step.resting;
  text("counted", step.counted);
  text("said", step.said);
  by("said").classList.toggle("asked", step.asked);
  text("then", step.then);
  text("tally", step.tally);
  const [beat, beats] = step.beats.length ? step.beats : [0, 0];
  text("dots", beats ? "●".repeat(beat - 1) + "◐" + "○".repeat(beats - beat) : "");
  text("state", step.state);
  by("answers").hidden = !step.asked || !touches;
  // A number is answered with figures, in the place of the keys, or with a word that it can't be told.
  by("pad").hidden = !step.number || !touches;
  by("keys").hidden = step.number || !touches;
  by("yes").hidden = step.number;
  text("no", step.number ? "can't tell" : "no");
  if (!step.number || step.said !== asked) type("");
  asked = step.said;
  const [before, marked, after] = step.words;
  const mark = document.createElement("b");
  mark.textContent = marked;
  const words = by("words");
  words.replaceChildren(before, ...(marked ? [mark] : []), after);
  // What is marked is in sight, whole lines of it.
  const low = mark.offsetTop + mark.offsetHeight;
  words.scrollTop = marked && low > words.clientHeight ? mark.offsetTop : 0;
  // The only markup that is taken as such: every word in it was escaped where it was drawn.
  if (by("fabric").dataset.drawn !== step.fabric) {
    by("fabric").innerHTML = step.fabric;
    by("fabric").dataset.drawn = step.fabric;
  }
  document.body.classList.toggle("round", step.round);
  text("hand", step.hand);
  fit();
}

function type(figures) {
  typed = figures;
  text("typed", figures || "–");
  by("tell").disabled = by("erase").disabled = !figures;
}

// As large as its place allows.
function fit() {
  const box = by("box"), hand = by("hand");
  let low = 16, high = Math.max(17, Math.min(box.clientHeight, box.clientWidth / 2));
  const fits = (size) => {
    hand.style.fontSize = size + "px";
    return hand.scrollHeight <= box.clientHeight && hand.scrollWidth <= box.clientWidth;
  };
  hand.style.overflowWrap = "normal";
  for (let turn = 0; turn < 9; turn++) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle; else high = middle;
  }
  if (!fits(low)) hand.style.overflowWrap = "anywhere";
}

function follow() {
  if (over) return;
  if (stream) stream.close();
  heardAt = Date.now();
  stream = new EventSource(address("/live"));
  stream.onopen = () => { heardAt = Date.now(); text("link", ""); };
  stream.onmessage = (event) => { heardAt = Date.now(); text("link", ""); show(JSON.parse(event.data)); };
  stream.addEventListener("here", () => { heardAt = Date.now(); text("link", ""); });
  stream.addEventListener("over", () => {
    over = true;
    stream.close();
    text("link", "The work was put down. Its link ends with it.");
  });
  stream.onerror = () => {
    if (!over) text("link", "Out of touch; trying again.");
    // A browser gives up where it was refused, as by a machine that is only just awake.
    if (stream.readyState === EventSource.CLOSED) setTimeout(follow, 1500);
  };
}

// After sleep a stream may look open and be dead: silence tells.
setInterval(() => { if (!over && Date.now() - heardAt > SILENCE_MS) { text("link", "Out of touch; trying again."); follow(); } }, 1000);
for (const woken of ["online", "pageshow"]) addEventListener(woken, () => { if (Date.now() - heardAt > 1500) follow(); });
document.addEventListener("visibilitychange", () => { if (!document.hidden && Date.now() - heardAt > 1500) follow(); });
addEventListener("resize", () => { if (latest) fit(); });

async function ask(touch) {
  try {
    const answer = await fetch(address("/do"), {
      method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(touch),
    });
    if (!answer.ok) text("link", (await answer.text()).trim());
    return answer.ok;
  } catch { text("link", "Out of touch; nothing was moved."); }
  return false;
}

for (const button of document.querySelectorAll("[data-do]")) {
  button.addEventListener("click", () => ask({ do: button.dataset.do }));
}
for (const button of document.querySelectorAll("[data-digit]")) {
  // No nought stands before a number.
  button.addEventListener("click", () => type((typed === "0" ? "" : typed).slice(0, FIGURES - 1) + button.dataset.digit));
}
by("erase").addEventListener("click", () => type(typed.slice(0, -1)));
by("tell").addEventListener("click", async () => {
  if (await ask({ do: "number", number: Number(typed) })) type("");
});

const LOOKS = ["dark", "light", "black and white"];
function look(name) {
  if (LOOKS.includes(name)) document.documentElement.dataset.look = name;
}
try { look(localStorage.getItem("look")); } catch { /* not kept here */ }
by("look").addEventListener("click", () => {
  const next = LOOKS[(LOOKS.indexOf(document.documentElement.dataset.look) + 1) % LOOKS.length];
  look(next);
  try { localStorage.setItem("look", next); } catch { /* not kept here */ }
});
follow();
