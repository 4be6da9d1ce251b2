// The whole kit in one picture over the pages: what is pointed at or chosen is followed, and leads to its line.
import { remake } from "./focus.js";
import { flowThrough } from "./follow.js";

const byId = (id) => document.getElementById(id);

export function wholeKit(made, desk, showPlace) {
  const panel = byId("kit");
  const opener = byId("open-kit");
  let told = null;
  let flow = null;
  let asked = 0;
  // By what it is known in all saves: a tag is a number, which another thing may have in the next.
  let chosen = "";

  const all = () => [...told.pieces, ...told.rows.flatMap((row) => row.things)];
  const tagOf = (known) => all().find((one) => one.known === known)?.tag ?? "";

  function show(tag) {
    const pieces = flow.follow(tag).map((number) => told.pieces[number]);
    remake(byId("kit-pieces"), () => byId("kit-pieces").replaceChildren(...pieces.map((piece) => {
      const way = made("button", { type: "button", textContent: piece.said });
      way.dataset.known = piece.known;
      way.addEventListener("click", () => showPlace(piece));
      return made("li", {}, way);
    })));
  }

  function follow(known) {
    chosen = known;
    for (const button of byId("kit-things").querySelectorAll("button")) {
      button.setAttribute("aria-pressed", String(button.dataset.known === known));
    }
    show(tagOf(known));
  }

  function choose(one) {
    follow(one?.known ?? "");
    if (one) showPlace(one);
  }

  function button(name, one) {
    const way = made("button", { type: "button", textContent: name });
    way.dataset.known = one?.known ?? "";
    way.addEventListener("click", () => choose(one));
    return way;
  }

  function draw() {
    const svg = document.importNode(new DOMParser().parseFromString(told.svg, "image/svg+xml").documentElement, true);
    svg.setAttribute("role", "img");
    svg.setAttribute("aria-label", told.alt);
    svg.addEventListener("pointerover", (event) => show(flow.tagAt(event) || tagOf(chosen)));
    svg.addEventListener("pointerleave", () => show(tagOf(chosen)));
    svg.addEventListener("click", (event) => choose(all().find((one) => one.tag === flow.tagAt(event))));
    byId("kit-picture").replaceChildren(svg);
    flow = flowThrough(svg);
    byId("kit-title").textContent = told.title;
    byId("kit-lead").textContent = told.lead;
    const rows = told.rows.map((row) => made("p", {}, made("b", { textContent: row.title }),
      ...row.things.map((thing) => button(thing.name, thing))));
    remake(byId("kit-things"), () => byId("kit-things").replaceChildren(made("p", {}, button(told.all)), ...rows));
    follow(tagOf(chosen) ? chosen : "");
  }

  async function fill() {
    const mine = ++asked;
    const answer = await fetch("whole-kit").catch(() => null);
    const given = answer?.ok ? await answer.json() : null;
    if (!given || mine !== asked) return;
    told = given;
    draw();
  }

  async function open() {
    await fill();
    if (!told) return;
    panel.hidden = false;
    desk.inert = true; // its pages lie beneath
    opener.setAttribute("aria-pressed", "true");
    panel.focus();
  }

  function close() {
    if (panel.hidden) return;
    const hadFocus = panel.contains(document.activeElement);
    panel.hidden = true;
    desk.inert = false;
    opener.setAttribute("aria-pressed", "false");
    if (hadFocus) opener.focus();
  }

  opener.addEventListener("click", () => (panel.hidden ? open() : close()));
  return { close, showAgain: () => { if (!panel.hidden) fill(); } };
}
