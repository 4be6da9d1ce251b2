// The pieces that are looked for: by words of a name, a label or a page; or only those that are missing.
(() => {
  const view = document.getElementById("view-pieces");
  if (!view) return;
  const field = document.getElementById("search");
  const only = document.getElementById("only-missing");
  const plain = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();

  function show() {
    const wanted = plain(field.value).split(/\s+/).filter(Boolean);
    let count = 0;
    for (const group of view.querySelectorAll(".for-page")) {
      const title = plain(group.dataset.search);
      let here = 0;
      for (const row of group.querySelectorAll("li")) {
        const ids = ticks.idsOf(row.querySelector("input")).map(decodeURIComponent);
        const said = `${plain(row.textContent)} ${plain(ids.join(" "))} ${title}`;
        const isFound = wanted.every((word) => said.includes(word));
        row.hidden = !isFound || (only.checked && row.classList.contains("there"));
        here += !row.hidden;
      }
      group.hidden = here === 0;
      count += here;
    }
    document.getElementById("nothing-found").hidden = count > 0;
  }

  field.addEventListener("input", show);
  only.addEventListener("change", show);
  document.addEventListener("ticked", show);
})();
