// Where each card of the map stands, and which words of it fit. Geometry only: three layouts by nearness,
// each drawn a little smaller or larger, with no letter below 12 px.
(function () {
  var parts = window.holdwaterMapParts = window.holdwaterMapParts || {};
  var LEAST_LETTER = 12;
  var LAYOUTS = {
    near: { width: 260, gap: 76, between: 14, lines: 3, slipLines: 2 },
    middle: { width: 204, gap: 76, between: 10, lines: 2, slipLines: 2 },
    far: { width: 172, gap: 40, between: 8, lines: 0, slipLines: 0 }
  };
  parts.STOPS = [ // from far to near; within a layout the size goes from 0.85 to 1.25
    ["far", 0.85], ["far", 1], ["far", 1.25], ["middle", 0.85], ["middle", 1], ["middle", 1.25],
    ["near", 0.85], ["near", 1], ["near", 1.25]
  ];

  // Measures words in the faces of the page, each once.
  parts.measurer = function (element) {
    var canvas = document.createElement("canvas").getContext("2d"), widths = {};
    var style = getComputedStyle(element), families = {};
    ["built", "said", "code"].forEach(function (face) { families[face] = style.getPropertyValue("--" + face).trim(); });
    return function (text, face, size, bold) {
      var font = (bold ? "700 " : "") + size + "px " + families[face], key = font + text;
      if (widths[key] === undefined) { canvas.font = font; widths[key] = canvas.measureText(text).width; }
      return widths[key];
    };
  };

  function cut(text, room, width) { // one line, with an ellipsis where it does not fit
    if (width(text) <= room) return text;
    var low = 0, high = text.length;
    while (low < high) {
      var middle = (low + high + 1) >> 1;
      if (width(text.slice(0, middle) + "…") <= room) low = middle; else high = middle - 1;
    }
    return text.slice(0, low).replace(/[ ,.;:]+$/, "") + "…";
  }

  function wrapped(text, room, most, width) {
    var lines = [], line = "", words = text.split(/\s+/).filter(Boolean), blank = width(" "), used = 0;
    for (var at = 0; at < words.length; at++) {
      var wide = width(words[at]);
      if (line && used + blank + wide <= room) { line += " " + words[at]; used += blank + wide; continue; }
      if (line) lines.push(line);
      if (lines.length === most) { lines[most - 1] = cut(lines[most - 1] + " " + words.slice(at).join(" "), room, width); return lines; }
      line = words[at]; used = wide;
    }
    if (line) lines.push(line);
    return lines.map(function (one) { return cut(one, room, width); });
  }

  function sizes(name, scale) {
    var layout = LAYOUTS[name];
    function letter(size) { return Math.max(LEAST_LETTER, Math.floor(size * scale)); } // sizes 12 to 17 have a class each
    return {
      name: name, scale: scale, width: layout.width * scale, gap: Math.max(40, layout.gap * scale),
      between: layout.between * scale, most: layout.lines, slipMost: layout.slipLines, inset: 14 * scale, keel: 6 * scale,
      said: letter(14), slip: letter(13), small: letter(12), mark: 12 * Math.max(1, scale), row: 1.32
    };
  }

  function kindOf(model, key) {
    var places = model.data.places;
    if (model.isGroup(key)) return "held";
    if (places.missing[key]) return "missing";
    if (places.see[key] !== undefined) return "see";
    var kind = model.data.records.kind[model.recordOf(key)];
    return kind === "claim" || kind === "evidence" || kind === "calculation" ? kind : "other";
  }

  function texts(model, key) { // the words of a card, none of them made here
    var places = model.data.places, records = model.data.records, record = model.isGroup(key) ? -1 : model.recordOf(key);
    if (record < 0) return { text: places.together_says[model.groupOf(key)], lines: [], foot: "", number: "" };
    var number = places.number[key];
    if (places.missing[key]) return { text: "Missing: " + places.missing[key][1].replace(/`/g, ""), lines: [], foot: "", number: number };
    return {
      text: records.text[record], lines: records.lines[record] || [], foot: records.id[record], number: number,
      counts: places.counts[key] || null, used: records.used[record] || "",
      see: places.see[key] === undefined ? "" : "see " + places.number[places.see[key]]
    };
  }

  // A card as lines of words with their heights; `head` is there where it can be opened or is a claim.
  function near(model, key, size, measure) {
    var card = base(model, key, size), words = texts(model, key), claim = card.kind === "claim";
    if (card.kind === "see") return seeLine(card, words, size, measure);
    card.head = claim || card.canOpen && card.kind !== "held";
    var face = card.kind === "missing" || card.kind === "held" ? "built" : "said", letter = claim ? size.said : size.slip;
    var left = card.head ? size.inset : size.inset + size.mark + 4, right = card.head ? 8 : card.kind === "evidence" ? 16 : card.canOpen ? 28 : 8;
    var width = function (text) { return measure(text, face, letter); };
    card.left = left; card.counts = card.head && words.counts ? fitting(words.counts, card, model, size, measure) : ""; card.rows = [];
    var y = card.head ? 24 * size.scale : 4;
    wrapped(words.text, size.width - left - right, claim ? size.most : size.slipMost, width).forEach(function (line) {
      y += letter * 1.22;
      card.rows.push({ y: y, text: line, css: face === "said" ? "said" : "", size: letter });
    });
    words.lines.forEach(function (line) {
      y += size.small * size.row;
      var bold = line[1] === "b", own = function (text) { return measure(text, "built", size.small, bold); };
      card.rows.push({ y: y, text: cut(line[0], size.width - left - 8, own), css: bold ? "b" : "", size: size.small });
    });
    if (words.foot || words.number) y = foot(card, words, size, measure, y);
    card.height = y + (card.kind === "calculation" ? 12 : 8); // the double rule needs its room
    return card;
  }

  function fitting(counts, card, model, size, measure) { // the long count where there is room beside the verdict
    var word = measure(model.data.verdicts[card.verdict].word, "built", size.small, true);
    var room = size.width - size.inset - size.mark - word - (card.canOpen ? 24 : 8) - 14;
    return measure(counts[0], "built", size.small) <= room ? counts[0] : counts[1];
  }

  function foot(card, words, size, measure, y) { // number, id, and how often it is used
    var number = measure(words.number, "built", size.small) + 8, right = card.here.width - 8;
    y += size.small * size.row;
    card.rows.push({ y: y, text: words.number, css: "q", size: size.small });
    var mono = function (text) { return measure(text, "code", size.small); };
    var used = words.used ? measure(words.used, "built", size.small) : 0;
    card.rows.push({ y: y, x: card.left + number, text: cut(words.foot, right - card.left - number, mono), css: "code", size: size.small });
    if (!used) return y;
    if (card.left + number + mono(words.foot) + 12 + used > right) y += size.small * size.row;
    card.rows.push({ y: y, x: right, text: words.used, css: "q", anchor: "end", size: size.small });
    return y;
  }

  function seeLine(card, words, size, measure) {
    var see = measure(words.see, "built", size.small), left = 10 + size.mark + 6, said = function (text) { return measure(text, "said", size.slip); };
    card.left = left; card.head = false; card.height = size.slip * 1.22 + 14;
    card.rows = [
      { y: card.height / 2 + size.slip * 0.35, text: cut(words.text, size.width - left - see - 12, said), css: "said", size: size.slip },
      { y: card.height / 2 + size.slip * 0.35, x: size.width, text: words.see, css: "q", anchor: "end", size: size.small }
    ];
    return card;
  }

  function middle(model, key, size, measure) {
    var card = base(model, key, size), words = texts(model, key);
    if (card.kind === "see") return seeLine(card, words, size, measure);
    var face = card.kind === "missing" || card.kind === "held" ? "built" : "said", left = size.inset + size.mark + 4, y = 4;
    var right = card.canOpen ? 28 : card.kind === "evidence" ? 16 : 8;
    card.left = left; card.head = false; card.rows = [];
    wrapped(words.text, size.width - left - right, 2, function (text) { return measure(text, face, size.slip); }).forEach(function (line) {
      y += size.slip * 1.22;
      card.rows.push({ y: y, text: line, css: face === "said" ? "said" : "", size: size.slip });
    });
    if (words.foot) {
      y += size.small * size.row;
      card.rows.push({ y: y, text: cut(words.foot, size.width - left - 8, function (text) { return measure(text, "code", size.small); }), css: "code", size: size.small });
    }
    card.height = y + 8;
    return card;
  }

  function far(model, key, size, measure) {
    var card = base(model, key, size), words = texts(model, key), left = size.inset + size.mark + 4;
    var name = words.foot || words.text, face = words.foot ? "code" : "built", right = card.canOpen ? 26 : 8;
    card.left = left; card.head = false; card.height = Math.max(24, 28 * size.scale);
    card.rows = [{
      y: card.height / 2 + size.small * 0.36, css: words.foot ? "code" : "", size: size.small,
      text: cut(name, size.width - left - right, function (text) { return measure(text, face, size.small); })
    }];
    return card;
  }

  function base(model, key, size) {
    var verdict = model.verdict(key);
    return {
      key: key, kind: kindOf(model, key), verdict: verdict, troubled: verdict > 0, here: size,
      canOpen: model.canOpen(key), open: model.isOpen(key), dim: model.dim(key)
    };
  }

  // Columns by depth. A card stands in the middle of what it rests on; where that is taller than the view it
  // slides along it, so that what stands above the cards in view stays in sight.
  parts.layout = function (model, stop, measure, tall) {
    var size = sizes(stop[0], stop[1]), make = { near: near, middle: middle, far: far }[stop[0]];
    var cards = {}, blocks = {}, order = [], brackets = {}, sliding = [], bottom = 0, widest = 0;
    model.shown().forEach(function (key) { cards[key] = make(model, key, size, measure); order.push(key); });
    order.slice().reverse().forEach(function (key) { // children come after their parents in the order
      blocks[key] = Math.max(cards[key].height, spread(model.below(key)));
    });
    function spread(keys) {
      return keys.reduce(function (sum, one) { return sum + blocks[one]; }, 0) + size.between * Math.max(0, keys.length - 1);
    }
    function put(key, x, y) {
      var card = cards[key], below = model.below(key), centred = blocks[key] <= tall;
      card.x = x; card.y = y + (centred ? (blocks[key] - card.height) / 2 : 0);
      if (!centred) { card.least = y; card.most = y + blocks[key] - card.height; sliding.push(key); }
      bottom = Math.max(bottom, y + blocks[key]); widest = Math.max(widest, x + size.width);
      var top = y + (centred ? (blocks[key] - spread(below)) / 2 : 0);
      below.forEach(function (one) { put(one, x + size.width + size.gap, top); top += blocks[one] + size.between; });
      if (below.length) brackets[key] = bracket(model, cards, key, below, size);
    }
    function slide(top) { // which cards and brackets have moved, for a view that starts at this height
      var moved = { cards: [], brackets: {} };
      sliding.forEach(function (key) {
        var card = cards[key], y = Math.min(Math.max(top, card.least), card.most);
        if (y === card.y) return;
        card.y = y; moved.cards.push(key); moved.brackets[key] = true;
        if (model.parent(key) >= 0) moved.brackets[model.parent(key)] = true;
      });
      for (var key in moved.brackets) if (brackets[key]) brackets[key] = bracket(model, cards, key, model.below(Number(key)), size);
      return moved;
    }
    put(0, 0, 0);
    return { size: size, cards: cards, order: order, brackets: brackets, slide: slide, width: widest, height: bottom };
  };

  function bracket(model, cards, key, below, size) {
    key = Number(key);
    var from = cards[key], y = from.y + from.height / 2, ends = below.map(function (one) {
      return { y: cards[one].y + cards[one].height / 2, troubled: cards[one].troubled };
    });
    var ys = ends.map(function (one) { return one.y; }).concat(y), x = from.x + size.width;
    return {
      key: key, x: x, y: y, turn: x + size.gap - 10, end: x + size.gap, ends: ends, anyOf: model.anyOf(key),
      words: size.name === "far" || model.children[key].length < 2 ? "" : model.anyOf(key) ? "any one of" : "all of",
      letter: size.small, top: Math.min.apply(null, ys), bottom: Math.max.apply(null, ys)
    };
  }
})();
