// The Dark button, and opening what an address points into. Every page reads without this.
(function () {
  var root = document.documentElement, button = document.querySelector("[data-scheme-switch]");
  function name() { button.textContent = root.dataset.scheme === "dark" ? "Light" : "Dark"; }
  if (button) {
    button.hidden = false;
    name();
    button.addEventListener("click", function () {
      root.dataset.scheme = root.dataset.scheme === "dark" ? "light" : "dark";
      try { localStorage.setItem("holdwater-scheme", root.dataset.scheme); } catch (blocked) { /* not kept */ }
      name();
    });
  }
  function open() {
    var target = location.hash.length > 1 && document.getElementById(decodeURIComponent(location.hash.slice(1)));
    if (!target) return;
    for (var one = target; one; one = one.parentElement) if (one.tagName === "DETAILS") one.open = true;
    var inside = target.querySelector("details");
    if (inside) inside.open = true;
    target.scrollIntoView();
  }
  addEventListener("hashchange", open);
  open();
})();
