// The map of the argument and its outline: one state, two views, the same keys. The page reads without this.
(function () {
  var parts = window.holdwaterMapParts, section = document.getElementById("argue");
  var PHONE = matchMedia("(max-width: 48rem)");
  var START = 4, PAN = 0.25, EDGE = 24; // first zoom stop; share of the view that a step pans; px kept free at the edge

  var SHEET = { width: 1016, height: 610 }; // px; a sheet of A4 that lies across, less its edges and the heading

  window.holdwaterArgument = function (data) { if (section) start(data); };

  function start(data) {
    var model = parts.model(data), svg = section.querySelector("svg"), frame = section.querySelector(".map"), tree = section.querySelector(".tree");
    var measure = parts.measurer(document.documentElement), canvas = parts.canvas(svg), lines = parts.outline(tree);
    var camera = { x: -EDGE, y: -EDGE, width: 0, height: 0 }, layout = null, here = 0, back = -1, zoom = START, view = "map", base = "first", paper = false;
    section.hidden = false;
    document.documentElement.classList.add("mapped");
    var act = {
      filter: function () { filter(); refresh(); keep(); },
      nextMatch: function () { var found = model.nextMatch(here); if (found >= 0) jump(found); },
      enter: function () { focusHere(); },
      clear: function () { tools.set({}); act.filter(); },
      goTo: function (place) { jump(place); },
      back: function () { var to = back; address.leave(); back = -1; go(to); address.jumped(); },
      view: function (name) { address.leave(); view = name; refresh(); address.jumped(); },
      zoom: function (by) { zoomBy(Number(by)); },
      fit: function () { fit(); },
      pan: function (by) { panBy(by); },
      trouble: function (by) { trouble(Number(by)); },
      all: function (how) { base = how; back = -1; model.reset(how); if (how === "none") here = 0; refresh(); tools.say(how === "all" ? "Opened all" : "Folded all"); keep(); }
    };
    var tools = parts.tools(section, data, act), address = parts.address(state, restore);
    parts.pointer(frame, { pan: moveBy, zoom: zoomBy, end: keep, choose: choose, fold: toggle });
    section.querySelector("[data-more-causes]").textContent = data.more_causes ? " · " + data.more_causes + " in folded branches" : "";
    section.addEventListener("keydown", parts.keys({
      step: step, edge: edge, inward: inward, outward: outward, fold: toggle, enter: function () { choose(here); }, trouble: trouble,
      zoom: zoomBy, fit: fit, pan: panBy, find: tools.focusFind, leave: function () { document.getElementById("after-map").focus(); }
    }));
    tree.addEventListener("click", rowClicked);
    section.addEventListener("focusin", function (event) { if (event.target === frame || event.target === tree) focusHere(); });
    addEventListener("resize", function () { refresh(); });
    addEventListener("beforeprint", function () { paper = isMap(); refresh(); });
    addEventListener("afterprint", function () { paper = false; refresh(); });
    PHONE.addEventListener("change", function () { refresh(); });
    var asked = parts.readAddress(location.hash);
    measureFrame();
    if (asked) restore(asked); else { refresh(); inSight(); }

    function isMap() { return view === "map" && !PHONE.matches; }
    function holder() { return isMap() ? frame : tree; }
    function element(key) { return isMap() ? canvas.card(key) : lines.row(key); }
    function state() {
      var found = model.changed(base), asked = tools.asked();
      for (var name in asked) found[name] = asked[name];
      found.at = model.isGroup(here) ? model.nameOf(model.groupOf(here)) : model.nameOf(here);
      found.view = view === "map" ? "" : view; found.zoom = zoom === START ? "" : zoom; found.base = base === "first" ? "" : base;
      found.x = Math.round(camera.x); found.y = Math.round(camera.y); found.back = back < 0 ? "" : model.nameOf(back);
      return found;
    }
    function restore(found) {
      base = ["all", "none"].indexOf(found.base) >= 0 ? found.base : "first";
      model.reset(base);
      tools.set(found);
      filter();
      found.open.forEach(function (name) { opened(name, true); });
      found.fold.forEach(function (name) { opened(name, false); });
      found.apart.forEach(function (name) { if (model.placeOf(name) >= 0) model.setOpen(model.count + model.placeOf(name), true); });
      view = found.view === "outline" ? "outline" : "map";
      zoom = Math.max(0, Math.min(parts.STOPS.length - 1, Math.round(Number(found.zoom || START)) || 0));
      back = found.back ? model.placeOf(found.back) : -1;
      here = Math.max(0, model.placeOf(found.at || ""));
      model.reveal(here);
      refresh();
      if (found.x !== undefined && isFinite(found.x) && isFinite(found.y)) { camera.x = Number(found.x); camera.y = Number(found.y); paint(); } else inSight();
    }
    function opened(name, on) { var place = model.placeOf(name); if (place >= 0) model.setOpen(place, on); }
    function keep() { address.moved(); }
    function filter() { var asked = tools.asked(); tools.count(model.filter(asked, asked.only)); }

    function measureFrame() {
      camera.width = paper ? SHEET.width : frame.clientWidth || 1;
      camera.height = paper ? SHEET.height : frame.clientHeight || 1;
    }
    function refresh() { // lays out and draws again; the focus stays where it was
      var had = section.contains(document.activeElement) && document.activeElement.closest("[data-key]");
      tools.view(view);
      if (isMap()) {
        measureFrame();
        layout = parts.layout(model, parts.STOPS[zoom], measure, camera.height - 2 * EDGE);
        if (!layout.cards[here]) here = nearestShown(here);
        canvas.forget();
        paint();
      } else { here = model.isGroup(here) ? model.groupOf(here) : here; lines.show(model, here); }
      tools.path(model, here, back);
      if (had) focusHere();
    }
    function nearestShown(key) { while (key > 0 && !layout.cards[key]) key = model.parent(key); return Math.max(0, key); }
    function paint() { // a card that slides is drawn anew, and keeps the focus it had
      var had = frame.contains(document.activeElement) && document.activeElement !== frame;
      camera.x = Math.round(camera.x); camera.y = Math.round(camera.y);
      canvas.show(model, layout, camera, here);
      if (had && !frame.contains(document.activeElement)) focusHere();
    }
    function shownWhole() { return !isMap() || layout.width + 2 * EDGE <= camera.width && layout.height + 2 * EDGE <= camera.height; }
    function inSight() { // moves the view as little as shows the card
      if (!isMap()) { var row = lines.row(here); if (row && section.contains(document.activeElement)) row.scrollIntoView({ block: "nearest" }); return; }
      var card = layout.cards[here], size = layout.size;
      camera.x = between(card.x + size.width + EDGE - camera.width, camera.x, card.x - EDGE);
      camera.y = between(card.y + card.height + EDGE - camera.height, camera.y, card.y - EDGE);
      paint();
    }
    function between(least, value, most) { return Math.min(Math.max(value, least), most); }
    function focusHere() { var found = element(here); if (found) found.focus({ preventScroll: isMap() }); }
    function go(key) { here = key; model.reveal(key); refresh(); inSight(); focusHere(); }
    function move(key) { // to what is shown already: nothing is laid out again
      if (key === undefined || key === here) return;
      var old = here; here = key;
      if (isMap()) { canvas.redraw(model, layout, [old, here], here); inSight(); } else lines.mark(old, here);
      tools.path(model, here, back); focusHere(); keep();
    }
    function jump(key) { address.leave(); back = -1; go(key); address.jumped(); }
    function see(key) { address.leave(); back = key; go(data.places.see[key]); address.jumped(); tools.say("Went to " + data.places.number[here] + ", " + model.nameOf(here)); }
    function choose(key) { // what Enter and a click do
      if (model.isGroup(key)) { toggle(key); return; }
      if (data.places.see[key] !== undefined) { here = key; see(key); return; }
      here = key; address.leave();
      location.href = data.records.href[model.recordOf(key)];
    }
    function toggle(key) {
      key = key === undefined ? here : key;
      if (!model.canOpen(key)) return;
      var on = !model.isOpen(key), group = model.isGroup(key), words = group ? data.places.together_says[model.groupOf(key)] : "";
      model.setOpen(key, group ? true : on);
      here = group ? data.places.together[model.groupOf(key)][0] : key;
      refresh(); inSight(); keep();
      if (group) tools.say("Opened " + words);
      else tools.say(on ? "Opened " + model.nameOf(key) + ": " + data.places.beneath[key] : "Folded " + model.nameOf(key));
    }
    function order() { return isMap() ? layout.order : lines.keys(model); }
    function step(by) {
      var keys = order();
      if (isMap()) keys = keys.filter(function (key) { return layout.cards[key].x === layout.cards[here].x; }).sort(function (a, b) { return layout.cards[a].y - layout.cards[b].y; });
      move(keys[keys.indexOf(here) + by]);
    }
    function edge(by) { var keys = order(); move(by < 0 ? keys[0] : keys[keys.length - 1]); }
    function inward() {
      if (model.isGroup(here)) return toggle(here);
      if (model.canOpen(here) && !model.isOpen(here)) return toggle(here);
      move((isMap() ? model.below(here) : model.lines(here))[0]);
    }
    function outward() {
      if (!model.isGroup(here) && model.isOpen(here) && (isMap() ? model.below(here) : model.lines(here)).length) return toggle(here);
      if (model.parent(here) >= 0) move(model.parent(here));
    }
    function trouble(by) {
      var found = model.nextTrouble(here, by);
      if (found < 0) { tools.say("Nothing is in trouble: all holds"); return; }
      jump(found);
      tools.say(data.places.number[here] + " " + model.nameOf(here) + ": " + data.verdicts[model.verdict(here)].word);
    }
    function zoomBy(by, at) { // the card at the given point, else the one the reader is at, stays where it is
      if (!isMap()) return;
      var next = between(0, zoom + by, parts.STOPS.length - 1), key = at ? layoutAt(at) : here, was = layout.cards[key];
      if (next === zoom) return;
      var dx = was.x - camera.x, dy = was.y - camera.y;
      zoom = next; refresh();
      camera.x = layout.cards[key].x - dx; camera.y = layout.cards[key].y - dy;
      if (!at) inSight(); else paint();
      tools.say(layout.size.name + ", " + Math.round(layout.size.scale * 100) + " %"); keep();
    }
    function layoutAt(point) {
      var x = point.x + camera.x, y = point.y + camera.y, best = here, least = Infinity;
      layout.order.forEach(function (key) {
        var card = layout.cards[key], away = Math.abs(card.x + layout.size.width / 2 - x) + Math.abs(card.y + card.height / 2 - y);
        if (away < least) { least = away; best = key; }
      });
      return best;
    }
    function fit() { // the nearest layout in which all that is open is in view, else the farthest
      if (!isMap()) return;
      for (var next = 0; next < parts.STOPS.length; next++) {
        layout = parts.layout(model, parts.STOPS[next], measure, camera.height - 2 * EDGE);
        if (next === 0 || shownWhole()) zoom = next;
        if (next === 0 && !shownWhole()) break;
      }
      camera.x = -EDGE; camera.y = -EDGE;
      refresh();
      tools.say(shownWhole() ? "All that is open is in view" : "More is open than fits; fold or pan"); keep();
    }
    function panBy(way) {
      if (!isMap()) return;
      var x = { left: -1, right: 1 }[way] || 0, y = { up: -1, down: 1 }[way] || 0;
      moveBy(x * Math.round(camera.width * PAN), y * Math.round(camera.height * PAN)); keep();
    }
    function moveBy(x, y) { // never past the drawing
      camera.x = between(EDGE - camera.width + 60, camera.x + x, layout.width - 60);
      camera.y = between(EDGE - camera.height + 60, camera.y + y, layout.height - 60);
      paint();
    }
    function rowClicked(event) {
      var row = event.target.closest("[data-key]"), link = event.target.closest("a");
      if (!row) return;
      var key = Number(row.getAttribute("data-key"));
      if (link && data.places.see[key] === undefined) return; // the link leads to the page of the record
      event.preventDefault();
      if (data.places.see[key] !== undefined) { move(key); see(key); } else { move(key); toggle(key); }
    }
  }
})();
