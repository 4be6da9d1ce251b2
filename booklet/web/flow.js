// The whole kit: what is pointed at, tapped or chosen is followed through the picture, and told below it.
(() => {
  const view = document.getElementById("view-kit");
  if (!view) return;
  const picture = view.querySelector(".flow svg");
  const strands = [...picture.querySelectorAll(".strand")];
  const nodes = [...picture.querySelectorAll(".node")];
  const buttons = [...view.querySelectorAll("[data-follow]")];
  const told = new Map([...view.querySelectorAll("[data-piece]")].map((said) => [said.dataset.piece, said]));
  let chosen = "";

  const pieceOf = (strand) => [...strand.classList].find((tag) => tag.startsWith("piece-"));

  function show(tag) {
    const passed = new Set();
    for (const strand of strands) {
      const isFollowed = !tag || strand.classList.contains(tag);
      strand.classList.toggle("faded", !isFollowed);
      told.get(pieceOf(strand).slice("piece-".length)).hidden = !tag || !isFollowed;
      if (isFollowed) strand.classList.forEach((each) => passed.add(each));
    }
    for (const node of nodes) node.classList.toggle("faded", ![...node.classList].some((each) => each !== "node" && passed.has(each)));
  }

  function choose(tag) {
    chosen = tag === chosen ? "" : tag;
    for (const button of buttons) button.setAttribute("aria-pressed", String(button.dataset.follow === chosen));
    show(chosen);
  }

  // A strand by its piece, a node by its own tag.
  function tagAt(event) {
    const strand = event.target.closest(".strand");
    if (strand) return pieceOf(strand);
    const node = event.target.closest(".node");
    return node ? [...node.classList].find((tag) => tag !== "node" && tag !== "faded") : "";
  }

  picture.addEventListener("pointerover", (event) => {
    if (event.pointerType === "mouse") show(tagAt(event) || chosen);
  });
  picture.addEventListener("pointerleave", () => show(chosen));
  picture.addEventListener("click", (event) => choose(tagAt(event) || chosen));
  for (const button of buttons) button.addEventListener("click", () => choose(button.dataset.follow));
  view.addEventListener("keydown", (event) => { if (event.key === "Escape" && chosen) choose(""); });
  show("");
})();
