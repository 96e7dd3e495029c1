// Keys and pointer of the map and the outline. Keys count only while one of the two has the focus.
(function () {
  var parts = window.holdwaterMapParts = window.holdwaterMapParts || {};
  var FARTHEST_CLICK = 4; // px; a pointer that moved more has dragged

  parts.keys = function (act) {
    var plain = {
      ArrowUp: function () { act.step(-1); }, ArrowDown: function () { act.step(1); },
      ArrowRight: act.inward, ArrowLeft: act.outward, Home: function () { act.edge(-1); }, End: function () { act.edge(1); },
      Enter: act.enter, " ": function () { act.fold(); }, n: function () { act.trouble(1); }, p: function () { act.trouble(-1); },
      "+": function () { act.zoom(1); }, "-": function () { act.zoom(-1); }, "0": act.fit, "/": act.find, Escape: act.leave
    };
    var shifted = {
      ArrowUp: "up", ArrowDown: "down", ArrowLeft: "left", ArrowRight: "right"
    };
    return function (event) {
      if (!event.target.closest("[data-key], .map, .tree") || event.ctrlKey || event.metaKey || event.altKey) return;
      var pan = event.shiftKey && shifted[event.key], run = plain[event.key];
      if (!pan && !run) return;
      event.preventDefault();
      event.stopPropagation();
      if (pan) act.pan(pan); else run();
    };
  };

  parts.pointer = function (frame, act) {
    var from = null, moved = false;
    frame.addEventListener("pointerdown", function (event) {
      if (event.button !== 0) return;
      from = { x: event.clientX, y: event.clientY }; moved = false;
    });
    frame.addEventListener("pointermove", function (event) {
      if (!from) return;
      var x = event.clientX - from.x, y = event.clientY - from.y;
      if (!moved && Math.abs(x) + Math.abs(y) <= FARTHEST_CLICK) return;
      if (!moved) frame.setPointerCapture(event.pointerId);
      moved = true;
      frame.classList.add("dragging");
      from = { x: event.clientX, y: event.clientY };
      act.pan(-x, -y);
    });
    function end() { if (moved) act.end(); from = null; frame.classList.remove("dragging"); }
    frame.addEventListener("pointerup", end);
    frame.addEventListener("pointercancel", end);
    frame.addEventListener("dragstart", function (event) { event.preventDefault(); });
    frame.addEventListener("wheel", function (event) { // alone, the wheel scrolls the page
      if (!event.ctrlKey) return;
      event.preventDefault();
      var box = frame.getBoundingClientRect();
      act.zoom(event.deltaY < 0 ? 1 : -1, { x: event.clientX - box.left, y: event.clientY - box.top });
    }, { passive: false });
    frame.addEventListener("click", function (event) {
      var card = event.target.closest("[data-key]");
      if (moved) { event.preventDefault(); moved = false; return; }
      if (!card || event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      var key = Number(card.getAttribute("data-key"));
      if (event.target.closest(".d-turn")) act.fold(key); else act.choose(key);
    });
  };
})();
