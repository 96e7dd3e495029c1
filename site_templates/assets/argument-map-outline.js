// The same argument as a tree of lines: numbers, marks, statements, and how much lies beneath.
(function () {
  var parts = window.holdwaterMapParts = window.holdwaterMapParts || {};
  var MOST_ROWS = 1000, SVG = "http://www.w3.org/2000/svg"; // rows in the page at once; more on request

  function make(name, css, text) {
    var made = document.createElement(name);
    if (css) made.className = css;
    if (text !== undefined) made.textContent = text;
    return made;
  }
  function mark(verdict) {
    var svg = document.createElementNS(SVG, "svg"), path = document.createElementNS(SVG, "path"), title = document.createElementNS(SVG, "title");
    svg.setAttribute("class", "mark " + verdict.css); svg.setAttribute("viewBox", "0 0 12 12");
    svg.setAttribute("width", 12); svg.setAttribute("height", 12); svg.setAttribute("role", "img");
    title.textContent = verdict.word;
    path.setAttribute("fill", "currentColor"); path.setAttribute("fill-rule", "evenodd"); path.setAttribute("d", verdict.path);
    svg.appendChild(title); svg.appendChild(path);
    return svg;
  }

  // Each shown place with its depth, and where it stands among those beside it.
  function rowsOf(model) {
    var found = [], waiting = [[0, 1, 1, 1]];
    while (waiting.length) {
      var row = waiting.pop();
      found.push(row);
      var below = model.lines(row[0]);
      for (var at = below.length - 1; at >= 0; at--) waiting.push([below[at], row[1] + 1, at + 1, below.length]);
    }
    return found;
  }

  function drawRow(model, row, here) {
    var key = row[0], places = model.data.places, records = model.data.records, record = model.recordOf(key);
    var line = make("div", "row" + (model.dim(key) ? " dim" : "")), missing = places.missing[key], see = places.see[key];
    line.setAttribute("role", "treeitem");
    line.setAttribute("aria-level", row[1]); line.setAttribute("aria-posinset", row[2]); line.setAttribute("aria-setsize", row[3]);
    line.setAttribute("tabindex", key === here ? 0 : -1);
    line.setAttribute("data-key", key); line.setAttribute("data-depth", Math.min(row[1], 12));
    if (key === here) line.setAttribute("aria-current", "true");
    if (model.canOpen(key)) line.setAttribute("aria-expanded", String(model.isOpen(key)));
    var turn = make("span", "turn", model.canOpen(key) ? (model.isOpen(key) ? "▾" : "▸") : "");
    turn.setAttribute("aria-hidden", "true");
    line.appendChild(turn); line.appendChild(mark(model.data.verdicts[model.verdict(key)]));
    line.appendChild(make("span", "number", places.number[key]));
    var words = make("span", "words"), link = make("a", missing ? "" : "said", missing ? "Missing: " + missing[1] : records.text[record]);
    link.href = records.href[record]; link.tabIndex = -1;
    words.appendChild(link);
    if (see !== undefined) words.appendChild(make("span", "see", ", see " + places.number[see]));
    else if (!missing) words.appendChild(make("span", "id", records.id[record]));
    if (places.counts[key]) words.appendChild(make("span", "note", places.counts[key][0]));
    line.appendChild(words);
    return line;
  }

  parts.outline = function (element) {
    var most = MOST_ROWS;
    function more(count, again) {
      var row = make("div", "row more"), button = make("button", "tool", "Show " + Math.min(count, MOST_ROWS) + " more of " + count + " lines");
      row.setAttribute("role", "none");
      button.type = "button";
      button.addEventListener("click", function () { most += MOST_ROWS; again(); });
      row.appendChild(button);
      return row;
    }
    return {
      show: function show(model, here) {
        var rows = rowsOf(model), sheet = document.createDocumentFragment();
        var at = rows.findIndex(function (row) { return row[0] === here; });
        if (at >= most) most = at + MOST_ROWS;
        rows.slice(0, most).forEach(function (row) { sheet.appendChild(drawRow(model, row, here)); });
        element.textContent = "";
        element.appendChild(sheet);
        element.nextElementSibling.textContent = "";
        if (rows.length > most) element.nextElementSibling.appendChild(more(rows.length - most, function () { show(model, here); }));
      },
      mark: function (old, here) {
        var was = this.row(old), is = this.row(here);
        if (was) { was.tabIndex = -1; was.removeAttribute("aria-current"); }
        if (is) { is.tabIndex = 0; is.setAttribute("aria-current", "true"); }
      },
      row: function (key) { return element.querySelector('[data-key="' + key + '"]'); },
      keys: function (model) { return rowsOf(model).map(function (row) { return row[0]; }); }
    };
  };
})();
