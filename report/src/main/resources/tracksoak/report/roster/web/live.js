/* Keeps the shown part of a page up to date. Without scripts the page is the same, only as old as its last loading. */
(function () {
  "use strict";
  var main = document.getElementById("main"), all = main.dataset.watch === "bench", seen = main.dataset.mark, busy = false, again = false, failed = 0, cut = false;
  var told = document.getElementById("told"), asOf = document.getElementById("asof");
  var LOST = "Not connected. ";
  var HELD_MS = 3000, heldTo = 0;

  /* news of the bench come many times a second: a page of the roster waits for those of the roster alone */
  function mine(mark) { return all ? mark : mark.split("/")[0]; }

  /* on a phone the rows are laid out as cards; without roles they would no longer be read out as a table */
  function roles(root) {
    [["table", ".roster"], ["rowgroup", ".roster thead, .roster tbody"], ["row", ".roster tr"], ["columnheader", ".roster thead th"],
      ["rowheader", ".roster tbody th"], ["cell", ".roster td"]].forEach(function (it) {
      root.querySelectorAll(it[1]).forEach(function (element) { element.setAttribute("role", it[0]); });
    });
  }

  /* what a node is about: a link never becomes another one under a finger, nor a row that of another drive */
  function about(node) {
    if (node.nodeType !== Node.ELEMENT_NODE) return node.nodeName;
    var part = node.matches("a, form") ? node : node.matches("li, tr") ? node.querySelector("a, form") || node.querySelector("th")
      : node.matches("table") ? node.querySelector("caption") : null;
    return node.nodeName + " " + node.id + " " + (part ? part.getAttribute("href") || part.getAttribute("action") || part.textContent : "");
  }

  function pressable(node) {
    return node.nodeType === Node.ELEMENT_NODE && (node.matches("a, button") || node.querySelector("a, button") !== null);
  }

  /* changes what differs and keeps every node that stays, for somebody may be about to click on it */
  function update(old, fresh) {
    if (old.isEqualNode(fresh)) return;
    if (old.nodeType !== Node.ELEMENT_NODE) { old.nodeValue = fresh.nodeValue; return; }
    Array.from(old.attributes).forEach(function (it) { if (!fresh.hasAttribute(it.name)) old.removeAttribute(it.name); });
    Array.from(fresh.attributes).forEach(function (it) { if (old.getAttribute(it.name) !== it.value) old.setAttribute(it.name, it.value); });
    var left = new Map();
    old.childNodes.forEach(function (child) {
      var key = about(child);
      if (!left.has(key)) left.set(key, []);
      left.get(key).push(child);
    });
    var stay = Array.from(fresh.childNodes, function (child) {
      var same = left.get(about(child));
      return { fresh: child, old: same && same.length ? same.shift() : null };
    });
    left.forEach(function (gone) { gone.forEach(function (child) { child.remove(); }); });
    var next = old.firstChild;
    stay.forEach(function (child) {
      if (child.old) update(child.old, child.fresh);
      /* what can be pressed stays in its place, and what is in front of it goes aside: a node that is moved is let go */
      while (child.old && child.old.parentNode === old && pressable(child.old) && next !== child.old) {
        var aside = next;
        next = next.nextSibling;
        aside.remove();
      }
      if (child.old && child.old === next) next = next.nextSibling;
      else old.insertBefore(child.old || document.adoptNode(child.fresh), next);
    });
  }

  function show(fresh) {
    var old = document.getElementById("fresh");
    if (!fresh || !old) return;
    roles(fresh);
    if (fresh.isEqualNode(old)) return;
    var focused = old.contains(document.activeElement) ? document.activeElement : null, before = old.textContent.replace(/\s+/g, " ");
    update(old, fresh);
    if (focused && document.activeElement !== focused) (old.contains(focused) ? focused : main).focus({ preventScroll: true });
    if (all || before === old.textContent.replace(/\s+/g, " ")) return;
    told.textContent = "Brought up to date";
    setTimeout(function () { if (!cut) told.textContent = ""; }, 4000);
  }

  /* what is being pressed stays where it is until it is let go */
  function hold(event) { heldTo = event.isPrimary && event.button === 0 ? Date.now() + HELD_MS : 0; }
  function letGo() { heldTo = 0; }

  function refresh() {
    if (busy) { again = true; return; }
    busy = true;
    fetch(location.pathname + location.search, { headers: { Accept: "text/html" }, credentials: "same-origin", redirect: "error" })
      .then(function (answer) { if (!answer.ok) throw new Error(String(answer.status)); return answer.text(); })
      .then(function (text) {
        return new Promise(function (done) {
          (function wait() { if (Date.now() < heldTo) setTimeout(wait, 50); else done(text); })();
        });
      })
      .then(function (text) {
        var page = new DOMParser().parseFromString(text, "text/html"), then = page.getElementById("asof");
        failed = 0;
        if (then) asOf.textContent = then.textContent;
        show(page.getElementById("fresh"));
      })
      .catch(function () { failed++; setTimeout(refresh, 1000 * Math.min(60, Math.pow(2, failed))); })
      .then(function () { busy = false; if (again) { again = false; refresh(); } });
  }

  /* the browser joins again by itself, unless what answered was not this server, such as a gateway in between */
  var news = null;
  function join() {
    news = new EventSource("/live");
    news.addEventListener("changed", function (event) {
      if (seen !== mine(event.data)) refresh();
      seen = mine(event.data);
    });
    news.addEventListener("open", function () {
      cut = false;
      if (told.textContent.indexOf(LOST) === 0) told.textContent = "";
    });
    news.addEventListener("error", function () {
      if (!cut) setTimeout(function () { if (cut) told.textContent = LOST + asOf.textContent + " " + told.dataset.lost; }, 2000);
      cut = true;
      if (this.readyState === EventSource.CLOSED) { news = null; setTimeout(follow, 5000); }
    });
  }

  /* a browser grants one site six connections in all: only a page that is looked at, or listened for, holds one; whoever joins is told at
     once how far all is, and so misses nothing */
  function follow() {
    var wanted = document.visibilityState !== "hidden" || document.querySelector("[data-listens=yes]") !== null;
    if (wanted && news === null) join();
    if (!wanted && news !== null) { news.close(); news = null; }
  }

  roles(document);
  follow();
  document.addEventListener("visibilitychange", follow);
  addEventListener("pointerdown", hold, true);
  addEventListener("pointerup", letGo, true);
  addEventListener("pointercancel", letGo, true);
  addEventListener("pagehide", function () { if (news !== null) { news.close(); news = null; } });
  addEventListener("pageshow", function (event) { if (event.persisted) location.reload(); });
})();
