// Sharpening steps: the last used come first, each one press away.

import { button, byId, element, fill } from './dom.js';
import { get, onSubmit, post, toast } from './acts.js';
import { named, say } from './say.js';
import * as words from './words.js';

const KINDS = ['plate', 'stone', 'rod', 'strop'];
const DIRECTIONS = ['edge_leading', 'edge_trailing', 'alternating'];
const PRESSURES = ['very_light', 'light', 'medium', 'firm'];

let running = {};
let recent = [];
let chosen = {};
let asked = false;

async function note(step) {
  const said = await post('session/steps', { ...step, session: running.session, stage: running.stage });
  if (!said) return false;
  toast(say('step.noted', { step: words.step(step).head, stage: running.stage }));
  await again();
  return true;
}

async function again() {
  recent = (await get('steps'))?.steps ?? recent;
  pads();
}

function one(step) {
  const { head, rest } = words.step(step);
  const made = button('', () => note(step), { class: 'big' });
  made.append(element('b', {}, head), element('span', {}, rest));
  return made;
}

function choice(name, all) {
  return element('div', { class: 'ways', role: 'group', 'aria-label': say(`step.${name}`) },
    ...all.map((word) => button(named(name, word), () => choose(name, word), {
      'aria-pressed': String(chosen[name] === word), 'data-word': word })));
}

function choose(name, word) {
  chosen = { ...chosen, [name]: chosen[name] === word ? undefined : word };
  pads();
  byId('steps').querySelector(`[data-word="${word}"]`)?.focus();
}

function kinds() {
  return KINDS.map((kind) => button(say(`step.kind_${kind}`), () => {
    byId('step-abrasive').value = say(`step.kind_${kind}`);
    byId('step-grit').focus();
  }));
}

function pads() {
  fill(byId('step-recent'), recent, () => recent.map(one));
  byId('step-recent-title').hidden = recent.length === 0;
  fill(byId('step-kinds'), 'kinds', kinds);
  fill(byId('step-direction'), chosen.direction ?? '', () => [choice('direction', DIRECTIONS)]);
  fill(byId('step-pressure'), chosen.pressure ?? '', () => [choice('pressure', PRESSURES)]);
}

const typed = (id) => (byId(id).value === '' ? undefined : Number(byId(id).value));

async function noteTyped() {
  const done = await note({
    abrasive: byId('step-abrasive').value,
    grit: typed('step-grit'),
    micron: typed('step-micron'),
    strokes_per_side: typed('step-strokes'),
    ...chosen,
  });
  if (done) {
    byId('step-form').reset();
    chosen = {};
    pads();
    byId('step-other').open = false;
  }
}

function strokes(by) {
  byId('step-strokes').value = Math.max(0, (typed('step-strokes') ?? 0) + by);
}

export function noted(session, stage, whenDone) {
  return stage.steps.map((step) => {
    const { head, rest } = words.step(step);
    return element('li', { class: 'entry' }, element('span', {}, [head, rest].filter(Boolean).join(': ')),
      button(say('entry.withdraw'), () => withdraw(session, step.entry, whenDone), {
        'aria-label': say('entry.withdraw_what', { what: head }) }));
  });
}

export async function withdraw(session, entry, whenDone) {
  if (!(await post(`sessions/${session.number}/entries/${entry}/withdraw`, {}))) return;
  toast(say('entry.withdrawn'));
  whenDone?.();
}

export function show(session) {
  byId('steps').hidden = !session;
  if (!session) return;
  const stage = session.stages.at(-1);
  running = { session: session.name, stage: stage?.name };
  if (!asked) {
    asked = true;
    again();
  }
  pads();
  byId('step-led').textContent = stage ? say('step.led_to', { stage: stage.name }) : '';
  fill(byId('step-list'), stage?.steps, () => (stage ? noted(session, stage) : []));
}

export function begin() {
  onSubmit('step-form', noteTyped);
  byId('step-fewer').addEventListener('click', () => strokes(-1));
  byId('step-more').addEventListener('click', () => strokes(5));
}
