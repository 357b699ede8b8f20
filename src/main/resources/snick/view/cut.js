// The last cut, large; and the dialog about one cut.

import { button, byId, element, fill } from './dom.js';
import { onSubmit, post, toast } from './acts.js';
import { say } from './say.js';
import * as words from './words.js';

const hasForce = (cut) => 'force_gf' in cut;

let open;
let known = {};
let here;

export function figure(cut) {
  if (hasForce(cut)) {
    const f = words.force(cut);
    return [
      element('p', { class: 'figure' }, element('b', {}, f.value), ' gf'),
      element('p', { class: 'uncertainty' }, element('a', { href: '#words/k' }, f.uncertainty)),
      element('p', { class: 'also' }, f.newtons),
    ];
  }
  if ('estimate_counts' in cut) {
    return [
      element('p', { class: 'figure counts' }, element('b', {}, words.whole(cut.estimate_counts)), ' ', say('unit.counts')),
      element('p', { class: 'uncertainty' }, say('cut.counts_uncertainty', { u: words.whole(2 * cut.u_counts) })),
      element('p', { class: 'warn' }, say('cut.no_calibration')),
    ];
  }
  return [element('p', { class: 'figure outcome' }, words.outcome(cut.outcome))];
}

function largest(cut) {
  if (hasForce(cut)) return say('cut.largest_gf', { gf: words.number(cut.observed_max_gf, 1) });
  return 'observed_max_counts' in cut ? say('cut.largest_counts', { n: words.whole(cut.observed_max_counts) }) : '';
}

// The figure alone, for the bar and for labels along the edge.
export function short(cut, places) {
  if (!('estimate_counts' in cut)) return words.outcome(cut.outcome);
  return hasForce(cut) ? words.number(cut.force_gf, places) : words.whole(cut.estimate_counts ?? 0);
}

export const unit = (cut) => (!('estimate_counts' in cut) ? '' : hasForce(cut) ? 'gf' : say('unit.counts'));

// The same with its uncertainty.
export const whole = (cut) => (hasForce(cut)
  ? `${short(cut, words.decimals(cut.expanded_gf))} gf ${words.force(cut).uncertainty}`
  : `${short(cut, 0)} ${unit(cut)}`.trim());

export const told = (cut) =>
  [say('cut.number', { n: cut.id }), words.clock(cut.occurred_at), cut.stage, place(cut)].filter(Boolean).join(' · ');

// What is out of the ordinary about a cut, each in a line.
export const odd = (cut) => [
  ...(hasForce(cut) && !cut.in_range ? [say('cut.outside_range')] : []),
  ...(cut.set_aside ? [say('cut.set_aside', { why: cut.set_aside_reason })] : []),
  ...doubts(cut),
];

// A dip doubts no figure: it is told as what it is a sign of.
const DIPS = 'dips_before_peak';

function doubts(cut) {
  const doubtful = cut.flags.filter((flag) => flag !== DIPS).map(words.flag);
  return [...(doubtful.length ? [say('cut.check', { what: doubtful.join('; ') })] : []),
    ...(cut.flags.includes(DIPS) ? [say('cut.dips')] : [])];
}

const warnings = (cut) => odd(cut).map((what) => element('p', { class: 'warn' }, what));

export function show(cut) {
  if (!cut) return;
  fill(byId('bar-cut'), cut, () => [
    element('b', { class: 'estimate_counts' in cut ? 'value' : 'value word' },
      short(cut, hasForce(cut) ? words.decimals(cut.expanded_gf) : 0)), element('span', {}, unit(cut))]);
  fill(byId('last-cut-body'), cut, () => [
    ...figure(cut),
    element('p', { class: 'how' }, 'estimate_counts' in cut ? words.outcome(cut.outcome) : largest(cut)),
    ...warnings(cut),
    element('p', { class: 'also' }, told(cut)),
    ...(cut.stage ? [] : [element('p', { class: 'note' }, say('cut.no_session'))]),
  ]);
  fill(byId('last-cut-acts'), [cut.id, cut.stage, cut.set_aside, here], () =>
    cut.stage || here ? [button(say('cut.edit'), () => edit(cut), { id: 'edit-last' })] : []);
}

const place = (cut) => (cut.place_mm === undefined ? '' : say('cut.place', { mm: cut.place_mm }));

// The session on the bench, which takes in a cut that was made without one.
export function onBench(session) {
  here = session?.name;
  if (session) knowsStages(session);
}

// Stages that a cut of this session can be moved to.
export function knowsStages(session) {
  known = { ...known, [session.name]: session.stages.map((stage) => stage.name) };
}

export function edit(cut) {
  open = cut;
  byId('cut-dialog-title').textContent = say('cut.title', { n: cut.id });
  byId('cut-dialog-body').replaceChildren(...figure(cut),
    element('p', { class: 'how' }, words.outcome(cut.outcome)), ...warnings(cut), element('p', { class: 'also' }, told(cut)));
  byId('cut-picture').src = `/api/v1/cuts/${cut.id}/cut.svg?at=${Date.now()}`;
  byId('cut-place').value = cut.place_mm ?? '';
  byId('aside-reason').value = '';
  byId('cut-place-form').hidden = !cut.stage;
  byId('aside-form').hidden = !cut.stage || Boolean(cut.set_aside);
  byId('cut-count-again').hidden = !cut.set_aside;
  const stages = known[cut.session ?? here] ?? [];
  byId('cut-move-form').hidden = stages.length < (cut.session ? 2 : 1);
  byId('cut-stage').replaceChildren(...stages.map((name) =>
    element('option', { value: name, selected: name === cut.stage }, name)));
  byId('cut-dialog').showModal();
}

let after = () => {};

// Called when something about a cut was changed.
export const whenChanged = (act) => (after = act);

async function done(path, body, said) {
  if (await post(`cuts/${open.id}/${path}`, body)) {
    byId('cut-dialog').close();
    toast(said);
    after();
  }
}

export function begin() {
  byId('cut-dialog-close').addEventListener('click', () => byId('cut-dialog').close());
  onSubmit('cut-place-form', () => {
    const text = byId('cut-place').value;
    done('place', text === '' ? {} : { mm: Number(text) }, say('cut.place_noted'));
  });
  onSubmit('cut-move-form', () => done('move',
    { stage: byId('cut-stage').value, ...(open.session ? {} : { session: here }) }, say('cut.moved')));
  byId('cut-count-again').addEventListener('click', () => done('count-again', {}, say('cut.counts_again')));
  onSubmit('aside-form', () =>
    done('set-aside', { reason: byId('aside-reason').value }, say('cut.aside_done')));
}
