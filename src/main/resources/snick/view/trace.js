// The live trace: the last ten seconds of each rig, drawn by uPlot.

import { button, byId, fill } from './dom.js';
import { sound } from './aloud.js';
import { say } from './say.js';
import { clock, whole as grouped } from './words.js';

const WINDOW_S = 10;
const LEAST_SPAN = { gf: 40, counts: 2000 };
const rigs = new Map();
let plot;
let shown = 0;
let states = [];
let here = true;
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
  byId('trace-note').textContent = say('trace.missed', { n: missed });
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
      { ...axis, label: say('trace.time'), size: size * 2, values: (u, all) => all.map((v) => `${Math.abs(v)}`) },
      unit === 'gf'
        ? { ...axis, label: say('trace.force'), size: size * 3.4 }
        : { ...axis, label: say('trace.counts'), size: size * 5, values: (u, all) => all.map(grouped) },
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
function choices() {
  fill(byId('rigs'), [states.map((rig) => rig.port), shown], () =>
    states.length < 2 ? [] : states.map((rig) => button(rig.port, () => choose(rig.rig), {
      'aria-pressed': String(rig.rig === shown) })));
}

function choose(rig) {
  shown = rig;
  dirty = true;
  choices();
  stale();
}

export function state(rigs) {
  if (rigs.some((rig) => rig.link === 'lost' && !gone(states.find((s) => s.rig === rig.rig)))) sound('lost');
  states = rigs;
  choices();
  stale();
}

const gone = (rig) => rig !== undefined && !['recording', 'ended'].includes(rig.link);

export function linked(now) {
  here = now;
  stale();
}

// Nothing that is old looks live: the trace is greyed, and it is said since when.
function stale() {
  const rig = states[shown];
  const old = !here || gone(rig);
  byId('trace').classList.toggle('stale', old);
  byId('trace-stale').hidden = !old;
  const since = here ? rig?.link_since : undefined;
  byId('trace-stale').textContent = since ? say('trace.stale_since', { at: clock(since) }) : say('trace.stale');
}

export function begin() {
  new ResizeObserver(() => (dirty = true)).observe(byId('trace'));
  requestAnimationFrame(draw);
}
