// The whole kit in one picture over the pages: what is pointed at or chosen is followed, and leads to its line.
import { flowThrough } from "./follow.js";

const byId = (id) => document.getElementById(id);

export function wholeKit(made, showPlace) {
  const panel = byId("kit");
  const opener = byId("open-kit");
  let told = null;
  let flow = null;
  let chosen = "";

  const things = () => told.rows.flatMap((row) => row.things);

  // What a tag stands for: a piece by its number, or a thing.
  function thingOf(tag) {
    return tag.startsWith("piece-") ? told.pieces[Number(tag.slice(6))] : things().find((thing) => thing.tag === tag);
  }

  function show(tag) {
    const pieces = flow.follow(tag).map((number) => told.pieces[number]);
    byId("kit-pieces").replaceChildren(...pieces.map((piece) => {
      const way = made("button", { type: "button", textContent: piece.said });
      way.addEventListener("click", () => showPlace(piece));
      return made("li", {}, way);
    }));
  }

  function choose(tag) {
    chosen = tag;
    for (const button of byId("kit-things").querySelectorAll("button")) {
      button.setAttribute("aria-pressed", String(button.dataset.follow === tag));
    }
    show(tag);
    const thing = tag && thingOf(tag);
    if (thing) showPlace(thing);
  }

  function button(name, tag) {
    const one = made("button", { type: "button", textContent: name });
    one.dataset.follow = tag;
    one.addEventListener("click", () => choose(tag));
    return one;
  }

  function draw() {
    const svg = document.importNode(new DOMParser().parseFromString(told.svg, "image/svg+xml").documentElement, true);
    svg.setAttribute("role", "img");
    svg.setAttribute("aria-label", told.alt);
    svg.addEventListener("pointerover", (event) => show(flow.tagAt(event) || chosen));
    svg.addEventListener("pointerleave", () => show(chosen));
    svg.addEventListener("click", (event) => choose(flow.tagAt(event)));
    byId("kit-picture").replaceChildren(svg);
    flow = flowThrough(svg);
    byId("kit-title").textContent = told.title;
    byId("kit-lead").textContent = told.lead;
    const rows = told.rows.map((row) => made("p", {}, made("b", { textContent: row.title }),
      ...row.things.map((thing) => button(thing.name, thing.tag))));
    byId("kit-things").replaceChildren(made("p", {}, button(told.all, "")), ...rows);
    choose(chosen && thingOf(chosen) ? chosen : "");
  }

  async function fill() {
    const answer = await fetch("whole-kit").catch(() => null);
    if (!answer?.ok) return;
    told = await answer.json();
    draw();
  }

  async function open() {
    await fill();
    if (!told) return;
    panel.hidden = false;
    opener.setAttribute("aria-pressed", "true");
    panel.focus();
  }

  function close() {
    if (panel.hidden) return;
    panel.hidden = true;
    opener.setAttribute("aria-pressed", "false");
    opener.focus();
  }

  opener.addEventListener("click", () => (panel.hidden ? open() : close()));
  return { close, showAgain: () => { if (!panel.hidden) fill(); } };
}
