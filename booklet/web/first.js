// With a script the page opens at its start: the booklet itself is laid out only when it is asked for.
document.documentElement.classList.add("with-script");
