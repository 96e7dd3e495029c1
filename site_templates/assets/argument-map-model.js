// The argument as the map and the outline see it: places, what stands open, and what matches a filter.
// Verdicts, numbers and counts come from the data; nothing of them is worked out here.
(function () {
  var parts = window.holdwaterMapParts = window.holdwaterMapParts || {};

  function lookup(list) {
    var found = {};
    list.forEach(function (one) { found[one] = true; });
    return found;
  }

  function folded(text) { // without case and accents, so that a reader finds what is written otherwise
    return text.normalize("NFD").replace(/[\u0300-\u036f]/g, "").toLowerCase();
  }

  function childrenOf(above) {
    var children = above.map(function () { return []; });
    above.forEach(function (parent, place) { if (parent >= 0) children[parent].push(place); });
    return children;
  }

  // A key is a place, or `count + parent` for the card on which the held children of a parent stand together.
  parts.model = function (data) {
    var places = data.places, records = data.records, count = places.record.length;
    var children = childrenOf(places.above), causes = lookup(places.cause), anyOf = lookup(records.any);
    var first = lookup(places.opened), homes = {}, byNumber = {}, all = [];
    var open = {}, apart = {}, shut = {}, keep = null, hits = null, total = 0;
    for (var place = 0; place < count; place++) {
      byNumber[places.number[place]] = place;
      if (children[place].length) all.push(place);
      if (isHome(place)) { homes[records.id[places.record[place]]] = place; total++; }
    }
    reset("first");

    function isHome(place) { return places.see[place] === undefined && !places.missing[place]; }
    function isGroup(key) { return key >= count; }
    function groupOf(key) { return key - count; }
    function recordOf(place) { return places.record[place]; }
    function idOf(place) { return records.id[recordOf(place)]; }
    function verdict(key) {
      if (isGroup(key)) return 0;
      return places.missing[key] ? places.missing[key][0] : records.verdict[recordOf(key)];
    }
    function reset(how) {
      open = {}; apart = {}; shut = {};
      if (how === "all") all.forEach(function (place) { open[place] = true; apart[place] = true; });
      if (how === "first") for (var place in first) open[place] = true;
    }
    function isOpen(key) {
      if (isGroup(key) || !children[key].length) return false;
      return keep ? Boolean(keep.above[key]) && !shut[key] : Boolean(open[key]);
    }
    function setOpen(place, on) {
      if (isGroup(place)) { apart[groupOf(place)] = on; return; }
      if (keep) shut[place] = !on; else if (on) open[place] = true; else { delete open[place]; delete apart[place]; }
    }
    function lines(key) { // the places directly beneath an open one, as the outline lists them
      if (!isOpen(key)) return [];
      return keep ? children[key].filter(function (one) { return keep.here[one] || keep.above[one]; }) : children[key];
    }
    function below(key) { // the same as the map draws them: what holds may share one card
      var listed = lines(key), held = !keep && listed.length && !apart[key] && places.together[key];
      if (!held) return listed;
      var own = lookup(held);
      return listed.filter(function (one) { return !own[one]; }).concat(count + key);
    }
    function parent(key) { return isGroup(key) ? groupOf(key) : places.above[key]; }
    function way(key) {
      var found = [];
      for (var one = parent(key); one >= 0; one = places.above[one]) found.unshift(one);
      return found;
    }
    function reveal(key) { // opens what lies above a place, so that it is shown by itself
      way(key).forEach(function (one) { setOpen(one, true); });
      for (var one = isGroup(key) ? groupOf(key) : key; one > 0; one = places.above[one]) {
        var held = places.together[places.above[one]];
        if (held && held.indexOf(one) >= 0) apart[places.above[one]] = true;
      }
    }
    function shown() { // every key that is shown, in the order of the numbers
      var found = [], waiting = [0];
      while (waiting.length) {
        var key = waiting.pop();
        found.push(key);
        waiting.push.apply(waiting, below(key).slice().reverse());
      }
      return found;
    }
    function nextTrouble(from, step) { // the next or the last cause before a place, around the end
      var start = isGroup(from) ? groupOf(from) : from;
      for (var away = 1; away <= count; away++) {
        var place = (start + step * away + count * 2) % count;
        if (causes[place]) return place;
      }
      return -1;
    }
    function matches(place, asked) {
      var record = recordOf(place);
      if (asked.owner && data.owners[data.owner_of[record]][0] !== asked.owner) return false;
      if (asked.part && !names(data.parts, data.parts_of[record], asked.part)) return false;
      if (asked.hazard && !names(data.hazards, data.hazards_of[record], asked.hazard)) return false;
      if (asked.troubled && verdict(place) === 0) return false;
      return !asked.words.length || asked.words.every(function (one) { return text(place).indexOf(one) >= 0; });
    }
    function names(known, own, asked) {
      return Boolean(own) && own.some(function (one) { return known[one][0] === asked; });
    }
    function text(place) {
      var record = recordOf(place);
      return folded([places.number[place], records.id[record], records.kind[record], records.text[record]].join(" "));
    }
    function filter(asked, only) { // null where nothing is asked
      asked.words = folded(asked.find || "").split(/\s+/).filter(Boolean);
      var any = asked.owner || asked.part || asked.hazard || asked.troubled || asked.words.length;
      hits = any ? { here: {}, above: {}, list: [] } : null;
      for (var place = 0; any && place < count; place++) if (isHome(place) && matches(place, asked)) {
        hits.here[place] = true;
        hits.list.push(place);
        way(place).forEach(function (one) { hits.above[one] = true; });
      }
      keep = any && only ? hits : null;
      shut = {};
      return hits && { found: hits.list.length, of: total };
    }
    function dim(key) { // a folded card stands for all that lies beneath it
      if (!hits) return false;
      return isGroup(key) ? !places.together[groupOf(key)].some(standsForHit) : !hit(key) && !(hits.above[key] && !isOpen(key));
    }
    function standsForHit(place) { return hit(place) || Boolean(hits.above[place]); }
    function hit(place) { return Boolean(hits.here[places.see[place] === undefined ? place : places.see[place]]); }
    function nextMatch(from) {
      if (!hits || !hits.list.length) return -1;
      var later = hits.list.filter(function (one) { return one > from; });
      return later.length ? later[0] : hits.list[0];
    }
    function nameOf(place) { return isHome(place) ? idOf(place) : places.number[place]; }
    function placeOf(name) {
      var found = homes[name] === undefined ? byNumber[name] : homes[name];
      return found === undefined ? -1 : found;
    }
    function changed(base) { // how what stands open differs from a start that has a name
      var start = base === "all" ? lookup(all) : base === "none" ? {} : first;
      var apartAtFirst = base === "all";
      return {
        open: all.filter(function (one) { return open[one] && !start[one]; }).map(nameOf),
        fold: all.filter(function (one) { return !open[one] && start[one]; }).map(nameOf),
        apart: apartAtFirst ? [] : all.filter(function (one) { return apart[one]; }).map(nameOf)
      };
    }
    return {
      data: data, count: count, total: total, children: children, isHome: isHome, isGroup: isGroup, groupOf: groupOf,
      recordOf: recordOf, idOf: idOf, verdict: verdict, reset: reset, isOpen: isOpen, setOpen: setOpen, below: below, lines: lines,
      parent: parent, way: way, reveal: reveal, shown: shown, nextTrouble: nextTrouble, filter: filter, dim: dim,
      nextMatch: nextMatch, nameOf: nameOf, placeOf: placeOf, changed: changed,
      anyOf: function (place) { return Boolean(anyOf[recordOf(place)]); },
      canOpen: function (key) { return isGroup(key) || (keep ? Boolean(keep.above[key]) : children[key].length > 0); },
      openPlaces: function () { return all.filter(isOpen); }
    };
  };
})();
