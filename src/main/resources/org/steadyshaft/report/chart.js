document.querySelectorAll(".zoom").forEach(function (box) {
  var NS = "http://www.w3.org/2000/svg";
  var data = JSON.parse(box.querySelector("script[type='application/json']").textContent);
  var lows = data.low, highs = data.high, gaps = new Set(data.gaps);
  var times = lows.map(function (ignored, i) { return data.start + i * data.step; }), first = times[0], last = times[times.length - 1];
  var from = first, to = last, pointer = null, anchor = null, touches = new Map(), pinch = null;
  var still = box.querySelector(".still"), readout = box.querySelector(".readout");
  var svg = document.createElementNS(NS, "svg");
  svg.setAttribute("class", "live");
  svg.setAttribute("tabindex", "0");
  svg.setAttribute("role", "application");
  svg.setAttribute("aria-label", box.dataset.label);
  still.hidden = true;
  box.insertBefore(svg, box.firstChild);
  box.querySelector(".zoom-tools").hidden = false;
  var W, H, L = 52, R = 48, T = 22, B = 30;
  function make(name, attributes, text) {
    var node = document.createElementNS(NS, name);
    Object.keys(attributes).forEach(function (key) { node.setAttribute(key, attributes[key]); });
    if (text !== undefined) { node.textContent = text; }
    svg.appendChild(node);
    return node;
  }
  function step(span, most) {
    var raw = span / most, tens = Math.pow(10, Math.floor(Math.log10(raw))), times = raw / tens;
    return tens * (times > 5 ? 10 : times > 2 ? 5 : times > 1 ? 2 : 1);
  }
  function digits(size) { return Math.max(0, Math.min(4, -Math.floor(Math.log10(size) + 1e-9))); }
  function place(t) { return L + (t - from) / (to - from) * (W - L - R); }
  function index(t) {
    var a = 0, b = times.length - 1;
    while (a < b) { var m = (a + b) >> 1; if (times[m] < t) { a = m + 1; } else { b = m; } }
    return a > 0 && t - times[a - 1] < times[a] - t ? a - 1 : a;
  }
  // a peak may lie right at the edge of its column: the columns beside it count, too
  function peak(mark) {
    var near = index(mark.time), values = [];
    for (var i = Math.max(0, near - 1); i <= Math.min(times.length - 1, near + 1); i++) {
      if (lows[i] !== null) { values.push(mark.up ? highs[i] : lows[i]); }
    }
    return values.length === 0 ? data.mean : mark.up ? Math.max.apply(null, values) : Math.min.apply(null, values);
  }
  function draw() {
    W = Math.max(280, box.clientWidth);
    H = W < 560 ? 260 : 320;
    svg.setAttribute("width", W);
    svg.setAttribute("height", H);
    svg.setAttribute("viewBox", "0 0 " + W + " " + H);
    svg.textContent = "";
    var a = Math.max(0, index(from) - 1), b = Math.min(times.length - 1, index(to) + 1), low = Infinity, high = -Infinity, i;
    for (i = a; i <= b; i++) {
      if (lows[i] !== null) { low = Math.min(low, lows[i]); high = Math.max(high, highs[i]); }
    }
    var room = Math.max(0.06 * (high - low), 0.0005 * high);
    low -= room; high += room;
    function down(rpm) { return T + (high - rpm) / (high - low) * (H - T - B); }
    data.bands.forEach(function (band) {
      var x = Math.max(L, place(band.from)), end = Math.min(W - R, place(band.to));
      if (end > x) {
        make("rect", { "class": "band-" + band.kind, x: x, y: T, width: end - x, height: H - T - B });
        if (band.name && end - x > 60) { make("text", { x: x + 4, y: T + 14, "class": "name" }, band.name); }
      }
    });
    var s = step(high - low, 5), v;
    for (v = Math.ceil(low / s) * s; v <= high; v += s) {
      make("line", { "class": "grid", x1: L, x2: W - R, y1: down(v), y2: down(v) });
      make("text", { x: L - 5, y: down(v) + 4, "text-anchor": "end" }, v.toFixed(digits(s)));
    }
    function percent(rpm) { return 100 * (rpm / data.mean - 1); }
    s = step(percent(high) - percent(low), 5);
    for (v = Math.ceil(percent(low) / s) * s; v <= percent(high); v += s) {
      var right = down(data.mean * (1 + v / 100));
      make("line", { "class": "cursor", x1: W - R, x2: W - R + 4, y1: right, y2: right });
      make("text", { x: W - R + 7, y: right + 4 }, (Math.abs(v) < 1e-9 * s ? 0 : v).toFixed(digits(s)).replace("-", "\u2212"));
    }
    make("text", { x: L - 5, y: 13, "text-anchor": "end" }, "rpm");
    make("text", { x: W - R + 5, y: 13 }, "%");
    s = step(to - from, W < 560 ? 4 : 8);
    for (v = Math.ceil(from / s) * s; v <= to; v += s) {
      make("line", { "class": "grid", x1: place(v), x2: place(v), y1: T, y2: H - B });
      make("text", { x: place(v), y: H - B + 16, "text-anchor": "middle" }, v.toFixed(digits(s)) + " s");
    }
    var path = "", pen = "M", end = false;
    for (i = a; i <= b; i++) {
      if (lows[i] === null) { pen = "M"; continue; }
      if (gaps.has(i)) { pen = "M"; }
      var x = Math.max(L, Math.min(W - R, place(times[i])));
      path += pen + x.toFixed(1) + " " + down(end ? highs[i] : lows[i]).toFixed(1);
      if (lows[i] !== highs[i]) { path += "L" + x.toFixed(1) + " " + down(end ? lows[i] : highs[i]).toFixed(1); }
      end = !end;
      pen = "L";
    }
    make("path", { "class": "speed", d: path });
    var seen = 0;
    data.marks.forEach(function (mark) {
      if (mark.time < from || mark.time > to) { return; }
      seen += 1;
      var y = down(peak(mark));
      make("circle", { "class": "mark", cx: place(mark.time), cy: y, r: 6 }).appendChild(document.createElementNS(NS, "title")).textContent = mark.name;
    });
    if (seen <= 8) {
      data.marks.forEach(function (mark) {
        if (mark.time < from || mark.time > to) { return; }
        var y = down(peak(mark)), x = place(mark.time);
        make("text", { "class": "name", x: x, y: mark.up ? Math.max(T + 10, y - 9) : y + 18, "text-anchor": x > W - 120 ? "end" : x < 120 ? "start" : "middle" }, mark.short);
      });
    }
    if (anchor !== null && pointer !== null) {
      make("rect", { "class": "chosen", x: Math.min(anchor, pointer), y: T, width: Math.abs(pointer - anchor), height: H - T - B });
    } else if (pointer !== null && pointer >= L && pointer <= W - R) {
      make("line", { "class": "cursor", x1: pointer, x2: pointer, y1: T, y2: H - B });
    }
  }
  function time(x) { return from + (x - L) / (W - L - R) * (to - from); }
  function window_(a, b) {
    var span = Math.max(b - a, (last - first) / 2000);
    from = Math.max(first, Math.min(a, last - span));
    to = Math.min(last, from + span);
    draw();
  }
  function zoom(factor, about) { window_(about - (about - from) * factor, about + (to - about) * factor); }
  function tell(x) {
    if (x < L || x > W - R) { readout.textContent = ""; return; }
    var i = index(time(x));
    if (lows[i] === null) { readout.textContent = times[i].toFixed(2) + " s: not followed"; return; }
    var same = lows[i] === highs[i], percent = function (rpm) { var p = 100 * (rpm / data.mean - 1); return (p < 0 ? "\u2212" : "+") + Math.abs(p).toFixed(2) + " %"; };
    var near = data.marks.filter(function (mark) { return Math.abs(place(mark.time) - x) < 8; })[0];
    readout.textContent = times[i].toFixed(2) + " s: " + (same ? lows[i].toFixed(1) + " rpm (" + percent(lows[i]) + ")"
      : lows[i].toFixed(1) + " to " + highs[i].toFixed(1) + " rpm (" + percent(lows[i]) + " to " + percent(highs[i]) + ")")
      + (near ? "; " + near.name : "");
  }
  function at(event) { return event.clientX - svg.getBoundingClientRect().left; }
  svg.addEventListener("pointerdown", function (event) {
    touches.set(event.pointerId, at(event));
    svg.setPointerCapture(event.pointerId);
    if (touches.size === 2) {
      var x = Array.from(touches.values());
      pinch = { a: time(x[0]), b: time(x[1]) };
      anchor = null;
    } else if (event.pointerType === "mouse") {
      anchor = at(event);
    }
    pointer = at(event);
    tell(pointer);
    draw();
  });
  svg.addEventListener("pointermove", function (event) {
    if (touches.has(event.pointerId)) { touches.set(event.pointerId, at(event)); }
    if (pinch && touches.size === 2) {
      var x = Array.from(touches.values()), width = W - L - R, span = (pinch.b - pinch.a) / (x[1] - x[0]) * width;
      if (isFinite(span) && span > 0) { var start = pinch.a - (x[0] - L) / width * span; window_(start, start + span); }
      return;
    }
    pointer = at(event);
    tell(pointer);
    draw();
  });
  function lift(event) {
    touches.delete(event.pointerId);
    if (touches.size < 2) { pinch = null; }
    if (anchor !== null) {
      var a = time(anchor), b = time(at(event)), far = Math.abs(at(event) - anchor) > 5;
      anchor = null;
      if (far) { window_(Math.min(a, b), Math.max(a, b)); } else { draw(); }
    }
  }
  svg.addEventListener("pointerup", lift);
  svg.addEventListener("pointercancel", function (event) { anchor = null; touches.delete(event.pointerId); pinch = null; draw(); });
  svg.addEventListener("pointerleave", function () { if (anchor === null) { pointer = null; draw(); } });
  svg.addEventListener("wheel", function (event) {
    if (event.ctrlKey || event.shiftKey || document.activeElement === svg) {
      event.preventDefault();
      zoom(event.deltaY > 0 ? 1.25 : 0.8, time(at(event)));
    }
  }, { passive: false });
  svg.addEventListener("keydown", function (event) {
    var span = to - from, keys = {
      "+": function () { zoom(0.5, (from + to) / 2); },
      "=": function () { zoom(0.5, (from + to) / 2); },
      "-": function () { zoom(2, (from + to) / 2); },
      ArrowLeft: function () { window_(from - 0.2 * span, to - 0.2 * span); },
      ArrowRight: function () { window_(from + 0.2 * span, to + 0.2 * span); },
      Home: function () { window_(first, first + span); },
      End: function () { window_(last - span, last); },
      Escape: function () { window_(first, last); },
      "0": function () { window_(first, last); }
    };
    if (keys[event.key] && !event.altKey && !event.ctrlKey && !event.metaKey) { event.preventDefault(); keys[event.key](); tell((L + W - R) / 2); }
  });
  box.querySelectorAll(".zoom-tools button").forEach(function (button) {
    button.addEventListener("click", function () {
      if (button.dataset.zoom === "all") { window_(first, last); } else { zoom(Number(button.dataset.zoom), (from + to) / 2); }
    });
  });
  box.closest("main, article").querySelectorAll("[data-at]").forEach(function (link) {
    link.addEventListener("click", function () {
      var t = Number(link.dataset.at), half = Math.max(1, (last - first) / 40);
      window_(t - half, t + half);
      pointer = place(t);
      tell(pointer);
      draw();
    });
  });
  window.addEventListener("resize", draw);
  draw();
});
