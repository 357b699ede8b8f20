// What a person hears and what keeps the screen awake. Sounds are off until asked for.

import { byId } from './dom.js';

// Each sound: hertz and seconds, in turn. Told apart by rhythm as well as by pitch.
const SOUNDS = {
  stored: [[880, 0.09]],
  unsure: [[440, 0.12], [440, 0.12]],
  lost: [[330, 0.25], [220, 0.25], [165, 0.4]],
};

let context;
let awake;
let wanted = false;

const on = () => localStorage.getItem('sounds') === 'on';

export function sound(name) {
  if (!on()) return;
  context ??= new AudioContext();
  let at = context.currentTime;
  for (const [hertz, seconds] of SOUNDS[name]) {
    const tone = context.createOscillator();
    const level = context.createGain();
    tone.frequency.value = hertz;
    level.gain.setValueAtTime(0.2, at);
    level.gain.exponentialRampToValueAtTime(0.001, at + seconds);
    tone.connect(level).connect(context.destination);
    tone.start(at);
    tone.stop(at + seconds);
    at += seconds + 0.05;
  }
}

export const cut = (now) => sound(now.outcome === 'severed' && now.flags.length === 0 ? 'stored' : 'unsure');

// The screen stays on while a session is open, where the browser can do that.
export async function keepAwake(open) {
  wanted = open;
  try {
    if (wanted && !awake && !document.hidden) {
      awake = await navigator.wakeLock?.request('screen');
      awake?.addEventListener('release', () => (awake = undefined));
    } else if (!wanted && awake) {
      await awake.release();
    }
  } catch {
    awake = undefined; // The browser refuses, for example when the battery is low.
  }
}

export function begin() {
  byId('sounds-on').checked = on();
  byId('sounds-on').addEventListener('change', (event) => {
    localStorage.setItem('sounds', event.target.checked ? 'on' : 'off');
    sound('stored');
  });
  document.addEventListener('visibilitychange', () => keepAwake(wanted));
}
