// Which part of the page is shown: by the part of the address after '#'.

import { byId } from './dom.js';

const VIEWS = ['bench', 'sessions', 'blades', 'words', 'rig'];
const opens = {};

export const onOpen = (view, act) => (opens[view] = act);

function go() {
  const [view, rest] = location.hash.replace(/^#/, '').split(/\/(.*)/s);
  const chosen = VIEWS.includes(view) ? view : 'bench';
  for (const name of VIEWS) {
    byId(`view-${name}`).hidden = name !== chosen;
    const link = byId(`to-${name}`);
    if (name === chosen) link?.setAttribute('aria-current', 'page');
    else link?.removeAttribute('aria-current');
  }
  opens[chosen]?.(rest ? decodeURIComponent(rest) : undefined);
  window.scrollTo(0, 0);
  if (chosen === 'words') point(rest);
}

// The entry that was asked for stands out.
function point(word) {
  document.querySelector('.words .asked')?.classList.remove('asked');
  const entry = byId(`word-${word}`);
  entry?.classList.add('asked');
  entry?.scrollIntoView({ block: 'center' });
}

export function begin() {
  window.addEventListener('hashchange', go);
  go();
}
