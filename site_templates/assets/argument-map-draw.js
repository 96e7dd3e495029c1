// Draws cards and brackets of the map as SVG. What is not in view is not in the page.
(function () {
  var parts = window.holdwaterMapParts = window.holdwaterMapParts || {};
  var SVG = "http://www.w3.org/2000/svg", MOST_DRAWN = 300, MARGIN = 80, TOP = 24; // px around the view that are drawn too; px kept free above a card that slides

  function make(name, attributes, text) {
    var made = document.createElementNS(SVG, name);
    for (var one in attributes) if (attributes[one] !== "") made.setAttribute(one, attributes[one]);
    if (text !== undefined) made.textContent = text;
    return made;
  }
  function c(value) { return Math.round(value * 10) / 10; }

  function letter(size) { return " t" + size; }

  function edge(card, css, size) { // the sheet of a card by its kind; ours has no shape of another notation
    var w = size.width, h = card.height, drawn = [], fold = Math.min(12, h / 3);
    if (card.kind === "claim") {
      drawn.push(make("rect", { "class": "d-sheet", width: c(w), height: c(h) }));
      drawn.push(make("rect", { "class": card.dim ? "d-pale" : "fill-" + css, width: c(size.keel), height: c(h) }));
      drawn.push(make("path", { "class": "d-hair", d: "M0 " + c(h) + "h" + c(w) }));
    } else if (card.kind === "evidence") {
      drawn.push(make("path", { "class": "d-slip", d: "M0 0H" + c(w - fold) + "l" + c(fold) + " " + c(fold) + "V" + c(h) + "H0z" }));
      drawn.push(make("path", { "class": "d-fold", d: "M" + c(w - fold) + " 0v" + c(fold) + "h" + c(fold) }));
    } else if (card.kind === "calculation") {
      drawn.push(make("rect", { "class": "d-paper", width: c(w), height: c(h) }));
      drawn.push(make("path", { "class": "d-sum", d: "M0 " + c(h - 3) + "h" + c(w) + "M0 " + c(h) + "h" + c(w) }));
    } else if (card.kind === "missing") {
      drawn.push(make("rect", { "class": "d-missing d-" + css, x: 1, y: 1, width: c(w - 2), height: c(h - 2) }));
    } else if (card.kind === "see") {
      drawn.push(make("rect", { "class": "d-paper", width: c(w), height: c(h) }));
      drawn.push(make("path", { "class": "d-dotted", d: "M0 0h" + c(w) + "M0 " + c(h) + "h" + c(w) }));
    } else drawn.push(make("rect", { "class": "d-slip", width: c(w), height: c(h) }));
    return drawn;
  }

  function mark(verdict, x, y, side) {
    var scale = c(side / 12 * 100) / 100, group = make("g", { "class": "fill-" + verdict.css, transform: "translate(" + c(x) + " " + c(y) + ") scale(" + scale + ")" });
    group.appendChild(make("path", { "fill-rule": "evenodd", d: verdict.path }));
    return group;
  }

  function head(card, verdict, size) {
    var y = 17 * size.scale, side = size.mark, word = card.dim ? "b" : "b fill-" + verdict.css;
    var drawn = [mark(verdict, size.inset, 17 * size.scale - side + 1, side)];
    drawn.push(make("text", { "class": word + letter(size.small), x: c(size.inset + side + 6), y: c(y) }, verdict.word));
    if (card.counts) drawn.push(make("text", {
      "class": "q" + letter(size.small), x: c(size.width - (card.canOpen ? 24 : 8)), y: c(y), "text-anchor": "end"
    }, card.counts));
    return drawn;
  }

  function arrow(card, size) { // the control that opens or folds; Space does the same
    var y = card.head ? 17 * size.scale - 4 : size.name === "far" ? card.height / 2 : 4 + size.slip * 0.8, x = size.width - 13;
    var d = card.open ? "M-4 -2.5h8l-4 5z" : "M-2.5 -4v8l5 -4z";
    var group = make("g", { "class": "d-turn", transform: "translate(" + c(x) + " " + c(y) + ")" });
    group.appendChild(make("rect", { "class": "d-touch", x: -13, y: -13, width: 26, height: 26 }));
    group.appendChild(make("path", { "class": "d-ink", d: d }));
    return group;
  }

  function says(model, card, verdict) { // what a card is to those who do not see it
    var places = model.data.places, records = model.data.records, key = card.key;
    if (model.isGroup(key)) return places.together_says[model.groupOf(key)] + ", folded";
    var record = model.recordOf(key), missing = places.missing[key];
    var said = [places.number[key], verdict.word, missing ? "Missing: " + missing[1] : records.kind[record] + ": " + records.text[record]];
    if (places.see[key] !== undefined) said.push("see " + places.number[places.see[key]]);
    if (places.counts[key]) said.push(places.counts[key][0]);
    if (card.canOpen) said.push(card.open ? "open" : "folded");
    return said.join(", ");
  }

  function drawCard(model, card, isHere) {
    var size = card.here, verdict = model.data.verdicts[card.verdict], group = model.isGroup(card.key);
    var href = group ? "#" : model.data.records.href[model.recordOf(card.key)];
    var link = make("a", {
      href: href, "class": "card" + (card.dim ? " dim" : ""), transform: "translate(" + c(card.x) + " " + c(card.y) + ")",
      "data-key": card.key, tabindex: isHere ? 0 : -1, "aria-label": says(model, card, verdict)
    });
    if (isHere) { link.appendChild(make("rect", { "class": "d-here", x: -4, y: -4, width: c(size.width + 8), height: c(card.height + 8) })); link.setAttribute("aria-current", "true"); }
    edge(card, verdict.css, size).forEach(add);
    if (card.head) head(card, verdict, size).forEach(add);
    else add(mark(verdict, card.kind === "claim" ? size.inset : 10, first(card, size), size.mark));
    card.rows.forEach(function (row) {
      add(make("text", { "class": row.css + letter(row.size), x: c(row.x || card.left), y: c(row.y), "text-anchor": row.anchor || "" }, row.text));
    });
    if (card.canOpen) add(arrow(card, size));
    function add(one) { link.appendChild(one); }
    return link;
  }
  function first(card, size) { // the top of the mark beside the first row
    return card.rows[0].y - card.rows[0].size * 0.36 - size.mark / 2;
  }

  function drawBracket(one) { // thick where trouble comes through
    var group = make("g", {}), thin = [], thick = [], stub = "M" + c(one.x) + " " + c(one.y) + "H" + c(one.turn);
    one.ends.forEach(function (end) {
      (end.troubled ? thick : thin).push("M" + c(one.turn) + " " + c(one.y) + "V" + c(end.y) + "H" + c(one.end));
    });
    if (!thick.length) thin.unshift(stub); else thick.unshift(stub);
    if (thin.length) group.appendChild(make("path", { "class": "d-held", d: thin.join("") }));
    if (thick.length) group.appendChild(make("path", { "class": "d-trouble", d: thick.join("") }));
    if (one.anyOf) group.appendChild(make("path", { "class": "d-held", d: "M" + c(one.x) + " " + c(one.y + 6) + "H" + c(one.turn) + "M" + c(one.turn - 6) + " " + c(one.top) + "V" + c(one.bottom) }));
    if (one.words) group.appendChild(make("text", {
      "class": "halo" + letter(one.letter), x: c((one.x + one.turn) / 2), y: c(one.y - 7), "text-anchor": "middle"
    }, one.words));
    return group;
  }

  // A canvas that keeps the drawn cards and adds or takes away only what comes into view or leaves it.
  parts.canvas = function (svg) {
    var root = make("g", {}), lines = make("g", {}), sheets = make("g", {}), drawn = {}, strokes = {};
    root.appendChild(lines); root.appendChild(sheets); svg.appendChild(root);

    function inView(camera, left, top, right, bottom) {
      return right >= camera.x - MARGIN && left <= camera.x + camera.width + MARGIN &&
        bottom >= camera.y - MARGIN && top <= camera.y + camera.height + MARGIN;
    }
    function wanted(layout, camera, here) {
      var found = layout.order.filter(function (key) {
        var card = layout.cards[key];
        return inView(camera, card.x, card.y, card.x + layout.size.width, card.y + card.height);
      }).slice(0, MOST_DRAWN - 1);
      if (layout.cards[here] && found.indexOf(here) < 0) found.push(here);
      return found;
    }
    function keepOnly(old, layer, keys, draw) {
      var next = {};
      keys.forEach(function (key) { next[key] = old[key] || layer.appendChild(draw(key)); });
      for (var key in old) if (!next[key]) layer.removeChild(old[key]);
      return next;
    }
    function drop(known, layer, key) {
      if (!known[key]) return;
      layer.removeChild(known[key]);
      delete known[key];
    }
    return {
      forget: function () { lines.textContent = ""; sheets.textContent = ""; drawn = {}; strokes = {}; },
      show: function (model, layout, camera, here) {
        var moved = layout.slide(camera.y + TOP);
        moved.cards.forEach(function (key) { drop(drawn, sheets, key); });
        for (var key in moved.brackets) drop(strokes, lines, key);
        svg.setAttribute("viewBox", "0 0 " + c(camera.width) + " " + c(camera.height));
        root.setAttribute("transform", "translate(" + c(-camera.x) + " " + c(-camera.y) + ")");
        drawn = keepOnly(drawn, sheets, wanted(layout, camera, here), function (key) { return drawCard(model, layout.cards[key], Number(key) === here); });
        var near = {};
        for (var at in layout.brackets) {
          var one = layout.brackets[at];
          if (inView(camera, one.x, one.top, one.end, one.bottom)) near[at] = one;
        }
        strokes = keepOnly(strokes, lines, Object.keys(near), function (key) { return drawBracket(near[key]); });
      },
      redraw: function (model, layout, keys, here) { // these cards alone, as where the reader was and is
        keys.forEach(function (key) {
          if (!drawn[key]) return;
          var fresh = drawCard(model, layout.cards[key], key === here);
          sheets.replaceChild(fresh, drawn[key]);
          drawn[key] = fresh;
        });
      },
      card: function (key) { return drawn[key]; }
    };
  };
})();
