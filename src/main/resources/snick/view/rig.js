// How the rig is doing, in words.

import { byId, element, fill } from './dom.js';
import { age, number, whole } from './words.js';

const LINKS = {
  opening: 'Opening the port',
  awaiting_rig: 'Waiting for the rig: plug it in',
  awaiting_hello: 'Waiting for the rig to answer',
  recording: 'Recording',
  silent: 'Silent: is the rig powered?',
  lost: 'Unplugged: waiting for it to come back',
  ended: 'Ended',
};

function lost(rig) {
  return rig.lost_samples === 0 ? 'nothing lost' : `${whole(rig.lost_samples)} samples lost`;
}

const UNKNOWN = 'not known yet';

function rate(rig, places) {
  return rig.rate_hz === undefined ? UNKNOWN : `${number(rig.rate_hz, places)} samples a second`;
}

function noise(rig) {
  if (rig.noise_counts === undefined) return UNKNOWN;
  const size = rig.noise_gf === undefined
    ? `${number(rig.noise_counts, 0)} counts`
    : `${number(Math.abs(rig.noise_gf), 3)} gf`;
  return `${size}, one standard deviation`;
}

function calibration(rig) {
  if (!rig.calibrated) return 'none: cuts stay in counts';
  if (rig.calibration_age_s === undefined) return 'typed in, without a date';
  const old = `${age(rig.calibration_age_s)} old`;
  return rig.calibration_expired ? `expired, ${old}: calibrate again` : old;
}

function verification(rig) {
  if (rig.verified_age_s === undefined) return 'never verified: put a check mass on';
  return `${age(rig.verified_age_s)} ago, ${rig.verified_within_limit ? 'within limits' : 'NOT within limits'}`;
}

function facts(rig) {
  return [
    ['Port', rig.port],
    ['Link', LINKS[rig.link] ?? rig.link],
    ['Rate', rate(rig, 2)],
    ['Loss', lost(rig)],
    ['Noise', noise(rig)],
    ...(rig.zero_drift_gf === undefined ? [] : [['Zero drift', `${number(rig.zero_drift_gf, 2)} gf since the start`]]),
    ['Calibration', calibration(rig)],
    ['Verification', verification(rig)],
  ];
}

function line(state) {
  if (!state.storing) return `NOT STORING: ${state.waiting} cuts wait; free disk space`;
  return state.rigs
    .map((rig) => [
      LINKS[rig.link] ?? rig.link,
      ...(rig.rate_hz === undefined ? [] : [rate(rig, 1)]),
      lost(rig),
      ...(rig.calibrated ? [] : ['not calibrated']),
    ].join(', '))
    .join(' · ');
}

/** A fault in words, its kind but once. */
function told(fault) {
  const named = fault.text.startsWith(fault.kind) ? fault.text : `${fault.kind}: ${fault.text}`;
  return fault.count === 1 ? named : `${named} (${fault.count} times)`;
}

export function show(state) {
  const good = state.recording && state.storing;
  const text = byId('rig-line');
  if (text.textContent !== line(state)) text.textContent = line(state);
  text.classList.toggle('bad', !good);
  fill(byId('rig-facts'), state.rigs.map(facts), () => state.rigs.flatMap((rig) =>
    facts(rig).flatMap(([name, value]) => [element('dt', {}, name), element('dd', {}, value)])));
  fill(byId('faults'), state.faults, () => state.faults.map((fault) =>
    element('li', { class: 'warn' }, told(fault))));
}
