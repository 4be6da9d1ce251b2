// The views, by the address after the `#`: one is shown at a time, and a walk at the card that it names.
(() => {
  const root = document.documentElement;
  const head = document.getElementById("head");
  const links = [...head.querySelectorAll("[data-view]")];
  const views = [...document.querySelectorAll(".view")];
  const booklet = document.getElementById("booklet");
  const start = views.find((view) => view.id === "view-start");
  const settings = kept.state.settings;
  let current = "start";

  const side = () => settings.zero || root.dataset.zero;
  const walkOf = (name) => walks.find(
    (walk) => walk.name === name && (!walk.view.dataset.zero || walk.view.dataset.zero === side()));
  const open = () => walkOf(current);

  function show(name) {
    const walk = walkOf(name);
    const view = walk ? walk.view : views.find((each) => each.id === `view-${name}`);
    current = view || name === "booklet" ? name : "start";
    views.forEach((each) => { each.hidden = each !== (view || (current === "start" ? start : null)); });
    booklet.hidden = current !== "booklet";
    root.dataset.view = current;
    for (const link of links) {
      if (link.dataset.view === current) link.setAttribute("aria-current", "page");
      else link.removeAttribute("aria-current");
    }
    kept.change("places", { view: current });
  }

  // A link to an anchor of the booklet leads to its card where a walk has one, but not from within the booklet.
  function follow() {
    const hash = location.hash;
    known = hash;
    address = "";
    if (hash.startsWith("#/")) {
      const [name, ...key] = hash.slice(2).split("/");
      show(name);
      const walk = open();
      const card = walk ? walk.indexOf(key.join("/")) : -1;
      if (walk) card >= 0 && key.length ? walk.show(card, { isQuiet: true }) : walk.resume();
      if (!walk) window.scrollTo(0, 0);
      return;
    }
    if (!hash) return;
    const anchor = hash.slice(1);
    if (current !== "booklet") {
      for (const name of ["cut", "pages"]) {
        const walk = walkOf(name);
        const card = walk ? walk.indexOf(anchor) : -1;
        if (card >= 0) {
          show(name);
          walk.show(card);
          return;
        }
      }
    }
    show("booklet");
    document.getElementById(anchor)?.scrollIntoView();
  }

  // WebKit takes a hundred changes of the address in half a minute and refuses the next: whoever leafs fast is followed
  // at each rest.
  const REST = 400;
  let address = "";
  let known = "";
  let isResting = false;

  function tell() {
    if (isResting || !address) return;
    // Where a link has been followed meanwhile, its address stays.
    if (location.hash === known) history.replaceState(null, "", address);
    known = location.hash;
    address = "";
    isResting = true;
    setTimeout(() => { isResting = false; tell(); }, REST);
  }

  document.addEventListener("moved", (event) => {
    const { name, key } = event.detail;
    if (name !== current) return;
    address = `#/${name}/${key}`;
    tell();
  });

  document.addEventListener("keydown", (event) => {
    const walk = open();
    if (!walk || event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.target.closest("input, textarea, select")) return;
    const onControl = event.target.closest("button, a, summary");
    const deck = event.target.closest(".deck");
    if (deck && deck.scrollHeight > deck.clientHeight && event.key.startsWith("Page")) return;
    if (["ArrowRight", "PageDown"].includes(event.key)) walk.next();
    else if (["ArrowLeft", "PageUp"].includes(event.key)) walk.back();
    else if (event.key === "Enter" && !onControl) walk.done();
    else return;
    event.preventDefault();
  });

  // How far one is.
  function showProgress() {
    const pieces = [...ticks.pieces()];
    const parts = {
      cut: walkOf("cut")?.counted().map(walkOf("cut").isDone),
      pages: walkOf("pages")?.counted().map(walkOf("pages").isDone),
      pieces: pieces.map(ticks.has),
    };
    for (const [name, all] of Object.entries(parts)) {
      const bar = document.querySelector(`[data-progress="${name}"]`);
      if (!bar || !all) continue;
      const count = all.filter(Boolean).length;
      bar.max = all.length || 1;
      bar.value = count;
      document.querySelector(`[data-progress-said="${name}"]`).textContent = `${count} / ${all.length}`;
      const way = bar.closest(".way");
      const goOn = way.querySelector(".go-on");
      if (goOn) {
        goOn.hidden = !count;
        way.querySelector(".begin").hidden = Boolean(count);
      }
    }
  }

  // Settings.
  function showUnit(isOther) {
    if (root.classList.contains("in-other-unit") === isOther) return;
    root.classList.toggle("in-other-unit", isOther);
    // Each measure holds the one that is not shown.
    for (const measure of document.querySelectorAll("[data-other]")) {
      [measure.dataset.other, measure.textContent] = [measure.textContent, measure.dataset.other];
    }
  }

  function applySettings() {
    showUnit(settings.unit === "other");
    root.classList.toggle("large", settings.large === true);
    for (const radio of document.querySelectorAll('input[type="radio"]')) {
      const chosen = radio.name === "unit" ? settings.unit || "kit" : side();
      radio.checked = radio.value === chosen;
    }
    document.getElementById("large-type").checked = settings.large === true;
  }

  document.addEventListener("change", (event) => {
    const { target } = event;
    if (target.type === "radio") kept.change("settings", { [target.name]: target.value });
    else if (target.id === "large-type") kept.change("settings", { large: target.checked });
    else return;
    applySettings();
    showProgress();
  });
  document.addEventListener("kept", applySettings);

  const really = document.getElementById("really-clear");
  const cleared = document.getElementById("cleared");
  const clear = document.getElementById("clear");
  function ask(isAsked) {
    really.hidden = !isAsked;
    clear.hidden = isAsked;
    (isAsked ? document.getElementById("keep") : clear).focus();
  }
  clear.addEventListener("click", () => { cleared.hidden = true; ask(true); });
  document.getElementById("keep").addEventListener("click", () => ask(false));
  document.getElementById("clear-now").addEventListener("click", () => {
    kept.clear();
    ticks.show();
    ask(false);
    cleared.hidden = false;
  });

  document.getElementById("not-kept").hidden = kept.isKept;
  head.hidden = false;
  document.addEventListener("ticked", showProgress);
  applySettings();
  ticks.show();
  window.addEventListener("hashchange", follow);
  if (location.hash) follow();
  else {
    show(kept.state.places.view || "start");
    open()?.resume();
  }
})();
