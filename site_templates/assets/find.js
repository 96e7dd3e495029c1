// Find a record or a word. The data is read on first use. Without scripts the field is a link to all records.
(function () {
  "use strict";
  var MOST = 20; // results in the list
  var NEAR = 48; // characters shown before a word that was found inside a record
  var SVG = "http://www.w3.org/2000/svg";
  var data = null, waiting = [], entries = [];

  // What the data file calls.
  window.holdwaterFind = function (given) {
    data = given;
    given.records.forEach(function (one) {
      var kind = given.kinds[one[0]];
      entries.push(entry(kind[1], one[1], one[2], one[3], one[4], one[5], kind[0] + "/" + one[2] + ".html", kind[2] ? 3 : 2));
    });
    given.pages.forEach(function (one) { entries.push(entry(one[0], -1, "", one[1], "", "", one[2], 2)); });
    waiting.splice(0).forEach(function (then) { then(); });
  };

  function entry(kind, verdict, id, name, said, built, href, rank) {
    return { kind: kind, verdict: verdict, id: id, name: name, said: said, built: built, href: href, rank: rank,
      idWords: fold(id), nameWords: fold(name), otherWords: fold(said + " " + built + " " + kind) };
  }

  function withData(field, then) {
    if (data) return then();
    waiting.push(then);
    if (waiting.length > 1) return;
    var script = document.createElement("script");
    script.src = field.root + "assets/find-data.js";
    script.onerror = function () { waiting = []; field.told.textContent = "The data to find in cannot be read."; };
    document.head.appendChild(script);
  }

  // Small letters without accents, words parted by one blank, a blank at the head.
  function fold(text) {
    return (" " + text).normalize("NFD").replace(/[\u0300-\u036f]/g, "").toLowerCase().replace(/[^\p{L}\p{N}]+/gu, " ");
  }

  function asked(text) { return fold(text).trim().split(" ").filter(Boolean); }

  function starts(text, words) {
    return words.every(function (word) { return text.indexOf(" " + word) >= 0; });
  }

  // The smaller the better: the id itself, the head of an id, words of a title, of a statement, any others.
  function rank(one, words, id) {
    if (one.id && one.id.toLowerCase() === id) return 0;
    if (one.id && one.id.toLowerCase().indexOf(id) === 0) return 1;
    if (starts(one.nameWords, words)) return one.rank;
    if (one.id && starts(one.idWords, words)) return 2;
    return starts(one.idWords + one.nameWords + one.otherWords, words) ? 4 : -1;
  }

  function find(text) {
    var words = asked(text), id = text.trim().toLowerCase(), ranked = [[], [], [], [], []];
    if (!words.length) return [];
    entries.forEach(function (one) {
      var at = rank(one, words, id);
      if (at >= 0) ranked[at].push(one);
    });
    return [].concat.apply([], ranked);
  }

  // ---- what is shown

  function markWords(into, text, words) {
    var from = 0;
    text.replace(/[\p{L}\p{N}]+/gu, function (word, at) {
      var folded = fold(word).trim();
      if (!words.some(function (one) { return folded.indexOf(one) === 0; })) return word;
      into.appendChild(document.createTextNode(text.slice(from, at)));
      into.appendChild(element("mark", "", word));
      from = at + word.length;
      return word;
    });
    into.appendChild(document.createTextNode(text.slice(from)));
    return into;
  }

  // The part of a text around the first word that was asked for.
  function around(text, words) {
    var found = -1;
    text.replace(/[\p{L}\p{N}]+/gu, function (word, at) {
      var folded = fold(word).trim();
      if (found < 0 && words.some(function (one) { return folded.indexOf(one) === 0; })) found = at;
      return word;
    });
    if (found < 0) return "";
    var from = Math.max(0, found - NEAR);
    if (from) from = text.indexOf(" ", from) + 1;
    return (from ? "… " : "") + text.slice(from, found + 2 * NEAR) + (text.length > found + 2 * NEAR ? " …" : "");
  }

  function element(name, css, text) {
    var made = document.createElement(name);
    if (css) made.className = css;
    if (text) made.textContent = text;
    return made;
  }

  function verdictWord(number) {
    var verdict = data.verdicts[number], word = element("span", "v " + verdict[1]);
    var svg = document.createElementNS(SVG, "svg"), path = document.createElementNS(SVG, "path");
    svg.setAttribute("class", "mark");
    svg.setAttribute("viewBox", "0 0 12 12");
    svg.setAttribute("width", "12");
    svg.setAttribute("height", "12");
    svg.setAttribute("aria-hidden", "true");
    path.setAttribute("fill", "currentColor");
    path.setAttribute("fill-rule", "evenodd");
    path.setAttribute("d", verdict[2]);
    svg.appendChild(path);
    word.appendChild(svg);
    word.appendChild(document.createTextNode(verdict[0]));
    return word;
  }

  // The words that stand in neither name nor id, each where it stands; what a person wrote keeps its face.
  function wordsInside(line, one, words) {
    var shown = one.nameWords + one.idWords;
    words.forEach(function (word) {
      if (starts(shown, [word])) return;
      var said = around(one.said, [word]), snippet = said || around(one.built, [word]);
      if (snippet) line.appendChild(markWords(element("span", said ? "found-words said" : "found-words"), snippet, words));
      shown += fold(snippet);
    });
  }

  function option(field, one, n, words) {
    var line = element("li"), head = element("span", "found-head");
    line.setAttribute("role", "option");
    line.id = field.list.id + "-" + n;
    line.setAttribute("aria-selected", "false");
    line.appendChild(markWords(element("span", one.id ? "found-name said" : "found-name"), one.name, words));
    head.appendChild(element("span", "label", one.kind));
    if (one.verdict >= 0) head.appendChild(verdictWord(one.verdict));
    if (one.id && one.id !== one.name) head.appendChild(markWords(element("span", "id"), one.id, words));
    line.appendChild(head);
    wordsInside(line, one, words);
    line.addEventListener("mousedown", function (event) { event.preventDefault(); });
    line.addEventListener("click", function () { go(field, n); });
    return line;
  }

  function show(field) {
    var words = asked(field.input.value), found = find(field.input.value);
    field.found = found.slice(0, MOST);
    field.list.textContent = "";
    field.found.forEach(function (one, n) { field.list.appendChild(option(field, one, n, words)); });
    field.list.hidden = !field.found.length;
    field.input.setAttribute("aria-expanded", String(!!field.found.length));
    field.told.textContent = !words.length ? "" : !found.length ? "Nothing is found. Try another word."
      : found.length > MOST ? found.length + " found, " + MOST + " shown. Another word makes it fewer."
      : found.length + " found";
    field.box.classList.toggle("asking", !!words.length);
    choose(field, field.found.length ? 0 : -1);
  }

  function choose(field, n) {
    var lines = field.list.children;
    if (field.at >= 0 && lines[field.at]) lines[field.at].setAttribute("aria-selected", "false");
    field.at = n;
    if (n < 0) return field.input.removeAttribute("aria-activedescendant");
    lines[n].setAttribute("aria-selected", "true");
    field.input.setAttribute("aria-activedescendant", lines[n].id);
    lines[n].scrollIntoView({ block: "nearest" });
  }

  function close(field) {
    field.list.hidden = true;
    field.box.classList.remove("asking");
    field.input.setAttribute("aria-expanded", "false");
    field.input.removeAttribute("aria-activedescendant");
    field.told.textContent = "";
    field.at = -1;
  }

  function go(field, n) {
    var one = field.found[n];
    if (!one) return;
    close(field);
    location.href = field.root + one.href;
  }

  function pressed(field, event) {
    var last = field.found.length - 1, open = !field.list.hidden, key = event.key;
    if (key === "Escape") { if (open || field.input.value) { field.input.value = ""; close(field); } else field.input.blur(); }
    else if (key === "ArrowDown") { open ? choose(field, field.at >= last ? 0 : field.at + 1) : ask(field); }
    else if (key === "ArrowUp" && open) choose(field, field.at <= 0 ? last : field.at - 1);
    else if (key === "Enter" && open && field.at >= 0) go(field, field.at);
    else return;
    event.preventDefault();
  }

  function ask(field) { withData(field, function () { show(field); }); }

  function ready(link, n) {
    var box = element("div", "find" + (link.classList.contains("in-rail") ? " in-rail" : " drop"));
    var field = { box: box, input: element("input"), list: element("ul"), told: element("p", "told"),
      root: link.getAttribute("href").replace(/records\.html$/, ""), found: [], at: -1 };
    field.list.id = "found-" + n;
    field.list.hidden = true;
    field.list.setAttribute("role", "listbox");
    field.list.setAttribute("aria-label", "Found");
    field.told.setAttribute("role", "status");
    field.input.type = "search";
    field.input.autocomplete = "off";
    field.input.spellcheck = false;
    field.input.placeholder = link.textContent;
    [["role", "combobox"], ["aria-label", link.textContent], ["aria-expanded", "false"], ["aria-controls", field.list.id],
      ["aria-autocomplete", "list"]].forEach(function (one) { field.input.setAttribute(one[0], one[1]); });
    if (!n) field.input.setAttribute("aria-keyshortcuts", "/");
    field.input.addEventListener("input", function () { ask(field); });
    field.input.addEventListener("focus", function () { withData(field, function () {}); });
    field.input.addEventListener("keydown", function (event) { pressed(field, event); });
    field.input.addEventListener("blur", function () { close(field); });
    var under = element("div", "found");
    under.appendChild(field.list);
    under.appendChild(field.told);
    box.appendChild(field.input);
    box.appendChild(under);
    link.parentNode.replaceChild(box, link);
    return field;
  }

  var fields = [].map.call(document.querySelectorAll("a[data-find]"), ready);
  document.addEventListener("keydown", function (event) {
    var at = document.activeElement, typing = at && /^(INPUT|TEXTAREA|SELECT)$/.test(at.tagName);
    if (event.key !== "/" || event.defaultPrevented || typing || event.ctrlKey || event.metaKey || event.altKey) return;
    var seen = fields.filter(function (field) { return field.input.offsetParent; })[0];
    if (!seen) return;
    event.preventDefault();
    seen.input.focus();
    seen.input.select();
  });
})();
