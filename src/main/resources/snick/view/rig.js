// How the rig is doing, in words.

import { byId, element, fill } from './dom.js';
import { count, named, say } from './say.js';
import { age, clock, number, whole } from './words.js';

function lost(rig) {
  return rig.lost_samples === 0 ? say('rig.nothing_lost') : count('rig.lost', rig.lost_samples, { n: whole(rig.lost_samples) });
}

function rate(rig, places) {
  return rig.rate_hz === undefined ? say('rig.unknown') : say('rig.rate_of', { n: number(rig.rate_hz, places) });
}

function noise(rig) {
  if (rig.noise_counts === undefined) return say('rig.unknown');
  return rig.noise_gf === undefined
    ? say('rig.noise_counts', { n: number(rig.noise_counts, 0) })
    : say('rig.noise_gf', { gf: number(Math.abs(rig.noise_gf), 3) });
}

function calibration(rig) {
  if (!rig.calibrated) return say('rig.uncalibrated');
  if (rig.calibration_age_s === undefined) return say('rig.typed_in');
  const values = { age: age(rig.calibration_age_s) };
  return rig.calibration_expired ? say('rig.expired', values) : say('rig.old', values);
}

function verification(rig) {
  if (rig.verified_age_s === undefined) return say('rig.never_checked');
  return say(rig.verified_within_limit ? 'rig.checked' : 'rig.checked_out', { age: age(rig.verified_age_s) });
}

function facts(rig) {
  return [
    [say('rig.port'), rig.port],
    [say('rig.link'), link(rig)],
    [say('rig.rate'), rate(rig, 2)],
    [say('rig.loss'), lost(rig)],
    [say('rig.noise'), noise(rig)],
    ...(rig.zero_drift_gf === undefined ? [] : [[say('rig.drift'), say('rig.drift_of', { gf: number(rig.zero_drift_gf, 2) })]]),
    [say('rig.calibration'), calibration(rig)],
    [say('rig.check'), verification(rig)],
  ];
}

const link = (rig) => named('link', rig.link);

function line(state) {
  if (!state.storing) return say('rig.not_storing', { n: state.waiting });
  return state.rigs
    .map((rig) => {
      if (rig.work) return say('rig.at_work', { what: say(`work.title_${rig.work.work}`) });
      if (rig.link !== 'recording') return link(rig);
      return [
        link(rig),
        ...(rig.rate_hz === undefined ? [] : [rate(rig, 1)]),
        lost(rig),
        ...(rig.calibrated ? [] : [say('rig.not_calibrated')]),
        ...(rig.verified_within_limit === false ? [say('rig.check_failed')] : []),
      ].join(', ');
    })
    .join(' · ');
}

// What is over once the rig is read again.
const OF_THE_LINK = ['link lost', 'port', 'silence', 'not understood', 'waiting for the rig'];

/** A fault in words: when, how often, and whether it is over. */
function told(fault, reading) {
  const what = reading && OF_THE_LINK.includes(fault.kind) ? say('rig.over', { what: fault.text }) : fault.text;
  const times = { what, n: fault.count, from: clock(fault.first), to: clock(fault.last) };
  return say(fault.count === 1 ? 'rig.once' : 'rig.times', times);
}

export function show(state) {
  const good = state.recording && state.storing && !state.rigs.some((rig) => rig.work);
  const text = byId('rig-line');
  if (text.textContent !== line(state)) text.textContent = line(state);
  text.classList.toggle('bad', !good);
  fill(byId('rig-facts'), state.rigs.map(facts), () => state.rigs.flatMap((rig) =>
    facts(rig).flatMap(([name, value]) => [element('dt', {}, name), element('dd', {}, value)])));
  const reading = state.rigs.every((rig) => rig.link === 'recording');
  fill(byId('faults'), [state.faults, reading], () => state.faults.map((fault) =>
    element('li', { class: 'warn' }, told(fault, reading))));
}
