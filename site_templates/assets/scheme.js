// Sets light or dark before the first paint; the reader's choice is kept in this browser alone.
(function () {
  var root = document.documentElement, choice = null;
  try { choice = localStorage.getItem("holdwater-scheme"); } catch (blocked) { /* no storage: the system decides */ }
  var dark = choice ? choice === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
  root.dataset.scheme = dark ? "dark" : "light";
})();
