// Figures and codes in words.

import { count, named, say } from './say.js';

export const burr = (word) => named('burr', word);
export const outcome = (word) => named('outcome', word);
export const flag = (word) => named('flag', word);
export const change = (word) => named('change', word);
export const finding = (word) => named('finding', word);
export const method = (word) => named('method', word);
export const side = (word) => named('side', word);
export const direction = (word) => named('direction', word);
export const pressure = (word) => named('pressure', word);

// Decimals that leave two figures in an uncertainty (JCGM 100:2008, 7.2.6).
export function decimals(uncertainty) {
  if (!(uncertainty > 0)) return 1;
  return Math.min(2, Math.max(0, 1 - Math.floor(Math.log10(uncertainty))));
}

export const number = (value, places) => value.toFixed(places).replace('-', '\u2212');
export const signed = (value, places) => `${value > 0 ? '+' : ''}${number(value, places)}`;

export const whole = (value) =>
  Math.round(value).toString().replace(/\B(?=(\d{3})+$)/g, '\u202f').replace('-', '\u2212');

export function force(f) {
  const places = decimals(f.expanded_gf);
  return {
    value: number(f.force_gf, places),
    uncertainty: say('force.uncertainty', { u: number(f.expanded_gf, places) }),
    newtons: say('force.newtons', { n: f.force_n.toPrecision(4) }),
  };
}

// A mean with its interval, as long as there is one.
export function mean(f) {
  if (!f.ci95_gf) return count('stage.mean_alone', f.n, { mean: number(f.mean_gf, 1) });
  const places = decimals((f.ci95_gf[1] - f.ci95_gf[0]) / 2);
  const [low, high] = f.ci95_gf.map((v) => number(Math.max(0, v), places));
  return say('stage.mean', { mean: number(f.mean_gf, places), low, high, n: f.n });
}

export function difference(verdict) {
  const interval = verdict.difference_ci95_gf;
  if (!interval) return say('compare.difference_alone', { by: signed(verdict.difference_gf, 1) });
  const places = decimals((interval[1] - interval[0]) / 2);
  const [low, high] = interval.map((v) => signed(v, places));
  return say('compare.difference', { by: signed(verdict.difference_gf, places), low, high });
}

export function step(s) {
  const parts = [
    s.grit === undefined ? undefined : say('step.grit_of', { n: s.grit }),
    s.micron === undefined ? undefined : say('step.micron_of', { n: s.micron }),
    s.direction && direction(s.direction),
    s.strokes_per_side === undefined ? undefined : count('step.strokes_of', s.strokes_per_side),
    s.pressure && pressure(s.pressure),
    s.note,
  ];
  return { head: s.abrasive, rest: parts.filter(Boolean).join(', ') };
}

export function age(seconds) {
  if (seconds < 60) return say('age.under_a_minute');
  const [length, name] = [[86400, 'days'], [3600, 'hours'], [60, 'minutes']].find(([s]) => seconds >= s);
  return count(`age.${name}`, Math.floor(seconds / length));
}

const two = (n) => String(n).padStart(2, '0');
export const clock = (iso) => new Date(iso).toLocaleTimeString('en-GB');
export function day(iso) {
  const at = new Date(iso);
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())} ${two(at.getHours())}:${two(at.getMinutes())}`;
}
