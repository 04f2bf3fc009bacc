/* Keeps the shown part of a page up to date. Without scripts the page is the same, only as old as its last loading. */
(function () {
  "use strict";
  var main = document.getElementById("main"), all = main.dataset.watch === "bench", seen = main.dataset.mark, busy = false, again = false, failed = 0, cut = false;
  var told = document.getElementById("told"), asOf = document.getElementById("asof");
  var LOST = "Not connected. ";

  /* news of the bench come many times a second: a page of the roster waits for those of the roster alone */
  function mine(mark) { return all ? mark : mark.split("/")[0]; }

  /* on a phone the rows are laid out as cards; without roles they would no longer be read out as a table */
  function roles() {
    [["table", ".roster"], ["rowgroup", ".roster thead, .roster tbody"], ["row", ".roster tr"], ["columnheader", ".roster thead th"],
      ["rowheader", ".roster tbody th"], ["cell", ".roster td"]].forEach(function (it) {
      document.querySelectorAll(it[1]).forEach(function (element) { element.setAttribute("role", it[0]); });
    });
  }

  function place(element) {
    if (!element || !element.closest("#fresh")) return null;
    var all = Array.prototype.slice.call(document.querySelectorAll("#fresh a, #fresh button"));
    return { href: element.getAttribute("href"), index: all.indexOf(element) };
  }

  function back(kept) {
    if (!kept) return;
    var all = Array.prototype.slice.call(document.querySelectorAll("#fresh a, #fresh button"));
    var same = all.filter(function (element) { return element.getAttribute("href") === kept.href; });
    var element = same.indexOf(all[kept.index]) >= 0 ? all[kept.index] : same[0] || all[kept.index];
    if (element) element.focus({ preventScroll: true });
  }

  function refresh() {
    if (busy) { again = true; return; }
    busy = true;
    fetch(location.pathname + location.search, { headers: { Accept: "text/html" }, credentials: "same-origin", redirect: "error" })
      .then(function (answer) { if (!answer.ok) throw new Error(String(answer.status)); return answer.text(); })
      .then(function (text) {
        var page = new DOMParser().parseFromString(text, "text/html");
        var fresh = page.getElementById("fresh"), old = document.getElementById("fresh"), then = page.getElementById("asof");
        failed = 0;
        if (then) asOf.textContent = then.textContent;
        if (!fresh || !old || fresh.isEqualNode(old)) return;
        var kept = place(document.activeElement), before = old.textContent.replace(/\s+/g, " ");
        old.replaceWith(document.adoptNode(fresh));
        roles();
        back(kept);
        if (before === fresh.textContent.replace(/\s+/g, " ")) return;
        if (all) return;
        told.textContent = "Brought up to date";
        setTimeout(function () { if (!cut) told.textContent = ""; }, 4000);
      })
      .catch(function () { failed++; setTimeout(refresh, 1000 * Math.min(60, Math.pow(2, failed))); })
      .then(function () { busy = false; if (again) { again = false; refresh(); } });
  }

  /* the browser joins again by itself, unless what answered was not this server, such as a gateway in between */
  var news;
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
      if (!cut) setTimeout(function () { if (cut) told.textContent = LOST + asOf.textContent; }, 2000);
      cut = true;
      if (this.readyState === 2) setTimeout(join, 5000);
    });
  }

  roles();
  join();
  addEventListener("pagehide", function () { news.close(); });
  addEventListener("pageshow", function (event) { if (event.persisted) location.reload(); });
})();
