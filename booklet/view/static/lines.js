// The lines of the spec about what was chosen: asked for anew at each save, which may have moved them.

const byId = (id) => document.getElementById(id);

export function linesPanel(made, said) {
  // Says where what is shown is to be asked for, and how it is called; nothing where it is no more.
  let shown = null;
  let asked = 0;

  // The answer to what was asked last: to what was given up, or asked before, there is none.
  async function answer(address) {
    const mine = ++asked;
    const given = await fetch(address).catch(() => null);
    const told = given?.ok ? await given.json() : null;
    return mine === asked ? told : null;
  }

  async function ask(isFirst) {
    const wanted = shown();
    if (!wanted) return close();
    const told = await answer(wanted.address);
    if (told) tell(told, told.key ?? wanted.key, isFirst);
  }

  function tell(told, key, isFirst) {
    const items = told.lines.map((text, at) => {
      const item = made("li", { value: told.first + at, textContent: text || " " });
      if (told.first + at === told.line) item.className = "here";
      return item;
    });
    byId("spec-place").textContent = `${byId("title").dataset.name}, ${said("line", told.line)}`;
    byId("spec-key").textContent = key;
    byId("spec-note").textContent = said("lastGood");
    byId("spec-note").hidden = !told.hasPassed;
    byId("spec-lines").replaceChildren(...items);
    byId("spec").hidden = false;
    if (!isFirst) return;
    byId("spec-lines").querySelector(".here")?.scrollIntoView({ block: "nearest" });
    byId("spec").scrollIntoView({ block: "nearest" });
  }

  function show(where) {
    shown = where;
    ask(true);
  }

  // Show a place of the spec that the pages were made of, wherever later saves move it.
  function showPlace(place) {
    const address = `lines/${encodeURIComponent(JSON.stringify(place.at))}`;
    show(() => ({ address }));
  }

  // Show what is wrong in the file, for as long as it is told: `now` finds it in what was told last.
  function showWrong(now) {
    show(() => {
      const wrong = now();
      return wrong && { address: `file-lines/${wrong.line}`, key: wrong.key };
    });
  }

  function close() {
    shown = null;
    asked += 1;
    byId("spec").hidden = true;
    document.querySelectorAll(".chosen").forEach((one) => one.classList.remove("chosen"));
  }

  return { showPlace, showWrong, close, showAgain: () => { if (shown) ask(false); } };
}
