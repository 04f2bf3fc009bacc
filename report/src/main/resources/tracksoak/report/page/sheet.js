(function () {
  "use strict";
  var root = document.documentElement;
  var charts = JSON.parse(document.getElementById("charts").textContent);
  var drawn = [];
  var dash = {
    host: [2, 3], buffer: [9, 5], response: [8, 4], demand: [9, 5], floor: [3, 3], cliff: [10, 3, 2, 3]
  };

  function ink(name) {
    return getComputedStyle(root).getPropertyValue("--" + name).trim();
  }

  function short(value) {
    return String(Math.abs(value) >= 100 ? Math.round(value) : Number(value.toPrecision(3)));
  }

  function seconds(s) {
    if (s < 60) return short(s) + " s";
    var h = Math.floor(s / 3600), m = Math.floor(s / 60) % 60, rest = Math.round(s % 60);
    if (h > 0) return h + " h" + (m > 0 ? " " + m + " min" : "");
    return m + " min" + (rest > 0 ? " " + rest + " s" : "");
  }

  var kinds = {
    time: { text: seconds, name: "time since the start", incrs: [1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14400, 28800] },
    bytes: { name: "bytes written", text: function (gb) { return gb > 0 && gb < 1 ? short(gb * 1000) + " MB" : short(gb) + " GB"; } },
    every: { text: seconds, name: "once in so long, on average", log: [10, 60, 600, 3600, 36e3, 36e4, 36e5, 36e6, 36e7, 36e8] },
    date: {
      text: function (day) { return new Date(day * 864e5).toISOString().slice(0, 10); },
      incrs: [1, 2, 7, 14, 30, 61, 91, 182, 365, 730, 1826, 3652]
    },
    tracks: { text: short, name: "tracks", incrs: [1, 2, 5, 10, 20, 50, 100, 200, 500] },
    khz: { name: "sample rate", text: function (khz) { return short(khz) + " kHz"; } }
  };

  function spreadSplits(marks) {
    return function (u, axis, min, max) {
      var wanted = marks.filter(function (x) { return x >= min && x <= max; });
      var room = Math.max(2, Math.floor(u.bbox.width / devicePixelRatio / 76));
      var step = Math.ceil(wanted.length / room);
      return wanted.filter(function (x, i) { return (wanted.length - 1 - i) % step === 0; });
    };
  }

  function decades(u, axis, min, max) {
    var splits = [];
    for (var p = Math.ceil(Math.log10(min) - 1e-9); p <= Math.log10(max) + 1e-9; p++) splits.push(Math.pow(10, p));
    return splits;
  }

  /* times of a second and more are read in seconds */
  function amount(chart, value) {
    if (chart.yUnit !== "ms") return short(value);
    return value >= 1000 ? seconds(Number((value / 1000).toPrecision(3))) : short(value) + " ms";
  }

  function largest(chart) {
    var most = 0;
    chart.lines.forEach(function (line) { line.y.forEach(function (y) { if (y > most) most = y; }); });
    chart.levels.concat(chart.marks).forEach(function (it) { if (it.y > most) most = it.y; });
    return most > 0 ? most : 1;
  }

  function written(ctx, text, x, y, align, colour, ratio) {
    ctx.font = "600 " + 12 * ratio + "px " + ink("sans");
    ctx.textAlign = align;
    ctx.lineJoin = "round";
    ctx.setLineDash([]);
    ctx.lineWidth = 4 * ratio;
    ctx.strokeStyle = ink("paper");
    ctx.strokeText(text, x, y);
    ctx.fillStyle = colour;
    ctx.fillText(text, x, y);
  }

  function dashed(ctx, style, ratio) {
    ctx.strokeStyle = ink("c-" + style);
    ctx.lineWidth = 1.75 * ratio;
    ctx.setLineDash((dash[style] || []).map(function (d) { return d * ratio; }));
  }

  /* how much of the curve runs close to a level between two parts of the width */
  function crowded(chart, level, most, from, to) {
    var first = chart.x[0], span = chart.x[chart.x.length - 1] - first || 1, near = 0, all = 0;
    chart.x.forEach(function (x, i) {
      var at = (x - first) / span;
      if (at < from || at > to) return;
      all++;
      if (Math.abs(chart.lines[0].y[i] - level) < most * 0.12) near++;
    });
    return all ? near / all : 0;
  }

  /* writes a text at the first of the places where nothing is written yet; where there is none, the key says it */
  function writer(ctx, box, ratio) {
    var taken = [];
    return function (text, style, places) {
      ctx.font = "600 " + 12 * ratio + "px " + ink("sans");
      var width = ctx.measureText(text).width, high = 13 * ratio;
      places.some(function (p) {
        var left = p.align === "left" ? p.x : p.x - width;
        var it = { l: left - 3 * ratio, r: left + width + 3 * ratio, t: p.y - high, b: p.y + 4 * ratio };
        if (it.l < box.left || it.r > box.left + box.width || it.t < box.top - 2 * ratio || it.b > box.top + box.height + 2 * ratio) return false;
        if (taken.some(function (o) { return it.l < o.r && o.l < it.r && it.t < o.b && o.t < it.b; })) return false;
        taken.push(it);
        written(ctx, text, p.x, p.y, p.align, ink("c-" + style), ratio);
        return true;
      });
    };
  }

  function overlay(chart) {
    var most = largest(chart);
    return function (u) {
      var ctx = u.ctx, box = u.bbox, ratio = devicePixelRatio, write = writer(ctx, box, ratio);
      var end = box.left + box.width, rows = [13, 29, 45, 61].map(function (y) { return box.top + y * ratio; });
      ctx.save();
      ctx.textBaseline = "alphabetic";
      ctx.font = 12 * ratio + "px " + ink("sans");
      ctx.textAlign = "left";
      ctx.fillStyle = ink("soft");
      if (chart.yUnit !== "ms") ctx.fillText(chart.yUnit, 2 * ratio, box.top - 13 * ratio);
      ctx.beginPath();
      ctx.rect(box.left, box.top - 2 * ratio, box.width, box.height + 4 * ratio);
      ctx.clip();
      chart.levels.forEach(function (it) {
        if (it.style !== "normal") return;
        var y = u.valToPos(it.y, "y", true);
        ctx.globalAlpha = 0.16;
        ctx.fillStyle = ink("c-normal");
        ctx.fillRect(box.left, y, box.width, box.top + box.height - y);
        ctx.globalAlpha = 1;
      });
      chart.levels.concat(chart.uprights).forEach(function (it) {
        if (it.style === "normal") return;
        dashed(ctx, it.style, ratio);
        ctx.beginPath();
        if (it.x === undefined) {
          var y = Math.round(u.valToPos(it.y, "y", true));
          ctx.moveTo(box.left, y); ctx.lineTo(end, y);
        } else {
          var x = Math.round(u.valToPos(it.x, "x", true));
          ctx.moveTo(x, box.top); ctx.lineTo(x, box.top + box.height);
        }
        ctx.stroke();
      });
      chart.uprights.forEach(function (it) {
        var x = Math.round(u.valToPos(it.x, "x", true));
        var sides = [{ x: x + 6 * ratio, align: "left" }, { x: x - 6 * ratio, align: "right" }];
        if (x > box.left + box.width * 0.6) sides.reverse();
        var places = [];
        rows.forEach(function (y) { sides.forEach(function (side) { places.push({ x: side.x, y: y, align: side.align }); }); });
        write(it.text, it.style, places);
      });
      chart.levels.slice().sort(function (a, b) { return b.y - a.y; }).forEach(function (it) {
        if (it.style === "normal") return; /* the key says it */
        var y = Math.round(u.valToPos(it.y, "y", true));
        var sides = [{ x: end - 6 * ratio, align: "right" }, { x: box.left + 6 * ratio, align: "left" }];
        if (crowded(chart, it.y, most, 0.7, 1) > crowded(chart, it.y, most, 0, 0.3)) sides.reverse();
        var places = [];
        sides.forEach(function (side) {
          [-5, 15].forEach(function (off) { places.push({ x: side.x, y: y + off * ratio, align: side.align }); });
        });
        write(it.text, it.style, places);
      });
      chart.marks.forEach(function (it) {
        var x = u.valToPos(it.x, "x", true), y = u.valToPos(it.y, "y", true), r = (chart.marks.length > 80 ? 3 : 4.5) * ratio;
        ctx.setLineDash([]);
        ctx.beginPath();
        if (it.style === "stall") {
          ctx.moveTo(x, y - r); ctx.lineTo(x + r, y + r); ctx.lineTo(x - r, y + r); ctx.closePath();
          ctx.strokeStyle = ink("paper"); ctx.lineWidth = 2 * ratio; ctx.stroke();
          ctx.fillStyle = ink("c-stall"); ctx.fill();
        } else if (it.style === "held") {
          ctx.arc(x, y, r * 1.4, 0, 2 * Math.PI);
          ctx.strokeStyle = ink("paper"); ctx.lineWidth = 5 * ratio; ctx.stroke();
          ctx.strokeStyle = ink("c-held"); ctx.lineWidth = 2.25 * ratio; ctx.stroke();
        } else {
          ctx.moveTo(x - r, y - r); ctx.lineTo(x + r, y + r); ctx.moveTo(x + r, y - r); ctx.lineTo(x - r, y + r);
          ctx.strokeStyle = ink("paper"); ctx.lineWidth = 5 * ratio; ctx.stroke();
          ctx.strokeStyle = ink("c-" + it.style); ctx.lineWidth = 2.25 * ratio; ctx.stroke();
        }
      });
      ctx.restore();
    };
  }

  function readout(chart, place) {
    var idle = place.innerHTML;
    return function (u) {
      var i = u.cursor.idx;
      if (i === null || i === undefined || u.cursor.left < 0) { if (place.innerHTML !== idle) place.innerHTML = idle; return; }
      place.textContent = kinds[chart.xKind].text(chart.x[i]) + ": " + chart.lines.map(function (line) {
        return line.text + " " + amount(chart, line.y[i]) + (chart.yUnit === "ms" ? "" : " " + chart.yUnit);
      }).join(", ");
    };
  }

  function size(place) {
    if (root.classList.contains("print")) return { width: place.closest(".top:has(#criteria)") ? 345 : 660, height: 200 };
    var width = Math.max(240, place.clientWidth);
    return { width: width, height: Math.round(Math.min(340, Math.max(230, width * 0.42))) };
  }

  /* where most of a curve lies at the bottom, a log scale shows what a level one squashes */
  function squashed(chart) {
    if (chart.yLog) return false;
    var seen = chart.lines[0].y.concat(chart.lines[chart.lines.length - 1].y).filter(function (y) { return y > 0; }).sort(function (a, b) { return a - b; });
    return seen.length > 4 && seen[Math.floor(seen.length / 2)] < largest(chart) / 12;
  }

  function leastAbove(chart) {
    var least = largest(chart);
    chart.lines.forEach(function (line) { line.y.forEach(function (y) { if (y > 0 && y < least) least = y; }); });
    return least;
  }

  /* drawn once it is unfolded: what is folded has no width */
  function draw(chart) {
    var place = document.getElementById(chart.id);
    if (chart.at || place.closest("details:not([open])")) return;
    var figure = place.parentNode, button = figure.querySelector(".scale");
    chart.idle = figure.querySelector(".readout");
    if (squashed(chart)) {
      button.hidden = false;
      button.addEventListener("click", function () {
        var log = button.getAttribute("aria-pressed") !== "true";
        button.setAttribute("aria-pressed", String(log));
        chart.at.plot.destroy();
        drawn.splice(drawn.indexOf(chart.at), 1);
        plot(chart, place, log);
      });
    }
    plot(chart, place, chart.yLog);
  }

  var pen = document.createElement("canvas").getContext("2d");

  function widest(texts, font) {
    pen.font = font;
    return Math.ceil(texts.reduce(function (most, text) { return Math.max(most, pen.measureText(text).width); }, 0));
  }

  function plot(chart, place, yLog) {
    var least = yLog ? leastAbove(chart) : 0;
    var kind = kinds[chart.xKind];
    var axis = {
      stroke: function () { return ink("soft"); },
      font: "12px " + ink("sans"),
      grid: { stroke: function () { return ink("grid"); }, width: 1 },
      ticks: { stroke: function () { return ink("rule"); }, width: 1, size: 5 },
      border: { show: true, stroke: function () { return ink("firm"); }, width: 1 }
    };
    var most = largest(chart);
    var x = Object.assign({}, axis, {
      values: function (u, splits) { return splits.map(function (v) { return v === null ? "" : kind.text(v); }); },
      size: 32,
      space: function (u) { return u.width < 480 ? 62 : 84; }
    });
    var y = Object.assign({}, axis, {
      /* as wide as its longest figure: "12 min 20 s" is not cut */
      size: function (u, figures) { return figures ? Math.max(56, widest(figures, axis.font) + 18) : 56; },
      values: function (u, splits) { return splits.map(function (v) { return v === null ? "" : v === 0 ? "0" : amount(chart, v); }); }
    });
    if (kind.name) Object.assign(x, { label: kind.name, labelFont: "12px " + ink("sans"), labelSize: 20, labelGap: 2 });
    if (kind.incrs) x.incrs = kind.incrs;
    if (kind.log) { x.splits = spreadSplits(kind.log); x.filter = function (u, s) { return s; }; }
    if (yLog) { y.splits = decades; y.filter = function (u, s) { return s; }; }
    var options = Object.assign(size(place), {
      padding: [28, { date: 38, time: 34, every: 34, bytes: 26 }[chart.xKind] || 22, 0, 0],
      legend: { show: false },
      cursor: { y: false, points: { size: 7 } },
      scales: {
        x: kind.log ? { time: false, distr: 3, log: 10, range: function (u, a, b) { return [Math.max(1, a), b]; } } : { time: false },
        y: yLog
          ? { distr: 3, log: 10, range: function (u, a, b) { return [Math.pow(10, Math.floor(Math.log10(Math.max(a, least)) + 1e-9)), Math.pow(10, Math.ceil(Math.log10(Math.max(b, most) * 1.05)))]; } }
          : { range: function () { return [0, most * 1.1]; } }
      },
      axes: [x, y],
      series: [{}].concat(chart.lines.map(function (line) {
        return {
          label: line.text,
          stroke: function () { return ink("c-" + line.style); },
          width: line.style === "response" || line.style === "service" ? 2 : 1.5,
          dash: dash[line.style],
          points: { show: chart.x.length < 3 || (chart.xKind === "date" && line.style !== "floor") || chart.xKind === "tracks" || chart.xKind === "khz" }
        };
      })),
      hooks: { draw: [overlay(chart)], setCursor: [readout(chart, chart.idle)] }
    });
    var data = [chart.x].concat(chart.lines.map(function (line) {
      return line.y.map(function (y) { return Math.max(least, y); });
    }));
    chart.at = { place: place, plot: new uPlot(options, data, place) };
    drawn.push(chart.at);
  }

  function again() {
    charts.forEach(draw);
    drawn.forEach(function (it) { it.plot.setSize(size(it.place)); it.plot.redraw(false, true); });
    document.querySelectorAll(".scroll").forEach(function (box) {
      if (box.scrollWidth > box.clientWidth) box.setAttribute("tabindex", "0");
      else box.removeAttribute("tabindex");
    });
  }

  /* no number parts from its unit at the end of a line */
  document.querySelectorAll("main bdi").forEach(function (it) {
    it.textContent = it.textContent.replace(/(\d) (?=(%|ms|s|min|h|days?|B|[kMGT]B|[KMG]iB|[kMG]?B\/s|Mbit\/s|k?Hz)(?![\w\/]))/g, "$1\u00a0");
  });
  function unfold() {
    document.querySelectorAll(".fold").forEach(function (it) { it.open = true; });
    again();
  }

  function show(id, does) {
    var button = document.getElementById(id);
    button.hidden = false;
    button.addEventListener("click", does);
  }

  /* an address with an anchor unfolds what it points at */
  function unfoldAnchor() {
    var fold = location.hash.length > 1 && document.querySelector("#" + CSS.escape(location.hash.slice(1)) + " > .fold");
    if (fold) { fold.open = true; again(); }
  }

  again();
  show("unfold", unfold);
  show("print", function () { unfold(); print(); });
  unfoldAnchor();
  addEventListener("hashchange", unfoldAnchor);
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", again);
  addEventListener("resize", again);
  document.querySelectorAll("details").forEach(function (it) { it.addEventListener("toggle", again); });
  addEventListener("beforeprint", function () { root.classList.add("print"); again(); });
  addEventListener("afterprint", function () { root.classList.remove("print"); again(); });

  var button = document.getElementById("download");
  button.hidden = false;
  button.addEventListener("click", function () {
    var json = document.getElementById("record-json").textContent;
    var link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([json], { type: "application/json" }));
    link.download = button.dataset.file;
    document.body.appendChild(link);
    link.click();
    link.remove();
    setTimeout(function () { URL.revokeObjectURL(link.href); }, 60000);
  });
})();
