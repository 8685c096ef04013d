"use strict";
// Follows one session. All text is put in as text: nothing that was typed can become markup.
const SVG = "http://www.w3.org/2000/svg", SILENT_MS = 25000, WIDTH = 440, LEFT = 40, BOTTOM = 30, EDGE = 6;
let source = null, heard = 0;

const byId = id => document.getElementById(id);

function make(tag, text, kind) {
  const made = document.createElement(tag);
  if (text !== undefined) made.textContent = text;
  if (kind) made.className = kind;
  return made;
}

function draw(tag, attributes, text) {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  if (text !== undefined) made.textContent = text;
  return made;
}

function fill(id, heading, ...parts) {
  const shown = parts.filter(Boolean);
  byId(id).replaceChildren(...(shown.length && heading ? [make("h2", heading)] : []), ...shown);
}

function row(cells, tag, kind) {
  const made = make("tr", undefined, kind);
  for (const [text, cellKind] of cells) made.append(make(tag, text, cellKind));
  return made;
}

function table(heads, rows) {
  if (!rows.length) return null;
  const made = make("table"), wide = make("div", undefined, "wide");
  made.append(row(heads, "th"), ...rows);
  wide.append(made);
  return wide;
}

function mark(shape, x, y, series) {
  const kind = `mark s${series}`;
  if (shape === "circle") return draw("circle", { class: kind, cx: x, cy: y, r: 4.5 });
  if (shape === "out") return draw("path", { class: `line s${series}`, d: `M${x - 4} ${y - 4}l8 8m0 -8l-8 8` });
  if (shape === "centre") return draw("path", { class: `line s${series}`, d: `M${x - 8} ${y}h16m-8 -8v16` });
  const outlines = {
    diamond: `M${x} ${y - 5.5}l5.5 5.5l-5.5 5.5l-5.5 -5.5z`, triangle: `M${x} ${y - 5}l5 9h-10z`,
    square: `M${x - 4} ${y - 4}h8v8h-8z`,
  };
  return draw("path", { class: kind + (shape === "diamond" ? " full" : ""), d: outlines[shape] });
}

function picture(scene, unit, label) {
  if (!scene) return null;
  const wide = scene.high[0] - scene.low[0], tall = scene.high[1] - scene.low[1];
  const scale = Math.min((WIDTH - LEFT - EDGE) / wide, (430 - BOTTOM - EDGE) / tall);
  const width = wide * scale, height = tall * scale;
  const x = value => LEFT + (value - scene.low[0]) * scale, y = value => EDGE + (scene.high[1] - value) * scale;
  const box = `0 0 ${LEFT + width + EDGE} ${EDGE + height + BOTTOM}`;
  const made = draw("svg", { viewBox: box, role: "img", "aria-label": label });
  made.append(draw("rect", { class: "plot", x: LEFT, y: EDGE, width, height }));
  scene.x_ticks.forEach((tick, place) => {
    made.append(draw("line", { class: "grid", x1: x(tick), x2: x(tick), y1: EDGE, y2: EDGE + height }));
    const side = tick === 0 ? "0" : `${Math.abs(tick)} ${tick > 0 ? "R" : "L"}`;
    if (scene.x_ticks.length < 7 || place % 2 === 0)
      made.append(draw("text", { x: x(tick), y: EDGE + height + 15, "text-anchor": "middle" }, side));
  });
  for (const tick of scene.y_ticks) {
    made.append(draw("line", { class: "grid", x1: LEFT, x2: LEFT + width, y1: y(tick), y2: y(tick) }));
    made.append(draw("text", { x: LEFT - 5, y: y(tick) + 4, "text-anchor": "end" }, `${tick}`));
  }
  made.append(draw("text", { x: LEFT + width / 2, y: EDGE + height + 28, "text-anchor": "middle" }, `offline, ${unit}`));
  for (const stroke of scene.strokes) {
    const points = stroke.points.map(([px, py]) => `${x(px).toFixed(1)},${y(py).toFixed(1)}`).join(" ");
    const kind = stroke.series < 0 ? "target" : `s${stroke.series}${stroke.fine ? " fine" : ""}`;
    const dash = stroke.dash.length ? { "stroke-dasharray": stroke.dash.map(part => part * width / 50).join(" ") } : {};
    made.append(draw("polyline", { class: kind, points, ...(stroke.series < 0 ? {} : dash) }));
  }
  for (const each of scene.marks) made.append(mark(each.shape, x(each.x), y(each.y), each.series));
  return made;
}

function key(series) {
  const made = draw("svg", { class: "key", viewBox: "0 0 44 16", "aria-hidden": "true" });
  made.append(mark(["circle", "diamond", "triangle", "square"][series], 22, 8, series));
  return made;
}

function lastShot(shot) {
  if (!shot) return null;
  const made = make("div"), values = make("div", undefined, shot.out ? "values struck" : "values");
  for (const each of shot.values) {
    const one = make("div");
    one.append(make("b", each.value), make("span", [each.label, each.unit].filter(Boolean).join(", ")));
    values.append(one);
  }
  made.append(make("span", `${shot.club}, shot ${shot.number}${shot.out ? ", left out" : ""}`, "soft"), values);
  return made;
}

function clubRows(clubs) {
  return clubs.map(club => {
    const made = row([["", ""], [club.carry, "n"], [`${club.shots}`, "n"]], "td");
    const name = made.firstChild;
    name.append(key(club.series), make("b", ` ${club.name}`), make("div", club.words, "soft"));
    return made;
  });
}

function show(state) {
  document.title = state.title || "Session";
  byId("title").textContent = state.title || "Session";
  byId("subtitle").textContent = state.subtitle || state.waiting || "";
  if (state.waiting) {
    for (const id of ["last", "landing", "clubs", "criteria", "shots"]) fill(id, "");
    return;
  }
  fill("last", "", lastShot(state.last));
  fill("landing", "Where they landed", picture(state.picture, state.unit, state.clubs.map(c => c.name).join(", ")));
  fill("clubs", "Clubs", table([["", ""], [`carry, ${state.unit}`, "n"], ["shots", "n"]], clubRows(state.clubs)));
  const several = new Set([...state.criteria, ...state.differences].map(one => one.club)).size > 1;
  const named = (one, ...cells) => row(several ? [[one.club], ...cells] : cells, "td"), first = several ? [[""]] : [];
  const asked = state.criteria.map(one => named(one, [one.text], [one.outcome, one.tone]));
  const seen = state.differences.map(one => named(one, [one.label], [one.text]));
  fill("criteria", "As it stands", table([...first, ["needed"], ["outcome"]], asked),
       table([...first, ["beside the reference"], [""]], seen));
  const shots = state.shots.map(shot => row(
    [[`${shot.club} · ${shot.number}`], ...shot.values.map(value => [value, "n"])], "td", shot.out ? "out" : ""));
  fill("shots", "Latest shots", table([[""], ...state.columns.map(head => [head, "n"])], shots));
}

function connect() {
  if (source) source.close();
  source = new EventSource("events");
  heard = Date.now();
  source.onopen = () => { heard = Date.now(); byId("link").textContent = ""; };
  source.onmessage = event => { heard = Date.now(); byId("link").textContent = ""; show(JSON.parse(event.data)); };
  source.onerror = () => { byId("link").textContent = "not connected; trying again"; };
}

// A phone that slept, or a server that was stopped, may leave a dead line that reports nothing.
setInterval(() => { if (source.readyState === EventSource.CLOSED || Date.now() - heard > SILENT_MS) connect(); }, 3000);
document.addEventListener("visibilitychange", () => { if (!document.hidden) connect(); });
connect();
