// Inspection: the way of looking stays chosen, then a side and what was found.

import { button, byId, element, fill } from './dom.js';
import { post, toast } from './acts.js';
import { methods } from './catalog.js';
import { beside } from './photo.js';
import { say } from './say.js';
import { withdraw } from './steps.js';
import * as words from './words.js';

const FINDINGS = ['none', 'burr_seen', 'unsure'];
const PAPER = ['clean', 'catches', 'tears', 'will_not_start', 'unsure'];

let [method] = methods;
let magnification = 10;
let running = {};

async function note(side, finding) {
  const body = { method, side, finding, session: running.session, stage: running.stage };
  if (method === 'magnifier') body.magnification = magnification;
  if (await post('session/inspections', body)) {
    toast(say('inspect.noted', { side: words.side(side), how: words.method(method), what: words.finding(finding) }));
  }
}

function row(side, findings) {
  const id = `side-${side}`;
  return element('div', { class: 'side', role: 'group', 'aria-labelledby': id },
    element('h3', { id }, say(`side.title_${side}`)),
    ...findings.map((word) => button(say(`inspect.${word}`), () => note(side, word), { 'data-finding': word })));
}

function ways() {
  return element('div', { class: 'ways', role: 'group', 'aria-label': say('inspect.how') },
    ...methods.map((word) => button(words.method(word), () => choose(word), {
      'aria-pressed': String(word === method), 'data-method': word })));
}

function times() {
  const box = element('input', { id: 'times', type: 'number', min: 1, max: 5000, value: magnification, inputmode: 'numeric' });
  box.addEventListener('change', () => (magnification = Number(box.value)));
  return element('p', { class: 'acts' }, element('label', { for: 'times' }, say('inspect.times')), box);
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
    element('p', { class: 'note' }, say('inspect.sides')),
  ]);
}

const timesOf = (inspection) => (inspection.magnification ? ` ${inspection.magnification}\u00d7` : '');

// One inspection that was noted, with its photo and the way to withdraw it.
export function line(session, inspection, whenDone) {
  const text = say('inspect.line', {
    at: words.clock(inspection.at), side: words.side(inspection.side),
    how: words.method(inspection.method) + timesOf(inspection), what: words.finding(inspection.finding) });
  return element('li', { class: 'entry' }, element('span', {}, text), beside(session, inspection, text, whenDone),
    button(say('entry.withdraw'), () => withdraw(session, inspection.entry, whenDone), {
      'aria-label': say('entry.withdraw_what', { what: text }) }));
}

export function show(session) {
  byId('inspect').hidden = !session;
  if (!session) return;
  const stage = session.stages.at(-1);
  running = { session: session.name, stage: stage?.name };
  pad();
  fill(byId('inspections'), stage?.inspections, () => (stage?.inspections ?? []).map((i) => line(session, i)));
}
