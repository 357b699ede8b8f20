// A photo of what was seen: made smaller here, which also leaves out where it was taken.

import { send, toast } from './acts.js';
import { element } from './dom.js';
import { say } from './say.js';

const LONGEST_SIDE = 2000;

async function smaller(file) {
  const image = await createImageBitmap(file);
  const scale = Math.min(1, LONGEST_SIDE / Math.max(image.width, image.height));
  const canvas = element('canvas', { width: Math.round(image.width * scale), height: Math.round(image.height * scale) });
  canvas.getContext('2d').drawImage(image, 0, 0, canvas.width, canvas.height);
  return new Promise((done) => canvas.toBlob(done, 'image/jpeg', 0.85));
}

async function keep(session, entry, text, file, whenDone) {
  let copy;
  try {
    copy = await smaller(file);
  } catch {
    return toast(say('inspect.photo_no'), true);
  }
  if (await send(`sessions/${session.number}/inspections/${entry}/photo`, 'image/jpeg', copy)) {
    toast(say('inspect.photo_kept', { what: text }));
    whenDone?.();
  }
  return undefined;
}

// What stands beside an inspection: its photo, or the way to one. A phone opens its camera.
export function beside(session, inspection, text, whenDone) {
  if (inspection.photo) {
    return element('a', { class: 'button', href: `/api/v1/photos/${inspection.photo}`, target: '_blank', rel: 'noopener' },
      say('inspect.photo_seen'));
  }
  const input = element('input', { type: 'file', accept: 'image/jpeg,image/png', capture: 'environment',
    'aria-label': say('inspect.photo_of', { what: text }), 'data-photo': inspection.entry });
  input.addEventListener('change', () => input.files[0] && keep(session, inspection.entry, text, input.files[0], whenDone));
  return element('label', { class: 'button photo' }, say('inspect.photo'), input);
}
