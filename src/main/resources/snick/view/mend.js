// Mending a session: its name and blade, its stages; and opening it again.

import { byId, element } from './dom.js';
import { onSecondPress, onSubmit, post, toast } from './acts.js';
import { say } from './say.js';

let session;
let after = () => {};
let known = [];

// Filament lots to choose from, each with what tells it from others.
export const lots = (all, chosen) => all.map((lot) =>
  element('option', { value: lot.name, selected: lot.name === chosen }, `${lot.name} (${lot.what})`));

export const knowsLots = (all) => (known = all);

const options = (names, chosen) =>
  names.map((name) => element('option', { value: name, selected: name === chosen }, name));

export function open(chosen, whenDone) {
  session = chosen;
  after = whenDone;
  const names = session.stages.map((stage) => stage.name);
  const last = names.at(-1);
  byId('mend-title').textContent = say('mend.title', { session: session.name });
  byId('mend-stage').replaceChildren(...options(names, last));
  byId('mend-merged').replaceChildren(...options(names, last));
  byId('mend-into').replaceChildren(...options(names, names.at(-2)));
  byId('mend-merge-form').hidden = names.length < 2;
  byId('mend-name').value = '';
  byId('mend-session').value = session.name;
  byId('mend-blade').value = session.blade;
  byId('mend-lot').replaceChildren(element('option', { value: '' }, say('start.lot_none')), ...lots(known, session.filament_lot));
  byId('mend-lot-form').hidden = known.length === 0;
  byId('mend-dialog').showModal();
}

async function mended(path, body, said) {
  if (await post(`sessions/${session.number}/${path}`, body)) {
    byId('mend-dialog').close();
    toast(say(said));
    after();
  }
}

export async function reopen(chosen, whenDone) {
  if (await post(`sessions/${chosen.number}/reopen`, {})) {
    toast(say('ended.reopened'));
    whenDone();
  }
}

export function begin() {
  byId('mend-close').addEventListener('click', () => byId('mend-dialog').close());
  onSubmit('mend-rename-form', () => mended('stages/rename',
    { stage: byId('mend-stage').value, name: byId('mend-name').value }, 'mend.renamed'));
  onSubmit('mend-merge-form', () => {});
  onSecondPress(byId('mend-merge'), say('mend.merge_sure'), () => mended('stages/merge',
    { stage: byId('mend-merged').value, into: byId('mend-into').value }, 'mend.merged'));
  onSubmit('mend-session-form', () => mended('rename', { name: byId('mend-session').value }, 'mend.session_renamed'));
  onSubmit('mend-lot-form', () => mended('filament-lot',
    byId('mend-lot').value ? { filament_lot: byId('mend-lot').value } : {}, 'mend.lot_changed'));
  onSubmit('mend-blade-form', () => mended('blade', { blade: byId('mend-blade').value }, 'mend.blade_changed'));
}
