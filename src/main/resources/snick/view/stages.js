// Stages side by side, each with the interval of its mean and how it compares with the one before.

import { byId, drawn, element, fill } from './dom.js';
import * as words from './words.js';

function limits(stages) {
  const ends = stages.flatMap((s) => (s.figures ? s.figures.ci95_gf ?? [s.figures.mean_gf] : []));
  return ends.length ? [Math.min(0, ...ends), Math.max(...ends) * 1.05 || 1] : undefined;
}

function scale(stages) {
  const found = limits(stages);
  if (!found) return undefined;
  const [low, high] = found;
  return (gf) => `${(100 * (gf - low)) / (high - low)}%`;
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

function ends(stages) {
  const [low, high] = limits(stages);
  return element('p', { class: 'scale note' },
    element('span', {}, `${words.number(low, 0)} gf`), element('span', {}, `${words.number(high, 0)} gf`));
}

function figures(stage) {
  const f = stage.figures;
  if (!f) return stage.cuts_made ? `${stage.cuts_made} ${stage.cuts_made === 1 ? 'cut' : 'cuts'} made, without a force that counts` : 'no cut yet';
  if (!f.ci95_gf) return `${words.number(f.mean_gf, 1)} gf, one cut`;
  const places = words.decimals((f.ci95_gf[1] - f.ci95_gf[0]) / 2);
  const [low, high] = f.ci95_gf.map((v) => words.number(v, places));
  return `${words.number(f.mean_gf, places)} gf, 95\u202f% ${low} to ${high}, ${f.n} cuts`;
}

function findings(stage) {
  const said = stage.inspections.map((i) => `${i.side}: ${words.plain(i.finding)}`);
  return said.length ? `Inspected: ${said.join(', ')}` : 'Not inspected';
}

function why(title, lines) {
  return element('details', {},
    element('summary', {}, title),
    element('ul', {}, ...lines.map((reason) => element('li', {}, reason))));
}

function row(stage, running, at) {
  const verdict = stage.verdict;
  return element('article', { class: stage.order === running ? 'stage running' : 'stage' },
    element('h3', {}, `${stage.order} ${stage.name}${stage.order === running ? ' (running)' : ''}`),
    bar(stage.figures, at),
    element('p', { class: 'stage-figures' }, figures(stage)),
    ...(verdict ? [element('p', { class: 'verdict', 'data-change': verdict.change }, words.change(verdict.change)),
      why('Why', verdict.reasons)] : []),
    ...(stage.burr ? [element('p', { class: 'burr', 'data-burr': stage.burr.burr }, words.burr(stage.burr.burr)),
      why('Evidence', [...stage.burr.reasons, stage.burr.rule])] : []),
    element('p', { class: 'note' }, findings(stage)));
}

export function show(session) {
  byId('stages').hidden = !session;
  if (!session) return;
  fill(byId('stage-rows'), [session.stages, session.running_stage], () => {
    const at = scale(session.stages);
    const rows = [...session.stages].reverse().map((stage) => row(stage, session.running_stage, at));
    return at ? [...rows, ends(session.stages)] : rows;
  });
}
