// Blades, and how each did over time.

import { byId, element } from './dom.js';
import { get, onSecondPress, onSubmit, post, toast } from './acts.js';
import { picture } from './sessions.js';
import { count, say } from './say.js';
import * as words from './words.js';

// Of two changes the interval is thirteen times as wide as they scatter: it tells nobody anything.
const FEW_TIMES = 3;

let shown;

async function list() {
  const said = await get('blades');
  if (!said) return;
  byId('blade-none').hidden = said.blades.length > 0;
  byId('blade-list').replaceChildren(...said.blades.map((blade) => element('li', {},
    element('a', { class: 'row', href: `#blades/${encodeURIComponent(blade.label)}` },
      element('b', {}, blade.label), element('span', {}, blade.steel ?? say('blade.no_steel'))))));
}

const cell = (head, text) => element('td', { 'data-head': say(head) }, text ?? '');

function table(heads, rows) {
  return element('div', { class: 'wide', tabindex: 0, role: 'region', 'aria-label': heads[0] }, element('table', {},
    element('thead', {}, element('tr', {}, ...heads.map((head) => element('th', { scope: 'col' }, head)))),
    element('tbody', {}, ...rows)));
}

function since(visit) {
  if (visit.changed.length) return say('blade.changed', { what: visit.changed.join(', ') });
  if (!visit.wear) return '–';
  return say('blade.wear', { stage: visit.first.stage, mean: words.number(visit.first.mean_gf, 1),
    by: words.signed(visit.wear.difference_gf, 1), change: words.change(visit.wear.change) });
}

function visits(story) {
  return table([say('blade.session'), say('blade.end'), say('blade.since'), say('blade.by')],
    [...story.sessions].reverse().map((visit) => element('tr', {},
      element('td', {}, element('a', { class: 'in-table', href: `#sessions/${visit.number}` }, `${visit.number} · ${words.day(visit.opened)}`)),
      cell('blade.end', visit.last ? `${visit.last.stage}: ${words.mean(visit.last)}` : say('blade.no_force')),
      cell('blade.since', since(visit)),
      cell('blade.by', [visit.rig, visit.filament_lot, visit.calibration].filter(Boolean).join(', ') || say('blade.not_noted')))));
}

function worth(story) {
  if (!story.steps.length) return element('p', { class: 'note' }, say('blade.no_steps'));
  return table([say('blade.step'), say('blade.worth'), say('blade.times')],
    story.steps.map((step) => element('tr', {},
      cell('blade.step', step.step), cell('blade.worth', change(step)), cell('blade.times', count('blade.done', step.n)))));
}

function change(step) {
  if (!step.ci95_gf) return say('blade.change_once', { by: words.signed(step.mean_gf, 1) });
  if (step.n < FEW_TIMES) return say('blade.change_few', { by: words.signed(step.mean_gf, 1), n: step.n });
  const places = words.decimals((step.ci95_gf[1] - step.ci95_gf[0]) / 2);
  const [low, high] = step.ci95_gf.map((v) => words.signed(v, places));
  return say('compare.difference', { by: words.signed(step.mean_gf, places), low, high });
}

async function one(label) {
  const story = await get(`blades/history?blade=${encodeURIComponent(label)}`);
  byId('blade-story').hidden = !story;
  if (!story) return;
  shown = story.blade.label;
  byId('blade-title').textContent = shown;
  byId('blade-facts').textContent = [story.blade.steel ?? say('blade.no_steel'),
    story.blade.edge_length_mm === undefined ? '' : say('blade.length', { mm: story.blade.edge_length_mm })].filter(Boolean).join(' · ');
  const measured = story.sessions.some((visit) => visit.last);
  byId('blade-picture').replaceChildren(...(measured
    ? [picture(`/api/v1/blades/history.svg?blade=${encodeURIComponent(shown)}`, say('plot.history', { blade: shown }))] : []));
  byId('blade-visits').replaceChildren(...(story.sessions.length ? [visits(story)] : [element('p', { class: 'note' }, say('past.none'))]));
  byId('blade-steps').replaceChildren(worth(story));
  byId('blade-steps-title').textContent = say(story.blade.steel ? 'blade.steps' : 'blade.steps_alone');
  byId('blade-steel').value = story.blade.steel ?? '';
  byId('blade-margin').value = story.blade.margin_gf ?? '';
  byId('blade-length').value = story.blade.edge_length_mm ?? '';
  byId('blade-name').value = shown;
  byId('blade-into').value = '';
}

export function open(label) {
  byId('blade-box').hidden = label !== undefined;
  byId('blade-story').hidden = true;
  if (label === undefined) list();
  else one(label);
}

async function mended(path, body, said, now) {
  if (!(await post(`blades/${path}`, { blade: shown, ...body }))) return;
  toast(say(said));
  if (now === shown) one(shown);
  else location.hash = `#blades/${encodeURIComponent(now)}`;
}

export function begin() {
  onSubmit('blade-margin-form', () => {
    const text = byId('blade-margin').value;
    mended('margin', text === '' ? {} : { margin_gf: Number(text) }, 'blade.margin_set', shown);
  });
  onSubmit('blade-length-form', () =>
    mended('edge-length', { edge_length_mm: Number(byId('blade-length').value) }, 'blade.length_set', shown));
  onSubmit('blade-steel-form', () => mended('steel', { steel: byId('blade-steel').value }, 'blade.steel_set', shown));
  onSubmit('blade-rename-form', () =>
    mended('rename', { name: byId('blade-name').value }, 'blade.renamed', byId('blade-name').value.trim()));
  onSubmit('blade-merge-form', () => {});
  onSecondPress(byId('blade-merge'), say('mend.merge_sure'), () => byId('blade-into').reportValidity() &&
    mended('merge', { into: byId('blade-into').value }, 'blade.merged', byId('blade-into').value.trim()));
}
