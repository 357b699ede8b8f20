// The page: takes events and hands each to the part that shows it.

import { byId, element, fill } from './dom.js';
import { onSubmit, post, toast } from './acts.js';
import { watch } from './stream.js';
import * as cut from './cut.js';
import * as edge from './edge.js';
import * as inspect from './inspect.js';
import * as rig from './rig.js';
import * as stages from './stages.js';
import * as trace from './trace.js';

let bench = {};
let run;

const options = (texts) => texts.map((text) => element('option', { value: text }, text));

function showBench(now) {
  bench = now;
  const session = now.session;
  cut.show(now.last_cut);
  edge.show(now);
  inspect.show(session);
  stages.show(session);
  byId('start-form').hidden = Boolean(session);
  byId('running').hidden = !session;
  const stage = session?.stages.at(-1);
  byId('where').textContent = session ? `${session.blade} · ${stage?.name ?? 'no stage'}` : 'No session';
  byId('coach').textContent = session?.coach ?? '';
  byId('undo').disabled = !now.undo;
  byId('undo').textContent = now.undo ? `Undo: ${now.undo}` : 'Undo';
  fill(byId('blades'), now.blades, () => options(now.blades));
  fill(byId('lot'), now.filament_lots, () => [element('option', { value: '' }, 'not noted'), ...options(now.filament_lots)]);
}

// A recorder that was started anew has another token: the page is loaded anew, but not under a
// dialog that is being filled in.
function showState(now) {
  run ??= now.run;
  if (run !== now.run && !byId('cut-dialog').open) location.reload();
  rig.show(now);
  trace.choices(now.rigs);
}

const TAKES = {
  bench: showBench,
  state: showState,
  cut: (now) => cut.show(now),
  trace: trace.whole,
  points: trace.more,
  missed: (now) => trace.frames(now.frames),
};

function linked(here) {
  byId('banner').hidden = here;
  if (!here && byId('banner').textContent === '') {
    byId('banner').textContent = `Connection lost at ${new Date().toLocaleTimeString('en-GB')}: nothing here is live. Trying again.`;
  }
  if (here) byId('banner').textContent = '';
}

function forms() {
  onSubmit('start-form', async () => {
    const body = { blade: byId('blade').value, first_stage: byId('first-stage').value };
    if (byId('edge-length').value) body.edge_length_mm = Number(byId('edge-length').value);
    if (byId('lot').value) body.filament_lot = byId('lot').value;
    if (await post('sessions', body)) toast('Session started. Clamp the blade before you cut.');
  });
  onSubmit('stage-form', async () => {
    if (await post('session/stages', { name: byId('stage-name').value, session: bench.session?.name })) {
      byId('stage-name').value = '';
      toast('Stage begun.');
    }
  });
  byId('undo').addEventListener('click', undo);
  byId('close-session').addEventListener('click', async () => {
    if (await post('session/close', { session: bench.session?.name })) toast('Session ended.');
  });
}

async function undo() {
  if (bench.undo && (await post('session/undo', {}))) toast('Undone; the old entry stays in the record.');
}

const KEYS = {
  n: () => byId('stage-name').focus(),
  p: () => byId('place-mm').focus(),
  i: () => byId('inspect-pad').querySelector('[data-finding]')?.focus(),
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
    if (KEYS[event.key]) {
      event.preventDefault();
      KEYS[event.key]();
    }
  });
}

cut.begin();
edge.begin();
trace.begin();
forms();
keys();
watch((kind, data) => TAKES[kind](data), linked);
