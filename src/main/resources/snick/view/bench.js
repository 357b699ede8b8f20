// The page: takes events and hands each to the part that shows it.

import { button, byId, element, fill } from './dom.js';
import { onSecondPress, onSubmit, post, toast } from './acts.js';
import { say } from './say.js';
import { watch } from './stream.js';
import * as aloud from './aloud.js';
import * as blades from './blades.js';
import * as cut from './cut.js';
import * as edge from './edge.js';
import * as ended from './ended.js';
import * as inspect from './inspect.js';
import * as mend from './mend.js';
import * as nav from './nav.js';
import * as rig from './rig.js';
import * as sessions from './sessions.js';
import * as stages from './stages.js';
import * as steps from './steps.js';
import * as trace from './trace.js';
import * as work from './work.js';
import { clock } from './words.js';

const USUAL_STAGES = ['deburred', 'coarse', 'fine', 'strop'];

let bench = {};
let run;

const options = (texts) => texts.map((text) => element('option', { value: text }, text));

function showBench(now) {
  bench = now;
  const session = now.session;
  cut.onBench(session);
  cut.show(now.last_cut);
  edge.show(now);
  inspect.show(session);
  stages.show(session);
  steps.show(session);
  ended.show(now);
  sessions.usual(now.usual);
  work.usual(now.usual);
  aloud.keepAwake(Boolean(session));
  byId('start').hidden = Boolean(session);
  byId('session').hidden = !session;
  const stage = session?.stages.at(-1);
  byId('where').textContent = session ? `${session.blade} · ${stage?.name ?? say('session.no_stage')}` : say('session.none');
  advise();
  byId('undo').disabled = !now.undo;
  byId('undo').textContent = now.undo ? say('undo.what', { what: now.undo }) : say('undo.nothing');
  fill(byId('blades'), now.blades, () => options(now.blades));
  fill(byId('lot'), now.filament_lots, () => [element('option', { value: '' }, say('start.lot_none')), ...mend.lots(now.filament_lots)]);
  mend.knowsLots(now.filament_lots);
}

// A recorder that was started anew has another token: the page is loaded anew, but not under a
// dialog that is being filled in.
function showState(now) {
  run ??= now.run;
  if (run !== now.run && !document.querySelector('dialog[open]')) location.reload();
  rig.show(now);
  trace.state(now.rigs);
  work.state(now.rigs);
}

const TAKES = {
  bench: showBench,
  state: showState,
  cut: (now) => {
    cut.show(now);
    aloud.cut(now);
  },
  trace: trace.whole,
  points: trace.more,
  missed: (now) => trace.frames(now.frames),
};

function linked(here) {
  byId('banner').hidden = here;
  if (!here) byId('rig-line').textContent = say('rig.not_connected');
  byId('rig-facts').hidden = !here;
  trace.linked(here);
  if (!here && byId('banner').textContent === '') {
    byId('banner').textContent = say('page.lost', { at: clock(new Date()) });
    aloud.sound('lost');
  }
  if (here) byId('banner').textContent = '';
}

function forms() {
  onSubmit('start-form', async () => {
    const body = { blade: byId('blade').value, first_stage: byId('first-stage').value };
    if (byId('edge-length').value) body.edge_length_mm = Number(byId('edge-length').value);
    if (byId('lot').value) body.filament_lot = byId('lot').value;
    if (await post('sessions', body)) toast(say('start.done'));
  });
  onSubmit('stage-form', async () => {
    if (await post('session/stages', { name: byId('stage-name').value, session: bench.session?.name })) {
      byId('stage-name').value = '';
      named();
      toast(say('next.begun'));
    }
  });
  fill(byId('stage-usual'), 'usual', () => USUAL_STAGES.map((name) => say(`next.usual_${name}`)).map((name) =>
    button(name, () => {
      byId('stage-name').value = name;
      named();
      byId('stage-begin').focus();
    })));
  byId('stage-name').addEventListener('input', named);
  byId('undo').addEventListener('click', undo);
  byId('mend').addEventListener('click', () => mend.open(bench.session, () => {}));
  onSecondPress(byId('close-session'), say('session.end_sure'), async () => {
    if (await post('session/close', { session: bench.session?.name })) toast(say('session.ended'));
  });
}

// What to do next: a stage that was only typed is not begun.
function advise() {
  const stage = byId('stage-name').value.trim();
  const text = bench.session ? (stage ? say('next.pending', { stage }) : bench.session.coach ?? '') : '';
  for (const id of ['coach', 'bar-next']) if (byId(id).textContent !== text) byId(id).textContent = text;
}

// The button says which stage it begins: a press on a usual one only fills it in.
function named() {
  const stage = byId('stage-name').value.trim();
  byId('stage-begin').textContent = stage ? say('next.begin_named', { stage }) : say('next.begin');
  advise();
}

async function undo() {
  if (bench.undo && (await post('session/undo', {}))) toast(say('undo.done'));
}

const KEYS = {
  n: () => byId('stage-name').focus(),
  p: () => byId('place-mm').focus(),
  i: () => byId('inspect-pad').querySelector('[data-finding]')?.focus(),
  s: () => (byId('step-recent').querySelector('button') ?? byId('step-other').querySelector('summary')).focus(),
  a: () => byId('edit-last')?.click(),
  u: undo,
};

function keys() {
  byId('keys-on').checked = localStorage.getItem('keys') !== 'off';
  byId('keys-on').addEventListener('change', (event) =>
    localStorage.setItem('keys', event.target.checked ? 'on' : 'off'));
  document.addEventListener('keydown', (event) => {
    const typing = event.target.closest('input:not([type=checkbox]), select, dialog');
    if (typing || event.ctrlKey || event.altKey || event.metaKey || !byId('keys-on').checked) return;
    if (KEYS[event.key] && !byId('view-bench').hidden) {
      event.preventDefault();
      KEYS[event.key]();
    }
  });
}

blades.begin();
cut.begin();
cut.whenChanged(sessions.refresh);
edge.begin();
ended.begin(() => bench);
mend.begin();
sessions.begin();
stages.compares('bench', () => bench.session);
steps.begin();
trace.begin();
work.begin();
aloud.begin();
forms();
keys();
nav.onOpen('sessions', sessions.open);
nav.onOpen('rig', work.open);
nav.onOpen('blades', blades.open);
nav.begin();
watch((kind, data) => TAKES[kind](data), linked);
