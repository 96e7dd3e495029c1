// Hears of each round of `holdwater serve`: shows the findings of the files that were edited, and leads to
// what changed. It is added to pages on their way to the browser and is never part of the published site.
(function () {
  var script = document.currentScript;
  var build = script.getAttribute("data-build"), own = script.getAttribute("data-page");
  var SVG = "http://www.w3.org/2000/svg";
  var parts = {};

  function remembered(key, otherwise) {
    try { return sessionStorage.getItem("holdwater-" + key) || otherwise; } catch (refused) { return otherwise; }
  }
  function remember(key, word) {
    try { sessionStorage.setItem("holdwater-" + key, word); } catch (refused) { /* asked again next time */ }
  }
  function make(name, attributes, text) {
    var made = document.createElement(name);
    Object.keys(attributes || {}).forEach(function (key) { made.setAttribute(key, attributes[key]); });
    if (text !== undefined) made.textContent = text;
    return made;
  }
  function mark(path) {
    var drawn = document.createElementNS(SVG, "svg"), line = document.createElementNS(SVG, "path");
    drawn.setAttribute("class", "mark"); drawn.setAttribute("viewBox", "0 0 12 12");
    drawn.setAttribute("width", "12"); drawn.setAttribute("height", "12"); drawn.setAttribute("aria-hidden", "true");
    line.setAttribute("fill", "currentColor"); line.setAttribute("fill-rule", "evenodd"); line.setAttribute("d", path);
    drawn.appendChild(line);
    return drawn;
  }
  // A built text: what stands between backticks is set as code.
  function say(holder, text) {
    text.split("`").forEach(function (piece, position) {
      if (piece) holder.appendChild(position % 2 ? make("code", {}, piece) : document.createTextNode(piece));
    });
    return holder;
  }

  function lay() {
    var box = make("section", { id: "served", "aria-label": "Files you edit" });
    var bar = box.appendChild(make("div", { "class": "served-bar" }));
    parts.said = bar.appendChild(make("p", { role: "status" }));
    var follow = bar.appendChild(make("label"));
    parts.follow = follow.appendChild(make("input", { type: "checkbox" }));
    follow.appendChild(document.createTextNode("Go to what changed"));
    parts.fold = bar.appendChild(make("button", { type: "button", "aria-controls": "served-list" }));
    parts.list = box.appendChild(make("div", { id: "served-list", tabindex: "-1" }));
    parts.follow.checked = remembered("follow", "yes") === "yes";
    parts.follow.addEventListener("change", function () { remember("follow", parts.follow.checked ? "yes" : "no"); });
    parts.fold.addEventListener("click", function () {
      remember("folded", parts.list.hidden ? "no" : "yes");
      showFold(true);
    });
    document.body.appendChild(box);
    parts.box = box;
  }

  function showFold(hasList) {
    parts.list.hidden = !hasList || remembered("folded", "no") === "yes";
    parts.fold.hidden = !hasList;
    parts.fold.textContent = parts.list.hidden ? "Show" : "Fold";
    parts.fold.setAttribute("aria-expanded", parts.list.hidden ? "false" : "true");
    document.body.style.paddingBottom = parts.box.offsetHeight + "px"; // nothing of the page stays covered
  }

  function row(one) {
    var item = make("li");
    var head = item.appendChild(make("p", { "class": "served-where" }));
    var word = head.appendChild(make("span", { "class": "w " + one.weight }));
    word.appendChild(mark(one.mark));
    word.appendChild(document.createTextNode(one.weight));
    if (one.place) head.appendChild(one.href ? make("a", { "class": "place", href: "/" + one.href }, one.place) : make("span", { "class": "place" }, one.place));
    head.appendChild(make("span", { "class": "id" }, one.rule));
    say(item.appendChild(make("p")), one.message);
    if (one.remedy) say(item.appendChild(make("p", { "class": "quiet" })), one.remedy);
    return item;
  }

  function counted(news) {
    var count = news.findings.length + news.left_out, files = news.edited.join(", ");
    if (!news.edited.length && !count) return "";
    var what = count === 0 ? "No finding" : count === 1 ? "1 finding" : count + " findings";
    return what + (files && (news.published || news.publishing) ? " in " + files : "") + ".";
  }

  function show(news) {
    parts.said.textContent = "";
    say(parts.said.appendChild(make("b")), [counted(news), news.elsewhere].filter(Boolean).join(" "));
    say(parts.said.appendChild(make("span", { "class": "quiet" })), (parts.said.textContent && " ") + news.said);
    parts.list.textContent = "";
    if (news.pages.length) {
      var changed = parts.list.appendChild(make("p", { "class": "served-pages" }, "Changed: "));
      news.pages.forEach(function (page) { changed.appendChild(make("a", { "class": "id", href: "/" + page.href }, page.text)); });
    }
    if (news.findings.length) {
      var list = parts.list.appendChild(make("ol"));
      news.findings.forEach(function (one) { list.appendChild(row(one)); });
    }
    if (news.left_out) parts.list.appendChild(make("p", { "class": "quiet" }, news.left_out + " more are on the page Gaps or in `holdwater check`."));
    parts.box.className = news.published || news.publishing ? "" : "served-kept";
    showFold(news.pages.length > 0 || news.findings.length > 0);
  }

  function here() {
    var path = decodeURIComponent(location.pathname).replace(/^\//, "");
    return path === "" ? "index.html" : path;
  }
  function isHere(page) { return page.href === here(); }

  // Goes to the page of what was edited; a page that is open already, or only follows from it, is read again.
  function lead(news) {
    if (parts.follow.checked && news.pages.length && !news.pages.some(isHere)) {
      location.assign("/" + news.pages[0].href);
      return;
    }
    fetch(location.pathname, { method: "HEAD", cache: "no-store" }).then(function (found) {
      if ((found.headers.get("ETag") || "").replace(/"/g, "") !== own) location.reload();
    }).catch(function () { /* the server went away: the next news tells */ });
  }

  function hear() {
    var source = new EventSource("/-/news");
    source.onmessage = function (event) {
      var news = JSON.parse(event.data), another = news.build !== build;
      build = news.build;
      show(news);
      if (another && news.published) lead(news);
    };
    source.onerror = function () { parts.said.textContent = "The server does not answer. This page shows what it sent last."; };
  }

  lay();
  hear();
})();
