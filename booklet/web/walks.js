// Walks: a card at a time, the drawing that it belongs to, and the layers of that as it stands at the card.
const walks = (() => {
  const stillness = matchMedia("(prefers-reduced-motion: reduce)");

  function makeWalk(view) {
    const cards = [...view.querySelectorAll(".card")];
    const boards = [...view.querySelectorAll(".board")];
    const leaps = [...view.querySelectorAll("[data-leap]")];
    const starts = leaps.map((leap) => cards.findIndex((card) => card.dataset.key === leap.dataset.leap));
    const name = view.dataset.walk;
    const does = (what) => view.querySelector(`[data-do="${what}"]`);
    let at = 0;

    const indexOf = (key) => {
      const exact = cards.findIndex((card) => card.dataset.key === key);
      return exact >= 0 ? exact : cards.findIndex((card) => card.dataset.key.startsWith(`${key}%2F`));
    };

    function show(index, { isQuiet = false } = {}) {
      at = Math.max(0, Math.min(index, cards.length - 1));
      const card = cards[at];
      const focused = document.activeElement?.closest(".bar button");
      cards.forEach((each) => { each.hidden = each !== card; });
      boards.forEach((each) => { each.hidden = each.dataset.board !== card.dataset.boardOf; });
      view.classList.toggle("without-board", !card.dataset.boardOf);
      view.dataset.kind = (card.dataset.kind || "tell").split(" ")[0];
      showLayers(card);
      const current = starts.filter((start) => start <= at).length - 1;
      leaps.forEach((leap, place) => {
        if (place === current) leap.setAttribute("aria-current", "step");
        else leap.removeAttribute("aria-current");
      });
      if (leaps[current]) leaps[current].scrollIntoView({ block: "nearest", inline: "center" });
      does("back").disabled = at === 0;
      does("next").disabled = at === cards.length - 1;
      kept.change("places", { [name]: card.dataset.key });
      showDone();
      if (focused && view.contains(focused)) keepFocus(focused);
      view.querySelector(".deck").scrollTop = 0;
      if (!isQuiet) document.dispatchEvent(new CustomEvent("moved", { detail: { name, key: card.dataset.key } }));
    }

    // Who goes on by the keyboard stays on the bar when a button goes away.
    function keepFocus(focused) {
      const others = [does("next"), does("back")];
      if (focused.hidden || focused.disabled) others.find((button) => !button.disabled).focus();
    }

    function showLayers(card) {
      const board = boards.find((each) => !each.hidden);
      const svg = board && board.querySelector("svg");
      if (!svg || !card.dataset.at) return;
      const now = Number(card.dataset.at);
      const isCut = card.dataset.kind === "cut";
      for (const layer of svg.querySelectorAll(".strip, .blade, .step, .mark[class*='at-']")) {
        const number = Number((/(?:after|at)-(\d+)/.exec(layer.getAttribute("class")) || [])[1]);
        layer.classList.toggle("past", number < now);
        layer.classList.toggle("now", number === now && (isCut || card.dataset.kind === "step"));
        layer.classList.toggle("later", number > now);
      }
      turn(card, svg);
      if (card.dataset.kind === "step") lay(svg);
    }

    // The sheet is shown turning as the hand turns it: from how it lay to how it lies.
    function turn(card, svg) {
      const sheet = svg.querySelector(".sheet");
      if (!sheet) return;
      sheet.getAnimations().forEach((each) => each.cancel());
      const [kind, ...way] = (card.dataset.kind || "").split(" ");
      if (kind !== "turn" || stillness.matches) return;
      const from = { clockwise: -90, anticlockwise: 90 }[way[0]] ?? -180;
      const box = sheet.getBBox();
      const whole = svg.viewBox.baseVal;
      const fits = Math.abs(from) === 90 ? Math.min(1, whole.width / box.height, whole.height / box.width) : 1;
      const before = `rotate(${from}deg) scale(${fits})`;
      const frames = [
        { transform: before, offset: 0 },
        { transform: before, offset: 0.3 },
        { transform: "none", offset: 0.85 },
        { transform: "none", offset: 1 },
      ];
      sheet.animate(frames, { duration: 2600, easing: "ease-in-out" });
    }

    // Things of one step are laid one after another, the lowest first: mats before photographs.
    function lay(svg) {
      if (stillness.matches) return;
      [...svg.querySelectorAll(".step.now")].forEach((layer, place) => {
        layer.getAnimations().forEach((each) => each.cancel());
        layer.animate(
          [{ opacity: 0, transform: "translate(0, -14px)" }, { opacity: 1, transform: "none" }],
          { duration: 420, delay: 300 * place, fill: "backwards", easing: "ease-out" });
      });
    }

    const isDone = (card) => ticks.idsOf(card).length > 0 && ticks.idsOf(card).every(ticks.has);

    function showDone() {
      const button = does("done");
      button.hidden = ticks.idsOf(cards[at]).length === 0;
      button.setAttribute("aria-pressed", String(isDone(cards[at])));
      starts.forEach((start, place) => {
        const mine = cards.slice(start, starts[place + 1] ?? cards.length - 1).filter((card) => card.dataset.ticks);
        leaps[place].querySelector(".all-done").hidden = !mine.length || !mine.every(isDone);
      });
    }

    // What came off leaves the trimmer before the next card comes.
    function takeOff(then) {
      const svg = boards.find((each) => !each.hidden)?.querySelector("svg");
      const off = svg ? [...svg.querySelectorAll(".strip.off.now")] : [];
      if (!off.length || stillness.matches) return then();
      const way = view.dataset.zero === "right" ? -1 : 1;
      const moves = off.map((strip) => strip.animate(
        [{ transform: "none", opacity: 1 }, { transform: `translate(${way * 90}px, 26px) rotate(${way * 4}deg)`, opacity: 0 }],
        { duration: 320, easing: "ease-in", fill: "forwards" }));
      moves[0].onfinish = () => { moves.forEach((move) => move.cancel()); then(); };
      return undefined;
    }

    let isMoving = false;
    function done() {
      const ids = ticks.idsOf(cards[at]);
      if (isMoving) return;
      if (ids.length) ticks.set(ids, true);
      if (cards[at].dataset.kind !== "cut") return show(at + 1);
      isMoving = true;
      const from = at;
      return takeOff(() => {
        isMoving = false;
        if (at === from) show(at + 1);
      });
    }

    // What is done already is taken back by the same button.
    function toggleDone() {
      const ids = ticks.idsOf(cards[at]);
      return isDone(cards[at]) && !isMoving ? ticks.set(ids, false) : done();
    }

    view.addEventListener("click", (event) => {
      const leap = event.target.closest("[data-leap]");
      if (leap) return show(indexOf(leap.dataset.leap));
      const what = event.target.closest("[data-do]")?.dataset.do;
      if (what === "back") return show(at - 1);
      if (what === "next") return show(at + 1);
      if (what === "done") return toggleDone();
      if (what === "turn") return showLayers(cards[at]);
      if (what === "print") return window.print();
      if (what === "speak") return speech.toggle(cards[at]);
      if (event.target.closest("a, button, input, label, summary, details, .leaps, .bar")) return undefined;
      if (String(getSelection())) return undefined;
      const bench = view.querySelector(".bench").getBoundingClientRect();
      return show(event.clientX < bench.left + bench.width / 2 ? at - 1 : at + 1);
    });

    let touched = null;
    const bench = view.querySelector(".bench");
    bench.addEventListener("touchstart", (event) => {
      touched = event.touches.length === 1 ? { x: event.touches[0].clientX, y: event.touches[0].clientY } : null;
    }, { passive: true });
    bench.addEventListener("touchend", (event) => {
      if (!touched) return;
      const across = event.changedTouches[0].clientX - touched.x;
      const down = event.changedTouches[0].clientY - touched.y;
      if (Math.abs(across) > 60 && Math.abs(across) > 2 * Math.abs(down)) show(across < 0 ? at + 1 : at - 1);
    }, { passive: true });

    document.addEventListener("ticked", showDone);
    return {
      view, name, show, done, indexOf, cards,
      next: () => show(at + 1),
      back: () => show(at - 1),
      get key() { return cards[at].dataset.key; },
      resume: () => show(Math.max(0, indexOf(kept.state.places[name] || "")), { isQuiet: true }),
      counted: () => cards.filter((card) => card.dataset.ticks),
      isDone,
    };
  }

  return [...document.querySelectorAll("[data-walk]")].map(makeWalk);
})();
