// Tables: sort, filter, group, show the rest, copy as CSV. A page carries the first rows; all of them, with
// the numbers by which they sort, stand in a data file that is read when a reader first asks for something.
// Without scripts the rows of the page stand as they are, and the CSV file holds all.
(function () {
  "use strict";
  var MOST = 200; // rows that are put on the page at once
  var tables = {}; // by name
  var words = typeof Intl === "object" ? new Intl.Collator("en", { numeric: true, sensitivity: "base" }) : null;

  // What the data file of a table calls.
  window.holdwaterTable = function (data) {
    var table = tables[data.name];
    table.data = data;
    table.body.forEach(function (row, i) { table.rows[i] = row; });
    table.waiting.splice(0).forEach(function (then) { then(); });
  };

  function withData(table, then) {
    if (table.data) return then();
    table.waiting.push(then);
    if (table.waiting.length > 1) return;
    var script = document.createElement("script");
    script.src = table.box.dataset.script;
    script.onerror = function () { table.waiting = []; tell(table, "The data of this table cannot be read."); };
    document.head.appendChild(script);
  }

  function tell(table, text) { table.told.textContent = text; }

  // ---- rows

  function count(table) { return table.data.lines.length; }

  // A row that the page does not carry; each mark in it is written as a short tag.
  function rest(table, i) {
    return table.data.rest[i - table.body.length].replace(/<i(\d)>/g, function (_, n) { return table.data.marks[n]; });
  }

  function rowAt(table, i) {
    if (!table.rows[i]) {
      var made = document.createElement("template");
      made.innerHTML = rest(table, i);
      table.rows[i] = made.content.firstChild;
    }
    return table.rows[i];
  }

  function textAt(table, i) {
    if (table.texts[i] === undefined) {
      var text = i < table.body.length ? table.rows[i].textContent : plain(rest(table, i));
      table.texts[i] = fold(text + " " + groupWords(table, i));
    }
    return table.texts[i];
  }

  // The groups that a row belongs to count as words of it.
  function groupWords(table, i) {
    return table.data.groups.map(function (group) { return group.keys[group.of[i]]; }).join(" ");
  }

  function plain(html) {
    return html.replace(/<[^>]*>/g, " ").replace(/&lt;/g, "<").replace(/&gt;/g, ">")
      .replace(/&#34;/g, '"').replace(/&#39;/g, "'").replace(/&amp;/g, "&");
  }

  function fold(text) {
    return text.normalize("NFD").replace(/[\u0300-\u036f]/g, "").toLowerCase().replace(/\s+/g, " ");
  }

  function matching(table) {
    var asked = fold(table.asked).split(" ").filter(Boolean), found = [];
    var among = table.choice ? table.data.choices[table.choice - 1] : null;
    var group = table.group ? table.data.groups[table.group - 1] : null;
    var only = group && table.only ? group.keys.indexOf(table.only) : -1;
    for (var n = 0; n < (among ? among.length : count(table)); n++) {
      var i = among ? among[n] : n;
      if ((only < 0 || group.of[i] === only) && (!asked.length || holds(textAt(table, i), asked))) found.push(i);
    }
    return found;
  }

  function holds(text, asked) { return asked.every(function (word) { return text.indexOf(word) >= 0; }); }

  // Empty stands last whichever way the rows run; equal rows keep the order in which they came.
  function sorted(table, found) {
    if (table.sort < 0) return found;
    var keys = table.data.keys[table.sort], way = table.falling ? -1 : 1;
    return found.sort(function (one, other) {
      var a = keys[one], b = keys[other];
      if (a === null || b === null) return a === b ? one - other : a === null ? 1 : -1;
      var by = typeof a === "number" && typeof b === "number" ? a - b : compare(String(a), String(b));
      return by * way || one - other;
    });
  }

  function compare(a, b) { return words ? words.compare(a, b) : a < b ? -1 : a > b ? 1 : 0; }

  // ---- what is shown

  function show(table) {
    var found = sorted(table, matching(table));
    var parts = inGroups(table, found), left = table.limit;
    parts.forEach(function (part) { // rows in sight come first, what is folded takes what is left
      part.shown = part.folded ? 0 : Math.min(part.rows.length, left);
      left -= part.shown;
    });
    var element = table.element, old = element.tBodies;
    while (old.length) element.removeChild(old[0]);
    parts.forEach(function (part) {
      if (part.folded) { part.shown = Math.min(part.rows.length, left); left -= part.shown; }
      element.appendChild(bodyOf(table, part));
    });
    table.found = found;
    table.parts = parts;
    underneath(table, found.length, parts);
    headings(table);
    pressed(table);
    element.classList.toggle("narrowed", !!(table.asked || table.choice)); // the lines of groups count all their rows
    element.classList.toggle("by-owner", !!table.group && table.data.groups[table.group - 1].word === "owner");
  }

  function inGroups(table, found) {
    var group = table.group ? table.data.groups[table.group - 1] : null, parts = [];
    if (!group) return [{ rows: found, folded: false }];
    group.keys.forEach(function (key, n) { parts.push({ key: key, group: group, n: n, rows: [] }); });
    found.forEach(function (i) { parts[group.of[i]].rows.push(i); });
    parts = parts.filter(function (part) { return part.rows.length; });
    parts.forEach(function (part) { part.folded = folded(table, part); });
    return parts;
  }

  // A filter opens every group: what matches may not stay out of sight.
  function folded(table, part) {
    if (table.asked || table.only || table.choice) return false;
    var chosen = table.folds[part.group.word + "=" + part.key];
    return chosen === undefined ? part.group.folded[part.n] : chosen;
  }

  function foldAll(table) {
    var open = table.parts.some(function (part) { return part.folded; });
    table.parts.forEach(function (part) { table.folds[part.group.word + "=" + part.key] = !open; });
    show(table);
  }

  function bodyOf(table, part) {
    var body = document.createElement("tbody");
    if (part.group) body.appendChild(groupRow(table, part));
    for (var n = 0; n < part.shown; n++) body.appendChild(rowAt(table, part.rows[n]));
    body.classList.toggle("folded", part.folded);
    return body;
  }

  function groupRow(table, part) {
    var row = document.createElement("tr"), cell = document.createElement("th");
    row.className = "group";
    cell.scope = "rowgroup";
    cell.colSpan = table.headings.length;
    cell.id = part.group.word + "=" + part.key;
    cell.tabIndex = -1;
    cell.innerHTML = part.group.lines[part.n];
    dress(table, cell, part);
    row.appendChild(cell);
    return row;
  }

  // The line of a group: a control that folds it, and one that leaves only its rows.
  function dress(table, cell, part) {
    var name = cell.firstElementChild, fold = document.createElement("button"), only = document.createElement("button");
    fold.type = only.type = "button";
    fold.className = "folds";
    fold.setAttribute("aria-expanded", part.folded ? "false" : "true");
    cell.insertBefore(fold, name);
    fold.appendChild(name);
    fold.addEventListener("click", function () {
      table.folds[part.group.word + "=" + part.key] = !part.folded;
      show(table);
      focusOn(table, "[id='" + part.group.word + "=" + part.key + "'] .folds");
    });
    if (table.only) return;
    only.className = "only";
    only.textContent = "Only these";
    only.setAttribute("aria-label", "Only these: " + name.textContent);
    only.addEventListener("click", function () {
      table.only = part.key;
      change(table);
      table.clear.focus();
    });
    cell.appendChild(only);
  }

  function focusOn(table, selector) {
    var target = table.element.querySelector(selector);
    if (target) target.focus();
  }

  function underneath(table, total, parts) {
    var all = count(table), shown = 0, open = 0;
    parts.forEach(function (part) { shown += part.folded ? 0 : part.shown; open += part.folded ? 0 : part.rows.length; });
    var narrowed = table.asked || table.only || table.choice;
    tell(table, !total ? table.box.dataset.nothing : narrowed ? total + " of " + all + " match" : "");
    table.clear.hidden = !narrowed;
    table.all.hidden = !table.group || !!narrowed || parts.length < 2;
    table.all.textContent = parts.some(function (part) { return part.folded; }) ? "Open all" : "Fold all";
    table.more.textContent = "";
    if (open > shown) {
      var rows = open - shown === 1 ? " more row follows" : " more rows follow";
      table.more.appendChild(document.createTextNode((open - shown).toLocaleString("en") + rows + table.where + " "));
      var more = document.createElement("button");
      more.type = "button";
      more.textContent = "Show " + Math.min(MOST, open - shown) + " more";
      more.addEventListener("click", function () { table.limit = shown + MOST; show(table); });
      table.more.appendChild(more);
    }
  }

  // ---- controls

  function headings(table) {
    table.headings.forEach(function (heading) {
      if (!heading.dataset.sorts) return;
      var on = table.sort === Number(heading.dataset.sorts);
      heading.setAttribute("aria-sort", on ? (table.falling ? "descending" : "ascending") : "none");
    });
    table.select.value = String(table.sort);
  }

  function pressed(table) {
    table.box.querySelectorAll("[data-group]").forEach(function (one) {
      one.setAttribute("aria-pressed", String(Number(one.dataset.group) === table.group));
    });
    table.box.querySelectorAll("[data-choice]").forEach(function (one) {
      one.setAttribute("aria-pressed", String(Number(one.dataset.choice) === table.choice));
    });
  }

  // A second press turns the rows round; -1 puts them back as they came.
  function sortBy(table, key) {
    var heading = table.headings.filter(function (one) { return one.dataset.sorts === String(key); })[0];
    var falls = !!heading && heading.dataset.first === "descending";
    table.falling = key >= 0 && table.sort === key ? !table.falling : falls;
    table.sort = key;
    change(table);
  }

  function sortable(table, heading) {
    var button = document.createElement("button");
    button.type = "button";
    button.className = "sorts";
    heading.dataset.words = heading.querySelector(".hide") ? "" : heading.textContent; // paper repeats words, no buttons
    while (heading.firstChild) button.appendChild(heading.firstChild);
    heading.appendChild(button);
    heading.setAttribute("aria-sort", "none");
    button.addEventListener("click", function () {
      withData(table, function () { sortBy(table, Number(heading.dataset.sorts)); });
    });
  }

  // A change of what is asked for starts at the top again, and stands in the address.
  function change(table) {
    table.limit = MOST;
    show(table);
    remember(table);
  }

  function remember(table) {
    if (!table.first) return;
    var said = [], group = table.group ? table.data.groups[table.group - 1] : null;
    if (table.only) said.push(group.word + "=" + table.only);
    else if (table.group !== table.grouped) said.push("group=" + (group ? group.word : "nothing"));
    if (table.choice) said.push("show=" + table.choice);
    if (table.sort >= 0) said.push("sort=" + table.sort + (table.falling ? "-" : ""));
    if (table.asked) said.push("find=" + encodeURIComponent(table.asked));
    history.replaceState(null, "", location.href.split("#")[0] + (said.length ? "#" + said.join("&") : ""));
  }

  // Takes up what the address asks for, such as #owner=stress-lead or #show=1&sort=2.
  function recall(table) {
    var asked = location.hash.slice(1);
    if (!table.first || asked.indexOf("=") < 0) return;
    withData(table, function () {
      asked.split("&").forEach(function (part) {
        var at = part.indexOf("="), name = decodeURIComponent(part.slice(0, at)), value = decodeURIComponent(part.slice(at + 1));
        take(table, name, value);
      });
      table.limit = MOST;
      table.input.value = table.asked;
      show(table);
    });
  }

  function take(table, name, value) {
    var names = table.data.groups.map(function (group) { return group.word; });
    if (name === "find") table.asked = value;
    else if (name === "sort") { table.sort = parseInt(value, 10); table.falling = value.slice(-1) === "-"; }
    else if (name === "show") table.choice = table.data.choices[value - 1] ? Number(value) : 0;
    else if (name === "group") table.group = names.indexOf(value) + 1;
    else if (names.indexOf(name) >= 0 && table.data.groups[names.indexOf(name)].keys.indexOf(value) >= 0) {
      table.group = names.indexOf(name) + 1;
      table.only = value;
    }
    if (!(table.sort >= 0 && table.sort < table.data.keys.length)) table.sort = -1;
  }

  function copy(table, button) {
    withData(table, function () {
      var rows = table.found || table.data.lines.map(function (_, i) { return i; });
      var text = [table.data.head].concat(rows.map(function (i) { return table.data.lines[i]; })).join("\r\n") + "\r\n";
      var done = function () { tell(table, "Copied " + rows.length + (rows.length === 1 ? " row" : " rows")); };
      var byHand = function () { copyByHand(table, text, button) ? done() : tell(table, "Copy the text that is selected here"); };
      if (navigator.clipboard) navigator.clipboard.writeText(text).then(done, byHand);
      else byHand();
    });
  }

  // Where the clipboard is closed to scripts: the text stands selected, ready to be copied.
  function copyByHand(table, text, button) {
    var area = table.box.querySelector("textarea") || document.createElement("textarea");
    area.readOnly = true;
    area.setAttribute("aria-label", "The rows as CSV");
    area.value = text;
    table.box.insertBefore(area, table.box.firstChild);
    area.select();
    var copied = false;
    try { copied = document.execCommand("copy"); } catch (refused) { /* the text stands selected */ }
    if (copied) { area.parentNode.removeChild(area); button.focus(); }
    return copied;
  }

  function ready(box, place) {
    var element = box.querySelector("table"), tools = box.querySelector(".tools");
    var section = box.closest("section"), button = section && section.querySelector("[data-copy]");
    var table = tables[box.dataset.table] = {
      box: box, element: element, headings: [].slice.call(element.tHead.rows[0].cells), first: place === 0,
      body: [].slice.call(element.querySelectorAll("tbody > tr:not(.group)")), rows: [], texts: [], waiting: [],
      where: button ? " in " + section.querySelector("a[download]").getAttribute("href").replace(/^(\.\.\/)+/, "") : "",
      data: null, found: null, asked: "", sort: -1, falling: false, choice: 0, only: "", folds: {},
      group: element.querySelector("tr.group") ? 1 : 0, limit: Number(box.dataset.atFirst),
      input: tools.querySelector("input"), select: tools.querySelector("select"), told: tools.querySelector(".told"), clear: tools.querySelector("[data-clear]"),
      all: tools.querySelector("[data-all]"),
      more: box.querySelector("[data-more]") || box.appendChild(document.createElement("p"))
    };
    table.grouped = table.group;
    table.more.className = "under";
    table.headings.forEach(function (heading) { if (heading.dataset.sorts) sortable(table, heading); });
    listen(table, tools);
    if (button) { button.hidden = false; button.addEventListener("click", function () { copy(table, button); }); }
    tools.hidden = false;
    pressed(table);
    var some = element.querySelector("[data-folded]") || table.body.length > table.limit || table.more.textContent;
    if (table.group || some) withData(table, function () { show(table); });
    recall(table);
  }

  function listen(table, tools) {
    table.input.addEventListener("input", function () {
      withData(table, function () { table.asked = table.input.value.trim(); change(table); });
    });
    table.select.addEventListener("change", function () {
      withData(table, function () { sortBy(table, Number(table.select.value)); });
    });
    tools.addEventListener("click", function (event) {
      var one = event.target.closest("button");
      if (!one) return;
      withData(table, function () {
        if (one.dataset.group) { table.group = Number(one.dataset.group); table.only = ""; }
        else if (one.dataset.choice) table.choice = Number(one.dataset.choice);
        else if (one === table.all) return foldAll(table);
        else { table.asked = table.input.value = table.only = ""; table.choice = 0; table.input.focus(); }
        change(table);
      });
    });
  }

  [].forEach.call(document.querySelectorAll("[data-table]"), ready);
  addEventListener("hashchange", function () { Object.keys(tables).forEach(function (name) { recall(tables[name]); }); });
  addEventListener("beforeprint", function () {
    Object.keys(tables).forEach(function (name) {
      var table = tables[name];
      if (table.data && table.limit < MOST) { table.limit = MOST; show(table); }
    });
  });
})();
