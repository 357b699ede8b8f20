// Stages side by side, each with the interval of its mean and how it compares with the one before;
// and any two of them compared.

import { byId, drawn, element, fill } from './dom.js';
import { get, onSubmit } from './acts.js';
import { count, say } from './say.js';
import * as words from './words.js';

function limits(stages) {
  const ends = stages.flatMap((s) => (s.figures ? s.figures.ci95_gf ?? [s.figures.mean_gf] : []));
  return ends.length ? [0, Math.max(...ends) * 1.05 || 1] : undefined;
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
    // No force is below nothing, whatever an interval of two scattered cuts says.
    const [low, high] = (figures.ci95_gf ?? [figures.mean_gf, figures.mean_gf]).map((v) => Math.max(0, v));
    svg.append(
      drawn('line', { class: 'range', x1: at(low), x2: at(high), y1: '50%', y2: '50%' }),
      drawn('circle', { cx: at(figures.mean_gf), cy: '50%', r: '0.45em' }));
  }
  return svg;
}

function ends(stages) {
  const [low, high] = limits(stages);
  return element('p', { class: 'scale note' },
    element('span', {}, `${words.number(low, 0)} gf`),
    element('a', { href: '#words/interval' }, say('stages.bars')),
    element('span', {}, `${words.number(high, 0)} gf`));
}

function figures(stage) {
  if (stage.figures) return words.mean(stage.figures);
  return stage.cuts_made ? count('stage.forceless', stage.cuts_made) : say('stage.no_cut');
}

function findings(stage) {
  const ways = [...new Set(stage.inspections.map((i) => i.method))];
  const said = ways.map((way) => `${words.method(way)} (${stage.inspections.filter((i) => i.method === way)
    .map((i) => `${words.side(i.side)}: ${words.finding(i.finding)}`).join(', ')})`);
  return said.length ? say('stage.inspected', { what: said.join(', ') }) : say('stage.not_inspected');
}

function work(stage) {
  const said = stage.steps.map((step) => {
    const { head, rest } = words.step(step);
    return rest ? `${head} (${rest})` : head;
  });
  return said.length ? [element('p', { class: 'note' }, say('stage.work', { what: said.join('; ') }))] : [];
}

export function why(title, lines) {
  return element('details', {},
    element('summary', {}, title),
    element('ul', {}, ...lines.map((reason) => element('li', {}, reason.says,
      element('p', { class: 'note' }, say('stage.rule', { rule: reason.rule, what: reason.would_change }))))),
    element('p', { class: 'note' }, element('a', { href: '#words' }, say('words.of_reasons'))));
}

export function verdict(v) {
  return [
    element('p', { class: 'verdict', 'data-change': v.change }, words.change(v.change)),
    element('p', { class: 'stage-figures' }, words.difference(v)),
    ...(v.more_cuts ? [element('p', { class: 'note' }, say('compare.more', { what: v.more_cuts }))] : []),
    why(say('stage.why'), v.reasons),
  ];
}

function row(stage, running, at) {
  const here = stage.order === running;
  return element('article', { class: here ? 'stage running' : 'stage' },
    element('h3', {}, `${stage.order} ${stage.name}${here ? ` (${say('stage.current')})` : ''}`),
    bar(stage.figures, at),
    element('p', { class: 'stage-figures' }, figures(stage)),
    ...(stage.verdict ? verdict(stage.verdict) : []),
    ...(stage.burr ? [element('p', { class: 'burr', 'data-burr': stage.burr.burr }, words.burr(stage.burr.burr)),
      why(say('stage.evidence'), [...stage.burr.reasons, stage.burr.rule])] : []),
    ...work(stage),
    element('p', { class: 'note' }, findings(stage)));
}

export function rows(session) {
  const at = scale(session.stages);
  const running = session.closed ? undefined : session.running_stage;
  const made = [...session.stages].reverse().map((stage) => row(stage, running, at));
  return at ? [...made, ends(session.stages)] : made;
}

export function margin(session) {
  return session.margin_gf === undefined
    ? say('margin.none')
    : say('margin.is', { gf: words.number(session.margin_gf, 1), from: session.margin_from ?? '' });
}

// A form that compares any two stages of the session that `current` gives.
export function compares(prefix, current) {
  onSubmit(`${prefix}-compare`, async () => {
    const session = current();
    const at = (id) => encodeURIComponent(byId(`${prefix}-${id}`).value);
    const said = await get(`sessions/${session.number}/comparison?first=${at('first')}&second=${at('second')}`);
    if (!said) return;
    byId(`${prefix}-compared`).replaceChildren(
      element('p', {}, say('compare.what', { first: said.first.stage, second: said.second.stage })),
      ...verdict(said));
  });
}

export function offer(prefix, session) {
  const names = session.stages.map((stage) => stage.name);
  byId(`${prefix}-compare`).hidden = names.length < 2;
  for (const [id, chosen] of [['first', 0], ['second', names.length - 1]]) {
    fill(byId(`${prefix}-${id}`), [session.number, names], () => {
      byId(`${prefix}-compared`).replaceChildren();
      return names.map((name, i) => element('option', { value: name, selected: i === chosen }, name));
    });
  }
}

export function show(session) {
  byId('stages').hidden = !session;
  if (!session) return;
  fill(byId('stage-rows'), [session.stages, session.running_stage], () => rows(session));
  fill(byId('margin'), margin(session), () => [margin(session), ' ',
    ...(session.margin_gf === undefined ? [element('a', { href: `#blades/${encodeURIComponent(session.blade)}` }, say('margin.set')), ' '] : []),
    element('a', { href: '#words/margin' }, say('words.what'))]);
  offer('bench', session);
}
