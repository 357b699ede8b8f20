// Work at the rig: a look at it, a check mass, a guided calibration. One at a time.

import { button, byId, element, fill } from './dom.js';
import { get, onSecondPress, onSubmit, post, toast } from './acts.js';
import { picture } from './sessions.js';
import { named, say } from './say.js';
import { day, number, whole } from './words.js';

const RIG = 0;

let work;
let unfinished = false;
let known = '';

function asked(step) {
  return say(`work.${step.do}`, { load: step.load, seconds: Math.round(step.seconds ?? 0) });
}

// How far a reading has settled: both bars must get below the mark at their middle.
function settling(now) {
  const row = (name, value, limit) => [
    element('dt', {}, say(`work.${name}`)),
    element('dd', {}, element('meter', { min: 0, max: 2, optimum: 0, high: 1, low: 1, value: Math.min(2, limit > 0 ? value / limit : 2),
      'aria-label': say(`work.${name}`) }), ' ', say('work.of_limit', { value: whole(value), limit: whole(limit) }))];
  return element('dl', { class: 'facts' },
    ...row('drift', now.settling.drift_counts, now.settling.drift_limit_counts),
    ...row('scatter', now.settling.scatter_counts, now.settling.scatter_limit_counts));
}

function refused(why) {
  return element('div', { class: 'refused', role: 'alert' },
    element('p', {}, say('work.not_counted', { why: why.message })),
    ...(why.remedy ? [element('p', {}, say('work.remedy', { what: why.remedy }))] : []));
}

function readings(now) {
  if (!now.readings?.length) return [];
  return [element('details', {}, element('summary', {}, say('work.readings', { n: now.readings.length })),
    element('ul', {}, ...now.readings.map((r) => element('li', {},
      say('work.reading', { step: asked(r.step), counts: whole(r.counts), sd: number(r.sd_counts, 1), n: r.samples })))))];
}

function progress(now) {
  if (now.work !== 'calibration') return [];
  return [element('p', { class: 'note' }, say('work.progress', { run: now.run, runs: now.runs, taken: now.taken, of: now.of }))];
}

function waiting(now) {
  return [
    ...progress(now),
    ...(now.refused ? [refused(now.refused)] : []),
    element('p', { class: 'ask' }, asked(now.step)),
    button(say('work.confirm'), confirmStep, { class: 'main-act', id: 'work-confirm' }),
    ...readings(now),
  ];
}

function running(now) {
  const what = now.phase === 'resting' ? 'work.resting' : 'work.settling';
  return [...progress(now), element('p', { class: 'ask' }, say(what)), settling(now), ...readings(now)];
}

function looking(now) {
  return [
    element('p', { class: 'ask' }, say('work.looking')),
    element('progress', { max: now.of_seconds, value: now.seconds, 'aria-label': say('work.looking') }),
  ];
}

function finding(line) {
  return element('li', { class: `finding ${line.grade}` },
    element('b', {}, `${named('grade', line.grade)}: ${named('look', line.check)}`),
    element('span', {}, say('look.measured', { measured: line.measured, expected: line.expected })),
    ...(line.grade === 'pass' ? [] : [element('span', {}, say('look.advice', { remedy: line.remedy, meaning: line.meaning }))]));
}

function checked(result) {
  return [
    element('p', { class: result.within ? 'verdict' : 'verdict warn' }, say(result.within ? 'check.within' : 'check.out')),
    element('p', {}, say('check.figures', { known: number(result.known_gf, 2), shown: number(result.shown_gf, 2),
      error: number(result.error_percent, 3), limit: number(result.limit_percent, 3) })),
    ...(result.within ? [] : [element('p', {}, say('check.remedy'))]),
  ];
}

const record = (id) => `/api/v1/calibrations/${encodeURIComponent(id)}`;

export function records(id) {
  return element('p', { class: 'acts' },
    element('a', { class: 'button', href: `${record(id)}/record`, target: '_blank', rel: 'noopener' }, say('calibrate.record')),
    element('a', { class: 'button', href: `${record(id)}/record?save=true`, download: '' }, say('calibrate.save')));
}

function made(id) {
  return [
    element('p', { class: 'verdict' }, say('calibrate.done')),
    element('p', { class: 'note' }, say('calibrate.used', { id })),
    records(id),
    picture(`${record(id)}/curve.svg`, say('plot.calibration')),
  ];
}

function ended(now) {
  if (now.failed) return [element('p', { class: 'warn' }, now.failed)];
  if (now.findings) return [element('ul', { class: 'plain stack' }, ...now.findings.map(finding))];
  if (now.result) return checked(now.result);
  return now.calibration ? made(now.calibration) : [element('p', {}, say('work.reckoning'))];
}

function parts(now) {
  if (now.failed) return ended(now);
  if (now.phase === 'waiting_for_person') return waiting(now);
  if (now.phase === 'settling' || now.phase === 'resting') return running(now);
  return now.phase === 'looking' ? looking(now) : ended(now);
}

const isDone = (now) => Boolean(now.failed || now.findings || now.result || now.calibration);

async function confirmStep() {
  await post(`rigs/${RIG}/work/confirm`, {});
}

function show(now) {
  work = now;
  const key = JSON.stringify(now ?? {});
  if (key === known) return;
  known = key;
  byId('work').hidden = !now;
  byId('work-forms').hidden = Boolean(now);
  if (!now) return;
  const held = document.activeElement?.id;
  byId('work-title').textContent = say(`work.title_${now.work}`);
  byId('work-body').replaceChildren(...parts(now));
  byId('work-stop').hidden = isDone(now);
  byId('work-close').hidden = !isDone(now);
  if (held === 'work-confirm') byId('work-confirm')?.focus();
  byId('work-off').hidden = !isDone(now) || now.work === 'look';
  if (isDone(now)) list();
}

export function state(rigs) {
  const rig = rigs[RIG];
  unfinished = Boolean(rig?.unfinished_calibration);
  byId('calibrate-unfinished').hidden = !unfinished;
  show(rig?.work);
}

function calibrationRow(c) {
  const made = new Date(c.made).getTime() > 0;
  const facts = { id: c.id.slice(0, 12), from: number(c.from_gf, 0), to: number(c.to_gf, 0), rig: c.device_id ?? say('calibrate.any_rig') };
  return element('li', {}, element('a', { class: 'row', href: `${record(c.id)}/record`, target: '_blank', rel: 'noopener' },
    element('b', {}, made ? day(c.made) : say('rig.typed_in')),
    element('span', {}, say(made ? 'calibrate.line' : 'calibrate.typed_in', facts))));
}

async function list() {
  const said = await get('calibrations');
  if (!said) return;
  byId('calibration-none').hidden = said.calibrations.length > 0;
  byId('calibration-list').replaceChildren(...said.calibrations.map(calibrationRow));
  byId('checks-picture').src = byId('checks-box').href = `/api/v1/rigs/${RIG}/checks.svg?at=${Date.now()}`;
}

async function ports() {
  const said = await get('ports');
  if (!said) return;
  const none = [element('li', {}, say('rig.no_port'))];
  byId('port-list').replaceChildren(...(said.ports.length ? said.ports.map((port) => element('li', {},
    [port.port, port.description, port.in_use && say('rig.port_in_use')].filter(Boolean).join(', '))) : none));
}

export function open() {
  list();
  ports();
  byId('response-picture').src = byId('response-box').href = `/api/v1/rigs/${RIG}/response.svg?at=${Date.now()}`;
}

// A picture that there is nothing for yet is not shown, nor what is said of it.
function shownIfThere(name) {
  const parts = [`${name}-box`, `${name}-note`].map(byId).filter(Boolean);
  const shown = (here) => parts.forEach((part) => (part.hidden = !here));
  byId(`${name}-picture`).addEventListener('error', () => shown(false));
  byId(`${name}-picture`).addEventListener('load', () => shown(true));
}

// Masses as typed: sizes in g take the class beside them; whoever knows more writes it out.
function loads() {
  return byId('calibrate-masses').value.split(/[\s,;]+/).filter(Boolean)
    .map((word) => (/^[\d.]+g?$/.test(word) ? `${word.replace(/g$/, '')}g:${byId('calibrate-class').value}` : word));
}

const figure = (id) => (byId(id).value === '' ? undefined : Number(byId(id).value));

function place() {
  return byId('calibrate-anywhere').checked
    ? { anywhere: true }
    : { latitude_degrees: figure('calibrate-latitude'), height_metres: figure('calibrate-height') };
}

export function usual(set) {
  for (const name of ['latitude', 'height']) {
    const value = set[name === 'latitude' ? 'latitude_degrees' : 'height_metres'];
    if (value !== undefined && byId(`calibrate-${name}`).value === '') byId(`calibrate-${name}`).value = value;
  }
}

async function begins(path, body) {
  if (await post(`rigs/${RIG}/${path}`, body)) byId('work').scrollIntoView();
}

export function begin() {
  onSubmit('look-form', () => begins('look', { seconds: figure('look-seconds') }));
  onSubmit('check-form', () => begins('check', {
    load: `${byId('check-mass').value}g:${byId('check-class').value}`, ...place() }));
  onSubmit('calibrate-form', () => begins('calibration', {
    loads: loads(), runs: figure('calibrate-runs'), hold_s: figure('calibrate-hold'),
    polarity: Number(byId('calibrate-polarity').value), fresh: unfinished, ...place() }));
  byId('calibrate-resume').addEventListener('click', () => begins('calibration', { resume: true }));
  onSecondPress(byId('work-stop'), say('work.stop_sure'), async () => {
    if (await post(`rigs/${RIG}/work/stop`, {})) toast(say('work.stopped'));
  });
  byId('work-close').addEventListener('click', () => post(`rigs/${RIG}/work/stop`, {}));
  ['checks', 'response'].forEach(shownIfThere);
}
