// Which part of the page is shown: by the part of the address after '#'.

import { byId } from './dom.js';

const VIEWS = ['bench', 'sessions', 'blades', 'rig'];
const opens = {};

export const onOpen = (view, act) => (opens[view] = act);

function go() {
  const [view, rest] = location.hash.replace(/^#/, '').split(/\/(.*)/s);
  const chosen = VIEWS.includes(view) ? view : 'bench';
  for (const name of VIEWS) {
    byId(`view-${name}`).hidden = name !== chosen;
    const link = byId(`to-${name}`);
    if (name === chosen) link.setAttribute('aria-current', 'page');
    else link.removeAttribute('aria-current');
  }
  opens[chosen]?.(rest ? decodeURIComponent(rest) : undefined);
  window.scrollTo(0, 0);
}

export function begin() {
  window.addEventListener('hashchange', go);
  go();
}
