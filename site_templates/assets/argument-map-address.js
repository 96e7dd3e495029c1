// What the map shows, kept in the address after #, so that a link, a reload and the way back show the same.
(function () {
  var parts = window.holdwaterMapParts = window.holdwaterMapParts || {};
  var SINGLE = ["at", "view", "zoom", "x", "y", "find", "owner", "part", "hazard", "troubled", "only", "base", "back"];
  var LISTS = ["open", "fold", "apart"];
  var PAUSE = 250; // ms; a browser refuses an address that changes many times a second

  parts.readAddress = function (text) { // null where the address is an anchor and no state
    if (text.indexOf("=") < 0) return null;
    var found = { open: [], fold: [], apart: [] };
    text.replace(/^#/, "").split("&").forEach(function (pair) {
      var at = pair.indexOf("="), name = pair.slice(0, at), given;
      try { given = decodeURIComponent(pair.slice(at + 1)); } catch (broken) { return; }
      if (SINGLE.indexOf(name) >= 0) found[name] = given;
      if (LISTS.indexOf(name) >= 0) found[name] = given.split(",").filter(Boolean);
    });
    return found;
  };

  parts.writeAddress = function (state) {
    var pairs = [];
    SINGLE.forEach(function (name) {
      if (state[name] !== undefined && state[name] !== "" && state[name] !== false) pairs.push(name + "=" + encodeURIComponent(state[name]));
    });
    LISTS.forEach(function (name) {
      if (state[name].length) pairs.push(name + "=" + state[name].map(encodeURIComponent).join(","));
    });
    return "#" + pairs.join("&");
  };

  // Writes the state: over the last one while the reader moves, as a new step where the reader jumps.
  parts.address = function (state, restore) {
    var waiting = null, written = location.hash;
    function write(how) {
      clearTimeout(waiting); waiting = null;
      var text = parts.writeAddress(state());
      if (text === written) return;
      written = text;
      history[how](null, "", text);
    }
    function returned() {
      if (location.hash === written) return;
      written = location.hash;
      var found = parts.readAddress(written);
      if (found || !written) restore(found || parts.readAddress("#at="));
    }
    addEventListener("popstate", returned);
    addEventListener("hashchange", returned);
    return {
      moved: function () { clearTimeout(waiting); waiting = setTimeout(function () { write("replaceState"); }, PAUSE); },
      leave: function () { write("replaceState"); }, // what is now is kept before a jump
      jumped: function () { write("pushState"); }
    };
  };
})();
