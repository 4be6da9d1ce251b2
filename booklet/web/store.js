// What the browser keeps for this kit and edition: ticks, places, settings.  Words are the page's, never ours.
const kept = (() => {
  const edition = document.querySelector('meta[name="edition"]').content;
  const key = `companion ${edition} ${document.title}`;
  // Without a prototype: a piece may have any name.
  const bare = () => Object.create(null);
  const state = { ticks: bare(), places: bare(), settings: bare() };
  let isKept = true;

  function read() {
    try {
      const found = JSON.parse(localStorage.getItem(key) || "{}");
      for (const part of Object.keys(state)) {
        if (!found || typeof found[part] !== "object" || found[part] === null) continue;
        empty(part);
        for (const [name, value] of Object.entries(found[part])) state[part][name] = value;
      }
    } catch {
      isKept = false;
    }
  }

  function write() {
    try {
      localStorage.setItem(key, JSON.stringify(state));
    } catch {
      isKept = false;
    }
  }

  function empty(part) {
    for (const name of Object.keys(state[part])) delete state[part][name];
  }

  // The same companion may be open in another window: what that has kept since is not undone.
  function change(part, values) {
    if (isKept) read();
    for (const [name, value] of Object.entries(values)) {
      if (value === undefined) delete state[part][name];
      else state[part][name] = value;
    }
    write();
  }

  function clear() {
    empty("ticks");
    empty("places");
    write();
  }

  window.addEventListener("storage", (event) => {
    if (event.key !== key) return;
    read();
    document.dispatchEvent(new Event("kept"));
  });

  read();
  write();
  return { get isKept() { return isKept; }, state, change, clear, key };
})();
