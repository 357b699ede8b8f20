// Stages side by side, each with the interval of its mean and how it compares with the one before.

import { byId, drawn, element, fill } from './dom.js';
import * as words from './words.js';

function scale(stages) {
  const ends = stages.flatMap((s) => (s.figures ? s.figures.ci95_gf ?? [s.figures.mean_gf] : []));
  if (ends.length === 0) return undefined;
  const low = Math.min(0, ...ends);
  const high = Math.max(...ends) * 1.05 || 1;
  return (gf) => `${1 + (98 * (gf - low)) / (high - low)}%`;
}

function bar(figures, at) {
  const svg = drawn('svg', { class: 'interval', 'aria-hidden': 'true' });
  svg.append(drawn('line', { class: 'axis', x1: '0%', x2: '100%', y1: '50%', y2: '50%' }));
  if (figures && at) {
    const [low, high] = figures.ci95_gf ?? [figures.mean_gf, figures.mean_gf];
    svg.append(
      drawn('line', { class: 'range', x1: at(low), x2: at(high), y1: '50%', y2: '50%' }),
      drawn('circle', { cx: at(figures.mean_gf), cy: '50%', r: '0.45em' }));
  }
  return svg;
}

function figures(f) {
  if (!f) return 'no cut that counts yet';
  if (!f.ci95_gf) return `${words.number(f.mean_gf, 1)} gf, one cut`;
  const places = words.decimals((f.ci95_gf[1] - f.ci95_gf[0]) / 2);
  const [low, high] = f.ci95_gf.map((v) => words.number(v, places));
  return `${words.number(f.mean_gf, places)} gf, 95\u202f% ${low} to ${high}, ${f.n} cuts`;
}

function findings(stage) {
  const said = stage.inspections.map((i) => `${i.side}: ${words.plain(i.finding)}`);
  return said.length ? `Inspected: ${said.join(', ')}` : 'Not inspected';
}

function why(lines) {
  return element('details', {},
    element('summary', {}, 'Why'),
    element('ul', {}, ...lines.map((reason) => element('li', {}, reason))));
}

function row(stage, running, at) {
  const verdict = stage.verdict;
  return element('article', { class: stage.order === running ? 'stage running' : 'stage' },
    element('h3', {}, `${stage.order} ${stage.name}${stage.order === running ? ' (running)' : ''}`),
    bar(stage.figures, at),
    element('p', { class: 'stage-figures' }, figures(stage.figures)),
    ...(verdict ? [element('p', { class: 'verdict', 'data-change': verdict.change }, words.change(verdict.change)),
      why(verdict.reasons)] : []),
    element('p', { class: 'note' }, findings(stage)));
}

export function show(session) {
  byId('stages').hidden = !session;
  if (!session) return;
  fill(byId('stage-rows'), [session.stages, session.running_stage], () => {
    const at = scale(session.stages);
    return [...session.stages].reverse().map((stage) => row(stage, session.running_stage, at));
  });
}
