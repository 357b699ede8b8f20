// Figures and codes in words.

const OUTCOMES = {
  severed: 'Parted at once',
  parted_in_steps: 'Parted in steps',
  released: 'Released, not parted',
  overrange: 'Over range',
  truncated: 'Broken off by the stream',
  disturbed: 'Disturbed',
};

const FLAGS = {
  too_fast_for_rate: 'loaded too fast for this sampling rate',
  zero_moved: 'zero moved',
  spike_near_peak: 'a spike near the peak was left out',
  gap_inside: 'samples are missing inside',
  dips_before_peak: 'the force dipped before the peak',
  uneven_loading: 'uneven loading',
  zero_unsure: 'zero unsure',
};

const CHANGES = {
  lower: 'Keener: it needs less force than before',
  higher: 'It needs more force than before',
  no_difference_shown: 'No difference shown',
  equivalent: 'The difference is shown to be small',
};

const BURRS = {
  likely: 'A burr is likely',
  possible: 'A burr is possible',
  not_indicated: 'No burr is indicated',
};

export const burr = (word) => BURRS[word] ?? plain(word);
export const outcome = (word) => OUTCOMES[word] ?? plain(word);
export const flag = (word) => FLAGS[word] ?? plain(word);
export const change = (word) => CHANGES[word] ?? plain(word);
export const plain = (word) => word.replaceAll('_', ' ');

// Decimals that leave two figures in an uncertainty (JCGM 100:2008, 7.2.6).
export function decimals(uncertainty) {
  if (!(uncertainty > 0)) return 1;
  return Math.min(2, Math.max(0, 1 - Math.floor(Math.log10(uncertainty))));
}

export const number = (value, places) => value.toFixed(places).replace('-', '\u2212');

export const whole = (value) =>
  Math.round(value).toString().replace(/\B(?=(\d{3})+$)/g, '\u202f').replace('-', '\u2212');

export function force(f) {
  const places = decimals(f.expanded_uncertainty_gf);
  return {
    value: number(f.gf, places),
    uncertainty: `± ${number(f.expanded_uncertainty_gf, places)} gf`,
    newtons: `${f.newtons.toPrecision(4)} N`,
  };
}

export function age(seconds) {
  if (seconds < 60) return 'under a minute';
  const steps = [[86400, 'day'], [3600, 'hour'], [60, 'minute']];
  const [length, name] = steps.find(([s]) => seconds >= s);
  const count = Math.floor(seconds / length);
  return `${count} ${name}${count === 1 ? '' : 's'}`;
}

export const clock = (iso) => new Date(iso).toLocaleTimeString('en-GB');
