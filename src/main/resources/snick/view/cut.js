// The last cut, large; and the dialog about one cut.

import { button, byId, element, fill } from './dom.js';
import { onSubmit, post, toast } from './acts.js';
import * as words from './words.js';

let open;

function figure(cut) {
  const parted = cut.outcome === 'severed';
  if (parted && cut.force) {
    const f = words.force(cut.force);
    return [
      element('p', { class: 'figure' }, element('b', {}, f.value), ' gf'),
      element('p', { class: 'uncertainty' }, `${f.uncertainty} at 95\u202f%`),
      element('p', { class: 'also' }, f.newtons),
      ...(cut.force.inside_calibrated_range
        ? []
        : [element('p', { class: 'warn' }, 'Outside the calibrated range: the uncertainty is too small')]),
    ];
  }
  if (parted && cut.counts) {
    return [
      element('p', { class: 'figure counts' }, element('b', {}, words.whole(cut.counts.estimate)), ' counts'),
      element('p', { class: 'uncertainty' }, `± ${words.whole(2 * cut.counts.standard_uncertainty)} counts (k = 2)`),
      element('p', { class: 'warn' }, 'No calibration: no force'),
    ];
  }
  return [element('p', { class: 'figure outcome' }, words.outcome(cut.outcome))];
}

function largest(cut) {
  if (cut.force) return `largest reading ${words.number(cut.force.observed_max_gf, 1)} gf`;
  return cut.counts ? `largest reading ${words.whole(cut.counts.observed_max)} counts` : '';
}

export function show(cut) {
  if (!cut) return;
  fill(byId('last-cut-body'), cut, () => [
    ...figure(cut),
    element('p', { class: 'how' }, cut.outcome === 'severed' ? words.outcome(cut.outcome) : largest(cut)),
    ...(cut.set_aside ? [element('p', { class: 'warn' }, `Set aside: ${cut.set_aside}`)] : []),
    ...(cut.flags.length ? [element('p', { class: 'warn' }, `Mind: ${cut.flags.map(words.flag).join('; ')}`)] : []),
    element('p', { class: 'also' },
      [`cut ${cut.id}`, words.clock(cut.at), cut.stage, place(cut)].filter(Boolean).join(' · ')),
  ]);
  fill(byId('last-cut-acts'), [cut.id, cut.stage], () =>
    cut.stage ? [button('Place or set aside', () => edit(cut), { id: 'edit-last' })] : []);
}

const place = (cut) => (cut.place_mm === undefined ? '' : `${cut.place_mm} mm from the heel`);

export function edit(cut) {
  open = cut;
  byId('cut-dialog-title').textContent = `Cut ${cut.id}`;
  byId('cut-place').value = cut.place_mm ?? '';
  byId('aside-reason').value = '';
  byId('cut-dialog').showModal();
}

async function done(path, body, said) {
  if (await post(`cuts/${open.id}/${path}`, body)) {
    byId('cut-dialog').close();
    toast(said);
  }
}

export function begin() {
  byId('cut-dialog-close').addEventListener('click', () => byId('cut-dialog').close());
  onSubmit('cut-place-form', () => {
    const text = byId('cut-place').value;
    done('place', text === '' ? {} : { mm: Number(text) }, 'Place noted.');
  });
  onSubmit('aside-form', () =>
    done('set-aside', { reason: byId('aside-reason').value }, 'Set aside; it stays in the record.'));
}
