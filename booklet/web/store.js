// What the browser keeps for this kit and edition: ticks, places, settings.  Words are the page's, never ours.
const kept = (() => {
  const edition = document.querySelector('meta[name="edition"]').content;
  const key = `companion ${edition} ${document.title}`;
  const empty = () => ({ ticks: {}, places: {}, settings: {} });
  let isKept = true;
  let state = empty();

  function read() {
    try {
      const found = JSON.parse(localStorage.getItem(key) || "{}");
      for (const part of Object.keys(state)) {
        if (found && typeof found[part] === "object" && found[part] !== null) state[part] = found[part];
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

  function clear() {
    state = { ...empty(), settings: state.settings };
    write();
  }

  read();
  write();
  return {
    get isKept() { return isKept; },
    get state() { return state; },
    write, clear, key,
  };
})();
