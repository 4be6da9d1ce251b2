// Only so many windows of a browser listen at once: it opens six connections to one place (Chromium and Firefox,
// from memory), each that listens holds one, and with all six held none would get its pictures.
const MOST_LISTENING = 5;
const LOOK_AGAIN = 1000;

// Resolves when this window may listen, which it may until it is closed; `wait` is called while it may not.
export async function turnToListen(wait) {
  if (!navigator.locks) return;
  while (!(await takesAny())) {
    wait();
    await new Promise((resolve) => setTimeout(resolve, LOOK_AGAIN));
  }
}

async function takesAny() {
  for (let at = 1; at <= MOST_LISTENING; at += 1) {
    if (await takes(`listening-${at}`)) return true;
  }
  return false;
}

function takes(name) {
  return new Promise((resolve) => {
    navigator.locks.request(name, { ifAvailable: true }, (lock) => {
      resolve(lock !== null);
      return lock && new Promise(() => {}); // held until the window is closed
    });
  });
}
