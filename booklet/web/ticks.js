// Ticks: one for each piece, cut and step, shown by every box that stands for it.
const ticks = (() => {
  const root = document.documentElement;
  const boxes = [...document.querySelectorAll('input[type="checkbox"]')].filter(
    (box) => !["only-missing", "large-type"].includes(box.id));
  // A box of the booklet that stands for no piece is known by its place: an edition's are always the same.
  boxes.filter((box) => !box.dataset.ticks).forEach((box, place) => { box.dataset.ticks = `box-${place}`; });

  const idsOf = (element) => (element.dataset.ticks || "").split(" ").filter(Boolean);
  const has = (id) => kept.state.ticks[id] === 1;

  function set(ids, isTicked) {
    kept.change("ticks", Object.fromEntries(ids.map((id) => [id, isTicked ? 1 : undefined])));
    show();
  }

  function show() {
    for (const box of boxes) {
      const ids = idsOf(box);
      const count = ids.filter(has).length;
      box.checked = count === ids.length;
      box.indeterminate = count > 0 && count < ids.length;
    }
    for (const list of document.querySelectorAll(".pieces")) showMissing(list);
    document.dispatchEvent(new Event("ticked"));
  }

  function showMissing(list) {
    const rows = [...list.querySelectorAll("li")];
    const ids = rows.flatMap((row) => idsOf(row.querySelector("input")));
    const count = ids.filter((id) => !has(id)).length;
    const [missing, there] = list.querySelector(".missing").children;
    missing.querySelector("[data-count]").textContent = count;
    missing.hidden = count === 0;
    there.hidden = count > 0;
    for (const row of rows) row.classList.toggle("there", idsOf(row.querySelector("input")).every(has));
  }

  // Every piece that is filed, for how far one is: those that the lists of the pages name.
  const pieces = () => new Set(
    [...document.querySelectorAll("#view-pieces .pieces input")].flatMap(idsOf));

  root.addEventListener("change", (event) => {
    if (boxes.includes(event.target)) set(idsOf(event.target), event.target.checked);
  });
  document.addEventListener("kept", show);
  return { idsOf, has, set, show, pieces };
})();
