// The pages of a booklet as the program tells them, kept where the reader is while they change.

import { remake } from "./focus.js";
import { linesPanel } from "./lines.js";
import { turnToListen } from "./turn.js";
import { wholeKit } from "./whole-kit.js";

const byId = (id) => document.getElementById(id);
const words = JSON.parse(document.body.dataset.words);
const desk = byId("desk");

// What has been told last, and what is on the desk: each page by its number.
let state = null;
let viewer = null;
// Which start of the program has told it: another one counts saves anew.
let run = null;
let zoom = 1;
const halves = new Map();

const said = (key, n = "", m = "") => words[key].replace(/\{([nm])\}/g, (_, name) => (name === "n" ? n : m));

function made(tag, more = {}, ...inside) {
  const one = Object.assign(document.createElement(tag), more);
  one.append(...inside);
  return one;
}

function linked(text, known, act) {
  const button = made("button", { type: "button", textContent: text });
  button.dataset.known = known;
  button.addEventListener("click", act);
  return button;
}

const panel = linesPanel(made, said);

// Where one is.

function topPage() {
  const top = desk.getBoundingClientRect().top + 8;
  for (const half of halves.values()) {
    if (half.element.getBoundingClientRect().bottom > top) return half;
  }
  return null;
}

function inView() {
  const seen = desk.getBoundingClientRect();
  return [...halves.values()].filter((half) => {
    const box = half.element.getBoundingClientRect();
    return box.bottom > seen.top && box.top < seen.bottom;
  });
}

function goTo(number, smoothly = false) {
  const half = halves.get(number);
  if (!half) return;
  kit.close();
  const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
  half.element.scrollIntoView({ block: "start", behavior: smoothly && !still ? "smooth" : "instant" });
}

// How large a page is.

function fitting() {
  const [width, height] = state.size;
  const room = desk.clientHeight - 60;
  const across = (desk.clientWidth - 2 * 34 - 8) / 2;
  return Math.max(120, Math.min(across, (room * width) / height));
}

function pageWidth() {
  return Math.round(fitting() * zoom);
}

function pixelWidth() {
  return Math.min(4096, Math.round(pageWidth() * devicePixelRatio));
}

// Do something to the pages, and stay where one was on the page at the top.
function stayingThere(act) {
  const kept = topPage();
  const before = kept?.element.getBoundingClientRect();
  const top = desk.getBoundingClientRect().top;
  const share = before ? (top - before.top) / before.height : 0;
  act();
  if (kept?.element.isConnected) {
    const box = kept.element.getBoundingClientRect();
    desk.scrollTop += box.top + share * box.height - top;
  }
}

function measure() {
  stayingThere(() => {
    const style = document.documentElement.style;
    style.setProperty("--page-width", `${pageWidth()}px`);
    style.setProperty("--page-ratio", `${state.size[0]} / ${state.size[1]}`);
  });
  look();
}

// Pages.

function layPages() {
  const numbers = state.pages.map((page) => page.number);
  if (numbers.length !== halves.size) stayingThere(() => layOpenings(numbers));
}

function layOpenings(numbers) {
  const focused = document.activeElement;
  desk.replaceChildren();
  const before = new Map(halves);
  halves.clear();
  for (const number of numbers) {
    const half = before.get(number) ?? newHalf(number);
    half.element.className = `half ${number % 2 ? "right" : "left"}`;
    halves.set(number, half);
  }
  for (let left = 0; left <= numbers.length; left += 2) {
    const sides = [left, left + 1].map((at) => halves.get(at)?.element ?? made("div", { className: "empty" }));
    if (sides.some((side) => side.className !== "empty")) {
      desk.append(made("div", { className: "opening" }, ...sides));
    }
  }
  if (focused !== document.activeElement && desk.contains(focused)) focused.focus({ preventScroll: true });
  byId("count").textContent = said("of", numbers.length);
  byId("go-to").max = numbers.length;
}

function newHalf(number) {
  const page = made("div", { className: "page" });
  const element = made("div", { className: "half" }, page);
  const places = made("div", { className: "places", role: "group" });
  const marks = made("div", { className: "marks" });
  page.append(places);
  element.append(marks);
  element.dataset.number = number;
  return { number, element, page, places, marks, picture: null, wanted: "", save: -1, asked: 0 };
}

// Show the picture of a page at the width that it has now, if it is not there.
async function paint(half) {
  const told = state?.pages[half.number - 1];
  if (!told) return;
  const wanted = `picture/${told.digest}/${pixelWidth()}`;
  if (wanted === half.wanted) return;
  half.wanted = wanted;
  const picture = made("img", { alt: told.title, src: wanted, draggable: false });
  try {
    await picture.decode();
  } catch {
    if (half.wanted === wanted) half.wanted = "";
    return;
  }
  if (half.wanted !== wanted) return;
  if (half.picture) half.picture.replaceWith(picture);
  else half.page.prepend(picture);
  half.picture = picture;
  half.page.querySelectorAll(".patch").forEach((patch) => patch.remove());
  half.element.dataset.digest = told.digest;
}

// Lay over a picture what it lacks: that is there sooner than the whole.
async function mend(half, digest, patch) {
  const isThere = half.picture?.complete && half.element.dataset.digest === patch.before;
  if (!isThere || patch.width !== half.picture.naturalWidth) return;
  const { naturalWidth: wide, naturalHeight: high } = half.picture;
  const [left, top, right, bottom] = patch.box;
  // Decoded as it is painted: to wait for that before would take a frame more.
  const over = made("img", { className: "patch", alt: "", draggable: false, decoding: "sync" });
  const loaded = new Promise((resolve) => over.addEventListener("load", resolve));
  over.src = `data:image/png;base64,${patch.png}`;
  lie(over, [left / wide, top / high, right / wide, bottom / high]);
  await loaded;
  if (half.element.dataset.digest !== patch.before) return;
  half.places.before(over);
  half.element.dataset.digest = digest;
  half.wanted = ""; // the whole picture is painted next, also where the page is put back by then
}

let isLooking = false;

// Paint what is in view, tell the program what that is, then paint what is near.
function look() {
  if (isLooking) return;
  isLooking = true;
  requestAnimationFrame(async () => {
    isLooking = false;
    if (!state || !state.pages.length) return;
    const seen = inView();
    tellLook(seen.map((half) => half.number));
    await Promise.all(seen.map(paint));
    seen.forEach(loadPlaces);
    const numbers = seen.map((half) => half.number);
    const near = [Math.min(...numbers) - 2, Math.min(...numbers) - 1, Math.max(...numbers) + 1, Math.max(...numbers) + 2];
    near.forEach((number) => halves.has(number) && paint(halves.get(number)));
    const top = topPage();
    if (top && document.activeElement !== byId("go-to")) byId("go-to").value = top.number;
  });
}

let lastLook = "";

function tellLook(pages) {
  const body = JSON.stringify({ viewer, pages, width: pixelWidth() });
  if (viewer === null || body === lastLook) return;
  lastLook = body;
  fetch("look", { method: "POST", body }).catch(() => {});
}

// Places on a page, each of which leads to its line.

async function loadPlaces(half) {
  if (!state || half.save === state.save) return;
  half.save = state.save;
  const mine = ++half.asked;
  const answer = await fetch(`places/${half.number}`).catch(() => null);
  const places = answer?.ok ? await answer.json() : null;
  if (mine !== half.asked) return;
  if (!places) half.save = -1;
  else remake(half.places, () => half.places.replaceChildren(...places.map(placeButton)));
  half.places.setAttribute("aria-label", said("places", said("page", half.number)));
  const focused = half.places.contains(document.activeElement) ? document.activeElement : null;
  const first = focused ?? inReadingOrder(half.places)[0];
  if (first) first.tabIndex = 0;
}

function placeButton(place) {
  const name = `${place.key}, ${said("line", place.line)}`;
  const button = made("button", { type: "button", title: name, tabIndex: -1 });
  button.setAttribute("aria-label", name);
  button.dataset.known = place.key;
  lie(button, place.part);
  button.addEventListener("click", () => {
    document.querySelectorAll(".chosen").forEach((one) => one.classList.remove("chosen"));
    button.classList.add("chosen");
    panel.showPlace(place);
  });
  return button;
}

function lie(element, [left, top, right, bottom]) {
  const parts = { left, top, width: right - left, height: bottom - top };
  for (const [side, part] of Object.entries(parts)) element.style[side] = `${100 * part}%`;
}

// The arrow keys go from place to place on a page; Tab goes on to the next page.
function step(event) {
  const now = event.target.closest?.(".places button");
  const ways = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };
  if (!now || !(event.key in ways)) return;
  const all = inReadingOrder(now.parentElement);
  const next = all[all.indexOf(now) + ways[event.key]];
  event.preventDefault();
  if (!next) return;
  now.tabIndex = -1;
  next.tabIndex = 0;
  next.focus();
}

// What lies in another place comes after it in the document, so that it lies over it: not as it is read.
function inReadingOrder(places) {
  const at = (one, side) => parseFloat(one.style[side]);
  return [...places.children].sort((one, two) => at(one, "top") - at(two, "top") || at(one, "left") - at(two, "left"));
}

// What is found, and what is wrong.

const SIGNS = { error: "!", warning: "!", note: "i" };

function findingItem(finding) {
  const known = `${finding.id} ${finding.key}`;
  const kind = made("span", { className: "kind", textContent: `${said(finding.severity)}: ` });
  const ways = made("div", { className: "ways" });
  ways.append(linked(said("line", finding.line), known, () => panel.showPlace(finding)));
  for (const place of finding.on) {
    ways.append(linked(said("page", place.page), `${known} ${place.page}`, () => {
      goTo(place.page, true);
      flash(place);
    }));
  }
  const item = made("li", { className: finding.severity }, kind, finding.found);
  item.append(made("div", { className: "cure", textContent: finding.cure }));
  if (finding.also.length) {
    const also = said("alsoIn", said(finding.also.length > 1 ? "lines" : "line", finding.also.join(", ")));
    item.append(made("div", { className: "cure", textContent: also }));
  }
  item.append(ways);
  return item;
}

function problemItem(problem) {
  const kind = made("span", { className: "kind", textContent: `${said("error")}: ` });
  const item = made("li", { className: "error" }, kind, said("found", problem.found));
  const expected = [said("expected", problem.expected)];
  if (problem.nearest) expected.push(said("nearest", problem.nearest));
  item.append(made("div", { className: "cure", textContent: expected.join("; ") }));
  const isSame = (other) => other.key === problem.key && other.found === problem.found;
  if (problem.line) item.append(wayTo(problem, () => state.problems.find(isSame)));
  return item;
}

// The way to the line of what is wrong; `now` finds that again in what is told later.
function wayTo(problem, now) {
  const way = linked(said("line", problem.line), problem.key, () => panel.showWrong(now));
  return made("div", { className: "ways" }, way, made("span", { textContent: problem.key }));
}

function troubleItem(trouble) {
  const item = made("li", { className: "error", textContent: trouble.said });
  if (trouble.line) item.append(wayTo(trouble, () => state.trouble));
  return item;
}

function tellTrouble() {
  const items = state.problems.map(problemItem);
  if (state.trouble) items.push(troubleItem(state.trouble));
  if (state.more) items.push(made("li", { textContent: said("more", state.more) }));
  byId("trouble").hidden = !items.length;
  remake(byId("trouble"), () => byId("trouble").replaceChildren(made("ul", {}, ...items)));
}

function tellFindings() {
  const items = state.findings.map(findingItem);
  if (!items.length) items.push(made("li", { className: "none", textContent: said("noFindings") }));
  remake(byId("findings"), () => byId("findings").replaceChildren(...items));
  remake(desk, markFindings);
}

function markFindings() {
  for (const half of halves.values()) half.marks.replaceChildren();
  for (const finding of state.findings) {
    for (const { page, part } of finding.on) mark(finding, page, part);
  }
}

function mark(finding, page, part) {
  const half = halves.get(page);
  if (!half) return;
  const button = linked(SIGNS[finding.severity], `${finding.id} ${finding.key} ${page}`, () => panel.showPlace(finding));
  button.className = finding.severity;
  button.title = `${said(finding.severity)}: ${finding.found}`;
  button.setAttribute("aria-label", button.title);
  const taken = [...half.marks.children].map((one) => parseFloat(one.dataset.top));
  let top = 100 * part[1];
  while (taken.some((other) => Math.abs(other - top) < 3.6)) top += 3.8;
  button.dataset.top = top;
  button.style.top = `${top}%`;
  half.marks.append(button);
}

function tellChanges() {
  const items = state.changes.map((change) => {
    const text = `${change.title}, ${said("page", change.page)}`;
    return made("li", {}, linked(text, String(change.page), () => {
      goTo(change.page, true);
      flash(change);
    }));
  });
  if (!items.length) {
    const none = state.pagesBefore === null ? "noChanges" : "sameLook";
    items.push(made("li", { className: "none", textContent: said(none) }));
  }
  if (state.pagesBefore !== null && state.pagesBefore !== state.pages.length) {
    items.unshift(made("li", { textContent: said("pagesNow", state.pages.length, state.pagesBefore) }));
  }
  remake(byId("changes"), () => byId("changes").replaceChildren(...items));
  document.querySelectorAll(".changed-mark").forEach((one) => one.remove());
  for (const change of state.changes) {
    halves.get(change.page)?.page.append(made("div", { className: "changed-mark" }));
  }
}

function flash(change) {
  const half = halves.get(change.page);
  if (!half) return;
  half.page.querySelectorAll(".flash").forEach((one) => one.remove());
  const light = made("div", { className: "flash" });
  lie(light, change.part ?? [0, 0, 1, 1]);
  light.addEventListener("animationend", () => light.remove());
  half.page.append(light);
}

function tellStatus(status) {
  const isFirst = !state?.pages.length;
  const key = isFirst ? { working: "starting", broken: "brokenEmpty", gone: "goneEmpty" }[status] ?? status : status;
  document.body.dataset.status = status;
  byId("status").dataset.status = status;
  byId("status").textContent = said(key);
}

// What is told.

function take(told) {
  const isNew = state && told.save !== state.save;
  const isFirst = !state?.pages.length;
  const isResized = String(state?.size) !== String(told.size);
  state = told;
  tellStatus(state.status);
  if (state.title) byId("title").textContent = state.title;
  layPages();
  if (isFirst || isResized) measure();
  tellTrouble();
  tellFindings();
  tellChanges();
  if (isNew && !isFirst) state.changes.forEach(flash);
  if (state.status !== "working") panel.showAgain();
  if (isNew || isFirst) kit.showAgain();
  look();
}

function takePage(page) {
  if (!state) return;
  state.pages[page.number - 1] = page;
  const half = halves.get(page.number);
  if (!half) return;
  if (page.patch) mend(half, page.digest, page.patch).then(() => setTimeout(() => paint(half), 50));
  else paint(half);
}

const LISTEN_AGAIN = 3000;

function listen() {
  const events = new EventSource("events");
  events.addEventListener("hello", (event) => {
    const told = JSON.parse(event.data);
    if (told.run !== run) forget();
    ({ viewer, run } = told);
    lastLook = "";
  });
  events.addEventListener("state", (event) => take(JSON.parse(event.data)));
  events.addEventListener("page", (event) => takePage(JSON.parse(event.data)));
  events.addEventListener("error", () => {
    // A browser tries again by itself, but not where it has been refused.
    if (events.readyState === EventSource.CLOSED) listenLater();
    else tellStatus("away");
  });
}

async function listenLater() {
  const answer = await fetch("icon.svg").catch(() => null);
  tellStatus(answer?.ok ? "full" : "away");
  setTimeout(listen, LISTEN_AGAIN);
}

// Another start of the program: its saves have the numbers of others.
function forget() {
  state = null;
  for (const half of halves.values()) half.save = -1;
}

byId("title").dataset.name = byId("title").textContent;
desk.addEventListener("scroll", look, { passive: true });
addEventListener("resize", () => state && measure());
addEventListener("keydown", step);
byId("close-spec").addEventListener("click", panel.close);
addEventListener("keydown", (event) => event.key === "Escape" && panel.close());
byId("go-to").addEventListener("change", (event) => goTo(Number(event.target.value)));
byId("smaller").addEventListener("click", () => resize(zoom / 1.25));
byId("larger").addEventListener("click", () => resize(zoom * 1.25));
byId("fit").addEventListener("click", () => resize(1));

function resize(to) {
  zoom = Math.min(4, Math.max(0.4, to));
  if (state) measure();
}

const kit = wholeKit(made, desk, panel.showPlace);
addEventListener("keydown", (event) => event.key === "Escape" && kit.close());

turnToListen(() => tellStatus("waiting")).then(listen);
