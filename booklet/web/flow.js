// The whole kit: what is pointed at, tapped or chosen is followed through the picture, and told below it.
(() => {
  const view = document.getElementById("view-kit");
  if (!view) return;
  const picture = view.querySelector(".flow svg");
  const buttons = [...view.querySelectorAll("[data-follow]")];
  const told = [...view.querySelectorAll("[data-piece]")];
  const flow = flowThrough(picture);
  let chosen = "";

  function show(tag) {
    const pieces = new Set(flow.follow(tag));
    told.forEach((said, number) => { said.hidden = !pieces.has(number); });
  }

  function choose(tag) {
    chosen = tag === chosen ? "" : tag;
    for (const button of buttons) button.setAttribute("aria-pressed", String(button.dataset.follow === chosen));
    show(chosen);
  }

  picture.addEventListener("pointerover", (event) => {
    if (event.pointerType === "mouse") show(flow.tagAt(event) || chosen);
  });
  picture.addEventListener("pointerleave", () => show(chosen));
  picture.addEventListener("click", (event) => choose(flow.tagAt(event) || chosen));
  for (const button of buttons) button.addEventListener("click", () => choose(button.dataset.follow));
  view.addEventListener("keydown", (event) => { if (event.key === "Escape" && chosen) choose(""); });
  show("");
})();
