// The running stage's cuts along the edge, and where to cut next.

import { button, byId, drawn, element, fill } from './dom.js';
import { onSubmit, post, toast } from './acts.js';
import { edit } from './cut.js';
import * as words from './words.js';

let session;
let suggested;

const at = (mm) => `${2 + (96 * Math.min(mm, session.edge_length_mm)) / session.edge_length_mm}%`;

function labelOf(cut) {
  if (cut.outcome !== 'severed') return words.outcome(cut.outcome);
  return cut.force ? words.number(cut.force.gf, 0) : words.whole(cut.counts?.estimate ?? 0);
}

function dot(cut) {
  const label = labelOf(cut);
  const aside = Boolean(cut.set_aside) || cut.outcome !== 'severed';
  const group = drawn('g', { class: aside ? 'spot aside' : 'spot', tabindex: 0, role: 'button',
    'aria-label': `Cut ${cut.id} at ${cut.place_mm} mm: ${label}${cut.force ? ' gf' : ''}${cut.set_aside ? ', set aside' : ''}` });
  group.append(
    drawn('circle', { cx: at(cut.place_mm), cy: '4em', r: '0.55em' }),
    drawn('text', { x: at(cut.place_mm), y: '2.6em', 'text-anchor': 'middle' }, aside ? `(${label})` : label));
  group.addEventListener('click', (event) => {
    event.stopPropagation();
    edit(cut);
  });
  group.addEventListener('keydown', (event) => event.key === 'Enter' && edit(cut));
  return group;
}

function chip(cut) {
  const text = labelOf(cut);
  return button(cut.set_aside ? `(${text})` : text, () => edit(cut),
    { 'aria-label': `Cut ${cut.id}: ${text}${cut.set_aside ? ', set aside' : ''}` });
}

function mark(mm, text, kind) {
  const group = drawn('g', { class: kind });
  group.append(
    drawn('line', { x1: at(mm), x2: at(mm), y1: '3em', y2: '5.4em' }),
    drawn('text', { x: at(mm), y: '6.6em', 'text-anchor': 'middle' }, text));
  return group;
}

function strip(chosen) {
  const svg = drawn('svg', { class: 'edge', role: 'group', 'aria-label': 'Cuts of this stage along the edge, heel at the left' });
  svg.append(
    drawn('line', { class: 'blade', x1: '2%', x2: '98%', y1: '4em', y2: '4em' }),
    drawn('text', { x: '2%', y: '8em' }, 'heel'),
    drawn('text', { x: '98%', y: '8em', 'text-anchor': 'end' }, `tip ${session.edge_length_mm} mm`));
  if (chosen !== undefined) svg.append(mark(chosen, `next ${chosen}`, 'chosen'));
  else if (suggested !== undefined) svg.append(mark(suggested, `${suggested}?`, 'suggested'));
  svg.append(...session.cuts.filter((cut) => cut.place_mm !== undefined).map(dot));
  svg.addEventListener('click', (event) => {
    const box = svg.getBoundingClientRect();
    const share = ((event.clientX - box.left) / box.width - 0.02) / 0.96;
    choose(Math.round(Math.min(1, Math.max(0, share)) * session.edge_length_mm * 2) / 2);
  });
  return svg;
}

async function choose(mm) {
  if (await post('session/next-place', mm === undefined ? {} : { mm })) {
    toast(mm === undefined ? 'The next cut has no place.' : `The next cut will be noted at ${mm} mm.`);
  }
}

export function show(bench) {
  session = bench.session;
  byId('edge').hidden = !session;
  if (!session) return;
  suggested = session.suggested_place_mm;
  const chosen = bench.chosen_place_mm;
  const unplaced = session.cuts.filter((cut) => cut.place_mm === undefined);
  fill(byId('edge-strip'), [session.cuts, suggested, chosen, session.edge_length_mm], () => {
    const parts = [strip(chosen)];
    if (!session.edge_length_known) {
      parts.push(element('p', { class: 'note' }, `Edge length not noted: ${session.edge_length_mm} mm assumed.`));
    }
    if (unplaced.length) {
      parts.push(element('div', { class: 'acts unplaced', role: 'group', 'aria-label': 'Cuts without a place' },
        element('span', { class: 'note' }, 'Without a place:'), ...unplaced.map(chip)));
    }
    return parts;
  });
  byId('place-suggested').hidden = suggested === undefined || chosen === suggested;
  byId('place-suggested').textContent = `Suggested: ${suggested} mm`;
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
