// Buttons that are made anew at each save: each says in `dataset.known` what it is for, and is known by that.

const buttonsOf = (element) => [...element.querySelectorAll("button")];
const alike = (buttons, one) => buttons.filter((button) => button.dataset.known === one.dataset.known);

// Make the buttons of an element anew; what had the focus has it again, and what was chosen is chosen.
export function remake(element, make) {
  const before = buttonsOf(element);
  const focused = before.find((button) => button === document.activeElement);
  const chosen = before.find((button) => button.classList.contains("chosen"));
  make();
  const now = buttonsOf(element);
  if (chosen) again(chosen, before, now)?.classList.add("chosen");
  if (!focused || focused.isConnected) return;
  // Where it is no more, what now stands there.
  const next = again(focused, before, now) ?? now[Math.min(before.indexOf(focused), now.length - 1)];
  next?.focus({ preventScroll: true });
}

// The button that is for the same; of several alike the one that stands as far down among them.
function again(one, before, now) {
  const same = alike(now, one);
  return same[Math.min(alike(before, one).indexOf(one), same.length - 1)];
}
