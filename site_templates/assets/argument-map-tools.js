// The tools above the map: find, filter, zoom, the way down to here, and what was said last.
(function () {
  var parts = window.holdwaterMapParts = window.holdwaterMapParts || {};

  function option(value, text) {
    var made = document.createElement("option");
    made.value = value; made.textContent = text;
    return made;
  }

  parts.tools = function (section, data, act) {
    function one(name) { return section.querySelector('[data-tool="' + name + '"]'); }
    var fields = { find: one("find"), owner: one("owner"), part: one("part"), hazard: one("hazard"), troubled: one("troubled"), only: one("only") };
    [["owner", data.owners], ["part", data.parts], ["hazard", data.hazards]].forEach(function (pair) {
      pair[1].forEach(function (choice) { fields[pair[0]].appendChild(option(choice[0], choice[1])); });
      fields[pair[0]].parentNode.hidden = !pair[1].length;
    });
    function asked() {
      return {
        find: fields.find.value.trim(), owner: fields.owner.value, part: fields.part.value, hazard: fields.hazard.value,
        troubled: fields.troubled.checked, only: fields.only.checked
      };
    }
    for (var name in fields) fields[name].addEventListener(name === "find" ? "input" : "change", act.filter);
    fields.find.addEventListener("keydown", function (event) {
      if (event.key === "Enter") { event.preventDefault(); act.nextMatch(); }
      if (event.key === "Escape") { event.preventDefault(); act.enter(); }
    });
    section.addEventListener("click", function (event) {
      var button = event.target.closest("button[data-act]");
      if (button) act[button.getAttribute("data-act")](button.getAttribute("data-by"));
    });
    one("filters").addEventListener("click", function () {
      var on = one("filters").getAttribute("aria-expanded") !== "true";
      one("filters").setAttribute("aria-expanded", String(on));
      section.classList.toggle("filtering", on);
    });

    function step(model, place) {
      var item = document.createElement("li"), link = document.createElement("a");
      link.className = "id"; link.textContent = model.nameOf(place);
      link.href = parts.writeAddress({ at: model.nameOf(place), open: [], fold: [], apart: [] });
      link.addEventListener("click", function (event) { event.preventDefault(); act.goTo(place); });
      item.appendChild(link);
      return item;
    }
    return {
      asked: asked,
      focusFind: function () { fields.find.focus(); fields.find.select(); },
      set: function (state) {
        ["find", "owner", "part", "hazard"].forEach(function (field) { fields[field].value = state[field] || ""; });
        ["troubled", "only"].forEach(function (field) { fields[field].checked = state[field] === "true"; });
      },
      count: function (found) {
        one("count").textContent = found ? found.found.toLocaleString("en") + " of " + found.of.toLocaleString("en") + " match" : "";
        one("clear").hidden = !found;
        fields.only.parentNode.hidden = !found;
      },
      path: function (model, here, back) {
        var path = one("path");
        while (path.children.length > 1) path.removeChild(path.lastChild);
        model.way(here).forEach(function (place) { path.appendChild(step(model, place)); });
        var at = document.createElement("li");
        at.textContent = model.isGroup(here) ? model.data.places.together_says[model.groupOf(here)] : "this " + (model.isHome(here) ? model.data.records.kind[model.recordOf(here)] : "line");
        path.appendChild(at);
        one("back").hidden = back < 0;
        if (back >= 0) one("back").textContent = "Back to " + model.data.places.number[back];
      },
      view: function (name) {
        ["map", "outline"].forEach(function (view) {
          section.querySelector('[data-by="' + view + '"]').setAttribute("aria-pressed", String(view === name));
        });
        section.classList.toggle("as-outline", name === "outline");
      },
      say: function (text) { one("say").textContent = text; }
    };
  };
})();
