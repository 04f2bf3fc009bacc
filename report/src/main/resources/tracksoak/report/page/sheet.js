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

  function nines(x) {
    if (x <= 1.000001) return "0 %";
    var places = Math.max(0, Math.ceil(Math.log10(x) - 1e-9) - 2);
    return String(Number((100 * (1 - 1 / x)).toFixed(Math.min(10, places + (x < 10 ? 0 : 1))))) + " %";
  }

  var kinds = {
    time: { text: seconds, name: "time since the start", incrs: [1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14400, 28800] },
    bytes: { name: "bytes written", text: function (gb) { return gb > 0 && gb < 1 ? short(gb * 1000) + " MB" : short(gb) + " GB"; } },
    nines: { text: nines, name: "share of the chunks done within this time", log: [2, 10, 100, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8] },
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

  function overlay(chart) {
    var most = largest(chart);
    return function (u) {
      var ctx = u.ctx, box = u.bbox, ratio = devicePixelRatio;
      ctx.save();
      ctx.textBaseline = "alphabetic";
      ctx.font = 12 * ratio + "px " + ink("sans");
      ctx.textAlign = "left";
      ctx.fillStyle = ink("soft");
      ctx.fillText(chart.yUnit, 2 * ratio, box.top - 13 * ratio);
      ctx.beginPath();
      ctx.rect(box.left, box.top - 2 * ratio, box.width, box.height + 4 * ratio);
      ctx.clip();
      chart.uprights.forEach(function (it) {
        var x = Math.round(u.valToPos(it.x, "x", true));
        dashed(ctx, it.style, ratio);
        ctx.beginPath(); ctx.moveTo(x, box.top); ctx.lineTo(x, box.top + box.height); ctx.stroke();
        var left = x < box.left + box.width * 0.6;
        written(ctx, it.text, x + (left ? 6 : -6) * ratio, box.top + 13 * ratio, left ? "left" : "right", ink("c-" + it.style), ratio);
      });
      var texts = { true: [], false: [] };
      chart.levels.slice().sort(function (a, b) { return b.y - a.y; }).forEach(function (it) {
        var y = Math.round(u.valToPos(it.y, "y", true));
        dashed(ctx, it.style, ratio);
        ctx.beginPath(); ctx.moveTo(box.left, y); ctx.lineTo(box.left + box.width, y); ctx.stroke();
        var left = crowded(chart, it.y, most, 0.7, 1) > crowded(chart, it.y, most, 0, 0.3);
        var at = y - 5 * ratio, above = texts[left].length ? texts[left][texts[left].length - 1].at : -1e9;
        if (at - above < 15 * ratio || at < box.top + 12 * ratio) at = Math.max(y + 14 * ratio, above + 15 * ratio);
        texts[left].push({ it: it, at: at });
      });
      [true, false].forEach(function (left) {
        var lowest = box.top + box.height - 3 * ratio;
        texts[left].reverse().forEach(function (text) {
          text.at = Math.min(text.at, lowest);
          lowest = text.at - 15 * ratio;
          written(ctx, text.it.text, left ? box.left + 6 * ratio : box.left + box.width - 6 * ratio, text.at, left ? "left" : "right", ink("c-" + text.it.style), ratio);
        });
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
    var idle = place.textContent;
    return function (u) {
      var i = u.cursor.idx;
      if (i === null || i === undefined || u.cursor.left < 0) { place.textContent = idle; return; }
      place.textContent = kinds[chart.xKind].text(chart.x[i]) + ": " + chart.lines.map(function (line) {
        return line.text + " " + short(line.y[i]) + " " + chart.yUnit;
      }).join(", ");
    };
  }

  function size(place) {
    var width = root.classList.contains("print") ? 660 : Math.max(240, place.clientWidth);
    return { width: width, height: Math.round(Math.min(340, Math.max(230, width * 0.42))) };
  }

  function draw(chart) {
    var place = document.getElementById(chart.id);
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
      space: place.clientWidth < 480 ? 62 : 84
    });
    var y = Object.assign({}, axis, {
      size: 56,
      values: function (u, splits) { return splits.map(function (v) { return v === null ? "" : short(v); }); }
    });
    if (kind.name) Object.assign(x, { label: kind.name, labelFont: "12px " + ink("sans"), labelSize: 20, labelGap: 2 });
    if (kind.incrs) x.incrs = kind.incrs;
    if (kind.log) { x.splits = spreadSplits(kind.log); x.filter = function (u, s) { return s; }; }
    if (chart.yLog) { y.splits = decades; y.filter = function (u, s) { return s; }; }
    var options = Object.assign(size(place), {
      padding: [28, { date: 38, time: 34, every: 34, bytes: 26 }[chart.xKind] || 22, 0, 0],
      legend: { show: false },
      cursor: { y: false, points: { size: 7 } },
      scales: {
        x: kind.log ? { time: false, distr: 3, log: 10, range: function (u, a, b) { return [Math.max(1, a), b]; } } : { time: false },
        y: chart.yLog
          ? { distr: 3, log: 10, range: function (u, a, b) { return [Math.pow(10, Math.floor(Math.log10(a) + 1e-9)), Math.pow(10, Math.ceil(Math.log10(b * 1.05)))]; } }
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
      hooks: { draw: [overlay(chart)], setCursor: [readout(chart, place.parentNode.querySelector(".readout"))] }
    });
    drawn.push({ place: place, plot: new uPlot(options, [chart.x].concat(chart.lines.map(function (line) { return line.y; })), place) });
  }

  function again() {
    drawn.forEach(function (it) { it.plot.setSize(size(it.place)); it.plot.redraw(false, true); });
    document.querySelectorAll(".scroll").forEach(function (box) {
      if (box.scrollWidth > box.clientWidth) box.setAttribute("tabindex", "0");
      else box.removeAttribute("tabindex");
    });
  }

  /* on a phone the rows are laid out as cards; without roles they would no longer be read out as a table */
  [["table", "table"], ["thead, tbody", "rowgroup"], ["tr", "row"], ["thead th", "columnheader"], ["tbody th", "rowheader"], ["td", "cell"]].forEach(function (it) {
    var inside = it[0] === "table" ? "table.criteria" : it[0].split(", ").map(function (s) { return ".criteria " + s; }).join(", ");
    document.querySelectorAll(inside).forEach(function (element) { element.setAttribute("role", it[1]); });
  });
  /* no number parts from its unit at the end of a line */
  document.querySelectorAll("main bdi").forEach(function (it) {
    it.textContent = it.textContent.replace(/(\d) (?=(%|ms|s|min|h|days?|B|[kMGT]B|[KMG]iB|[kMG]?B\/s|Mb\/s|k?Hz)(?![\w\/]))/g, "$1\u00a0");
  });
  charts.forEach(draw);
  again();
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
