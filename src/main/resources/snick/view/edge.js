// The current stage's cuts along the edge, and where to cut next.

import { button, byId, drawn, element, fill } from './dom.js';
import { onSubmit, post, toast } from './acts.js';
import { edit, short, unit } from './cut.js';
import { count, say } from './say.js';

const MOST_WAITING = 6;

let session;
let suggested;

const at = (mm) => `${2 + (96 * Math.min(mm, session.edge_length_mm)) / session.edge_length_mm}%`;

const aside = (cut) => Boolean(cut.set_aside) || !('estimate_counts' in cut);

function told(cut, key) {
  return say(key, { n: cut.id, mm: cut.place_mm, value: `${short(cut, 0)} ${unit(cut)}`.trim(),
    aside: cut.set_aside ? say('edge.aside') : '' });
}

function dot(cut) {
  const label = short(cut, 0);
  const group = drawn('g', { class: aside(cut) ? 'spot aside' : 'spot', tabindex: 0, role: 'button',
    'aria-label': told(cut, 'edge.spot') });
  group.append(
    drawn('rect', { class: 'reach', x: at(cut.place_mm), y: '1.4em', width: '48px', height: '3.6em', transform: 'translate(-24 0)' }),
    drawn('circle', { cx: at(cut.place_mm), cy: '4em', r: '0.55em' }),
    drawn('text', { x: at(cut.place_mm), y: '2.6em', 'text-anchor': 'middle' }, aside(cut) ? `(${label})` : label));
  group.addEventListener('click', (event) => {
    event.stopPropagation();
    edit(cut);
  });
  group.addEventListener('keydown', (event) => event.key === 'Enter' && edit(cut));
  return group;
}

function chip(cut) {
  const text = short(cut, 0);
  return button(cut.set_aside ? `(${text})` : text, () => edit(cut), { 'aria-label': told(cut, 'edge.waiting_cut') });
}

function mark(mm, text, kind) {
  const group = drawn('g', { class: kind });
  group.append(
    drawn('line', { x1: at(mm), x2: at(mm), y1: '3em', y2: '5.4em' }),
    drawn('text', { x: at(mm), y: '6.6em', 'text-anchor': anchor(mm) }, text));
  return group;
}

const anchor = (mm) => {
  const share = mm / session.edge_length_mm;
  return share < 0.1 ? 'start' : share > 0.9 ? 'end' : 'middle';
};

function strip(chosen) {
  const svg = drawn('svg', { class: 'edge', role: 'group', 'aria-label': say('edge.along') });
  svg.append(
    drawn('line', { class: 'blade', x1: '2%', x2: '98%', y1: '4em', y2: '4em' }),
    drawn('text', { x: '2%', y: '8em' }, say('edge.heel')),
    drawn('text', { x: '98%', y: '8em', 'text-anchor': 'end' }, say('edge.tip', { mm: session.edge_length_mm })));
  if (chosen !== undefined) svg.append(mark(chosen, say('edge.next', { mm: chosen }), 'chosen'));
  else if (suggested !== undefined) svg.append(mark(suggested, `${suggested}?`, 'suggested'));
  svg.append(...session.cuts.filter((cut) => cut.place_mm !== undefined).map(dot));
  svg.addEventListener('click', (event) => {
    const box = svg.getBoundingClientRect();
    const share = ((event.clientX - box.left) / box.width - 0.02) / 0.96;
    choose(Math.round(Math.min(1, Math.max(0, share)) * session.edge_length_mm * 2) / 2);
  });
  return svg;
}

// Cuts that wait for a place: six of them, the rest behind one press.
function waiting(cuts) {
  const row = (some) => element('div', { class: 'acts unplaced', role: 'group', 'aria-label': say('edge.without_place') },
    ...some.map(chip));
  const [first, rest] = [cuts.slice(0, MOST_WAITING), cuts.slice(MOST_WAITING)];
  return [
    element('p', { class: 'note' }, say('edge.without_place')),
    row(first),
    ...(rest.length ? [element('details', {}, element('summary', {}, count('edge.more', rest.length)), row(rest))] : []),
  ];
}

async function choose(mm) {
  if (await post('session/next-place', mm === undefined ? {} : { mm })) {
    toast(mm === undefined ? say('edge.next_unsaid') : say('edge.next_said', { mm }));
  }
}

export function show(bench) {
  session = bench.session;
  byId('edge').hidden = !session;
  if (!session) return;
  suggested = session.suggested_place_mm;
  const chosen = bench.chosen_place_mm;
  const unplaced = session.cuts.filter((cut) => cut.place_mm === undefined).reverse();
  fill(byId('edge-strip'), [session.cuts, suggested, chosen, session.edge_length_mm], () => {
    const parts = [strip(chosen)];
    if (!session.edge_length_known) {
      parts.push(element('p', { class: 'note' }, say('edge.assumed', { mm: session.edge_length_mm }), ' ',
        element('a', { href: `#blades/${encodeURIComponent(session.blade)}` }, say('edge.note_length'))));
    }
    return unplaced.length ? [...parts, ...waiting(unplaced)] : parts;
  });
  byId('place-suggested').hidden = suggested === undefined || chosen === suggested;
  byId('place-suggested').textContent = say('edge.suggested', { mm: suggested });
  byId('place-clear').hidden = chosen === undefined;
}

export function begin() {
  onSubmit('place-form', () => {
    const text = byId('place-mm').value;
    if (text !== '') choose(Number(text));
  });
  byId('place-suggested').addEventListener('click', () => choose(suggested));
  byId('place-clear').addEventListener('click', () => choose(undefined));
}
