// The live trace: the last ten seconds of each rig, drawn by uPlot.

import { button, byId, fill } from './dom.js';
import { whole as grouped } from './words.js';

const WINDOW_S = 10;
const LEAST_SPAN = { gf: 40, counts: 2000 };
const rigs = new Map();
let plot;
let shown = 0;
let dirty = false;
let missed = 0;

function reset(rig, unit) {
  const kept = { unit, t: [], v: [] };
  rigs.set(rig, kept);
  return kept;
}

export function whole(points) {
  const kept = reset(points.rig, points.unit);
  kept.t.push(...points.t);
  kept.v.push(...points.v);
  dirty = true;
}

export function more(points) {
  let kept = rigs.get(points.rig);
  if (!kept || kept.unit !== points.unit || points.t.at(-1) < kept.t.at(-1) - 1) {
    kept = reset(points.rig, points.unit);
  }
  const last = kept.t.at(-1) ?? -Infinity;
  const fresh = points.t.findIndex((t) => t > last);
  if (fresh < 0) return;
  kept.t.push(...points.t.slice(fresh));
  kept.v.push(...points.v.slice(fresh));
  const from = kept.t.findIndex((t) => t >= kept.t.at(-1) - WINDOW_S - 1);
  if (from > 200) {
    kept.t.splice(0, from);
    kept.v.splice(0, from);
  }
  dirty = true;
}

export function frames(count) {
  missed += count;
  byId('trace-note').textContent =
    `This page was too slow for ${missed} bundles of live points; nothing recorded was lost.`;
}

const colour = (name) => getComputedStyle(document.documentElement).getPropertyValue(name).trim();

function limits(unit, low, high) {
  const span = LEAST_SPAN[unit];
  return [Math.min(low ?? 0, -span / 10), Math.max((high ?? 0) * 1.1, span)];
}

function options(box, unit) {
  const size = parseFloat(getComputedStyle(document.documentElement).fontSize);
  const axis = {
    stroke: colour('--ink'),
    grid: { stroke: colour('--rule'), width: 1 },
    ticks: { stroke: colour('--rule') },
    font: `${Math.round(size * 0.8)}px system-ui, sans-serif`,
    labelFont: `${Math.round(size * 0.8)}px system-ui, sans-serif`,
    labelSize: size * 1.3,
  };
  return {
    width: box.clientWidth,
    height: box.clientHeight,
    legend: { show: false },
    cursor: { show: false },
    scales: {
      x: { time: false, range: () => [-WINDOW_S, 0] },
      y: { range: (u, low, high) => limits(unit, low, high) },
    },
    axes: [
      { ...axis, label: 'seconds ago', size: size * 1.6, values: (u, all) => all.map((v) => `${Math.abs(v)}`) },
      unit === 'gf'
        ? { ...axis, label: 'force in gf', size: size * 3.4 }
        : { ...axis, label: 'counts above rest', size: size * 5, values: (u, all) => all.map(grouped) },
    ],
    series: [{}, { stroke: colour('--trace'), width: 2.5, points: { show: false } }],
  };
}

function draw() {
  requestAnimationFrame(draw);
  const kept = rigs.get(shown);
  if (!dirty || !kept || kept.t.length === 0) return;
  dirty = false;
  const box = byId('trace');
  const look = `${kept.unit} ${box.clientWidth} ${box.clientHeight} ${colour('--ink')}`;
  const end = kept.t.at(-1);
  const data = [kept.t.map((t) => t - end), kept.v];
  if (plot?.look !== look) {
    plot?.destroy();
    plot = new window.uPlot(options(box, kept.unit), data, box);
    plot.look = look;
  } else {
    plot.setData(data);
  }
}

// With several rigs, one is shown at a time.
export function choices(all) {
  fill(byId('rigs'), [all.map((rig) => rig.port), shown], () =>
    all.length < 2 ? [] : all.map((rig) => button(rig.port, () => show(rig.rig, all), {
      'aria-pressed': String(rig.rig === shown) })));
}

function show(rig, all) {
  shown = rig;
  dirty = true;
  choices(all);
}

export function begin() {
  new ResizeObserver(() => (dirty = true)).observe(byId('trace'));
  requestAnimationFrame(draw);
}
