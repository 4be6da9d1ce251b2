// A step read aloud with the browser's own speech, where it has one.
const speech = (() => {
  const voice = window.speechSynthesis;
  const canSpeak = Boolean(voice && window.SpeechSynthesisUtterance);
  for (const button of document.querySelectorAll('[data-do="speak"]')) button.hidden = !canSpeak;

  // What a person would say: no signs that only the eye reads, and fractions as they are typed, 4 1/4.
  function words(node) {
    if (node.nodeType === Node.TEXT_NODE) return node.data;
    if (node.nodeType !== Node.ELEMENT_NODE || node.matches("svg, input, button, summary, [aria-hidden='true']")) return "";
    if (getComputedStyle(node).display === "none") return "";
    const inner = [...node.childNodes].map(words).join("");
    return node.matches("p, li, h2, h3, div, tr, td") ? ` ${inner.trim()}. ` : inner;
  }

  function tidy(text) {
    const typed = text.replace(/(\d)(?=[\u2070\u00b9\u00b2\u00b3\u2074-\u2079])/g, "$1 ").normalize("NFKC").replaceAll("\u2044", "/");
    return typed.replace(/\s+/g, " ").replace(/\s*([.:,])(?:\s*\.)+/g, "$1").trim();
  }

  function toggle(card) {
    if (!canSpeak) return;
    if (voice.speaking) {
      stop();
      return;
    }
    const said = new SpeechSynthesisUtterance(tidy(words(card)));
    said.lang = document.documentElement.lang;
    voice.speak(said);
  }

  const stop = () => { if (canSpeak && voice.speaking) voice.cancel(); };
  document.addEventListener("moved", stop);
  window.addEventListener("hashchange", stop);
  window.addEventListener("pagehide", stop);
  return { toggle, canSpeak, said: (card) => tidy(words(card)) };
})();
