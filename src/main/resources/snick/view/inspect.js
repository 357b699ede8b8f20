// Inspection: the way of looking stays chosen, then a side and what was found.

import { button, byId, element, fill } from './dom.js';
import { post, toast } from './acts.js';
import { clock, plain } from './words.js';

const METHODS = [
  ['raking_light', 'Raking light'],
  ['fingertip', 'Fingertip'],
  ['magnifier', 'Magnifier'],
  ['thin_paper', 'Thin paper'],
  ['cotton_drag', 'Cotton'],
  ['nail_drag', 'Nail'],
];
const FINDINGS = [['none', 'None'], ['burr_seen', 'Burr'], ['unsure', 'Unsure']];
const PAPER = [['clean', 'Clean'], ['catches', 'Catches'], ['tears', 'Tears'], ['will_not_start', 'Will not start'], ['unsure', 'Unsure']];

let method = 'raking_light';
let magnification = 10;
let running = {};

async function note(side, finding) {
  const body = { method, side, finding, session: running.session, stage: running.stage };
  if (method === 'magnifier') body.magnification = magnification;
  if (await post('session/inspections', body)) toast(`Noted: ${side}, ${plain(method)}, ${plain(finding)}.`);
}

function row(side, findings) {
  const id = `side-${side}`;
  return element('div', { class: 'side', role: 'group', 'aria-labelledby': id },
    element('h3', { id }, side === 'both' ? 'Both sides' : `${side[0].toUpperCase()}${side.slice(1)} side`),
    ...findings.map(([word, text]) => button(text, () => note(side, word), { 'data-finding': word })));
}

function ways() {
  return element('div', { class: 'ways', role: 'group', 'aria-label': 'How' },
    ...METHODS.map(([word, text]) => button(text, () => choose(word), {
      'aria-pressed': String(word === method), 'data-method': word })));
}

function times() {
  const box = element('input', { id: 'times', type: 'number', min: 1, max: 5000, value: magnification, inputmode: 'numeric' });
  box.addEventListener('change', () => (magnification = Number(box.value)));
  return element('p', { class: 'acts' }, element('label', { for: 'times' }, 'Times'), box);
}

function choose(word) {
  method = word;
  pad();
  document.querySelector(`[data-method="${word}"]`).focus();
}

function pad() {
  fill(byId('inspect-pad'), method, () => [
    ways(),
    ...(method === 'magnifier' ? [times()] : []),
    ...(method === 'thin_paper' ? [row('both', PAPER)] : [row('left', FINDINGS), row('right', FINDINGS)]),
    element('p', { class: 'note' }, 'Sides as seen from the spine, tip away from you.'),
  ]);
}

function line(inspection) {
  const times = inspection.magnification ? ` ${inspection.magnification}\u00d7` : '';
  return element('li', {},
    `${clock(inspection.at)} ${inspection.side}, ${plain(inspection.method)}${times}: ${plain(inspection.finding)}`);
}

export function show(session) {
  byId('inspect').hidden = !session;
  if (!session) return;
  const stage = session.stages.at(-1);
  running = { session: session.name, stage: stage?.name };
  pad();
  fill(byId('inspections'), stage?.inspections, () => (stage?.inspections ?? []).map(line));
}
