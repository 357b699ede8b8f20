// After a session has ended: what it brought, its report, and the way back into it.

import { byId, element, fill } from './dom.js';
import { get } from './acts.js';
import * as mend from './mend.js';
import { say } from './say.js';
import { outcome, reports } from './sessions.js';

let latest;

export async function show(bench) {
  const ended = bench.session ? undefined : bench.latest_session;
  byId('ended').hidden = !ended?.closed;
  byId('start-title').textContent = ended ? say('start.another') : say('start.title');
  if (!ended?.closed) {
    latest = undefined;
    return;
  }
  const key = JSON.stringify(ended);
  if (latest === key) return;
  latest = key;
  const session = await get(`sessions/${ended.number}`);
  if (!session || latest !== key) return;
  byId('ended-title').textContent = say('ended.title', { session: session.name });
  fill(byId('ended-body'), session, () => [
    ...outcome(session),
    reports(session),
    element('p', { class: 'acts' },
      element('a', { class: 'button', href: `#sessions/${session.number}` }, say('ended.all'))),
  ]);
}

export function begin(current) {
  byId('ended-reopen').addEventListener('click', () => mend.reopen(current().latest_session, () => {}));
}
